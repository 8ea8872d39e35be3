// @ts-check
// Lumped parts on the board: a chip over a gap, or from the trace to a hole, or from strip to strip.

/** @import { Box, Label, Placed, Spot } from "halfturn/parts/line_drawing/types.d.ts" */
/** @import { Pen } from "halfturn/parts/line_drawing/pen.js" */
/** @import { Board } from "halfturn/parts/line_drawing/copper.js" */

import { edgeAt } from "halfturn/parts/line_drawing/copper.js";
import { rectangle, ring } from "halfturn/parts/line_drawing/pen.js";
import { named } from "halfturn/parts/line_drawing/writing.js";

/** @param {Placed} placed */
export const isPart = ({ element }) => element.kind === "part" && Boolean(element.text);

/** @param {Pen} pen @param {Board} board @param {Placed} placed */
export function drawChip(pen, board, placed) {
  const { element, index, from, to } = placed, { u } = pen, { middle, series } = board, x = (from + to) / 2;
  if (element.kind !== "part") return;
  const name = `board-chip-${index}`, across = element.placement === "shunt";
  if (across && element.part === "wire") return drawHole(pen, board, name, x);
  if (!isPart(placed)) return;
  if (!across) {
    const y = series ? middle + 0.3 * u + board.breadth / 2 : middle;
    pen.path(name, "chip", rectangle(x - 1 * u, y - 0.55 * u, 2 * u, 1.1 * u));
    const caps = [x - u, x + 0.55 * u].map(left => rectangle(left, y - 0.55 * u, 0.45 * u, 1.1 * u));
    pen.path(`${name}-caps`, "cap", caps.join(""));
    return pen.take(x - 1.1 * u, y - 0.65 * u, 2.2 * u, 1.3 * u);
  }
  const top = series ? middle - 1 * u : edgeAt(board, from, u) + 0.3 * u;
  if (!series) {
    const pads = [[top - 0.4 * u, 0.9 * u], [top + 1.5 * u, 1.7 * u]].map(([y, h]) => rectangle(x - 0.6 * u, y, 1.2 * u, h));
    pen.path(`${name}-pad`, "pad", pads.join(""));
    pen.path(`${name}-hole`, "hole", ring(x, top + 2.65 * u, 0.28 * u));
  }
  pen.path(name, "chip", rectangle(x - 0.55 * u, top, 1.1 * u, 2 * u));
  const caps = [top, top + 1.55 * u].map(y => rectangle(x - 0.55 * u, y, 1.1 * u, 0.45 * u));
  pen.path(`${name}-caps`, "cap", caps.join(""));
  pen.take(x - 0.75 * u, top - 0.3 * u, 1.5 * u, (series ? 2.4 : 3.6) * u);
}

/**
 * A short circuit of no length: a hole through the trace, or a bridge over the strips.
 * @param {Pen} pen @param {Board} board @param {string} name @param {number} x
 */
function drawHole(pen, { series, middle, lower }, name, x) {
  const { u } = pen;
  if (series) pen.path(name, "copper", `M${x} ${middle - 0.5 * u}V${middle + 0.5 * u}`, 0.6 * u);
  else pen.path(name, "hole", ring(x, middle, 0.28 * u));
  pen.take(x - 0.4 * u, middle - 0.5 * u, 0.8 * u, lower - middle + 0.5 * u);
}

/** @param {Pen} pen @param {Board} board @param {Placed} placed @param {Box} bounds @returns {Label[]} */
export function chipLabel(pen, board, placed, bounds) {
  const { element, index, from, to } = placed, { u } = pen, x = (from + to) / 2;
  if (!isPart(placed)) return [];
  const shunt = element.placement === "shunt" && !board.series, low = board.lower + 0.6 * u;
  const text = element.text === "?" ? named(element.symbol, "?") : named(element.symbol, element.text);
  return [{
    part: `board-chip-${index}`, lines: [{ part: "label", runs: text }], bounds,
    letter: shunt ? [x, edgeAt(board, from, u) + 3.8 * u] : [x, low],
    spots: (w, h) => {
      /** @type {Spot[]} */
      const beside = shunt ? [[x + 1.2 * u, low + u], [x - 1.2 * u - w, low + u], [x - w / 2, low + 3.6 * u]] : [];
      /** @type {Spot[]} */
      /** @type {Spot[]} */
      const above = shunt || (board.series && element.placement === "series") ? [] : [0.5, 0.7, 0.9].map(share =>
        [x - share * w, board.upper - 0.65 * u - h]);
      const below = [0, 1.5].flatMap(more => [0.5, 0.2, 0.8, 0, 1].map(share =>
        /** @type {Spot} */ ([x - share * w, low + (more + (shunt ? 3.6 : 0)) * u])));
      return [...above, ...beside, ...below];
    },
  }];
}
