// @ts-check
// The state of a lecture in the browser, and what follows from it.

import { groupsOf } from "halfturn/lecture/frames.js";

/** @typedef {import("../messages.d.ts").FrameWords} Frame */
/** @typedef {import("../messages.d.ts").LectureSaid} Said */
/** @typedef {import("../messages.d.ts").Script} Script */
/**
 * `index` is of the frame shown, `lit` of the stroke in the spotlight (-1 for none), `wanted` where it was last, and
 * `submitted` says that an entry is on its way to the program; `waves`, that voltage and current are wanted in sight.
 * @typedef {{script: Script, notices: string[], index: number, revealed: Set<string>, blank: boolean, lit: number,
 *   penOn: boolean, moving: boolean, keeps: boolean, waves: boolean, wanted: {frame: string, step: string}, showing: string,
 *   drafts: import("../parts/types.d.ts").Drafts, submitted: boolean}} State
 */
/**
 * @typedef {{panel: HTMLElement, modes: HTMLElement, said: HTMLElement, brief: HTMLElement, bar: HTMLElement,
 *   buttons: Record<string, HTMLButtonElement>, card: HTMLDialogElement, entry: HTMLDialogElement}} Parts
 */
/**
 * @typedef {State & {root: HTMLElement, parts: Parts, pen: ReturnType<typeof import("./pen.js").makePen>,
 *   notes: ReturnType<typeof import("./channel.js").makeNotesLink>, trace: ReturnType<typeof import("./tracing.js").tracing>, act(name: string): void, send(said: Said): void}} Talk
 */

/** @param {State} talk @returns {Frame | undefined} */
export function frameOf({ script, index }) {
  return script.frames[index];
}

/** Whether what a frame comes to is revealed. @param {State} talk @param {Frame | undefined} frame */
export function isTold({ revealed }, frame) {
  return frame !== undefined && revealed.has(frame.key);
}

/** The page's own way to show solutions, in words. @param {State} talk */
export function showingWords({ script }) {
  return script.showings.find(([key]) => key === script.showing)?.[1] ?? "";
}

/** The next way to show solutions. @param {State} talk */
export function nextShowing({ script, showing }) {
  const keys = script.showings.map(([key]) => key);
  return keys[(keys.indexOf(showing) + 1) % keys.length];
}

/** What the chart shows. @param {State} talk */
export function shownGroups({ script, index, revealed, lit, blank, keeps }) {
  return blank ? [] : groupsOf(script.frames, index, revealed, lit, keeps);
}

/** Voltage and current along the line, where they are wanted and give nothing away. @param {State} talk @returns {Record<string, any> | undefined} */
export function wavesOf(talk) {
  const { script, waves } = talk, frame = frameOf(talk);
  return waves && frame ? script.waves[frame.waves[isTold(talk, frame) ? 1 : 0]] : undefined;
}

/** Whether they are wanted and have to wait; beside the response over frequency there is no room for them. @param {State} talk */
export function wavesWait(talk) {
  return talk.waves && talk.script.waves.length > 0 && !wavesOf(talk) && !frameOf(talk)?.response;
}

/** What is on, in words. @param {State} talk */
export function modesOf(talk) {
  const { penOn, blank, lit, moving, keeps } = talk;
  return [wavesWait(talk) && "Waves: not yet", keeps && "Values kept", penOn && "Pen on", blank && "Chart blank", lit >= 0 && "Spotlight", moving && "Move the load"].filter((word) => word !== false);
}

/** What the presenter's page is told. @param {State} talk */
export function stateForNotes(talk) {
  const { script, index, penOn, blank, moving, lit } = talk, frame = frameOf(talk);
  const words = (/** @type {Frame | undefined} */ one) => one && { ...one, strokes: one.strokes.map(({ spoken }) => spoken) };
  return {
    set: script.set, given: script.given, refusal: script.refusal, index, count: script.frames.length, frame: words(frame),
    next: words(script.frames[index + 1]), told: isTold(talk, frame), showing: showingWords(talk),
    penOn, blank, moving, spotlight: lit >= 0, hasWaves: script.waves.length > 0, waves: wavesOf(talk)?.spoken ?? "",
  };
}
