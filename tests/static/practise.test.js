/// <reference lib="deno.ns" />
// @ts-check
// What the sheet remembers, and the files that it comes from.

import { deepStrictEqual as equal } from "node:assert/strict";
import { fileName, parsed } from "halfturn/practise/files.js";
import { displacedBy, stillDrafts } from "halfturn/practise/state.js";

const record = (/** @type {object} */ entries) => ({ record: { sheet: { entries } } });

Deno.test("what was checked is no draft any more, what was typed since stays", () => {
  const drafts = { place: "0.5", mismatch: "3", length: "0.1" };
  const entered = { place: { text: "0.5" }, mismatch: { text: "2" }, length: { revealed: true } };

  equal(stillDrafts(drafts, entered), { mismatch: "3" });
});

Deno.test("a sheet that was brought displaces one's own only where that holds other work", () => {
  const own = record({ place: { text: "1" } }), brought = record({ place: { text: "2" } });

  equal(displacedBy(own, brought), own.record);
  equal(displacedBy(own, own), null);
  equal(displacedBy(record({}), brought), null);
  equal(displacedBy(undefined, brought), null);
});

Deno.test("a file is named after its problem", () => {
  equal(fileName("Gauge at the weir"), "halfturn-gauge-at-the-weir");
  equal(fileName(""), "halfturn-sheet");
});

Deno.test("a file that cannot be read is nothing, which the program then says", () => {
  equal(parsed("{broken"), null);
  equal(parsed('{"version": 1}'), { version: 1 });
});
