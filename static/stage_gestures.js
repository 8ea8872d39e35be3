// Answers drawn by hand: what can be moved in each kind of gesture, what is read off meanwhile, and what is handed in.
// A gesture works on points of the chart; pointers and keys are dealt with in stage_input.js.

const STEP = { length: 0.005, chart: 0.01 }; // of one press of an arrow key; a tenth of it with Shift
const REACH = 44; // pixels from a named point within which a tap picks it

const HINTS = {
  place: "Tap or drag to put the point. Arrow keys move it by 0.01, with Shift by 0.001; Enter hands it in.",
  "on circle": "Tap or drag to put the point on the circle. Arrow keys move it along by 0.01, with Shift by 0.001; Enter hands it in.",
  radius: "Drag to open the circle about the centre. Arrow keys change its radius by 0.01, with Shift by 0.001; Enter hands it in.",
  along:
    "Drag along the circle, either way round. Right walks 0.005 λ toward the generator, Left toward the load; with Shift 0.0005 λ. Enter hands it in.",
  pick: "Tap one of the points. Arrow keys go from one to the next; Enter hands it in.",
};

// A hand that carries out a task from Python; null where nothing is asked.
function makeHand(task, view, notation) {
  if (!task) return null;
  const hand = HANDS[task.kind](task, view);
  hand.task = task;
  hand.touched = false;
  hand.read = () => readingsOf(task, hand, notation);
  return hand;
}

const HANDS = {
  place: ({ start = [0, 0] }) => ({
    at: start,
    moveTo(point) { this.at = withinRim(point); },
    press([right, up], fine) { this.moveTo([this.at[0] + right * stepOf("chart", fine), this.at[1] + up * stepOf("chart", fine)]); },
    answer() { return this.at; },
  }),

  "on circle": ({ center, radius }) => ({
    at: [center[0], center[1] + radius],
    turnTo(angle) { this.at = [center[0] + radius * Math.cos(angle), center[1] + radius * Math.sin(angle)]; },
    moveTo([u, v]) { this.turnTo(Math.atan2(v - center[1], u - center[0])); },
    press([right, up], fine) {
      const angle = Math.atan2(this.at[1] - center[1], this.at[0] - center[0]);
      this.turnTo(angle + ((up - right) * stepOf("chart", fine)) / Math.max(radius, 0.05));
    },
    answer() { return withinRim(this.at); },
  }),

  radius: () => ({
    at: [0.5, 0],
    size() { return Math.hypot(...this.at); },
    moveTo(point) { this.at = withinRim(point); },
    press([right, up], fine) {
      const size = Math.min(1, Math.max(0, this.size() + (right + up) * stepOf("chart", fine)));
      this.at = this.size() ? onRadius(this.at, size) : [size, 0];
    },
    answer() { return this.size(); },
  }),

  along: ({ start }) => ({
    at: start,
    walked: 0,
    asked: 0, // how far the hand has gone, which may be further than half a wavelength
    walk(distance) {
      this.asked = distance;
      this.walked = Math.min(0.5, Math.max(-0.5, distance));
      this.at = walkedFrom(start[0], start[1], this.walked);
    },
    moveTo([u, v]) {
      const from = walkedFrom(start[0], start[1], this.asked);
      this.walk(this.asked + wavelengthsOfTurn(turnBetween(Math.atan2(from[1], from[0]), Math.atan2(v, u))));
    },
    press([right, up], fine) { this.walk(this.walked + (right - up) * stepOf("length", fine)); },
    settle() { this.asked = this.walked; },
    answer() { return this.walked; },
  }),

  pick: ({ points }, view) => ({
    index: -1,
    get at() { return this.index < 0 ? null : points[this.index].slice(1); },
    moveTo(point) {
      const [x, y] = view.toScreen(point);
      const away = points.map(([, u, v]) => { const at = view.toScreen([u, v]); return Math.hypot(at[0] - x, at[1] - y); });
      const nearest = away.indexOf(Math.min(...away));
      this.index = away[nearest] <= REACH ? nearest : -1;
    },
    press([right, up]) { this.index = (this.index + points.length + (this.index < 0 && right + up < 0 ? 0 : Math.sign(right - up))) % points.length; },
    answer() { return this.index < 0 ? null : points[this.index][0]; },
  }),
};

function stepOf(kind, fine) {
  return fine ? STEP[kind] / 10 : STEP[kind];
}

function withinRim([u, v]) {
  const size = Math.hypot(u, v);
  return size > 1 ? [u / size, v / size] : [u, v];
}

// Name and value of each quantity that is read off while a hand moves.
function readingsOf(task, hand, notation) {
  if (!hand.at) return [];
  const number = (value) => written(value, notation.decimals);
  const [u, v] = hand.at, size = Math.hypot(u, v);
  if (task.kind === "radius") return [["|Γ|", number(size)], ["SWR", written(standingWaveRatio(size), 2)]];
  const parts = immittanceReadings(task, hand.at, number);
  const scale = ["on the scale", writtenLength(rimPosition(u, v), notation)];
  if (task.kind === "along") return [walkReading(hand.walked, notation), scale, ...parts];
  if (task.kind === "pick") return [["point", hand.answer()], ...parts];
  if (task.kind === "on circle") return [...parts, scale];
  return [...parts, ["|Γ|", number(size)], ["angle", writtenAngle(Math.atan2(v, u), notation)]];
}

function immittanceReadings(task, [u, v], number) {
  const [real, imaginary] = task.turned || task.read_as === "impedance" ? impedance(u, v) : admittance(u, v);
  const names = task.read_as === "impedance" ? ["r", "x"] : ["g", "b"];
  return [[names[0], number(real)], [names[1], number(imaginary)]];
}

function walkReading(walked, notation) {
  const sense = walked > 0 ? " toward generator" : walked < 0 ? " toward load" : "";
  return ["walked", writtenLength(Math.abs(walked), notation) + sense];
}

// What a hand draws: attributes of the shapes, in order.
function handShapes(view, hand) {
  if (!hand) return [];
  const { task } = hand, shapes = [];
  if (task.kind === "pick") return pickShapes(view, hand);
  if (task.kind === "on circle") shapes.push({ class: "guide", d: arcPath(view, task.center, task.radius, 0, 2 * Math.PI) });
  if (task.kind === "radius") shapes.push({ class: "trail", d: arcPath(view, [0, 0], hand.size(), 0, 2 * Math.PI) });
  if (task.kind === "along") shapes.push(...trailShapes(view, task.start, hand.walked));
  const [x, y] = view.toScreen(hand.at);
  return [...shapes, { class: "grip", d: ringPath([x, y], 9) }, { class: "dot", d: ringPath([x, y], 2) }];
}

function trailShapes(view, start, walked) {
  const radius = Math.hypot(...start), from = Math.atan2(start[1], start[0]), turn = -4 * Math.PI * walked;
  const guide = { class: "guide", d: arcPath(view, [0, 0], radius, 0, 2 * Math.PI) };
  const origin = { class: "dot", d: ringPath(view.toScreen(start), 4) };
  if (!turn) return [guide, origin];
  const short = Math.abs(turn) * radius * view.scale() < 30;
  const line = { class: "trail", d: arcPath(view, [0, 0], radius, from, turn) };
  const head = arrowhead(...penOnArc(view, { center: [0, 0], radius, start: from }, turn - Math.sign(turn) * (9 / (radius * view.scale()))));
  return [guide, origin, line, ...(short ? [] : [{ class: "head", ...head }])];
}

function pickShapes(view, hand) {
  return hand.task.points.flatMap(([key, u, v], index) => {
    const at = view.toScreen([u, v]), chosen = index === hand.index;
    const ring = { class: chosen ? "grip chosen" : "grip", d: ringPath(at, 14) };
    const name = { class: "target", x: at[0], y: at[1] - 19, text: key };
    return chosen ? [ring, { class: "dot", d: ringPath(at, 5) }, name] : [ring, name];
  });
}

// A shape of the hand as an element: a text where it has one, else a path.
function handNode({ text, ...attributes }) {
  return text === undefined ? shape("path", attributes) : shape("text", attributes, text);
}
