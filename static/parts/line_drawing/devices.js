// @ts-check
// Lumped parts on the line drawing, and boxes for what has no symbol of its own.

/** @import { Box, Label, Placed, Scene, Spot } from "halfturn/parts/line_drawing/types.d.ts" */
/** @import { Pen } from "halfturn/parts/line_drawing/pen.js" */
/** @import { Rails } from "halfturn/parts/line_drawing/wires.js" */

import { rectangle, ring } from "halfturn/parts/line_drawing/pen.js";
import { drawPart } from "halfturn/parts/line_drawing/symbols.js";
import { halfAt } from "halfturn/parts/line_drawing/wires.js";
import { named } from "halfturn/parts/line_drawing/writing.js";

// A lumped part in its place: in the upper wire, or across both; or a box across the line.
/** @param {Pen} pen @param {Rails} line @param {Scene} scene @param {Placed} placed */
export function drawDevice(pen, line, { role }, { element, index, from, to }) {
  const { u } = pen, { middle, half } = line, look = `${role} strong`, name = `line-part-${index}`;
  if (element.kind === "box") {
    pen.path(name, "box", rectangle(to, middle - half - 0.4 * u, from - to, 2 * half + 0.8 * u));
    pen.take(to, middle - half - 0.4 * u, from - to, 2 * half + 0.8 * u);
  } else if (element.kind === "part" && element.placement === "series") {
    drawPart(pen, name, look, element, { along: true, from: to, to: from, at: middle - half });
    pen.take(to, middle - half - 0.7 * u, from - to, 1.4 * u);
  } else if (element.kind === "part" && element.part !== "gap") {
    const [top, bottom] = [middle - halfAt(line, from), middle + halfAt(line, from)];
    drawPart(pen, name, look, element, { along: false, from: top, to: bottom, at: from });
    pen.path(`${name}-junction`, `dot ${look}`, ring(from, top, 0.22 * u) + ring(from, bottom, 0.22 * u));
    pen.take(from - 0.75 * u, top, 1.5 * u, bottom - top);
  }
}

/**
 * @param {Pen} pen @param {Rails} line @param {Placed} placed @param {Box} bounds
 * @returns {Label[]}
 */
export function deviceLabel(pen, { middle, half, bottom }, { element, index, from, to }, bounds) {
  if (element.kind === "section" || element.kind === "stub" || !element.text) return [];
  const { u } = pen, x = (from + to) / 2, unknown = element.part === "unknown" && element.kind === "part";
  if (unknown && !element.symbol) return [];
  const lines = [{ part: "label", runs: unknown ? [`_${element.symbol}`] : named(element.symbol, element.text) }];
  const low = bottom + 0.65 * u, shunt = element.placement === "shunt", box = element.kind === "box";
  return [{
    part: `line-part-${index}`, lines, bounds, letter: box || shunt ? [x, low] : [x, middle - half + 0.9 * u],
    spots: (w, h) => {
      /** @type {Spot[]} */
      const beside = shunt ? [[x + 1.1 * u, middle - h / 2], [x - 1.1 * u - w, middle - h / 2]] : [];
      /** @type {Spot[]} */ const under = box || shunt ? [] : [[x - w / 2, middle - half - 1.15 * u - h], [x - w / 2, middle - h / 2 + 0.3 * u]];
      /** @type {Spot[]} */
      const below = [0, 1.5].flatMap(more => [0.5, 0.2, 0.8, 0, 1].map(share => /** @type {Spot} */ ([x - share * w, low + more * u])));
      return [...beside, ...under, ...below];
    },
  }];
}
