// @ts-check
// In a closer view the axis and the rim with their numbers may be out of sight: then each curve of the grid bears its
// name where it leaves the view, the coarser ones first, as far apart as there is room, and clear of all that is written.

import { shape } from "halfturn/parts/stage/svg.js";

/** @typedef {import("./types.d.ts").Pair} Pair */
/** @typedef {import("./types.d.ts").Box} Box */
/** @typedef {import("./view.js").View} View */
/** @typedef {import("./printed.js").Printed} Printed */
/** @typedef {import("./printed.js").Piece} Piece */
/** @typedef {{name: string, center: Pair, radius: number, start: number, sweep: number}} Curve */
/** @typedef {{at: Pair, anchor: string}} Spot */

const FROM = 1.4; // times enlarged from which this is done
const ROOM = { along: 44, across: 17 }; // pixels between two names on a horizontal and on a vertical edge
const INSET = 4;
const NUMBER = { along: 30, across: 13 }; // pixels that a printed number takes
/** @type {Record<string, Record<string, string>>} */
const LETTERS = { impedance: { resistance: "r", reactance: "x" }, admittance: { resistance: "g", reactance: "b" } };

/** @type {WeakMap<Element, Curve[]>} */
const known = new WeakMap();
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
  for (const piece of shown) nameCurves(layer, view, piece, taken, printed.unit);
}

/** @param {SVGElement} layer @param {View} view @param {Piece} piece @param {Box[]} taken @param {number} unit */
function nameCurves(layer, view, { node, facts }, taken, unit) {
  for (const curve of [...node.children].flatMap((path) => curvesOf(path, facts.grid ?? "", unit))) {
    const free = crossings(view, curve).find(({ at: [x, y] }) => taken.every((box) => isClear(x, y, box)));
    if (!free) continue;
    const [x, y] = free.at;
    taken.push({ x, y, width: ROOM.along, height: ROOM.across });
    layer.append(shape("text", { class: `edge ${facts.grid}`, x, y, dy: "0.35em", "text-anchor": free.anchor }, curve.name));
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
  const places = standing.get(node) ?? [...node.children].map((text) => pair(numbersIn(text.getAttribute("transform"))));
  standing.set(node, places);
  return places;
}

/** @param {string | null} text */
const numbersIn = (text) => (text?.match(/-?[\d.]+/g) ?? []).map(Number);
/** @param {number[]} numbers @returns {Pair} */
const pair = ([x, y]) => [x, y];

/**
 * The curves that a path draws: their circles follow from their values, their ends from the path.
 * @param {Element} path @param {string} grid @param {number} unit of the drawing @returns {Curve[]}
 */
function curvesOf(path, grid, unit) {
  const found = known.get(path);
  if (found) return found;
  const kind = path.getAttribute("class") ?? "", values = path.getAttribute("data-values")?.split(" ") ?? [];
  const pieces = path.getAttribute("d")?.split("M").slice(1) ?? [];
  const curves = pieces.map((piece, i) => {
    const value = Number(values[i]), name = `${LETTERS[grid][kind]} ${values[i].replace("-", "−")}`;
    const curve = { name, ...arcOf(kind, value, numbersIn(piece).map((drawn) => drawn / unit)) };
    return grid === "admittance" ? halfTurned(curve) : curve;
  });
  known.set(path, curves);
  return curves;
}

/** @param {string} kind @param {number} value @param {number[]} drawn numbers of the path: its start, sizes, sense, ..., end */
function arcOf(kind, value, drawn) {
  const radius = 1 / (kind === "resistance" ? 1 + value : Math.abs(value));
  /** @type {Pair} */
  const center = kind === "resistance" ? [value * radius, 0] : [1, 1 / value];
  const angle = (/** @type {number[]} */ [x, y]) => Math.atan2(-y - center[1], x - center[0]);
  const start = drawn.slice(0, 2), end = drawn.slice(-2), whole = start.join() === end.join();
  const [first, last] = drawn[6] > 0 ? [angle(end), angle(start)] : [angle(start), angle(end)];
  return { center, radius, start: first, sweep: whole ? 2 * Math.PI : turnTo(first, last) };
}

/** @param {Curve} curve @returns {Curve} */
function halfTurned({ center: [u, v], start, ...curve }) {
  return { ...curve, center: [-u, -v], start: start + Math.PI };
}

/** The turn from one direction on to another, counter-clockwise. @param {number} from @param {number} to */
function turnTo(from, to) {
  const turns = (to - from) / (2 * Math.PI);
  return (turns - Math.floor(turns)) * 2 * Math.PI;
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
  const rounded = (/** @type {Pair} */ point) => pair(view.toScreen(point).map(Math.round));
  return found.filter(({ point }) => isOn(curve, point) && view.holds(rounded(point))).map(({ point, spot }) => spot(view.toScreen(point)));
}

/** @param {Curve} curve @param {Pair} point */
function isOn({ center, start, sweep }, point) {
  return turnTo(start, Math.atan2(point[1] - center[1], point[0] - center[0])) <= sweep;
}
