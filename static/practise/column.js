// @ts-check
// The sheet from top to bottom: the problem, what can be done with it, its steps, and what it comes to.

import { difficultyChoice, drawnSo } from "halfturn/parts/difficulty.js";
import { notationForm, ownForm } from "halfturn/parts/forms.js";
import { menuRow } from "halfturn/parts/menus.js";
import { button, foldable, folded, node, present } from "halfturn/parts/nodes.js";
import { primerNodes } from "halfturn/parts/primer.js";
import { course } from "halfturn/parts/progress.js";
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
    desk.page.primer && !desk.page.drill ? primer(desk) : "",
    node("h2", { class: "title", tabindex: "-1", "data-focus": "title" }, problem.title),
    node("p", { class: "story" }, problem.story),
    node("p", { class: "given" }, problem.given),
    desk.displaced ? displacedNotice(desk) : "",
    ...notices(desk.page.notices),
    ...tools(desk),
    desk.page.drill ? drillLine(desk, desk.page.drill) : desk.page.refusal ? "" : workedChoice(desk));
}

/** What the lesson is about: open when it is met, folded afterwards. @param {SheetDesk} desk */
function primer(desk) {
  const { opened, page } = desk, summary = node("summary", { "data-focus": "open primer" }, "What this lesson is about");
  const fill = () => box.open && box.children.length < 2 && box.append(...primerNodes(page.primer, desk.ask), begin);
  const begin = button("Begin", () => { opened.delete("primer"); desk.redraw(); desk.goOn(); }, { class: "begin", "data-focus": "begin" });
  const box = folded(opened, "primer", summary);
  box.className = "primer";
  box.tabIndex = -1;
  box.addEventListener("toggle", fill);
  fill();
  return box;
}

/** Which load of a drill this is, and how the others went. @param {SheetDesk} desk @param {import("../messages.d.ts").DrillWords} drill */
function drillLine(desk, { number, loads, difficulty, went, back }) {
  const told = went.map((right) => right ? "✓ right at once" : "✗ not at once").join(", ");
  const leave = Object.keys(back).length ? button("Back to the problem", () => leaveDrill(desk), { class: "link", "data-focus": "leave drill" }) : "";
  return node("p", { class: "drill" }, `This step alone, the earlier ones filled in: load ${number} of ${loads}${difficulty}.${told ? ` The others: ${told}.` : ""} `, leave);
}

/** @param {SheetDesk} desk */
function leaveDrill({ page, send }) {
  send({ do: "own problem", texts: page.drill?.back ?? {} });
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
  const [difficulty, meaning] = difficultyChoice(page.forms.difficulty);
  return [...menuRow(opened, [
    { key: "lessons", title: "Lessons", content: choiceList(page.lessons, page.lessonKey, learn, lessonState(desk)) },
    { key: "problems", title: "Problems", content: problems(desk, choose) },
    { key: "own", title: "My own problem", content: ownForm(desk, page.forms, "Work on this problem") },
    { key: "notation", title: "Notation", content: notationForm(desk, page.forms) },
    { key: "keep", title: "Keep and share", content: keeping(desk) },
  ],
    node("span", { class: "draws" }, button("Random problem", () => atRandom(desk), { "data-focus": "random" }), difficulty),
    button("Start over", again, { "data-focus": "again" }),
    button("Undo", undo, { "data-focus": "undo", title: page.undo && `Take back ${page.undo}`, "aria-label": page.undo && `Undo ${page.undo}`, "aria-disabled": page.undo ? null : "true" })), meaning];
}

/** @param {SheetDesk} desk */
function atRandom({ page, send }) {
  send({ do: "random", ...drawnSo(page.forms.difficulty) });
}

/** How far one has come in each lesson. @param {SheetDesk} desk @returns {(lesson: {key: string}) => string} */
function lessonState({ shelved }) {
  const { progress } = course(), kept = Object.values(shelved).map(({ record }) => record);
  return ({ key }) => {
    const solved = kept.filter(({ state, sheet }) => state === "solved" && sheet?.lesson === key).length;
    const mastered = /** @type {any} */ (progress[key])?.mastered ? "✓ mastered" : "";
    return [mastered, solved ? `${solved} solved` : ""].filter(Boolean).join(", ");
  };
}

/** The lesson's problems: those begun, those to do, and folded those that are solved. @param {SheetDesk} desk @param {(key: string) => void} choose */
function problems(desk, choose) {
  const { page, opened } = desk, state = (/** @type {{entries: Record<string, string>}} */ choice) => STATES[desk.stateOf(choice)] ?? "";
  const list = (/** @type {typeof page.choices} */ some) => choiceList(some, page.problem.key, choose, state);
  const [solved, begun] = Object.values(STATES).map((words) => page.choices.filter((choice) => state(choice) === words)), rest = page.choices.filter((choice) => !state(choice));
  const title = `${page.lesson}: ${solved.length} of ${count(page.choices.length, "problem")} solved`;
  return node("div", { class: "problems" }, node("p", { class: "of" }, title), begun.length ? list(begun) : "", rest.length ? list(rest) : "",
    solved.length ? foldable(opened, `Solved (${solved.length})`, "solved", list(solved)) : "");
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
  const { page } = desk, { outcome } = page, left = page.count - page.steps.length;
  if (!outcome) return node("p", { class: "ahead" }, left ? `${count(left, "more step")} to come.` : "The last step.");
  return node("footer", { class: "closing", tabindex: "-1" },
    node("h3", {}, outcome.title), ...outcome.sentences.map((text) => node("p", {}, text)),
    outcome.power.length ? node("section", { class: "power", "aria-label": "Where the power goes" }, node("h4", {}, "Where the power goes"), ...outcome.power.map((text) => node("p", {}, text))) : "",
    outcome.response ? responseNode(outcome.response) : "",
    outcome.backTo ? button("Go back to that step", () => backTo(desk, outcome.backTo), { class: "next", "data-focus": "back" }) : "",
    ...(page.drill ? afterLoad(desk, page.drill) : [page.set ? placeInSet(page.set) : button("Next problem", () => atRandom(desk), { class: outcome.solved ? "next" : "", "data-focus": "fresh" })]),
    node("p", { class: "caution" }, page.caution));
}

/** @param {SheetDesk} desk @param {import("../messages.d.ts").DrillWords} drill */
function afterLoad(desk, { went, loads, back }) {
  const { send } = desk;
  if (went.length < loads) return [button("Next load", () => send({ do: "next load" }), { class: "next", "data-focus": "fresh" })];
  return [
    Object.keys(back).length ? button("Back to the problem", () => leaveDrill(desk), { class: "next", "data-focus": "leave" }) : "",
    button("A whole problem", () => atRandom(desk), { class: Object.keys(back).length ? "" : "next", "data-focus": "fresh" })];
}
