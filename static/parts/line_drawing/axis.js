// @ts-check
// Where each element stands along the line: lengths to scale, and room for what has none.

/** @import { Axis, Drawable, Link, Placed } from "halfturn/parts/line_drawing/types.d.ts" */

import { branchReach } from "halfturn/parts/line_drawing/copper.js";

export const UNKNOWN = 5;            // drawn length of a section of unknown length, in u

/**
 * How much an element that is no section needs, in u: `solid` of its own, and `clear` to either side.
 * @param {Drawable} element
 */
export function roomOf(element) {
  if (element.kind === "stub") return { solid: 0, clear: Math.max(1.15, branchReach(element) + 0.3) };
  if (element.kind === "part" && element.placement === "shunt") return { solid: 0, clear: 1 };
  return { solid: 3, clear: 0.2 };
}

/**
 * The line from `load` on, toward the generator and so to the left. Where two elements without length would stand in
 * each other's way, a link without length stands between them.
 * @param {Drawable[]} elements @param {(number | null)[]} lengths @param {number} load
 * @param {number} scale pixels a wavelength @param {number} u
 * @returns {Axis}
 */
export function layOut(elements, lengths, load, scale, u) {
  let x = load, waves = 0, edge = Infinity, clear = 0;
  /** @type {Placed[]} */ const placed = [];
  /** @type {Link[]} */ const links = [];
  /** @type {[number, number][]} */ const stops = [[0, load]];
  elements.forEach((element, index) => {
    const length = lengths[index];
    if (element.kind === "section") {
      const to = x - (length === null ? UNKNOWN * u : length * scale);
      placed.push({ element, index, from: x, to, length });
      waves += length ?? NaN;
      x = to;
    } else {
      const need = roomOf(element), link = Math.max(0, (clear + need.clear) * u - (edge - x));
      if (link) links.push({ from: x, to: x - link });
      edge = x - link - need.solid * u;
      placed.push({ element, index, from: x - link, to: edge, length });
      [x, clear] = [edge, need.clear];
    }
    stops.push([waves, x]);
  });
  return { load, scale, placed, links, end: x, at: wavelengths => placeOf(stops, scale, wavelengths) };
}

/** @param {[number, number][]} stops @param {number} scale @param {number} wavelengths */
function placeOf(stops, scale, wavelengths) {
  const next = stops.findIndex(([waves], i) => i && waves >= wavelengths - 1e-12);
  if (next < 0 && Number.isNaN(stops[stops.length - 1][0])) return null;
  const [waves, x] = stops[next < 0 ? stops.length - 1 : next - 1];
  return x - (wavelengths - waves) * scale;
}

/**
 * Pixels a wavelength, so that the line with all that stands in it fits into `room`, and the width that it takes.
 * @param {Drawable[]} elements @param {(number | null)[]} lengths @param {number} reach wavelengths that are to fit
 * @param {number} room @param {number} u
 */
export function scaleFor(elements, lengths, reach, room, u) {
  const most = 42 * u, known = lengths.reduce((/** @type {number} */ sum, length, i) =>
    sum + (elements[i].kind === "section" ? length ?? 0 : 0), 0);
  let scale = Math.min(most, room / reach);
  for (let i = 0; i < 6; i++) {
    const extra = -layOut(elements, lengths, 0, scale, u).end - known * scale;
    scale = Math.max(0, Math.min(most, (room - extra) / reach));
  }
  return scale;
}

/**
 * The width without which the line is too crowded to be read.
 * @param {Drawable[]} elements @param {(number | null)[]} lengths @param {number} u
 */
export function leastWidth(elements, lengths, u) {
  const none = lengths.map((length, i) => elements[i].kind === "section" && length !== null ? 0 : length);
  const sections = elements.some(element => element.kind === "section" || element.kind === "stub");
  return -layOut(elements, none, 0, 0, u).end + (sections ? 6 : 3) * u;
}
