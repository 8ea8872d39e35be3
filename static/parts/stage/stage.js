// @ts-check
// The stage: the printed chart, the ink over it, the hand that draws an answer, and all of it in words.

import { drawEdges } from "halfturn/parts/stage/edges.js";
import { handNodes } from "halfturn/parts/stage/hand_shapes.js";
import { hintFor, isTouched, touchHintFor } from "halfturn/parts/stage/hints.js";
import { makeHand } from "halfturn/parts/stage/hands.js";
import { Ink } from "halfturn/parts/stage/ink.js";
import { Input, NEARER } from "halfturn/parts/stage/input.js";
import { drawNames } from "halfturn/parts/stage/names.js";
import { makeParts, placeHold, writePoints, writeReadout, writeSpoken } from "halfturn/parts/stage/parts.js";
import { Printed, adoptPrinted } from "halfturn/parts/stage/printed.js";
import { keepTogether, stopDrawing } from "halfturn/parts/stage/together.js";
import { View } from "halfturn/parts/stage/view.js";

/** @typedef {import("halfturn/parts/stage/types.d.ts").Model} Model */
/** @typedef {import("halfturn/parts/stage/types.d.ts").Group} Group */
/** @typedef {import("halfturn/parts/stage/types.d.ts").Hand} Hand */

const TASK_WORDS = { place: "Point", "on circle": "Point", radius: "Circle", along: "Walk", "along circle": "Walk", pick: "Choice" };
const KEYS_REST = 250; // milliseconds
const AT_REST = "Press + to look closer, 0 for the whole chart.";

class Stage {
  /** @type {Hand | null} */
  #hand = null;
  #frame = 0;
  #shown = "";
  #saying = 0;
  #heard = new AbortController();

  /** @param {Model} model */
  constructor(model) {
    const sheet = adoptPrinted();
    this.model = model;
    this.printed = new Printed(sheet);
    this.parts = makeParts(sheet, model.label);
    this.pad = this.parts.pad;
    this.view = new View(this.pad, this.printed.layouts, () => this.#draw(), (way) => { this.parts.sheet.style.transform = way; });
    this.ink = new Ink(this.parts.ink, this.view);
    this.input = new Input(this);
    this.watcher = new ResizeObserver(() => this.view.measure());
    this.watcher.observe(this.pad);
    this.#followModel();
    this.#followPage();
  }

  hand() { return this.#hand; }

  begin() {
    writePoints(this.parts.points, this.model.points);
    this.#takeStrokes();
    this.#takeNotation();
    this.view.measure();
  }

  #followModel() {
    const { model, parts } = this;
    model.on("strokes", () => this.#takeStrokes());
    model.on("points", () => writePoints(parts.points, model.points));
    model.on("gesture", () => this.#takeTask());
    model.on("notation", () => this.#takeNotation());
    model.on("label", () => this.pad.setAttribute("aria-label", model.label));
    model.on("remove", () => this.#stop());
    model.on("msg:custom", ({ type, strokes, animate }) => {
      if (type !== "draw") return;
      this.#shown = JSON.stringify(strokes);
      this.#show(strokes, animate);
    });
  }

  // A page that steps by itself says what to show, without asking the server; the sheet sends its student to the chart.
  #followPage() {
    const { pad, parts, view } = this, { signal } = this.#heard;
    const onShow = (/** @type {any} */ { detail }) => { this.#shown = ""; this.#show(detail.groups, detail.animate); };
    document.addEventListener("halfturn:show", onShow, { signal });
    const onDraw = () => { pad.focus({ preventScroll: true }); pad.scrollIntoView({ block: "nearest" }); this.#startDrawing(); };
    document.addEventListener("halfturn:draw", onDraw, { signal });
    pad.addEventListener("click", () => { if (this.#hand) this.#startDrawing(); });
    parts.closer.addEventListener("click", () => view.enlarge(NEARER));
    parts.wholeButton.addEventListener("click", () => { view.whole(); pad.focus({ preventScroll: true }); });
  }

  #startDrawing() {
    keepTogether(this.parts.whole, this.#hand?.task.field ?? "");
  }

  #stop() {
    this.#heard.abort();
    this.input.stop();
    this.watcher.disconnect();
    this.view.stop();
    this.ink.show([]);
  }

  #draw() {
    const { parts, view, ink } = this;
    this.printed.follow(view);
    parts.overlay.setAttribute("viewBox", `0 0 ${view.size} ${view.size}`);
    ink.redraw();
    drawNames(parts.names, view, ink.rays());
    drawEdges(parts.edges, view, this.printed, ink.covered());
    this.#drawHand();
    parts.wholeButton.hidden = view.isWhole();
    document.documentElement.dataset.stage ||= "ready";
  }

  #drawHand() {
    const hand = this.#hand;
    this.#frame = 0;
    if (this.view.isGliding()) return this.view.refresh();
    this.parts.hand.replaceChildren(...handNodes(this.view, hand));
    writeReadout(this.parts.readout, hand ? hand.read() : []);
    placeHold(this.parts.hold, hand?.at && hand.task.kind !== "pick" ? this.view.toScreen(hand.at) : null);
    if (hand?.touched && hand.task.moves) tellWalk(hand);
    if (hand?.touched && hand.task.tells) document.dispatchEvent(new CustomEvent("halfturn:hold", { detail: { at: hand.at } }));
  }

  moved(touched = true) {
    if (this.#hand) this.#hand.touched = touched;
    if (!this.#frame) this.#frame = requestAnimationFrame(() => this.#drawHand());
  }

  handIn() {
    const hand = this.#hand;
    if (!hand) return;
    hand.settle?.();
    this.#drawHand();
    const { kind, field } = hand.task, value = hand.touched ? hand.answer() : null;
    if (value === null) return this.#say(kind === "pick" ? "Choose a point first." : "Move it first, then press Enter.");
    this.#say(`${TASK_WORDS[kind]} handed in: ${readingOf(hand)}`);
    const detail = { field, value, plotted: this.model.notation.admittance };
    document.dispatchEvent(new CustomEvent("halfturn:drawn", { detail }));
  }

  // Who moves by keys hears where that led, once the keys rest; a pointer's way is for those who see it.
  sayReading() {
    clearTimeout(this.#saying);
    this.#saying = setTimeout(() => this.#say(this.#hand ? readingOf(this.#hand) : ""), KEYS_REST);
  }

  /** @param {string} text */
  #say(text) {
    clearTimeout(this.#saying);
    this.parts.said.textContent = text;
  }

  /** @param {Group[]} groups */
  #show(groups, animate = false) {
    this.ink.show(groups, animate);
    this.view.refresh();
    writeSpoken(this.parts.spoken, groups);
  }

  #takeStrokes() {
    const strokes = JSON.stringify(this.model.strokes);
    if (strokes !== this.#shown) this.#show(this.model.strokes);
    this.#shown = strokes;
  }

  #takeTask() {
    const { model, parts, view } = this, hand = makeHand(model.gesture, view, model.notation);
    const hint = hand ? hintFor(hand.task, model.notation) : "", touched = hand && isTouched();
    this.#hand = hand;
    if (!hand) stopDrawing();
    this.pad.classList.toggle("asked", Boolean(hand));
    this.pad.dataset.asks = hand?.task.field ?? "";
    parts.hint.textContent = touched ? touchHintFor(hand.task) : hint;
    parts.task.textContent = hand ? `${hand.task.prompt} ${hint}`.trim() : AT_REST;
    if (view.size) this.#drawHand();
  }

  #takeNotation() {
    this.view.grid = this.model.notation.admittance;
    this.view.unit = this.model.notation.length;
    this.#takeTask();
    this.view.refresh();
  }
}

/** @param {Hand} hand */
function readingOf(hand) {
  return `${hand.read().map((pair) => pair.join(" ")).join(", ")}.`;
}

/** Whoever draws the network beside the chart moves along with a walk. @param {Hand} hand */
function tellWalk({ task, walked }) {
  document.dispatchEvent(new CustomEvent("halfturn:walk", { detail: { ...task.moves, wavelengths: walked ?? null } }));
}

/** @param {{model: Model, el: HTMLElement}} place */
export function render({ model, el }) {
  const stage = new Stage(model);
  el.append(stage.parts.whole);
  stage.begin();
}
