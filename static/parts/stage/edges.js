// @ts-check
// In a closer view the axis and the rim with their numbers may be out of sight: then each curve of the grid bears its
// name where it leaves the view, the coarser ones first, as far apart as there is room, and clear of all that is written.

import { curvesOf, isOn, numbersIn } from "halfturn/parts/stage/curves.js";
import { shape } from "halfturn/parts/stage/svg.js";

/** @typedef {import("./types.d.ts").Pair} Pair */
/** @typedef {import("./types.d.ts").Box} Box */
/** @typedef {import("./view.js").View} View */
/** @typedef {import("./printed.js").Printed} Printed */
/** @typedef {import("./curves.js").Curve} Curve */
/** @typedef {{at: Pair, anchor: string}} Spot */

const FROM = 1.4; // times enlarged from which this is done
const ROOM = { along: 44, across: 17 }; // pixels between two names on a horizontal and on a vertical edge
const INSET = 4;
const NUMBER = { along: 30, across: 13 }; // pixels that a printed number takes
/** @type {WeakMap<Element, Pair[]>} */
const standing = new WeakMap();

/** @param {SVGElement} layer @param {View} view @param {Printed} printed @param {Box[]} labels what the ink has written */
export function drawEdges(layer, view, printed, labels) {
  layer.replaceChildren();
  if (view.half * FROM > view.radii().extent) return;
  layer.style.fontSize = `${view.letters()}px`;
  const buttons = [{ x: view.size - 50, y: 12, width: 60, height: 30 }];
  const taken = [...buttons, ...labels, ...numbersInView(view, printed)];
  const shown = printed.pieces.filter(({ shown, facts }) => shown && facts.weight).sort((a, b) => a.from - b.from);
  for (const piece of shown) nameCurves(layer, view, piece.facts.grid ?? "", printed.curves(piece), taken);
}

/** @param {SVGElement} layer @param {View} view @param {string} grid @param {Curve[]} curves @param {Box[]} taken */
function nameCurves(layer, view, grid, curves, taken) {
  for (const curve of curves) {
    const free = crossings(view, curve).find(({ at: [x, y] }) => taken.every((box) => isClear(x, y, box)));
    if (!free) continue;
    const [x, y] = free.at;
    taken.push({ x, y, width: ROOM.along, height: ROOM.across });
    layer.append(shape("text", { class: `edge ${grid}`, x, y, dy: "0.35em", "text-anchor": free.anchor }, curve.name));
  }
}

/** @param {number} x @param {number} y @param {Box} box */
function isClear(x, y, box) {
  return Math.abs(x - box.x) >= (ROOM.along + box.width) / 2 || Math.abs(y - box.y) >= (ROOM.across + box.height) / 2;
}

/** Boxes of the printed numbers that can be seen. @param {View} view @param {Printed} printed @returns {Box[]} */
function numbersInView(view, printed) {
  const places = printed.pieces.filter(({ shown, numbers }) => shown && numbers).flatMap(({ node }) => placesOf(node));
  return places
    .map(([x, y]) => view.toScreen([x / printed.unit, -y / printed.unit]))
    .filter((place) => view.holds(place))
    .map(([x, y]) => ({ x, y, width: NUMBER.along, height: NUMBER.across }));
}

/** Where the numbers of a piece stand, in the drawing's own units. @param {Element} node @returns {Pair[]} */
function placesOf(node) {
  const places = standing.get(node) ?? [...node.children].map((text) => asPair(numbersIn(text.getAttribute("transform"))));
  standing.set(node, places);
  return places;
}

/** Where a curve crosses the edges of the view: the left, right, upper and lower one in turn. @param {View} view @param {Curve} curve @returns {Spot[]} */
function crossings(view, curve) {
  const { center: [u, v], radius } = curve, { x, y, half, size } = view;
  const at = (/** @type {number} */ distance) => [1, -1].map((sign) => sign * Math.sqrt(Math.max(0, radius ** 2 - distance ** 2)));
  /** @type {{point: Pair, spot: (place: Pair) => Spot}[]} */
  const found = [];
  for (const [edge, inset, anchor] of /** @type {[number, number, string][]} */ ([[x - half, INSET, "start"], [x + half, size - INSET, "end"]])) {
    if (Math.abs(edge - u) >= radius) continue;
    for (const away of at(edge - u)) found.push({ point: [edge, v + away], spot: ([, top]) => ({ at: [inset, top], anchor }) });
  }
  for (const [edge, inset] of [[y + half, 10], [y - half, size - 10]]) {
    if (Math.abs(edge - v) >= radius) continue;
    for (const away of at(edge - v)) found.push({ point: [u + away, edge], spot: ([left]) => ({ at: [left, inset], anchor: "middle" }) });
  }
  const rounded = (/** @type {Pair} */ point) => asPair(view.toScreen(point).map(Math.round));
  return found.filter(({ point }) => isOn(curve, point) && view.holds(rounded(point))).map(({ point, spot }) => spot(view.toScreen(point)));
}

/** @param {number[]} numbers @returns {Pair} */
function asPair([x, y]) {
  return [x, y];
}
