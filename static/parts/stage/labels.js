// @ts-check
// Where the labels of the strokes stand: each tries some places and takes the one that covers least.

import { SIGNS } from "halfturn/parts/markers.js";
import { widthOf } from "halfturn/parts/stage/lettering.js";
import { between, onCircle, onRadius } from "halfturn/parts/stage/svg.js";

/** @typedef {import("halfturn/parts/stage/types.d.ts").Pair} Pair */
/** @typedef {import("halfturn/parts/stage/types.d.ts").Pairs} Pairs */
/** @typedef {import("halfturn/parts/stage/types.d.ts").Stroke} Stroke */
/** @typedef {import("halfturn/parts/stage/types.d.ts").Drawn} Drawn */
/** @typedef {import("halfturn/parts/stage/types.d.ts").Box} Box */
/** @typedef {import("halfturn/parts/stage/types.d.ts").Placed} Placed */
/** @typedef {import("halfturn/parts/stage/view.js").View} View */
/** @typedef {{taken: Box[], marks: Pairs, samples: Pairs}} Obstacles */
/** @typedef {[Pair, Pair, number]} Anchor a place, the direction away from it, and how far */

const AROUND = /** @type {Pairs} */ ([[1, -1], [1, 0], [1, 1], [-1, -1], [-1, 0], [-1, 1], [0, -1], [0, 1]]);
const COSTS = { label: 1000, edge: 2000, mark: 300, rim: 40, line: 1, off: 2 }; // of a pixel more than USUAL
const USUAL = 8;
const FARTHER = [18, 36]; // pixels off, where there is no room close by
const ASIDE = [0, 1, -1]; // of its ray: a reading stands astride of it, or with an edge along it

/** Boxes on the screen for the labels of drawn strokes, chosen in their order, those of the current step first. @param {View} view @param {Drawn[]} drawn @returns {Placed[]} */
export function placeLabels(view, drawn) {
  const wanted = drawn.filter(({ stroke }) => labelText(stroke) && anchorsOf(view, stroke).length);
  const obstacles = {
    taken: /** @type {Box[]} */ ([]),
    marks: drawn.filter(({ stroke }) => stroke.kind === "point").map(({ stroke }) => view.toScreen(stroke.at)),
    samples: drawn.flatMap(({ stroke }) => samplesOf(view, stroke)),
  };
  return wanted.sort((a, b) => Number(b.current) - Number(a.current)).map((item) => {
    const text = labelText(item.stroke, view.layout === "compact" && !item.current && !item.stroke.whole);
    const letters = item.stroke.kind === "ray" ? readingLetters(view) : view.inkLetters() * (item.current ? 1 : 0.94);
    const width = widthOf(text, letters, item.current ? 600 : 400) + 6, height = (item.stroke.kind === "ray" ? 1.3 : 1.5) * letters;
    const patch = item.stroke.kind === "ray", turn = patch && !view.isAfar() ? alongLane(item.stroke.at) : 0;
    const box = bestPlace(view, item.stroke, around(turn, [width, height]), obstacles);
    obstacles.taken.push(box);
    return { item, text, turn, letters, ...box, patch: patch ? /** @type {Pair} */ ([width, height]) : null };
  });
}

/**
 * The text beside a stroke: its name, its value, or both; only one of them where there is little room. A walk, which has
 * no marker, bears the sign of its solution.
 * @param {Stroke} stroke
 */
export function labelText({ kind, role, label, value }, brief = false) {
  const text = label && value && !brief ? `${label} = ${value}` : label || value;
  return text && kind === "way" && role in SIGNS ? `${SIGNS[role]} ${text}` : text;
}

/** @param {View} view @param {Stroke} stroke @param {Pair} size @param {Obstacles} obstacles @returns {Box} */
function bestPlace(view, stroke, [width, height], obstacles) {
  /** @type {Box | null} */
  let best = null;
  let least = Infinity;
  for (const anchor of anchorsOf(view, stroke)) {
    const [x, y] = beside(anchor, [width, height]), box = { x, y, width, height };
    const aside = COSTS.off * Math.max(0, anchor[2] / view.inkScale() - USUAL);
    const cost = aside + costOf(view, box, stroke.kind === "ray" ? { ...obstacles, samples: [] } : obstacles, stroke.kind !== "ray");
    if (cost < least) [best, least] = [box, cost];
  }
  return inside(view, /** @type {Box} */ (best));
}

/** @param {View} view @param {Box} box @returns {Box} */
function inside(view, { x, y, width, height }) {
  const fit = (/** @type {number} */ value, /** @type {number} */ half) => Math.min(view.size - half - 1, Math.max(half + 1, value));
  return { x: fit(x, width / 2), y: fit(y, height / 2), width, height };
}

/** The middle of a box that stands beside a place: at one of its corners or sides, or, beside a curve, off along its normal. @param {Anchor} anchor @param {Pair} size @returns {Pair} */
function beside([[x, y], [right, down], distance], [width, height]) {
  if (Number.isInteger(right) && Number.isInteger(down)) return [x + right * (distance + width / 2), y + down * (distance + height / 2)];
  const off = distance + (Math.abs(right) * width + Math.abs(down) * height) / 2;
  return [x + right * off, y + down * off];
}

/** Places to try, as far as they are in view. @param {View} view @param {Stroke} stroke @returns {Anchor[]} */
function anchorsOf(view, stroke) {
  return allAnchorsOf(view, stroke).filter(([at]) => view.holds(at));
}

/** @param {View} view @param {Stroke} stroke @returns {Anchor[]} */
function allAnchorsOf(view, stroke) {
  const { kind } = stroke;
  if (kind === "ray") return besideRay(view, stroke.at);
  if (kind === "region") return withinRegion(view, stroke);
  if (kind === "curve" || kind === "way") return alongCurve(view, stroke);
  const at = kind === "cross" ? [0.75, 0.6, 0.9].map((part) => between(stroke.from, stroke.to, part)) : [stroke.at];
  const around = (/** @type {number} */ more) => at.flatMap((point) => AROUND.map((way) =>
    /** @type {Anchor} */ ([view.toScreen(point), way, ((way[0] && way[1] ? 4 : 8) + more) * view.inkScale()])));
  return [0, ...FARTHER].flatMap(around);
}

/** The reading of a ray stands on a patch in the lane between the scales, where the ray points. @param {View} view @param {Pair} at @returns {Anchor[]} */
function besideRay(view, at) {
  const place = view.toScreen(onRadius(at, view.radii().names)), [u, v] = onRadius(at, 1);
  return ASIDE.map((side) => [place, side ? [-v * side || 1e-9, -u * side || 1e-9] : [0, 0], side ? 1 : 0]);
}

/** A reading is as large as the lane is wide, if not larger than other labels. @param {View} view */
function readingLetters(view) {
  const lane = (view.radii().load - view.radii().generator) * view.scale();
  return view.isAfar() ? view.inkLetters() : Math.min(view.inkLetters(), Math.max(10, 0.7 * lane));
}

/** The turn in degrees of what is written along the lane, its letters upright in either half. @param {Pair} at */
function alongLane([u, v]) {
  const degrees = (Math.atan2(v, u) * 180) / Math.PI;
  return v > -1e-9 ? 90 - degrees : -90 - degrees;
}

/** The sides of the upright box around a turned one. @param {number} degrees @param {Pair} size @returns {Pair} */
function around(degrees, [width, height]) {
  const [c, s] = [Math.cos, Math.sin].map((part) => Math.abs(part((degrees * Math.PI) / 180)));
  return [c * width + s * height, s * width + c * height];
}

/** @param {View} view @param {Stroke} stroke @returns {Anchor[]} */
function withinRegion(view, { center, radius, inside }) {
  const round = [135, 45, -135, -45, 90, -90, 180, 0].map((degrees) => (degrees * Math.PI) / 180);
  const between = (/** @type {number} */ angle) => onCircle([0, 0], 0.85, angle), open = (/** @type {Pair} */ [u, v]) => Math.hypot(u - center[0], v - center[1]) > radius;
  const places = inside ? [center, ...round.map((angle) => onCircle(center, radius / 2, angle))] : round.map(between).filter(open);
  return places.map((place) => [view.toScreen(place), [0, 0], 0]);
}

/** @param {View} view @param {Stroke} stroke @returns {Anchor[]} */
function alongCurve(view, { kind, center, radius, start, sweep }) {
  const angles = kind === "way"
    ? [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8].map((part) => start + sweep * part)
    : anglesInView(view, center, radius);
  const off = kind === "way" ? [3, ...FARTHER.map((more) => more * view.inkScale())] : [3];
  return off.flatMap((distance) => angles.flatMap((angle) => {
    const at = view.toScreen(onCircle(center, radius, angle)), out = /** @type {Pair} */ ([Math.cos(angle), -Math.sin(angle)]);
    return /** @type {Anchor[]} */ ([[at, out, distance], [at, [-out[0], -out[1]], distance]]);
  }));
}

/** Directions on a circle: some round ones while all of it is seen, else those of what is seen of it. @param {View} view @param {Pair} center @param {number} radius */
function anglesInView(view, center, radius) {
  const round = [135, 45, -135, -45, 110, 70, -110, -70, 160, 20, -160, -20].map((degrees) => (degrees * Math.PI) / 180);
  if (view.isWhole()) return round;
  const fine = Array.from({ length: 720 }, (_, i) => (i * Math.PI) / 360);
  const seen = fine.filter((angle) => view.holds(view.toScreen(onCircle(center, radius, angle))));
  return [0.5, 0.35, 0.65, 0.2, 0.8].map((part) => seen[Math.floor(part * seen.length)]).filter((angle) => angle !== undefined);
}

/** What the lines of drawn strokes cover, as small boxes. @param {View} view @param {Drawn[]} drawn @returns {Box[]} */
export function tracesOf(view, drawn) {
  const seen = drawn.flatMap(({ stroke }) => samplesOf(view, stroke)).filter((place) => view.holds(place));
  return seen.map(([x, y]) => ({ x, y, width: -30, height: 0 })); // what is written may reach close to a line
}

/** Points of a stroke's line on the screen, some pixels apart. @param {View} view @param {Stroke} stroke @returns {Pairs} */
function samplesOf(view, { kind, at, center, radius, start = 0, sweep = 2 * Math.PI, from, to }) {
  const on = (/** @type {(part: number) => Pair} */ place, /** @type {number} */ length) => {
    const count = Math.min(200, Math.max(2, Math.ceil((length * view.scale()) / 6)));
    return Array.from({ length: count + 1 }, (_, i) => view.toScreen(place(i / count)));
  };
  if (kind === "curve" || kind === "way") return on((part) => onCircle(center, radius, start + sweep * part), radius * Math.abs(sweep));
  if (kind === "cross") return on((part) => between(from, to, part), 2);
  if (kind === "ray") return on((part) => onRadius(at, view.radii().tick * part), view.radii().tick);
  return [];
}

/** @param {View} view @param {Box} box @param {Obstacles} obstacles @param {boolean} onChart whether it should keep off the scales */
function costOf(view, box, { taken, marks, samples }, onChart) {
  const kept = inside(view, box), size = 12 * view.inkScale();
  const covers = (/** @type {number} */ x, /** @type {number} */ y, /** @type {number} */ width, /** @type {number} */ height) =>
    Math.abs(x - box.x) < (box.width + width) / 2 && Math.abs(y - box.y) < (box.height + height) / 2;
  return (
    COSTS.edge * Number(kept.x !== box.x || kept.y !== box.y) +
    COSTS.label * taken.filter(({ x, y, width, height }) => covers(x, y, width, height)).length +
    COSTS.mark * marks.filter(([x, y]) => covers(x, y, size, size)).length +
    COSTS.rim * (onChart ? cornersOutside(view, box) : 0) +
    COSTS.line * samples.filter(([x, y]) => covers(x, y, 3, 3)).length
  );
}

/** How many corners of a box lie outside the rim, among the scales. @param {View} view @param {Box} box */
function cornersOutside(view, { x, y, width, height }) {
  const corners = /** @type {Pairs} */ ([[-1, -1], [1, -1], [-1, 1], [1, 1]]);
  return corners.filter(([a, b]) => Math.hypot(...view.toChart([x + (a * width) / 2, y + (b * height) / 2])) > 0.985).length;
}
