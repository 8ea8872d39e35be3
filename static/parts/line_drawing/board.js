// @ts-check
// The board sketch: the same lengths as copper seen from above. Stubs across the line are branches of a trace over a
// ground plane; stubs in the line need both conductors within reach, so there the line is two strips side by side.

/** @import { Frame, Scene } from "halfturn/parts/line_drawing/types.d.ts" */
/** @import { Pen } from "halfturn/parts/line_drawing/pen.js" */
/** @import { Branching } from "halfturn/parts/line_drawing/branches.js" */
/** @import { Board, Piece } from "halfturn/parts/line_drawing/copper.js" */

import { branchAt, branchLabels, drawBranches, drawHoles } from "halfturn/parts/line_drawing/branches.js";
import { chipLabel, drawChip } from "halfturn/parts/line_drawing/chips.js";
import { breadthOf, extraAbove, reachOf } from "halfturn/parts/line_drawing/copper.js";
import { drawDimensions, drawScale, heading } from "halfturn/parts/line_drawing/dimensions.js";
import { rectangle, ring } from "halfturn/parts/line_drawing/pen.js";

/** @param {Pen} pen @param {Scene} scene @param {Frame} frame @param {number} above what its dimensions take */
export function drawBoard(pen, scene, frame, above) {
  const { u } = pen, board = boardOf(pen, scene, frame, above), { axis } = scene;
  const branches = scene.hanging.map(hanging => branchAt(pen, board, axis, hanging));
  heading(pen, frame, "board", "The board, from above", scene);
  pen.text("board-generator-label", "quiet", frame.x, board.top - 0.5 * u, ["generator"]);
  pen.path("board-outline", "board", rectangle(frame.x + 0.5, board.top, frame.w - 1, board.bottom - board.top));
  pen.take(frame.x, board.upper, frame.w, board.lower - board.upper);
  pen.take(board.load + 0.4 * u, board.middle - 1.2 * u, frame.x + frame.w - board.load - 0.4 * u, 2.4 * u);
  drawDimensions(pen, "board", scene.dimensions, board.top - 0.8 * u, board.upper - 0.2 * u);
  pen.ground = " on-board";
  if (!board.series) drawGround(pen, board);
  drawCopper(pen, board, scene, branches);
  drawLoadPads(pen, board);
  for (const placed of axis.placed) drawChip(pen, board, placed);
  const { x, w, top, lower, bottom } = board, inner = { x: x + 0.5 * u, w: w - u };
  const bounds = { ...inner, y: lower + 0.5 * u, h: bottom - lower - 0.9 * u };
  const whole = { ...inner, y: top + 0.2 * u, h: bottom - top - 0.6 * u };
  const chips = axis.placed.flatMap(placed => chipLabel(pen, board, placed, whole));
  pen.labels([...branchLabels(pen, board, scene, branches, bounds), ...chips]);
  pen.ground = "";
  pen.keyRows("board", frame.x, frame.y + frame.h - 1.6 * u - frame.keyed);
  drawScale(pen, frame, "board", scene, ["widths"]);
}

/** @param {Pen} pen @param {Scene} scene @param {Frame} frame @param {number} above @returns {Board} */
function boardOf({ u }, { picture, strong, axis }, frame, above) {
  const series = strong.form === "strips", breadth = breadthOf(picture.line.ohms, u), top = frame.y + 2.3 * u + above;
  const pieces = axis.placed.filter(({ element }) => element.kind === "section")
    .map(({ from, to, element }) => ({ from, to, breadth: breadthOf(element.ohms, u) }));
  const most = Math.max(breadth, ...pieces.map(piece => piece.breadth));
  const middle = top + ((series ? 2.5 : 1.9) + extraAbove(axis, series)) * u;
  const reach = reachOf(series, most, u);
  return { ...frame, load: axis.load, series, pieces, breadth, middle, upper: middle - reach, lower: middle + reach,
    top, bottom: frame.y + frame.h - 2.1 * u - frame.keyed };
}

// A corner where the board is cut away shows the plane under it.
/** @param {Pen} pen @param {Board} board */
function drawGround(pen, board) {
  const { u } = pen, size = 2.3 * u, x = board.x + 0.5, y = board.bottom, words = ["ground plane underneath"];
  const steps = [1, 2, 3, 4].map(k => k * size / 5);
  pen.path("board-ground", "ground", `M${x} ${y - size}L${x + size} ${y}H${x}Z`);
  pen.path("board-ground-hatch", "thin", steps.map(k => `M${x} ${y - k}L${x + k} ${y}`).join(""));
  pen.text("board-ground-label", "quiet", x + size + 0.3 * u, y - 0.5 * u, words);
  pen.take(x, y - size, size, size);
  pen.take(x, y - 1.5 * u, size + 0.3 * u + pen.width(words), 1.5 * u);
}

// All copper gets its edge first and its face after, so that pieces that touch run together.
/** @param {Pen} pen @param {Board} board @param {Scene} scene @param {Branching[]} branches */
function drawCopper(pen, board, { axis, role }, branches) {
  const { u } = pen;
  /** @type {[string, string, string, number][]} */ const faces = [];
  /** @param {string} part @param {string} look @param {number} width @param {(more: number) => string} path */
  const strip = (part, look, width, path) => {
    pen.path(`${part}-edge`, "edge", path(1), width + 2);
    faces.push([part, `copper ${look}`, path(0), width]);
  };
  const solid = axis.placed.filter(({ element }) => element.kind === "part" && element.placement === "series")
    .filter(({ element }) => element.part !== "wire").map(({ from, to }) => [to + 0.9 * u, from - 0.9 * u]);
  for (const i of board.series ? [0, 1] : [0]) {
    const gaps = board.series ? [...(i ? [...branches.map(branch => branch.gap), ...solid] : [])] : solid;
    copperPieces(board, u).forEach(({ from, to, breadth }, k) => {
      const y = board.series ? board.middle + (i ? 1 : -1) * (0.3 * u + breadth / 2) : board.middle;
      strip(`board-trace-${i}${k ? `-${k}` : ""}`, "", breadth, more => cutAt(gaps, to, from, y, more));
    });
  }
  drawBranches(pen, board, branches, role, strip);
  for (const face of faces) pen.path(...face);
  drawHoles(pen, board, branches, role);
}

/**
 * The copper from the generator to the load in pieces of one breadth.
 * @param {Board} board @param {number} u @returns {Piece[]}
 */
function copperPieces({ x, load, pieces, breadth }, u) {
  const ends = pieces.flatMap(({ from, to }) => [from, to]), last = Math.min(load, ...ends);
  const found = [{ from: last, to: x + 0.5, breadth }];
  let at = last;
  for (const piece of [...pieces].sort((one, other) => one.to - other.to)) {
    if (piece.to > at + 0.01) found.push({ from: piece.to, to: at, breadth });
    found.push(piece);
    at = piece.from;
  }
  found.push({ from: load + 0.8 * u, to: at, breadth });
  return merged(found);
}

/** Neighbours of one breadth are one piece. @param {Piece[]} pieces */
function merged(pieces) {
  return pieces.reduce((/** @type {Piece[]} */ all, piece) => {
    const last = all[all.length - 1];
    if (last && Math.abs(last.breadth - piece.breadth) < 1e-9) last.from = Math.max(last.from, piece.from);
    else if (piece.from > piece.to) all.push({ ...piece });
    return all;
  }, []);
}

/** @param {number[][]} gaps @param {number} from @param {number} to @param {number} y @param {number} more */
function cutAt(gaps, from, to, y, more) {
  const inside = gaps.filter(([a, b]) => a < to && b > from).sort(([one], [other]) => one - other);
  let d = "", x = from;
  for (const [a, b] of inside) {
    if (a > x) d += `M${x} ${y}H${a + more}`;
    x = Math.max(x, b - more);
  }
  return to > x ? `${d}M${x} ${y}H${to}` : d || `M${from} ${y}`;
}

// Two pads with the part across them; over a ground plane the second one is joined to it by a hole.
/** @param {Pen} pen @param {Board} board */
function drawLoadPads(pen, { load, middle, breadth, series }) {
  const { u } = pen, x = load + 0.6 * u;
  const pad = (/** @type {number} */ i, /** @type {number} */ left, /** @type {number} */ y) =>
    pen.path(`board-pad-${i}`, "pad", rectangle(left, y - 0.75 * u, 1.5 * u, 1.5 * u));
  if (series) {
    const [first, second] = [-1, 1].map(way => middle + way * (0.3 * u + breadth / 2));
    pad(0, x, first - 0.2 * u);
    pad(1, x, second + 0.2 * u);
    pen.path("board-part", "part", rectangle(x - 0.15 * u, first - 0.3 * u, 1.8 * u, second - first + 0.6 * u));
    pen.text("board-load", "label", x + 2 * u, middle + 0.36 * u, ["load"]);
  } else {
    pad(0, x, middle);
    pad(1, x + 4 * u, middle);
    pen.path("board-pad-hole", "hole", ring(x + 4.95 * u, middle, 0.28 * u));
    pen.path("board-part", "part", rectangle(x + 0.9 * u, middle - 0.95 * u, 3.7 * u, 1.9 * u));
    pen.text("board-load", "label", x + 2.75 * u, middle + 0.36 * u, ["load"], "middle");
  }
}
