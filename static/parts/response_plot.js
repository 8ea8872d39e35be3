// @ts-check
// Designs over frequency as a picture: a curve for each, the limit of their bands, and a frequency to look at.

import { markerPath } from "halfturn/parts/markers.js";
import { shape } from "halfturn/parts/stage/svg.js";

/** @typedef {import("../messages.d.ts").ResponseWords} Response */
/** @typedef {import("../messages.d.ts").Curve} Curve */
/** Of the picture and the room around its plot, where letters are 12 high; `steps` of the frequency in percent. @typedef {{wide: number, high: number, left: number, right: number, top: number, foot: number, steps: number[]}} Size */
/** @typedef {{response: Response, size: Size}} Plot */

/** Beside a sheet. @type {Size} */
export const PAGE = { wide: 520, high: 250, left: 44, right: 28, top: 10, foot: 40, steps: [-30, -20, -10, 0, 10, 20, 30] };
/** Read from the last row. @type {Size} */
export const SCREEN = { wide: 236, high: 124, left: 22, right: 6, top: 8, foot: 20, steps: [-20, 0, 20] };
export const MOST = 6;
const RATIOS = [1, 1.5, 2, 3, 4, 6];

/** Down the picture of a standing-wave ratio, even steps for even factors; above the plot for what is more than it shows. @param {number} swr @param {Size} [size] */
export function heightOf(swr, { high, top, foot } = PAGE) {
  const part = Math.log(Math.max(swr, 1)) / Math.log(MOST);
  return high - foot - part * (high - foot - top);
}

/** The ratio of a curve at a frequency between those that are known. @param {Response} response @param {Curve} curve @param {number} ratio */
export function swrAt({ lowest, highest }, { swr }, ratio) {
  const place = Math.min(Math.max((ratio - lowest) / (highest - lowest), 0), 1) * (swr.length - 1);
  const index = Math.min(Math.floor(place), swr.length - 2), part = place - index;
  return swr[index] * (1 - part) + swr[index + 1] * part;
}

/** Where a curve's marker stands apart from the others': on its way up, by turns below and above the design frequency. @param {Response} response @param {Curve} curve @param {number} index */
export function apart(response, curve, index) {
  const step = index % 2 ? 0.001 : -0.001, most = Math.sqrt(MOST * 2);
  let ratio = 1;
  while (ratio + step > response.lowest + 0.04 && ratio + step < response.highest - 0.04 && swrAt(response, curve, ratio + step) < most) ratio += step;
  return ratio;
}

/** The picture, and what moves its frequency and its limit. @param {Response} response @param {Size} size @param {string} words its text alternative */
export function responsePlot(response, size, words) {
  const plot = { response, size }, { wide, high, left, right, top, foot } = size;
  const markers = response.curves.map((curve) => shape("path", { class: `mark ${roleOf(curve)}`, d: markerPath(curve.branch?.role ?? "first") }));
  const cursor = shape("line", { class: "cursor", y1: top, y2: high - foot }), limitLine = shape("line", { class: "limit", x1: left, x2: wide - right });
  const picture = shape("svg", { class: "response", viewBox: `0 0 ${wide} ${high}`, role: "img", "aria-label": words },
    ...axes(plot), limitLine, cursor, withinPlot(size, ...response.curves.map((curve) => shape("path", { class: `curve ${roleOf(curve)}`, d: pathOf(plot, curve) }))), ...markers);
  return {
    picture,
    /** @param {number} ratio of a frequency to the design frequency @returns {number[]} each curve's standing-wave ratio there */
    move: (ratio) => {
      const x = String(across(plot, ratio)), values = response.curves.map((curve) => swrAt(response, curve, ratio));
      cursor.setAttribute("x1", x);
      cursor.setAttribute("x2", x);
      markers.forEach((mark, index) => mark.setAttribute("transform", `translate(${x} ${heightOf(Math.min(values[index], MOST), size)})`));
      return values;
    },
    /** Each curve's marker where it can be told from the others. */
    label: () => response.curves.forEach((curve, index) => {
      const ratio = apart(response, curve, index), y = heightOf(Math.min(swrAt(response, curve, ratio), MOST), size);
      markers[index].setAttribute("transform", `translate(${across(plot, ratio)} ${y})`);
    }),
    /** @param {number} limit of the standing-wave ratio */
    bound: (limit) => {
      const y = String(heightOf(limit, size));
      limitLine.setAttribute("y1", y);
      limitLine.setAttribute("y2", y);
    },
  };
}

/** @param {Curve} curve */
const roleOf = ({ branch }) => `role-${branch?.role ?? "first"}`;

/** @param {Plot} plot @param {number} ratio */
function across({ response: { lowest, highest }, size: { wide, left, right } }, ratio) {
  return left + (ratio - lowest) / (highest - lowest) * (wide - left - right);
}

/** What of the curves lies within the plot. @param {Size} size @param {...SVGElement} curves */
function withinPlot({ wide, high, left, right, top, foot }, ...curves) {
  const width = wide - left - right, height = high - foot - top + 2;
  return shape("svg", { x: left, y: top, width, height, viewBox: `${left} ${top} ${width} ${height}`, overflow: "hidden" }, ...curves);
}

/** @param {Plot} plot @param {Curve} curve */
function pathOf(plot, { swr }) {
  const { lowest, highest } = plot.response, at = (/** @type {number} */ index) => lowest + index / (swr.length - 1) * (highest - lowest);
  return `M${swr.map((value, index) => `${across(plot, at(index)).toFixed(1)} ${heightOf(value, plot.size).toFixed(1)}`).join("L")}`;
}

/** @param {Plot} plot */
function axes(plot) {
  const { response: { lowest, highest, megahertz }, size } = plot, { wide, high, left, right, top, foot, steps } = size;
  const level = RATIOS.filter((swr) => size === PAGE || swr !== 1.5).flatMap((swr) => [
    shape("line", { class: "rule", x1: left, x2: wide - right, y1: heightOf(swr, size), y2: heightOf(swr, size) }),
    written(String(swr), { x: left - 8, y: heightOf(swr, size) + 4, "text-anchor": "end" })]);
  const upright = steps.map((step) => [step, 1 + step / 100]).filter(([, ratio]) => ratio >= lowest - 1e-9 && ratio <= highest + 1e-9).flatMap(([step, ratio]) => {
    const x = across(plot, ratio), words = step ? `${step > 0 ? "+" : "−"}${Math.abs(step)} %` : megahertz ? `${megahertz} MHz` : "f₀";
    return [shape("line", { class: "rule", x1: x, x2: x, y1: top, y2: high - foot }), written(words, { x, y: high - foot + 16, "text-anchor": "middle" })];
  });
  const names = size === PAGE
    ? [written("SWR", { x: left - 8, y: high - 4, "text-anchor": "end" }), written("frequency", { x: (left + wide - right) / 2, y: high - 6, "text-anchor": "middle" })]
    : [written("SWR", { x: left + 4, y: top + 13 })];
  return [...level, ...upright, ...names];
}

/** @param {string} text @param {Record<string, string | number>} place */
function written(text, place) {
  const made = shape("text", place);
  made.textContent = text;
  return made;
}
