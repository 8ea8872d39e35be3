// @ts-check
// The course page from top to bottom: what this is, where one stands, the lessons, and what is kept.

import { queryDrawnSo } from "halfturn/parts/difficulty.js";
import { button, folded, node, present } from "halfturn/parts/nodes.js";
import { primerNodes } from "halfturn/parts/primer.js";
import { notices } from "halfturn/parts/words.js";

/** @typedef {import("./course.js").CourseDesk} CourseDesk */
/** @typedef {import("../messages.d.ts").LessonStanding} Lesson */
/** @typedef {import("../messages.d.ts").WeakStep} WeakStep */

/** @param {CourseDesk} desk */
export function courseNodes(desk) {
  const { page, looked } = desk, [first] = page.lessons;
  return present([
    node("div", { class: "lead" }, ...page.lead.map((text) => node("p", {}, text)),
      looked && first ? node("p", {}, begin(page.known ? "" : first.query)) : ""),
    ...notices(page.faults),
    node("div", { class: "columns" },
      node("section", { class: "all", "aria-labelledby": "lessons" }, node("h2", { id: "lessons" }, "The lessons"), node("ol", { class: "lessons" }, ...page.lessons.map((lesson) => lessonNode(desk, lesson)))),
      node("section", { class: "stand", "aria-label": "Where you stand" }, ...standing(desk)),
      node("section", { class: "keep", "aria-label": "What this browser keeps" }, ...keeping(desk), node("p", { class: "caution" }, page.caution))),
  ]);
}

/** The way in: the first lesson, or what was worked on last. @param {string} query */
function begin(query) {
  return node("a", { class: "next", href: query ? address(query) : "./", "data-focus": "begin" }, query ? "Begin with the first lesson" : "Go on where you were");
}

/** A lesson's link, from this page. @param {string} query */
function address(query) {
  return `./?${query}`;
}

/** @param {CourseDesk} desk @param {Lesson} lesson */
function lessonNode(desk, { key, title, purpose, needs, state, sign, word, said, query, fresh, primer, weak }) {
  const builds = needs.flatMap((need, index) => [index ? ", " : "", node("a", { href: `#${need.key}`, onclick: (/** @type {Event} */ event) => toLesson(event, need.key) }, need.title)]);
  return node("li", { "data-lesson": key, tabindex: "-1" },
    node("h3", {}, node("a", { href: address(query), "data-focus": `lesson ${key}` }, title), word ? node("span", { class: `state ${state}` }, ` ${sign} ${word}`) : ""),
    node("p", { class: "purpose" }, purpose),
    builds.length ? node("p", { class: "needs" }, "Builds on: ", ...builds, ".") : "",
    desk.looked ? node("p", { class: "said" }, said) : "",
    state === "due" ? node("p", {}, node("a", { href: address(queryDrawnSo(fresh)), "data-focus": `review ${key}` }, "Take the review")) : "",
    weak.length ? node("ul", { class: "weak" }, ...weak.map((step) => weakStep(step, false))) : "",
    primer ? primerBox(desk, key, primer) : "");
}

/** Lead to a lesson on this page, which no address can from outside. @param {Event} event @param {string} key */
function toLesson(event, key) {
  event.preventDefault();
  const root = /** @type {ShadowRoot} */ (/** @type {Node} */ (event.currentTarget).getRootNode());
  /** @type {HTMLElement | null} */ (root.querySelector(`[data-lesson="${CSS.escape(key)}"]`))?.focus();
}

/** @param {CourseDesk} desk @param {string} lesson @param {string} key */
function primerBox({ opened, ask }, lesson, key) {
  const name = `primer ${lesson}`, box = folded(opened, name, node("summary", { "data-focus": `open ${name}` }, "What it is about"));
  const fill = () => box.open && box.children.length < 2 && box.append(...primerNodes(key, () => ask(lesson)));
  box.className = "primer";
  box.addEventListener("toggle", fill);
  fill();
  return box;
}

/** @param {WeakStep} step @param {boolean} named whether its lesson is said */
function weakStep({ lesson, title, said, query }, named) {
  return node("li", {}, node("a", { href: address(queryDrawnSo(query)), "data-focus": `drill ${query} ${named}` }, title), named ? ` (${lesson})` : "", ` ${said}`);
}

/** @param {CourseDesk} desk */
function standing({ page, looked }) {
  if (!looked || !page.known) return [];
  const named = (/** @type {string} */ state) => page.lessons.filter((lesson) => lesson.state === state);
  const list = (/** @type {Lesson[]} */ lessons, /** @type {(lesson: Lesson) => string} */ queryOf, /** @type {string} */ none) => lessons.length
    ? node("ul", {}, ...lessons.map((lesson) => node("li", {}, node("a", { href: address(queryOf(lesson)), "data-focus": `stand ${lesson.key}` }, lesson.title)))) : node("p", { class: "none" }, none);
  return [
    node("h2", {}, "Where you stand"),
    node("h3", {}, "✓ Solid"), list(named("solid"), ({ query }) => query, "Nothing yet: three problems in a row, clean and without help, make a lesson solid."),
    node("h3", {}, "↻ Due for review"), list(named("due"), ({ fresh }) => queryDrawnSo(fresh), "Nothing today."),
    node("h3", {}, "✗ To drill"),
    page.weak.length ? node("ul", {}, ...page.weak.map((step) => weakStep(step, true))) : node("p", { class: "none" }, "No step keeps going wrong."),
  ];
}

/** @param {CourseDesk} desk */
function keeping(desk) {
  const { page, erased, looked } = desk;
  return [
    node("h2", {}, "What this browser keeps"),
    node("p", {}, "Your sheets and what you did on them are kept in this browser alone, the last hundred of them. Nobody else is told."),
    erased ? node("p", { class: "erased" }, "All is erased. ", button("Bring it back", desk.back, { "data-focus": "erase" }), " until you leave this page.") : node("div", { class: "acts" },
      button("Save it as a table (CSV)", desk.table, { "data-focus": "table", "aria-disabled": looked && page.known ? null : "true" }),
      button("Erase all", desk.erase, { "data-focus": "erase" })),
  ];
}
