// @ts-check
// How broad copper is drawn, and where its edges are.

/** @import { Axis, Drawable, Frame } from "halfturn/parts/line_drawing/types.d.ts" */

/** @typedef {{from: number, to: number, breadth: number}} Piece of copper, from right to left */
/**
 * @typedef {Frame & {load: number, series: boolean, pieces: Piece[], breadth: number, middle: number, upper: number,
 *   lower: number, top: number, bottom: number}} Board
 */

/**
 * Copper is the wider the lower its impedance; a picture of that, no measure.
 * @param {number | null | undefined} ohms @param {number} u
 */
export const breadthOf = (ohms, u) => u * Math.max(0.4, Math.min(1.8, (50 / (ohms || 50)) ** 0.7));

/**
 * How far a stub's copper reaches to either side of its middle, in u.
 * @param {Drawable} stub
 */
export const branchReach = ({ placement, ohms }) =>
  placement === "series" ? 0.25 + breadthOf(ohms, 1) : breadthOf(ohms, 1) / 2;

/**
 * How far strips of one breadth reach up and down from the middle.
 * @param {boolean} series @param {number} breadth @param {number} u
 */
export const reachOf = (series, breadth, u) => series ? 0.3 * u + breadth : breadth / 2;

/** The lower edge of the copper at `x`. @param {Board} board @param {number} x @param {number} u */
export function edgeAt({ pieces, breadth, series, middle }, x, u) {
  const own = pieces.filter(({ from, to }) => to - 0.1 <= x && x <= from + 0.1).map(piece => piece.breadth);
  return middle + reachOf(series, own.length ? Math.max(...own) : breadth, u);
}

/**
 * Room above the copper for the value of a part that has none below it, in u.
 * @param {Axis} axis @param {boolean} series whether the board has two strips
 */
export const extraAbove = ({ placed }, series) => placed.some(({ element }) =>
  element.kind === "part" && element.text && element.placement === (series ? "shunt" : "series")) ? 1.1 : 0;
