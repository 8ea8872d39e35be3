// @ts-check
// The course page. It sends the program what this browser keeps, and shows what that comes to.

import { announce } from "halfturn/parts/announce.js";
import { followFocus, keepFocus } from "halfturn/parts/focus.js";
import { surviving } from "halfturn/parts/keeping.js";
import { markReady, node } from "halfturn/parts/nodes.js";
import { outbox } from "halfturn/parts/outbox.js";
import { primerCame } from "halfturn/parts/primer.js";
import { COURSE, course, SHEETS } from "halfturn/parts/progress.js";
import { download } from "halfturn/parts/save.js";
import { followOthers } from "halfturn/parts/tabs.js";
import { bringBack, canBringBack, eraseAll, parts } from "halfturn/course/kept.js";
import { courseNodes } from "halfturn/course/view.js";

/** @typedef {import("../messages.d.ts").CoursePage} CoursePage */
/** @typedef {import("../messages.d.ts").CourseSaid} Said */
/** @typedef {{page: CoursePage, opened: Set<string>, looked: boolean, erased: boolean, ask(key: string): void, erase(): void, back(): void, table(): void}} CourseDesk */

/** What outlives the page's being built anew. @type {{page: CoursePage | null, opened: Set<string>, looked: boolean, rows: string}} */
const last = surviving("course", () => ({ page: null, opened: new Set(), looked: false, rows: "" }));
const MARK = "\ufeff"; // tells a spreadsheet that the letters are Unicode's

/** @param {{model: import("../parts/types.d.ts").Model<Said, {page: CoursePage}>, el: HTMLElement}} place */
export function render({ model, el }) {
  const root = node("div", { class: "work course" }), isFirst = last.page === null;
  el.append(root);
  const line = outbox("course", model, {
    page: (page) => { last.page = page; last.looked = true; draw(); },
    primer: (primer) => { primerCame(primer); draw(); },
    table: (part) => takeRows(part),
  });
  /** @type {CourseDesk} */
  const desk = {
    page: last.page ?? model.page, opened: last.opened, looked: last.looked, erased: canBringBack(),
    ask: (key) => line.tell({ do: "primer", key }),
    erase: () => { eraseAll(); look(); announce("All is erased. It can be brought back until you leave this page."); },
    back: () => { bringBack(); look(); announce("All is back."); },
    table: () => { for (const part of parts()) line.say({ do: "table", ...part }); },
  };
  const draw = () => {
    const focusAgain = keepFocus(root);
    Object.assign(desk, { page: last.page ?? model.page, looked: last.looked, erased: canBringBack() });
    root.replaceChildren(...courseNodes(desk));
    focusAgain();
    if (last.looked) markReady("course");
  };
  const look = () => {
    seen = kept();
    const { progress } = course();
    for (const part of parts()) line.tell({ do: "look", ...part, progress });
  };
  let seen = "";
  const lookAgain = () => { if (kept() !== seen) look(); };
  const alone = [SHEETS, COURSE].map((name) => followOthers(name, lookAgain));
  model.on("remove", () => { for (const end of alone) end(); });
  draw();
  look();
  if (!isFirst) line.restore();
  followFocus("course", root);
}

/** What is kept now, to see whether it has changed. */
function kept() {
  return JSON.stringify([parts(), course().progress]);
}

/** @param {import("../messages.d.ts").TablePart} part */
function takeRows({ text, last: isLast }) {
  last.rows += text;
  if (!isLast) return;
  download("halfturn-course.csv", new Blob([MARK, last.rows], { type: "text/csv" }));
  last.rows = "";
}
