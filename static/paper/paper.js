// @ts-check
// The paper view: a form that says what is to be printed, the pages as pictures, and saving and printing them.
// A page is the text of a drawing and is only ever shown as a picture, so that nothing in it can act.

import { makeForm, showFaults } from "halfturn/paper/form.js";
import { addSheet, beginRun, endRun, forget, makePress } from "halfturn/paper/pages.js";
import { printAll, saveAll } from "halfturn/paper/saving.js";
import { followFocus } from "halfturn/parts/focus.js";
import { surviving } from "halfturn/parts/keeping.js";
import { button, markReady, node } from "halfturn/parts/nodes.js";
import { outbox } from "halfturn/parts/outbox.js";

/** @typedef {import("../messages.d.ts").PaperForm} PaperForm */
/** @typedef {import("../messages.d.ts").PaperSaid} Said */
/** @typedef {import("./pages.js").Press} Press */

/** @param {{model: import("../parts/types.d.ts").Model<Said, {form: PaperForm}>, el: HTMLElement}} place */
export function render({ model, el }) {
  const press = makePress();
  /** What was typed, also while the page is built anew. @type {{kind: string, texts: Record<string, string>}} */
  const typed = surviving("paper", () => ({ kind: model.form.kind, texts: {} }));
  const form = makeForm(model.form, typed, (texts) => line.tell({ do: "make", texts }));
  form.fields.append(actionLine(press), press.status, node("p", {}, press.link));
  el.append(node("div", { class: "work paper" },
    node("h2", {}, "Worksheets to print"),
    node("p", { class: "story" }, "Each sheet is two pages: the problem with a chart to draw on, and the steps with lines for their values."),
    node("div", { class: "bench" }, form.fields, press.preview)));
  const line = outbox("paper", model, {
    faults: (faults) => {
      fault(press, form.fields, faults);
      markReady("paper");
    },
    start: (start) => {
      fault(press, form.fields, { ...(start.run === 1 ? model.form.faults : {}), ...start.faults }); // also what a link held wrongly
      beginRun(press, start);
    },
    sheet: (sheet) => addSheet(press, sheet),
    end: (run) => {
      if (run !== press.start?.run || press.isWhole) return;
      endRun(press);
      markReady("paper");
    },
  });
  model.on("remove", () => forget(press));
  followFocus("paper", form.fields);
  form.make();
}

/** @param {Press} press @param {HTMLFormElement} fields @param {Record<string, string>} faults */
function fault({ status }, fields, faults) {
  const without = showFaults(fields, faults);
  if (without.length) status.textContent = without.join(" ");
}

/** @param {Press} press */
function actionLine(press) {
  press.actions.push(
    button("Print", () => printAll(press), { class: "next", disabled: true }),
    button("Save as SVG", () => saveAll(press, "svg"), { disabled: true }),
    button("Save as PNG", () => saveAll(press, "png"), { disabled: true }));
  return node("p", { class: "actions" }, ...press.actions);
}
