/// <reference lib="deno.ns" />
// @ts-check
// The lecture as plain data: what the chart shows, which frame comes next, what keys mean.

import { deepStrictEqual as equal } from "node:assert/strict";
import { groupsOf, placeOf, strokesInTurn } from "halfturn/lecture/frames.js";
import { usable } from "halfturn/lecture/keep.js";
import { actOf, KEYS } from "halfturn/lecture/keys.js";
import { modesOf as notesModes } from "halfturn/lecture/notes.js";
import { pathOf } from "halfturn/lecture/pen.js";
import { written } from "halfturn/lecture/presenter.js";
import { modesOf, nextShowing, shownGroups, stateForNotes, wavesOf } from "halfturn/lecture/talk.js";

/** @type {Record<string, [number, number]>} */
const WAVES = { "turn.a": [-1, 0], "turn.b": [0, 1] }; // before the values are revealed, and after
const stroke = (/** @type {string} */ label) => ({ label, value: "0.5", spoken: `${label} at 0.5`, quiet: label });
const frame = (/** @type {string} */ key, /** @type {string[]} */ ...labels) =>
  /** @type {import("../../static/messages.d.ts").FrameWords} */ (/** @type {unknown} */ ({ key, step: key.split(".")[0], strokes: labels.map(stroke), spoken: key, spoken_values: "", waves: WAVES[key] ?? [-1, -1] }));
const FRAMES = [frame("opening"), frame("place", "z"), frame("turn.a", "y", "line"), frame("turn.b", "x")];
const KEY_NAMES = KEYS.flatMap(({ keys }) => keys);

/** @param {Partial<import("halfturn/lecture/talk.js").State>} [changes] */
function state(changes = {}) {
  const script = /** @type {any} */ ({ frames: FRAMES, showing: "both", showings: [["both", "A and B"], ["one", "A only"]], given: "Given.", refusal: "", waves: [{ spoken: "The load." }, { spoken: "The design." }] });
  return /** @type {import("halfturn/lecture/talk.js").State} */ ({
    script, notices: [], index: 2, revealed: new Set(["turn.a"]), blank: false, lit: -1, penOn: false, moving: false, keeps: false, waves: false,
    wanted: { frame: "", step: "" }, showing: "both", drafts: {}, submitted: false, ...changes,
  });
}

Deno.test("the newest construction stands at full strength, the earlier ones calm", () => {
  equal(shownGroups(state()).map(({ key, current }) => [key, current]), [["place", false], ["turn.a", true]]);
});

Deno.test("a value stays back until its construction is revealed, in letters and in speech", () => {
  const [hidden, shown] = groupsOf(FRAMES, 2, new Set(["turn.a"]), -1, false).map(({ strokes }) => strokes[0]);

  equal([hidden.value, hidden.spoken], ["", "z"]);
  equal([shown.value, shown.spoken], ["0.5", "y at 0.5"]);
});

Deno.test("a revealed value goes with the next construction, and stays where values are kept", () => {
  const earlier = (/** @type {boolean} */ keeps) =>
    groupsOf(FRAMES, 3, new Set(["turn.a"]), -1, keeps)[1].strokes.map(({ value }) => value);
  equal([earlier(false)[0], earlier(true)[0]], ["", "0.5"]);
});

Deno.test("no stroke goes to the chart with the words that keep its value back", () => {
  equal(groupsOf(FRAMES, 3, new Set(), -1, false).flatMap(({ strokes }) => strokes).filter((one) => "quiet" in one), []);
});

Deno.test("the spotlight goes from the newest construction to the oldest, and every other stroke dims", () => {
  equal(strokesInTurn(FRAMES, 2).map((one) => one.stroke.label), ["y", "line", "z"]);
  const [others, lit] = groupsOf(FRAMES, 2, new Set(), 1, false);
  equal([others.strokes.map(({ label }) => label), lit.strokes.map(({ label }) => label)], [["z", "y"], ["line"]]);
});

Deno.test("a blank chart shows nothing", () => {
  equal(shownGroups(state({ blank: true })), []);
});

Deno.test("with other frames the lecture stays at its construction, else at its step, else as far on", () => {
  equal(placeOf(FRAMES, { frame: "turn.b", step: "turn" }, 0), 3);
  equal(placeOf(FRAMES, { frame: "turn.c", step: "turn" }, 0), 2);
  equal(placeOf(FRAMES, { frame: "gone", step: "gone" }, 9), 3);
  equal(placeOf([], { frame: "place", step: "place" }, 2), 0);
});

Deno.test("no key has two meanings", () => {
  equal(KEY_NAMES.length, new Set(KEY_NAMES).size);
});

Deno.test("keys mean what the card says, with Shift or as the keyboard gives them", () => {
  equal(["v", "V", "N", "?", "ArrowRight", " "].map((key) => actOf({ key })), ["values", "values", "showing", "keys", "forward", "forward"]);
  equal(["v", "N", "PageDown"].map((key) => actOf({ key, shiftKey: true })), ["all values", "showing", "forward"]);
  equal(["x", "Enter"].map((key) => actOf({ key })), ["", ""]);
  equal(actOf({ key: "l", ctrlKey: true }), "");
});

Deno.test("whatever was kept wrongly is left out, the rest is used", () => {
  const nothing = { frame: "", step: "", revealed: [], waves: false, light: "" };
  for (const found of [null, 3, [], "text"]) equal(usable(found), nothing);
  equal(usable({ problem: {}, notation: [], frame: "a", revealed: [1], waves: 1, light: "dark" }), { ...nothing, frame: "a", revealed: ["1"], light: "dark" });
  equal(usable({ waves: true }), { ...nothing, waves: true });
  equal(usable({ problem: { load: "25" }, notation: {}, query: "q", showing: "both" }), { ...nothing, problem: { load: "25" }, notation: {}, query: "q", showing: "both" });
});

Deno.test("after the last way to show solutions comes the first", () => {
  equal(nextShowing(state()), "one");
  equal(nextShowing(state({ showing: "one" })), "both");
});

Deno.test("what is on is said on the page and to the presenter", () => {
  const on = state({ penOn: true, lit: 0, index: 3 });

  equal(modesOf(on), ["Pen on", "Spotlight"]);
  equal(notesModes(stateForNotes(on)), ["A and B", "values hidden", "pen on", "spotlight"]);
  equal(notesModes(stateForNotes(state())), ["A and B", "values revealed"]);
});

Deno.test("voltage and current are seen where they are wanted, and of each construction only what gives nothing away", () => {
  const seen = (/** @type {number} */ index, /** @type {string[]} */ revealed, waves = true) => wavesOf(state({ index, waves, revealed: new Set(revealed) }))?.spoken;
  equal([seen(1, ["place"]), seen(2, []), seen(2, ["turn.a"]), seen(3, []), seen(3, ["turn.b"])], [undefined, undefined, "The load.", "The load.", "The design."]);
  equal(seen(2, ["turn.a"], false), undefined);
});

Deno.test("voltage and current that have to wait are said to, and the presenter hears what is seen", () => {
  const waiting = state({ waves: true, revealed: new Set() }), seen = stateForNotes(state({ waves: true }));
  equal([modesOf(waiting), modesOf(state({ waves: true }))], [["Waves: not yet"], []]);
  const response = state({ waves: true, index: 1, revealed: new Set() });
  response.script.frames = FRAMES.map((one) => ({ ...one, response: /** @type {any} */ ({}) }));
  equal(modesOf(response), []);
  equal([seen.waves, notesModes(seen)], ["The load.", ["A and B", "values revealed", "waves shown"]]);
});

Deno.test("the presenter is told the strokes in words, and what comes next", () => {
  const told = stateForNotes(state());

  equal([told.index, told.count, told.frame?.strokes, told.next?.key], [2, 4, ["y at 0.5", "line at 0.5"], "turn.b"]);
  equal(stateForNotes(state({ index: 3 })).next, undefined);
});

Deno.test("a line of the pen keeps its place when the chart grows", () => {
  equal(pathOf([[0, 0], [0.5, 0.5]], { left: 10, top: 20, width: 100 }), "M10 20Q10.0 20.0 35.0 45.0L60 70");
  equal(pathOf([[0.5, 0.5]], { left: 10, top: 20, width: 200 }), "M110 120L110 120");
});

Deno.test("the clock writes two digits", () => {
  equal(written(9, 5), "09:05");
});
