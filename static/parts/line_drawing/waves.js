// @ts-check
// Voltage and current along the line: under the drawing of it and on its scale, or alone, as large as a room needs it.
// With the load alone, and with the design. What there is at each place comes with the picture; here it is laid along
// the line as it is drawn now.

/** @import { Axis, Drawable, Figure, Picture, Placed, Scene, Sizes, Values } from "halfturn/parts/line_drawing/types.d.ts" */

import { Pen } from "halfturn/parts/line_drawing/pen.js";
import { writtenPart } from "halfturn/parts/line_drawing/writing.js";

const HALF_WAVE = 0.5, LEAST = 2, EVERY = 3; // pixels from point to point
const ALONE = { legend: 1.7, high: 6.3, below: 3.3, left: 1.7, right: 0.5 }; // in u; its height is known to lecture.css

/** What the plot takes below the line, in u. */
export const WAVES_HIGH = 12.6;

/** The size at a place between those that are known; what there is repeats each half wavelength. @param {number[]} sizes @param {number} share of the whole @returns {number} */
export function sizeAt(sizes, share) {
  const place = Math.min(Math.max(share, 0), 1) * (sizes.length - 1), index = Math.min(Math.floor(place), sizes.length - 2);
  return sizes[index] + (sizes[index + 1] - sizes[index]) * (place - index);
}

/** @param {number} waves */
const inHalfWave = waves => waves / HALF_WAVE - Math.floor(waves / HALF_WAVE + 1e-9);

/** @param {Picture} picture */
export const hasWaves = ({ waves, only }) => Boolean(waves) && only !== "board";

/** @typedef {(x: number, kind: keyof Sizes) => number | null} Reading what there is at a place of the drawing */
/** @typedef {Pick<Scene, "picture" | "axis">} Laid */
/** @typedef {{left: number, right: number, foot: number, most: number, at: (size: number) => number}} Plot */

/** With the load alone: along the line as if nothing else stood in it. @param {Laid} scene @returns {Reading} */
function before({ picture, axis }) {
  return (x, kind) => picture.waves ? sizeAt(picture.waves.before[kind], inHalfWave((axis.load - x) / axis.scale)) : null;
}

/** With the design: on each of its sections, and then toward the generator; null where no line is drawn to scale. @param {Laid} scene @param {number} current @returns {Reading | null} */
function after({ picture, axis }, current) {
  const pieces = picture.waves?.after[current];
  if (!pieces) return null;
  const feed = pieces[pieces.length - 1];
  const drawn = axis.placed.flatMap(({ index, from, to }) => {
    const piece = pieces.find(one => one.element === index);
    return piece && from > to ? [{ piece, from, to }] : [];
  });
  return (x, kind) => {
    const found = drawn.find(({ from, to }) => x <= from + 1e-6 && x >= to - 1e-6);
    if (found) return sizeAt(found.piece[kind], (found.from - x) / (found.from - found.to));
    return x <= axis.end + 1e-6 ? sizeAt(feed[kind], inHalfWave((axis.end - x) / axis.scale)) : null;
  };
}

/** Where the plot stands, as high as the highest of what is in it. @param {Laid} scene @param {number} current @param {number} left @param {number} foot @param {number} high @returns {Plot} */
function plotOf({ picture: { waves }, axis }, current, left, foot, high) {
  const sizes = waves ? [waves.before, ...(waves.after[current] ?? [])].flatMap(({ voltage, current: flow }) => [...voltage, ...flow]) : [];
  const most = Math.max(LEAST, Math.ceil(Math.max(0, ...sizes) - 0.02));
  return { left, right: axis.load, foot, most, at: size => foot - size / most * high };
}

/**
 * The plot, with what there is where the first section ends: there the hand is while its length is walked.
 * @param {Pen} pen @param {Scene} scene @param {{x: number, y: number}} frame @param {number} current
 */
export function drawWaves(pen, scene, { x, y }, current) {
  const { u } = pen, foot = y + (WAVES_HIGH - 1.6) * u, plot = plotOf(scene, current, x + 5.2 * u, foot, (WAVES_HIGH - 5.6) * u);
  pen.text("waves-heading", "heading", x, y + u, ["Voltage and current along it"]);
  const { bare, design } = drawPlot(pen, scene, plot, current, x, y + 1.5 * u), symbol = junction(scene)?.element.symbol;
  const where = design ? symbol ? ["at the end of ", `_${symbol}`] : ["first section's end"] : ["here"];
  reading(pen, scene, bare, design, plot, x, told => [...where, `: ${told}`]);
}

/**
 * The plot alone, over the line from the load on, with places along it.
 * @param {Picture} picture @param {Values} values @param {number} current @param {number} width @param {number} u
 * @param {(run: string) => number} measure @returns {Figure}
 */
export function waveFigure(picture, values, current, width, u, measure) {
  const pen = new Pen(u, measure), { elements, branch } = picture.plans[current];
  const scene = { picture, axis: axisAlone(elements, values[current], ALONE.left * u, width - ALONE.right * u) };
  const foot = (ALONE.legend + ALONE.high) * u, plot = plotOf(scene, current, ALONE.left * u, foot, (ALONE.high - 0.4) * u);
  const { bare, design } = drawPlot(pen, scene, plot, current, 0, 0.2 * u), symbol = junction(scene)?.element.symbol;
  places(pen, scene, plot);
  if (branch) {
    pen.marker("waves-name-marker", branch.role, 0.4 * u, foot + 2.54 * u);
    pen.text("waves-name", `name ${branch.role}`, 1.05 * u, foot + 2.9 * u, [branch.word]);
  }
  reading(pen, scene, bare, design, { ...plot, foot: foot + 1.4 * u }, branch ? 2.2 * u + 1.1 * pen.width([branch.word]) : 0,
    told => symbol ? [`_${symbol}`, `: ${told}`] : [told]);
  return { width, height: foot + ALONE.below * u, shapes: pen.shapes };
}

/** Sections on a scale of their own; what has no length takes no room. @param {Drawable[]} elements @param {(number | null)[]} lengths @param {number} left @param {number} load @returns {Axis} */
function axisAlone(elements, lengths, left, load) {
  const unknown = lengths.findIndex((length, index) => elements[index].kind === "section" && length === null), known = elements.slice(0, unknown < 0 ? elements.length : unknown);
  const along = known.map(({ kind }, index) => kind === "section" ? lengths[index] ?? 0 : 0);
  const scale = (load - left) / Math.max(0.8, along.reduce((sum, length) => sum + length, 0.5));
  let x = load;
  /** @type {Placed[]} */
  const placed = known.map((element, index) => {
    const from = x;
    x -= along[index] * scale;
    return { element, index, from, to: x, length: lengths[index] };
  });
  return { load, scale, placed, links: [], end: x, at: waves => load - waves * scale };
}

/** Places on the line by their distance from the load, and what stands across it or in it. @param {Pen} pen @param {Laid} scene @param {Plot} plot */
function places(pen, { picture, axis }, { left, right, foot, most, at }) {
  const { u } = pen, y = foot + 1.25 * u, toGenerator = ["← generator"], free = left + pen.width(toGenerator) + 0.3 * u;
  const steps = [0.25, 0.5, 1, 2, 5, 10, 50, 100], step = steps.find(one => one * axis.scale > 4 * u) ?? 1000;
  pen.text("waves-generator", "quiet", left, y, toGenerator);
  pen.text("waves-load", "quiet", right + 0.3 * u, y, ["load"], "end");
  for (let waves = step; axis.load - waves * axis.scale >= left - 0.1; waves += step) {
    const x = axis.load - waves * axis.scale, words = [writtenPart(waves, picture.writing)], half = pen.width(words) / 2;
    pen.path(`waves-place-${waves}`, "thin", `M${x} ${foot}v${0.35 * u}`);
    if (x - half > free && x + half < right - 2.6 * u) pen.text(`waves-place-${waves}-label`, "quiet", x, y, words, "middle");
  }
  for (const { index, from } of axis.placed.filter(({ element: { kind } }) => kind !== "section")) {
    pen.path(`waves-element-${index}`, "thin even", `M${from} ${at(most)}V${foot}`);
  }
}

/** Curves, scale and legend. @param {Pen} pen @param {Laid} scene @param {Plot} plot @param {number} current @param {number} x @param {number} y of the legend */
function drawPlot(pen, scene, { left, right, foot, most, at }, current, x, y) {
  const { u } = pen, design = after(scene, current), bare = before(scene), strong = design ?? bare, step = Math.ceil(most / 4);
  legend(pen, x, y, design && scene.picture.waves ? scene.picture.waves.beside : "");
  pen.path("waves-foot", "thin", `M${left} ${foot}H${right}`);
  pen.path("waves-even", "thin even", `M${left} ${at(1)}H${right}`);
  for (let size = 0; size <= most; size += step) pen.text(`waves-scale-${size}`, "quiet", left - 0.6 * u, at(size) + 0.36 * u, [String(size)], "end");
  for (const [kind, look] of /** @type {[keyof Sizes, string][]} */ ([["voltage", "voltage"], ["current", "flow"]])) {
    if (design) pen.path(`waves-before-${kind}`, `wave ${look} before`, curve(bare, kind, left, right, at));
    pen.path(`waves-${kind}`, `wave ${look}`, curve(strong, kind, left, right, at));
  }
  return { bare, design };
}

/** What is read where the first section ends. @param {Pen} pen @param {Laid} scene @param {Reading} bare @param {Reading | null} design @param {Plot} plot @param {number} x @param {(told: string) => string[]} runs */
function reading(pen, scene, bare, design, { foot, most, at }, x, runs) {
  const { u } = pen, place = junction(scene)?.to, read = design ?? bare;
  if (place === undefined) return;
  const voltage = read(place, "voltage"), current = read(place, "current");
  if (voltage === null || current === null) return;
  pen.path("waves-hand", "thin", `M${place} ${at(most)}V${at(0)}`);
  pen.marker("waves-hand-voltage", "mismatch", place, at(voltage));
  pen.marker("waves-hand-current", "unit", place, at(current));
  pen.text("waves-said", "quiet", x, foot + 1.5 * u, runs(`voltage ${voltage.toFixed(2)}, current ${current.toFixed(2)}`));
}

/** The first section, if its length is known. @param {Laid} scene */
function junction({ axis }) {
  return axis.placed.find(({ element, length }) => element.kind === "section" && length !== null);
}

/** @param {Reading} read @param {keyof Sizes} kind @param {number} left @param {number} right @param {(size: number) => number} at */
function curve(read, kind, left, right, at) {
  let d = "", isDown = false;
  const count = Math.max(2, Math.ceil((right - left) / EVERY));
  for (let i = 0; i <= count; i++) {
    const x = right - (right - left) * i / count, size = read(x, kind);
    d += size === null ? "" : `${isDown ? "L" : "M"}${x} ${at(size)}`;
    isDown = size !== null;
  }
  return d;
}

/** @param {Pen} pen @param {number} x @param {number} y @param {string} beside what the fainter curves are of, if there are any */
function legend(pen, x, y, beside) {
  const { u } = pen;
  let at = x;
  for (const [look, words] of [["voltage", "voltage"], ["flow", "current"], ...(beside ? [["voltage before", beside]] : [])]) {
    pen.path(`waves-key-${words}`, `wave ${look}`, `M${at} ${y + 0.64 * u}h${1.8 * u}`);
    pen.text(`waves-key-${words}-name`, "quiet", at + 2.2 * u, y + u, [words]);
    at += 3.4 * u + pen.width([words]);
  }
}
