// @ts-check
// The line drawing: generator, two wires, load, and all that stands between them, lengths to scale.

/** @import { Frame, Placed, Scene } from "halfturn/parts/line_drawing/types.d.ts" */
/** @import { Pen } from "halfturn/parts/line_drawing/pen.js" */
/** @import { Rails, Span } from "halfturn/parts/line_drawing/wires.js" */

import { deviceLabel, drawDevice } from "halfturn/parts/line_drawing/devices.js";
import { drawDimensions, drawScale, heading } from "halfturn/parts/line_drawing/dimensions.js";
import { hangLabels, drawHanging } from "halfturn/parts/line_drawing/stubs.js";
import { rectangle, ring } from "halfturn/parts/line_drawing/pen.js";
import { fitsInside, halfAt, isOther, spansOf, stubHalf } from "halfturn/parts/line_drawing/wires.js";

/** @param {Pen} pen @param {Scene} scene @param {Frame} frame @param {number} above what its dimensions take */
export function drawLine(pen, scene, frame, above) {
  const { u } = pen, { picture, axis, half, spread } = scene, middle = frame.y + 3.2 * u + above + spread;
  const spans = spansOf(scene), end = axis.load + 2.4 * u;
  /** @type {Rails} */
  const line = { ...frame, middle, top: middle - spread, bottom: middle + spread, end, spans, half };
  heading(pen, frame, "line", "The line, to scale", scene);
  takeRails(pen, line, axis.load);
  for (const hanging of scene.hanging) drawHanging(pen, line, scene, hanging, "take");
  drawBands(pen, line, scene);
  drawRails(pen, line, scene);
  drawGenerator(pen, line, picture.source);
  drawLoad(pen, line, axis.load, picture.load);
  for (const hanging of scene.hanging) drawHanging(pen, line, scene, hanging, "draw");
  for (const placed of axis.placed) drawDevice(pen, line, scene, placed);
  drawDimensions(pen, "line", scene.dimensions, line.top - 1.7 * u, line.top - 0.4 * u);
  lineImpedance(pen, line, scene);
  const bounds = { x: frame.x, y: line.bottom + 0.4 * u, w: frame.w, h: 0 };
  bounds.h = frame.y + frame.h - 1.8 * u - frame.keyed - bounds.y;
  const inside = { ...bounds, y: frame.y + 1.6 * u, h: bounds.h + bounds.y - frame.y - 1.6 * u };
  const devices = axis.placed.flatMap(placed => deviceLabel(pen, line, placed, inside));
  pen.labels([...hangLabels(pen, line, scene, bounds), ...devices]);
  pen.keyRows("line", frame.x, frame.y + frame.h - 1.6 * u - frame.keyed);
  drawScale(pen, frame, "line", scene, []);
}

/** @param {Pen} pen @param {Rails} line @param {number} load */
function takeRails(pen, { x, middle, end, half, spans, box, w }, load) {
  const { u } = pen, strip = (/** @type {number} */ left, /** @type {number} */ right, /** @type {number} */ half) => {
    pen.take(left, middle - half - 0.2 * u, right - left, 0.4 * u);
    pen.take(left, middle + half - 0.2 * u, right - left, 0.4 * u);
  };
  for (const span of spans) strip(span.to, span.from, span.half);
  strip(x, spans.length ? spans[spans.length - 1].to : load, half);
  strip(load, x + w, half);
  pen.take(x, middle - half, 4.9 * u, 2 * half);
  pen.take(end - 0.3 * u, middle - Math.max(2.3 * u, half), box + 0.3 * u, 2 * Math.max(2.3 * u, half));
}

// What has another impedance than the line is tinted between its wires, which are the heavier the lower it is.
/** @param {Pen} pen @param {Rails} line @param {Scene} scene */
function drawBands(pen, { spans, middle }, { picture }) {
  for (const { from, to, half, placed } of spans) {
    if (placed?.element.kind !== "section" || placed.element.ohms === picture.line.ohms) continue;
    pen.path(`line-band-${placed.index}`, "band", rectangle(to, middle - half, from - to, 2 * half));
  }
}

/** @param {Pen} pen @param {Rails} line @param {Scene} scene */
function drawRails(pen, line, scene) {
  const { u } = pen, { x, middle, end, half, spans } = line, start = x + 1.2 * u, d = 0.28 * u;
  const cuts = [x + 4.3 * u, ...scene.axis.placed.filter(isUnknownSection).map(({ from, to }) => (from + to) / 2)];
  const breaks = cuts.map(cut => [cut - d, cut + d]);
  const load = spans[0]?.from ?? scene.axis.load, last = spans[spans.length - 1]?.to ?? load;
  const pieces = [{ from: last, to: start, half }, ...[...spans].reverse(), { from: end, to: load, half }];
  const opened = scene.hanging.filter(one => one.element.placement === "series" && one.strong)
    .map(({ x: at, element }) => [at - stubHalf(pen, scene, element), at + stubHalf(pen, scene, element)]);
  const inLine = scene.axis.placed.filter(({ element }) => element.kind !== "section" && element.kind !== "stub");
  const solid = inLine.filter(({ from, to }) => from > to).map(({ from, to }) => [to, from]);
  const boxes = inLine.filter(({ element }) => element.kind === "box").map(({ from, to }) => [to, from]);
  const top = wire(pieces, middle, -1, [...breaks, ...solid]);
  pen.path("line-rails", "rail", top + wire(pieces, middle, 1, [...breaks, ...opened, ...boxes]));
  const slash = (/** @type {number} */ at, /** @type {number} */ y) =>
    `M${at - 0.22 * u} ${y + 0.5 * u}L${at + 0.22 * u} ${y - 0.5 * u}`;
  const slashes = breaks.flat().flatMap(at => [-1, 1].map(way => slash(at, middle + way * halfAt(line, at))));
  pen.path("line-break", "thin", slashes.join(""));
  drawHeavy(pen, line, scene);
}

/** @param {Placed} placed */
const isUnknownSection = ({ element, length }) => element.kind === "section" && length === null;

/**
 * One wire from left to right, with steps where the spacing changes and nothing where it is cut.
 * @param {Span[]} pieces @param {number} middle @param {number} way @param {number[][]} cuts
 */
function wire(pieces, middle, way, cuts) {
  const sorted = [...cuts].sort(([one], [other]) => one - other);
  let d = "", pen = NaN;
  for (const { from, to, half } of pieces) {
    let x = to;
    const y = middle + way * half, crossing = sorted.filter(([a, b]) => b > to && a < from);
    for (const [a, b] of [...crossing, [from, from]]) {
      if (a > x) d += `${Math.abs(pen - x) < 1e-9 ? `V${y}` : `M${x} ${y}`}H${a}`;
      if (a > x) pen = a;
      x = Math.max(x, b);
    }
  }
  return d;
}

/** @param {Pen} pen @param {Rails} line @param {Scene} scene */
function drawHeavy(pen, { spans, middle }, { picture }) {
  for (const { from, to, half, placed } of spans) {
    const { ohms, kind } = placed?.element ?? {}, own = picture.line.ohms;
    if (kind !== "section" || !placed || !ohms || !own || ohms >= own) continue;
    const breadth = pen.u * Math.min(0.34, 0.13 * (own / ohms) ** 0.7);
    const both = [-half, half].map(off => `M${to} ${middle + off}H${from}`).join("");
    pen.path(`line-heavy-${placed.index}`, "rail", both, breadth);
  }
}

/** @param {Pen} pen @param {Rails} line @param {string} source */
function drawGenerator(pen, line, source) {
  const { u } = pen, x = line.x + 1.2 * u, y = line.middle, r = 0.68 * u, { half } = line;
  const rise = `c${0.14 * u} ${-0.55 * u} ${0.26 * u} ${-0.55 * u} ${0.4 * u} 0`, fall = rise.replaceAll(" -", " ");
  pen.path("line-generator", "rail", `M${x} ${y - half}V${y - r}M${x} ${y + r}V${y + half}${ring(x, y, r)}`);
  pen.path("line-generator-wave", "thin", `M${x - 0.4 * u} ${y}${rise}${fall}`);
  pen.text("line-generator-label", "quiet", line.x, y - half - 0.75 * u, ["generator"]);
  if (!source) return;
  const below = y + half + 0.5 * u;
  pen.text("line-generator-inside", "label", line.x, below + 0.9 * u, [source]);
  pen.take(line.x, below, pen.width([source]), 1.35 * u);
}

/** @param {Pen} pen @param {Rails} line @param {number} load @param {string[]} impedance */
function drawLoad(pen, line, load, impedance) {
  const { u } = pen, texts = ["load", ...impedance];
  const h = Math.max(1.3 * u * texts.length + 0.7 * u, 2 * line.half + 0.5 * u);
  pen.path("line-load", "box", rectangle(line.end, line.middle - h / 2, line.box, h));
  texts.forEach((text, i) => {
    const y = line.middle + 1.3 * u * (i + 0.5 - texts.length / 2) + 0.35 * u;
    pen.text(`line-load-${i}`, i ? "label" : "quiet", line.end + line.box / 2, y, [text], "middle");
  });
  const { middle, half } = line;
  pen.path("line-terminals", "dot", ring(load, middle - half, 0.2 * u) + ring(load, middle + half, 0.2 * u));
}

// Between the wires, in the longest stretch that nothing crosses; where all are too short, under the wires.
/** @param {Pen} pen @param {Rails} line @param {Scene} scene */
function lineImpedance(pen, line, scene) {
  const { u } = pen, { picture, axis } = scene, { text } = picture.line, y = line.middle + 0.36 * u;
  const own = (/** @type {Placed} */ placed) => placed.element.kind === "section" && !isOther(placed, scene);
  const stubs = scene.hanging.map(({ x, element }) => [x, stubHalf(pen, scene, element) + 0.4 * u]);
  const breaks = axis.placed.filter(isUnknownSection).map(({ from, to }) => [(from + to) / 2, 0.7 * u]);
  const others = axis.placed.filter(placed => placed.element.kind !== "stub" && !own(placed))
    .map(placed => [(placed.from + placed.to) / 2, (placed.from - placed.to) / 2 + (isOther(placed, scene) ? 0 : 0.9 * u)]);
  const crossed = [[line.x, line.x + 4.9 * u], ...[...stubs, ...breaks, ...others].map(([x, half]) => [x - half, x + half])]
    .sort(([one], [other]) => one - other);
  const inside = axis.placed.filter(placed => isOther(placed, scene) && fitsInside(pen, scene, placed));
  for (const placed of inside) writeInside(pen, placed, y);
  let best = { from: 0, to: 0 }, reached = -Infinity;
  for (const [from, to] of [...crossed, [axis.load, axis.load]]) {
    if (Number.isFinite(reached) && from - reached > best.to - best.from + 1e-6) best = { from: reached, to: from };
    reached = Math.max(reached, to);
  }
  const w = pen.width([text]);
  if (best.to - best.from > w + 0.4 * u) {
    pen.text("line-impedance", "label", (best.from + best.to) / 2, y, [text], "middle");
    pen.take((best.from + best.to - w) / 2, line.middle - 0.7 * u, w, 1.4 * u);
  } else {
    const at = pen.room(w, 1.35 * u, [[line.x, line.middle + line.half + 0.6 * u]], line);
    pen.take(at.x, at.y, at.w, at.h);
    pen.text("line-impedance", "label", at.x, at.y + 1.08 * u, [text]);
  }
}

/** @param {Pen} pen @param {Placed} placed @param {number} y */
function writeInside(pen, { element, index, from, to }, y) {
  const x = (from + to) / 2, w = pen.width([element.text]);
  pen.text(`line-section-${index}-ohms`, "label", x, y, [element.text], "middle");
  pen.take(x - w / 2, y - 1.1 * pen.u, w, 1.4 * pen.u);
}
