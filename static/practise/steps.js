// @ts-check
// A step of the sheet: open, done and folded, or just shown by the tutor.

import { button, folded, node } from "halfturn/parts/nodes.js";
import { entry } from "halfturn/practise/entries.js";

/** @typedef {import("../messages.d.ts").SheetStep} SheetStep */
/** @typedef {import("./state.js").SheetDesk} SheetDesk */

/** @param {SheetDesk} desk @param {SheetStep} step @param {number} index */
export function stepNode(desk, step, index) {
  const head = [node("span", { class: "number", "aria-hidden": "true" }, String(index + 1)), step.title];
  if (step.worked.length) return workedStep(step, head);
  return step.done ? doneStep(desk, step, index, head) : openStep(desk, step, head);
}

/** @param {SheetDesk} desk @param {SheetStep} step @param {(Node | string)[]} head */
function openStep(desk, step, head) {
  return node("li", { class: "current", "aria-current": "step", "data-step": step.key },
    node("h3", {}, ...head), node("p", { class: "ask" }, step.ask), desk.page.guided ? guide(desk) : asked(desk, step));
}

/** @param {SheetDesk} desk @param {SheetStep} step @param {number} index @param {(Node | string)[]} head */
function doneStep(desk, step, index, head) {
  const line = node("summary", { "data-focus": `step ${step.key}` },
    node("span", { class: "title" }, ...head), node("span", { class: "values" }, ...values(step)));
  const body = node("div", { class: "body" },
    node("p", { class: "ask" }, step.ask), asked(desk, step), node("p", { class: "because" }, step.because));
  const isLast = desk.page.steps.findLastIndex((one) => one.done) === index;
  return node("li", { class: "done", "data-step": step.key }, folded(desk.opened, step.key, line, body),
    isLast && step.said ? node("p", { class: "said" }, step.said) : "");
}

/** The step that the tutor has just done: what was asked, how it is found, what comes out, and why. @param {SheetStep} step @param {(Node | string)[]} head */
function workedStep(step, head) {
  return node("li", { class: "worked", "data-step": step.key, tabindex: "-1" },
    node("h3", {}, ...head),
    node("p", { class: "ask" }, step.ask), ...step.worked.map((text) => node("p", {}, text)),
    node("p", { class: "result" }, ...values(step)), node("p", { class: "because" }, step.because));
}

/** @param {SheetStep} step */
function values(step) {
  return step.values.flatMap((value, index) => [
    index ? node("span", { class: "and" }, " · ") : "",
    value.which ? node("span", { class: "which" }, `${value.which} `) : "",
    node("span", { class: "value" }, value.text),
    node("span", { class: `sign ${value.judgement}` }, ` ${value.sign}${value.carried ? ` ${value.carried}` : ""}`),
  ]);
}

/** @param {SheetDesk} desk */
function guide({ page, send }) {
  return node("div", { class: "guide" },
    page.shown ? "" : node("p", {}, "This first problem is worked for you, one step a press. You can take over at any time."),
    button("Show this step", () => send({ do: "show next" }), { class: "next", "data-focus": "next" }),
    button("Let me solve it", () => send({ do: "solve alone" }), { "data-focus": "alone" }));
}

/** @param {SheetDesk} desk @param {SheetStep} step */
function asked(desk, step) {
  return node("div", { class: "asked" }, ...step.fields.map((field) => entry(desk, step, field)), help(desk, step));
}

/** @param {SheetDesk} desk @param {SheetStep} step */
function help({ send }, { key, hints, nextHint }) {
  const next = () => button(`Hint ${hints.length + 1} of 4: ${nextHint}`, () => send({ do: "hint", step: key }), { "data-focus": `hint ${key}` });
  return node("div", { class: "help" },
    hints.length ? node("ol", { class: "hints", "aria-label": "Hints" }, ...hints.map((text) => node("li", {}, text))) : "",
    nextHint ? next() : "");
}
