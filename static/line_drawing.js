// The line with its load and its stub, to scale, and the same as copper on a board.
//
// `figure` is a pure function: from a picture, the lengths that are shown now, a width and the size of the type it
// makes a list of shapes, each a named part. `render` keeps them on the screen: a new picture moves them gently, a
// student's drag at once.

const NAMESPACE = "http://www.w3.org/2000/svg";
const SIDES = ["near", "far"];
const QUANTITIES = ["distance", "length"];
const COMMIT_MS = 350;
const LONGEST = 2;                   // wavelengths; a drag beyond it stops there

// Shapes of the whole drawing.
// values : lengths by side and quantity, null where unknown.  walking : keep room for any length while one is
// dragged.  attempt : where labels stand too close they are arranged otherwise, then the panels grow.
export function figure(picture, values, current, width, u, measure, walking = false, attempt = 0) {
  const pen = new Pen(u, measure, attempt > 0), more = Math.max(0, attempt - 1) * 2 * u;
  const {line, board, ...size} = frames(pen, picture, values, current, width, walking ? 0.5 : 0, more);
  drawLine(pen, picture, values, current, line);
  pen.taken = [];
  drawBoard(pen, picture, values, current, board);
  if (pen.crowded && attempt < 4) return figure(picture, values, current, width, u, measure, walking, attempt + 1);
  return {...size, shapes: pen.shapes};
}

// The panels' places: side by side where there is room, else one below the other, on one common scale that fits half
// a wavelength, or more if more is shown.
function frames(pen, picture, values, current, width, reserve, more) {
  const {u} = pen, wide = width >= 54 * u, gap = 2.4 * u, head = 7.4 * u, foot = 4.2 * u + more;
  const box = 1.1 * u + Math.max(2.6 * u, ...picture.load.map(text => pen.width([text])));
  const left = 7 * u, right = Math.max(2.4 * u + box, 7.4 * u);
  const panel = Math.min(Math.max(wide ? (width - gap) / 2 : width, left + right + 8 * u), 46 * u);
  const lengths = SIDES.map(side => values[side].length ?? 0), distances = SIDES.map(side => values[side].distance);
  const scale = Math.min(panel - left - right, 21 * u) / Math.max(0.5, ...lengths, ...distances);
  const bend = wide ? Infinity : Math.max(0.25 * scale, (picture.stub.placement === "series" ? 7.6 : 6) * u);
  const hanging = distances.some(distance => distance !== null);
  const depth = (...down) => hanging ? Math.max(5.6 * u, Math.max(reserve, ...down) * scale) : 2.6 * u;
  const line = {x: 0, y: 0, w: panel, h: head + depth(...lengths) + foot, load: panel - right, scale, box};
  const below = {x: 0, y: line.h + 1.2 * u, h: head + Math.min(depth(values[current].length), bend) + foot};
  const place = wide ? {x: panel + gap, y: 0, h: line.h} : below;
  const board = {...line, ...place, load: place.x + panel - right, bend};
  return {line, board, width: Math.max(width, board.x + panel), height: board.y + board.h};
}

// --- on the screen -------------------------------------------------------------------------------------------------

const plain = run => run.startsWith("_") ? run.slice(1) : run;

// Widths of texts in the drawing's own type.
function ruler(svg) {
  const context = document.createElement("canvas").getContext("2d"), widths = new Map();
  const {fontFamily, fontSize} = getComputedStyle(svg), size = parseFloat(fontSize);
  const symbols = `italic ${1.15 * size}px Georgia, "Times New Roman", serif`, texts = `${size}px ${fontFamily}`;
  const measure = run => {
    if (widths.has(run)) return widths.get(run);
    if (widths.size > 500) widths.clear();
    context.font = run.startsWith("_") ? symbols : texts;
    widths.set(run, context.measureText(plain(run)).width);
    return widths.get(run);
  };
  return {size, measure};
}

function paint(svg, nodes, {width, height, shapes}) {
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

function dress(node, {tag, look, d, breadth, x, y, anchor, runs}) {
  const wanted = tag === "text" ? {class: look, x, y, "text-anchor": anchor} : {class: look, d};
  for (const [name, value] of Object.entries(wanted)) {
    if (node.getAttribute(name) !== String(value)) node.setAttribute(name, value);
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

function page(el) {
  const make = (tag, name) => Object.assign(document.createElement(tag), {className: name});
  const svg = document.createElementNS(NAMESPACE, "svg"), root = make("figure", "figure");
  const words = make("figcaption", "words"), caption = make("p", "caption"), note = make("p", "note");
  svg.setAttribute("role", "img");
  words.append(caption, note);
  root.append(svg, words);
  el.append(root);
  return {svg, caption, note};
}

// --- what is shown now: the picture, over it what is dragged, and between two pictures the way ----------------------

const everyLength = make => Object.fromEntries(SIDES.map(side =>
  [side, Object.fromEntries(QUANTITIES.map(quantity => [quantity, make(side, quantity)]))]));

// A length that was unknown starts from nothing: a stub comes from the load, and grows from its junction.
function between(from, to, share) {
  return everyLength((side, quantity) => {
    const start = from[side][quantity] ?? 0, end = to[side][quantity];
    return end === null ? null : start + share * (end - start);
  });
}

// A walk is told by the chart; what is not one is not for this drawing.
function walkIn(detail) {
  const {quantity, side, wavelengths} = detail ?? {};
  if (!QUANTITIES.includes(quantity) || !SIDES.includes(side)) return null;
  if (wavelengths === null) return {quantity, side, value: null};
  return Number.isFinite(wavelengths) ? {quantity, side, value: Math.max(0, Math.min(wavelengths, LONGEST))} : null;
}

const kept = new WeakMap();          // by model, so that a second rendering goes on where the first one was

export function render({model, el}) {
  kept.get(model)?.stop();
  const fresh = {picture: model.picture, live: {}, side: null, shown: null, from: null, began: null};
  const state = kept.get(model) ?? fresh;
  kept.set(model, state);
  const {svg, caption, note} = page(el), nodes = new Map(), listening = new AbortController();
  let type = null, width = 0, asked = 0;

  const lengthNow = (side, quantity) => state.live[side]?.[quantity] ?? state.picture.sides[side][quantity];
  const ask = () => { asked ||= requestAnimationFrame(draw); };

  function draw(now) {
    asked = 0;
    const {picture, live, from} = state;
    if (!picture.sides) return paint(svg, nodes, {width: 1, height: 0, shapes: []});
    if (!width) return;
    if (from) state.began ??= now;
    const share = from ? Math.min((now - state.began) / COMMIT_MS, 1) : 1, side = state.side ?? picture.current;
    const wanted = everyLength(lengthNow), walking = live[side]?.length !== undefined;
    state.shown = share < 1 ? between(from, wanted, 1 - (1 - share) ** 3) : wanted;
    paint(svg, nodes, figure(picture, state.shown, side, width, type.size, type.measure, walking));
    if (share < 1) ask(); else state.from = null;
  }

  function say() {
    const {spoken = "", caption: words = "", note: warning = ""} = state.picture;
    svg.setAttribute("aria-label", spoken);
    caption.textContent = words;
    note.textContent = warning;
    note.hidden = !warning;
  }

  function show(picture) {
    const still = matchMedia("(prefers-reduced-motion: reduce)").matches;
    Object.assign(state, {picture, live: {}, side: null, from: still ? null : state.shown, began: null});
    say();
    ask();
  }

  function walk({detail}) {
    const walked = walkIn(detail);
    if (!walked) return;
    const {quantity, side, value} = walked;
    state.live = value === null ? {} : {...state.live, [side]: {...state.live[side], [quantity]: value}};
    Object.assign(state, {side: value === null ? null : side, from: null});
    ask();
  }

  const resized = new ResizeObserver(() => { type = ruler(svg); width = svg.clientWidth; ask(); });
  state.stop = () => { listening.abort(); resized.disconnect(); cancelAnimationFrame(asked); };
  document.addEventListener("halfturn:walk", walk, {signal: listening.signal});
  model.on("picture", () => show(model.picture));
  model.on("msg:custom", message => { if (svg.isConnected && message?.type === "picture") show(message.picture); });
  model.on("remove", () => { state.stop(); kept.delete(model); });
  resized.observe(svg.parentNode);
  say();
  document.documentElement.dataset.drawing = "ready";
}
