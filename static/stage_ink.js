// The ink: strokes drawn over the printed chart, each with the colour, dash and marker of its role (static/stage.css).
// Everything is placed in pixels, so lines and letters keep their size at any zoom.

const SVG = "http://www.w3.org/2000/svg";
const LONGEST_DRAWING = 1200; // milliseconds for all that is new, at most
const TEMPO = { point: 180, ring: 250, cross: 420, ray: 350, curve: 480, way: 520 };
const LANE = 6; // pixels between walks on one circle
const SHORT_OF_POINT = 7; // pixels between the tip of an arrow and the point that it leads to
const MARKERS = {
  load: "M-5 -5H5V5H-5Z",
  first: "M0 -7L6.5 5H-6.5Z",
  second: "M0 -7L7 0L0 7L-7 0Z",
  other: "M4 0A4 4 0 1 1 -4 0A4 4 0 1 1 4 0Z",
};

function shape(tag, attributes, text) {
  const node = document.createElementNS(SVG, tag);
  for (const [name, value] of Object.entries(attributes)) node.setAttribute(name, value);
  if (text !== undefined) node.textContent = text;
  return node;
}

// Path of an arc about a point of the chart, from an angle through a turn (counter-clockwise above zero).
function arcPath(view, [u, v], radius, start, turn) {
  const pieces = Math.max(1, Math.ceil(Math.abs(turn) / 2)), size = radius * view.scale();
  let path = "";
  for (let i = 0; i <= pieces; i++) {
    const angle = start + (turn * i) / pieces;
    const [x, y] = view.toScreen([u + radius * Math.cos(angle), v + radius * Math.sin(angle)]);
    path += i ? `A${size} ${size} 0 0 ${turn > 0 ? 0 : 1} ${x} ${y}` : `M${x} ${y}`;
  }
  return path;
}

// An arrowhead at a place on the screen, pointing along a direction on the screen.
function arrowhead([x, y], direction, size = 1) {
  const degrees = (direction * 180) / Math.PI;
  return { d: "M0 0L-11 -4.5L-8.5 0L-11 4.5Z", transform: `translate(${x} ${y}) rotate(${degrees}) scale(${size})` };
}

// The point where a curve has got to, and the direction of the pen there on the screen.
function penOnArc(view, { center: [u, v], radius, start }, turn) {
  const angle = start + turn, at = [u + radius * Math.cos(angle), v + radius * Math.sin(angle)];
  return [view.toScreen(at), -angle - (Math.sign(turn) * Math.PI) / 2];
}

// How each kind of stroke looks when a part of it is drawn: attributes of its line, arrowhead and marker.
const DRAWINGS = {
  point: (view, stroke, part) => {
    const [x, y] = view.toScreen(stroke.at), size = part < 1 ? part * (2.2 - 1.2 * part) : 1;
    return { mark: { d: MARKERS[stroke.role] ?? MARKERS.other, transform: `translate(${x} ${y}) scale(${size * view.inkScale()})` } };
  },
  ring: (view, { at }, part) => ({ line: { d: ringPath(view.toScreen(at), 13 * view.inkScale() * part) } }),
  curve: (view, { center, radius }, part) => ({ line: { d: arcPath(view, center, radius, 0, 2 * Math.PI * part) } }),
  way: (view, stroke, part) => {
    const turn = stroke.sweep * part;
    const line = { d: arcPath(view, stroke.center, stroke.radius, stroke.start, turn) };
    const size = view.inkScale(), short = (size * SHORT_OF_POINT) / (stroke.radius * view.scale());
    return Math.abs(turn) < 3 * short ? { line } : { line, arrow: arrowhead(...penOnArc(view, stroke, turn - Math.sign(turn) * short), size) };
  },
  cross: (view, { from, to }, part) => {
    const [x0, y0] = view.toScreen(from), [x1, y1] = view.toScreen(to);
    const size = view.inkScale(), length = Math.hypot(x1 - x0, y1 - y0) || 1, tip = Math.max(0, part - (size * SHORT_OF_POINT) / length);
    const line = { d: `M${x0} ${y0}L${x0 + (x1 - x0) * part} ${y0 + (y1 - y0) * part}` };
    return { line, arrow: arrowhead([x0 + (x1 - x0) * tip, y0 + (y1 - y0) * tip], Math.atan2(y1 - y0, x1 - x0), size) };
  },
  ray: (view, { at }, part) => {
    const [x0, y0] = view.toScreen([0, 0]), [x1, y1] = view.toScreen(onRadius(at, view.radii().tick * part));
    return { line: { d: `M${x0} ${y0}L${x1} ${y1}` } };
  },
};

function ringPath([x, y], size) {
  return `M${x + size} ${y}A${size} ${size} 0 1 1 ${x - size} ${y}A${size} ${size} 0 1 1 ${x + size} ${y}`;
}

// A second walk on the same circle is drawn a little outside of the first.
function inLane(stroke, lanes, view) {
  if (stroke.kind !== "way") return stroke;
  const circle = [...stroke.center, stroke.radius].map((value) => value.toFixed(6)).join(), lane = lanes.get(circle) ?? 0;
  lanes.set(circle, lane + 1);
  return { ...stroke, radius: stroke.radius + (lane * LANE * view.inkScale()) / view.scale() };
}

function onRadius([u, v], radius) {
  const size = Math.hypot(u, v) || 1;
  return [(u / size) * radius, (v / size) * radius];
}

function makeInk(layer, view) {
  const lines = layer.appendChild(shape("g", {})), marks = layer.appendChild(shape("g", {}));
  const labels = layer.appendChild(shape("g", {}));
  let groups = [], drawn = [], run = 0;

  function redraw() {
    for (const part of [lines, marks, labels]) part.replaceChildren();
    layer.style.setProperty("--letters", `${view.inkLetters()}px`);
    const lanes = new Map();
    drawn = groups.flatMap((group) => group.strokes.map((stroke) => draw(inLane(stroke, lanes, view), stroke, group)));
    placeLabels(view, drawn).forEach((placed) => writeLabel(labels, placed));
  }

  function draw(stroke, given, group) {
    const look = `role-${stroke.role} kind-${stroke.kind} ${group.current ? "current" : "calm"}`;
    const item = { stroke, current: group.current, part: group.parts?.get(given) ?? 1, given, nodes: {} };
    item.update = () => {
      const pieces = DRAWINGS[stroke.kind](view, stroke, item.part);
      for (const name of ["line", "arrow", "mark"]) {
        if (pieces[name] && !item.nodes[name]) {
          item.nodes[name] = (name === "mark" ? marks : lines).appendChild(shape("path", { class: `${name} ${look}` }));
        }
        for (const [key, value] of Object.entries(pieces[name] ?? {})) item.nodes[name].setAttribute(key, value);
      }
      item.labelNode?.classList.toggle("unwritten", item.part < 1);
      for (const node of Object.values(item.nodes)) node.classList.toggle("undrawn", item.part === 0);
    };
    item.update();
    return item;
  }

  // Show groups of strokes in place of those there; with `animate`, draw one after another whatever is new.
  function show(next, animate) {
    run++;
    const drawnAs = ({ value, spoken, ...line }) => JSON.stringify(line); // a value may be withheld, and told later
    const before = new Set(groups.flatMap((group) => group.strokes.map(drawnAs)));
    const fresh = next.flatMap((group) => group.strokes).filter((stroke) => !before.has(drawnAs(stroke)));
    const moving = animate && fresh.length && !matchMedia("(prefers-reduced-motion: reduce)").matches;
    const parts = new Map(moving ? fresh.map((stroke) => [stroke, 0]) : []);
    groups = next.map((group) => ({ ...group, parts }));
    if (view.size) redraw();
    if (moving) play(fresh, parts, run);
  }

  function play(fresh, parts, mine) {
    const inTurn = [...fresh.filter((stroke) => stroke.kind !== "point"), ...fresh.filter((stroke) => stroke.kind === "point")];
    const wished = inTurn.reduce((sum, stroke) => sum + TEMPO[stroke.kind], 0);
    const pace = Math.min(1, LONGEST_DRAWING / wished);
    let started = null;
    const step = (now) => {
      if (mine !== run) return;
      started ??= now;
      let begins = started;
      for (const stroke of inTurn) {
        const lasts = TEMPO[stroke.kind] * pace, ends = begins + lasts;
        parts.set(stroke, now >= ends ? 1 : Math.max(0, (now - begins) / lasts)); // exactly 1, however times are rounded
        begins = ends;
      }
      for (const item of drawn) {
        const part = parts.get(item.given) ?? 1;
        if (part !== item.part) { item.part = part; item.update(); }
      }
      if (now < begins) requestAnimationFrame(step);
    };
    requestAnimationFrame(step);
  }

  // Directions of the rays that are drawn, in radians.
  const rays = () => groups.flatMap((group) => group.strokes).filter(({ kind }) => kind === "ray").map(({ at: [u, v] }) => Math.atan2(v, u));

  return { show, redraw, rays };
}

// The text beside a stroke: its name, its value, or both; only one of them where there is little room.
function labelText({ label, value }, brief) {
  return label && value && !brief ? `${label} = ${value}` : label || value;
}

function writeLabel(layer, { item, text, x, y, patch }) {
  const node = layer.appendChild(shape("g", { class: `label role-${item.stroke.role} ${item.current ? "current" : "calm"}` }));
  if (patch) node.append(shape("rect", { x: x - patch[0] / 2, y: y - patch[1] / 2, width: patch[0], height: patch[1], rx: 3 }));
  node.append(shape("text", { x, y, "text-anchor": "middle", dy: "0.35em" }, text));
  item.labelNode = node;
  node.classList.toggle("unwritten", item.part < 1);
}
