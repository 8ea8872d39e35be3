// The freehand pen: lines drawn over the whole page with a finger, a stylus or a mouse. They keep their place beside the
// chart when the window changes its size. The pen is switched on and off from outside, never by drawing.

export const PEN_SVG = "http://www.w3.org/2000/svg";

// layer : an svg element that covers the page.  place : the rectangle that the lines are fixed to.
export function makePen(layer, place) {
  let lines = [], current = null;

  const at = event => {
    const {left, top, width} = place();
    return [(event.clientX - left) / width, (event.clientY - top) / width];
  };

  // A smooth path through the points: each one is turned at, and passed half way.
  function pathOf(points) {
    const {left, top, width} = place(), [first, ...rest] = points.map(([x, y]) => [left + x * width, top + y * width]);
    const middle = ([x0, y0], [x1, y1]) => `${((x0 + x1) / 2).toFixed(1)} ${((y0 + y1) / 2).toFixed(1)}`;
    const turns = rest.map((point, i) => `Q${(i ? rest[i - 1] : first).map(v => v.toFixed(1)).join(" ")} ${middle(i ? rest[i - 1] : first, point)}`);
    const last = rest.at(-1) ?? first;
    return `M${first.join(" ")}${turns.join("")}L${last.join(" ")}`;
  }

  const draw = line => line.path.setAttribute("d", pathOf(line.points));

  layer.addEventListener("pointerdown", event => {
    if (event.button || current) return;
    layer.setPointerCapture(event.pointerId);
    current = {pointer: event.pointerId, points: [at(event)], path: document.createElementNS(PEN_SVG, "path")};
    layer.append(current.path);
    lines.push(current);
    draw(current);
    event.preventDefault();
  });
  layer.addEventListener("pointermove", event => {
    if (event.pointerId !== current?.pointer) return;
    const passed = event.getCoalescedEvents?.() ?? [];
    current.points.push(...(passed.length ? passed : [event]).map(at));
    draw(current);
  });
  for (const end of ["pointerup", "pointercancel"]) layer.addEventListener(end, event => {
    if (event.pointerId === current?.pointer) current = null;
  });

  return {
    set(on) { layer.classList.toggle("on", on); current = null; },
    clear() { lines = []; current = null; layer.replaceChildren(); },
    redraw() { lines.forEach(draw); },
    count: () => lines.length,
  };
}
