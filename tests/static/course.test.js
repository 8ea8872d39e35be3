// The course: what a browser keeps in parts, and the hand of a figure.

import { inParts } from "halfturn/course/kept.js";
import { nearest } from "halfturn/parts/figure.js";
import { progressOf } from "halfturn/parts/progress.js";

function equal(actual, expected) {
  if (JSON.stringify(actual) !== JSON.stringify(expected)) throw new Error(`expected ${JSON.stringify(expected)}, got ${JSON.stringify(actual)}`);
}

Deno.test("all records go to the program in parts of a size that it takes, in their order, and none twice", () => {
  const records = Array.from({ length: 37 }, (_, i) => ({ i, text: "x".repeat(i % 5 === 0 ? 150_000 : 100) })), parts = inParts(records);
  equal(parts.flatMap(({ sheets }) => sheets), records);
  equal(parts.every(({ sheets }) => sheets.length <= 4 && (sheets.length === 1 || JSON.stringify(sheets).length < 320_000)), true);
  equal(parts.map(({ first, last }) => [first, last]).filter(([first, last]) => first || last), [[true, false], [false, true]]);
});

Deno.test("of nothing kept there is one part, so that the program answers", () => {
  equal(inParts([]), [{ sheets: [], first: true, last: true }]);
});

Deno.test("what sheets said of progress before it stood apart is taken over, the newest last", () => {
  const kept = [{ record: { progress: { one: { run: 1 } } } }, { record: { progress: { one: { run: 2 }, two: { run: 3 } } } }, { record: { progress: { worked: 1 } } }, { record: {} }];
  equal(progressOf(kept), { one: { run: 2 }, two: { run: 3 } });
});

Deno.test("the hand takes the nearest pose, and of two in one place the one that it is beside", () => {
  const poses = [[0, 0], [1, 0], [2, 0], [0, 0]].map((point) => ({ hand: { points: [point] } }));
  equal([nearest({ poses }, [1.1, 0.3], 0), nearest({ poses }, [0, 0.1], 2), nearest({ poses }, [0, 0.1], 1)], [1, 3, 0]);
});
