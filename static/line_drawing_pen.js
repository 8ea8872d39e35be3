// The drawing's pen: lengths as the course writes them, shapes as named parts, and labels that look for room.
// Measures are in pixels; `u` is the size of the type, and everything but the scale of the line grows with it.

// Fixed decimals as Python writes them: what lies exactly between two goes to the even digit.
export function fixed(value, decimals) {
  const digits = value.toFixed(60), end = digits.length - 60 + decimals;
  const below = digits.slice(0, end).replace(/\.$/, "");
  return /^50*$/.test(digits.slice(end)) && /[02468]$/.test(below) ? below : value.toFixed(decimals);
}

// A length with its unit: twin of Notation.wavelengths, with the decimals and the unit that came from there.
export function writtenWaves(wavelengths, {in_a_wavelength, decimals, unit}) {
  return fixed(wavelengths * in_a_wavelength, decimals) + unit;
}

// The same in millimetres, or nothing where no frequency is given: twin of Millimetres.write.
export function writtenMillimetres(wavelengths, {wavelength_mm}) {
  return wavelength_mm === null ? "" : `${fixed(wavelengths * wavelength_mm, 1)} mm`;
}

const ring = (x, y, r) => `M${x - r} ${y}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`;
const rectangle = (x, y, w, h) => `M${x} ${y}h${w}v${h}h${-w}Z`;
const grown = ({x, y, w, h}, dx, dy) => ({x: x - dx, y: y - dy, w: w + 2 * dx, h: h + 2 * dy});

function overlap(a, b) {
  const w = Math.min(a.x + a.w, b.x + b.w) - Math.max(a.x, b.x);
  const h = Math.min(a.y + a.h, b.y + b.h) - Math.max(a.y, b.y);
  return w > 0 && h > 0 ? w * h : 0;
}

class Pen {
  // measure : the width of a run of text.  tight : room is known to be scarce.  taken : boxes where no label may
  // stand.  crowded : one had to stand there, or too close.
  constructor(u, measure, tight) {
    Object.assign(this, {u, measure, tight, shapes: [], taken: [], ground: "", crowded: false});
  }

  // Coordinates are rounded to hundredths: what is finer cannot be seen. `breadth` : of a stroke that is copper.
  path(part, look, d, breadth) {
    const rounded = d.replace(/-?[\d.]+(e-?\d+)?/g, number => +(+number).toFixed(2));
    this.shapes.push({tag: "path", part, look, d: rounded, breadth});
  }

  // runs : texts; one that starts with an underscore is a symbol, set in italics.
  text(part, look, x, y, runs, anchor = "start") {
    const place = {x: +x.toFixed(2), y: +y.toFixed(2), anchor};
    this.shapes.push({tag: "text", part, look: look + this.ground, runs, ...place});
  }

  width(runs) {
    return runs.reduce((sum, run) => sum + this.measure(run), 0);
  }

  take(x, y, w, h) {
    this.taken.push({x, y, w, h});
  }

  // The first of `spots` (upper left corners) where a box stands clear of all that is taken, or the least bad one.
  room(w, h, spots, bounds) {
    let best = null;
    for (const [left, top] of spots) {
      const x = Math.max(bounds.x, Math.min(left, bounds.x + bounds.w - w));
      const y = Math.max(bounds.y, Math.min(top, bounds.y + bounds.h - h));
      const wanted = grown({x, y, w, h}, 0.6 * this.u, 0.4 * this.u);
      const cost = this.taken.reduce((sum, box) => sum + overlap(wanted, box), 0);
      if (best === null || cost < best.cost - 1e-6) best = {x, y, w, h, cost};
    }
    this.crowded ||= this.taken.some(box => overlap(grown(best, 0.2 * this.u, 0.2 * this.u), box) > 0);
    this.taken.push(best);
    return best;
  }

  // Lines of text where there is room, a line with the marker of its side if it names one. `spots` : made from the
  // block's width and height.
  block(part, lines, spots, bounds) {
    const step = 1.35 * this.u, indent = line => line.marker ? 1.05 * this.u : 0;
    const w = Math.max(...lines.map(line => this.width(line.runs) + indent(line))), h = step * lines.length;
    const at = this.room(w, h, spots(w, h), bounds);
    lines.forEach((line, i) => {
      const y = at.y + step * (i + 0.8);
      if (line.marker) this.marker(`${part}-marker`, line.marker, at.x + 0.4 * this.u, y - 0.36 * this.u);
      this.text(`${part}-${line.part}`, line.look ?? "label", at.x + indent(line), y, line.runs);
    });
    return at;
  }

  marker(part, side, x, y) {
    const r = 0.42 * this.u;
    this.path(part, `marker ${side}`, side === "near"
      ? `M${x} ${y - r}L${x + r} ${y + 0.8 * r}H${x - r}Z`
      : `M${x} ${y - r}L${x + r} ${y}L${x} ${y + r}L${x - r} ${y}Z`);
  }

  // A dimension along x, or upright along y; where it is short its arrows stand outside and point inward.
  dimension(part, x1, y1, x2, y2, upright = false) {
    const h = 0.55 * this.u, inside = Math.hypot(x2 - x1, y2 - y1) > 3 * h;
    const [ex, ey] = upright ? [0, 1] : [1, 0], tail = inside ? 0 : 2 * h;
    const head = (x, y, way) => {
      const bx = x + way * h * ex, by = y + way * h * ey, side = 0.3 * h;
      return `M${x} ${y}L${bx + side * ey} ${by + side * ex}L${bx - side * ey} ${by - side * ex}Z`;
    };
    this.path(part, "thin", `M${x1 - tail * ex} ${y1 - tail * ey}L${x2 + tail * ex} ${y2 + tail * ey}`);
    this.path(`${part}-heads`, "head", head(x1, y1, inside ? 1 : -1) + head(x2, y2, inside ? -1 : 1));
  }
}

// --- what both panels have: a heading, the distance above, the scale below ------------------------------------------

const across = (frame, distance) => frame.load - distance * frame.scale;

function heading(pen, frame, part, text) {
  pen.text(`${part}-heading`, "heading", frame.x, frame.y + pen.u, [text]);
}

function distanceDimension(pen, frame, part, {symbols, writing}, distance, tail) {
  const {u} = pen, y = frame.y + 3.7 * u, x = across(frame, distance);
  pen.path(`${part}-distance-ends`, "thin", `M${x} ${y - 0.5 * u}V${tail}M${frame.load} ${y - 0.5 * u}V${tail}`);
  pen.dimension(`${part}-distance`, x, y, frame.load, y);
  const waves = writtenWaves(distance, writing), mm = writtenMillimetres(distance, writing);
  const runs = [`_${symbols.distance}`, ` = ${part === "board" && mm ? mm : mm ? `${waves} = ${mm}` : waves}`];
  const half = pen.width(runs) / 2;
  const middle = Math.max(frame.x + half, Math.min((x + frame.load) / 2, frame.x + frame.w - half));
  pen.text(`${part}-distance-label`, "label", middle, y - 0.75 * u, runs, "middle");
}

function scaleBar(pen, frame, part, {writing}, aside = "") {
  const {u} = pen, x = frame.x + 0.5, y = frame.y + frame.h - 0.7 * u, end = x + frame.scale / 8;
  const mm = writtenMillimetres(1 / 8, writing), tick = `m0 ${-0.3 * u}v${0.6 * u}`;
  pen.path(`${part}-scale`, "thin", `M${x} ${y}H${end}M${x} ${y}${tick}M${end} ${y}${tick}`);
  pen.text(`${part}-scale-label`, "quiet", end + 0.6 * u, y + 0.36 * u, [writing.eighth + (mm && ` = ${mm}`) + aside]);
}
