/// <reference lib="deno.ns" />
// @ts-check
// Designs over frequency: what the picture shows where.

import { deepStrictEqual as equal, ok } from "node:assert/strict";
import { apart, heightOf, MOST, PAGE, SCREEN, swrAt } from "halfturn/parts/response_plot.js";

/** A curve whose standing-wave ratio rises by so much a percent, both ways. @param {number} slope @returns {any} */
const rising = (slope) => ({ branch: null, bands: [], line: "", swr: Array.from({ length: 121 }, (_, i) => 1 + slope * Math.abs(i - 60) / 2) });
const response = /** @type {any} */ ({ lowest: 0.7, highest: 1.3, curves: [rising(0.1), rising(0.3)] });

Deno.test("even factors of the ratio are even steps of the height, and what is matched stands at the foot", () => {
  for (const size of [PAGE, SCREEN]) {
    const [one, two, four] = [1, 2, 4].map((swr) => heightOf(swr, size));
    equal(one, size.high - size.foot);
    ok(Math.abs((one - two) - (two - four)) < 1e-9);
    ok(Math.abs(heightOf(MOST, size) - size.top) < 1e-9);
  }
});

Deno.test("between two known frequencies the ratio is between theirs", () => {
  equal(swrAt(response, response.curves[0], 1), 1);
  ok(Math.abs(swrAt(response, response.curves[0], 1.0025) - 1.025) < 1e-9);
});

Deno.test("markers of two designs stand on their own curves, one below the design frequency and one above it", () => {
  const [below, above] = response.curves.map((/** @type {any} */ curve, /** @type {number} */ index) => apart(response, curve, index));
  ok(below < 0.97 && above > 1.03);
  ok(swrAt(response, response.curves[1], above) < MOST);
});
