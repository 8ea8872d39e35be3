// @ts-check
// The form of the paper view: which problem, on which paper, in which notation.

import { clearFaults, pair, textsOf } from "halfturn/parts/forms.js";
import { button, node } from "halfturn/parts/nodes.js";

/** @typedef {import("../messages.d.ts").Entry} Entry */
/** @typedef {import("../messages.d.ts").Kind} Kind */
/** @typedef {import("../messages.d.ts").PaperForm} PaperForm */

const WAIT = 300; // milliseconds after the last change of the form

/**
 * Whatever is typed is kept while another kind of problem is looked at, and asked for a moment after each change.
 * @param {PaperForm} form @param {{kind: string, texts: Record<string, string>}} kept what was typed before
 * @param {(texts: Record<string, string>) => void} ask
 */
export function makeForm(form, kept, ask) {
  const typed = kept.texts;
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  let timer;
  const entry = (/** @type {Entry} */ one) => pair("paper", one, typed[one.key]);
  const make = () => {
    clearTimeout(timer);
    const { kind, ...texts } = textsOf(fields);
    Object.assign(typed, texts);
    kept.kind = kind;
    ask(texts);
  };
  const later = () => {
    const { kind, ...texts } = textsOf(fields);
    Object.assign(typed, texts);
    kept.kind = kind;
    clearTimeout(timer);
    timer = setTimeout(make, WAIT);
  };
  const source = node("div", { class: "own" });
  const fill = (/** @type {Kind} */ kind) => {
    source.replaceChildren(...kind.entries.map(entry));
    if (!kind.entries.some(isNumber)) return;
    if (!(typed[kind.entries[0].key] ?? kind.entries[0].text)) drawNumber(source, kind.entries);
    source.append(aboutNumbers(source, kind, later));
  };
  const fields = node("form", {
    novalidate: true, "aria-label": "What to print", oninput: later,
    onsubmit: (event) => { event.preventDefault(); make(); },
  },
    node("div", { class: "own" }, pair("paper", form.lessons, form.lessons.text, { onchange: anotherLesson })),
    kinds({ ...form, kind: kept.kind }, (kind) => { Object.assign(typed, textsOf(fields)); fill(kind); }),
    source,
    node("div", { class: "own" }, ...form.paper.map(entry)),
    node("details", {}, node("summary", {}, "Notation"), node("div", { class: "own" }, ...form.notation.map(entry))));
  fill(form.kinds.find(({ key }) => key === kept.kind) ?? form.kinds[0]);
  return { fields, make };
}

/** Another lesson asks for other entries: the page is opened anew. @param {{target: {value: string}}} event */
function anotherLesson({ target }) {
  location.search = new URLSearchParams({ lesson: target.value }).toString();
}

/** @param {PaperForm} form @param {(kind: Kind) => void} choose */
function kinds(form, choose) {
  const choice = (/** @type {Kind} */ kind) => {
    const input = node("input", { type: "radio", name: "kind", value: kind.key, onchange: () => choose(kind) });
    input.checked = kind.key === form.kind;
    return node("label", {}, input, kind.words);
  };
  return node("fieldset", {}, node("legend", {}, "Which problem"), ...form.kinds.map(choice));
}

/** Whether an entry is the number of a random problem or how many of them. @param {Entry} one */
const isNumber = (one) => one.most !== undefined;

/** Beside numbers of random problems: what they are good for, and how to get others. @param {HTMLElement} source @param {Kind} kind @param {() => void} changed */
function aboutNumbers(source, { entries }, changed) {
  const others = () => {
    drawNumber(source, entries);
    changed();
  };
  return node("div", { class: "pair wide" },
    node("p", { class: "example" }, "A number and a difficulty give the same problem on any machine, so a key can be printed later. What is left empty is drawn at random; “usual” stands for what a problem has where nothing is said of it."),
    button("Other numbers", others));
}

/** Draw the first number by lot, so that as many as can be asked for follow it. @param {HTMLElement} source @param {Entry[]} entries */
function drawNumber(source, [first, sheets]) {
  const input = /** @type {HTMLInputElement} */ (source.querySelector(`[name="${first.key}"]`));
  input.value = drawnNumber((first.most ?? 0) - (sheets.most ?? 0));
}

/** @param {number} below @param {number} [lot] from 0 to 1 */
export function drawnNumber(below, lot = Math.random()) {
  return String(Math.floor(lot * below));
}

/**
 * Say beside the entries what is wrong with them; what has no entry in sight comes back.
 * @param {HTMLFormElement} fields @param {Record<string, string>} faults @returns {string[]}
 */
export function showFaults(fields, faults) {
  clearFaults(fields);
  for (const input of fields.querySelectorAll("[aria-invalid]")) input.removeAttribute("aria-invalid");
  const without = [];
  for (const [key, sentence] of Object.entries(faults)) {
    const place = fields.querySelector(`#paper-${CSS.escape(key)}-fault`);
    if (place) place.textContent = sentence;
    else without.push(sentence);
    fields.querySelector(`#paper-${CSS.escape(key)}`)?.setAttribute("aria-invalid", "true");
  }
  return without;
}
