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
import { surviving } from "halfturn/parts/keeping.js";
import { markReady, node } from "halfturn/parts/nodes.js";
import { outbox } from "halfturn/parts/outbox.js";

/** @typedef {import("../messages.d.ts").LectureSaid} Said */
/** @typedef {import("../messages.d.ts").Script} Script */
/** @typedef {import("./talk.js").Talk} Talk */
/** @typedef {import("../parts/types.d.ts").Model<Said, {script: Script}>} Model */

const html = document.documentElement;
/** What is shown, also while the page is built anew. @type {{talk: Talk | null}} */
const last = surviving("lecture", () => ({ talk: null }));

/** @param {{model: Model, el: HTMLElement}} place */
export function render({ model, el }) {
  const before = kept();
  const line = outbox("lecture", model, {
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
  const talk = makeTalk(model, before, line), earlier = last.talk;
  last.talk = talk;
  el.append(talk.root);
  const deafen = attend(talk);
  model.on("remove", () => {
    deafen();
    talk.notes.close();
    talk.trace.stop();
    delete html.dataset.lecture;
  });
  if (earlier) goOn(talk, earlier, line);
  else begin(talk, before, line);
}

/** @typedef {ReturnType<typeof outbox>} Line */

/** @param {Model} model @param {import("./keep.js").Kept} before @param {Line} line @returns {Talk} */
function makeTalk(model, before, line) {
  const { script } = model, layer = penLayer();
  const state = {
    script, notices: script.notices ?? [], index: 0, revealed: new Set(before.revealed), blank: false, lit: -1, penOn: false,
    moving: false, keeps: false, waves: before.waves, wanted: { frame: before.frame, step: before.step }, showing: before.showing ?? script.showing, drafts: {}, submitted: false,
  };
  const talk = /** @type {Talk} */ (/** @type {unknown} */ ({
    ...state, root: node("div", { class: "talk" }), send: (/** @type {Said} */ said) => line.say(said),
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
  talk.script = { ...talk.script, refusal: script.refusal, given: script.given, brief: script.brief, frames: script.frames, waves: script.waves };
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
 * @param {Talk} talk @param {import("./keep.js").Kept} before @param {Line} line
 */
function begin(talk, before, line) {
  const { script, showing } = talk;
  if (before.light in LIGHTS) html.dataset.theme = before.light;
  const linked = script.linked && location.search !== `?${before.query}`, fresh = linked || !before.problem;
  const { problem, notation } = fresh ? { problem: script.entries, notation: script.notation } : before;
  if (!isSame(problem, before.problem)) Object.assign(talk, { wanted: { frame: "", step: "" }, revealed: new Set(), waves: false });
  if (!isSame([problem, notation, showing], [script.entries, script.notation, script.showing])) {
    return line.restore({ do: "restore", problem, notation, showing });
  }
  if (script.at) talk.wanted = { frame: script.at, step: "" };
  talk.index = placeOf(script.frames, talk.wanted, 0);
  paint(talk);
  return start(talk);
}

/** The page was built anew over another connection: it goes on as it was. @param {Talk} talk @param {Talk} earlier @param {Line} line */
function goOn(talk, earlier, line) {
  const { index, revealed, blank, lit, penOn, moving, waves, wanted, showing, drafts } = earlier;
  const script = { ...talk.script, ...earlier.script };
  Object.assign(talk, { script, index, revealed, blank, lit, penOn, moving, waves, wanted, showing, drafts });
  renewEntry(talk);
  if (earlier.parts.entry.open) talk.parts.entry.showModal();
  talk.pen.set(penOn);
  talk.pen.redraw();
  paint(talk);
  start(talk);
  line.restore({ do: "restore", problem: script.entries, notation: script.notation, showing: script.showing });
  if (moving) talk.send({ do: "move", on: true });
}

/** @param {unknown} one @param {unknown} other */
function isSame(one, other) {
  return JSON.stringify(one) === JSON.stringify(other);
}
