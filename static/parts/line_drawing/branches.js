// @ts-check
// A stub as copper: a branch, in two strips where it is in the line, bent where the board is too shallow for it.

/** @import { Axis, Box, Hanging, Label, Line, Scene, Spot } from "halfturn/parts/line_drawing/types.d.ts" */
/** @import { Pen } from "halfturn/parts/line_drawing/pen.js" */
/** @import { Board } from "halfturn/parts/line_drawing/copper.js" */

import { breadthOf, edgeAt } from "halfturn/parts/line_drawing/copper.js";
import { ring } from "halfturn/parts/line_drawing/pen.js";
import { STUMP } from "halfturn/parts/line_drawing/stubs.js";
import { named, writtenMillimetres, writtenWaves } from "halfturn/parts/line_drawing/writing.js";

/**
 * The branch's middle line goes `down` from the edge of the copper, and the rest of it `aside` where the board is too
 * shallow; it ends at (`ex`, `ey`). A branch in the line is two strips `half` to either side of it.
 * @typedef {{hanging: Hanging, x: number, edge: number, breadth: number, half: number, reach: number, known: boolean,
 *   down: number, aside: number, way: number, ex: number, ey: number, gap: number[]}} Branching
 */

/** @param {Pen} pen @param {Board} board @param {Axis} axis @param {Hanging} hanging @returns {Branching} */
export function branchAt(pen, board, { scale, load }, hanging) {
  const { u } = pen, { x, length, element } = hanging, breadth = breadthOf(element.ohms, u), known = length !== null;
  const run = length !== null ? length * scale : STUMP * u, down = Math.min(run, board.bend), aside = run - down;
  const half = board.series ? 0.25 * u + breadth / 2 : 0, reach = half + breadth / 2, edge = edgeAt(board, x, u);
  const way = load - x < 0.25 * scale ? -1 : 1, ex = x + way * aside, ey = edge + down, inner = half - breadth / 2;
  pen.take(x - reach, edge, 2 * reach, down + 0.6 * u);
  if (aside) pen.take(Math.min(x, ex) - reach, ey - reach, aside + 2 * reach, 2 * reach);
  return { hanging, x, edge, breadth, half, reach, known, down, aside, way, ex, ey, gap: [x - inner, x + inner] };
}

/**
 * A line beside the branch's middle line, `off` to its right, and `more` beyond its end.
 * @param {Branching} branch @param {number} off
 */
function along({ x, edge, aside, way, ex, ey }, off, more = 0) {
  const start = `M${x + off} ${edge - 1}`;
  return aside ? `${start}V${ey - way * off}H${ex + way * more}` : `${start}V${ey + more}`;
}

/** @param {Hanging} hanging */
const nameOf = ({ index }) => `board-branch-${index}`;

/** @param {Pen} pen @param {Board} board @param {Branching[]} branches @param {string} role
 * @param {(part: string, look: string, width: number, path: (more: number) => string) => void} strip */
export function drawBranches(pen, board, branches, role, strip) {
  for (const branch of branches) drawBranch(pen, board, branch, role, strip);
}

/** @param {Pen} pen @param {Board} board @param {Branching} branch @param {string} role
 * @param {(part: string, look: string, width: number, path: (more: number) => string) => void} strip */
function drawBranch(pen, board, branch, role, strip) {
  const { half, breadth, reach, aside, x, ex, ey, known, hanging } = branch, name = nameOf(hanging);
  const offsets = board.series ? [-half, half] : [0];
  if (!known) {
    const outline = offsets.flatMap(off => [off - breadth / 2, off + breadth / 2]);
    return pen.path(`${name}-unknown`, `stump ${role}`, outline.map(off => along(branch, off)).join(""));
  }
  offsets.forEach((off, i) => strip(`${name}-${i}`, role, breadth, more => along(branch, off, more)));
  if (!board.series || hanging.element.end === "open") return;
  strip(`${name}-bridge`, role, 0.6 * pen.u, more => aside
    ? `M${ex} ${ey - reach - more}V${ey + reach + more}` : `M${x - reach - more} ${ey}H${x + reach + more}`);
}

/**
 * The plated holes at shorted ends.
 * @param {Pen} pen @param {Board} board @param {Branching[]} branches @param {string} role
 */
export function drawHoles(pen, board, branches, role) {
  for (const { ex, ey, breadth, known, hanging } of branches) {
    if (!known || hanging.element.end === "open" || board.series) continue;
    pen.path(`${nameOf(hanging)}-pad`, `pad ${role}`, ring(ex, ey, Math.max(0.62 * pen.u, breadth / 2)));
    pen.path(`${nameOf(hanging)}-hole`, "hole", ring(ex, ey, 0.28 * pen.u));
  }
}

/**
 * @param {Pen} pen @param {Board} board @param {Scene} scene @param {Branching[]} branches @param {Box} bounds
 * @returns {Label[]}
 */
export function branchLabels(pen, board, scene, branches, bounds) {
  /** @type {string[]} */ const said = [];
  return branches.flatMap(branch => {
    const { known, hanging: { element } } = branch, ends = known && !said.includes(element.end ?? "");
    if (known) lengthAlong(pen, branch, element.end === "short" && !board.series ? 0.28 * pen.u : 0);
    if (ends) said.push(element.end ?? "");
    const own = sizeLabel(pen, scene, branch, bounds);
    return ends && !pen.lettered ? [own, endLabel(pen, board, branch, bounds)] : [own];
  });
}

/** @param {Pen} pen @param {Scene} scene @param {Branching} branch @param {Box} bounds @returns {Label} */
function sizeLabel(pen, { picture: { writing }, strong }, { hanging, x, edge, reach, way, aside, down, ex, ey }, bounds) {
  const { u } = pen, { element, length, first } = hanging, { branch } = strong;
  /** @type {Line[]} */
  const name = first && branch && !pen.lettered ? [{ part: "name", marker: branch.role, look: `name ${branch.role}`, runs: [branch.word] }] : [];
  const size = length === null ? "?" : writtenMillimetres(length, writing) || writtenWaves(length, writing);
  const lines = [...name, { part: "label", runs: named(element.symbol, size) }, { part: "ohms", runs: [element.text] }];
  const to = aside ? -way : 1;
  return {
    part: nameOf(hanging), lines, bounds, letter: aside ? [x + to * (reach + 0.8 * u), edge + 2 * u] : [ex, ey + 0.75 * u],
    spots: (w, h) => [to, -to].flatMap(side => [0.5, 0, 1].map(share => /** @type {Spot} */ (
      [x + side * (reach + 0.7 * u) - (side < 0 ? w : 0), edge + 0.5 * u + share * (down - h)]))),
  };
}

/** @param {Pen} pen @param {Board} board @param {Branching} branch @param {Box} bounds @returns {Label} */
function endLabel(pen, board, { hanging, ex, ey, reach, way, aside }, bounds) {
  const { u } = pen, open = hanging.element.end === "open", words = open ? "open end" : board.series ? "bridge" : "plated hole";
  return {
    part: `${nameOf(hanging)}-end`, lines: [{ part: "words", look: "quiet", runs: [words] }], bounds, letter: [ex, ey],
    spots: (w, h) => {
      const clear = Math.max(reach, 0.7 * u) + 0.5 * u, y = ey - h / 2;
      /** @type {Spot} */ const right = [ex + clear, y];
      /** @type {Spot} */ const left = [ex - clear - w, y];
      const beside = way < 0 && aside ? [left, right] : [right, left];
      return [...beside, [ex - w / 2, ey + (aside ? clear : 1.15 * u)], [ex - w / 2, ey - clear - h]];
    },
  };
}

// The length is measured along the middle of the copper, to the middle of the hole if it ends in one.
/** @param {Pen} pen @param {Branching} branch @param {number} hole */
function lengthAlong(pen, { hanging, x, edge, down, aside, ex, ey, way }, hole) {
  const h = 0.5 * pen.u, b = 0.22 * pen.u, round = aside > hole + h, name = `${nameOf(hanging)}-length`;
  if (down + aside < 3 * h + hole) return;
  const [tx, ty] = round ? [ex - way * hole, ey] : [ex, ey - hole];
  pen.path(name, "thin", `M${x} ${edge}V${ty}${round ? `H${tx}` : ""}`);
  const tip = round ? `l${-way * h} ${-b}v${2 * b}Z` : `l${-b} ${-h}h${2 * b}Z`;
  pen.path(`${name}-heads`, "head", `M${x} ${edge}l${-b} ${h}h${2 * b}ZM${tx} ${ty}${tip}`);
}
