// @ts-check
// Shapes on the screen: nodes, and paths of the curves of the chart in pixels.

/** @typedef {import("halfturn/parts/stage/types.d.ts").Pair} Pair */
/** @typedef {import("halfturn/parts/stage/view.js").View} View */

const SVG = "http://www.w3.org/2000/svg";

/**
 * @param {string} tag
 * @param {Record<string, string | number>} [attributes]
 * @param {...(Node | string)} content
 * @returns {SVGElement}
 */
export function shape(tag, attributes = {}, ...content) {
  const node = /** @type {SVGElement} */ (document.createElementNS(SVG, tag));
  for (const [name, value] of Object.entries(attributes)) node.setAttribute(name, String(value));
  node.append(...content);
  return node;
}

/** The point on the ray through a point, at a radius. @param {Pair} point @param {number} radius @returns {Pair} */
export function onRadius([u, v], radius) {
  const size = Math.hypot(u, v) || 1;
  return [(u / size) * radius, (v / size) * radius];
}

/** @param {Pair} center @param {number} radius @param {number} angle @returns {Pair} */
export function onCircle([u, v], radius, angle) {
  return [u + radius * Math.cos(angle), v + radius * Math.sin(angle)];
}

/** @param {Pair} from @param {Pair} to @param {number} part @returns {Pair} */
export function between(from, to, part) {
  return [from[0] + (to[0] - from[0]) * part, from[1] + (to[1] - from[1]) * part];
}

/**
 * Path of an arc about a point of the chart, from an angle through a turn (counter-clockwise above zero).
 * @param {View} view @param {Pair} center @param {number} radius @param {number} start @param {number} turn
 */
export function arcPath(view, center, radius, start, turn) {
  const pieces = Math.max(1, Math.ceil(Math.abs(turn) / 2)), size = radius * view.scale();
  let path = "";
  for (let i = 0; i <= pieces; i++) {
    const [x, y] = view.toScreen(onCircle(center, radius, start + (turn * i) / pieces));
    path += i ? `A${size} ${size} 0 0 ${turn > 0 ? 0 : 1} ${x} ${y}` : `M${x} ${y}`;
  }
  return path;
}

/** Path of a small circle on the screen. @param {Pair} place @param {number} size */
export function ringPath([x, y], size) {
  return `M${x + size} ${y}A${size} ${size} 0 1 1 ${x - size} ${y}A${size} ${size} 0 1 1 ${x + size} ${y}`;
}

/** An arrowhead at a place on the screen, pointing along a direction there. @param {Pair} place @param {number} direction */
export function arrowhead([x, y], direction, size = 1) {
  const degrees = (direction * 180) / Math.PI;
  return { d: "M0 0L-11 -4.5L-8.5 0L-11 4.5Z", transform: `translate(${x} ${y}) rotate(${degrees}) scale(${size})` };
}

/**
 * Where an arc has got to after a turn, and the direction of the pen there on the screen.
 * @param {View} view @param {{center: Pair, radius: number, start: number}} arc @param {number} turn
 * @returns {[Pair, number]}
 */
export function penOnArc(view, { center, radius, start }, turn) {
  const angle = start + turn;
  return [view.toScreen(onCircle(center, radius, angle)), -angle - (Math.sign(turn) * Math.PI) / 2];
}

/**
 * The head of a walk of a turn along an arc, so many pixels short of its end; it lies along its own chord. None where the
 * walk is too short for one.
 * @param {View} view @param {{center: Pair, radius: number, start: number}} arc @param {number} turn @param {number} short
 */
export function headOnArc(view, arc, turn, short, size = 1) {
  const pixels = arc.radius * view.scale(), back = (size * short) / pixels;
  if (Math.abs(turn) < 3 * back) return null;
  const [tip] = penOnArc(view, arc, turn - Math.sign(turn) * back);
  const [, direction] = penOnArc(view, arc, turn - Math.sign(turn) * (back + (size * 5) / pixels));
  return arrowhead(tip, direction, size);
}
