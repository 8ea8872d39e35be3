// @ts-check
// What both panels have: a heading, the sections' lengths above, the scale below.

/** @import { Axis, Dimension, Dimensions, Frame, Line, Picture, Placed, Scene } from "halfturn/parts/line_drawing/types.d.ts" */
/** @import { Pen } from "halfturn/parts/line_drawing/pen.js" */

import { named, scaleBar, writtenMillimetres, writtenWaves } from "halfturn/parts/line_drawing/writing.js";

/**
 * @param {Pen} pen @param {Frame} frame @param {string} part @param {string} text
 * @param {Scene} scene the solution's name follows where no label in the panel has it
 */
export function heading(pen, frame, part, text, { picture, strong, axis, hanging }) {
  const { u } = pen, y = frame.y + u, unnamed = axis.placed.length > 0 && !hanging.some(one => one.strong && one.first);
  pen.text(`${part}-heading`, "heading", frame.x, y, [text]);
  const faint = picture.plans.filter((_, i) => hanging.some(one => one.plan === i && !one.strong));
  const named = [...(unnamed || pen.lettered ? [strong] : []), ...(pen.lettered ? faint : [])];
  let x = frame.x + 1.1 * pen.width([text]) + 1.2 * u;
  for (const { branch } of named) {
    if (!branch) continue;
    pen.marker(`${part}-name-${branch.key}-marker`, branch.role, x + 0.4 * u, y - 0.36 * u);
    pen.text(`${part}-name-${branch.key}-name`, `name ${branch.role}`, x + 1.05 * u, y, [branch.word]);
    x += 2.2 * u + 1.1 * pen.width([branch.word]);
  }
}

/**
 * @param {Pen} pen @param {Frame} frame @param {string} part @param {Scene} scene
 * @param {string[]} free what is not to scale, beside the links between neighbours that would stand on each other
 */
export function drawScale(pen, frame, part, { picture, axis }, free) {
  const { u } = pen, x = frame.x + 0.5, y = frame.y + frame.h - 0.7 * u;
  const { pixels, waves, mm } = scaleBar(axis.scale, 1.5 * u, picture.writing), end = x + pixels;
  const tick = `m0 ${-0.3 * u}v${0.6 * u}`, all = [...free, ...(axis.links.length ? ["links"] : [])];
  const aside = all.length ? `; ${all.join(" and ")} not to scale` : "", whole = waves + (mm && ` = ${mm}`) + aside;
  const fits = pen.width([whole]) <= frame.w - pixels - 0.6 * u;
  pen.path(`${part}-scale`, "thin", `M${x} ${y}H${end}M${x} ${y}${tick}M${end} ${y}${tick}`);
  pen.text(`${part}-scale-label`, "quiet", end + 0.6 * u, y + 0.36 * u, [fits ? whole : waves + aside]);
}

/**
 * What is written at a section: its length, in millimetres too, and further lines.
 * @param {Placed} placed @param {Picture} picture @param {"both" | "one" | "below"} millimetres
 * @param {Line[]} more
 * @returns {Line[]}
 */
export function sectionLines({ element, length }, { writing }, millimetres, more = []) {
  if (length === null) return [{ part: "label", runs: named(element.symbol, "?") }, ...more];
  const waves = writtenWaves(length, writing), mm = writtenMillimetres(length, writing);
  const first = !mm || millimetres === "below" ? waves : millimetres === "one" ? mm : `${waves} = ${mm}`;
  const second = mm && millimetres === "below" ? [{ part: "mm", runs: [mm] }] : [];
  return [{ part: "label", runs: named(element.symbol, first) }, ...second, ...more];
}

/** A long row of sections as one. @param {Axis} axis @param {import("halfturn/parts/line_drawing/types.d.ts").Row} row @returns {Placed} */
function asOne({ placed }, row) {
  const all = placed.slice(row.first, row.last + 1), [first] = all, { to } = all[all.length - 1];
  const length = all.reduce((sum, one) => sum + (one.length ?? NaN), 0);
  return { element: { kind: "section", symbol: "", text: row.text }, index: row.first, from: first.from, to, length, row };
}

/**
 * The dimensions of all sections, on as many levels as they need so that no label meets another or a line.
 * @param {Pen} pen @param {Axis} axis @param {{x: number, w: number}} frame
 * @param {(placed: Placed) => Line[]} linesOf @param {import("halfturn/parts/line_drawing/types.d.ts").Row[]} rows
 * @returns {Dimensions}
 */
export function dimensions(pen, axis, frame, linesOf, rows) {
  const shown = rows.filter(({ last }) => last < axis.placed.length);
  const isInRow = (/** @type {Placed} */ { index }) => shown.some(({ first, last }) => first <= index && index <= last);
  const single = axis.placed.filter(placed => placed.element.kind === "section" && (placed.length !== 0 || placed.element.symbol) && !isInRow(placed));
  const sections = [...single, ...shown.map(row => asOne(axis, row))];
  let open = sections.map(placed => {
    const lines = linesOf(placed), { w } = pen.size(lines);
    return { placed, lines, w, level: 0, middle: 0 };
  }).sort((one, other) => Number(isWide(other)) - Number(isWide(one)));
  /** @type {Dimension[]} */ const all = [];
  /** @type {number[]} */ const heights = [];
  for (let level = 0; open.length; level++) {
    /** @type {Dimension[]} */ const here = [];
    for (const one of open) {
      const left = spotFor(pen.u, one, open.filter(other => other !== one && !here.includes(other)), here, frame);
      if (left !== null) here.push(Object.assign(one, { level, middle: left + one.w / 2 }));
    }
    if (!here.length) {
      pen.crowded = true;
      here.push(Object.assign(open[0], { level, middle: clamp(middleOf(open[0]), open[0].w, frame) }));
    }
    open = open.filter(one => !here.includes(one));
    heights.push(...here.slice(0, 1).map(() => Math.max(...here.map(one => 0.85 + 1.35 * one.lines.length))));
    all.push(...here);
  }
  return { all, heights: heights.map(height => height * pen.u) };
}

/** @param {Dimension} one */
const isWide = ({ placed, w }) => placed.from - placed.to > w;
/** @param {Dimension} one */
const middleOf = ({ placed }) => (placed.from + placed.to) / 2;
/** @param {number} middle @param {number} w @param {{x: number, w: number}} frame */
const clamp = (middle, w, frame) => Math.max(frame.x + w / 2, Math.min(middle, frame.x + frame.w - w / 2));

/**
 * Where a label may begin: over its section, else beside it; nowhere where it would stand on the lines that lead up to
 * the dimensions of `others`, or in the way of what is on its level already.
 * @param {number} u @param {Dimension} one @param {Dimension[]} others @param {Dimension[]} here
 * @param {{x: number, w: number}} frame
 */
function spotFor(u, one, others, here, frame) {
  const { from, to } = one.placed, { w } = one, ends = others.flatMap(({ placed }) => [placed.from, placed.to]);
  const tail = from - to > 1.7 * u ? 0 : 1.2 * u;
  const spots = [middleOf(one), to + 0.2 * u + w / 2, from - 0.2 * u - w / 2].map(at => clamp(at, w, frame) - w / 2);
  const clear = spots.find(left => ends.every(end => end < left - 0.15 * u || end > left + w + 0.15 * u)
    && here.every(other => Math.abs(other.middle - left - w / 2) > (other.w + w) / 2 + 0.8 * u
      && !(Math.min(other.placed.from, from + tail) - Math.max(other.placed.to, to - tail) > 0.1)));
  return clear ?? null;
}

/**
 * @param {Pen} pen @param {string} part @param {Dimensions} dimensions @param {number} base height of the lowest level
 * @param {number} foot where the lines that lead up to it begin
 */
export function drawDimensions(pen, part, { all, heights }, base, foot) {
  const { u } = pen;
  for (const { placed, lines, level, middle, w } of all) {
    const y = base - heights.slice(0, level).reduce((sum, height) => sum + height, 0), { from, to } = placed;
    const name = `${part}-section-${placed.index}`;
    pen.path(`${name}-ends`, "thin", `M${to} ${y - 0.35 * u}V${foot}M${from} ${y - 0.35 * u}V${foot}`);
    pen.dimension(name, to, y, from, y);
    for (const x of [from, to]) pen.take(x - 0.1 * u, y - 0.35 * u, 0.2 * u, foot - y + 0.35 * u);
    pen.take(to - 1.1 * u, y - 0.2 * u, from - to + 2.2 * u, 0.4 * u);
    pen.take(middle - w / 2, y - (0.55 + 1.35 * lines.length) * u, w, 1.35 * lines.length * u);
    lines.forEach((line, i) => {
      const above = 0.75 + 1.35 * (lines.length - 1 - i);
      pen.text(`${name}-${line.part}`, "label", middle, y - above * u, line.runs, "middle");
    });
  }
}
