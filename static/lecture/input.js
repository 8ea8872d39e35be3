// @ts-check
// Keys, pointers and sizes in a lecture.

import { canEnd, chartPad } from "halfturn/lecture/acts.js";
import { actOf } from "halfturn/lecture/keys.js";
import { fit, shut } from "halfturn/lecture/view.js";
import { listen } from "halfturn/parts/nodes.js";

/** @typedef {import("./talk.js").Talk} Talk */

const IDLE = 3000; // milliseconds after which the buttons hide in full screen

/** Listen to everything; what comes back ends it. @param {Talk} talk */
export function attend(talk) {
  const { wake, sleep } = waking(talk);
  const onKey = (/** @type {KeyboardEvent} */ event) => {
    if (event.key === "Tab") wake();
    take(talk, event);
  };
  const onResize = () => {
    fit(talk);
    talk.pen.redraw();
  };
  const end = listen([
    [document, "keydown", onKey, true], [document, "pointermove", wake], [document, "pointerdown", wake],
    [document, "halfturn:drawn", ({ detail: { value, plotted } }) => talk.send({ do: "put", value, plotted })], [document, "fullscreenchange", wake], [window, "resize", onResize], [window, "pagehide", talk.notes.leave],
  ]);
  return () => {
    end();
    sleep();
  };
}

/** Buttons and pointer hide in full screen when nothing moves. @param {Talk} talk */
function waking({ parts: { bar } }) {
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  let idle;
  const hide = (/** @type {boolean} */ hidden) => {
    for (const one of [document.documentElement, bar]) one.classList.toggle("idle", hidden);
  };
  const wake = () => {
    hide(false);
    clearTimeout(idle);
    if (document.fullscreenElement) idle = setTimeout(() => hide(true), IDLE);
  };
  return { wake, sleep: () => clearTimeout(idle) };
}

/** @param {Talk} talk @param {KeyboardEvent} event */
function take(talk, event) {
  const { card, entry } = talk.parts, name = actOf(event);
  if (event.key === "Escape" && entry.open) return shut(talk, entry);
  if (!name || entry.open || isForOthers(talk, event) || (name === "end" && !canEnd(talk))) return undefined;
  event.preventDefault();
  event.stopPropagation();
  if (event.repeat && !["forward", "back"].includes(name)) return undefined;
  if (card.open && !["keys", "end"].includes(name)) shut(talk, card);
  return talk.act(name);
}

/** Whether a key is for an entry, for the button under it, or for the load's point. @param {Talk} talk @param {KeyboardEvent} event */
function isForOthers({ moving }, event) {
  const path = event.composedPath(), target = /** @type {HTMLElement} */ (path[0]), pad = chartPad();
  if (/^(INPUT|TEXTAREA|SELECT)$/.test(target.tagName) || target.isContentEditable) return true;
  if (/^(BUTTON|A|SUMMARY)$/.test(target.tagName) && event.key === " ") return true;
  return !event.isTrusted || (moving && event.key.startsWith("Arrow") && pad !== null && path.includes(pad));
}
