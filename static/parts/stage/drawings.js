// @ts-check
// How each kind of stroke looks when a part of it is drawn: the attributes of its line, arrowhead and marker.

import { markerPath } from "halfturn/parts/markers.js";
import { arcPath, arrowhead, headOnArc, onRadius, ringPath } from "halfturn/parts/stage/svg.js";

/** @typedef {import("halfturn/parts/stage/types.d.ts").Pair} Pair */
/** @typedef {import("halfturn/parts/stage/types.d.ts").Stroke} Stroke */
/** @typedef {import("halfturn/parts/stage/view.js").View} View */
/** @typedef {Record<string, string | number>} Attributes */
/** @typedef {{line?: Attributes, arrow?: Attributes | null, mark?: Attributes}} Look */

const SHORT_OF_POINT = 7; // pixels between the tip of an arrow and the point that it leads to
const HATCH = 9; // pixels between the lines of a region
const LANE = { inside: 6, rim: 4.5 }; // pixels between walks on one circle
const LANES = { inside: [0, 1, -1, 2], rim: [0, -1, 1, -2] }; // along the rim the second keeps off the numbers outside
const AT_RIM = 0.97; // of the radius, from which on a circle about the centre is taken for the rim

/** @type {Record<Stroke["kind"], (view: View, stroke: Stroke, part: number) => Look>} */
export const DRAWINGS = {
  point: (view, { role, at }, part) => {
    const [x, y] = view.toScreen(at), size = part < 1 ? part * (2.2 - 1.2 * part) : 1;
    return { mark: { d: markerPath(role), transform: `translate(${x} ${y}) scale(${size * view.inkScale()})` } };
  },
  ring: (view, { at }, part) => ({ line: { d: ringPath(view.toScreen(at), 13 * view.inkScale() * part) } }),
  curve: (view, { center, radius }, part) => ({ line: { d: arcPath(view, center, radius, 0, 2 * Math.PI * part) } }),
  region: (view, stroke, part) => ({ line: { d: hatchPath(view, stroke, part) } }),
  way: (view, stroke, part) => {
    const turn = stroke.sweep * part;
    const line = { d: arcPath(view, stroke.center, stroke.radius, stroke.start, turn) };
    return { line, arrow: headOnArc(view, stroke, turn, SHORT_OF_POINT, view.inkScale()) };
  },
  cross: (view, { from, to }, part) => {
    const [x0, y0] = view.toScreen(from), [x1, y1] = view.toScreen(to);
    const size = view.inkScale(), length = Math.hypot(x1 - x0, y1 - y0) || 1, tip = Math.max(0, part - (size * SHORT_OF_POINT) / length);
    const line = { d: `M${x0} ${y0}L${x0 + (x1 - x0) * part} ${y0 + (y1 - y0) * part}` };
    return { line, arrow: arrowhead([x0 + (x1 - x0) * tip, y0 + (y1 - y0) * tip], Math.atan2(y1 - y0, x1 - x0), size) };
  },
  ray: (view, { at }, part) => {
    const [x0, y0] = view.toScreen([0, 0]), [x1, y1] = view.toScreen(onRadius(at, view.radii().tick * part));
    return { line: { d: `M${x0} ${y0}L${x1} ${y1}` } };
  },
};

/**
 * Slanting lines over a region: what of each lies within the chart, and inside or outside of the region's circle.
 * @param {View} view @param {Pick<Stroke, "center" | "radius" | "inside">} region @param {number} part
 */
export function hatchPath(view, { center, radius, inside }, part) {
  const step = (HATCH * view.inkScale()) / view.scale(), count = Math.ceil(1 / step);
  let path = "";
  for (let i = -count; i <= count * (2 * part - 1); i++) {
    const rim = chord([0, 0], 1, i * step), own = chord(center, radius, i * step);
    for (const [from, to] of inside ? [common(rim, own)] : without(rim, own)) {
      if (from >= to) continue;
      const [[x0, y0], [x1, y1]] = [view.toScreen(onSlant(i * step, from)), view.toScreen(onSlant(i * step, to))];
      path += `M${x0.toFixed(1)} ${y0.toFixed(1)}L${x1.toFixed(1)} ${y1.toFixed(1)}`;
    }
  }
  return path;
}

/** A point of the slanting line at a distance from the centre, so far along it. @param {number} off @param {number} along @returns {Pair} */
function onSlant(off, along) {
  return [(along - off) * Math.SQRT1_2, (along + off) * Math.SQRT1_2];
}

/** Between which places a slanting line lies in a circle. @param {Pair} center @param {number} radius @param {number} off @returns {Pair} */
function chord([u, v], radius, off) {
  const middle = (u + v) * Math.SQRT1_2, away = (v - u) * Math.SQRT1_2 - off, half = Math.sqrt(Math.max(0, radius ** 2 - away ** 2));
  return [middle - half, middle + half];
}

/** @param {Pair} one @param {Pair} other @returns {Pair} */
function common(one, other) {
  return [Math.max(one[0], other[0]), Math.min(one[1], other[1])];
}

/** @param {Pair} one @param {Pair} other @returns {Pair[]} */
function without(one, other) {
  return other[0] >= other[1] ? [one] : [[one[0], Math.min(one[1], other[0])], [Math.max(one[0], other[1]), one[1]]];
}

/** Walks on one circle are drawn side by side. @param {Stroke} stroke @param {Map<string, number>} lanes @param {View} view @returns {Stroke} */
export function inLane(stroke, lanes, view) {
  if (stroke.kind !== "way") return stroke;
  const circle = [...stroke.center, stroke.radius].map((value) => value.toFixed(6)).join(), lane = lanes.get(circle) ?? 0;
  lanes.set(circle, lane + 1);
  const place = stroke.radius > AT_RIM && Math.hypot(...stroke.center) < 1e-6 ? "rim" : "inside";
  const aside = LANES[place][lane % 4] * LANE[place] * view.inkScale();
  return { ...stroke, radius: Math.max(0.2 * stroke.radius, stroke.radius + aside / view.scale()) };
}
