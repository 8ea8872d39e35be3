/// <reference lib="deno.ns" />
// @ts-check
// How hard random problems are to be, as the browser keeps it.

import { deepStrictEqual as equal } from "node:assert/strict";
import { chosen, DIFFICULTY, drawnSo, queryDrawnSo } from "halfturn/parts/difficulty.js";

/** @type {import("../../static/messages.d.ts").Entry} */
const entry = { key: "difficulty", label: "Difficulty", example: "", text: "any", options: [["any", "Any"], ["hard", "Hard"]] };

Deno.test("what was chosen last counts, as far as the program offers it", () => {
  for (const [kept, counts] of [['"hard"', "hard"], ['"fiendish"', "any"], ["{", "any"], ["3", "any"], [null, "any"]]) {
    if (kept === null) localStorage.removeItem(DIFFICULTY);
    else localStorage.setItem(DIFFICULTY, kept);
    equal(chosen(entry), counts);
    equal(drawnSo(entry), { difficulty: counts });
  }
});

Deno.test("a link to what is drawn carries it, where anything was chosen", () => {
  localStorage.setItem(DIFFICULTY, '"hard"');
  equal(queryDrawnSo("seed=7"), "seed=7&difficulty=hard");
  localStorage.removeItem(DIFFICULTY);
  equal(queryDrawnSo("seed=7"), "seed=7");
});
