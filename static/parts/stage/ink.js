// @ts-check
// The ink: strokes drawn over the printed chart, each with the colour, dash and marker of its role (static/stage.css).
// Everything is placed in pixels, so lines and letters keep their size at any zoom.

import { DRAWINGS, inLane } from "halfturn/parts/stage/drawings.js";
import { placeLabels, tracesOf } from "halfturn/parts/stage/labels.js";
import { textNode } from "halfturn/parts/stage/lettering.js";
import { shape } from "halfturn/parts/stage/svg.js";

/** @typedef {import("halfturn/parts/stage/types.d.ts").Stroke} Stroke */
/** @typedef {import("halfturn/parts/stage/types.d.ts").Group} Group */
/** @typedef {import("halfturn/parts/stage/types.d.ts").Drawn} Drawn */
/** @typedef {import("halfturn/parts/stage/types.d.ts").Placed} Placed */
/** @typedef {import("halfturn/parts/stage/view.js").View} View */

const LONGEST_DRAWING = 1200; // milliseconds for all that is new, at most
const TEMPO = { point: 180, ring: 250, cross: 420, ray: 350, curve: 480, way: 520, region: 480 };

export class Ink {
  /** @type {(Group & {parts: Map<Stroke, number>})[]} */
  #groups = [];
  /** @type {Drawn[]} */
  #drawn = [];
  #run = 0;
  /** Boxes of the labels. @type {Placed[]} */
  labels = [];

  /** @param {SVGElement} layer @param {View} view */
  constructor(layer, view) {
    this.layer = layer;
    this.view = view;
    this.areas = shape("g");
    this.lines = shape("g");
    this.marks = shape("g");
    this.words = shape("g");
    layer.append(this.areas, this.lines, this.marks, this.words);
  }

  redraw() {
    for (const part of [this.areas, this.lines, this.marks, this.words]) part.replaceChildren();
    const lanes = new Map();
    this.#drawn = this.#groups.flatMap((group) => group.strokes.map((given) => this.#draw(inLane(given, lanes, this.view), given, group)));
    this.labels = placeLabels(this.view, this.#drawn);
    for (const placed of this.labels) this.#write(placed);
  }

  /** @param {Stroke} stroke @param {Stroke} given @param {Group & {parts: Map<Stroke, number>}} group @returns {Drawn} */
  #draw(stroke, given, group) {
    const drawn = { stroke, given, current: group.current, part: group.parts.get(given) ?? 1, nodes: {} };
    this.#update(drawn);
    return drawn;
  }

  /** @param {Drawn} drawn */
  #update({ stroke, current, part, nodes, labelNode }) {
    const pieces = DRAWINGS[stroke.kind](this.view, stroke, part);
    const layers = { line: stroke.kind === "region" ? this.areas : this.lines, arrow: this.lines, mark: this.marks };
    for (const name of /** @type {const} */ (["line", "arrow", "mark"])) {
      if (!pieces[name]) continue;
      const look = `${name} role-${stroke.role} kind-${stroke.kind} ${current ? "current" : "calm"}`;
      nodes[name] ??= layers[name].appendChild(shape("path", { class: look }));
      for (const [key, value] of Object.entries(pieces[name])) nodes[name].setAttribute(key, String(value));
    }
    labelNode?.classList.toggle("unwritten", part < 1);
    for (const node of Object.values(nodes)) node.classList.toggle("undrawn", part === 0);
  }

  /** @param {Placed} placed */
  #write({ item, text, x, y, turn, letters, patch }) {
    const look = `label role-${item.stroke.role} ${item.current ? "current" : "calm"}`;
    const node = this.words.appendChild(shape("g", { class: look, transform: `translate(${x} ${y})${turn ? `rotate(${turn})` : ""}` }));
    if (patch) node.append(shape("rect", { x: -patch[0] / 2, y: -patch[1] / 2, width: patch[0], height: patch[1], rx: 3 }));
    node.append(textNode(text, { "text-anchor": "middle", dy: "0.35em", style: `font-size: ${letters}px` }));
    item.labelNode = node;
    node.classList.toggle("unwritten", item.part < 1);
  }

  /** Show groups of strokes in place of those there; with `animate`, draw one after another whatever is new. @param {Group[]} next */
  show(next, animate = false) {
    const mine = ++this.#run, before = new Set(this.#groups.flatMap((group) => group.strokes.map(drawnAs)));
    const fresh = next.flatMap((group) => group.strokes).filter((stroke) => !before.has(drawnAs(stroke)));
    const moving = animate && fresh.length > 0 && !matchMedia("(prefers-reduced-motion: reduce)").matches;
    const parts = new Map(moving ? fresh.map((stroke) => [stroke, 0]) : []);
    this.#groups = next.map((group) => ({ ...group, parts }));
    if (moving) this.#play(fresh, parts, mine);
  }

  /** @param {Stroke[]} fresh @param {Map<Stroke, number>} parts @param {number} mine the run that this belongs to */
  #play(fresh, parts, mine) {
    const inTurn = [...fresh.filter(({ kind }) => kind !== "point"), ...fresh.filter(({ kind }) => kind === "point")];
    const pace = Math.min(1, LONGEST_DRAWING / inTurn.reduce((sum, { kind }) => sum + TEMPO[kind], 0));
    /** @type {number | null} */
    let started = null;
    const step = (/** @type {number} */ now) => {
      if (mine !== this.#run) return;
      let begins = (started ??= now);
      for (const stroke of inTurn) {
        const lasts = TEMPO[stroke.kind] * pace, ends = begins + lasts;
        parts.set(stroke, now >= ends ? 1 : Math.max(0, (now - begins) / lasts)); // exactly 1, however times are rounded
        begins = ends;
      }
      for (const item of this.view.isGliding() ? [] : this.#drawn) {
        const part = parts.get(item.given) ?? 1;
        if (part !== item.part) this.#update(Object.assign(item, { part }));
      }
      if (now < begins) requestAnimationFrame(step);
    };
    requestAnimationFrame(step);
  }

  /** What the ink covers: its labels, and its lines. */
  covered() {
    return [...this.labels, ...tracesOf(this.view, this.#drawn)];
  }

  /** Directions of the rays that are drawn, in radians. */
  rays() {
    return this.#groups.flatMap(({ strokes }) => strokes).filter(({ kind }) => kind === "ray").map(({ at: [u, v] }) => Math.atan2(v, u));
  }
}

/** A stroke as it looks: a value may be withheld, and told later. @param {Stroke} stroke */
function drawnAs({ value: _value, spoken: _spoken, ...line }) {
  return JSON.stringify(line);
}
