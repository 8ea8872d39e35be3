// @ts-check
// Symbols of the trade: coil, capacitor, and what there is in place of a part that is not known or not there.

/** @import { Drawable } from "halfturn/parts/line_drawing/types.d.ts" */
/** @import { Pen } from "halfturn/parts/line_drawing/pen.js" */

import { ring } from "halfturn/parts/line_drawing/pen.js";

/**
 * @typedef {{along: boolean, from: number, to: number, at: number}} Way a part along x or else along y, between two
 * places with its leads; `at` is the other coordinate
 */

/** @type {(way: Way, p: number, q?: number) => string} `p` along the part, `q` across it */
const point = ({ along, at }, p, q = 0) => along ? `${p} ${at - q}` : `${at + q} ${p}`;
/** @type {(way: Way) => number} */
const middle = ({ from, to }) => (from + to) / 2;

/** @type {(way: Way, half: number) => string} the leads, up to `half` from the middle */
const leads = (way, half) => `M${point(way, way.from)}L${point(way, middle(way) - half)}`
  + `M${point(way, middle(way) + half)}L${point(way, way.to)}`;

/** @type {(way: Way, u: number) => string} */
function inductor(way, u) {
  const r = 0.3 * u, start = middle(way) - 4 * r;
  const bumps = [1, 2, 3, 4].map(i => `A${r} ${r} 0 0 1 ${point(way, start + 2 * r * i)}`);
  return `${leads(way, 4 * r)}M${point(way, start)}${bumps.join("")}`;
}

/** @type {(way: Way, u: number) => string} */
function capacitor(way, u) {
  const half = 0.2 * u, plate = (/** @type {number} */ p) => `M${point(way, p, -0.7 * u)}L${point(way, p, 0.7 * u)}`;
  return leads(way, half) + plate(middle(way) - half) + plate(middle(way) + half);
}

/** @type {(way: Way, u: number) => string} a box of any reactance */
function unknown(way, u) {
  const [p, q] = [0.75 * u, 0.65 * u], m = middle(way), corners = [[-p, -q], [p, -q], [p, q], [-p, q]];
  return `${leads(way, p)}M${corners.map(([a, b]) => point(way, m + a, b)).join("L")}Z`;
}

/** @type {(way: Way, u: number) => string} */
const wire = way => `M${point(way, way.from)}L${point(way, way.to)}`;

/** @type {(way: Way, u: number) => string} */
function gap(way, u) {
  const half = 0.5 * u, r = 0.2 * u;
  const dots = [-half, half].map(off => ring(...coordinates(way, middle(way) + off), r));
  return leads(way, half + r) + dots.join("");
}

/** @type {(way: Way, p: number) => [number, number]} */
const coordinates = ({ along, at }, p) => along ? [p, at] : [at, p];

const SYMBOLS = { inductor, capacitor, unknown, wire, gap };

/**
 * @param {Pen} pen @param {string} name @param {string} look @param {Drawable} element @param {Way} way
 */
export function drawPart(pen, name, look, element, way) {
  const kind = element.part ?? "unknown", [x, y] = coordinates(way, middle(way)), { u } = pen;
  pen.path(name, `device ${kind === "unknown" ? "filled " : ""}${look}`, SYMBOLS[kind](way, u));
  if (kind === "unknown") pen.text(`${name}-unknown`, `name ${look}`, x, y + 0.36 * u, ["?"], "middle");
}
