// @ts-check
// An entry of a step: a box or a choice, and what is said of what stands there.

import { button, node } from "halfturn/parts/nodes.js";
import { judged } from "halfturn/parts/words.js";

/** @typedef {import("../messages.d.ts").SheetField} SheetField */
/** @typedef {import("../messages.d.ts").SheetStep} SheetStep */
/** @typedef {import("./state.js").SheetDesk} SheetDesk */

const FAULTY = ["slip", "wrong", "unreadable", "impossible"];

/** The boxes or buttons of a field. @param {ParentNode} root @param {string} key @returns {HTMLInputElement[]} */
export function inputs(root, key) {
  return [.../** @type {NodeListOf<HTMLInputElement>} */ (root.querySelectorAll(`[data-field="${CSS.escape(key)}"]`))];
}

/** @param {SheetDesk} desk @param {SheetStep} step @param {SheetField} field */
export function entry(desk, step, field) {
  /** @param {SubmitEvent} event */
  const onsubmit = (event) => {
    event.preventDefault();
    const { key } = field, drawn = desk.drawn[key];
    desk.send(drawn ? { do: "check drawing", field: key, ...drawn } : { do: "enter", field: key, text: typed(desk, field) });
  };
  return node("form", { class: "entry", novalidate: true, onsubmit },
    ...(field.options.length ? radios(desk, field) : textBox(desk, step, field)), verdict(desk, field));
}

/** @param {SheetDesk} desk @param {SheetField} field */
function typed({ root }, field) {
  const found = inputs(root, field.key);
  return (field.options.length ? found.find((input) => input.checked)?.value : found[0].value) ?? "";
}

/** @param {SheetDesk} desk @param {SheetStep} step @param {SheetField} field */
function textBox(desk, step, field) {
  const { key } = field, id = `entry-${key}`;
  const input = node("input", {
    id, "data-field": key, "data-focus": key, type: "text", autocomplete: "off", spellcheck: "false", autocapitalize: "off",
    inputmode: "text", "aria-describedby": `hint-${key} verdict-${key}`, "aria-invalid": FAULTY.includes(standing(desk, field)?.judgement ?? "") ? "true" : null,
    oninput: ({ target }) => edited(desk, field, target.value),
    onfocus: () => attend(desk, field),
  });
  input.value = desk.drafts[key] ?? field.text;
  return [node("label", { for: id }, field.label),
    node("span", { class: "box" }, input, node("span", { class: "unit" }, field.unit), check(field)),
    node("span", { class: "example", id: `hint-${key}` }, `such as ${field.example}`, field.drawable && !step.done ? drawLink(desk, field) : "")];
}

/** @param {SheetField} field */
function check({ key, label }) {
  return node("button", { type: "submit", "data-focus": `check ${key}`, "aria-label": `Check ${label}` }, "Check");
}

/** @param {SheetDesk} desk @param {SheetField} field */
function drawLink(desk, field) {
  const draw = () => {
    attend(desk, field);
    document.dispatchEvent(new CustomEvent("halfturn:draw"));
  };
  return node("span", { class: "or" }, ", or ", button("draw it on the chart", draw, { class: "link", "data-focus": `draw ${field.key}` }));
}

/** A drawing on the chart now answers this field. @param {SheetDesk} desk @param {SheetField} field */
function attend({ page, send }, field) {
  if (!field.drawable || page.focus === field.key) return;
  page.focus = field.key;
  send({ do: "focus", field: field.key });
}

/** @param {SheetDesk} desk @param {SheetField} field */
function radios(desk, field) {
  const { key } = field, chosen = desk.drafts[key] ?? field.value;
  const choice = (/** @type {[string, string]} */ [value, words]) => {
    const onchange = () => { edited(desk, field, value); attend(desk, field); };
    const input = node("input", { type: "radio", name: key, value, "data-field": key, "data-focus": `${key} ${value}`, onchange });
    input.checked = chosen === value;
    return node("label", {}, input, words);
  };
  return [
    node("fieldset", { "aria-describedby": `verdict-${key}` }, node("legend", {}, field.label), ...field.options.map(choice)),
    check(field)];
}

/** @param {SheetDesk} desk @param {SheetField} field */
function verdict(desk, field) {
  const { key } = field, said = standing(desk, field);
  const line = node("div", { class: `verdict ${said?.judgement ?? ""}`, id: `verdict-${key}` });
  if (!said) return line;
  line.append(...judged(said));
  if (said.canCarry) line.append(button("Go on with this value", () => desk.send({ do: "carry", field: key }), { "data-focus": `carry ${key}` }));
  if (said.backTo) line.append(button("Go back to that step", () => backTo(desk, said.backTo), { "data-focus": `back ${key}` }));
  return line;
}

/** The verdict on what stands in an entry; none once that was edited. @param {SheetDesk} desk @param {SheetField} field */
function standing({ drafts }, { key, text, value, options, verdict: said }) {
  const judged = options.length ? value : text;
  return drafts[key] === undefined || drafts[key] === judged ? said : null;
}

/** What stands in an entry has changed: nothing that was said of it stands any longer. @param {SheetDesk} desk @param {SheetField} field @param {string} text */
export function edited(desk, field, text) {
  desk.drafts[field.key] = text;
  delete desk.drawn[field.key];
  if (!standing(desk, field)) withdraw(desk.root, field.key);
  desk.save();
}

/** @param {HTMLElement} root @param {string} key */
export function withdraw(root, key) {
  const said = root.querySelector(`#verdict-${CSS.escape(key)}`);
  said?.replaceChildren();
  if (said) said.className = "verdict";
  for (const input of inputs(root, key)) input.removeAttribute("aria-invalid");
}

/** Open a step again and go to its first entry. @param {SheetDesk} desk @param {string} step */
export function backTo(desk, step) {
  desk.opened.add(step);
  desk.redraw();
  /** @type {HTMLElement | null} */ (desk.root.querySelector(`[data-step="${CSS.escape(step)}"] input`))?.focus();
}
