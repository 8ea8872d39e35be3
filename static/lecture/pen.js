// @ts-check
// The freehand pen: lines drawn over the whole page with a finger, a stylus or a mouse. They keep their place beside the
// chart when the window changes its size. The pen is switched on and off from outside, never by drawing.

import { surviving } from "halfturn/parts/keeping.js";

/** @typedef {[number, number]} Pair */
/** @typedef {{left: number, top: number, width: number}} Place the rectangle that lines are fixed to */
/** @typedef {{pointer: number, points: Pair[], path: SVGPathElement}} Line its points in widths of the place */

const SVG = "http://www.w3.org/2000/svg";

/** A layer to draw on, which covers the page. */
export function penLayer() {
  const layer = document.createElementNS(SVG, "svg");
  layer.setAttribute("class", "pen");
  return layer;
}

/** @param {SVGSVGElement} layer @param {() => Place} place */
export function makePen(layer, place) {
  /** @type {{lines: Line[]}} */
  const drawn = surviving("pen", () => ({ lines: [] }));
  layer.append(...drawn.lines.map(({ path }) => path));
  /** @type {Line | null} */
  let current = null;
  const draw = (/** @type {Line} */ line) => line.path.setAttribute("d", pathOf(line.points, place()));
  layer.addEventListener("pointerdown", (event) => {
    if (event.button || current) return;
    layer.setPointerCapture(event.pointerId);
    current = { pointer: event.pointerId, points: [pointAt(event, place())], path: document.createElementNS(SVG, "path") };
    layer.append(current.path);
    drawn.lines.push(current);
    draw(current);
    event.preventDefault();
  });
  layer.addEventListener("pointermove", (event) => {
    if (!current || event.pointerId !== current.pointer) return;
    const passed = event.getCoalescedEvents?.() ?? [], at = place();
    current.points.push(...(passed.length ? passed : [event]).map((one) => pointAt(one, at)));
    draw(current);
  });
  const end = (/** @type {PointerEvent} */ event) => { if (event.pointerId === current?.pointer) current = null; };
  layer.addEventListener("pointerup", end);
  layer.addEventListener("pointercancel", end);
  return {
    set(/** @type {boolean} */ on) { layer.classList.toggle("on", on); current = null; },
    clear() { drawn.lines = []; current = null; layer.replaceChildren(); },
    redraw() { drawn.lines.forEach(draw); },
  };
}

/** @param {{clientX: number, clientY: number}} event @param {Place} place @returns {Pair} */
function pointAt({ clientX, clientY }, { left, top, width }) {
  return [(clientX - left) / width, (clientY - top) / width];
}

/** A smooth path through the points: each one is turned at, and passed half way. @param {Pair[]} points @param {Place} place */
export function pathOf(points, { left, top, width }) {
  const [first, ...rest] = points.map(([x, y]) => [left + x * width, top + y * width]);
  const turns = rest.map(([x, y], i) => {
    const [x0, y0] = i ? rest[i - 1] : first;
    return `Q${x0.toFixed(1)} ${y0.toFixed(1)} ${((x0 + x) / 2).toFixed(1)} ${((y0 + y) / 2).toFixed(1)}`;
  });
  return `M${first.join(" ")}${turns.join("")}L${(rest.at(-1) ?? first).join(" ")}`;
}
