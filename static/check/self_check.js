// The self-check column. Shows a page of plain data, keeps what is being typed, and sends what the student does.
// There are two ways to write, all lines in one box or one entry a step; the text is one, and so is the marked list.

import {foldable, forms, node, shelf, signature} from "halfturn/parts/common.js";

const shelved = shelf("halfturn.check.v1");

export function render({model, el}) {
  const root = node("div", {class: "work"}), said = node("p", {class: "unseen", role: "status"});
  el.append(root, said);
  let page = model.page, drafts = {}, opened = new Set(), sent = {};

  const send = (what, more = {}) => model.send_msg({do: what, ...more});
  const {ownLoad, notation, showFaults} = forms({root, page: () => page, drafts: () => drafts, save, send});
  const fold = (title, key, content) => foldable(opened, title, key, content);
  const text = () => drafts.text ?? page.text;
  const singly = () => drafts.way === "steps";

  function save() { shelved.save(page, drafts); }

  // --- the page, from top to bottom ---

  const paper = () => [
    node("header", {},
      node("p", {class: "lesson"}, page.lesson),
      node("h2", {}, "Check my working"),
      page.chosen ? node("p", {class: "given"}, page.problem.given) : theProblem(),
      ...page.notices.map(sentence => node("p", {class: "notice", role: "alert"}, sentence)),
      desk()),
    page.refusal ? node("p", {class: "refusal", role: "status"}, page.refusal) : null,
    ...(page.refusal || !page.chosen ? [] : [working(), ...marked()]),
    page.chosen ? node("p", {class: "caution"}, page.caution) : null,
  ].filter(part => part);

  const theProblem = () => node("div", {class: "first"},
    node("p", {}, "First the problem from your book; then your own values, as you wrote them."), ownLoad("This is the problem", {line: "50"}));

  function desk() {
    const clear = () => { drafts = {way: drafts.way}; send("clear"); };
    return node("div", {class: "desk"},
      page.chosen ? fold("Another problem", "own", ownLoad("Check against this problem")) : "",
      fold("Problems", "problems", choices()),
      fold("Notation", "notation", notation()),
      page.chosen ? node("button", {type: "button", "data-focus": "clear", onclick: clear}, "Clear my lines") : "");
  }

  const choices = () => node("ul", {class: "choices"}, ...page.choices.map(choice => node("li", {},
    node("button", {type: "button", "aria-current": page.chosen && choice.key === page.problem.key ? "true" : null,
      onclick: () => { opened.delete("problems"); send("open", {problem: choice.key}); }}, choice.title))));

  // --- writing ---

  function working() {
    return node("section", {class: "own-lines", "aria-labelledby": "own-lines"},
      node("h3", {id: "own-lines"}, "Your working"),
      node("fieldset", {class: "ways"}, node("legend", {class: "unseen"}, "How to write it"),
        way("lines", "All lines in one box"), way("steps", "One entry a step")),
      singly() ? stepByStep() : oneBox());
  }

  function way(name, words) {
    const input = node("input", {type: "radio", name: "way", value: name, "data-focus": `way ${name}`,
      onchange: () => { drafts.way = name; show(page); }});
    input.checked = singly() === (name === "steps");
    return node("label", {}, input, words);
  }

  function oneBox() {
    const area = node("textarea", {id: "working-text", "data-focus": "text", rows: String(Math.max(6, text().split("\n").length + 1)),
      spellcheck: "false", autocomplete: "off", autocapitalize: "off", "aria-describedby": "working-how working-text-fault",
      oninput: event => { drafts.text = event.target.value; save(); },
      onkeydown: event => { if (event.key === "Enter" && (event.ctrlKey || event.metaKey)) { event.preventDefault(); mark(); } }});
    area.value = text();
    const mark = () => {
      clearFaults();
      if (!area.value.trim()) return showFaults({form: "working", faults: {text: "There is nothing to mark yet: write a line such as zL = 0.5 - j1."}});
      sent = {text: area.value};
      send("mark", {text: area.value});
    };
    return node("form", {"data-form": "working", novalidate: true, onsubmit: event => { event.preventDefault(); mark(); }},
      node("div", {}, node("label", {for: "working-text", class: "unseen"}, "Your lines, one value a line"), area,
        node("p", {class: "example", id: "working-how"}, "One value a line, in any order, in your book's way: ",
          node("code", {}, "zL = 0.5 − j1"), ", ", node("code", {}, "d near = 0.172 λ"), ", ", node("code", {}, "l2: 62°"), "."),
        node("p", {class: "fault", id: "working-text-fault", role: "alert"})),
      node("div", {class: "after"}, node("button", {type: "submit", class: "next", "data-focus": "mark"}, "Mark my working"),
        fold("What can be written", "glossary", glossary())));
  }

  const glossary = () => node("div", {class: "glossary"},
    node("dl", {}, ...page.glossary.flatMap(([label, names]) => [node("dt", {}, label), node("dd", {}, names)])),
    node("p", {}, "Values in ohms or siemens, in wavelengths, degrees of line or millimetres, with j or i, as a + jb or size and ",
      "angle. Say near or far, 1 or 2, or nothing: then the line is taken for the solution it fits best."));

  // Every step with its entries, and under each entry what is said of its line.
  function stepByStep() {
    const submit = event => { event.preventDefault(); markEntries(); };
    return node("form", {"data-form": "working", novalidate: true, onsubmit: submit},
      node("p", {class: "fault", id: "working-text-fault", role: "alert"}),
      node("p", {class: "summary"}, page.summary),
      node("ol", {class: "steps"}, ...page.steps.map(step => node("li", {"data-step": step.key},
        heading(step), node("p", {class: "ask"}, step.ask),
        node("div", {class: "entries"}, ...step.fields.map(field => entry(step, field)))))),
      node("div", {class: "after"}, node("button", {type: "submit", class: "next", "data-focus": "mark"}, "Mark my working"),
        node("p", {class: "example"}, "Leave empty what you did not work out. Enter marks, too.")));
  }

  function markEntries() {
    clearFaults();
    const texts = {};
    for (const step of page.steps) for (const field of step.fields) {
      const typed = drafts[`entry ${field.key}`];
      if (typed !== undefined && typed !== field.text) texts[field.key] = typed;
    }
    sent = {text: text(), texts};
    send("entries", sent);
  }

  function entry(step, field) {
    const lines = step.lines.filter(line => line.field === field.key), value = drafts[`entry ${field.key}`] ?? field.text;
    return node("div", {class: "entry"}, ...(field.options.length ? choice(field, value) : box(field, value)),
      node("p", {class: "fault", id: `fault-${field.key}`}, field.fault), ...lines.map(line => marking(step, line, lines.length > 1)));
  }

  const draft = key => event => { drafts[`entry ${key}`] = event.target.value; save(); };

  function box(field, value) {
    const id = `entry-${field.key}`;
    const input = node("input", {id, type: "text", "data-field": field.key, "data-focus": field.key, autocomplete: "off", spellcheck: "false",
      autocapitalize: "off", "aria-describedby": `example-${field.key} fault-${field.key} line-${field.key}`,
      "aria-invalid": field.fault ? "true" : null, oninput: draft(field.key)});
    input.value = value;
    return [node("label", {for: id}, field.label), node("span", {class: "box"}, input),
      node("span", {class: "example", id: `example-${field.key}`}, `such as ${field.example}`)];
  }

  function choice(field, value) {
    const id = `entry-${field.key}`;
    const select = node("select", {id, "data-field": field.key, "data-focus": field.key, "aria-describedby": `line-${field.key}`,
      onchange: draft(field.key)}, node("option", {value: ""}, "not given"), ...field.options.map(([key, words]) => node("option", {value: key}, words)));
    select.value = value;
    return [node("label", {for: id}, field.label), node("span", {class: "box"}, select)];
  }

  // --- what is said of it ---

  function marked() {
    if (!page.summary) return [];
    const lined = page.steps.filter(step => step.lines.length);
    return [node("section", {class: "marked", "aria-labelledby": "marked"},
      node("h3", {id: "marked", tabindex: "-1"}, "Marked"),
      singly() ? "" : node("p", {class: "summary"}, page.summary),
      ...page.remarks.map(text => node("p", {class: "note"}, text)),
      page.unread.length ? node("ul", {class: "unread", "aria-label": "Not read"}, ...page.unread.map(text => node("li", {},
        node("strong", {}, "? Not read"), ` ${text}`))) : "",
      singly() ? "" : node("ol", {class: "steps"}, ...lined.map(step => node("li", {"data-step": step.key},
        heading(step), ...step.lines.map(line => marking(step, line, true))))),
      ...page.designs.map(design))];
  }

  const heading = step => node("h4", {}, node("span", {class: "number", "aria-hidden": "true"}, String(step.number)), step.title);

  function marking(step, line, written) {
    const {judgement, sign, word, sentence} = line.verdict;
    const wrong = !["right", "close"].includes(judgement);
    return node("div", {class: "line", "data-line": line.key},
      written ? node("p", {class: "written"}, node("span", {class: "which"}, line.label), node("code", {}, line.written)) : "",
      ...line.notes.map(text => node("p", {class: "note"}, text)),
      node("div", {class: "mark"},
        node("p", {class: `verdict ${judgement}`, id: `line-${line.key}`}, node("strong", {}, `${sign} ${word}`), sentence ? ` ${sentence}` : ""),
        node("div", {class: "asks"},
          wrong ? fold("First hint", `hint ${line.key}`, node("div", {class: "hint"}, ...step.goal.map(text => node("p", {}, text)))) : "",
          asking(line.key, line.label, line.solver, "the solver's value"))),
      line.solver ? node("p", {class: "solver"}, line.solver) : "");
  }

  const asking = (key, label, shown, what) => node("button", {type: "button", class: "quiet", "data-focus": `ask ${key}`,
    "aria-pressed": shown ? "true" : "false", "aria-label": `${shown ? "Hide" : "Show"} ${what}: ${label}`,
    onclick: () => send("ask", {key})}, `${shown ? "Hide" : "Show"} ${what}`);

  function design(one) {
    const {judgement, sign, word, sentence} = one.verdict, shown = one.offs.length > 0;
    return node("section", {class: "design", "data-line": one.key},
      node("h4", {}, `${one.title}: `, node("code", {}, one.lengths)),
      node("p", {class: `verdict ${judgement}`}, node("strong", {}, `${sign} ${word}`), ` ${sentence}`),
      one.mayAsk ? node("div", {class: "asks"}, asking(one.key, one.title, shown, "how far each length is from best")) : "",
      ...one.offs.map(text => node("p", {class: "solver"}, text)));
  }

  function clearFaults() {
    for (const fault of root.querySelectorAll('[data-form="working"] [role=alert]')) fault.textContent = "";
  }

  // --- what comes from the program ---

  function show(next, announce = false) {
    if (signature(page) !== signature(next)) drafts = {way: drafts.way, ...(drafts.text === undefined ? {} : {text: drafts.text})};
    page = next;
    const active = root.getRootNode().activeElement;
    const focus = active?.dataset?.focus, caret = active?.selectionStart;
    root.replaceChildren(...paper());
    save();
    const again = focus && root.querySelector(`[data-focus="${CSS.escape(focus)}"]`);
    if (again) { again.focus({preventScroll: true}); try { again.setSelectionRange(caret, caret); } catch { /* no text */ } }
    if (!announce) return;
    said.textContent = page.summary;
    if (!singly()) arrive(root.querySelector("#marked"));
  }

  function arrive(here) {
    if (!here) return;
    here.focus({preventScroll: true});
    const calm = matchMedia("(prefers-reduced-motion: reduce)").matches;
    here.closest("section").scrollIntoView({block: "nearest", behavior: calm ? "auto" : "smooth"});
  }

  function settle() {                                          // what was sent is no draft any more; what was typed since is
    if (drafts.text === sent.text) delete drafts.text;
    for (const [key, value] of Object.entries(sent.texts ?? {})) if (drafts[`entry ${key}`] === value) delete drafts[`entry ${key}`];
    const marking = "text" in sent;
    sent = {};
    return marking;
  }

  model.on("msg:custom", event => {
    const heard = event.data ?? event;
    if (heard.page) { if (heard.page.fresh) revive(heard.page); else show(heard.page, settle()); }
    if (heard.faults) { sent = {}; showFaults(heard.faults); }
  });

  function revive(next) {                                       // a problem worked on before comes back as it was left
    const before = shelved.kept().sheets[signature(next)];
    if (before?.record?.text) { drafts = before.drafts ?? {}; opened.delete("own"); return show(next), send("restore", {record: before.record}); }
    opened.delete("own");
    show(next);
  }

  const store = shelved.kept(), before = store.sheets[page.linked ? signature(page) : store.last];
  if (before) { drafts = before.drafts ?? {}; send("restore", {record: before.record}); } else save();
  root.replaceChildren(...paper());
  document.documentElement.dataset.sheet = "ready";
}
