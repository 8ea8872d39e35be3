// @ts-check
// The drawing's pen: shapes as named parts, and labels that look for room.
// Measures are in pixels; `u` is the size of the type, and everything but the scale of the line grows with it.

/** @import { Box, Label, Line, Shape, Spot } from "halfturn/parts/line_drawing/types.d.ts" */

import { markerPath } from "halfturn/parts/markers.js";

const STEP = 1.35;                   // from line to line, in u
const LETTERS = "abcdefghijklmnopqrstuvwxyz";

/** @param {number} x @param {number} y @param {number} r */
export const ring = (x, y, r) => `M${x - r} ${y}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`;
/** @param {number} x @param {number} y @param {number} w @param {number} h */
export const rectangle = (x, y, w, h) => `M${x} ${y}h${w}v${h}h${-w}Z`;
/** @param {Box} box @param {number} dx @param {number} dy */
const grown = ({ x, y, w, h }, dx, dy) => ({ x: x - dx, y: y - dy, w: w + 2 * dx, h: h + 2 * dy });

/** @param {Box} a @param {Box} b */
function overlap(a, b) {
  const w = Math.min(a.x + a.w, b.x + b.w) - Math.max(a.x, b.x);
  const h = Math.min(a.y + a.h, b.y + b.h) - Math.max(a.y, b.y);
  return w > 0 && h > 0 ? w * h : 0;
}

export class Pen {
  /**
   * @param {number} u
   * @param {(run: string) => number} measure the width of a run of text
   * @param {boolean} tight room is known to be scarce
   * @param {boolean} lettered what finds no room is replaced by a letter, and said in a row below
   */
  constructor(u, measure, tight = false, lettered = false) {
    /** @type {number} */ this.u = u;
    /** @type {(run: string) => number} */ this.measure = measure;
    /** @type {boolean} */ this.tight = tight;
    /** @type {boolean} */ this.lettered = lettered;
    /** @type {Shape[]} */ this.shapes = [];
    /** @type {Box[]} boxes where no label may stand */ this.taken = [];
    /** @type {string} look of texts that stand on something */ this.ground = "";
    /** @type {boolean} a label had to stand where something is, or too close */ this.crowded = false;
    /** @type {string[][]} what the letters stand for */ this.key = [];
  }

  /**
   * Coordinates are rounded to hundredths: what is finer cannot be seen.
   * @param {string} part @param {string} look @param {string} d
   * @param {number} [breadth] of a stroke that has a breadth of its own
   */
  path(part, look, d, breadth) {
    const rounded = d.replace(/-?[\d.]+(e[-+]?\d+)?/g, number => String(+(+number).toFixed(2)));
    this.shapes.push({ tag: "path", part, look, d: rounded, breadth });
  }

  /**
   * @param {string} part @param {string} look @param {number} x @param {number} y
   * @param {string[]} runs texts; one that starts with an underscore is a symbol, set in italics
   * @param {string} [anchor]
   */
  text(part, look, x, y, runs, anchor = "start") {
    const place = { x: +x.toFixed(2), y: +y.toFixed(2), anchor };
    this.shapes.push({ tag: "text", part, look: look + this.ground, runs, ...place });
  }

  /** @param {string[]} runs */
  width(runs) {
    return runs.reduce((sum, run) => sum + this.measure(run), 0);
  }

  /** @param {Line[]} lines */
  size(lines) {
    const widths = lines.map(line => this.width(line.runs) + (line.marker ? 1.05 * this.u : 0));
    return { w: Math.max(...widths), h: STEP * this.u * lines.length };
  }

  /** @param {number} x @param {number} y @param {number} w @param {number} h */
  take(x, y, w, h) {
    this.taken.push({ x, y, w, h });
  }

  /** @param {Box} box */
  isFree(box) {
    return this.taken.every(taken => overlap(box, taken) === 0);
  }

  /**
   * The first of `spots` (upper left corners) where a box stands clear of all that is taken, or the least bad one.
   * @param {number} w @param {number} h @param {Spot[]} spots @param {Box} bounds
   */
  room(w, h, spots, bounds) {
    let best = { x: 0, y: 0, w, h, cost: Infinity };
    for (const [left, top] of spots) {
      const x = Math.max(bounds.x, Math.min(left, bounds.x + bounds.w - w));
      const y = Math.max(bounds.y, Math.min(top, bounds.y + bounds.h - h));
      const wanted = grown({ x, y, w, h }, 0.6 * this.u, 0.4 * this.u);
      const cost = this.taken.reduce((sum, box) => sum + overlap(wanted, box), 0);
      if (cost < best.cost - 1e-6) best = { x, y, w, h, cost };
    }
    const close = grown(best, 0.2 * this.u, 0.2 * this.u);
    return { ...best, crowded: !this.isFree(close) };
  }

  /**
   * Writes labels, the first ones first. Where letters may be used, each keeps its letter's place free for it.
   * @param {Label[]} labels
   */
  labels(labels) {
    const { u } = this, places = this.lettered ? labels.map(label => this.letterBox(label)) : [];
    this.taken.push(...places);
    labels.forEach(({ part, lines, spots, bounds, letter }, i) => {
      const { w, h } = this.size(lines), own = places[i];
      if (own) this.taken.splice(this.taken.indexOf(own), 1);
      const at = this.room(w, h, spots(w, h), bounds);
      if (own && at.crowded) return this.letter(part, letter, own, lines);
      this.crowded ||= at.crowded;
      this.taken.push(at);
      this.lines(part, lines, at.x, at.y, 0.8 * u);
    });
  }

  /** @param {Label} label */
  letterBox({ letter: [x, y] }) {
    return { x: x - 0.4 * this.u, y, w: 0.8 * this.u, h: 1.2 * this.u };
  }

  /** @param {string} part @param {Spot} spot @param {Box} own @param {Line[]} lines */
  letter(part, [x, y], own, lines) {
    const i = this.key.length, name = LETTERS[i % 26].repeat(1 + Math.floor(i / 26));
    this.crowded ||= !this.isFree(own);
    this.taken.push(own);
    this.text(`${part}-letter`, "name", x, y + 0.95 * this.u, [name], "middle");
    this.key.push([`${name}:  `, ...lines.flatMap((line, k) => k ? [", ", ...line.runs] : line.runs)]);
  }

  /** @param {string} part @param {Line[]} lines @param {number} x @param {number} y @param {number} rise */
  lines(part, lines, x, y, rise) {
    lines.forEach((line, i) => {
      const base = y + STEP * this.u * i + 1.35 * rise, indent = line.marker ? 1.05 * this.u : 0;
      if (line.marker) this.marker(`${part}-marker`, line.marker, x + 0.4 * this.u, base - 0.36 * this.u);
      this.text(`${part}-${line.part}`, line.look ?? "label", x + indent, base, line.runs);
    });
  }

  /**
   * The rows that say what the letters stand for.
   * @param {string} part @param {number} x @param {number} y
   */
  keyRows(part, x, y) {
    this.key.forEach((runs, i) => this.text(`${part}-key-${i}`, "label", x, y + STEP * this.u * (i + 0.8), runs));
  }

  /** @param {string} part @param {string} role @param {number} x @param {number} y */
  marker(part, role, x, y) {
    this.path(part, `marker ${role}`, markerPath(role, x, y, 0.42 * this.u));
  }

  /**
   * A dimension along x, or upright along y; where it is short its arrows stand outside and point inward.
   * @param {string} part @param {number} x1 @param {number} y1 @param {number} x2 @param {number} y2
   */
  dimension(part, x1, y1, x2, y2, upright = false) {
    const h = 0.55 * this.u, inside = Math.hypot(x2 - x1, y2 - y1) > 3 * h;
    const [ex, ey] = upright ? [0, 1] : [1, 0], tail = inside ? 0 : 2 * h;
    const head = (/** @type {number} */ x, /** @type {number} */ y, /** @type {number} */ way) => {
      const bx = x + way * h * ex, by = y + way * h * ey, side = 0.3 * h;
      return `M${x} ${y}L${bx + side * ey} ${by + side * ex}L${bx - side * ey} ${by - side * ex}Z`;
    };
    this.path(part, "thin", `M${x1 - tail * ex} ${y1 - tail * ey}L${x2 + tail * ex} ${y2 + tail * ey}`);
    this.path(`${part}-heads`, "head", head(x1, y1, inside ? 1 : -1) + head(x2, y2, inside ? -1 : 1));
  }
}
