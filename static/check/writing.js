// @ts-check
// Writing a working: all lines in one box, or one entry a step.

import { heading, marking, showStale } from "halfturn/check/marks.js";
import { changedEntries, draftOf } from "halfturn/check/state.js";
import { showFaults } from "halfturn/parts/forms.js";
import { foldable, node } from "halfturn/parts/nodes.js";

/** @typedef {import("../messages.d.ts").CheckField} CheckField */
/** @typedef {import("../messages.d.ts").CheckStep} CheckStep */
/** @typedef {import("./state.js").CheckDesk} CheckDesk */

/** @param {CheckDesk} desk */
export function working(desk) {
  const singly = desk.drafts.way === "steps";
  return node("section", { class: "own-lines", "aria-labelledby": "own-lines" },
    node("h3", { id: "own-lines" }, "Your working"),
    node("fieldset", { class: "ways" }, node("legend", { class: "unseen" }, "How to write it"),
      way(desk, "lines", "All lines in one box", !singly), way(desk, "steps", "One entry a step", singly)),
    singly ? stepByStep(desk) : oneBox(desk));
}

/** @param {CheckDesk} desk @param {string} name @param {string} words @param {boolean} isOn */
function way(desk, name, words, isOn) {
  const onchange = () => { desk.drafts.way = name; desk.redraw(); };
  const input = node("input", { type: "radio", name: "way", value: name, "data-focus": `way ${name}`, onchange });
  input.checked = isOn;
  return node("label", {}, input, words);
}

/** @param {CheckDesk} desk */
const textOf = (desk) => desk.drafts.text ?? desk.page.text;

/** @param {CheckDesk} desk */
function oneBox(desk) {
  const text = textOf(desk);
  const area = node("textarea", {
    id: "working-text", "data-focus": "text", rows: String(Math.max(6, text.split("\n").length + 1)), spellcheck: "false",
    autocomplete: "off", autocapitalize: "off", "aria-describedby": "working-how working-text-fault",
    oninput: ({ target }) => {
      desk.drafts.text = target.value;
      showStale(desk);
      desk.save();
    },
    onkeydown: (event) => {
      if (event.key !== "Enter" || !(event.ctrlKey || event.metaKey)) return;
      event.preventDefault();
      mark(desk, area.value);
    },
  });
  area.value = text;
  return marks(() => mark(desk, area.value),
    node("div", {}, node("label", { for: "working-text", class: "unseen" }, "Your lines, one value a line"), area, examples(desk), textFault()),
    node("div", { class: "after" }, markButton(), foldable(desk.opened, "What can be written", "glossary", glossary(desk))));
}

/** A form of which Enter and its button have the working marked. @param {() => void} act @param {...Node} content */
function marks(act, ...content) {
  const onsubmit = (/** @type {SubmitEvent} */ event) => { event.preventDefault(); act(); };
  return node("form", { "data-form": "working", novalidate: true, onsubmit }, ...content);
}

const markButton = () => node("button", { type: "submit", class: "next", "data-focus": "mark" }, "Mark my working");
const textFault = () => node("p", { class: "fault", id: "working-text-fault", role: "alert" });

/** @param {CheckDesk} desk */
function examples({ page }) {
  const codes = page.writing.examples.flatMap((text, index) => [index ? ", " : "", node("code", {}, text)]);
  return node("p", { class: "example", id: "working-how" }, "One value a line, in any order, in your book's way: ", ...codes, ".");
}

/** @param {CheckDesk} desk */
function glossary({ page }) {
  const { glossary: rows, note } = page.writing;
  return node("div", { class: "glossary" },
    node("dl", {}, ...rows.flatMap(([label, names]) => [node("dt", {}, label), node("dd", {}, names)])), node("p", {}, note));
}

/** @param {CheckDesk} desk @param {string} text */
function mark(desk, text) {
  clearFaults(desk);
  if (!text.trim()) {
    const sentence = `There is nothing to mark yet: write a line such as ${desk.page.writing.examples[0]}.`;
    return showFaults(desk.root, { form: "working", faults: { text: sentence } });
  }
  desk.sent = { text };
  return desk.send({ do: "mark", text });
}

/** @param {CheckDesk} desk */
function markEntries(desk) {
  clearFaults(desk);
  const sent = { text: textOf(desk), texts: changedEntries(desk.page, desk.drafts) };
  desk.sent = sent;
  desk.send({ do: "entries", ...sent });
}

/** @param {CheckDesk} desk */
function clearFaults({ root }) {
  for (const fault of root.querySelectorAll('[data-form="working"] [role=alert]')) fault.textContent = "";
}

/** Every step with its entries, and under each entry what is said of its line. @param {CheckDesk} desk */
function stepByStep(desk) {
  const line = (/** @type {CheckStep} */ step) => node("li", { "data-step": step.key },
    heading(step), node("p", { class: "ask" }, step.ask),
    node("div", { class: "entries" }, ...step.fields.map((field) => entry(desk, step, field))));
  return marks(() => markEntries(desk),
    textFault(),
    node("p", { class: "summary" }, desk.page.summary),
    node("ol", { class: "steps" }, ...desk.page.steps.map(line)),
    node("div", { class: "after" }, markButton(), node("p", { class: "example" }, "Leave empty what you did not work out. Enter marks, too.")));
}

/** @param {CheckDesk} desk @param {CheckStep} step @param {CheckField} field */
function entry(desk, step, field) {
  const lines = step.lines.filter((line) => line.field === field.key), value = desk.drafts[draftOf(field.key)] ?? field.text;
  const isEdited = () => (desk.drafts[draftOf(field.key)] ?? field.text) !== field.text;
  const onedit = (/** @type {{target: HTMLInputElement}} */ { target }) => {
    desk.drafts[draftOf(field.key)] = target.value;
    if (isEdited()) for (const line of target.closest(".entry")?.querySelectorAll(".line, .fault") ?? []) line.remove();
    desk.save();
  };
  if (isEdited()) return node("div", { class: "entry" }, ...(field.options.length ? choice(field, value, onedit) : box({ ...field, fault: "" }, value, onedit)));
  return node("div", { class: "entry" },
    ...(field.options.length ? choice(field, value, onedit) : box(field, value, onedit)),
    node("p", { class: "fault", id: `fault-${field.key}` }, field.fault),
    ...lines.map((line) => marking(desk, step, line, lines.length > 1)));
}

/** @param {CheckField} field @param {string} value @param {(event: {target: HTMLInputElement}) => void} oninput */
function box({ key, label, example, fault }, value, oninput) {
  const id = `entry-${key}`;
  const input = node("input", {
    id, type: "text", "data-field": key, "data-focus": key, autocomplete: "off", spellcheck: "false", autocapitalize: "off",
    "aria-describedby": `example-${key} fault-${key} line-${key}`, "aria-invalid": fault ? "true" : null, oninput,
  });
  input.value = value;
  return [node("label", { for: id }, label), node("span", { class: "box" }, input),
    node("span", { class: "example", id: `example-${key}` }, `such as ${example}`)];
}

/** @param {CheckField} field @param {string} value @param {(event: {target: HTMLInputElement}) => void} onchange */
function choice({ key, label, options }, value, onchange) {
  const id = `entry-${key}`;
  const select = node("select", { id, "data-field": key, "data-focus": key, "aria-describedby": `line-${key}`, onchange },
    node("option", { value: "" }, "not given"), ...options.map(([one, words]) => node("option", { value: one }, words)));
  select.value = value;
  return [node("label", { for: id }, label), node("span", { class: "box" }, select)];
}
