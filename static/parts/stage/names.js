// @ts-check
// The names of the two scales of length, printed between them along the circle, with an arrow each.

import { turnBetween } from "halfturn/parts/stage/readings.js";
import { arcPath, shape } from "halfturn/parts/stage/svg.js";

/** @typedef {import("halfturn/parts/stage/view.js").View} View */

const UNITS = { wavelengths: "wavelengths", degrees: "degrees of line" };
const ROOM = { whole: 17, brief: 11 }; // of the circle for one name, in letter sizes
const ASIDE = [0, 0.12, -0.12, 0.24, -0.24, 0.34, -0.34]; // parts of its share of the circle by which a name makes way for a ray
const AFAR = { letters: 0.85, aside: 0.1 }; // where printed numbers are large and few: smaller names, between two of them

/** @param {SVGElement} layer @param {View} view @param {number[]} rays directions of the rays that are drawn */
export function drawNames(layer, view, rays) {
  const radius = view.radii().names, size = radius * view.scale(), room = ROOM[isBrief(view) ? "brief" : "whole"] * view.letters();
  const count = Math.max(4, 2 * Math.floor((Math.PI * size) / room / 2)), share = (2 * Math.PI) / count;
  layer.replaceChildren();
  const letters = (view.isAfar() ? AFAR.letters : 0.92) * view.letters(), lane = (view.radii().load - view.radii().generator) * view.scale();
  layer.style.fontSize = `${Math.min(letters, lane - 0.9 * view.letters())}px`;
  const nearest = (/** @type {number[]} */ others, /** @type {number} */ angle) => Math.min(Math.PI, ...others.map((other) => Math.abs(turnBetween(other, angle))));
  const wide = (0.45 * room + 2.2 * view.inkLetters()) / size;
  /** @type {number[]} */
  const taken = [];
  for (let i = 0; i < count; i++) {
    const middle = i + 0.5 + (view.isAfar() ? (i % 2 ? -1 : 1) * AFAR.aside : 0), places = ASIDE.map((part) => (middle + part) * share);
    const free = (/** @type {number} */ place) => nearest(rays, place) > wide && nearest(taken, place) > (0.8 * room) / size;
    const place = places.find(free);
    if (place === undefined) continue; // another one of the same scale says it
    taken.push(place);
    drawName(layer, view, place, i % 2 ? "load" : "generator", `name-${i}`);
  }
}

/** @param {View} view */
const isBrief = (view) => view.layout === "compact";

/** @param {SVGElement} layer @param {View} view @param {number} angle @param {"load" | "generator"} scale @param {string} id */
function drawName(layer, view, angle, scale, id) {
  const radius = view.radii().names, upper = Math.sin(angle) > 0, room = Math.min(1, 260 / (radius * view.scale()));
  const start = angle + (upper ? room : -room), turn = upper ? -2 * room : 2 * room, clockwise = scale === "generator";
  const unit = isBrief(view) ? "" : `${UNITS[/** @type {"wavelengths" | "degrees"} */ (view.unit)]} `;
  const words = clockwise === upper ? `${unit}toward ${scale} →` : `← ${unit}toward ${scale}`;
  const line = shape("text", { class: `name ${scale}`, dy: "0.35em", "text-anchor": "middle" });
  line.append(shape("textPath", { href: `#${id}`, startOffset: "50%" }, words));
  layer.append(shape("path", { id, d: arcPath(view, [0, 0], radius, start, turn), class: "name-line" }), line);
}
