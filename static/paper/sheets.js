// @ts-check
// Pages of worksheets as texts: put together, in order, counted, and how they are printed.

import { count } from "halfturn/parts/words.js";

/** A page from its own texts and the ones it shares. @param {(string | number)[]} own @param {string[]} shared */
export function put(own, shared) {
  return own.map((part) => typeof part === "number" ? shared[part] : part).join("");
}

/** Worksheets first, then keys, each in the order in which they came. @template {{kind: string}} One @param {One[]} pages */
export function keysLast(pages) {
  return [...pages.filter(({ kind }) => kind !== "key"), ...pages.filter(({ kind }) => kind === "key")];
}

/** @param {{pages: unknown[], start: {size: string, sheets: number} | null}} press */
export function summary({ pages, start }) {
  if (!start) return "";
  return `${count(pages.length, "page")} on ${start.size}, ${count(start.sheets, "sheet")}. Print at 100 % (true size), on both sides if you can.`;
}

/** Only the pages are printed, each on a sheet of its own at true size. @param {number[]} millimetres */
export function printRules([width, height]) {
  return `@page { size: ${width}mm ${height}mm; margin: 0; }
#paper-print { display: none; }
.page:not(:has(.board)) { max-width: none; }
@media print {
  html, body { margin: 0; padding: 0; background: #fff; }
  body > *:not(#paper-print) { display: none !important; }
  #paper-print { display: block; }
  #paper-print img { display: block; width: ${width}mm; height: ${height}mm; break-after: page; break-inside: avoid; }
  #paper-print img:last-child { break-after: auto; }
}`;
}
