// The presenter's page: it follows the lecture that is open in the same browser, and can step it. The two pages speak
// to each other through the browser; the server is not asked.

const CHANNEL = "halfturn.lecture";
const STARTED = "halfturn.lecture.started";
const MARKS = {near: "▲", far: "◆"};
const STEPS = {ArrowRight: "forward", PageDown: "forward", " ": "forward", ArrowLeft: "back", PageUp: "back", ".": "values", v: "values"};

export function render({model, el}) {
  const root = node("div", {class: "notes"}), clock = node("p", {class: "clock", role: "timer"});
  const state = node("div", {class: "state"}), said = node("div", {class: "heard", role: "status"});
  const channel = new BroadcastChannel(CHANNEL);
  let lecture = "", started = Number(sessionStorage.getItem(STARTED));
  if (!started) restart();

  const ask = act => channel.postMessage({to: lecture, act});
  const button = (act, words) => node("button", {type: "button", "data-act": act, onclick: () => ask(act)}, words);
  const controls = node("p", {class: "controls"}, button("back", "Back"), button("forward", "Forward"), button("values", "Reveal or hide values"));
  root.append(node("header", {}, clock, node("button", {type: "button", onclick: () => { restart(); tick(); }}, "Start the time again")), controls, state, said);
  el.append(root);

  function restart() {
    started = Date.now();
    try { sessionStorage.setItem(STARTED, started); } catch { /* only for this visit */ }
  }

  const two = number => String(number).padStart(2, "0");
  function tick() {
    const now = new Date(), ran = Math.floor((now - started) / 1000);
    clock.replaceChildren(node("span", {class: "now"}, `${two(now.getHours())}:${two(now.getMinutes())}`),
      node("span", {class: "ran"}, `running ${two(Math.floor(ran / 60))}:${two(ran % 60)}`));
  }

  // --- what the lecture shows, what it leads to, and what goes wrong there ---

  function show({given, refusal, index, count, frame, next, told, showing, ...modes}) {
    const on = [showing, told ? "values revealed" : "values hidden", modes.penOn && "pen on", modes.blank && "chart blank",
      modes.spotlight && "spotlight", modes.moving && "load can be moved"].filter(word => word);
    controls.hidden = false;
    state.replaceChildren(...[
      node("p", {class: "given"}, given),
      refusal ? node("p", {class: "refusal"}, refusal) : "",
      frame ? current(frame, `${index + 1} of ${count}`, on) : "",
      frame ? coming(next) : "",
    ].filter(part => part));
    said.textContent = frame ? `${index + 1} of ${count}: ${frame.title}.` : refusal;
  }

  const side = one => one ? node("span", {class: one}, ` ${MARKS[one]} ${one}`) : "";

  const current = (frame, place, on) => node("section", {"aria-label": "Now", "data-frame": frame.key},
    node("p", {class: "place"}, place, ...on.map(word => ` · ${word}`)), node("h2", {}, frame.title, side(frame.side)),
    ...[frame.ask, frame.rule, frame.numbers].filter(text => text).map(text => node("p", {}, text)),
    node("ul", {class: "values"}, ...frame.outcomes.map(one => node("li", {}, side(one.side), ` ${one.label}: `, node("b", {}, one.text)))),
    frame.because ? node("p", {class: "because"}, frame.because) : "",
    frame.strokes.length ? node("div", {}, node("h3", {}, "Drawn"), node("ul", {}, ...frame.strokes.map(text => node("li", {}, text)))) : "",
    frame.slips.length ? node("div", {}, node("h3", {}, "Usual slips"), node("ul", {class: "slips"}, ...frame.slips.map(slip =>
      node("li", {}, node("b", {}, slip.gives.join(", ")), ` means ${slip.doing}. ${slip.remedy}`)))) : "");

  const coming = next => node("section", {class: "next", "aria-label": "Next"}, node("h3", {}, "Next"),
    next ? node("p", {}, node("b", {}, next.title), side(next.side), next.ask ? ` ${next.ask}` : "") : node("p", {}, "That was the last one."));

  function alone() {
    controls.hidden = true;
    state.replaceChildren(node("p", {}, "No lecture is open in this browser. ", node("a", {href: "../lecture"}, "Open the lecture"),
      " in another window: this page follows it."));
  }

  channel.onmessage = ({data}) => {
    if (data.gone && data.from === lecture) return alone();
    if (!data.state) return undefined;
    lecture = data.from;
    return show(data.state);
  };

  const onKey = event => {
    const target = event.composedPath()[0], act = STEPS[event.key];
    if (!act || event.ctrlKey || event.metaKey || event.altKey || (event.key === " " && /^(BUTTON|A)$/.test(target.tagName))) return;
    event.preventDefault();
    ask(act);
  };
  document.addEventListener("keydown", onKey);
  const timer = setInterval(tick, 1000);
  model.on("remove", () => { document.removeEventListener("keydown", onKey); clearInterval(timer); channel.close(); });

  tick();
  alone();
  channel.postMessage({ask: true});
  document.documentElement.dataset.notes = "ready";
}
