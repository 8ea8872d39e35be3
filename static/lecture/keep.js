// @ts-check
// What the browser keeps of a lecture, so that it goes on after a reload.

import { recall, retain } from "halfturn/parts/keeping.js";
import { isRecord } from "halfturn/parts/store.js";

/** @typedef {{problem?: any, notation?: any, query?: string, showing?: string, frame: string, step: string, revealed: string[], light: string}} Kept */

const KEEP = "halfturn.lecture";

/** What was kept, as far as it can be used. @returns {Kept} */
export function kept() {
  return usable(ofThisTab() ?? recall(KEEP));
}

/** What this tab kept, whatever another has since. @returns {any} */
function ofThisTab() {
  try { return JSON.parse(sessionStorage.getItem(KEEP) ?? "null"); } catch { return null; }
}

/** @param {Kept} what */
export function keep(what) {
  retain(KEEP, what);
  try { sessionStorage.setItem(KEEP, JSON.stringify(what)); } catch { /* the other store has it, or the page itself */ }
}

/** What of it can be used; whatever is wrong with it is left out. @param {any} found @returns {Kept} */
export function usable(found) {
  const whole = isRecord(found) ? found : {}, { problem, notation, query, showing } = whole;
  return {
    ...(isRecord(problem) && isRecord(notation) ? { problem, notation, query, showing } : {}),
    frame: String(whole.frame ?? ""),
    step: String(whole.step ?? ""),
    revealed: Array.isArray(whole.revealed) ? whole.revealed.map(String) : [],
    light: String(whole.light ?? ""),
  };
}
