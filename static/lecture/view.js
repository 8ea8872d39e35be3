// @ts-check
// The lecture on the screen: its words, the marks of what is on, and the dialogs.

import { keep, kept } from "halfturn/lecture/keep.js";
import { frameOf, isTold, modesOf, showingWords, shownGroups, wavesOf } from "halfturn/lecture/talk.js";
import { frameWords, loadEntry } from "halfturn/lecture/words.js";
import { node, present } from "halfturn/parts/nodes.js";
import { notices } from "halfturn/parts/words.js";

/** @typedef {import("./talk.js").Talk} Talk */

const DIMMED = { spotlight: "0.16", moving: "0.7" };
/** @type {Record<string, string>} */
export const LIGHTS = { light: "Light", dark: "Dark", mono: "Black and white" };
const html = document.documentElement;

/** @param {Talk} talk @param {boolean} [animate] whether what is new is drawn as a hand would */
export function paint(talk, animate = false) {
  const { script, parts, index } = talk, frame = frameOf(talk);
  document.dispatchEvent(new CustomEvent("halfturn:show", { detail: { groups: shownGroups(talk), animate } }));
  showDrawing(talk);
  parts.panel.replaceChildren(...present([
    ...notices(talk.notices),
    script.refusal ? node("p", { class: "refusal", role: "alert" }, script.refusal) : "",
    frame ? frameWords(frame, isTold(talk, frame)) : "",
    frame && index === 0 ? node("p", { class: "given" }, script.given) : "",
  ]));
  parts.brief.textContent = script.set ? `${script.set.number}/${script.set.count} · ${script.brief}` : script.brief;
  showModes(talk);
  fit(talk);
  remember(talk);
  talk.notes.tell();
}

/** Voltage and current, where they are wanted, or the line drawing, where a frame is about it. While the load is being moved they are with it at once. @param {Talk} talk */
function showDrawing(talk) {
  const waves = wavesOf(talk), picture = waves ?? frameOf(talk)?.picture ?? {};
  html.dataset.shows = waves ? "waves" : "plans" in picture ? "drawing" : "words";
  document.dispatchEvent(new CustomEvent("halfturn:picture", { detail: { picture, still: talk.moving } }));
}

/** @param {Talk} talk @param {string} text */
export function say({ parts }, text) {
  parts.said.textContent = text;
}

/** Text is as large as the room at the back needs; only where it does not fit it is set smaller. @param {Talk} talk */
export function fit({ parts: { panel, brief } }) {
  let size = 1;
  panel.style.setProperty("--fit", String(size));
  while (panel.scrollHeight > panel.clientHeight + 1 && size > 0.6) panel.style.setProperty("--fit", (size -= 0.04).toFixed(2));
  brief.style.fontSize = "";
  const room = brief.clientWidth / brief.scrollWidth;
  if (room < 1) brief.style.fontSize = `${Math.max(0.5, room) * parseFloat(getComputedStyle(brief).fontSize)}px`;
}

/** @param {Talk} talk */
function showModes(talk) {
  const { parts: { modes, buttons }, script, index, lit, penOn, moving, blank } = talk;
  modes.replaceChildren(...modesOf(talk).map((word) => node("span", {}, word)));
  html.style.setProperty("--others", lit >= 0 ? DIMMED.spotlight : "1");
  html.style.setProperty("--drawn", moving ? DIMMED.moving : "1");
  html.dataset.pen = penOn ? "on" : "off";
  const pressed = { values: isTold(talk, frameOf(talk)), blank, spotlight: lit >= 0, waves: talk.waves };
  for (const [name, on] of Object.entries(pressed)) buttons[name].setAttribute("aria-pressed", String(on));
  buttons.showing.textContent = showingWords(talk);
  buttons.showing.hidden = script.showings.length < 2;
  buttons.light.textContent = LIGHTS[light()];
  buttons.waves.hidden = !script.waves.length;
  buttons["next problem"].hidden = !script.set;
  buttons["next problem"].disabled = !script.set || script.set.number === script.set.count;
  buttons.back.disabled = index === 0;
  buttons.forward.disabled = index >= script.frames.length - 1;
}

// --- what the browser keeps, and the address ---

/** @param {Talk} talk */
export function remember(talk) {
  const { script, revealed, wanted, waves } = talk, frame = frameOf(talk);
  if (html.dataset.lecture !== "ready") return;
  const { entries: problem, notation, query, showing } = script;
  const at = frame ? { frame: frame.key, step: frame.step } : wanted;
  keep({ problem, notation, query, showing, ...at, revealed: [...revealed], waves, light: kept().light });
  history.replaceState(null, "", `${location.pathname}?${query}`); // a reload then finds this problem
}

export function light() {
  return html.dataset.theme || (matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light");
}

/** The next of the lights, and the one after the last is the first. */
export function nextLight() {
  const names = Object.keys(LIGHTS), name = names[(names.indexOf(light()) + 1) % names.length];
  html.dataset.theme = name;
  keep({ ...kept(), light: name });
}

// --- dialogs ---

/** Close a dialog and leave its entries at once, so that the very next key is for the lecture. @param {Talk} talk @param {HTMLDialogElement} dialog */
export function shut({ root }, dialog) {
  dialog.close();
  /** @type {HTMLElement | null} */ (/** @type {ShadowRoot} */ (root.getRootNode()).activeElement)?.blur();
}

/** The entry for another load. What is typed there is a draft until it is taken. @param {Talk} talk */
export function newEntry(talk) {
  const desk = {
    get drafts() { return talk.drafts; },
    save() {},
    send: (/** @type {import("./talk.js").Said} */ said) => { talk.submitted = true; talk.send(said); },
  };
  return loadEntry(desk, talk.script);
}

/** The entry begins anew with what is shown; one that was opened in the meantime stays open. @param {Talk} talk */
export function renewEntry(talk) {
  const { parts } = talk, renewed = newEntry(talk);
  if (parts.entry.open) shut(talk, parts.entry);
  parts.entry.replaceWith(renewed);
  parts.entry = renewed;
  talk.submitted = false;
}
