// The line drawing's pure part: true to scale for any network, and no label on another.

import { figure } from "halfturn/parts/line_drawing/figure.js";
import { between, lengthsOf, walked, walkIn } from "halfturn/parts/line_drawing/walk.js";
import { fixed, scaleBar, writtenMillimetres, writtenWaves } from "halfturn/parts/line_drawing/writing.js";

const U = 13, WIDTHS = [340, 420, 520, 600, 710, 900];
const NETWORKS = 400;
const WRITING = { in_a_wavelength: 1, decimals: 3, unit: " λ", wavelength_mm: null, mm_decimals: 0 };
const NEAR = { key: "n", word: "near", role: "first" }, FAR = { key: "f", word: "far", role: "second" };

const measure = run => run.replace(/^_/, "").length * 0.56 * U * (run.startsWith("_") ? 1.15 : 1);

function equal(expected, actual, tolerance = 0) {
  const same = tolerance ? Math.abs(expected - actual) <= tolerance : JSON.stringify(expected) === JSON.stringify(actual);
  if (!same) throw new Error(`expected ${JSON.stringify(expected)}, got ${JSON.stringify(actual)}`);
}

const section = (length, ohms = 50, symbol = "") => ({ kind: "section", length, ohms, text: `${ohms} Ω`, symbol });
const stub = (length, placement = "shunt", end = "short", ohms = 50, symbol = "") =>
  ({ kind: "stub", length, ohms, text: `${ohms} Ω`, symbol, placement, end });
const part = (kind, placement, text, symbol = "") => ({ kind: "part", part: kind, placement, text, symbol });

function picture(elements, { form = "trace", branch = null, others = [], ...more } = {}) {
  const plans = [{ branch, form, faint: true, elements, rows: [] }, ...others];
  return { load: ["60", "− j80 Ω"], line: { ohms: 50, text: "50 Ω" }, writing: WRITING, current: 0, plans, ...more };
}

const drawn = (made, width = 900) => figure(made, lengthsOf(made), 0, width, U, measure);
const shape = (figure, part) => figure.shapes.find(one => one.part === part);
const numbers = d => (d.match(/-?[\d.]+/g) ?? []).map(Number);

// --- to scale -------------------------------------------------------------------------------------------------------

Deno.test("Sections and stubs have the lengths of the network by the drawing's own scale bar, at every width.", () => {
  for (const width of WIDTHS) {
    const made = drawn(picture([section(0.12), section(0.2, 75), stub(0.3)]), width), [x1, , x2] = numbers(shape(made, "line-scale").d);
    const wavelength = 8 * (x2 - x1), ends = [0, 1].map(i => numbers(shape(made, `line-section-${i}`).d));
    equal(0.12 * wavelength, ends[0][2] - ends[0][0], 0.05);
    equal(0.2 * wavelength, ends[1][2] - ends[1][0], 0.05);
    const [, top, , bottom] = numbers(shape(made, "line-stub-0-2-length").d);
    equal(0.3 * wavelength, bottom - top, 0.05);
  }
});

Deno.test("Both panels have one scale.", () => {
  const made = drawn(picture([section(0.12), stub(0.3)])), [line, board] = ["line", "board"].map(name => numbers(shape(made, `${name}-scale`).d));
  equal(line[2] - line[0], board[2] - board[0], 0.02);
});

Deno.test("A higher impedance stands wider apart on the line and is narrower in copper, a lower one the other way.", () => {
  const heights = [25, 75].map(ohms => numbers(shape(drawn(picture([section(0.2, ohms)])), "line-band-0").d)[3]);
  const breadths = [25, 75].map(ohms => Math.max(...drawn(picture([section(0.2, ohms)])).shapes
    .filter(one => /^board-trace-0(-\d)?$/.test(one.part)).map(one => one.breadth)));
  if (!(heights[0] < 2 * U && 2 * U < heights[1])) throw new Error(`spacing ${heights}`);
  if (!(breadths[0] > breadths[1])) throw new Error(`breadth ${breadths}`);
});

Deno.test("A length of many wavelengths makes the scale bar longer, not the drawing.", () => {
  const made = drawn(picture([section(40), stub(0.1)]));
  equal("5 λ", shape(made, "line-scale-label").runs[0]);
  equal(900, made.width);
});

Deno.test("A length that is not known is a question mark, on the line and in copper.", () => {
  const made = drawn(picture([section(null, 50, "d"), stub(null, "shunt", "short", 50, "l")]));
  for (const name of ["line-section-0-label", "line-stub-0-1-label", "board-section-0-label", "board-branch-1-label"]) {
    equal(" = ?", shape(made, name).runs[1]);
  }
});

Deno.test("Where no board carries the network, the line is drawn alone.", () => {
  const made = drawn(picture([section(0.1)], { form: "" }));
  equal([], made.shapes.filter(one => one.part.startsWith("board")).map(one => one.part));
});

Deno.test("Coils, capacitors and what is in their place have each their own symbol.", () => {
  const kinds = ["inductor", "capacitor", "unknown", "wire", "gap"], placements = ["series", "shunt"];
  for (const placement of placements) {
    const all = kinds.map(kind => shape(drawn(picture([part(kind, placement, "x")])), "line-part-0")?.d.replace(/[-\d. ]+/g, ""));
    equal(kinds.length, new Set(all).size);
  }
});

// --- labels ---------------------------------------------------------------------------------------------------------

function clashes({ width, height, shapes }) {
  const boxes = shapes.filter(one => one.tag === "text").map(({ part, x, y, runs, anchor }) => {
    const w = runs.reduce((sum, run) => sum + measure(run), 0), left = anchor === "middle" ? x - w / 2 : x;
    return { part, left, right: left + w, top: y - 0.72 * U, bottom: y + 0.18 * U };
  });
  return boxes.flatMap((a, i) => [
    ...(a.left < -0.5 || a.right > width + 0.5 || a.top < 0 || a.bottom > height ? [`${a.part} outside`] : []),
    ...boxes.slice(i + 1).filter(b => Math.min(a.right, b.right) - Math.max(a.left, b.left) > 0.5
      && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 0.5).map(b => `${a.part} on ${b.part}`),
  ]);
}

// Random, but the same in every run.
function dice(seed) {
  const roll = () => {
    seed = (seed + 0x6D2B79F5) | 0;
    let t = Math.imul(seed ^ (seed >>> 15), 1 | seed);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  return { roll, pick: list => list[Math.floor(roll() * list.length)] };
}

function anyElement({ roll, pick }, form) {
  const length = pick([null, 0, 0.001, 0.02, 0.05, 0.125, 0.25, roll() * 0.5, roll() * 0.5, roll() * 1.2]);
  const ohms = pick([50, 50, 25, 70.711, 100, 150, 12.5, 376.73]), symbol = pick(["", "d", "l₁"]);
  const placement = { trace: "shunt", strips: "series", "": pick(["shunt", "series"]) }[form];
  const kind = pick(["section", "section", "stub", "part", "part"]), lumped = pick(["inductor", "capacitor", "unknown", "wire", "gap"]);
  if (kind === "section") return section(length, ohms, symbol);
  if (kind === "stub") return stub(length, placement, pick(["short", "open"]), ohms, symbol);
  const text = { unknown: "?", wire: "", gap: "" }[lumped] ?? pick(["38.98 nH", "0.9228 pF", "−j42.3 Ω"]);
  return part(lumped, pick(["shunt", "series"]), text, pick(["", "X"]));
}

function anyPicture(hand) {
  const { roll, pick } = hand, form = pick(["trace", "trace", "strips", ""]), branch = pick([null, NEAR]);
  const list = () => Array.from({ length: Math.floor(roll() * 5) }, () => anyElement(hand, form));
  const onLine = ({ kind, ohms }) => kind === "stub" || (kind === "section" && ohms === 50);
  const elements = list(), other = list().filter(onLine);
  const others = branch && elements.every(onLine) ? [{ branch: FAR, form, faint: true, elements: other }] : [];
  const load = pick([["60", "− j80 Ω"], ["open", "circuit"], ["75 Ω"], ["?"]]);
  const writing = { ...WRITING, ...pick([{}, { wavelength_mm: 455.9, mm_decimals: 1 }]) };
  return picture(elements, { form, branch, others, load, writing });
}

Deno.test("No label stands on another or leaves the drawing, for any network of up to four elements at any width.", () => {
  const hand = dice(1), found = [];
  for (let i = 0; i < NETWORKS; i++) {
    const made = anyPicture(hand);
    for (const width of WIDTHS) found.push(...clashes(drawn(made, width)).map(clash => `${width}: ${clash}: ${JSON.stringify(made.plans)}`));
  }
  equal([], found.slice(0, 3));
});

Deno.test("A label on another would be seen: two texts in one place are found out.", () => {
  const text = { tag: "text", part: "a", x: 50, y: 50, runs: ["word"], anchor: "start" };
  equal(["a on b"], clashes({ width: 200, height: 200, shapes: [text, { ...text, part: "b" }] }));
});

Deno.test("Every part of a drawing has a name of its own and numbers that are numbers.", () => {
  const hand = dice(2);
  for (let i = 0; i < NETWORKS; i++) {
    const { shapes } = drawn(anyPicture(hand), hand.pick(WIDTHS)), names = shapes.map(one => one.part);
    equal([], names.filter((name, k) => names.indexOf(name) !== k));
    equal([], shapes.filter(one => /NaN|undefined|Infinity/.test(one.d ?? "")).map(one => one.part));
  }
});

Deno.test("What finds no room gets a letter, and a row below says what it stands for.", () => {
  const crowd = Array.from({ length: 5 }, () => stub(0.1)), { shapes } = drawn(picture(crowd), 340);
  const letters = shapes.filter(one => one.part.endsWith("-letter")).map(one => one.runs[0]);
  const rows = shapes.filter(one => /-key-\d/.test(one.part)).map(one => one.runs[0].replace(/:.*/, ""));
  if (!letters.length) throw new Error("no letters");
  equal([...letters].sort(), [...rows].sort());
});

// --- walks ----------------------------------------------------------------------------------------------------------

const BOTH = picture([section(0.1), stub(0.2)], { branch: NEAR, others: [{ branch: FAR, form: "trace", faint: true, elements: [section(0.3), stub(null)] }] });

Deno.test("A walk names a branch, an element that has a length, and wavelengths; all else is none.", () => {
  equal({ plan: 1, element: 0, value: 0.2 }, walkIn(BOTH, { branch: "f", element: 0, wavelengths: 0.2 }));
  equal({ plan: 0, element: 1, value: null }, walkIn(BOTH, { branch: "n", element: 1, wavelengths: null }));
  equal({ plan: 0, element: 0, value: 0 }, walkIn(BOTH, { branch: "n", element: 0, wavelengths: -0.2 }));
  for (const detail of [null, {}, { branch: "x", element: 0, wavelengths: 0.2 }, { branch: "n", element: 2, wavelengths: 0.2 },
    { branch: "n", element: 0, wavelengths: "0.2" }, { branch: "n", element: 0 }, { branch: null, element: 0, wavelengths: 0.2 }]) {
    equal(null, walkIn(BOTH, detail));
  }
  equal({ plan: 0, element: 0, value: 0.2 }, walkIn(picture([section(0.1)]), { branch: null, element: 0, wavelengths: 0.2 }));
});

Deno.test("What is walked takes the place of the length, and of no other.", () => {
  equal([[0.1, 0.2], [0.3, 0.4]], walked(lengthsOf(BOTH), [{ plan: 1, element: 1, value: 0.4 }]));
});

Deno.test("On the way to a new picture a length that was unknown grows from nothing.", () => {
  equal([[0.375, 0.25], [null]], between([[0.25, null], [0.2]], [[0.5, 0.5], [null]], 0.5));
});

// --- writing --------------------------------------------------------------------------------------------------------

Deno.test("Halves of the last digit go to the even one, as Python writes them.", () => {
  equal(["0.12", "0.38", "0.125", "1"], [fixed(0.125, 2), fixed(0.375, 2), fixed(0.125, 3), fixed(1, 0)]);
});

Deno.test("Lengths are written with the notation's digits and units, in millimetres where a wave is known.", () => {
  equal("39.7°", writtenWaves(0.1104, { in_a_wavelength: 360, decimals: 1, unit: "°" }));
  equal("50.33 mm", writtenMillimetres(0.1104, { wavelength_mm: 455.9, mm_decimals: 2 }));
  equal("", writtenMillimetres(0.1104, { wavelength_mm: null, mm_decimals: 0 }));
  equal("45°", scaleBar(200, 20, { ...WRITING, in_a_wavelength: 360 }).waves);
});

// --- voltage and current along it -----------------------------------------------------------------------------------

const HALF = Array.from({ length: 97 }, (_, i) => i / 96 * 0.5);
const sizes = (size, angle) => ({
  voltage: HALF.map(d => Math.hypot(1 + size * Math.cos(angle - 4 * Math.PI * d), size * Math.sin(angle - 4 * Math.PI * d))),
  current: HALF.map(d => Math.hypot(1 - size * Math.cos(angle - 4 * Math.PI * d), size * Math.sin(angle - 4 * Math.PI * d))),
});
const EVEN = { voltage: [1, 1], current: [1, 1] };
const vertices = d => numbers(d).reduce((pairs, value, i) => (i % 2 ? pairs[pairs.length - 1].push(value) : pairs.push([value]), pairs), []);

Deno.test("The least voltage stands where the reflection points to the left, by the drawing's own scale bar.", () => {
  const size = 0.5, angle = 1, waves = { before: sizes(size, angle), after: [null] };
  for (const width of WIDTHS) {
    const made = drawn(picture([section(0.12), stub(null)], { waves }), width), [x1, , x2] = numbers(shape(made, "line-scale").d);
    const curve = vertices(shape(made, "waves-voltage").d), load = curve[0][0], lowest = curve.filter(([x]) => load - x < 4 * (x2 - x1)).reduce((a, b) => b[1] > a[1] ? b : a);
    equal((angle + Math.PI) / (4 * Math.PI) % 0.5, (load - lowest[0]) / (8 * (x2 - x1)), 0.012);
  }
});

Deno.test("The reading moves with the hand: it is at the walked section's end, and of what there is there.", () => {
  const made = picture([section(null), stub(null)], { waves: { before: sizes(0.5, 1), after: [null] } });
  for (const distance of [0.05, 0.2, 0.45]) {
    const at = figure(made, [[distance, null]], 0, 900, U, measure), voltage = Math.hypot(1 + 0.5 * Math.cos(1 - 4 * Math.PI * distance), 0.5 * Math.sin(1 - 4 * Math.PI * distance));
    equal(`here: voltage ${voltage.toFixed(2)}`, shape(at, "waves-said").runs.join("").split(",")[0]);
    equal(numbers(shape(at, "line-section-0").d)[0], numbers(shape(at, "waves-hand").d)[0], 0.05);
  }
});

Deno.test("With a design the curves are its own and stop where the drawing has no line to scale; the load alone stays beside them.", () => {
  const waves = { before: sizes(0.5, 1), after: [[{ element: 0, ...sizes(0.5, 1) }, { element: null, ...EVEN }]] };
  const made = drawn(picture([section(0.12), stub(0.3)], { waves })), even = numbers(shape(made, "waves-even").d)[1];
  const [left] = vertices(shape(made, "waves-voltage").d).slice(-1);
  equal(even, left[1], 0.05);
  if (!shape(made, "waves-before-voltage")) throw new Error("the load alone is gone");
});

Deno.test("Where nothing may be seen yet, nothing of it is drawn, nor beside copper alone.", () => {
  const waves = { before: sizes(0.5, 1), after: [null] };
  for (const made of [drawn(picture([section(0.12)], { waves: null })), drawn(picture([section(0.12)], { waves, only: "board" }))]) equal([], made.shapes.filter(one => one.part.startsWith("waves")));
});

// --- alone, for a room ----------------------------------------------------------------------------------------------

const alone = (elements, waves, more = {}) => picture(elements, { waves: { beside: "load alone", ...waves }, only: "waves", ...more });
const boxes = made => made.shapes.filter(({ tag }) => tag === "text").map(({ part, x, y, anchor, runs }) => {
  const w = runs.reduce((sum, run) => sum + measure(run), 0), left = anchor === "middle" ? x - w / 2 : anchor === "end" ? x - w : x;
  return { part, left, right: left + w, top: y - 0.8 * U, bottom: y };
});

Deno.test("Alone, the least voltage stands where the reflection points to the left, by the places written along the line.", () => {
  for (const width of WIDTHS) {
    const made = drawn(alone([section(0.12), stub(null)], { before: sizes(0.5, 1), after: [null] }), width);
    const curve = vertices(shape(made, "waves-voltage").d), load = curve[0][0], [half] = numbers(shape(made, "waves-place-0.5").d);
    const lowest = curve.filter(([x]) => load - x < load - half).reduce((a, b) => b[1] > a[1] ? b : a);
    equal((1 + Math.PI) / (4 * Math.PI) % 0.5, 0.5 * (load - lowest[0]) / (load - half), 0.012);
  }
});

Deno.test("Alone, it is as high whatever it shows, so that nothing leaps while a lecture goes on, and all of it is in the picture.", () => {
  const after = [[{ element: 0, ...sizes(0.5, 1) }, { element: null, ...EVEN }]], before = sizes(0.5, 1);
  const all = [alone([], { before, after: [null] }), alone([section(0.12), stub(null)], { before, after: [null] }), alone([section(0.12), stub(0.3)], { before, after }), alone([stub(0.1), section(1.3), stub(0.3)], { before, after: [null] })];
  for (const width of [24 * U, 900]) {
    const made = all.map(one => drawn(one, width));
    equal([made[0].height], [...new Set(made.map(({ height }) => height))]);
    for (const one of made) {
      const texts = boxes(one), out = texts.filter(({ left, right, bottom }) => left < -0.5 || right > width + 0.5 || bottom > one.height);
      const meeting = texts.filter((a, i) => texts.some((b, k) => k < i && a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom));
      equal([], [...out, ...meeting].map(({ part }) => part));
    }
  }
});

Deno.test("Where more than twice the wave stands on the line, the scale goes as high, and no curve leaves the plot.", () => {
  const high = { voltage: [3.4, 0.3], current: [0.3, 3.4] }, after = [[{ element: 0, ...high }, { element: null, ...EVEN }]];
  for (const only of ["waves", "line"]) {
    const made = drawn(picture([section(0.12), stub(0.3)], { waves: { beside: "load alone", before: sizes(0.5, 1), after }, only }));
    const top = shape(made, "waves-scale-4").y - U, lowest = shape(made, "waves-scale-0").y;
    equal([], ["voltage", "current"].flatMap(kind => vertices(shape(made, `waves-${kind}`).d)).filter(([, y]) => y < top || y > lowest));
  }
});
