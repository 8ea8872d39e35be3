// @ts-check
// Answers drawn by hand: what can be moved in each kind of gesture, what is read off meanwhile, and what is handed in.
// A gesture works on points of the chart; pointers and keys are dealt with in input.js.

import {
  admittance, impedance, rimPosition, standingWaveRatio, turnBetween, walkedFrom, wavelengthsOfTurn, written, writtenAngle, writtenLength,
} from "halfturn/parts/stage/readings.js";
import { onCircle, onRadius } from "halfturn/parts/stage/svg.js";

/** @typedef {import("halfturn/parts/stage/types.d.ts").Pair} Pair */
/** @typedef {import("halfturn/parts/stage/types.d.ts").Task} Task */
/** @typedef {import("halfturn/parts/stage/types.d.ts").Hand} Hand */
/** @typedef {import("halfturn/parts/stage/types.d.ts").Notation} Notation */
/** @typedef {import("halfturn/parts/stage/view.js").View} View */
/** @typedef {[string, string]} Reading */

const CHART_STEP = 0.01; // of one press of an arrow key; a tenth of it with Shift
const LENGTH_STEP = { wavelengths: 0.005, degrees: 2 / 360 }; // so that it is a round number in either unit
const REACH = 44; // pixels from a named point within which a tap picks it

/** @param {Notation} notation */
export const lengthStep = (notation) => LENGTH_STEP[notation.length === "degrees" ? "degrees" : "wavelengths"];

/** A hand that carries out a task; null where nothing is asked. @param {Task | null} task @param {View} view @param {Notation} notation @returns {Hand | null} */
export function makeHand(task, view, notation) {
  if (!task) return null;
  /** @type {any} */
  const hand = HANDS[task.kind](task, view, lengthStep(notation));
  return Object.assign(hand, { task, touched: false, read: () => readingsOf(task, hand, notation) });
}

const HANDS = {
  place: (/** @type {Task} */ { start = [0, 0] }) => ({
    at: start,
    moveTo(/** @type {Pair} */ point) { this.at = withinRim(point); },
    press(/** @type {Pair} */ [right, up], /** @type {boolean} */ fine) { this.moveTo([this.at[0] + right * stepOf(fine), this.at[1] + up * stepOf(fine)]); },
    answer() { return this.at; },
  }),

  "on circle": (/** @type {Task} */ { center, radius }) => ({
    at: onCircle(center, radius, Math.PI / 2),
    moveTo(/** @type {Pair} */ point) { this.at = onCircle(center, radius, seenFrom(center, point)); },
    press(/** @type {Pair} */ [right, up], /** @type {boolean} */ fine) {
      this.at = onCircle(center, radius, seenFrom(center, this.at) + ((up - right) * stepOf(fine)) / Math.max(radius, 0.05));
    },
    answer() { return withinRim(this.at); },
  }),

  radius: () => ({
    at: /** @type {Pair} */ ([0.5, 0]),
    size() { return Math.hypot(...this.at); },
    moveTo(/** @type {Pair} */ point) { this.at = withinRim(point); },
    press(/** @type {Pair} */ [right, up], /** @type {boolean} */ fine) {
      const size = Math.min(1, Math.max(0, this.size() + (right + up) * stepOf(fine)));
      this.at = this.size() ? onRadius(this.at, size) : [size, 0];
    },
    answer() { return this.size(); },
  }),

  along: (/** @type {Task} */ { start }, /** @type {View} */ _view, /** @type {number} */ step) => ({
    at: start,
    walked: 0,
    asked: 0, // how far the hand has gone, which may be further than half a wavelength
    walk(/** @type {number} */ distance) {
      this.asked = distance;
      this.walked = Math.min(0.5, Math.max(-0.5, distance));
      this.at = walkedFrom(start[0], start[1], this.walked);
    },
    moveTo(/** @type {Pair} */ point) {
      const from = walkedFrom(start[0], start[1], this.asked);
      this.walk(this.asked + wavelengthsOfTurn(turnBetween(seenFrom([0, 0], from), seenFrom([0, 0], point))));
    },
    press(/** @type {Pair} */ [right, up], /** @type {boolean} */ fine) { this.walk(this.walked + (right - up) * (fine ? step / 10 : step)); },
    settle() { this.asked = this.walked; },
    answer() { return this.walked; },
  }),

  "along circle": (/** @type {Task} */ { center, radius, start }) => ({
    at: start,
    turned: 0, // counter-clockwise, at most once round
    asked: 0,
    turn(/** @type {number} */ angle) {
      this.asked = angle;
      this.turned = Math.min(2 * Math.PI, Math.max(-2 * Math.PI, angle));
      this.at = onCircle(center, radius, seenFrom(center, start) + this.turned);
    },
    moveTo(/** @type {Pair} */ point) { this.turn(this.asked + turnBetween(seenFrom(center, start) + this.asked, seenFrom(center, point))); },
    press(/** @type {Pair} */ [right, up], /** @type {boolean} */ fine) { this.turn(this.turned + ((up - right) * stepOf(fine)) / Math.max(radius, 0.05)); },
    settle() { this.asked = this.turned; },
    answer() { return withinRim(this.at); },
  }),

  pick: (/** @type {Task} */ { points }, /** @type {View} */ view) => ({
    index: -1,
    get at() { return this.index < 0 ? null : /** @type {Pair} */ (points[this.index].slice(1)); },
    moveTo(/** @type {Pair} */ point) {
      const [x, y] = view.toScreen(point);
      const away = points.map(([, u, v]) => { const at = view.toScreen([u, v]); return Math.hypot(at[0] - x, at[1] - y); });
      const nearest = away.indexOf(Math.min(...away));
      this.index = away[nearest] <= REACH ? nearest : -1;
    },
    press(/** @type {Pair} */ [right, up]) { this.index = (this.index + points.length + (this.index < 0 && right + up < 0 ? 0 : Math.sign(right - up))) % points.length; },
    answer() { return this.index < 0 ? null : points[this.index][0]; },
  }),
};

/** @param {boolean} fine */
const stepOf = (fine) => (fine ? CHART_STEP / 10 : CHART_STEP);

/** Direction of a point as seen from another. @param {Pair} from @param {Pair} point */
function seenFrom(from, point) {
  return Math.atan2(point[1] - from[1], point[0] - from[0]);
}

/** @param {Pair} point @returns {Pair} */
function withinRim([u, v]) {
  const size = Math.hypot(u, v);
  return size > 1 ? [u / size, v / size] : [u, v];
}

/** Name and value of each quantity that is read off while a hand moves. @param {Task} task @param {Hand} hand @param {Notation} notation @returns {Reading[]} */
function readingsOf(task, hand, notation) {
  if (!hand.at) return [];
  const number = (/** @type {number} */ value) => written(value, notation.decimals);
  const [u, v] = hand.at, size = Math.hypot(u, v);
  if (task.kind === "radius") return [["|Γ|", number(size)], ["SWR", written(standingWaveRatio(size), 2)]];
  const parts = immittanceReadings(task, hand.at, number);
  /** @type {Reading} */
  const scale = ["scale toward generator", writtenLength(rimPosition(u, v), notation)];
  if (task.kind === "along") return [walkReading(hand.walked ?? 0, notation), scale, ...parts];
  if (task.kind === "pick") return [["point", String(hand.answer())], ...parts];
  if (task.kind === "on circle") return [...parts, scale];
  if (task.kind === "along circle") return parts;
  return [...parts, ["|Γ|", number(size)], ["angle", writtenAngle(Math.atan2(v, u), notation)]];
}

/** @param {Task} task @param {Pair} at @param {(value: number) => string} number @returns {Reading[]} */
function immittanceReadings(task, [u, v], number) {
  const [real, imaginary] = task.turned || task.read_as === "impedance" ? impedance(u, v) : admittance(u, v);
  const names = task.read_as === "impedance" ? ["r", "x"] : ["g", "b"];
  if (!Number.isFinite(real)) return [[task.read_as === "impedance" ? "z" : "y", "∞"]]; // it has no parts there
  return [[names[0], number(real)], [names[1], number(imaginary)]];
}

/** @param {number} walked @param {Notation} notation @returns {Reading} */
function walkReading(walked, notation) {
  const sense = walked > 0 ? " toward generator" : walked < 0 ? " toward load" : "";
  return ["walked", writtenLength(Math.abs(walked), notation) + sense];
}
