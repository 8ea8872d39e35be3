// @ts-check
// Keeps the drawing on the screen: a new picture moves it gently, a student's drag at once.

/** @import { Figure, Picture, Shape, Values } from "halfturn/parts/line_drawing/types.d.ts" */

import { figure } from "halfturn/parts/line_drawing/figure.js";
import { between, lengthsOf, walked, walkIn } from "halfturn/parts/line_drawing/walk.js";

const NAMESPACE = "http://www.w3.org/2000/svg";
const COMMIT_MS = 350;

/** @typedef {ReturnType<typeof ruler>} Ruler widths of texts in the drawing's own type */
/** @typedef {{plan: number, element: number, value: number | null}} Walk */

/** @param {string} run */
const plain = run => run.startsWith("_") ? run.slice(1) : run;

/** @param {SVGElement} svg */
function ruler(svg) {
  const context = document.createElement("canvas").getContext("2d");
  /** @type {Map<string, number>} */ const widths = new Map();
  const { fontFamily, fontSize } = getComputedStyle(svg), size = parseFloat(fontSize);
  const symbols = `italic ${1.15 * size}px Georgia, "Times New Roman", serif`, texts = `${size}px ${fontFamily}`;
  /** @param {string} run */
  const measure = run => {
    const known = widths.get(run);
    if (known !== undefined || !context) return known ?? 0;
    if (widths.size > 500) widths.clear();
    context.font = run.startsWith("_") ? symbols : texts;
    const { width } = context.measureText(plain(run));
    widths.set(run, width);
    return width;
  };
  return { size, measure };
}

/**
 * @param {SVGElement} svg @param {Map<string, SVGElement>} nodes
 * @param {{width: number, height: number, shapes: Shape[]}} figure
 */
function paint(svg, nodes, { width, height, shapes }) {
  svg.setAttribute("viewBox", `0 0 ${width.toFixed(2)} ${height.toFixed(2)}`);
  shapes.forEach((shape, i) => {
    const node = nodes.get(shape.part) ?? document.createElementNS(NAMESPACE, shape.tag);
    if (!nodes.has(shape.part)) node.dataset.part = shape.part;
    nodes.set(shape.part, node);
    dress(node, shape);
    if (svg.children[i] !== node) svg.insertBefore(node, svg.children[i] ?? null);
  });
  const parts = new Set(shapes.map(shape => shape.part));
  for (const [part, node] of nodes) if (!parts.has(part)) { node.remove(); nodes.delete(part); }
}

/** @param {SVGElement} node @param {Shape} shape */
function dress(node, { tag, look, d, breadth, x, y, anchor, runs }) {
  const wanted = tag === "text" ? { class: look, x, y, "text-anchor": anchor } : { class: look, d };
  for (const [name, value] of Object.entries(wanted)) {
    if (node.getAttribute(name) !== String(value)) node.setAttribute(name, String(value));
  }
  if (breadth !== undefined) node.style.strokeWidth = breadth.toFixed(2);
  if (!runs || node.textContent === runs.map(plain).join("")) return;
  node.replaceChildren(...runs.map(run => {
    const span = document.createElementNS(NAMESPACE, "tspan");
    span.textContent = plain(run);
    if (run.startsWith("_")) span.setAttribute("class", "symbol");
    return span;
  }));
}

/** @param {HTMLElement} el */
function page(el) {
  const make = (/** @type {string} */ tag, /** @type {string} */ name) => Object.assign(document.createElement(tag), { className: name });
  const svg = document.createElementNS(NAMESPACE, "svg"), root = make("figure", "figure");
  const words = make("figcaption", "words"), caption = make("p", "caption"), note = make("p", "note");
  svg.setAttribute("role", "img");
  words.append(caption, note);
  root.append(svg, words);
  el.append(root);
  return { root, svg, caption, note, nodes: new Map() };
}

/** What a drawing shows, kept by model, so that a second rendering goes on where the first one was. */
class State {
  /** @param {Picture} picture */
  constructor(picture) {
    this.picture = picture;
    /** @type {Walk[]} */ this.walks = [];
    /** @type {Values | null} */ this.shown = null;
    /** @type {Values | null} where the way to a new picture began */ this.from = null;
    /** @type {number | null} */ this.began = null;
    this.stop = () => {};
  }

  /** @param {Picture} picture @param {boolean} still */
  show(picture, still) {
    Object.assign(this, { picture, walks: [], from: still ? null : this.shown, began: null });
  }

  /** @param {Walk} walk */
  walk(walk) {
    const others = this.walks.filter(({ plan, element }) => plan !== walk.plan || element !== walk.element);
    this.walks = walk.value === null ? [] : [...others, walk];
    this.from = null;
  }

  /** What to draw at a time, and whether there is more to come. @param {number} now */
  at(now) {
    const { picture, walks, from } = this, wanted = walked(lengthsOf(picture), walks);
    if (from) this.began ??= now;
    const share = from ? Math.min((now - (this.began ?? now)) / COMMIT_MS, 1) : 1;
    this.shown = from && share < 1 ? between(from, wanted, 1 - (1 - share) ** 3) : wanted;
    if (share >= 1) this.from = null;
    const last = walks[walks.length - 1], current = last?.plan ?? picture.current;
    const walking = last !== undefined && picture.plans[last.plan].elements[last.element].kind === "stub";
    return { values: this.shown, current, walking, more: share < 1 };
  }
}

/** @type {WeakMap<object, State>} */
const kept = new WeakMap();

/** @param {{model: any, el: HTMLElement}} view */
export function render({ model, el }) {
  kept.get(model)?.stop();
  const state = kept.get(model) ?? new State(model.picture), shown = page(el), listening = new AbortController();
  kept.set(model, state);
  /** @type {Ruler | null} */ let type = null;
  let width = 0, asked = 0;
  const ask = () => { asked ||= requestAnimationFrame(draw); };

  /** @param {number} now */
  function draw(now) {
    asked = 0;
    const { picture } = state;
    if (!picture.plans) return paint(shown.svg, shown.nodes, { width: 1, height: 0, shapes: [] });
    if (!width || !type) return;
    const { values, current, walking, more } = state.at(now);
    paint(shown.svg, shown.nodes, figure(picture, values, current, width, type.size, type.measure, walking));
    if (more) ask();
  }

  /** @param {Picture} picture @param {boolean} [still] */
  function show(picture, still = false) {
    state.show(picture, still || matchMedia("(prefers-reduced-motion: reduce)").matches);
    say(shown, state.picture);
    ask();
  }

  const resized = new ResizeObserver(() => { type = ruler(shown.svg); width = shown.svg.clientWidth; ask(); });
  state.stop = () => { listening.abort(); resized.disconnect(); cancelAnimationFrame(asked); };
  document.addEventListener("halfturn:picture", event => {
    const { picture, still } = /** @type {CustomEvent} */ (event).detail;
    show(picture, still);
  }, { signal: listening.signal });
  listen(listening.signal, detail => {
    const walk = walkIn(state.picture, detail);
    if (walk) { state.walk(walk); ask(); }
  });
  model.on("picture", () => show(model.picture));
  model.on("msg:custom", (/** @type {any} */ message) => { if (shown.svg.isConnected && message?.type === "picture") show(message.picture); });
  model.on("remove", () => { state.stop(); kept.delete(model); });
  resized.observe(shown.root);
  say(shown, state.picture);
  document.documentElement.dataset.drawing = "ready";
}

/** @param {AbortSignal} signal @param {(detail: unknown) => void} heard */
function listen(signal, heard) {
  document.addEventListener("halfturn:walk", event => heard(/** @type {CustomEvent} */ (event).detail), { signal });
}

/** @param {ReturnType<typeof page>} page @param {Picture} picture */
function say({ svg, caption, note }, { spoken = "", caption: words = "", note: warning = "" }) {
  svg.setAttribute("aria-label", spoken);
  svg.style.display = spoken ? "" : "none"; // a picture of nothing is none
  caption.textContent = words;
  note.textContent = warning;
  note.hidden = !warning;
}
