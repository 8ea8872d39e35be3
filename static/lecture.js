// The lecture in the browser: which frame is shown, what of it is revealed, the keys, and the presenter's page.
// The server has sent every frame already; it is asked only for another problem, notation, or way to show near and far.

const IDLE = 3000; // milliseconds after which the buttons hide in full screen
const DIMMED = {spotlight: "0.16", moving: "0.4"};

export function render({model, el}) {
  const html = document.documentElement, before = kept();
  let script = model.script, notices = script.notices ?? [], index = 0, revealed = new Set(before.revealed);
  let blank = false, lit = -1, penOn = false, moving = false, wanted = before.frame, drafts = {};
  let showing = before.showing ?? script.showing, submitted = false;

  const send = (what, more = {}) => model.send_msg({do: what, ...more});
  const submit = (what, more) => { submitted = true; send(what, more); };
  const root = node("div", {class: "talk"});
  const panel = node("div", {class: "panel"}), modes = node("p", {class: "modes", "aria-hidden": "true"});
  const said = node("div", {class: "heard", role: "status"}), brief = node("p", {class: "brief"});
  const penLayer = document.createElementNS(PEN_SVG, "svg");
  penLayer.setAttribute("class", "pen");
  const pen = makePen(penLayer, () => document.getElementById("stage").getBoundingClientRect());
  const form = forms({root, page: () => script, drafts: () => drafts, save: () => {}, send: submit});
  let card = keyCard(script, name => { shut(card); act(name); }), entry = loadEntry(script, form, submit);
  const buttons = Object.fromEntries(KEYS.filter(({button}) => button).map(({act: name, button, written, does}) => [name,
    node("button", {type: "button", "data-act": name, title: `${does} (${written})`, onclick: event => press(event, name)}, button)]));
  const bar = node("div", {class: "bar", role: "toolbar", "aria-label": "Lecture"}, buttons.back, buttons.forward,
    ...Object.entries(buttons).filter(([name]) => !["back", "forward"].includes(name)).map(([, button]) => button));
  root.append(panel, modes, penLayer, node("footer", {class: "strip"}, brief, bar), said, card, entry);
  el.append(root);

  // --- what is shown ---

  const frame = () => script.frames[index];
  const told = one => revealed.has(one.key);
  const drawnFrames = () => script.frames.slice(0, index + 1).filter(({strokes}) => strokes.length);
  // Strokes in the order of the spotlight: those of the newest construction first.
  const strokesInTurn = () => drawnFrames().reverse().flatMap(one => one.strokes.map(stroke => ({one, stroke})));

  function dressed(stroke, one, current) {
    const {quiet, ...line} = stroke;
    return {...line, value: current && told(one) ? line.value : "", spoken: told(one) ? line.spoken : quiet};
  }

  function groups() {
    if (blank) return [];
    const shown = drawnFrames(), light = strokesInTurn()[lit];
    if (!light) return shown.map((one, i) => {
      const current = i === shown.length - 1;
      return {key: one.key, current, strokes: one.strokes.map(stroke => dressed(stroke, one, current))};
    });
    const others = shown.flatMap(one => one.strokes.filter(stroke => stroke !== light.stroke).map(stroke => dressed(stroke, one, false)));
    return [{key: "others", current: false, strokes: others},
      {key: "lit", current: true, strokes: [dressed(light.stroke, light.one, true)]}];
  }

  const draw = animate => document.dispatchEvent(new CustomEvent("halfturn:show", {detail: {groups: groups(), animate}}));
  const say = text => { said.textContent = text; };

  function paint(animate = false) {
    draw(animate);
    panel.replaceChildren(...[
      ...notices.map(text => node("p", {class: "notice", role: "alert"}, text)),
      script.refusal ? node("p", {class: "refusal", role: "alert"}, script.refusal) : "",
      frame() ? frameWords(frame(), told(frame())) : "",
      frame() && index === 0 ? node("p", {class: "given"}, script.given) : "",
    ].filter(part => part));
    brief.textContent = script.brief;
    showModes();
    fit();
    remember();
    notes.tell();
  }

  // Text is as large as the room at the back needs; only where it does not fit it is set smaller.
  function fit() {
    let size = 1;
    panel.style.setProperty("--fit", size);
    while (panel.scrollHeight > panel.clientHeight + 1 && size > 0.6) panel.style.setProperty("--fit", (size -= 0.04).toFixed(2));
    brief.style.fontSize = "";
    const room = brief.clientWidth / brief.scrollWidth;
    if (room < 1) brief.style.fontSize = `${Math.max(0.5, room) * parseFloat(getComputedStyle(brief).fontSize)}px`;
  }

  function showModes() {
    const words = [penOn && "Pen on", blank && "Chart blank", lit >= 0 && "Spotlight", moving && "Move the load"].filter(word => word);
    modes.replaceChildren(...words.map(word => node("span", {}, word)));
    html.style.setProperty("--others", lit >= 0 ? DIMMED.spotlight : "1");
    html.style.setProperty("--drawn", moving ? DIMMED.moving : "1");
    html.dataset.pen = penOn ? "on" : "off";
    const pressed = {values: frame() && told(frame()), blank, spotlight: lit >= 0};
    for (const [name, on] of Object.entries(pressed)) buttons[name].setAttribute("aria-pressed", String(Boolean(on)));
    buttons.showing.textContent = SHOWN_AS[script.showing];
    buttons.light.textContent = LIGHTS[light()];
    buttons.back.disabled = index === 0;
    buttons.forward.disabled = index >= script.frames.length - 1;
  }

  // --- what the browser keeps, and the address ---

  function remember() {
    if (html.dataset.lecture !== "ready") return;
    keep({problem: script.entries, notation: script.notation, query: script.query, showing: script.showing,
      frame: frame()?.key ?? wanted, revealed: [...revealed], light: kept().light});
    history.replaceState(null, "", `${location.pathname}?${script.query}`); // a reload then finds this problem
  }

  function take(next) {
    const all = script.frames.length && script.frames.every(told);
    if (html.dataset.lecture === "ready" && frame()) wanted = frame().key;
    script = next;
    showing = next.showing;
    if (all) script.frames.forEach(({key}) => revealed.add(key));
    [index, lit, drafts, notices] = [placeOf(wanted), -1, {}, []];
    if (submitted || !entry.open) renewEntry();
    paint();
    say([script.given, SHOWN_AS[script.showing], frame()?.spoken ?? script.refusal].join(". "));
  }

  // The entry begins anew with what is shown; one that was opened in the meantime stays open.
  function renewEntry() {
    const renewed = loadEntry(script, form, submit);
    if (entry.open) shut(entry);
    entry.replaceWith(renewed);
    [entry, submitted] = [renewed, false];
  }

  // The frame of that key; else one of the same step; else as far on as before.
  function placeOf(key) {
    const exact = script.frames.findIndex(one => one.key === key), step = key.split(".")[0];
    if (exact >= 0) return exact;
    const same = script.frames.findIndex(one => one.key.split(".")[0] === step);
    return same >= 0 ? same : Math.max(0, Math.min(index, script.frames.length - 1));
  }

  // --- what can be done ---

  function go(to) {
    const next = Math.max(0, Math.min(script.frames.length - 1, to)), onward = next === index + 1;
    if (!frame() || (next === index && !blank)) return;
    [index, blank, lit, notices] = [next, false, -1, []];
    paint(onward);
    say(told(frame()) ? `${frame().spoken} ${frame().spoken_values}` : frame().spoken);
  }

  const acts = {
    forward: () => go(index + 1),
    back: () => go(index - 1),
    first: () => go(0),
    last: () => go(script.frames.length - 1),
    values() {
      if (!frame()) return;
      if (told(frame())) revealed.delete(frame().key); else revealed.add(frame().key);
      paint();
      say(told(frame()) ? frame().spoken_values : "Values hidden.");
    },
    "all values"() {
      revealed = script.frames.every(told) ? new Set() : new Set(script.frames.map(({key}) => key));
      paint();
      say(revealed.size ? "All values revealed." : "All values hidden.");
    },
    spotlight() {
      const strokes = strokesInTurn();
      if (!strokes.length) return say("Nothing is drawn yet.");
      blank = false;
      lit = (lit + 1) % strokes.length;
      paint();
      const {one, stroke} = strokes[lit];
      return say(told(one) ? stroke.spoken : stroke.quiet);
    },
    blank() { blank = !blank; lit = -1; paint(); say(blank ? "Chart blank." : "Chart as before."); },
    pen() { penOn = !penOn; pen.set(penOn); paint(); say(penOn ? "Pen on. P ends it, C clears." : "Pen off."); },
    clear() { pen.clear(); say("Pen lines cleared."); },
    showing() {
      showing = script.showings[(script.showings.indexOf(showing) + 1) % script.showings.length];
      send("showing", {showing});
    },
    load() { entry.showModal(); entry.querySelector("#own-load").select(); },
    move() { setMoving(!moving); },
    closer() { toPad("+"); },
    further() { toPad("-"); },
    whole() { toPad("0"); },
    light() { setLight(Object.keys(LIGHTS)[(Object.keys(LIGHTS).indexOf(light()) + 1) % 3]); paint(); },
    full() {
      if (document.fullscreenElement) document.exitFullscreen();
      else html.requestFullscreen().catch(() => say("This browser does not allow full screen here."));
    },
    notes() { open("lecture/notes", "halfturn-notes"); },
    keys() { if (card.open) shut(card); else card.showModal(); },
    end() {
      if (card.open) return shut(card);
      if (lit >= 0) lit = -1; else if (moving) return setMoving(false); else if (penOn) return acts.pen(); else if (blank) blank = false;
      return paint();
    },
  };
  const act = name => acts[name]?.();

  const pad = () => deep(document.getElementById("stage"), ".pad");
  const toPad = key => pad().dispatchEvent(new KeyboardEvent("keydown", {key}));

  function setMoving(on) {
    moving = on;
    send("move", {on});
    if (on) pad().focus({preventScroll: true}); else pad().blur();
    paint();
    say(on ? "Drag the load’s point, or move it with the arrow keys and press Enter. Escape ends it." : "The load stays.");
  }

  const light = () => html.dataset.theme || (matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light");
  function setLight(name) {
    html.dataset.theme = name;
    keep({...kept(), light: name});
  }

  // --- keys, pointers, size ---

  // After a click the keys are for the lecture again; who came with the Tab key stays where he is.
  function press(event, name) {
    if (event.detail) event.currentTarget.blur();
    act(name);
  }

  function onKey(event) {
    const path = event.composedPath(), target = path[0], name = actOf(event);
    if (event.key === "Tab") wake();
    if (event.key === "Escape" && entry.open) return shut(entry);
    if (!name || entry.open || /^(INPUT|TEXTAREA|SELECT)$/.test(target.tagName) || target.isContentEditable) return;
    if (/^(BUTTON|A|SUMMARY)$/.test(target.tagName) && event.key === " ") return;
    if (!event.isTrusted || (moving && event.key.startsWith("Arrow") && path.includes(pad()))) return;
    if (name === "end" && !card.open && lit < 0 && !moving && !penOn && !blank) return;
    event.preventDefault();
    event.stopPropagation();
    if (event.repeat && !["forward", "back"].includes(name)) return;
    if (card.open && !["keys", "end"].includes(name)) shut(card);
    act(name);
  }

  // Close a dialog and leave its entries at once, so that the very next key is for the lecture.
  function shut(dialog) {
    dialog.close();
    root.getRootNode().activeElement?.blur();
  }

  let idle = 0;
  function wake() {
    html.classList.remove("idle");
    bar.classList.remove("idle");
    clearTimeout(idle);
    if (document.fullscreenElement) idle = setTimeout(() => { bar.classList.add("idle"); html.classList.add("idle"); }, IDLE);
  }

  function onResize() {
    fit();
    pen.redraw();
  }

  // --- the presenter's page ---

  const words = one => one && {...one, strokes: one.strokes.map(({spoken}) => spoken)};
  const notes = makeNotesLink(() => ({given: script.given, refusal: script.refusal, index, count: script.frames.length,
    frame: words(frame()), next: words(script.frames[index + 1]), told: Boolean(frame() && told(frame())),
    showing: SHOWN_AS[script.showing], penOn, blank, moving, spotlight: lit >= 0}), name => act(name));

  const heard = [[document, "keydown", onKey, true], [document, "pointermove", wake], [document, "pointerdown", wake],
    [document, "fullscreenchange", wake], [window, "resize", onResize], [window, "pagehide", notes.leave]];
  for (const [target, type, listener, capture] of heard) target.addEventListener(type, listener, capture);
  model.on("remove", () => {
    for (const [target, type, listener, capture] of heard) target.removeEventListener(type, listener, capture);
    clearTimeout(idle);
    notes.close();
    delete html.dataset.lecture;
  });

  model.on("msg:custom", event => {
    const message = event.data ?? event;
    if (message.faults) {
      submitted = false;
      form.showFaults(message.faults);
    }
    if (message.script) {
      take(message.script);
      start();
    }
  });

  function start() {
    if (html.dataset.lecture === "ready") return;
    html.dataset.lecture = "ready";
    remember();
  }

  // A link says what to show. Without one, or where the address is what this page made it, the lecture goes on as it was
  // left: after a reload, a lost connection, or with another server.
  if (before.light in LIGHTS) html.dataset.theme = before.light;
  const linked = script.linked && location.search !== `?${before.query}`, fresh = linked || !before.problem;
  const {problem, notation} = fresh ? {problem: script.entries, notation: script.notation} : before;
  if (JSON.stringify(problem) !== JSON.stringify(before.problem)) [wanted, revealed] = ["", new Set()];
  const asIs = [[problem, script.entries], [notation, script.notation], [showing, script.showing]];
  if (asIs.every(([wish, is]) => JSON.stringify(wish) === JSON.stringify(is))) {
    index = placeOf(wanted);
    paint();
    start();
  } else send("restore", {problem, notation, showing});
}
