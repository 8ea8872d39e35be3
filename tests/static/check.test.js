/// <reference lib="deno.ns" />
// @ts-check
// What the self-check remembers while a working is written.

import { deepStrictEqual as equal } from "node:assert/strict";
import { changedEntries, draftOf, keptDrafts, unsentDrafts } from "halfturn/check/state.js";

const page = { steps: [{ fields: [{ key: "place", text: "1" }, { key: "turn", text: "" }] }] };

Deno.test("lines and the way of writing go along to another problem, single values do not", () => {
  equal(keptDrafts({ way: "steps", text: "z = 1", [draftOf("place")]: "2" }), { way: "steps", text: "z = 1" });
  equal(keptDrafts({}), {});
});

Deno.test("what was sent is no draft any more, what was typed since stays", () => {
  const drafts = { text: "z = 1\ny = 2", [draftOf("place")]: "2", [draftOf("turn")]: "3", way: "steps" };

  equal(unsentDrafts(drafts, { text: "z = 1", texts: { place: "2", turn: "0" } }), { text: "z = 1\ny = 2", [draftOf("turn")]: "3", way: "steps" });
  equal(unsentDrafts(drafts, {}), drafts);
  equal(unsentDrafts({ text: "a" }, { text: "a" }), {});
});

Deno.test("only values that were changed are sent, an emptied one among them", () => {
  equal(changedEntries(page, {}), {});
  equal(changedEntries(page, { [draftOf("place")]: "1", [draftOf("turn")]: "3" }), { turn: "3" });
  equal(changedEntries(page, { [draftOf("place")]: "" }), { place: "" });
});
