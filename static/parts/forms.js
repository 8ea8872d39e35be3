// @ts-check
// Forms, made of the entries that the program lists: what they ask and offer is not known here.

import { node } from "halfturn/parts/nodes.js";

/** @typedef {import("../messages.d.ts").Entry} Entry */
/** @typedef {import("../messages.d.ts").Forms} Forms */
/** @typedef {import("../messages.d.ts").Faults} Faults */
/** @typedef {import("./types.d.ts").Attributes} Attributes */
/** @typedef {import("./types.d.ts").FormDesk} FormDesk */

/**
 * An entry with its label and the place for what is wrong with it.
 * @param {string} form @param {Entry} entry @param {string} [text] what stands in it @param {Attributes} [more]
 */
export function pair(form, entry, text = entry.text, more = {}) {
  const id = `${form}-${entry.key}`;
  const said = entry.meanings && meaning(entry, `${id}-meaning`);
  const facts = { id, name: entry.key, "data-focus": id, "aria-describedby": `${id}-fault${said ? ` ${id}-meaning` : ""}`, ...more };
  const input = entry.options.length ? select(entry, facts) : box(entry, facts);
  input.value = text;
  input.addEventListener("change", () => said?.show(input.value));
  said?.show(input.value);
  return node("div", { class: said ? "pair wide" : "pair" }, node("label", { for: id }, entry.label), input, said?.node ?? "", node("p", { class: "fault", id: `${id}-fault`, role: "alert" }));
}

/** The place where it is said what the option chosen means. @param {Entry} entry @param {string} id */
export function meaning({ meanings }, id) {
  const place = node("p", { class: "example means", id });
  return { node: place, show: (/** @type {string} */ value) => { place.textContent = meanings?.[value] ?? ""; } };
}

/** @param {Entry} entry @param {Attributes} facts */
export function select(entry, facts) {
  return node("select", facts, ...entry.options.map(([value, words]) => node("option", { value }, words)));
}

/** @param {Entry} entry @param {Attributes} facts */
function box({ example, least, most }, facts) {
  const kind = most === undefined ? { type: "text" } : { type: "number", min: least, max: most, step: 1, inputmode: "numeric" };
  return node("input", { ...facts, ...kind, autocomplete: "off", spellcheck: "false", placeholder: example });
}

/** The form for a problem of one's own. @param {FormDesk} desk @param {Forms} forms @param {string} words on its button */
export function ownForm(desk, forms, words) {
  return entryForm(desk, { name: "own", does: "own problem", words, entries: forms.own });
}

/** The form for a notation. @param {FormDesk} desk @param {Forms} forms */
export function notationForm(desk, forms) {
  return entryForm(desk, { name: "notation", does: "notation", words: "Write it so", entries: forms.notation });
}

/**
 * What is typed into its boxes stays in the drafts until it is taken.
 * @param {FormDesk} desk
 * @param {{name: string, does: "own problem" | "notation", words: string, entries: Entry[]}} facts
 */
function entryForm(desk, { name, does, words, entries }) {
  /** @param {Entry} entry */
  const filled = (entry) => {
    const id = `${name}-${entry.key}`;
    if (entry.options.length) return pair(name, entry);
    const oninput = (/** @type {{target: HTMLInputElement}} */ { target }) => { desk.drafts[id] = target.value; desk.save(); };
    return pair(name, entry, desk.drafts[id], { oninput });
  };
  /** @param {SubmitEvent & {target: HTMLFormElement}} event */
  const onsubmit = (event) => {
    event.preventDefault();
    clearFaults(event.target);
    desk.send({ do: does, texts: textsOf(event.target) });
  };
  return node("form", { class: "own", "data-form": name, novalidate: true, onsubmit }, ...entries.map(filled),
    node("button", { type: "submit", "data-focus": `submit ${name}` }, words));
}

/** @param {HTMLFormElement} form @returns {Record<string, string>} */
export function textsOf(form) {
  return Object.fromEntries([...new FormData(form)].map(([key, value]) => [key, String(value)]));
}

/** @param {ParentNode} root */
export function clearFaults(root) {
  for (const fault of root.querySelectorAll(".fault")) fault.textContent = "";
}

/** Say beside its entries what is wrong with a form, and go to the first of them. @param {ParentNode} root @param {Faults} said */
export function showFaults(root, { form, faults }) {
  for (const [key, sentence] of Object.entries(faults)) {
    const place = root.querySelector(`#${CSS.escape(`${form}-${key}`)}-fault`);
    if (place) place.textContent = sentence;
  }
  const first = root.querySelector(`[data-form="${form}"] .fault:not(:empty)`);
  /** @type {HTMLElement | null | undefined} */ (first?.parentElement?.querySelector("input, select, textarea"))?.focus();
}
