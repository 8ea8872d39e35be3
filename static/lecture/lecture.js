// @ts-check
// The lecture in the browser: which frame is shown, what of it is revealed, the keys, and the presenter's page.
// The server has sent every frame already; it is asked only for another problem, notation, or way to show solutions.

import { actsOf } from "halfturn/lecture/acts.js";
import { makeNotesLink } from "halfturn/lecture/channel.js";
import { placeOf } from "halfturn/lecture/frames.js";
import { attend } from "halfturn/lecture/input.js";
import { kept } from "halfturn/lecture/keep.js";
import { KEYS } from "halfturn/lecture/keys.js";
import { makePen, penLayer } from "halfturn/lecture/pen.js";
import { frameOf, isTold, showingWords, stateForNotes } from "halfturn/lecture/talk.js";
import { LIGHTS, newEntry, paint, remember, renewEntry, say, shut } from "halfturn/lecture/view.js";
import { tracing } from "halfturn/lecture/tracing.js";
import { keyCard } from "halfturn/lecture/words.js";
import { showFaults } from "halfturn/parts/forms.js";
import { hear, markReady, node } from "halfturn/parts/nodes.js";

/** @typedef {import("../messages.d.ts").LectureSaid} Said */
/** @typedef {import("../messages.d.ts").Script} Script */
/** @typedef {import("./talk.js").Talk} Talk */
/** @typedef {import("../parts/types.d.ts").Model<Said, {script: Script}>} Model */

const html = document.documentElement;

/** @param {{model: Model, el: HTMLElement}} place */
export function render({ model, el }) {
  const before = kept(), talk = makeTalk(model, before);
  el.append(talk.root);
  const deafen = attend(talk);
  model.on("remove", () => {
    deafen();
    talk.notes.close();
    talk.trace.stop();
    delete html.dataset.lecture;
  });
  hear(model, {
    faults: (faults) => {
      talk.submitted = false;
      showFaults(talk.root, faults);
    },
    script: (script) => {
      talk.trace.answered();
      if (script.passing) return pass(talk, script);
      take(talk, script);
      start(talk);
    },
  });
  begin(talk, before);
}

/** @param {Model} model @param {import("./keep.js").Kept} before @returns {Talk} */
function makeTalk(model, before) {
  const { script } = model, layer = penLayer();
  const state = {
    script, notices: script.notices ?? [], index: 0, revealed: new Set(before.revealed), blank: false, lit: -1, penOn: false,
    moving: false, keeps: false, wanted: { frame: before.frame, step: before.step }, showing: before.showing ?? script.showing, drafts: {}, submitted: false,
  };
  const talk = /** @type {Talk} */ (/** @type {unknown} */ ({
    ...state, root: node("div", { class: "talk" }), send: (/** @type {Said} */ said) => model.send_msg(said),
    pen: makePen(layer, () => /** @type {HTMLElement} */ (document.getElementById("stage")).getBoundingClientRect()),
  })); // the rest refers to it
  talk.trace = tracing(talk);
  const acts = actsOf(talk);
  talk.act = (name) => acts[name]?.();
  talk.notes = makeNotesLink(() => stateForNotes(talk), talk.act);
  talk.parts = makeParts(talk);
  const { panel, modes, brief, bar, said, card, entry } = talk.parts;
  talk.root.append(panel, modes, layer, node("footer", { class: "strip" }, brief, bar), said, card, entry);
  return talk;
}

/** @param {Talk} talk @returns {import("./talk.js").Parts} */
function makeParts(talk) {
  const buttons = Object.fromEntries(KEYS.filter((one) => one.button).map((one) => [one.act, actButton(talk, one)]));
  const { back, forward, ...others } = buttons;
  return {
    buttons,
    bar: node("div", { class: "bar", role: "toolbar", "aria-label": "Lecture" }, back, forward, ...Object.values(others)),
    panel: node("div", { class: "panel" }), modes: node("p", { class: "modes", "aria-hidden": "true" }),
    said: node("div", { class: "heard", role: "status" }), brief: node("p", { class: "brief" }),
    card: keyCard(talk.script, (name) => {
      shut(talk, talk.parts.card);
      talk.act(name);
    }),
    entry: newEntry(talk),
  };
}

/** After a click the keys are for the lecture again; who came with the Tab key stays where he is. @param {Talk} talk @param {import("./keys.js").Key} key */
function actButton(talk, { act, button, written, does }) {
  const onclick = (/** @type {MouseEvent & {currentTarget: HTMLElement}} */ event) => {
    if (event.detail) event.currentTarget.blur();
    talk.act(act);
  };
  return node("button", { type: "button", "data-act": act, title: `${does} (${written})`, onclick }, button);
}

/** The script of where the load is just now, while it is being moved: the construction follows. @param {Talk} talk @param {Script} script */
function pass(talk, script) {
  if (!talk.moving) return;
  const { index } = talk, frame = frameOf(talk);
  if (frame) talk.wanted = { frame: frame.key, step: frame.step };
  talk.script = { ...talk.script, refusal: script.refusal, given: script.given, brief: script.brief, frames: script.frames };
  talk.index = placeOf(script.frames, talk.wanted, index);
  paint(talk);
}

/** Another script has come. @param {Talk} talk @param {Script} script */
function take(talk, script) {
  const { frames } = talk.script, all = frames.length && frames.every((one) => isTold(talk, one)), frame = frameOf(talk);
  if (html.dataset.lecture === "ready" && frame) talk.wanted = { frame: frame.key, step: frame.step };
  if (all) script.frames.forEach(({ key }) => talk.revealed.add(key));
  const index = placeOf(script.frames, talk.wanted, talk.index);
  Object.assign(talk, { script, showing: script.showing, index, lit: -1, drafts: {}, notices: [] });
  if (talk.submitted || !talk.parts.entry.open) renewEntry(talk);
  paint(talk);
  say(talk, [script.given, showingWords(talk), frameOf(talk)?.spoken ?? script.refusal].filter((words) => words).join(". "));
}

/** @param {Talk} talk */
function start(talk) {
  if (html.dataset.lecture === "ready") return;
  markReady("lecture");
  remember(talk);
}

/**
 * A link says what to show. Without one, or where the address is what this page made it, the lecture goes on as it was
 * left: after a reload, a lost connection, or with another server.
 * @param {Talk} talk @param {import("./keep.js").Kept} before
 */
function begin(talk, before) {
  const { script, showing } = talk;
  if (before.light in LIGHTS) html.dataset.theme = before.light;
  const linked = script.linked && location.search !== `?${before.query}`, fresh = linked || !before.problem;
  const { problem, notation } = fresh ? { problem: script.entries, notation: script.notation } : before;
  if (!isSame(problem, before.problem)) Object.assign(talk, { wanted: { frame: "", step: "" }, revealed: new Set() });
  if (!isSame([problem, notation, showing], [script.entries, script.notation, script.showing])) {
    return talk.send({ do: "restore", problem, notation, showing });
  }
  if (script.at) talk.wanted = { frame: script.at, step: "" };
  talk.index = placeOf(script.frames, talk.wanted, 0);
  paint(talk);
  return start(talk);
}

/** @param {unknown} one @param {unknown} other */
function isSame(one, other) {
  return JSON.stringify(one) === JSON.stringify(other);
}
