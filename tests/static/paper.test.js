/// <reference lib="deno.ns" />
// @ts-check
// Pages of worksheets as texts.

import { deepStrictEqual as equal } from "node:assert/strict";
import { drawnNumber } from "halfturn/paper/form.js";
import { keysLast, printRules, put, summary } from "halfturn/paper/sheets.js";

Deno.test("a page is its own texts around the ones that pages share", () => {
  equal(put(["<svg>", 1, "</svg>"], ["<a/>", "<b/>"]), "<svg><b/></svg>");
});

Deno.test("keys are printed after the worksheets, each in its order", () => {
  const pages = ["worksheet 1", "key 1", "worksheet 2", "key 2"].map((name) => ({ name, kind: name.split(" ")[0] }));

  equal(keysLast(pages).map(({ name }) => name), ["worksheet 1", "worksheet 2", "key 1", "key 2"]);
});

Deno.test("one page is told from several", () => {
  equal(summary({ pages: [1], start: { size: "A4", sheets: 1 } }).split(".")[0], "1 page on A4, 1 sheet");
  equal(summary({ pages: [1, 2], start: { size: "Letter", sheets: 2 } }).split(".")[0], "2 pages on Letter, 2 sheets");
});

Deno.test("pages are printed at true size", () => {
  equal(printRules([210, 297]).includes("size: 210mm 297mm; margin: 0"), true);
});

Deno.test("a number drawn by lot leaves room for all the numbers that follow it", () => {
  equal(drawnNumber(10, 0), "0");
  equal(drawnNumber(10, 0.9999), "9");
});
