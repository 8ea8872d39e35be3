// The line drawing: generator, two wires, load, and the stub hanging from its junction, all lengths to scale.

const HALF_STUB = 0.62;              // half the spacing of a stub's wires, in u
const STUMP = 2.4;                   // drawn length of a stub of unknown length, in u

function drawLine(pen, picture, values, current, frame) {
  const {u} = pen, top = frame.y + 5.4 * u, bottom = top + 2 * u, end = frame.load + 2.4 * u;
  const line = {...frame, top, bottom, middle: (top + bottom) / 2, end, crossed: []};
  const sides = SIDES.filter(side => values[side].distance !== null);
  const stubs = sides.map(side => stubAt(pen, line, values, side, current));
  const strong = stubs.find(stub => stub.strong);
  heading(pen, frame, "line", "The line, to scale");
  pen.take(frame.x, top - 0.2 * u, frame.w, bottom - top + 0.4 * u);
  pen.take(end, line.middle - 2.3 * u, frame.box, 4.6 * u);
  drawRails(pen, line, picture.stub.placement === "series" ? strong : undefined);
  drawGenerator(pen, line);
  drawLoad(pen, line, picture.load);
  stubs.sort((one, other) => one.strong - other.strong);
  for (const stub of stubs) drawStub(pen, line, picture.stub, stub);
  if (strong) distanceDimension(pen, frame, "line", picture, strong.distance, top - 0.4 * u);
  for (const stub of stubs.reverse()) stubLabels(pen, line, picture, stub);
  lineImpedance(pen, line, picture.line.text);
  scaleBar(pen, frame, "line", picture);
}

// A stub's place: the junction at `x`, its end at `y`, and `out`, the side of it where there is no other stub.
function stubAt(pen, line, values, side, current) {
  const {distance, length} = values[side], other = values[side === "near" ? "far" : "near"].distance;
  const y = line.bottom + (length === null ? STUMP * pen.u : length * line.scale);
  const out = other !== null && other < distance ? -1 : 1;
  return {side, distance, length, x: across(line, distance), y, out, strong: side === current};
}

// Two wires, cut near the generator as their length there does not matter; a series stub opens the lower one.
function drawRails(pen, {x, top, bottom, end}, opening) {
  const {u} = pen, start = x + 1.2 * u, cut = x + 4.3 * u, d = 0.28 * u, half = HALF_STUB * u;
  const wire = y => `M${start} ${y}H${cut - d}M${cut + d} ${y}`;
  const gap = opening ? `H${opening.x - half}M${opening.x + half} ${bottom}` : "";
  pen.path("line-rails", "rail", `${wire(top)}H${end}${wire(bottom)}${gap}H${end}`);
  const slash = (at, y) => `M${at - 0.22 * u} ${y + 0.5 * u}L${at + 0.22 * u} ${y - 0.5 * u}`;
  pen.path("line-break", "thin", [top, bottom].map(y => slash(cut - d, y) + slash(cut + d, y)).join(""));
}

function drawGenerator(pen, line) {
  const {u} = pen, x = line.x + 1.2 * u, y = line.middle, r = 0.68 * u;
  const rise = `c${0.14 * u} ${-0.55 * u} ${0.26 * u} ${-0.55 * u} ${0.4 * u} 0`, fall = rise.replaceAll(" -", " ");
  pen.path("line-generator", "rail", `M${x} ${line.top}V${y - r}M${x} ${y + r}V${line.bottom}${ring(x, y, r)}`);
  pen.path("line-generator-wave", "thin", `M${x - 0.4 * u} ${y}${rise}${fall}`);
  pen.text("line-generator-label", "quiet", line.x, line.top - 0.75 * u, ["generator"]);
}

function drawLoad(pen, line, impedance) {
  const {u} = pen, texts = ["load", ...impedance], h = 1.3 * u * texts.length + 0.7 * u;
  pen.path("line-load", "box", rectangle(line.end, line.middle - h / 2, line.box, h));
  texts.forEach((text, i) => {
    const y = line.middle + 1.3 * u * (i + 0.5 - texts.length / 2) + 0.35 * u;
    pen.text(`line-load-${i}`, i ? "label" : "quiet", line.end + line.box / 2, y, [text], "middle");
  });
  pen.path("line-terminals", "dot", ring(line.load, line.top, 0.2 * u) + ring(line.load, line.bottom, 0.2 * u));
}

// Across the line, one wire comes from the upper rail and passes the lower one in a little arc, without touching it;
// in the line, both are the ends of the lower rail. A short of no length does touch: it is a short across the line.
function drawStub(pen, {top, bottom, crossed}, {placement, end}, {side, length, x, y, strong}) {
  const {u} = pen, a = x - HALF_STUB * u, b = x + HALF_STUB * u, part = `line-stub-${side}`;
  const shunt = placement === "shunt", hop = shunt ? Math.min(0.42 * u, end === "short" ? y - bottom : Infinity) : 0;
  const low = Math.max(y, bottom + hop), look = `${side} ${strong ? "strong" : "faint"}`;
  const first = shunt ? `M${a} ${top}V${bottom - hop}A${hop} ${hop} 0 0 1 ${a} ${bottom + hop}` : `M${a} ${bottom}`;
  pen.path(part, `${length === null ? "stump" : "stub"} ${look}`, `${first}V${low}M${b} ${bottom}V${low}`);
  if (shunt) pen.path(`${part}-junction`, `dot ${look}`, ring(a, top, 0.22 * u) + ring(b, bottom, 0.22 * u));
  if (length === null) pen.text(`${part}-unknown`, `name ${side}`, x, y + 1.1 * u, ["?"], "middle");
  else if (end === "short") pen.path(`${part}-end`, `bar ${look}`, `M${a} ${y}H${b}`);
  else pen.path(`${part}-end`, `terminal ${look}`, ring(a, low, 0.2 * u) + ring(b, low, 0.2 * u));
  crossed.push([a - 0.4 * u, b + 0.4 * u]);
  pen.take(a - 0.3 * u, bottom, b - a + 0.6 * u, low - bottom + (length === null ? 1.3 : 0.2) * u);
}

// The name under the stub's end and what is known of its length beside it; where that is too tight, the length under
// the name.
function stubLabels(pen, line, picture, stub) {
  const bounds = {x: line.x, y: line.bottom + 0.4 * pen.u, w: line.w};
  bounds.h = line.y + line.h - bounds.y - 1.8 * pen.u;
  const labels = [under => lengthLabels(pen, line, picture, stub, bounds, under), () => nameLabel(pen, stub, bounds)];
  if (!stub.strong) nameLabel(pen, stub, bounds);
  else if (pen.tight) labels[0](labels[1]());
  else for (const label of labels) label(stub.y + 2.6 * pen.u);
}

// Returns the height under the name.
function nameLabel(pen, {side, length, x, y, out}, bounds) {
  const {u} = pen, end = y + (length === null ? u : 0);
  const name = {part: "name", marker: side, look: `name ${side}`, runs: [side]};
  const named = pen.block(`line-name-${side}`, [name], (w, h) => {
    const below = [0.5, 0.15, 0.85, 0, 1].map(share => [x - share * w, end + 0.75 * u]);
    const beside = [out, -out].map(way => [x + way * 1.6 * u - (way < 0 ? w : 0), end - h]);
    return [...below, ...beside, ...below.map(([left, top]) => [left, top + 1.4 * u])];
  }, bounds);
  return named.y + named.h + 0.5 * u;
}

// The length's arrow beside the stub and its texts beside the arrow, on the side with room for them.
function lengthLabels(pen, {x: left, w: broad, bottom, crossed}, picture, {x, y, out, length}, bounds, under) {
  const {u} = pen, ohms = {part: "ohms", runs: [picture.stub.text]};
  if (length === null) return pen.block("line-length", [ohms],
    w => [out, -out].map(way => [x + way * 1.6 * u - (way < 0 ? w : 0), bottom + 1.2 * u]), bounds);
  const mm = writtenMillimetres(length, picture.writing);
  const lines = [{part: "label", runs: [`_${picture.symbols.length}`, ` = ${writtenWaves(length, picture.writing)}`]},
    ...(mm ? [{part: "mm", runs: [mm]}] : []), ohms];
  const need = 2.25 * u + Math.max(...lines.map(line => pen.width(line.runs)));
  const fits = way => way > 0 ? x + need <= left + broad : x - need >= left;
  const way = !fits(out) && fits(-out) ? -out : out, arrow = x + way * 1.35 * u;
  pen.path("line-length-ends", "thin", `M${x + way * 0.9 * u} ${y}H${arrow + way * 0.4 * u}`);
  pen.dimension("line-length", arrow, bottom, arrow, y, true);
  const outside = y - bottom <= 1.65 * u;     // then the arrow also stands between the rails
  if (outside) crossed.push([arrow - 0.5 * u, arrow + 0.5 * u]);
  pen.take(arrow - 0.25 * u, bottom, 0.5 * u, y - bottom + (outside ? 1.1 * u : 0));
  return pen.block("line-length", lines, (w, h) => [way, -way].flatMap(to => [0, 0.6].flatMap(more => {
    const from = (to === way ? arrow + to * (0.9 + more) * u : x + to * (1.4 + more) * u) - (to < 0 ? w : 0);
    const along = [0.5, 0.3, 0.7, 0, 1].map(share => bottom + 0.5 * u + share * (y - bottom - h));
    return [...along, bottom + 1.8 * u, y - 0.5 * u, under].map(top => [from, top]);
  })), bounds);
}

// Between the rails, in the longest stretch that nothing crosses; where all are too short, under the rails.
function lineImpedance(pen, line, text) {
  const {u} = pen, crossed = line.crossed.sort(([one], [other]) => one - other);
  const ends = [[line.x, line.x + 4.9 * u], ...crossed, [line.load]];
  const stretches = ends.slice(1).map(([to], i) => ({from: ends[i][1], to, length: to - ends[i][1]}));
  const {from, to, length} = stretches.reduce((best, next) => next.length > best.length + 1e-6 ? next : best);
  const enough = length > pen.width([text]) + 0.4 * u, y = line.bottom + 0.6 * u;
  if (enough) return pen.text("line-impedance", "label", (from + to) / 2, line.middle + 0.36 * u, [text], "middle");
  const bounds = {x: line.x, y, w: line.w, h: line.y + line.h - y - 1.8 * u};
  const spots = [0, 1.6, 3.2, 4.8].flatMap(down => [0, 2, 4].map(k => [line.x + k * u, y + down * u]));
  return pen.block("line", [{part: "impedance", runs: [text]}], () => spots, bounds);
}
