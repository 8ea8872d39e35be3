// @ts-check
// The view of the chart: how the plane of reflection lies on the screen, and what of the printed chart is shown at that
// size. The ink is drawn over it with the same mapping. To draw takes longer than a frame on a small machine: so while the
// view moves, what is drawn is moved and stretched along, and drawn anew where the view comes to rest.

/** @typedef {import("halfturn/parts/stage/types.d.ts").Pair} Pair */
/** @typedef {import("halfturn/parts/stage/types.d.ts").Layout} Layout */

const CLOSEST = 20; // how many times the whole chart can be enlarged
const NARROW = { compact: 440, middle: 560 }; // pixels of width under which the scales take a layout with more room
const REST = 120; // milliseconds without a change after which the view is at rest
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
  #timer = /** @type {ReturnType<typeof setTimeout> | undefined} */ (undefined);
  #stale = true;
  #drawn = { x: 0, y: 0, half: 0 };
  #wished = { scale: 0, letters: 0 };

  /**
   * @param {HTMLElement} box @param {Record<string, Layout>} layouts
   * @param {() => void} draw called when the view is at rest, once for a frame
   * @param {(transform: string) => void} slide called while it moves, with the way from what was drawn to what is seen
   */
  constructor(box, layouts, draw, slide) {
    this.box = box;
    this.layouts = layouts;
    this.draw = draw;
    this.slide = slide;
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
    this.layout = size < NARROW.compact || this.isAfar() ? "compact" : size < NARROW.middle ? "middle" : "regular";
    this.size = size;
    this.half = part * this.radii().extent;
    this.#keepWithin();
    this.refresh();
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

  /** Show the view as it is now: what is drawn slides there, and is drawn anew as soon as the view rests. */
  apply() {
    this.#keepWithin();
    if (!this.isGliding()) return;
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.refresh(), REST);
    this.#ask();
  }

  /** Draw anew in the next frame. */
  refresh() {
    if (!this.size) return;
    this.#stale = true;
    this.#ask();
  }

  /** Whether what is drawn is not what the view shows, but is on its way there. */
  isGliding() {
    const { x, y, half } = this.#drawn;
    return x !== this.x || y !== this.y || half !== this.half;
  }

  stop() {
    cancelAnimationFrame(this.#frame);
    clearTimeout(this.#timer);
  }

  #keepWithin() {
    const room = this.radii().extent - this.half;
    this.x = Math.min(room, Math.max(-room, this.x));
    this.y = Math.min(room, Math.max(-room, this.y));
  }

  #ask() {
    if (this.#frame) return;
    if (this.box.dataset.view !== "moving") this.box.dataset.view = "moving";
    this.#frame = requestAnimationFrame(() => this.#show());
  }

  #show() {
    this.#frame = 0;
    if (!this.#stale) return this.slide(this.#way());
    clearTimeout(this.#timer);
    this.#stale = false;
    this.#drawn = { x: this.x, y: this.y, half: this.half };
    this.slide("");
    this.draw();
    this.box.dataset.view = "still";
  }

  #way() {
    const { x, y, half } = this.#drawn, stretched = half / this.half;
    const left = (this.size / 2) * (1 - stretched) + (x - this.x) * this.scale();
    const top = (this.size / 2) * (1 - stretched) - (y - this.y) * this.scale();
    return `matrix(${stretched}, 0, 0, ${stretched}, ${left}, ${top})`;
  }
}
