// @ts-check
// The presenter's page: it follows the lecture that is open in the same browser, and can step it.

import { makeLectureLink } from "halfturn/lecture/channel.js";
import { keepInTab, recallInTab } from "halfturn/lecture/keep.js";
import { notesNodes } from "halfturn/lecture/notes.js";
import { sayUnkept } from "halfturn/parts/keeping.js";
import { button, listen, markReady, node } from "halfturn/parts/nodes.js";

const STARTED = "halfturn.lecture.started";
const UNKEPT = "This browser keeps nothing for this page: its store is full, or closed to it. After a reload the clock starts again.";
/** @type {Record<string, string>} */
const STEPS = { ArrowRight: "forward", PageDown: "forward", " ": "forward", ArrowLeft: "back", PageUp: "back", ".": "values", v: "values", w: "waves" };
const CONTROLS = [["back", "Back"], ["forward", "Forward"], ["next problem", "Next problem of the set"], ["values", "Reveal or hide values"], ["waves", "Show or hide waves"]];

/** @param {{model: import("../parts/types.d.ts").Model<never>, el: HTMLElement}} place */
export function render({ model, el }) {
  const clock = makeClock(), state = node("div", { class: "state" }), said = node("div", { class: "heard", role: "status" });
  const controls = node("p", { class: "controls" }, ...CONTROLS.map(([act, words]) => button(words, () => lecture.ask(act), { "data-act": act })));
  el.append(node("div", { class: "notes" }, node("header", {}, clock.face, button("Start the time again", clock.restart)), controls, state, said));
  const alone = () => {
    controls.hidden = true;
    state.replaceChildren(node("p", {}, "No lecture is open in this browser. ", node("a", { href: "../lecture" }, "Open the lecture"),
      " in another window: this page follows it."));
  };
  const show = (/** @type {import("./channel.js").State} */ now) => {
    controls.hidden = false;
    for (const [act, there] of Object.entries({ "next problem": now.set, waves: now.hasWaves })) {
      /** @type {HTMLElement} */ (controls.querySelector(`[data-act="${act}"]`)).hidden = !there;
    }
    state.replaceChildren(...notesNodes(now));
    said.textContent = now.frame ? `${now.index + 1} of ${now.count}: ${now.frame.title}.` : now.refusal;
  };
  alone();
  const lecture = makeLectureLink(show, alone);
  const deafen = listen([[document, "keydown", (event) => onKey(event, lecture.ask)]]);
  model.on("remove", () => {
    deafen();
    clock.stop();
    lecture.close();
  });
  markReady("notes");
}

/** @param {KeyboardEvent} event @param {(act: string) => void} ask */
function onKey(event, ask) {
  const target = /** @type {HTMLElement} */ (event.composedPath()[0]), act = STEPS[event.key];
  if (!act || event.ctrlKey || event.metaKey || event.altKey || (event.key === " " && /^(BUTTON|A)$/.test(target.tagName))) return;
  event.preventDefault();
  ask(act);
}

/** The time of day, and how long the lecture has run; it goes on after a reload. */
function makeClock() {
  const face = node("p", { class: "clock", role: "timer" });
  let started = Number(recallInTab(STARTED));
  const tick = () => {
    const now = new Date(), ran = Math.floor((now.getTime() - started) / 1000);
    face.replaceChildren(node("span", { class: "now" }, written(now.getHours(), now.getMinutes())),
      node("span", { class: "ran" }, `running ${written(Math.floor(ran / 60), ran % 60)}`));
  };
  const restart = () => {
    started = Date.now();
    if (!keepInTab(STARTED, String(started))) sayUnkept("clock", UNKEPT);
    tick();
  };
  if (started) tick();
  else restart();
  const timer = setInterval(tick, 1000);
  return { face, restart, stop: () => clearInterval(timer) };
}

/** Two numbers as a clock shows them. @param {...number} numbers */
export function written(...numbers) {
  return numbers.map((number) => String(number).padStart(2, "0")).join(":");
}
