// @ts-check
// A figure of a primer: one thing in it can be moved, by dragging or with the arrow keys, and the rest follows. All poses
// come with it, so that nothing is worked out here: the hand only turns from one to the next.

import { markerPath } from "halfturn/parts/markers.js";
import { node } from "halfturn/parts/nodes.js";
import { shape } from "halfturn/parts/stage/svg.js";

/** @typedef {import("../messages.d.ts").FigureWords} Figure */
/** @typedef {import("../messages.d.ts").MarkWords} Mark */
/** @typedef {import("../messages.d.ts").PanelWords} Panel */
/** @typedef {{panel: Panel, svg: SVGElement, moving: SVGElement, at: (point: [number, number]) => [number, number], back: (x: number, y: number) => [number, number]}} View */

const HIGH = 230; // pixels of a panel at its own size
const LEAP = 0.004; // of a unit for each pose that is passed over: a hand goes on where it is, and does not leap
const HEAD = 9, REACH = 22, LETTERS = 14, SMALLEST = 12; // pixels; letters are not smaller on a narrow page

/** @param {Figure} figure @param {number} [start] @param {(pose: number) => void} [moved] */
export function figureNode(figure, start = figure.start, moved = () => {}) {
  const views = figure.panels.map(viewOf), held = views.find(({ panel }) => panel.key === figure.poses[0].hand.panel) ?? views[0];
  for (const { svg, moving, panel, at } of views) svg.append(...frame(panel, at), ...figure.still.flatMap((mark) => mark.panel === panel.key ? drawn(mark, at) : []), moving);
  const said = node("p", { class: "said" }), last = figure.poses.length - 1, [first] = figure.poses;
  const leftward = first.hand.points[0][0] > figure.poses[last].hand.points[0][0] + 0.01;
  const slider = node("input", { type: "range", min: 0, max: last, step: 1, dir: leftward ? "rtl" : null, "aria-label": figure.holds, "data-focus": "figure", oninput: ({ target }) => turn(Number(target.value)) });
  let pose = Math.min(Math.max(start, 0), last);
  const turn = (/** @type {number} */ next) => {
    pose = next;
    const { hand, marks, said: words } = figure.poses[pose];
    for (const { moving, panel, at } of views) moving.replaceChildren(...marks.flatMap((mark) => mark.panel === panel.key ? drawn(mark, at) : []), ...(hand.panel === panel.key ? handOf(hand, at) : []));
    slider.value = String(pose);
    slider.setAttribute("aria-valuetext", words);
    said.textContent = words;
    moved(pose);
  };
  const sized = new ResizeObserver((all) => all.forEach(({ target, contentRect: { width } }) => letter(/** @type {SVGElement} */ (target), width)));
  views.forEach(({ svg }) => sized.observe(svg));
  followHand(held, (point) => turn(nearest(figure, point, pose)));
  turn(pose);
  return node("figure", { class: "moving" }, node("figcaption", {}, figure.title),
    node("div", { class: "panels" }, .../** @type {any[]} */ (views.map(({ svg }) => svg))),
    node("label", { class: "holds" }, node("span", {}, figure.holds), slider), said);
}

/** The pose whose hand is nearest to a point, from the one that it is in. @param {Pick<Figure, "poses">} figure @param {[number, number]} point @param {number} pose */
export function nearest({ poses }, [x, y], pose) {
  const cost = poses.map(({ hand: { points: [[u, v]] } }, index) => Math.hypot(u - x, v - y) + LEAP * Math.abs(index - pose));
  return cost.indexOf(Math.min(...cost));
}

/** @param {Panel} panel @returns {View} */
function viewOf(panel) {
  const { left, right, bottom, top } = panel, scale = HIGH / (top - bottom), wide = (right - left) * scale;
  const flat = wide < 0.7 * HIGH ? 1.1 * HIGH / wide : 1; // what is no chart may be stretched
  const across = scale * (panel.round ? 1 : flat);
  return {
    panel,
    svg: shape("svg", { class: panel.round ? "panel-chart" : "panel-plot", viewBox: `0 0 ${((right - left) * across).toFixed(1)} ${HIGH}`, "aria-hidden": "true" }),
    moving: shape("g"),
    at: ([x, y]) => [(x - left) * across, (top - y) * scale],
    back: (x, y) => [left + x / across, top - y / scale],
  };
}

/** Letters of a panel that is shown so wide. @param {SVGElement} svg @param {number} width */
function letter(svg, width) {
  const own = Number((svg.getAttribute("viewBox") ?? "0 0 1 1").split(" ")[2]);
  if (width) svg.style.fontSize = `${Math.max(LETTERS, SMALLEST * own / width).toFixed(1)}px`;
}

/** What is in a panel before anything is drawn in it. @param {Panel} panel @param {View["at"]} at */
function frame({ round, across, left, right, bottom }, at) {
  const [x, y] = at([0, 0]), words = across ? [label(across, at([(left + right) / 2, bottom]), 0, -5, "middle", "quiet")] : [];
  if (!round) return words;
  const radius = at([1, 0])[0] - x, [west] = at([-1, 0]);
  return [shape("circle", { class: "rim", cx: x, cy: y, r: radius }), shape("path", { class: "rule", d: `M${west} ${y}h${2 * radius}M${x} ${y - 4}v8` }), ...words];
}

/** @param {Mark} mark @param {View["at"]} at @returns {SVGElement[]} */
function drawn({ kind, role, label: words, points }, at) {
  const places = points.map(at), end = places[places.length - 1], middle = places[Math.floor((places.length - 1) / 2)];
  if (kind === "dot") return [shape("path", { class: `dot role-${role}`, d: markerPath(role, ...end) }), ...(words ? [label(words, end, 10, -8)] : [])];
  const path = shape("path", { class: `${kind} role-${role}`, d: `M${places.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join("L")}` });
  const heads = kind === "arrow" ? headOf(places, role) : [];
  const between = /** @type {[number, number]} */ (places.length === 2 ? [(places[0][0] + end[0]) / 2, (places[0][1] + end[1]) / 2] : middle);
  const place = kind === "area" ? places[0] : kind === "arrow" && places.length === 2 ? end : between;
  return [path, ...heads, ...(words ? [label(words, place, kind === "area" ? 0 : 6, kind === "area" ? -14 : -6)] : [])];
}

/** @param {[number, number][]} places @param {string} role */
function headOf(places, role) {
  const length = places.slice(1).reduce((sum, [x, y], index) => sum + Math.hypot(x - places[index][0], y - places[index][1]), 0);
  if (length < 1.5 * HEAD) return [];
  const [x, y] = places[places.length - 1], [u, v] = places.findLast(([a, b]) => Math.hypot(a - x, b - y) >= HEAD / 2) ?? places[0];
  const degrees = (Math.atan2(y - v, x - u) * 180) / Math.PI;
  return [shape("path", { class: `head role-${role}`, d: `M0 0L${-HEAD} ${-HEAD / 2.4}L${-HEAD} ${HEAD / 2.4}Z`, transform: `translate(${x.toFixed(1)} ${y.toFixed(1)}) rotate(${degrees.toFixed(1)})` })];
}

/** @param {string} words @param {[number, number]} place @param {number} dx @param {number} dy @param {string} [anchor] @param {string} [look] */
function label(words, [x, y], dx, dy, anchor = "start", look = "label") {
  return shape("text", { class: look, x: (x + dx).toFixed(1), y: (y + dy).toFixed(1), "text-anchor": anchor }, words);
}

/** The point in hand, with room for a finger about it. @param {Mark} hand @param {View["at"]} at */
function handOf(hand, at) {
  const [x, y] = at(hand.points[0]);
  return [shape("circle", { class: "ring", cx: x, cy: y, r: 12 }), ...drawn(hand, at), shape("circle", { class: "grip", cx: x, cy: y, r: REACH })];
}

/** @param {View} view @param {(point: [number, number]) => void} lead */
function followHand({ svg, back }, lead) {
  const go = (/** @type {PointerEvent} */ { clientX, clientY }) => {
    const box = svg.getBoundingClientRect(), [, , width, height] = (svg.getAttribute("viewBox") ?? "0 0 1 1").split(" ").map(Number);
    lead(back((clientX - box.left) * width / box.width, (clientY - box.top) * height / box.height));
  };
  let holding = -1;
  svg.addEventListener("pointerdown", (event) => {
    const isOnHand = /** @type {Element} */ (event.target).matches(".grip");
    if (event.pointerType === "touch" && !isOnHand) return; // the page is scrolled
    holding = event.pointerId;
    svg.setPointerCapture(holding);
    event.preventDefault();
    go(event);
  });
  svg.addEventListener("pointermove", (event) => { if (event.pointerId === holding) go(event); });
  for (const end of ["pointerup", "pointercancel", "lostpointercapture"]) svg.addEventListener(end, () => { holding = -1; });
}
