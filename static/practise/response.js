// @ts-check
// The designs over frequency: their curves, a frequency to play with, the band at a chosen limit, and a table.

import { node } from "halfturn/parts/nodes.js";
import { PAGE, responsePlot } from "halfturn/parts/response_plot.js";
import { branchWords } from "halfturn/parts/words.js";

/** @typedef {import("../messages.d.ts").ResponseWords} Response */
/** @typedef {import("../messages.d.ts").Curve} Curve */

/** @param {Response} response */
export function responseNode(response) {
  const plot = responsePlot(response, PAGE, "Standing-wave ratio over frequency; the same stands in the table below.");
  const read = node("p", { class: "reading", role: "status" });
  const bands = node("ul", { class: "bands" }), why = node("p", { class: "why" });
  const move = (/** @type {number} */ ratio) => {
    const values = plot.move(ratio);
    read.textContent = `At ${frequency(response, ratio)}: ${response.curves.map((curve, index) => `${nameOf(curve, " ")}SWR ${values[index].toFixed(2)}`).join(", ")}.`;
  };
  const bound = (/** @type {number} */ index) => {
    plot.bound(response.limits[index].limit);
    why.textContent = response.limits[index].why;
    bands.replaceChildren(...response.curves.map((curve) => node("li", {}, `${nameOf(curve, ": ")}${[curve.bands[index], curve.line].filter(Boolean).join("; ")}.`)));
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
    node("h4", {}, "What you built, over frequency"), why, node("div", { class: "plot" }, /** @type {any} */ (plot.picture)),
    node("div", { class: "play" }, node("label", { for: "play" }, "Change the frequency"), slider), read,
    node("div", { class: "play" }, node("label", { for: "band-limit" }, "Band within a standing-wave ratio of"), limits), bands,
    table(response), node("p", { class: "note" }, response.note));
}

/** @param {Curve} curve @param {string} gap */
const nameOf = ({ branch }, gap) => branch ? `${branchWords(branch)}${gap}` : "";

/** @param {Response} response @param {number} ratio */
function frequency({ megahertz }, ratio) {
  const percent = Math.round(1000 * (ratio - 1)) / 10, off = percent ? `${percent > 0 ? "+" : "−"}${Math.abs(percent)} %` : "the design frequency";
  return megahertz ? `${(megahertz * ratio).toPrecision(4)} MHz (${off})` : off;
}

/** @param {Response} response */
function table({ curves, table: rows }) {
  const head = ["Frequency", ...curves.map(({ branch }) => branch ? `SWR, ${branch.word}` : "SWR")];
  return node("details", { class: "figures" }, node("summary", { "data-focus": "figures" }, "The same in figures"),
    node("table", {}, node("thead", {}, node("tr", {}, ...head.map((word) => node("th", { scope: "col" }, word)))),
      node("tbody", {}, ...rows.map(([at, ...cells]) => node("tr", {}, node("th", { scope: "row" }, at), ...cells.map((cell) => node("td", {}, cell)))))));
}
