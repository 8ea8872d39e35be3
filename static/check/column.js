// @ts-check
// The self-check from top to bottom: the problem, the working, and what is said of it.

import { marked } from "halfturn/check/marks.js";
import { working } from "halfturn/check/writing.js";
import { notationForm, ownForm } from "halfturn/parts/forms.js";
import { button, foldable, node, present } from "halfturn/parts/nodes.js";
import { choiceList, notices } from "halfturn/parts/words.js";

/** @typedef {import("./state.js").CheckDesk} CheckDesk */

/** @param {CheckDesk} desk */
export function pageNodes(desk) {
  const { page } = desk;
  return present([
    node("header", {},
      node("p", { class: "lesson" }, page.lesson),
      node("h2", {}, "Check my working"),
      page.chosen ? node("p", { class: "given" }, page.problem.given) : theProblem(desk),
      ...notices(page.notices),
      tools(desk)),
    page.refusal ? node("p", { class: "refusal", role: "status" }, page.refusal) : null,
    ...(page.refusal || !page.chosen ? [] : [working(desk), ...marked(desk)]),
    page.chosen ? node("p", { class: "caution" }, page.caution) : null,
  ]);
}

/** @param {CheckDesk} desk */
function theProblem(desk) {
  return node("div", { class: "first" },
    node("p", {}, "First the problem from your book; then your own values, as you wrote them."),
    ownForm(desk, desk.page.forms, "This is the problem"));
}

/** @param {CheckDesk} desk */
function tools(desk) {
  const { page, opened, send } = desk;
  const choose = (/** @type {string} */ key) => { opened.delete("problems"); send({ do: "open", key }); };
  const learn = (/** @type {string} */ key) => { opened.delete("lessons"); send({ do: "lesson", key }); };
  const clear = () => {
    const { way } = desk.drafts;
    desk.drafts = way === undefined ? {} : { way };
    send({ do: "clear" });
  };
  return node("div", { class: "desk" },
    foldable(opened, "Lessons", "lessons", choiceList(page.lessons, page.lessonKey, learn)),
    page.chosen ? foldable(opened, "Another problem", "own", ownForm(desk, page.forms, "Check against this problem")) : "",
    foldable(opened, "Problems", "problems", choiceList(page.choices, page.chosen ? page.problem.key : "", choose)),
    foldable(opened, "Notation", "notation", notationForm(desk, page.forms)),
    page.chosen ? button("Clear my lines", clear, { "data-focus": "clear" }) : "");
}
