// @ts-check
// Voltage and current along the line, under the drawing of it and on its scale: with the load alone, and with the
// design. What there is at each place comes with the picture; here it is laid along the line as it is drawn now.

/** @import { Picture, Scene, Sizes } from "halfturn/parts/line_drawing/types.d.ts" */
/** @import { Pen } from "halfturn/parts/line_drawing/pen.js" */

const HALF_WAVE = 0.5, MOST = 2, EVERY = 3; // pixels from point to point

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

/** With the load alone: along the line as if nothing else stood in it. @param {Scene} scene @returns {Reading} */
function before({ picture, axis }) {
  return (x, kind) => picture.waves ? sizeAt(picture.waves.before[kind], inHalfWave((axis.load - x) / axis.scale)) : null;
}

/** With the design: on each of its sections, and then toward the generator; null where no line is drawn to scale. @param {Scene} scene @param {number} current @returns {Reading | null} */
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

/**
 * The plot, with what there is where the first section ends: there the hand is while its length is walked.
 * @param {Pen} pen @param {Scene} scene @param {{x: number, y: number}} frame @param {number} current
 */
export function drawWaves(pen, scene, { x, y }, current) {
  const { u } = pen, { axis } = scene, left = x + 5.2 * u, right = axis.load, foot = y + (WAVES_HIGH - 1.6) * u, high = (WAVES_HIGH - 5.6) * u;
  const at = (/** @type {number} */ size) => foot - size / MOST * high;
  const design = after(scene, current), bare = before(scene), strong = design ?? bare;
  pen.text("waves-heading", "heading", x, y + u, ["Voltage and current along it"]);
  legend(pen, x, y + 1.5 * u, Boolean(design));
  pen.path("waves-foot", "thin", `M${left} ${foot}H${right}`);
  pen.path("waves-even", "thin even", `M${left} ${at(1)}H${right}`);
  for (const [size, words] of /** @type {[number, string][]} */ ([[0, "0"], [1, "1"], [2, "2"]])) pen.text(`waves-scale-${words}`, "quiet", left - 0.6 * u, at(size) + 0.36 * u, [words], "end");
  for (const [kind, look] of /** @type {[keyof Sizes, string][]} */ ([["voltage", "voltage"], ["current", "flow"]])) {
    if (design) pen.path(`waves-before-${kind}`, `wave ${look} before`, curve(bare, kind, left, right, at));
    pen.path(`waves-${kind}`, `wave ${look}`, curve(strong, kind, left, right, at));
  }
  const place = junction(scene);
  if (place !== null) reading(pen, bare, design, place, x, at, foot);
}

/** What is read at a place. @param {Pen} pen @param {Reading} bare @param {Reading | null} design @param {number} place @param {number} x @param {(size: number) => number} at @param {number} foot */
function reading(pen, bare, design, place, x, at, foot) {
  const { u } = pen, read = design ?? bare, voltage = read(place, "voltage"), current = read(place, "current");
  if (voltage === null || current === null) return;
  pen.path("waves-hand", "thin", `M${place} ${at(MOST)}V${foot}`);
  pen.marker("waves-hand-voltage", "mismatch", place, at(voltage));
  pen.marker("waves-hand-current", "unit", place, at(current));
  pen.text("waves-said", "quiet", x, foot + 1.5 * u, [`${design ? "where the first section ends" : "here"}: voltage ${voltage.toFixed(2)}, current ${current.toFixed(2)}`]);
}

/** Where the first section ends, if its length is known and it does not end at the load. @param {Scene} scene */
function junction({ axis }) {
  const first = axis.placed.find(({ element, length }) => element.kind === "section" && length !== null);
  return first ? first.to : null;
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

/** @param {Pen} pen @param {number} x @param {number} y @param {boolean} both */
function legend(pen, x, y, both) {
  const { u } = pen;
  let at = x;
  for (const [look, words] of [["voltage", "voltage"], ["flow", "current"], ...(both ? [["voltage before", "load alone"]] : [])]) {
    pen.path(`waves-key-${words}`, `wave ${look}`, `M${at} ${y + 0.64 * u}h${1.8 * u}`);
    pen.text(`waves-key-${words}-name`, "quiet", at + 2.2 * u, y + u, [words]);
    at += 3.4 * u + pen.width([words]);
  }
}
