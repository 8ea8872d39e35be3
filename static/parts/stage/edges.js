// @ts-check
// In a closer view the axis and the rim with their numbers may be out of sight: then each curve of the grid bears its
// name where it leaves the view, the coarser ones first, as far apart as there is room, and clear of all that is written.

import { isOn, numbersIn } from "halfturn/parts/stage/curves.js";
import { shape } from "halfturn/parts/stage/svg.js";

/** @typedef {import("halfturn/parts/stage/types.d.ts").Pair} Pair */
/** @typedef {import("halfturn/parts/stage/types.d.ts").Box} Box */
/** @typedef {import("halfturn/parts/stage/view.js").View} View */
/** @typedef {import("halfturn/parts/stage/printed.js").Printed} Printed */
/** @typedef {import("halfturn/parts/stage/curves.js").Curve} Curve */
/** @typedef {{at: Pair, anchor: string}} Spot */

const FROM = 1.4; // times enlarged from which this is done
const ROOM = { along: 44, across: 17 }; // pixels between two names on a horizontal and on a vertical edge
const INSET = 4;
const DIGIT = 0.6; // width of a digit, in letters
/** @typedef {{x: number, y: number, right: number, down: number, middle: number, length: number}} Standing */
/** @type {WeakMap<Element, Standing[]>} */
const standing = new WeakMap();

/** @param {SVGElement} layer @param {View} view @param {Printed} printed @param {Box[]} ink what the ink covers */
export function drawEdges(layer, view, printed, ink) {
  layer.replaceChildren();
  if (view.half * FROM > view.radii().extent) return;
  layer.style.fontSize = `${view.letters()}px`;
  const buttons = [{ x: view.size - 50, y: 12, width: 60, height: 30 }];
  const taken = [...buttons, ...ink, ...numbersInView(view, printed)];
  const shown = printed.pieces.filter(({ shown, facts }) => shown && facts.weight).sort((a, b) => a.from - b.from);
  for (const piece of shown) nameCurves(layer, view, piece.facts.grid ?? "", printed.curves(piece), taken);
}

/** @param {SVGElement} layer @param {View} view @param {string} grid @param {Curve[]} curves @param {Box[]} taken */
function nameCurves(layer, view, grid, curves, taken) {
  for (const curve of curves) {
    const free = crossings(view, curve).find((spot) => fits(view, spot) && taken.every((box) => isClear(boxOf(spot), box)));
    if (!free) continue;
    const [x, y] = free.at;
    taken.push(boxOf(free));
    layer.append(shape("text", { class: `edge ${grid}`, x, y, dy: "0.35em", "text-anchor": free.anchor }, curve.name));
  }
}

/** @param {View} view @param {Spot} spot */
function fits({ size }, { at: [x], anchor }) {
  return anchor !== "middle" || Math.abs(x - size / 2) < (size - ROOM.along) / 2;
}

/** The room that a name takes. @param {Spot} spot @returns {Box} */
function boxOf({ at: [x, y], anchor }) {
  const off = { start: 0.5, end: -0.5 }[anchor] ?? 0;
  return { x: x + off * ROOM.along, y, width: ROOM.along, height: ROOM.across };
}

/** @param {Box} one @param {Box} other */
function isClear(one, other) {
  return Math.abs(one.x - other.x) >= (one.width + other.width) / 2 || Math.abs(one.y - other.y) >= (one.height + other.height) / 2;
}

/** Boxes of the printed numbers that can be seen. @param {View} view @param {Printed} printed @returns {Box[]} */
function numbersInView(view, printed) {
  const pieces = printed.pieces.filter(({ shown, numbers }) => shown && numbers), letters = view.letters();
  const boxes = pieces.flatMap(({ node }) => standingIn(node)).map(({ x, y, right, down, middle, length }) => {
    const [left, top] = view.toScreen([x / printed.unit, -y / printed.unit]), off = middle * letters;
    const [along, across] = [Math.abs(right), Math.abs(down)], size = length * letters;
    return { x: left + right * off, y: top + down * off, width: along * size + across * letters, height: across * size + along * letters };
  });
  return boxes.filter(({ x, y }) => view.holds([x, y]));
}

/** Where the numbers of a piece stand, in the drawing's own units, which way they run, and how far their middle is off, in letters. @param {Element} node */
function standingIn(node) {
  const found = standing.get(node) ?? [...node.children].map((text) => {
    const [x, y, turn] = numbersIn(text.getAttribute("transform")).map(Number), angle = (turn * Math.PI) / 180;
    const length = DIGIT * (text.textContent ?? "").length, align = { start: 0.5, end: -0.5 }[text.getAttribute("text-anchor") ?? ""] ?? 0;
    return { x, y, right: Math.cos(angle), down: Math.sin(angle), middle: parseFloat(text.getAttribute("x") ?? "0") + align * length, length };
  });
  standing.set(node, found);
  return found;
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
