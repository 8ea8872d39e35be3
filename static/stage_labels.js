// Where the labels of the strokes stand: each tries some places and takes the one that covers least.

const AROUND = [[1, -1], [1, 0], [1, 1], [-1, -1], [-1, 0], [-1, 1], [0, -1], [0, 1]];
const COSTS = { label: 1000, edge: 2000, mark: 300, rim: 40, line: 1 };
const pen = document.createElement("canvas").getContext("2d");

// Boxes on the screen for the labels of drawn items, chosen in their order, those of the current step first.
function placeLabels(view, drawn) {
  const brief = (item) => view.layout === "compact" && !item.current;
  const wanted = drawn.filter((item) => labelText(item.stroke) && anchorsOf(view, item.stroke).length).sort((a, b) => b.current - a.current);
  const taken = [], marks = drawn.filter((item) => item.stroke.kind === "point").map((item) => view.toScreen(item.stroke.at));
  const samples = drawn.flatMap((item) => samplesOf(view, item.stroke));
  return wanted.map((item) => {
    const text = labelText(item.stroke, brief(item));
    const letters = view.inkLetters() * (item.current ? 1 : 0.94);
    pen.font = `${item.current ? 600 : 400} ${letters}px system-ui, sans-serif`;
    const size = [pen.measureText(text).width + 6, 1.5 * letters];
    const placed = item.stroke.kind === "ray" ? rayPlace(view, item.stroke, size) : bestPlace(view, item.stroke, size, { taken, marks, samples });
    taken.push([placed.x, placed.y, ...size]);
    return { item, text, ...placed };
  });
}

// The reading of a ray stands on a patch over the scales, where the ray points.
function rayPlace(view, stroke, size) {
  const [x, y] = view.toScreen(onRadius(stroke.at, view.radii().names));
  return { ...inside(view, x, y, size), patch: size };
}

function inside(view, x, y, [width, height]) {
  const fit = (value, half) => Math.min(view.size - half - 1, Math.max(half + 1, value));
  return { x: fit(x, width / 2), y: fit(y, height / 2) };
}

function bestPlace(view, stroke, size, obstacles) {
  let best = null, least = Infinity;
  for (const [anchor, [right, down], distance] of anchorsOf(view, stroke)) {
    const [x, y] = beside(anchor, [right, down], distance, size);
    const cost = costOf(view, x, y, size, obstacles);
    if (cost < least) [best, least] = [{ x, y }, cost];
  }
  return inside(view, best.x, best.y, size);
}

// The middle of a box that stands beside a place: at one of its corners or sides, or, beside a curve, off along its normal.
function beside([x, y], [right, down], distance, [width, height]) {
  if (Number.isInteger(right) && Number.isInteger(down)) return [x + right * (distance + width / 2), y + down * (distance + height / 2)];
  const off = distance + (Math.abs(right) * width + Math.abs(down) * height) / 2;
  return [x + right * off, y + down * off];
}

// Places to try, as far as they are in view: the point of a stroke, the direction away from it, and how far.
function anchorsOf(view, stroke) {
  return allAnchorsOf(view, stroke).filter(([at]) => view.holds(at));
}

function allAnchorsOf(view, stroke) {
  if (stroke.kind === "ray") return [[view.toScreen(onRadius(stroke.at, view.radii().names)), [0, 0], 0]];
  if (stroke.kind === "curve" || stroke.kind === "way") return alongCurve(view, stroke);
  const at = stroke.kind === "cross" ? [0.75, 0.6, 0.9].map((part) => between(stroke.from, stroke.to, part)) : [stroke.at];
  return at.flatMap((point) => AROUND.map((way) => [view.toScreen(point), way, (way[0] && way[1] ? 4 : 8) * view.inkScale()]));
}

function alongCurve(view, { kind, center, radius, start, sweep }) {
  const angles = kind === "way"
    ? [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8].map((part) => start + sweep * part)
    : anglesInView(view, center, radius);
  return angles.flatMap((angle) => {
    const out = [Math.cos(angle), -Math.sin(angle)];
    const at = view.toScreen([center[0] + radius * out[0], center[1] - radius * out[1]]);
    return [[at, out, 3], [at, [-out[0], -out[1]], 3]];
  });
}

// Directions on a circle: some round ones while all of it is seen, else those of what is seen of it.
function anglesInView(view, [u, v], radius) {
  const round = [135, 45, -135, -45, 110, 70, -110, -70, 160, 20, -160, -20].map((degrees) => (degrees * Math.PI) / 180);
  if (view.isWhole()) return round;
  const fine = Array.from({ length: 720 }, (_, i) => (i * Math.PI) / 360);
  const seen = fine.filter((angle) => view.holds(view.toScreen([u + radius * Math.cos(angle), v + radius * Math.sin(angle)])));
  return [0.5, 0.35, 0.65, 0.2, 0.8].map((part) => seen[Math.floor(part * seen.length)]).filter((angle) => angle !== undefined);
}

function between(from, to, part) {
  return [from[0] + (to[0] - from[0]) * part, from[1] + (to[1] - from[1]) * part];
}

// Points of a stroke's line on the screen, some pixels apart.
function samplesOf(view, stroke) {
  const on = (place, length) => {
    const count = Math.min(200, Math.max(2, Math.ceil((length * view.scale()) / 6)));
    return Array.from({ length: count + 1 }, (_, i) => view.toScreen(place(i / count)));
  };
  if (stroke.kind === "ray") return [[view.toScreen(onRadius(stroke.at, view.radii().names)), [0, 0], 0]];
  if (stroke.kind === "curve" || stroke.kind === "way") {
    const { center: [u, v], radius, start = 0, sweep = 2 * Math.PI } = stroke;
    const place = (part) => [u + radius * Math.cos(start + sweep * part), v + radius * Math.sin(start + sweep * part)];
    return on(place, radius * Math.abs(sweep));
  }
  if (stroke.kind === "cross") return on((part) => between(stroke.from, stroke.to, part), 2);
  if (stroke.kind === "ray") return on((part) => onRadius(stroke.at, part), 1);
  return [];
}

function costOf(view, x, y, [width, height], { taken, marks, samples }) {
  const within = (px, py, w, h) => Math.abs(px - x) < (width + w) / 2 && Math.abs(py - y) < (height + h) / 2;
  const kept = inside(view, x, y, [width, height]);
  return (
    COSTS.edge * (kept.x !== x || kept.y !== y) +
    COSTS.label * taken.filter(([px, py, w, h]) => within(px, py, w, h)).length +
    COSTS.mark * marks.filter(([px, py]) => within(px, py, 12 * view.inkScale(), 12 * view.inkScale())).length +
    COSTS.rim * rimsCrossed(view, x, y, width, height) +
    COSTS.line * samples.filter(([px, py]) => within(px, py, 3, 3)).length
  );
}

// How many corners of a box lie outside the rim, among the scales.
function rimsCrossed(view, x, y, width, height) {
  const corners = [[-1, -1], [1, -1], [-1, 1], [1, 1]].map(([a, b]) => view.toChart([x + (a * width) / 2, y + (b * height) / 2]));
  return corners.filter(([u, v]) => Math.hypot(u, v) > 0.985).length;
}
