// @ts-check
// The sheet from top to bottom: the problem, what can be done with it, its steps, and what it comes to.

import { notationForm, ownForm } from "halfturn/parts/forms.js";
import { menuRow } from "halfturn/parts/menus.js";
import { button, node, present } from "halfturn/parts/nodes.js";
import { choiceList, count, notices, placeInSet } from "halfturn/parts/words.js";
import { backTo } from "halfturn/practise/entries.js";
import { keeping } from "halfturn/practise/files.js";
import { responseNode } from "halfturn/practise/response.js";
import { stepNode } from "halfturn/practise/steps.js";

/** @typedef {import("./state.js").SheetDesk} SheetDesk */

/** How far one has come in a problem. @type {Record<string, string>} */
const STATES = { solved: "✓ solved", begun: "… begun" };

/** @param {SheetDesk} desk */
export function sheetNodes(desk) {
  const { page } = desk;
  return present([
    header(desk),
    node("ol", { class: "steps" }, ...page.steps.map((step, index) => stepNode(desk, step, index))),
    page.refusal ? node("p", { class: "refusal", role: "status" }, page.refusal) : page.count ? ending(desk) : null,
  ]);
}

/** @param {SheetDesk} desk */
function header(desk) {
  const { lesson, problem } = desk.page;
  return node("header", {},
    node("p", { class: "lesson" }, lesson),
    desk.page.set ? placeInSet(desk.page.set) : "",
    node("h2", { class: "title", tabindex: "-1", "data-focus": "title" }, problem.title),
    node("p", { class: "story" }, problem.story),
    node("p", { class: "given" }, problem.given),
    desk.displaced ? displacedNotice(desk) : "",
    ...notices(desk.page.notices),
    ...tools(desk),
    desk.page.refusal ? "" : workedChoice(desk));
}

/** @param {SheetDesk} desk */
function displacedNotice(desk) {
  const bringBack = () => {
    const record = desk.displaced;
    desk.displaced = null;
    desk.restore(record);
  };
  return node("p", { class: "notice" }, "You had a sheet of your own for this problem. ",
    button("Bring it back", bringBack, { "data-focus": "bring back" }));
}

/** @param {SheetDesk} desk */
function tools(desk) {
  const { page, opened, send } = desk;
  const choose = (/** @type {string} */ key) => { opened.delete("problems"); send({ do: "open", key }); };
  const learn = (/** @type {string} */ key) => { opened.delete("lessons"); send({ do: "lesson", key }); };
  const again = () => { desk.drafts = {}; send({ do: "start over" }); };
  const undo = () => { desk.drafts = {}; send({ do: "undo" }); };
  return menuRow(opened, [
    { key: "lessons", title: "Lessons", content: choiceList(page.lessons, page.lessonKey, learn) },
    { key: "problems", title: "Problems", content: choiceList(page.choices, page.problem.key, choose, (choice) => STATES[desk.stateOf(choice)] ?? "") },
    { key: "own", title: "My own problem", content: ownForm(desk, page.forms, "Work on this problem") },
    { key: "notation", title: "Notation", content: notationForm(desk, page.forms) },
    { key: "keep", title: "Keep and share", content: keeping(desk) },
  ],
    button("Random problem", () => send({ do: "random" }), { "data-focus": "random" }),
    button("Start over", again, { "data-focus": "again" }),
    button("Undo", undo, { "data-focus": "undo", title: page.undo && `Take back ${page.undo}`, "aria-label": page.undo && `Undo ${page.undo}`, "aria-disabled": page.undo ? null : "true" }));
}

/** How much of the problem is worked: always in sight, always the student's to say. @param {SheetDesk} desk */
function workedChoice({ page, send }) {
  const { chosen, options } = page.worked;
  const choice = (/** @type {[string, string]} */ [how, words]) => {
    const onchange = () => send({ do: "worked", how: /** @type {"all" | "first" | "none"} */ (how) });
    const input = node("input", { type: "radio", name: "worked", value: how, "data-focus": `worked ${how}`, onchange });
    input.checked = how === chosen;
    return node("label", {}, input, words);
  };
  return node("fieldset", { class: "worked-choice" }, node("legend", {}, "Worked for you:"), ...options.map(choice));
}

/** @param {SheetDesk} desk */
function ending(desk) {
  const { page, send } = desk, { outcome } = page, left = page.count - page.steps.length;
  if (!outcome) return node("p", { class: "ahead" }, left ? `${count(left, "more step")} to come.` : "The last step.");
  return node("footer", { class: "closing", tabindex: "-1" },
    node("h3", {}, outcome.title), ...outcome.sentences.map((text) => node("p", {}, text)),
    outcome.response ? responseNode(outcome.response) : "",
    outcome.backTo ? button("Go back to that step", () => backTo(desk, outcome.backTo), { class: "next", "data-focus": "back" }) : "",
    page.set ? placeInSet(page.set) : button("Next problem", () => send({ do: "random" }), { class: outcome.solved ? "next" : "", "data-focus": "fresh" }),
    node("p", { class: "caution" }, page.caution));
}
