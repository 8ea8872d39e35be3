// @ts-check
// All that this browser keeps: in parts for the program to read, gone with one press, and back with another.

import { inHand, shelf, surviving } from "halfturn/parts/keeping.js";
import { SHEETS } from "halfturn/parts/progress.js";

const MOST = 4, LARGEST = 300_000; // sheets of a part, each some ten milliseconds' work, and characters
const PREFIX = "halfturn.", STAYS = "halfturn.theme";

/** @typedef {{sheets: any[], first: boolean, last: boolean}} Part */

/** The records of all sheets, the oldest first, in parts that the program takes. @returns {Part[]} */
export function parts() {
  return inParts(Object.values(shelf(SHEETS).kept().sheets).map(({ record }) => record));
}

/** @param {any[]} records @returns {Part[]} at least one */
export function inParts(records) {
  /** @type {any[][]} */
  const found = [[]];
  let size = 0;
  for (const record of records) {
    const more = JSON.stringify(record).length, part = found[found.length - 1];
    const isFull = part.length === MOST || (part.length > 0 && size + more > LARGEST);
    size = isFull ? more : size + more;
    if (isFull) found.push([record]);
    else part.push(record);
  }
  return found.map((sheets, index) => ({ sheets, first: index === 0, last: index === found.length - 1 }));
}

/** What was erased last, for as long as the page is open. @returns {Map<string, string>} */
const erased = () => surviving("erased", () => new Map());

export const canBringBack = () => erased().size > 0;

/** Everything goes but the wish for a light or a dark page. */
export function eraseAll() {
  const all = { ...storage(), ...Object.fromEntries(inHand()) };
  for (const [name, text] of Object.entries(all)) {
    if (!name.startsWith(PREFIX) || name === STAYS) continue;
    erased().set(name, text);
    inHand().delete(name);
    try { localStorage.removeItem(name); } catch { /* it was only in hand */ }
  }
}

export function bringBack() {
  for (const [name, text] of erased()) {
    try { localStorage.setItem(name, text); } catch { inHand().set(name, text); }
  }
  erased().clear();
}

/** @returns {Record<string, string>} */
function storage() {
  try { return { ...localStorage }; } catch { return {}; }
}
