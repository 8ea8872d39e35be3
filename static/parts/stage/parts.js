// @ts-check
// The elements of the stage, and the words in them. Whatever comes from outside is written as text, never as HTML.

import { htmlNodes } from "halfturn/parts/stage/lettering.js";
import { shape } from "halfturn/parts/stage/svg.js";

/** @typedef {import("halfturn/parts/stage/types.d.ts").Group} Group */

const NOTHING = "Nothing is drawn yet.";
const COLUMN_NAMES = ["point", "z", "y", "|Γ|", "angle", "scale toward generator"];

/** @param {string} tag @param {Record<string, string>} [attributes] @param {...(Node | string)} content */
function make(tag, attributes = {}, ...content) {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) node.setAttribute(name, value);
  node.append(...content);
  return node;
}

/** @param {SVGElement} printed @param {string} label */
export function makeParts(printed, label) {
  const [names, edges, ink, hand] = ["names", "edges", "ink", "hand"].map((name) => shape("g", { class: name }));
  const overlay = shape("svg", { class: "overlay", "aria-hidden": "true" }, names, edges, ink, hand);
  const closer = iconButton("Closer", "M8 3V13M3 8H13"), wholeButton = iconButton("Whole chart", "M3 6V3H6M10 3H13V6M13 10V13H10M6 13H3V10");
  const sheet = make("div", { class: "sheet" }, make("div", { class: "printed" }, printed), overlay);
  const hold = make("div", { class: "hold", hidden: "" });
  const task = make("p", { id: "task", class: "heard" });
  const pad = make(
    "div",
    { class: "pad", role: "application", tabindex: "0", "aria-label": label, "aria-describedby": "task" },
    sheet, hold, make("div", { class: "views" }, closer, wholeButton),
  );
  const readout = make("div", { class: "readout", "aria-hidden": "true" }), hint = make("p", { class: "hint", "aria-hidden": "true" });
  const said = make("div", { class: "heard", role: "status" });
  const spoken = make("ul", { class: "heard", "aria-label": "What is drawn on the chart" });
  const points = /** @type {HTMLDetailsElement} */ (make("details", { class: "points" }, make("summary", {}, "Points")));
  const whole = make("div", { class: "whole" }, pad, readout, hint, task, said, spoken, points);
  return { whole, pad, hold, sheet, overlay, names, edges, ink, hand, closer, wholeButton, readout, hint, task, said, spoken, points };
}

/** @param {string} name @param {string} d */
function iconButton(name, d) {
  const icon = shape("svg", { viewBox: "0 0 16 16", "aria-hidden": "true" }, shape("path", { d }));
  return make("button", { type: "button", "aria-label": name, title: name }, icon);
}

/** What a finger takes hold of lies over the point that is held. @param {HTMLElement} hold @param {import("halfturn/parts/stage/types.d.ts").Pair | null} place */
export function placeHold(hold, place) {
  hold.hidden = !place;
  if (place) [hold.style.left, hold.style.top] = place.map((pixels) => `${pixels}px`);
}

/** @param {HTMLElement} readout @param {[string, string][]} pairs */
export function writeReadout(readout, pairs) {
  const cell = (/** @type {[string, string]} */ [name, value]) =>
    make("span", { class: name === "walked" ? "wide" : "" }, make("i", {}, name), make("b", {}, ...htmlNodes(value)));
  readout.replaceChildren(...pairs.map(cell));
}

/** @param {HTMLElement} list @param {Group[]} groups */
export function writeSpoken(list, groups) {
  const sentences = groups.flatMap(({ strokes }) => strokes).map(({ spoken }) => spoken);
  list.replaceChildren(...(sentences.length ? sentences : [NOTHING]).map((spoken) => make("li", {}, spoken)));
}

/** @param {HTMLDetailsElement} details @param {string[][]} rows */
export function writePoints(details, rows) {
  const open = details.open, head = make("tr", {}, ...COLUMN_NAMES.map((name) => make("th", { scope: "col" }, name)));
  const body = rows.map(([name, ...cells]) => make("tr", {}, make("th", { scope: "row" }, ...htmlNodes(name)), ...cells.map((cell) => make("td", {}, cell))));
  const table = make("table", {}, make("thead", {}, head), make("tbody", {}, ...body));
  details.replaceChildren(make("summary", {}, "Points"), make("div", { class: "scroll" }, table));
  details.hidden = !rows.length;
  details.open = open;
}
