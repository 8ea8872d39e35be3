// @ts-check
// The view of the chart: how the plane of reflection lies on the screen, and what of the printed chart is shown at that
// size. The ink is drawn over it with the same mapping.

/** @typedef {import("./types.d.ts").Pair} Pair */
/** @typedef {import("./types.d.ts").Layout} Layout */

const CLOSEST = 20; // how many times the whole chart can be enlarged
const COMPACT_BELOW = 440; // pixels of width under which the scales take the compact layout
const LETTERS = { of: 0.033, least: 9, most: 16 }; // size of printed numbers, by the radius of the whole chart
const PRINTED = 0.54; // size of printed numbers, by that of letters beside strokes, where a page sets it

export class View {
  x = 0;
  y = 0;
  half = 0; // of the side of the square that is seen
  size = 0; // of its side on the screen, in pixels
  layout = "";
  grid = "half turn";
  unit = "wavelengths";
  #frame = 0;
  #wished = { scale: 0, letters: 0 };

  /** @param {HTMLElement} box @param {Record<string, Layout>} layouts @param {() => void} draw called once for a frame */
  constructor(box, layouts, draw) {
    this.box = box;
    this.layouts = layouts;
    this.draw = draw;
  }

  radii() { return this.layouts[this.layout]; }
  scale() { return this.size / (2 * this.half); }

  /** @param {Pair} point @returns {Pair} */
  toScreen([u, v]) {
    const scale = this.scale();
    return [(u - this.x) * scale + this.size / 2, (this.y - v) * scale + this.size / 2];
  }

  /** @param {Pair} place @returns {Pair} */
  toChart([left, top]) {
    return [(left - this.size / 2) / this.scale() + this.x, this.y - (top - this.size / 2) / this.scale()];
  }

  letters() {
    const usual = Math.min(LETTERS.most, Math.max(LETTERS.least, (LETTERS.of * this.size) / (2 * this.radii().extent)));
    return PRINTED * this.#wished.letters || usual;
  }

  isAfar() { return this.#wished.letters > 0; }
  inkScale() { return this.#wished.scale || 1; }
  inkLetters() { return this.#wished.letters || Math.max(11.5, 1.2 * this.letters()); }
  isWhole() { return this.half >= this.radii().extent * 0.999; }

  /** @param {Pair} place */
  holds([x, y]) { return x >= 0 && y >= 0 && x <= this.size && y <= this.size; }

  // A page that is seen from afar sets --stage-scale, for strokes and markers, and --stage-letters, in pixels. Looked up
  // once for a size: asking in the middle of drawing would have the browser work out all styles each time.
  measure() {
    const size = this.box.clientWidth, style = getComputedStyle(this.box);
    if (!size) return;
    const ask = (/** @type {string} */ name) => Number(style.getPropertyValue(name)) || 0;
    this.#wished = { scale: ask("--stage-scale"), letters: ask("--stage-letters") };
    const part = this.layout ? this.half / this.radii().extent : 1;
    this.layout = size < COMPACT_BELOW || this.isAfar() ? "compact" : "regular";
    this.size = size;
    this.half = part * this.radii().extent;
    this.apply();
  }

  /** Enlarge about a place on the screen that stays where it is. @param {number} factor @param {Pair} [at] */
  enlarge(factor, at = [this.size / 2, this.size / 2]) {
    const kept = this.toChart(at), { extent } = this.radii();
    this.half = Math.min(extent, Math.max(extent / CLOSEST, this.half / factor));
    const moved = this.toChart(at);
    this.x += kept[0] - moved[0];
    this.y += kept[1] - moved[1];
    this.apply();
  }

  /** @param {number} right @param {number} down */
  pan(right, down) {
    this.x -= right / this.scale();
    this.y += down / this.scale();
    this.apply();
  }

  whole() {
    this.half = this.radii().extent;
    this.apply();
  }

  /** Bring a point of the chart into view. @param {Pair} point */
  reveal([u, v]) {
    const room = 0.9 * this.half;
    this.x = Math.min(Math.max(this.x, u - room), u + room);
    this.y = Math.min(Math.max(this.y, v - room), v + room);
    this.apply();
  }

  apply() {
    const room = this.radii().extent - this.half;
    this.x = Math.min(room, Math.max(-room, this.x));
    this.y = Math.min(room, Math.max(-room, this.y));
    if (this.#frame) return;
    this.box.dataset.view = "moving";
    this.#frame = requestAnimationFrame(() => this.#show());
  }

  #show() {
    this.#frame = 0;
    this.draw();
    this.box.dataset.view = "still";
  }

  stop() { cancelAnimationFrame(this.#frame); }
}
