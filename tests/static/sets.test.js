// What is done of a set on a device, and the file that is handed in.

import { fileName, handIn, progress } from "halfturn/sets/handing.js";
import { signature } from "halfturn/parts/keeping.js";

function equal(actual, expected) {
  const [one, other] = [actual, expected].map((value) => JSON.stringify(value));
  if (one !== other) throw new Error(`${one} is not ${other}`);
}

const problem = (key) => ({ key, entries: { load: key } });
const set = { key: "week-3", version: 2, name: "Ada Löwe", problems: [problem("a"), problem("b"), problem("c")] };
const sheet = (attempts, state, drafts = {}) => ({ record: { sheet: { attempts, shown: 0 }, state }, drafts });
const sheets = {
  [signature(problem("a"))]: sheet([["enter", "x", "1"]], "solved"),
  [signature(problem("b"))]: sheet([["hint", "x"]], "begun", { x: " 2" }),
  [signature(problem("c"))]: sheet([], ""),
};

Deno.test("a sheet counts as begun once something was done on it", () => {
  equal(progress(set, sheets).map(({ state, drafts }) => [state, drafts]), [["solved", false], ["begun", true], ["", false]]);
  equal(progress(set, {}).map(({ record }) => record), [null, null, null]);
});

Deno.test("a hand-in holds the sheets that were begun, by their problems", () => {
  const file = handIn(set, progress(set, sheets), new Date("2026-11-20T10:00:00.123Z"));
  equal([file.halfturn, file.version, file.set, file.name, file.saved], ["hand-in", 1, { key: "week-3", version: 2 }, "Ada Löwe", "2026-11-20T10:00:00Z"]);
  equal(file.sheets.map(({ problem }) => problem), ["a", "b"]);
});

Deno.test("its file is called by the set and the name, on any system", () => {
  equal(fileName(set), "halfturn-week-3-ada-lowe.json");
  equal(fileName({ ...set, name: "../../<x>" }), "halfturn-week-3-x.json");
  equal(fileName({ ...set, name: "李" }), "halfturn-week-3-李.json");
});
