// @ts-check
// The designs over frequency: their curves, a frequency to play with, the band at a chosen limit, and a table.

import { markerPath } from "halfturn/parts/markers.js";
import { node } from "halfturn/parts/nodes.js";
import { branchWords } from "halfturn/parts/words.js";
import { shape } from "halfturn/parts/stage/svg.js";

/** @typedef {import("../messages.d.ts").ResponseWords} Response */
/** @typedef {import("../messages.d.ts").Curve} Curve */

const WIDE = 520, HIGH = 250, LEFT = 44, RIGHT = 28, TOP = 10, FOOT = 40, MOST = 6;
const RATIOS = [1, 1.5, 2, 3, 4, 6];

/** Down the page of a standing-wave ratio, even steps for even factors; above the plot for what is more than it shows. @param {number} swr */
export function heightOf(swr) {
  const part = Math.log(Math.max(swr, 1)) / Math.log(MOST);
  return HIGH - FOOT - part * (HIGH - FOOT - TOP);
}

/** The ratio of a curve at a frequency between those that are known. @param {Response} response @param {Curve} curve @param {number} ratio */
export function swrAt({ lowest, highest }, { swr }, ratio) {
  const place = Math.min(Math.max((ratio - lowest) / (highest - lowest), 0), 1) * (swr.length - 1);
  const index = Math.min(Math.floor(place), swr.length - 2), part = place - index;
  return swr[index] * (1 - part) + swr[index + 1] * part;
}

/** @param {Response} response */
export function responseNode(response) {
  const x = (/** @type {number} */ ratio) => LEFT + (ratio - response.lowest) / (response.highest - response.lowest) * (WIDE - LEFT - RIGHT);
  const markers = response.curves.map((curve) => shape("path", { class: `mark ${roleOf(curve)}`, d: markerPath(curve.branch?.role ?? "first") }));
  const cursor = shape("line", { class: "cursor", y1: TOP, y2: HIGH - FOOT }), limitLine = shape("line", { class: "limit", x1: LEFT, x2: WIDE - RIGHT });
  const plot = shape("svg", { class: "response", viewBox: `0 0 ${WIDE} ${HIGH}`, role: "img", "aria-label": "Standing-wave ratio over frequency; the same stands in the table below." },
    ...axes(response, x), limitLine, cursor, withinPlot(...response.curves.map((curve) => shape("path", { class: `curve ${roleOf(curve)}`, d: pathOf(response, curve, x) }))), ...markers);
  const read = node("p", { class: "reading", role: "status" });
  const bands = node("ul", { class: "bands" }), why = node("p", { class: "why" });
  const move = (/** @type {number} */ ratio) => {
    cursor.setAttribute("x1", String(x(ratio)));
    cursor.setAttribute("x2", String(x(ratio)));
    const values = response.curves.map((curve) => swrAt(response, curve, ratio));
    markers.forEach((mark, index) => mark.setAttribute("transform", `translate(${x(ratio)} ${heightOf(Math.min(values[index], MOST))})`));
    read.textContent = `At ${frequency(response, ratio)}: ${response.curves.map((curve, index) => `${curve.branch ? `${branchWords(curve.branch)} ` : ""}SWR ${values[index].toFixed(2)}`).join(", ")}.`;
  };
  const bound = (/** @type {number} */ index) => {
    const y = String(heightOf(response.limits[index].limit));
    limitLine.setAttribute("y1", y);
    limitLine.setAttribute("y2", y);
    why.textContent = response.limits[index].why;
    bands.replaceChildren(...response.curves.map((curve) => node("li", {}, `${curve.branch ? `${branchWords(curve.branch)}: ` : ""}${[curve.bands[index], curve.line].filter(Boolean).join("; ")}.`)));
  };
  const slider = node("input", { type: "range", id: "play", min: response.lowest, max: response.highest, step: 0.005, "data-focus": "play", oninput: ({ target }) => move(Number(target.value)) });
  slider.value = "1";
  const usual = Math.max(0, response.limits.findIndex(({ limit }) => limit === response.limit));
  const limits = node("select", { id: "band-limit", "data-focus": "band", onchange: ({ target }) => bound(Number(target.value)) },
    ...response.limits.map(({ limit }, index) => node("option", { value: index }, String(limit))));
  limits.value = String(usual);
  move(1);
  bound(usual);
  return node("section", { class: "over-frequency", "aria-label": "Over frequency" },
    node("h4", {}, "What you built, over frequency"), why, node("div", { class: "plot" }, /** @type {any} */ (plot)),
    node("div", { class: "play" }, node("label", { for: "play" }, "Change the frequency"), slider), read,
    node("div", { class: "play" }, node("label", { for: "band-limit" }, "Band within a standing-wave ratio of"), limits), bands,
    table(response), node("p", { class: "note" }, response.note));
}

/** What of the curves lies within the plot. @param {...SVGElement} curves */
function withinPlot(...curves) {
  const width = WIDE - LEFT - RIGHT, height = HIGH - FOOT - TOP + 2;
  return shape("svg", { x: LEFT, y: TOP, width, height, viewBox: `${LEFT} ${TOP} ${width} ${height}`, overflow: "hidden" }, ...curves);
}

/** @param {Curve} curve */
const roleOf = ({ branch }) => `role-${branch?.role ?? "first"}`;

/** @param {Response} response @param {number} ratio */
function frequency({ megahertz }, ratio) {
  const percent = Math.round(1000 * (ratio - 1)) / 10, off = percent ? `${percent > 0 ? "+" : "−"}${Math.abs(percent)} %` : "the design frequency";
  return megahertz ? `${(megahertz * ratio).toPrecision(4)} MHz (${off})` : off;
}

/** @param {Response} response @param {Curve} curve @param {(ratio: number) => number} x */
function pathOf({ lowest, highest }, { swr }, x) {
  const at = (/** @type {number} */ index) => lowest + index / (swr.length - 1) * (highest - lowest);
  return `M${swr.map((value, index) => `${x(at(index)).toFixed(1)} ${heightOf(value).toFixed(1)}`).join("L")}`;
}

/** @param {Response} response @param {(ratio: number) => number} x */
function axes(response, x) {
  const across = RATIOS.flatMap((swr) => [
    shape("line", { class: "rule", x1: LEFT, x2: WIDE - RIGHT, y1: heightOf(swr), y2: heightOf(swr) }),
    written(String(swr), { x: LEFT - 8, y: heightOf(swr) + 4, "text-anchor": "end" })]);
  const steps = [-30, -20, -10, 0, 10, 20, 30].filter((step) => 1 + step / 100 >= response.lowest - 1e-9 && 1 + step / 100 <= response.highest + 1e-9);
  const along = steps.flatMap((step) => [
    shape("line", { class: "rule", x1: x(1 + step / 100), x2: x(1 + step / 100), y1: TOP, y2: HIGH - FOOT }),
    written(step ? `${step > 0 ? "+" : "−"}${Math.abs(step)} %` : response.megahertz ? `${response.megahertz} MHz` : "f₀", { x: x(1 + step / 100), y: HIGH - FOOT + 16, "text-anchor": "middle" })]);
  return [...across, ...along, written("SWR", { x: LEFT - 8, y: HIGH - 4, "text-anchor": "end" }), written("frequency", { x: (LEFT + WIDE - RIGHT) / 2, y: HIGH - 6, "text-anchor": "middle" })];
}

/** @param {string} text @param {Record<string, string | number>} place */
function written(text, place) {
  const made = shape("text", place);
  made.textContent = text;
  return made;
}

/** @param {Response} response */
function table({ curves, table: rows }) {
  const head = ["Frequency", ...curves.map(({ branch }) => branch ? `SWR, ${branch.word}` : "SWR")];
  return node("details", { class: "figures" }, node("summary", { "data-focus": "figures" }, "The same in figures"),
    node("table", {}, node("thead", {}, node("tr", {}, ...head.map((word) => node("th", { scope: "col" }, word)))),
      node("tbody", {}, ...rows.map(([at, ...cells]) => node("tr", {}, node("th", { scope: "row" }, at), ...cells.map((cell) => node("td", {}, cell)))))));
}
