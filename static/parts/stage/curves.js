// @ts-check
// The curves of the printed grid as geometry, read from the drawing: for their names, and for drawing a part of them.

import { arcPath, onCircle } from "halfturn/parts/stage/svg.js";

/** @typedef {import("halfturn/parts/stage/types.d.ts").Pair} Pair */
/** @typedef {import("halfturn/parts/stage/view.js").View} View */
/** @typedef {{name: string, center: Pair, radius: number, start: number, sweep: number}} Curve */

/** @type {Record<string, Record<string, string>>} */
const LETTERS = { impedance: { resistance: "r", reactance: "x" }, admittance: { resistance: "g", reactance: "b" } };
const AROUND = 1.5; // times as far from its middle as the view reaches, curves are drawn

/** @param {string | null} text */
export const numbersIn = (text) => (text?.match(/-?[\d.]+/g) ?? []).map(Number);
/**
 * The curves that a path draws: their circles follow from their values, their ends from the path.
 * @param {Element} path @param {string} grid @param {number} unit of the drawing @returns {Curve[]}
 */
export function curvesOf(path, grid, unit) {
  const kind = path.getAttribute("class") ?? "", values = path.getAttribute("data-values")?.split(" ") ?? [];
  const pieces = path.getAttribute("d")?.split("M").slice(1) ?? [];
  return pieces.map((piece, i) => {
    const value = Number(values[i]), name = `${LETTERS[grid][kind]} ${values[i].replace("-", "−")}`;
    const curve = { name, ...arcOf(kind, value, numbersIn(piece).map((drawn) => drawn / unit)) };
    return grid === "admittance" ? halfTurned(curve) : curve;
  });
}

/** @param {string} kind @param {number} value @param {number[]} drawn numbers of the path: its start, sizes, sense, ..., end */
function arcOf(kind, value, drawn) {
  const radius = 1 / (kind === "resistance" ? 1 + value : Math.abs(value));
  /** @type {Pair} */
  const center = kind === "resistance" ? [value * radius, 0] : [1, 1 / value];
  const angle = (/** @type {number[]} */ [x, y]) => Math.atan2(-y - center[1], x - center[0]);
  const start = drawn.slice(0, 2), end = drawn.slice(-2), whole = start.join() === end.join();
  const [first, last] = drawn[6] > 0 ? [angle(end), angle(start)] : [angle(start), angle(end)];
  return { center, radius, start: first, sweep: whole ? 2 * Math.PI : turnTo(first, last) };
}

/** @param {Curve} curve @returns {Curve} */
function halfTurned({ center: [u, v], start, ...curve }) {
  return { ...curve, center: [-u, -v], start: start + Math.PI };
}

/** The turn from one direction on to another, counter-clockwise. @param {number} from @param {number} to */
function turnTo(from, to) {
  const turns = (to - from) / (2 * Math.PI);
  return (turns - Math.floor(turns)) * 2 * Math.PI;
}

/** Whether a point of the circle of a curve is on the curve. @param {Curve} curve @param {Pair} point */
export function isOn({ center, start, sweep }, point) {
  return turnTo(start, Math.atan2(point[1] - center[1], point[0] - center[0])) <= sweep;
}

/** Path, in pixels, of what can be seen of curves, and a little around it. @param {View} view @param {Curve[]} curves */
export function pathOf(view, curves) {
  return curves.flatMap((curve) => partsInView(view, curve).map(([from, to]) =>
    arcPath(view, curve.center, curve.radius, curve.start + from, to - from))).join("");
}

/** @param {View} view @param {Curve} curve @returns {Pair[]} turns from and to which it is seen */
function partsInView({ x, y, half }, { center: [u, v], radius, start, sweep }) {
  const reach = AROUND * half, at = (/** @type {number} */ turn) => onCircle([u, v], radius, start + turn);
  const upright = [x - reach, x + reach].map((edge) => (edge - u) / radius).filter((part) => Math.abs(part) < 1);
  const level = [y - reach, y + reach].map((edge) => (edge - v) / radius).filter((part) => Math.abs(part) < 1);
  const angles = [...upright.flatMap((part) => [Math.acos(part), -Math.acos(part)]), ...level.flatMap((part) => [Math.asin(part), Math.PI - Math.asin(part)])];
  const turns = [0, ...angles.map((angle) => turnTo(start, angle)).filter((turn) => turn < sweep).sort((a, b) => a - b), sweep];
  const isSeen = (/** @type {Pair} */ [a, b]) => Math.abs(a - x) <= reach && Math.abs(b - y) <= reach;
  return turns.slice(1).map((to, i) => /** @type {Pair} */ ([turns[i], to])).filter(([from, to]) => isSeen(at((from + to) / 2)));
}
