// @ts-check
// What can be done in a lecture, by the names that keys and buttons have for it.

import { strokesInTurn } from "halfturn/lecture/frames.js";
import { frameOf, isTold, nextShowing, wavesOf, wavesWait } from "halfturn/lecture/talk.js";
import { nextLight, paint, say, shut } from "halfturn/lecture/view.js";

/** @typedef {import("./talk.js").Talk} Talk */

/** @param {Talk} talk @returns {Record<string, () => void>} */
export function actsOf(talk) {
  return { ...steps(talk), ...ofTheSet(talk), ...revealing(talk), ...modes(talk), ...chart(talk), ...dialogs(talk), ...page(talk) };
}

/** @param {Talk} talk */
function steps(talk) {
  return {
    forward: () => go(talk, talk.index + 1),
    back: () => go(talk, talk.index - 1),
    first: () => go(talk, 0),
    last: () => go(talk, talk.script.frames.length - 1),
  };
}

/** @param {Talk} talk */
function ofTheSet(talk) {
  const move = (/** @type {number} */ by) => {
    const { set } = talk.script, to = (set?.number ?? 0) + by;
    if (!set) return say(talk, "This lecture is of no set: open one on the page of sets.");
    if (to < 1 || to > set.count) return say(talk, by > 0 ? "That was the last problem of the set." : "This is the first problem of the set.");
    Object.assign(talk, { wanted: { frame: "", step: "" }, index: 0, revealed: new Set() });
    return talk.send({ do: "of the set", by });
  };
  return { "next problem": () => move(1), "problem before": () => move(-1) };
}

/** @param {Talk} talk @param {number} to */
function go(talk, to) {
  const next = Math.max(0, Math.min(talk.script.frames.length - 1, to)), onward = next === talk.index + 1;
  if (!frameOf(talk) || (next === talk.index && !talk.blank)) return;
  Object.assign(talk, { index: next, blank: false, lit: -1, notices: [] });
  paint(talk, onward);
  const frame = talk.script.frames[next];
  say(talk, isTold(talk, frame) ? `${frame.spoken} ${frame.spoken_values}` : frame.spoken);
}

/** @param {Talk} talk */
function revealing(talk) {
  return {
    values() {
      const frame = frameOf(talk), told = isTold(talk, frame);
      if (!frame) return;
      if (told) talk.revealed.delete(frame.key);
      else talk.revealed.add(frame.key);
      paint(talk);
      say(talk, told ? "Values hidden." : frame.spoken_values);
    },
    "all values"() {
      const { frames } = talk.script, all = frames.every((one) => isTold(talk, one));
      talk.revealed = new Set(all ? [] : frames.map(({ key }) => key));
      paint(talk);
      say(talk, all ? "All values hidden." : "All values revealed.");
    },
  };
}

/** @param {Talk} talk */
function modes(talk) {
  const pen = () => {
    talk.penOn = !talk.penOn;
    talk.pen.set(talk.penOn);
    paint(talk);
    say(talk, talk.penOn ? "Pen on. P ends it, C clears." : "Pen off.");
  };
  return {
    keep() {
      talk.keeps = !talk.keeps;
      paint(talk);
      say(talk, talk.keeps ? "Values stay on the chart." : "Only the newest values are shown.");
    },
    waves: () => showWaves(talk),
    spotlight: () => lightNext(talk),
    blank() {
      Object.assign(talk, { blank: !talk.blank, lit: -1 });
      paint(talk);
      say(talk, talk.blank ? "Chart blank." : "Chart as before.");
    },
    pen,
    clear() {
      talk.pen.clear();
      say(talk, "Pen lines cleared.");
    },
    move: () => setMoving(talk, !talk.moving),
    end() {
      if (talk.parts.card.open) return shut(talk, talk.parts.card);
      if (talk.lit < 0 && talk.moving) return setMoving(talk, false);
      if (talk.lit < 0 && talk.penOn) return pen();
      if (talk.lit >= 0) talk.lit = -1;
      else talk.blank = false;
      return paint(talk);
    },
  };
}

/** Voltage and current along the line, or no longer. @param {Talk} talk */
function showWaves(talk) {
  if (!talk.script.waves.length) return say(talk, "There is no line here to show voltage and current on.");
  talk.waves = !talk.waves;
  paint(talk);
  if (!talk.waves) return say(talk, "Voltage and current hidden.");
  const otherwise = wavesWait(talk) ? "Voltage and current would give away what is asked here: they come once it is found."
    : "The response over frequency stands in their place here.";
  return say(talk, wavesOf(talk)?.spoken ?? otherwise);
}

/** Light the next stroke. @param {Talk} talk */
function lightNext(talk) {
  const strokes = strokesInTurn(talk.script.frames, talk.index);
  if (!strokes.length) return say(talk, "Nothing is drawn yet.");
  Object.assign(talk, { blank: false, lit: (talk.lit + 1) % strokes.length });
  paint(talk);
  const { one, stroke } = strokes[talk.lit];
  return say(talk, isTold(talk, one) ? stroke.spoken : stroke.quiet);
}

/** Whether anything is on that the key for ending ends. @param {Talk} talk */
export function canEnd({ parts, lit, moving, penOn, blank }) {
  return parts.card.open || lit >= 0 || moving || penOn || blank;
}

/** @param {Talk} talk @param {boolean} on */
function setMoving(talk, on) {
  talk.moving = on;
  talk.trace.answered();
  talk.send({ do: "move", on });
  if (on) chartPad()?.focus({ preventScroll: true });
  else chartPad()?.blur();
  paint(talk);
  say(talk, on ? "Drag the load’s point, or move it with the arrow keys and press Enter. Escape ends it." : "The load stays.");
}

/** @param {Talk} talk */
function chart(talk) {
  const press = (/** @type {string} */ key) => chartPad()?.dispatchEvent(new KeyboardEvent("keydown", { key }));
  return {
    closer: () => press("+"),
    further: () => press("-"),
    whole: () => press("0"),
    showing() {
      if (talk.script.showings.length < 2) return;
      talk.showing = nextShowing(talk);
      talk.send({ do: "showing", showing: talk.showing });
    },
  };
}

/** @param {Talk} talk */
function dialogs(talk) {
  return {
    load() {
      talk.parts.entry.showModal();
      talk.parts.entry.querySelector("input")?.select();
    },
    keys() {
      if (talk.parts.card.open) shut(talk, talk.parts.card);
      else talk.parts.card.showModal();
    },
  };
}

/** @param {Talk} talk */
function page(talk) {
  return {
    light() {
      nextLight();
      paint(talk);
    },
    full() {
      if (document.fullscreenElement) document.exitFullscreen();
      else document.documentElement.requestFullscreen().catch(() => say(talk, "This browser does not allow full screen here."));
    },
    notes() { open("lecture/notes", "halfturn-notes"); },
  };
}

/** The part of the chart that takes keys. @returns {HTMLElement | null} */
export function chartPad() {
  return deep(document.getElementById("stage"), ".pad");
}

/** The first element of that selector, looked for through the shadow roots under an element. @param {any} element @param {string} selector @returns {any} */
function deep(element, selector) {
  const found = element?.querySelector?.(selector);
  if (found || !element) return found;
  for (const child of element.shadowRoot ? [element.shadowRoot] : element.children) {
    const inside = deep(child, selector);
    if (inside) return inside;
  }
  return null;
}
