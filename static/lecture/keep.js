// @ts-check
// What the browser keeps of a lecture, so that it goes on after a reload.

import { recall, retain, sayUnkept } from "halfturn/parts/keeping.js";
import { isRecord } from "halfturn/parts/store.js";

/** @typedef {{problem?: any, notation?: any, query?: string, showing?: string, frame: string, step: string, revealed: string[], waves: boolean, light: string}} Kept */

const KEEP = "halfturn.lecture";
const WITH_TAB = "This browser keeps this lecture only as long as this tab is open: its store is full, or closed to it. Its address still brings the problem.";
const NOT_AT_ALL = "This browser keeps nothing of this lecture: its store is full, or closed to it. After a reload it begins at the first construction; its address still brings the problem.";

/** What was kept, as far as it can be used. @returns {Kept} */
export function kept() {
  return usable(ofThisTab() ?? recall(KEEP));
}

/** What this tab kept, whatever another has since. @returns {any} */
function ofThisTab() {
  try { return JSON.parse(recallInTab(KEEP) ?? "null"); } catch { return null; }
}

/** @param {Kept} what */
export function keep(what) {
  const stays = retain(KEEP, what), withTab = keepInTab(KEEP, JSON.stringify(what));
  if (!stays) sayUnkept("full", withTab ? WITH_TAB : NOT_AT_ALL);
}

/** @param {string} name @param {string} text @returns {boolean} whether it is kept as long as the tab */
export function keepInTab(name, text) {
  try { sessionStorage.setItem(name, text); return true; } catch { return false; }
}

/** What this tab kept, or null. @param {string} name @returns {string | null} */
export function recallInTab(name) {
  try { return sessionStorage.getItem(name); } catch { return null; }
}

/** What of it can be used; whatever is wrong with it is left out. @param {any} found @returns {Kept} */
export function usable(found) {
  const whole = isRecord(found) ? found : {}, { problem, notation, query, showing } = whole;
  return {
    ...(isRecord(problem) && isRecord(notation) ? { problem, notation, query, showing } : {}),
    frame: String(whole.frame ?? ""),
    step: String(whole.step ?? ""),
    revealed: Array.isArray(whole.revealed) ? whole.revealed.map(String) : [],
    waves: whole.waves === true,
    light: String(whole.light ?? ""),
  };
}
