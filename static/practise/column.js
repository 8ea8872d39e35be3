// @ts-check
// The sheet from top to bottom: the problem, what can be done with it, its steps, and what it comes to.

import { notationForm, ownForm } from "halfturn/parts/forms.js";
import { button, foldable, node, present } from "halfturn/parts/nodes.js";
import { choiceList, count, notices } from "halfturn/parts/words.js";
import { backTo } from "halfturn/practise/entries.js";
import { keeping } from "halfturn/practise/files.js";
import { stepNode } from "halfturn/practise/steps.js";

/** @typedef {import("./state.js").SheetDesk} SheetDesk */

/** @param {SheetDesk} desk */
export function sheetNodes(desk) {
  const { page } = desk;
  return present([
    header(desk),
    page.refusal ? node("p", { class: "refusal", role: "status" }, page.refusal) : null,
    node("ol", { class: "steps" }, ...page.steps.map((step, index) => stepNode(desk, step, index))),
    page.refusal || !page.count ? null : ending(desk),
  ]);
}

/** @param {SheetDesk} desk */
function header(desk) {
  const { lesson, problem } = desk.page;
  return node("header", {},
    node("p", { class: "lesson" }, lesson),
    node("h2", {}, problem.title),
    node("p", { class: "story" }, problem.story),
    node("p", { class: "given" }, problem.given),
    desk.displaced ? displacedNotice(desk) : "",
    ...notices(desk.page.notices),
    tools(desk));
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
  return node("div", { class: "desk" },
    foldable(opened, "Lessons", "lessons", choiceList(page.lessons, page.lessonKey, learn)),
    foldable(opened, "Problems", "problems", choiceList(page.choices, page.problem.key, choose)),
    foldable(opened, "My own problem", "own", ownForm(desk, page.forms, "Work on this problem")),
    foldable(opened, "Notation", "notation", notationForm(desk, page.forms)),
    foldable(opened, "Keep and share", "keep", keeping(desk)),
    button("Random problem", () => send({ do: "random" }), { "data-focus": "random" }),
    button("Start over", again, { "data-focus": "again" }));
}

/** @param {SheetDesk} desk */
function ending(desk) {
  const { page, send } = desk, { outcome } = page, left = page.count - page.steps.length;
  if (!outcome) return node("p", { class: "ahead" }, left ? `${count(left, "more step")} to come.` : "The last step.");
  return node("footer", { class: "closing", tabindex: "-1" },
    node("h3", {}, outcome.title), ...outcome.sentences.map((text) => node("p", {}, text)),
    outcome.backTo ? button("Go back to that step", () => backTo(desk, outcome.backTo), { class: "next", "data-focus": "back" }) : "",
    button("Next problem", () => send({ do: "random" }), { class: outcome.solved ? "next" : "", "data-focus": "fresh" }),
    node("p", { class: "caution" }, page.caution));
}
