// @ts-check
// The line with all that stands in it, to scale, and the same as copper on a board: from a picture, the lengths that
// are shown now, a width and the size of the type to a list of shapes, each a named part. A pure function.

/** @import { Dimensions, Figure, Frame, Hanging, Picture, Placed, Plan, Scene, Values } from "halfturn/parts/line_drawing/types.d.ts" */

import { layOut, leastWidth, scaleFor } from "halfturn/parts/line_drawing/axis.js";
import { drawBoard } from "halfturn/parts/line_drawing/board.js";
import { extraAbove } from "halfturn/parts/line_drawing/copper.js";
import { dimensions, sectionLines } from "halfturn/parts/line_drawing/dimensions.js";
import { drawLine } from "halfturn/parts/line_drawing/line.js";
import { Pen } from "halfturn/parts/line_drawing/pen.js";
import { drawWaves, hasWaves, waveFigure, WAVES_HIGH } from "halfturn/parts/line_drawing/waves.js";
import { fitsInside, isOther, spreadOf } from "halfturn/parts/line_drawing/wires.js";

/**
 * @typedef {{picture: Picture, values: Values, current: number, width: number, u: number,
 *   measure: (run: string) => number, walking: boolean}} Wish
 * `walking` : keep room for any length while one is dragged
 */

const DEEPER = [0, 1.6, 3, 5];       // as it is, then with labels closer together, then with more room below, in u

/**
 * Shapes of the whole drawing. Where labels stand too close they are arranged otherwise, and at last letters stand for
 * those that find no room, and are explained below.
 * @param {Picture} picture @param {Values} values @param {number} current the plan at full strength
 * @param {number} width @param {number} u @param {(run: string) => number} measure
 * @returns {Figure}
 */
export function figure(picture, values, current, width, u, measure, walking = false) {
  if (picture.only === "waves") return waveFigure(picture, values, current, width, u, measure);
  const wish = { picture, values, current, width, u, measure, walking }, none = { rows: [0, 0], lettered: [false, false] };
  let tight = none.lettered;
  for (const [attempt] of DEEPER.entries()) {
    const made = attemptAt(wish, attempt, none);
    if (!made.crowded.includes(true)) return made;
    if (attempt === 1) tight = made.crowded;
  }
  const { rows } = attemptAt(wish, 1, { rows: [0, 0], lettered: tight });
  return attemptAt(wish, 1, { rows, lettered: tight });
}

/**
 * @param {Wish} wish @param {number} attempt
 * @param {{rows: number[], lettered: boolean[]}} letters in which panels there are some, and how many
 */
function attemptAt(wish, attempt, { rows, lettered }) {
  const { picture, current, u, measure } = wish, form = formOf(picture, current), { only } = picture;
  const pens = lettered.map(letters => new Pen(u, measure, attempt > 0, letters)), [linePen, boardPen] = pens;
  const { line, board, above, scenes, width } = place(pens, wish, DEEPER[attempt] * u, rows);
  if (only !== "board") drawLine(linePen, scenes[0], line, above[0]);
  if (hasWaves(picture)) drawWaves(linePen, scenes[0], { ...line, y: line.y + line.h + 0.8 * u }, current);
  if (form) drawBoard(boardPen, scenes[1], board, above[1]);
  const height = Math.max(only === "board" ? 0 : line.y + line.h + wavesHigh(wish), form ? board.y + board.h : 0);
  return { width, height, shapes: pens.flatMap(pen => pen.shapes), crowded: pens.map(pen => pen.crowded),
    rows: pens.map(pen => pen.key.length) };
}

/** What voltage and current take below the line. @param {Wish} wish */
const wavesHigh = ({ picture, u }) => hasWaves(picture) ? (WAVES_HIGH + 0.8) * u : 0;

/**
 * The panels' places: side by side where there is room, else one below the other, on one common scale that fits half
 * a wavelength, or more if more is shown.
 * @param {Pen[]} pens @param {Wish} wish @param {number} more @param {number[]} rows
 */
function place(pens, wish, more, rows) {
  const { picture, values, current, width, u } = wish, strong = picture.plans[current], gap = 2.4 * u;
  const elements = shownElements(wish), lengths = values[current].slice(0, elements.length);
  const box = 1.1 * u + Math.max(2.6 * u, ...picture.load.map(text => pens[0].width([text])));
  const left = 7 * u, right = Math.max(2.4 * u + box, 7.4 * u), least = left + right + leastWidth(elements, lengths, u);
  const wide = Boolean(formOf(picture, current)) && !picture.only && width >= 54 * u && least <= (width - gap) / 2;
  const panel = Math.min(Math.max(wide ? (width - gap) / 2 : width, least, 23 * u), Math.max(46 * u, least));
  const reach = reachOf(wish), scale = scaleFor(elements, lengths, reach, panel - left - right, u);
  const scenes = [0, wide ? panel + gap : 0].map(x => sceneOf(wish, elements, lengths, x + panel - right, scale));
  const frames = scenes.map((_, i) => ({ x: i && wide ? panel + gap : 0, w: panel }));
  const above = scenes.map((scene, i) => dimension(pens[i], scene, frames[i], i));
  if (wide) above.fill(Math.max(...above));
  const heights = scenes.map((scene, i) => heightOf(wish, scene, i, above[i], wide)).map((h, i) => h + more + rows[i] * 1.35 * u);
  if (wide) heights.fill(Math.max(...heights));
  const bend = wide || scenes[1].hanging.length > 1 ? Infinity : bendOf(strong, scale, u);
  const [line, board] = frames.map((frame, i) =>
    ({ ...frame, y: i && !wide && !picture.only ? heights[0] + wavesHigh(wish) + 1.2 * u : 0, h: heights[i], keyed: rows[i] * 1.35 * u, bend, box }));
  return { line, board, above, scenes, width: Math.max(width, panel + (wide ? panel + gap : 0)) };
}

/** The board's form, where it is drawn. @param {Picture} picture @param {number} current */
const formOf = ({ plans, only }, current) => only === "line" ? "" : plans[current].form;

/** @param {Plan} strong @param {number} scale @param {number} u */
const bendOf = ({ form }, scale, u) => Math.max(0.25 * scale, (form === "strips" ? 7.6 : 6) * u);

// While a place is not known, what stands beyond it is drawn at one; but not where another solution is drawn to scale.
/** @param {Wish} wish */
function shownElements({ picture, values, current }) {
  const { elements } = picture.plans[current], unknown = elements.findIndex((element, i) =>
    element.kind === "section" && values[current][i] === null);
  const others = picture.plans.some((plan, i) => i !== current && plan.faint
    && plan.elements.some((element, k) => element.kind === "stub" && distanceOf(plan, values[i], k) !== null));
  return unknown >= 0 && others ? elements.slice(0, unknown) : elements;
}

/**
 * Wavelengths from the load to an element.
 * @param {Plan} plan @param {(number | null)[]} lengths @param {number} index
 */
function distanceOf({ elements }, lengths, index) {
  return elements.slice(0, index).reduce((/** @type {number | null} */ sum, element, i) =>
    element.kind !== "section" ? sum : sum === null || lengths[i] === null ? null : sum + /** @type {number} */ (lengths[i]), 0);
}

/** The most wavelengths that are to fit along the line, or down from it. @param {Wish} wish */
function reachOf({ picture, values, current }) {
  const all = picture.plans.flatMap((plan, i) => i !== current && !plan.faint ? [] : [
    ...plan.elements.map((element, k) => element.kind === "stub" ? values[i][k] ?? 0 : 0),
    plan.elements.reduce((sum, element, k) => sum + (element.kind === "section" ? values[i][k] ?? 0 : 0), 0),
  ]);
  return Math.max(0.5, ...all);
}

/**
 * @param {Wish} wish @param {Plan["elements"]} elements @param {(number | null)[]} lengths @param {number} load
 * @param {number} scale @returns {Scene}
 */
function sceneOf({ picture, values, current, u }, elements, lengths, load, scale) {
  const axis = layOut(elements, lengths, load, scale, u), strong = picture.plans[current];
  const half = elements.some(element => element.kind === "part" || element.kind === "box") ? 1.6 * u : u;
  const spreads = elements.map(element => element.kind === "section" ? spreadOf(element.ohms, picture.line.ohms) : 1);
  const role = strong.branch?.role ?? "plain";
  /** @type {Hanging[]} */
  const own = axis.placed.filter(({ element }) => element.kind === "stub").map(({ element, index, from, length }, i) =>
    ({ element, index, plan: current, role, strong: true, first: i === 0, x: from, length }));
  const faint = picture.plans.flatMap((plan, i) => i === current || !plan.faint ? [] : faintStubs(plan, values[i], i, axis));
  return { picture, strong, role, axis, hanging: [...faint, ...own], half, spread: half * Math.max(1, ...spreads),
    dimensions: { all: [], heights: [] } };
}

/**
 * @param {Plan} plan @param {(number | null)[]} lengths @param {number} i @param {Scene["axis"]} axis
 * @returns {Hanging[]}
 */
function faintStubs(plan, lengths, i, axis) {
  const found = plan.elements.flatMap((element, index) => {
    const distance = element.kind === "stub" ? distanceOf(plan, lengths, index) : null;
    const x = distance === null ? null : axis.at(distance);
    return x === null ? [] : [{ element, index, x, length: lengths[index] }];
  });
  return found.map((one, k) => ({ ...one, plan: i, role: plan.branch?.role ?? "plain", strong: false, first: k === 0 }));
}

/**
 * Works out a panel's dimensions; what they take above it.
 * @param {Pen} pen @param {Scene} scene @param {{x: number, w: number}} frame @param {number} i
 */
function dimension(pen, scene, frame, i) {
  const linesOf = (/** @type {Placed} */ placed) => {
    const more = placed.row || !i && isOther(placed, scene) && !fitsInside(pen, scene, placed) ? [{ part: "ohms", runs: [placed.element.text] }] : [];
    return sectionLines(placed, scene.picture, i ? "one" : pen.tight ? "below" : "both", more);
  };
  if (i) scene.hanging = scene.hanging.filter(hanging => hanging.strong);
  scene.dimensions = dimensions(pen, scene.axis, frame, linesOf, scene.strong.rows);
  return Math.max(2.2 * pen.u, scene.dimensions.heights.reduce((sum, height) => sum + height, 0));
}

/** @param {Wish} wish @param {Scene} scene @param {number} i @param {number} above @param {boolean} wide */
function heightOf({ u, walking }, { picture, axis, hanging, spread, strong }, i, above, wide) {
  const bent = i && !wide && hanging.length === 1 ? bendOf(strong, axis.scale, u) : Infinity;
  const lengths = hanging.map(({ length }) => length ?? 0), parts = axis.placed.some(({ element }) => element.kind === "part");
  const deepest = Math.min(Math.max(walking ? 0.5 : 0, ...lengths) * axis.scale, bent);
  const depth = hanging.length ? Math.max(5.6 * u, deepest) : (parts ? 5 : 2.6) * u;
  const strips = picture.plans.length && strong.form === "strips" ? 4.4 * u : 3.4 * u;
  const head = i ? (3.4 + extraAbove(axis, strong.form === "strips")) * u + strips / 2 : 3.2 * u + 2 * spread;
  return head + above + depth + 4.2 * u;
}
