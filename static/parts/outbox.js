// @ts-check
// What was pressed goes to the program in order, and once. It stays here until it was answered: what is pressed while
// the connection is gone, or on its way when it breaks, is said again over the next one, on top of the sheet as it was
// when it was pressed.

import { announce, dismissing, note } from "halfturn/parts/announce.js";
import { surviving } from "halfturn/parts/keeping.js";

const PATIENCE = 10_000; // milliseconds for an answer, after which the connection counts as dead
const LATEST = 3000; // milliseconds for the page to settle, which one in the background may never do
const REFUSALS = 2; // of the same thing said, after which it is let fall
const UNDONE = "That could not be done. What you entered is kept in this browser.";

/** @typedef {{number: number, do: string}} Numbered */
/** @typedef {{number: number, waiting: Numbered[], refused: number, since: number, patience: ReturnType<typeof setTimeout> | undefined, ended: AbortController}} Box `since` is of the last record sent: answers to what was said before it count no more */
/** @typedef {{send_msg(said: any): void, on(event: "msg:custom" | "remove", listener: (told: any) => void): void}} Line */

/** What still has to be answered, without all up to this number. @param {Numbered[]} waiting @param {number} heard */
export function unanswered(waiting, heard) {
  return waiting.filter(({ number }) => number > heard);
}

const isUp = () => document.documentElement.dataset.connection !== "down";

/**
 * Act once the program knows that the page is there: what changes before, in answer to something said too early, it does
 * not tell the chart. @param {() => void} act
 */
function whenSettled(act) {
  const page = /** @type {any} */ (globalThis).Bokeh?.documents?.find((/** @type {any} */ one) => !one.is_idle);
  if (!page) return act();
  const go = () => {
    clearTimeout(late);
    page.idle.disconnect(go);
    act();
  };
  const late = setTimeout(go, LATEST);
  page.idle.connect(go);
}

/** The box of a page, empty or as it was before the page was built anew. @param {string} page @returns {Box} */
function opened(page) {
  /** @type {Box} */
  const box = surviving(`outbox of ${page}`, () => ({ number: 0, waiting: [], refused: 0, since: 0, patience: undefined, ended: new AbortController() }));
  box.ended.abort();
  box.ended = new AbortController();
  clearTimeout(box.patience);
  return box;
}

/** For an answer, or else the connection counts as dead. @param {Box} box */
function wait(box) {
  clearTimeout(box.patience);
  box.patience = setTimeout(() => document.dispatchEvent(new CustomEvent("halfturn:silent")), PATIENCE);
}

/** What is refused again and again is let fall. @param {Box} box */
function refused(box) {
  if (!box.waiting.length || ++box.refused < REFUSALS) return;
  box.waiting.shift();
  box.refused = 0;
  note("undone", UNDONE, dismissing("undone"));
}

/** @param {Box} box @param {{heard: number, failed?: boolean}} told */
function answered(box, { heard, failed }) {
  box.waiting = unanswered(box.waiting, heard);
  box.refused = 0;
  if (heard === box.number) clearTimeout(box.patience);
  else wait(box);
  if (!failed) return;
  announce(UNDONE);
  note("undone", UNDONE, dismissing("undone"));
}

/**
 * The way to the program. `say` is for what a student does, `tell` for what the page says by itself and can say anew.
 * `restore` hands over a record, and then says again what was not answered; without a record it only does the latter.
 * @param {string} page @param {Line} model @param {Record<string, (part: any) => void>} ears for what the program tells, by its parts
 */
export function outbox(page, model, ears) {
  const box = opened(page);
  document.addEventListener("halfturn:refused", () => refused(box), { signal: box.ended.signal });
  model.on("msg:custom", (told) => {
    if (told.heard < box.since) return;
    if (told.heard !== undefined) answered(box, told); // first: a record that an ear hands over says the unanswered again
    for (const [part, ear] of Object.entries(ears)) if (told[part] !== undefined) ear(told[part]);
  });
  const transmit = (/** @type {any} */ said) => whenSettled(() => {
    if (!isUp()) return;
    model.send_msg(said);
    wait(box);
  });
  const tell = (/** @type {any} */ said) => transmit({ ...said, number: ++box.number });
  return {
    /** @param {any} said */
    say(said) {
      const numbered = { ...said, number: ++box.number };
      box.waiting.push(numbered);
      transmit(numbered);
    },
    tell,
    /** @param {any} [said] */
    restore(said) {
      if (said) tell(said);
      box.since = box.number;
      for (const said of box.waiting) {
        said.number = ++box.number;
        transmit(said);
      }
    },
  };
}
