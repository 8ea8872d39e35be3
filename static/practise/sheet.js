// The worksheet column. Shows a page of plain data, keeps what is being typed, and sends what the student does.
// All text goes in as text, never as markup.

import {foldable, forms, node, shelf, signature} from "halfturn/parts/common.js";
import {savePng, saveSvg} from "halfturn/parts/save.js";

const LARGEST_FILE = 200_000;
const EXPORTS = [["chart", "svg", "Save the chart as SVG"], ["chart", "png", "Save the chart as PNG"],
  ["sheet", "svg", "Save the worked sheet as SVG"], ["sheet", "png", "Save the worked sheet as PNG"]];

const shelved = shelf("halfturn.v1");

// --- the component ----------------------------------------------------------------------------------------------

export function render({model, el}) {
  const root = node("div", {class: "work"});
  el.append(root);
  let page = model.page, drafts = {}, opened = new Set(), heard = false, displaced = null;

  const send = (what, more = {}) => model.send_msg({do: what, ...more});
  const {ownLoad, notation, showFaults} = forms({root, page: () => page, drafts: () => drafts, save, send});
  const inputs = key => [...root.querySelectorAll(`[data-field="${CSS.escape(key)}"]`)];

  function save() { shelved.save(page, drafts); }

  function show(next) {
    const wasAt = page && page.steps.find(step => !step.done)?.key;
    if (page && signature(page) !== signature(next)) { drafts = {}; opened = new Set(); displaced = null; }
    if (next.brought) setAside(next);
    page = next;
    const active = root.getRootNode().activeElement;
    const focus = active?.dataset?.focus, caret = active?.selectionStart;
    root.replaceChildren(...paper());
    save();
    const current = page.steps.find(step => !step.done)?.key;
    if (heard && current !== wasAt) return arrive(current);
    const again = focus && root.querySelector(`[data-focus="${CSS.escape(focus)}"]`);
    if (again) { again.focus({preventScroll: true}); try { again.setSelectionRange(caret, caret); } catch { /* no text */ } }
  }

  // A sheet from a link or a file takes the place of one's own for the same problem, which can be had back.
  function setAside(next) {
    const own = shelved.kept().sheets[signature(next)]?.record;
    const differs = own && JSON.stringify(own.sheet.entries) !== JSON.stringify(next.record.sheet.entries);
    displaced = differs && Object.keys(own.sheet.entries).length ? own : null;
  }

  function bringBack() {
    const record = displaced;
    displaced = null;
    send("restore", {record});
  }

  function arrive(step) {                                      // a new step: attention goes to its first entry
    const here = root.querySelector(step ? ".current" : ".closing");
    (here?.querySelector("input:not([type=radio]), input[type=radio], button.next") ?? here)?.focus({preventScroll: true});
    const calm = matchMedia("(prefers-reduced-motion: reduce)").matches;
    here?.scrollIntoView({block: "nearest", behavior: calm ? "auto" : "smooth"});
  }

  // --- the sheet, from top to bottom ---

  const paper = () => [
    node("header", {},
      node("p", {class: "lesson"}, page.lesson),
      node("h2", {}, page.problem.title),
      node("p", {class: "story"}, page.problem.story),
      node("p", {class: "given"}, page.problem.given),
      displaced ? node("p", {class: "notice"}, "You had a sheet of your own for this problem. ",
        node("button", {type: "button", "data-focus": "bring back", onclick: bringBack}, "Bring it back")) : "",
      ...page.notices.map(text => node("p", {class: "notice", role: "alert"}, text)),
      desk()),
    page.refusal ? node("p", {class: "refusal", role: "status"}, page.refusal) : null,
    node("ol", {class: "steps"}, ...page.steps.map(oneStep)),
    page.refusal || !page.count ? null : ending(),
  ].filter(part => part);

  function desk() {
    const again = () => { drafts = {}; send("start over"); };
    return node("div", {class: "desk"},
      disclosure("Problems", "problems", choices()),
      disclosure("My own load", "own", ownLoad("Work on this load")),
      disclosure("Notation", "notation", notation()),
      disclosure("Keep and share", "keep", keeping()),
      node("button", {type: "button", "data-focus": "random", onclick: () => send("random")}, "Random problem"),
      node("button", {type: "button", "data-focus": "again", onclick: again}, "Start over"));
  }

  const disclosure = (title, key, content) => foldable(opened, title, key, content);

  // A sheet goes to a file, to a link, or to paper, and comes back from the first two.
  function keeping() {
    const address = query => `${location.origin}${location.pathname}?${query}`;
    const link = (label, query) => node("label", {class: "pair"}, label,
      node("input", {type: "text", readonly: true, value: address(query), onfocus: event => event.target.select()}));
    const file = node("input", {type: "file", id: "open-file", accept: ".json,application/json", onchange: openFile});
    return node("div", {class: "own"},
      node("button", {type: "button", "data-focus": "save", onclick: saveFile}, "Save the sheet to a file"),
      node("label", {class: "pair", for: "open-file"}, "Open a sheet from a file", file),
      link("Link to this problem", page.links.problem), link("Link to the whole sheet", page.links.sheet),
      ...EXPORTS.map(([what, kind, words]) => node("button", {type: "button", "data-focus": words,
        onclick: () => send("export", {what, kind})}, words)),
      node("button", {type: "button", "data-focus": "print", onclick: () => print()}, "Print the page"));
  }

  function saveFile() {
    const blob = new Blob([JSON.stringify(page.record.sheet, null, 1)], {type: "application/json"});
    const name = page.problem.title.toLowerCase().replace(/[^a-z0-9]+/g, "-") || "sheet";
    const link = node("a", {href: URL.createObjectURL(blob), download: `halfturn-${name}.json`});
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 1000);
  }

  async function saveDrawings({name, drawings, kind}) {
    const save = kind === "svg" ? saveSvg : savePng;
    for (const [index, svg] of drawings.entries()) await save(drawings.length > 1 ? `${name} ${index + 1}` : name, svg);
  }

  async function openFile(event) {
    const file = event.target.files[0];
    if (!file) return;
    let record = null;
    if (file.size <= LARGEST_FILE) try { record = JSON.parse(await file.text()); } catch { /* said by the program */ }
    send("open file", {record});
  }

  const choices = () => node("ul", {class: "choices"}, ...page.choices.map(choice => node("li", {},
    node("button", {type: "button", "aria-current": choice.key === page.problem.key ? "true" : null,
                    onclick: () => { opened.delete("problems"); send("open", {key: choice.key}); }}, choice.title))));

  function oneStep(step, index) {
    if (step.worked.length) return workedStep(step, index);
    const head = [node("span", {class: "number", "aria-hidden": "true"}, String(index + 1)), step.title];
    if (!step.done) {
      return node("li", {class: "current", "aria-current": "step", "data-step": step.key},
        node("h3", {}, ...head), node("p", {class: "ask"}, step.ask), page.guided ? guided(step) : asked(step));
    }
    const body = node("div", {class: "body"}, node("p", {class: "ask"}, step.ask), asked(step),
      node("p", {class: "because"}, step.because));
    const line = node("summary", {"data-focus": `step ${step.key}`}, node("span", {class: "title"}, ...head),
      node("span", {class: "values"}, ...values(step)));
    const box = node("details", {open: opened.has(step.key)}, line, body);
    box.addEventListener("toggle", () => box.open ? opened.add(step.key) : opened.delete(step.key));
    const isLast = page.steps.findLastIndex(one => one.done) === index;
    return node("li", {class: "done", "data-step": step.key}, box,
      isLast && step.said ? node("p", {class: "said", role: "status"}, step.said) : "");
  }

  // The step that the tutor has just done, in full: what was asked, how it is found, what comes out, and why.
  const workedStep = (step, index) => node("li", {class: "worked", "data-step": step.key, tabindex: "-1"},
    node("h3", {}, node("span", {class: "number", "aria-hidden": "true"}, String(index + 1)), step.title),
    node("p", {class: "ask"}, step.ask), ...step.worked.map(text => node("p", {}, text)),
    node("p", {class: "result"}, ...values(step)), node("p", {class: "because"}, step.because));

  const values = step => step.values.flatMap((value, index) => [
    index ? node("span", {class: "and"}, " · ") : "",
    value.which ? node("span", {class: "which"}, `${value.which} `) : "",
    node("span", {class: "value"}, value.text),
    node("span", {class: `sign ${value.judgement}`}, ` ${value.sign}${value.carried ? ` ${value.carried}` : ""}`)]);

  const guided = step => node("div", {class: "guide"},
    page.shown ? "" : node("p", {}, "This first problem is worked for you, one step a press. You can take over at any time."),
    node("button", {type: "button", class: "next", "data-focus": "next", onclick: () => send("show next")}, "Show this step"),
    node("button", {type: "button", "data-focus": "alone", onclick: () => send("solve alone")}, "Let me solve it"));

  function asked(step) {
    return node("div", {class: "asked"}, ...step.fields.map(field => entry(step, field)), help(step));
  }

  function entry(step, field) {
    const name = `verdict-${field.key}`, check = () => send("enter", {field: field.key, text: typed(field)});
    const form = node("form", {class: "entry", novalidate: true, onsubmit: event => { event.preventDefault(); check(); }},
      ...(field.options.length ? radios(field, name) : textBox(step, field, name)),
      verdict(field, name));
    return form;
  }

  const typed = field => field.options.length
    ? (inputs(field.key).find(input => input.checked)?.value ?? "")
    : inputs(field.key)[0].value;

  function textBox(step, field, name) {
    const id = `entry-${field.key}`, notes = [`hint-${field.key}`, field.verdict ? name : ""].join(" ").trim();
    const input = node("input", {id, "data-field": field.key, "data-focus": field.key, type: "text", autocomplete: "off",
      spellcheck: "false", autocapitalize: "off", inputmode: "text", "aria-describedby": notes,
      "aria-invalid": field.verdict && ["slip", "wrong", "unreadable", "impossible"].includes(field.verdict.judgement) ? "true" : null,
      oninput: event => { drafts[field.key] = event.target.value; save(); },
      onfocus: () => attend(field)});
    input.value = drafts[field.key] ?? field.text;
    const draw = field.drawable && !step.done ? drawLink(field) : "";
    return [node("label", {for: id}, field.label),
      node("span", {class: "box"}, input, node("span", {class: "unit"}, field.unit),
        node("button", {type: "submit", "data-focus": `check ${field.key}`, "aria-label": `Check ${field.label}`}, "Check")),
      node("span", {class: "example", id: `hint-${field.key}`}, `such as ${field.example}`, draw)];
  }

  const drawLink = field => node("span", {class: "or"}, ", or ", node("button", {type: "button", class: "link",
    "data-focus": `draw ${field.key}`, onclick: () => { attend(field); document.dispatchEvent(new CustomEvent("halfturn:draw")); }},
    "draw it on the chart"));

  function attend(field) {
    if (!field.drawable || page.focus === field.key) return;
    page.focus = field.key;
    send("focus", {field: field.key});
  }

  const radios = (field, name) => [
    node("fieldset", {"aria-describedby": field.verdict ? name : null}, node("legend", {}, field.label),
      ...field.options.map(option => {
        const input = node("input", {type: "radio", name: field.key, value: option.key, "data-field": field.key,
          "data-focus": `${field.key} ${option.key}`,
          onchange: () => { drafts[field.key] = option.key; save(); attend(field); }});
        input.checked = (drafts[field.key] ?? field.value) === option.key;
        return node("label", {}, input, option.words);
      })),
    node("button", {type: "submit", "data-focus": `check ${field.key}`, "aria-label": `Check ${field.label}`}, "Check")];

  function verdict(field, name) {
    const said = field.verdict;
    const line = node("div", {class: `verdict ${said?.judgement ?? ""}`, id: name, role: "status"});
    if (!said) return line;
    line.append(node("strong", {}, `${said.sign} ${said.word}`), said.sentence ? ` ${said.sentence}` : "");
    if (said.canCarry) line.append(node("button", {type: "button", "data-focus": `carry ${field.key}`,
      onclick: () => send("carry", {field: field.key})}, "Go on with this value"));
    if (said.backTo) line.append(node("button", {type: "button", "data-focus": `back ${field.key}`,
      onclick: () => back(said.backTo)}, "Go back to that step"));
    return line;
  }

  function back(step) {
    opened.add(step);
    show(page);
    root.querySelector(`[data-step="${CSS.escape(step)}"] input`)?.focus();
  }

  const help = step => node("div", {class: "help"},
    step.hints.length ? node("ol", {class: "hints", "aria-label": "Hints"}, ...step.hints.map(text => node("li", {}, text))) : "",
    step.nextHint ? node("button", {type: "button", "data-focus": `hint ${step.key}`,
      onclick: () => send("hint", {step: step.key})}, `Hint ${step.hints.length + 1} of 4: ${step.nextHint}`) : "");

  function ending() {
    const left = page.count - page.steps.length;
    if (!page.closing) return node("p", {class: "ahead"}, left ? `${left} more ${left === 1 ? "step" : "steps"} to come.` : "The last step.");
    return node("footer", {class: "closing", tabindex: "-1"}, node("h3", {}, "Solved"), node("p", {}, page.closing), node("p", {}, page.ending),
      node("button", {type: "button", class: "next", "data-focus": "fresh", onclick: () => send("random")}, "Next problem"),
      node("p", {class: "caution"}, page.caution));
  }

  // Whoever draws with the keys goes on with them: from the chart back to the sheet.
  let byKey = false;
  document.addEventListener("keydown", () => { byKey = true; }, true);
  document.addEventListener("pointerdown", () => { byKey = false; }, true);

  // --- what comes from the program ---

  model.on("msg:custom", event => {
    const said = event.data ?? event;
    if (said.page) {
      const entered = said.page.record.sheet.entries;
      for (const key of Object.keys(drafts)) if (entered[key]?.text === drafts[key] || entered[key]?.revealed) delete drafts[key];
      if (said.page.fresh) revive(said.page); else show(said.page);
      heard = true;
    }
    if (said.draft) {
      drafts[said.draft.field] = said.draft.text;
      for (const input of inputs(said.draft.field)) {
        if (input.type === "radio") input.checked = input.value === said.draft.text; else input.value = said.draft.text;
      }
      save();
      if (byKey) root.querySelector(`[data-focus="check ${CSS.escape(said.draft.field)}"]`)?.focus();
    }
    if (said.save) saveDrawings(said.save);
    if (said.faults) showFaults(said.faults);
  });

  function revive(next) {                                       // a problem worked on before comes back as it was left
    const before = shelved.kept().sheets[signature(next)];
    show(next);
    if (!before) return;
    drafts = before.drafts ?? {};
    send("restore", {record: before.record});
  }

  const store = shelved.kept(), before = store.sheets[page.linked ? signature(page) : store.last];
  if (page.brought) {
    setAside(page);
    save();
    history.replaceState(null, "", location.pathname);          // a reload then finds what was changed since
  } else if (before) {
    drafts = before.drafts ?? {};
    send("restore", {record: before.record});
  } else save();
  root.replaceChildren(...paper());
  heard = true;
  document.documentElement.dataset.sheet = "ready";
}
