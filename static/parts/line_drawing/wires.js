// @ts-check
// How far apart the two wires of a line are drawn: the wider, the higher its impedance.

/** @import { Drawable, Frame, Placed, Scene } from "halfturn/parts/line_drawing/types.d.ts" */
/** @import { Pen } from "halfturn/parts/line_drawing/pen.js" */

/** @typedef {{from: number, to: number, half: number, placed?: Placed}} Span from right to left */
/** @typedef {Frame & {middle: number, top: number, bottom: number, end: number, spans: Span[], half: number}} Rails */

/**
 * Half the spacing of the wires over that of the line's own: the wider, the higher the impedance (a picture of it).
 * @param {number | null | undefined} ohms @param {number | null} line
 */
export function spreadOf(ohms, line) {
  if (!ohms || !line || ohms === line) return 1;
  const share = Math.max(0.55, Math.min(1.5, Math.sqrt(ohms / line)));
  return ohms > line ? Math.max(1.15, share) : Math.min(0.87, share);
}

/** @param {Rails} line @param {number} x */
export const halfAt = ({ spans, half }, x) => spans.find(({ from, to }) => to < x && x < from)?.half ?? half;

/**
 * Half the spacing of a stub's wires.
 * @param {Pen} pen @param {Scene} scene @param {Drawable} element
 */
export const stubHalf = ({ u }, { picture }, { ohms }) => 0.62 * u * Math.min(1.25, spreadOf(ohms, picture.line.ohms));

/** @param {Placed} placed @param {Scene} scene */
export const isOther = ({ element }, { picture }) => element.kind === "section" && element.ohms !== picture.line.ohms;


/**
 * The wires from the load toward the generator, in pieces of one spacing.
 * @param {Scene} scene
 * @returns {Span[]}
 */
export function spansOf({ picture, axis, half }) {
  /** @type {Span[]} */
  const pieces = axis.placed.map(placed => {
    const own = placed.element.kind === "section" ? spreadOf(placed.element.ohms, picture.line.ohms) : 1;
    return { from: placed.from, to: placed.to, half: half * own, placed };
  });
  const links = axis.links.map(link => ({ ...link, half }));
  return [...pieces, ...links].filter(span => span.from > span.to).sort((one, other) => other.from - one.from);
}

/**
 * Whether a section's impedance finds room between its wires.
 * @param {Pen} pen @param {Scene} scene @param {Placed} placed
 */
export function fitsInside(pen, { picture, axis, half }, { element, from, to, length }) {
  const stands = (/** @type {number} */ x) => axis.placed.some(({ element: other, from: right, to: left }) =>
    other.kind !== "section" && left <= x + 0.1 && right >= x - 0.1);
  const room = from - to - (stands(from) ? 1.2 : 0.3) * pen.u - (stands(to) ? 1.2 : 0.3) * pen.u;
  return length !== null && room >= pen.width([element.text]) + 0.4 * pen.u
    && 2 * half * spreadOf(element.ohms, picture.line.ohms) >= 1.3 * pen.u;
}
