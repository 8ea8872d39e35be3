// @ts-check
// Pointers, wheel and keys on the stage: what moves the hand, and what moves the view.

/** @typedef {import("halfturn/parts/stage/types.d.ts").Pair} Pair */
/** @typedef {import("halfturn/parts/stage/types.d.ts").Hand} Hand */
/** @typedef {import("halfturn/parts/stage/view.js").View} View */
/** @typedef {{pad: HTMLElement, view: View, hand: () => Hand | null, moved: (touched?: boolean) => void, handIn: () => void,
 *   sayReading: () => void}} Stage */

/** @type {Record<string, Pair>} */
const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
export const NEARER = 1.5; // of one press of + or of the button
const TAP = 12; // pixels that a tapping finger may slip
const CARRIED = /** @type {const} */ (["at", "walked", "turned", "asked", "index"]); // of a hand, what a drag changes

export class Input {
  /** @type {Map<number, Pair>} */
  #pointers = new Map();
  /** @type {"" | "pan" | "drag" | "pinch" | "tap"} */
  #mode = "";
  /** @type {Pair} where a finger came down */
  #down = [0, 0];
  #spaceHeld = false;
  /** The hand that is dragged, and as it was before. @type {Hand | null} */
  #carried = null;
  /** @type {any} */
  #before = null;
  #heard = new AbortController();

  /** @param {Stage} stage */
  constructor(stage) {
    this.stage = stage;
    this.pad = stage.pad;
    this.view = stage.view;
    const watchful = { passive: false };
    this.#listen("pointerdown", this.#onDown);
    this.#listen("pointermove", this.#onMove);
    this.#listen("pointerup", this.#onUp);
    this.#listen("pointercancel", this.#onUp);
    this.#listen("wheel", this.#onWheel, watchful);
    this.#listen("touchstart", this.#onTouch, watchful);
    this.#listen("touchmove", this.#onTouch, watchful);
    this.#listen("keydown", this.#onKey);
    this.#listen("keyup", (/** @type {KeyboardEvent} */ event) => { if (event.key === " ") this.#spaceHeld = false; });
    this.#listen("blur", () => { this.#spaceHeld = false; });
  }

  stop() { this.#heard.abort(); }

  /** @param {string} type @param {(event: any) => void} heard @param {AddEventListenerOptions} [options] */
  #listen(type, heard, options) {
    this.pad.addEventListener(type, heard.bind(this), { ...options, signal: this.#heard.signal });
  }

  /** @param {MouseEvent} event @returns {Pair} */
  #place(event) {
    const box = this.pad.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  }

  /** @param {PointerEvent} event */
  #onDown(event) {
    if (/** @type {Element} */ (event.target).closest("button")) return;
    this.#pointers.set(event.pointerId, this.#place(event));
    this.pad.classList.add("by-pointer");
    this.pad.focus({ preventScroll: true });
    if (this.#pointers.size === 2) this.#startPinch();
    if (this.#pointers.size > 1) return;
    const hand = this.stage.hand(), first = event.button === 0;
    if (event.button === 1 || this.#spaceHeld || (first && !hand && event.pointerType !== "touch")) this.#mode = "pan";
    else if (first && hand) this.#begin(hand, event);
    if (!this.#mode || this.#mode === "tap") return;
    event.preventDefault();
    this.pad.setPointerCapture(event.pointerId);
  }

  // A finger that is not on what can be held may be about to scroll: it counts when it is lifted where it came down.
  /** @param {Hand} hand @param {PointerEvent} event */
  #begin(hand, event) {
    const holds = event.pointerType !== "touch" || /** @type {Element} */ (event.target).closest(".hold");
    if (holds) return this.#startDrag(hand, event);
    this.#mode = "tap";
    this.#down = this.#place(event);
  }

  /** @param {Hand} hand @param {PointerEvent} event */
  #startDrag(hand, event) {
    this.#mode = "drag";
    this.#carried = hand;
    this.#before = { ...hand };
    this.#carry(this.#place(event));
  }

  /** @param {Pair} place */
  #carry(place) {
    this.#carried?.moveTo(this.view.toChart(place));
    this.stage.moved();
  }

  /** A second finger means that the view is to be moved: the hand goes back to where it was. */
  #startPinch() {
    if (this.#mode === "drag") this.#putBack();
    this.#mode = "pinch";
    for (const id of this.#pointers.keys()) try { this.pad.setPointerCapture(id); } catch { /* already lifted */ }
  }

  #putBack() {
    /** @type {any} */
    const hand = this.stage.hand();
    if (!hand || hand !== this.#carried) return;
    for (const name of CARRIED) if (Object.getOwnPropertyDescriptor(hand, name)?.writable) hand[name] = this.#before[name];
    this.stage.moved(this.#before.touched);
  }

  /** @param {PointerEvent} event */
  #onMove(event) {
    const old = this.#pointers.get(event.pointerId), now = this.#place(event);
    if (!old) return;
    if (this.#mode === "pinch" && this.#pointers.size === 2) this.#pinch(event.pointerId, old, now);
    else if (this.#mode === "pan") this.view.pan(now[0] - old[0], now[1] - old[1]);
    else if (this.#mode === "drag" && this.stage.hand() === this.#carried) this.#carry(now);
    this.#pointers.set(event.pointerId, now);
  }

  /** @param {number} finger @param {Pair} old @param {Pair} now */
  #pinch(finger, old, now) {
    const [other] = [...this.#pointers].filter(([id]) => id !== finger).map(([, place]) => place);
    const [was, is] = [old, now].map(([x, y]) => Math.hypot(x - other[0], y - other[1]));
    this.view.pan((now[0] - old[0]) / 2, (now[1] - old[1]) / 2);
    if (was > 0) this.view.enlarge(is / was, [(now[0] + other[0]) / 2, (now[1] + other[1]) / 2]);
  }

  /** @param {PointerEvent} event */
  #onUp(event) {
    if (!this.#pointers.delete(event.pointerId)) return;
    if (this.#mode === "tap") this.#tap(event);
    const dragged = this.#mode === "drag";
    if (!this.#pointers.size || dragged) this.#mode = "";
    if (!dragged || this.stage.hand() !== this.#carried) return; // what was asked may have changed meanwhile
    if (event.type === "pointercancel") this.#putBack();
    else this.stage.handIn();
  }

  /** @param {PointerEvent} event */
  #tap(event) {
    const [x, y] = this.#place(event), hand = this.stage.hand();
    this.#mode = "";
    if (event.type === "pointercancel" || Math.hypot(x - this.#down[0], y - this.#down[1]) > TAP || !hand) return;
    this.#startDrag(hand, event);
  }

  /** @param {WheelEvent} event */
  #onWheel(event) {
    if (!event.ctrlKey) return;
    event.preventDefault();
    this.view.enlarge(Math.exp(-event.deltaY * (event.deltaMode ? 0.05 : 0.0025)), this.#place(event));
  }

  /** @param {TouchEvent} event */
  #onTouch(event) {
    if (event.touches.length > 1) event.preventDefault();
  }

  /** @param {KeyboardEvent} event */
  #onKey(event) {
    if (event.target !== this.pad || event.ctrlKey || event.metaKey || event.altKey) return;
    this.pad.classList.remove("by-pointer");
    if (!this.#press(event.key, event.shiftKey)) return;
    event.preventDefault();
    event.stopPropagation();
  }

  /** Whether a key meant something. @param {string} key @param {boolean} fine */
  #press(key, fine) {
    const { view } = this, hand = this.stage.hand();
    if (key === "+" || key === "=") view.enlarge(NEARER, hand?.at ? view.toScreen(hand.at) : undefined);
    else if (key === "-" || key === "_" || key === "−") view.enlarge(1 / NEARER);
    else if (key === "0") view.whole();
    else if (key === " ") this.#spaceHeld = true;
    else if (key === "Escape" && this.#mode === "drag") { this.#mode = ""; this.#putBack(); }
    else if (key === "Enter" && hand) this.stage.handIn();
    else return key in ARROWS && this.#arrow(ARROWS[key], hand, fine);
    return true;
  }

  /** @param {Pair} way @param {Hand | null} hand @param {boolean} fine */
  #arrow(way, hand, fine) {
    if (!hand && this.view.isWhole()) return false;
    if (!hand) { this.view.pan(-60 * way[0], 60 * way[1]); return true; }
    hand.press(way, fine);
    this.stage.moved();
    this.stage.sayReading();
    if (hand.at) this.view.reveal(hand.at);
    return true;
  }
}
