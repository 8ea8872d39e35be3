// @ts-check
// Stubs on the line drawing, strong or faint, with what is known of them beside them.

/** @import { Box, Hanging, Label, Line, Scene, Spot } from "halfturn/parts/line_drawing/types.d.ts" */
/** @import { Pen } from "halfturn/parts/line_drawing/pen.js" */
/** @import { Rails } from "halfturn/parts/line_drawing/wires.js" */

import { ring } from "halfturn/parts/line_drawing/pen.js";
import { halfAt, stubHalf } from "halfturn/parts/line_drawing/wires.js";
import { named, writtenMillimetres, writtenWaves } from "halfturn/parts/line_drawing/writing.js";

export const STUMP = 2.4;            // drawn length of a stub of unknown length, in u

/** @param {Hanging} hanging */
export const partOf = ({ plan, index }) => `line-stub-${plan}-${index}`;

/** @param {Pen} pen @param {Rails} line @param {Scene} scene @param {Hanging} hanging */
function shapeOf(pen, line, scene, { x, element, length }) {
  const half = stubHalf(pen, scene, element), a = x - half, b = x + half;
  const top = line.middle - halfAt(line, a), [left, right] = [a, b].map(at => line.middle + halfAt(line, at));
  const base = Math.max(left, right), y = base + (length === null ? STUMP * pen.u : length * scene.axis.scale);
  return { a, b, top, left, right, base, y, half };
}

/**
 * Across the line, one wire comes from the upper rail and passes the lower one in a little arc, without touching it;
 * in the line, both are the ends of the lower rail. A short of no length does touch: it is a short across the line.
 * @param {Pen} pen @param {Rails} line @param {Scene} scene @param {Hanging} hanging
 * @param {"take" | "draw"} what
 */
export function drawHanging(pen, line, scene, hanging, what) {
  const { u } = pen, { element, length, role, strong } = hanging, part = partOf(hanging);
  const { a, b, top, left, right, base, y } = shapeOf(pen, line, scene, hanging), shunt = element.placement === "shunt";
  const short = element.end === "short", hop = shunt ? Math.min(0.42 * u, short ? y - base : Infinity) : 0;
  const low = Math.max(y, base + hop), look = `${role} ${strong ? "strong" : "faint"}`;
  if (what === "take") return pen.take(a - 0.3 * u, shunt ? top : base, b - a + 0.6 * u, low - (shunt ? top : base) + 0.2 * u);
  const first = shunt ? `M${a} ${top}V${left - hop}A${hop} ${hop} 0 0 1 ${a} ${left + hop}` : `M${a} ${left}`;
  pen.path(part, `${length === null ? "stump" : "stub"} ${look}`, `${first}V${low}M${b} ${right}V${low}`);
  if (shunt) pen.path(`${part}-junction`, `dot ${look}`, ring(a, top, 0.22 * u) + ring(b, right, 0.22 * u));
  if (length === null) return;
  if (short) pen.path(`${part}-end`, `bar ${look}`, `M${a} ${y}H${b}`);
  else pen.path(`${part}-end`, `terminal ${look}`, ring(a, low, 0.2 * u) + ring(b, low, 0.2 * u));
}

/**
 * What is written at the stubs. A solution's name stands at its first stub.
 * @param {Pen} pen @param {Rails} line @param {Scene} scene @param {Box} bounds
 * @returns {Label[]}
 */
export function hangLabels(pen, line, scene, bounds) {
  const strongLast = [...scene.hanging].sort((one, other) => Number(other.strong) - Number(one.strong));
  return strongLast.flatMap(hanging => {
    const names = nameLabel(pen, line, scene, hanging, bounds);
    return hanging.strong ? [lengthLabel(pen, line, scene, hanging, bounds), ...names] : names;
  });
}

/**
 * @param {Pen} pen @param {Rails} line @param {Scene} scene @param {Hanging} hanging @param {Box} bounds
 * @returns {Label[]}
 */
function nameLabel(pen, line, scene, hanging, bounds) {
  const { branch } = scene.picture.plans[hanging.plan], { u } = pen, { x, first } = hanging;
  if (!branch || !first || pen.lettered) return [];
  const { y } = shapeOf(pen, line, scene, hanging), out = outOf(scene, hanging);
  return [{
    part: `line-name-${branch.key}`, bounds, letter: [x, y + 0.3 * u],
    lines: [{ part: "name", marker: branch.role, look: `name ${branch.role}`, runs: [branch.word] }],
    spots: (w, h) => {
      /** @type {Spot[]} */ const below = [0.5, 0.15, 0.85, 0, 1].map(share => [x - share * w, y + 0.75 * u]);
      /** @type {Spot[]} */ const beside = [out, -out].map(way => [x + way * 1.6 * u - (way < 0 ? w : 0), y - h]);
      return [...below, ...beside, ...below.map((/** @type {Spot} */ [left, top]) => /** @type {Spot} */ ([left, top + 1.4 * u]))];
    },
  }];
}

/** The side of a stub where there is no other one. @param {Scene} scene @param {Hanging} hanging */
function outOf({ hanging: all }, hanging) {
  const others = all.filter(one => one !== hanging);
  const nearest = others.sort((one, other) => Math.abs(one.x - hanging.x) - Math.abs(other.x - hanging.x))[0];
  return nearest && nearest.x > hanging.x ? -1 : 1;
}

/** @param {Scene} scene @param {Hanging} hanging @returns {Line[]} */
export function stubLines({ picture: { writing } }, { element, length }) {
  const ohms = { part: "ohms", runs: [element.text] };
  if (length === null) return [{ part: "label", runs: named(element.symbol, "?") }, ohms];
  const mm = writtenMillimetres(length, writing);
  const label = { part: "label", runs: named(element.symbol, writtenWaves(length, writing)) };
  return [label, ...(mm ? [{ part: "mm", runs: [mm] }] : []), ohms];
}

/**
 * The length's arrow beside the stub and its texts beside the arrow, on the side with room for them.
 * @param {Pen} pen @param {Rails} line @param {Scene} scene @param {Hanging} hanging @param {Box} bounds
 * @returns {Label}
 */
function lengthLabel(pen, line, scene, hanging, bounds) {
  const { u } = pen, { x, length } = hanging, { base, y, half } = shapeOf(pen, line, scene, hanging);
  const lines = stubLines(scene, hanging), { w: broad } = pen.size(lines), out = outOf(scene, hanging);
  const fits = (/** @type {number} */ way) => way > 0 ? x + 2.25 * u + broad <= line.x + line.w : x - 2.25 * u - broad >= line.x;
  const way = !fits(out) && fits(-out) ? -out : out;
  const ways = [way, -way].filter(to => length !== null && arrowFits(pen, x, to, base, y));
  const [to] = ways, arrow = to ? x + to * (half + 0.73 * u) : x + way * half;
  if (to) drawArrow(pen, partOf(hanging), x + to * (half + 0.28 * u), arrow, base, y);
  return {
    part: partOf(hanging), lines, bounds, letter: [x, y + 0.3 * u],
    spots: (w, h) => [way, -way].flatMap(side => [0, 0.6].flatMap(more => {
      const off = side === to ? Math.abs(arrow - x) + (0.9 + more) * u : half + (1 + more) * u;
      const left = x + side * off - (side < 0 ? w : 0);
      const along = [0.5, 0.3, 0.7, 0, 1].map(share => base + Math.max(0.65 * u, 0.5 * u + share * (y - base - h)));
      return [...along, base + 1.8 * u, y - 0.5 * u, y + 2.6 * u].map(top => /** @type {Spot} */ ([left, top]));
    })),
  };
}

/** @param {Pen} pen @param {number} x @param {number} to @param {number} base @param {number} y */
function arrowFits(pen, x, to, base, y) {
  const { u } = pen, near = x + to * u, column = { x: Math.min(near, near + to * 0.8 * u), w: 0.8 * u };
  const above = y - base > 1.65 * u || pen.isFree({ ...column, y: base - 1.2 * u, h: 0.9 * u });
  return above && pen.isFree({ ...column, y: base + 0.25 * u, h: Math.max(0.2 * u, y - base) });
}

/**
 * @param {Pen} pen @param {string} part @param {number} from @param {number} x @param {number} base
 * @param {number} y
 */
function drawArrow(pen, part, from, x, base, y) {
  const { u } = pen, outside = y - base <= 1.65 * u;     // then the arrow also stands between the rails
  pen.path(`${part}-length-ends`, "thin", `M${from} ${y}H${x + Math.sign(x - from) * 0.4 * u}`);
  pen.dimension(`${part}-length`, x, base, x, y, true);
  pen.take(x - 0.25 * u, base - (outside ? 1.1 * u : 0), 0.5 * u, y - base + (outside ? 2.2 * u : 0));
}
