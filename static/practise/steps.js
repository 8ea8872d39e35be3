// @ts-check
// A step of the sheet: open, done and folded, or just shown by the tutor.

import { drawnSo } from "halfturn/parts/difficulty.js";
import { button, folded, node } from "halfturn/parts/nodes.js";
import { entry } from "halfturn/practise/entries.js";
import { explained } from "halfturn/practise/terms.js";

/** @typedef {import("../messages.d.ts").SheetStep} SheetStep */
/** @typedef {import("./state.js").SheetDesk} SheetDesk */

/** @param {SheetDesk} desk @param {SheetStep} step @param {number} index */
export function stepNode(desk, step, index) {
  const head = [node("span", { class: "number", "aria-hidden": "true" }, String(index + 1)), step.title];
  if (step.worked.length) return workedStep(desk, step, head);
  return step.done ? doneStep(desk, step, index, head) : openStep(desk, step, head);
}

/** @param {SheetDesk} desk @param {SheetStep} step @param {(Node | string)[]} head */
function openStep(desk, step, head) {
  return node("li", { class: "current", "aria-current": "step", "data-step": step.key },
    node("h3", {}, ...head), explained(desk, step.key, step.ask, "ask"), desk.page.guided ? guide(desk) : asked(desk, step),
    isUntouched(desk.page) ? offer(desk) : "", step.drill ? drillOffer(desk, step) : "");
}

/** The same slip twice: the step can be had alone. @param {SheetDesk} desk @param {SheetStep} step */
function drillOffer({ page, send }, { key }) {
  return node("p", { class: "offer" }, "The same slip twice: ",
    button("drill this step, alone, on five loads", () => send({ do: "drill", step: key, ...drawnSo(page.forms.difficulty) }), { class: "link", "data-focus": `drill ${key}` }));
}

/** Whether nothing was done on a sheet that is all the student's. @param {import("../messages.d.ts").SheetPage} page */
function isUntouched({ worked, steps, undo }) {
  return worked.chosen === "none" && steps.length === 1 && !undo && !steps[0].hints.length && steps[0].fields.every((field) => !field.text);
}

/** The worked example, offered and not forced. @param {SheetDesk} desk */
function offer({ send }) {
  return node("p", { class: "offer" }, "Not sure how to begin? ",
    button("Have it worked, a step a press", () => send({ do: "worked", how: "all" }), { class: "link", "data-focus": "offer" }));
}

/** @param {SheetDesk} desk @param {SheetStep} step @param {number} index @param {(Node | string)[]} head */
function doneStep(desk, step, index, head) {
  const line = node("summary", { "data-focus": `step ${step.key}` },
    node("span", { class: "title" }, ...head), node("span", { class: "values" }, ...values(step)));
  const body = node("div", { class: "body" },
    explained(desk, step.key, step.ask, "ask"), asked(desk, step), node("p", { class: "because" }, step.because));
  const isLast = desk.page.steps.findLastIndex((one) => one.done) === index;
  return node("li", { class: "done", "data-step": step.key }, folded(desk.opened, step.key, line, body),
    isLast && step.said ? node("p", { class: "said" }, step.said) : "", isLast && step.drill ? drillOffer(desk, step) : "");
}

/** The step that the tutor has just done: what was asked, how it is found, what comes out, and why. @param {SheetDesk} desk @param {SheetStep} step @param {(Node | string)[]} head */
function workedStep(desk, step, head) {
  return node("li", { class: "worked", "data-step": step.key, tabindex: "-1" },
    node("h3", {}, ...head),
    explained(desk, step.key, step.ask, "ask"), ...step.worked.map((text, index) => explained(desk, `${step.key} ${index}`, text)),
    node("p", { class: "result" }, ...values(step)), node("p", { class: "because" }, step.because));
}

/** @param {SheetStep} step */
function values(step) {
  return step.values.flatMap((value, index) => [
    index ? node("span", { class: "and" }, " · ") : "",
    value.which ? node("span", { class: "which" }, `${value.which} `) : "",
    node("span", { class: "value" }, value.text),
    node("span", { class: `sign ${value.judgement}` }, `\u00a0${value.sign}${value.carried ? ` ${value.carried}` : ""}`),
  ]);
}

/** @param {SheetDesk} desk */
function guide({ page, send }) {
  return node("div", { class: "guide" },
    page.shown ? "" : node("p", {}, "This problem is worked for you, one step a press. You can take over at any time."),
    button("Show this step", () => send({ do: "show next" }), { class: "next", "data-focus": "next" }),
    button("Let me solve it", () => send({ do: "worked", how: "none" }), { "data-focus": "alone" }));
}

/** @param {SheetDesk} desk @param {SheetStep} step */
function asked(desk, step) {
  return node("div", { class: "asked" }, ...step.fields.map((field) => entry(desk, step, field)), help(desk, step));
}

/** @param {SheetDesk} desk @param {SheetStep} step */
function help(desk, { key, hints, nextHint }) {
  const next = () => button(`Hint ${hints.length + 1} of 4: ${nextHint}`, () => desk.send({ do: "hint", step: key }), { "data-focus": `hint ${key}` });
  return node("div", { class: "help" },
    hints.length ? node("ol", { class: "hints", "aria-label": "Hints" }, ...hints.map((text, index) => node("li", {}, explained(desk, `hint ${key} ${index}`, text)))) : "",
    nextHint ? next() : "");
}
