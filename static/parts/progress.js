// @ts-check
// How far the student has come in the course, apart from the sheets: whatever sheet is opened first, by whatever link,
// it is known. Each lesson's progress is written by the tab in which it changed.

import { recallText, retain, setAside, shelf } from "halfturn/parts/keeping.js";
import { isRecord } from "halfturn/parts/store.js";

/** @typedef {Record<string, unknown>} Progress by the key of the lesson */
/** @typedef {{progress: Progress, met: string[]}} Course `met` : lessons that were opened before */

export const COURSE = "halfturn.course.v1";
export const SHEETS = "halfturn.v1";

/** @returns {Course} */
export function course() {
  const text = recallText(COURSE), found = parsed(text);
  if (isRecord(found)) return { progress: isRecord(found.progress) ? found.progress : {}, met: Array.isArray(found.met) ? found.met.filter((one) => typeof one === "string") : [] };
  if (text !== null) setAside(COURSE, [text]);
  return { progress: progressOf(Object.values(shelf(SHEETS).kept().sheets)), met: [] };
}

/** What sheets say that were kept before it stood apart, the newest last. @param {{record: any}[]} sheets @returns {Progress} */
export function progressOf(sheets) {
  return Object.assign({}, ...sheets.map(({ record }) => isRecord(record.progress) && Object.values(record.progress).every(isRecord) ? record.progress : {}));
}

/** Keep what has changed of it. @param {Progress | undefined} before @param {Progress | undefined} now */
export function keepProgress(before = {}, now = {}) {
  const changed = Object.entries(now).filter(([key, one]) => JSON.stringify(one) !== JSON.stringify(before[key])), known = course();
  if (changed.length) retain(COURSE, { ...known, progress: { ...known.progress, ...Object.fromEntries(changed) } });
}

/** Whether a lesson is opened for the first time; from now on it is not. @param {string} lesson */
export function meet(lesson) {
  const known = course();
  if (known.met.includes(lesson)) return false;
  retain(COURSE, { ...known, met: [...known.met, lesson] });
  return true;
}

/** @param {string | null} text @returns {unknown} */
function parsed(text) {
  try { return JSON.parse(text ?? "null"); } catch { return undefined; }
}
