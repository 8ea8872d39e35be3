// @ts-check
// The printed chart under the ink: a drawing that came with the page (app/parts/screen_chart.py). It is moved by its view
// box; its pieces are shown as there is room for them, and its letters keep their size on the screen.

import { curvesOf, pathOf } from "halfturn/parts/stage/curves.js";
import { shape } from "halfturn/parts/stage/svg.js";

/** @typedef {import("halfturn/parts/stage/types.d.ts").Pair} Pair */
/** @typedef {import("halfturn/parts/stage/types.d.ts").Layout} Layout */
/** @typedef {import("halfturn/parts/stage/view.js").View} View */
/** @typedef {import("halfturn/parts/stage/curves.js").Curve} Curve */
/** @typedef {{node: SVGElement, from: number, numbers: boolean, shown: boolean, written: boolean, facts: DOMStringMap}} Piece */

/** @type {SVGElement | null} */
let brought = null;

/** The drawing that the page brought, for the first who asks; a copy for everybody else. @returns {SVGElement} */
export function adoptPrinted() {
  if (brought) return /** @type {SVGElement} */ (brought.cloneNode(true));
  brought = document.querySelector("#printed > svg");
  if (!brought) throw new Error("The page holds no printed chart: its template has to write one into #printed.");
  return brought;
}

export class Printed {
  #letters = "";
  #stretch = 1; // of what is outside the rim
  /** What is outside the rim, as it was drawn. @type {WeakMap<Element, string>} */
  #asDrawn = new WeakMap();
  /** @type {Map<Piece, Curve[]>} */
  #curves = new Map();

  /** @param {SVGElement} svg */
  constructor(svg) {
    this.svg = svg;
    this.unit = Number(svg.dataset.radius);
    /** @type {Record<string, Layout>} */
    this.layouts = JSON.parse(svg.dataset.layouts ?? "{}");
    /** @type {Piece[]} */
    this.pieces = [.../** @type {NodeListOf<SVGElement>} */ (svg.querySelectorAll(".piece"))].map((node) => ({
      node, from: Number(node.dataset.from), numbers: node.classList.contains("numbers"), shown: true,
      written: node.childElementCount > 0 || node.tagName !== "g", facts: node.dataset,
    }));
  }

  /** Show what the view holds, where it holds it. @param {View} view */
  follow(view) {
    const { x, y, half } = view, unit = this.unit;
    this.svg.setAttribute("viewBox", [x - half, -y - half, 2 * half, 2 * half].map((side) => side * unit).join(" "));
    this.#layOut(view.layout);
    this.svg.classList.toggle("afar", view.isAfar());
    const letters = `${((view.letters() / view.scale()) * unit).toFixed(2)}px`;
    if (letters !== this.#letters) this.svg.style.setProperty("--letters", (this.#letters = letters));
    for (const piece of this.pieces) this.#turn(piece, isShown(piece, view), view);
  }

  /** @param {string} layout */
  #layOut(layout) {
    if (layout === this.svg.dataset.layout) return;
    this.svg.dataset.layout = layout;
    this.#stretch = this.layouts[layout].text / this.layouts.regular.text;
    for (const { node, written } of this.pieces) if (written && node.matches(".outside")) this.#moveOut(node);
  }

  /** Whatever stands outside the rim is farther from it as the letters are larger. @param {SVGElement} node of a piece */
  #moveOut(node) {
    const out = (/** @type {number} */ radius) => (radius > this.unit ? this.unit + (radius - this.unit) * this.#stretch : radius);
    for (const part of node.tagName === "g" ? node.children : [node]) {
      const name = { text: "transform", path: "d" }[part.tagName] ?? "r", drawn = this.#asDrawn.get(part) ?? part.getAttribute(name) ?? "";
      this.#asDrawn.set(part, drawn);
      part.setAttribute(name, name === "r" ? String(out(Number(drawn))) : drawn.replace(/(-?[\d.]+) (-?[\d.]+)/g, (_, x, y) => {
        const radius = Math.hypot(x, y), times = out(radius) / radius;
        return `${(x * times).toFixed(1)} ${(y * times).toFixed(1)}`;
      }));
    }
  }

  /** @param {Piece} piece @param {boolean} on @param {View} view */
  #turn(piece, on, view) {
    if (on && piece.facts.grid === "admittance" && !piece.numbers) this.#drawTurned(piece, view);
    else if (on && !piece.written) this.#write(piece);
    if (on !== piece.shown) piece.node.style.display = on ? "" : "none";
    piece.shown = on;
  }

  /** Write numbers that were only told. @param {Piece} piece */
  #write(piece) {
    piece.written = true;
    piece.node.append(...(piece.facts.numbers ?? "").split(";").map(numberNode));
    if (piece.node.matches(".outside") && this.#stretch !== 1) this.#moveOut(piece.node);
  }

  /** The other grid is this one turned by half. Of its dots only those in view are drawn: they are many. @param {Piece} piece @param {View} view */
  #drawTurned(piece, view) {
    const corner = `translate(${(view.x - view.half) * this.unit} ${(-view.y - view.half) * this.unit})`;
    const transform = `${corner} scale(${this.unit / view.scale()})`;
    piece.node.replaceChildren(shape("path", { d: pathOf(view, this.curves(piece)), transform }));
  }

  /** The curves that a piece of a grid has. @param {Piece} piece @returns {Curve[]} */
  curves(piece) {
    const { weight, grid = "" } = piece.facts;
    const first = this.pieces.find(({ facts }) => facts.weight === weight && facts.grid === "impedance");
    const curves = this.#curves.get(piece) ?? [...(first?.node.children ?? [])].flatMap((path) => curvesOf(path, grid, this.unit));
    this.#curves.set(piece, curves);
    return curves;
  }
}

/** Whether there is room for a piece; larger letters need more. @param {Piece} piece @param {View} view */
function isShown({ facts, from, numbers }, view) {
  const room = numbers && view.isAfar() ? view.scale() * (9 / view.letters()) : view.scale();
  return (facts.unit ?? view.unit) === view.unit
    && (facts.grid !== "admittance" || view.grid === "overlay") && room >= from;
}

/** @param {string} told place, turn and distance off it, which part stands there, and the number */
function numberNode(told) {
  const [x, y, turn, aside, align, said] = told.split(" ");
  const place = `translate(${x} ${y})rotate(${turn})`;
  return shape("text", { transform: place, x: `${aside}em`, y: ".36em", "text-anchor": align, ...(isSteep(said, aside) && { class: "steep" }) }, said);
}

/** Seen from afar, letters are too large for the short arcs of b near the ends of the rim. @param {string} said @param {string} aside */
function isSteep(said, aside) {
  return Math.abs(Number(said.replace("−", "-"))) >= 5 && Number(aside) !== 0;
}
