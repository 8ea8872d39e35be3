// @ts-check
// What the presenter's page says: what the lecture shows, what it leads to, and what goes wrong there.

import { node, present } from "halfturn/parts/nodes.js";
import { branchWords } from "halfturn/parts/words.js";

/** @typedef {import("../messages.d.ts").Branch} Branch */
/** @typedef {import("../messages.d.ts").UsualSlip} UsualSlip */
/** A frame whose strokes are words. @typedef {Omit<import("../messages.d.ts").FrameWords, "strokes"> & {strokes: string[]}} Frame */

/** @param {import("./channel.js").State} state */
export function notesNodes(state) {
  const { set, given, refusal, index, count, frame, next } = state;
  return present([
    set ? ofSet(set) : "",
    node("p", { class: "given" }, given),
    refusal ? node("p", { class: "refusal" }, refusal) : "",
    frame ? current(frame, [`${index + 1} of ${count}`, ...modesOf(state)]) : "",
    frame && state.waves ? node("section", { class: "waves", "aria-label": "Voltage and current" }, node("h3", {}, "Voltage and current"), node("p", {}, state.waves)) : "",
    frame ? coming(next) : "",
  ]);
}

/** The set that the lecture goes through, where in it one is, and the notes for who teaches. @param {import("../messages.d.ts").LectureSet} set */
function ofSet({ title, number, titles, notes }) {
  const one = (/** @type {string} */ words, /** @type {number} */ index) => node("li", { "aria-current": index + 1 === number ? "true" : null }, words);
  return node("section", { class: "set", "aria-label": "The set" },
    node("p", { class: "place" }, `${title}: problem ${number} of ${titles.length}`),
    ...notes.map((text) => node("p", { class: "because" }, text)),
    node("details", {}, node("summary", {}, "Its problems"), node("ol", {}, ...titles.map(one))));
}

/** What is on in the lecture, in words. @param {import("./channel.js").State} state @returns {string[]} */
export function modesOf({ showing, told, penOn, blank, spotlight, moving, waves }) {
  return [showing, told ? "values revealed" : "values hidden", waves && "waves shown", penOn && "pen on", blank && "chart blank", spotlight && "spotlight",
    moving && "load can be moved"].filter((word) => word);
}

/** @param {Branch | null} branch */
function branchSpan(branch) {
  return branch ? node("span", { class: branch.role }, ` ${branchWords(branch)}`) : "";
}

/** @param {Frame} frame @param {string[]} place */
function current(frame, place) {
  const outcomes = frame.outcomes.map(({ branch, label, text }) => node("li", {}, branchSpan(branch), ` ${label}: `, node("b", {}, text)));
  return node("section", { "aria-label": "Now", "data-frame": frame.key },
    node("p", { class: "place" }, place.join(" · ")), node("h2", {}, frame.title, branchSpan(frame.branch)),
    ...[frame.ask, frame.rule, frame.numbers].filter((text) => text).map((text) => node("p", {}, text)),
    node("ul", { class: "values" }, ...outcomes),
    frame.because ? node("p", { class: "because" }, frame.because) : "",
    frame.strokes.length ? listed("Drawn", "", frame.strokes.map((text) => node("li", {}, text))) : "",
    frame.slips.length ? listed("Usual slips", "slips", frame.slips.map(slip)) : "");
}

/** @param {UsualSlip} one */
function slip({ gives, doing, remedy }) {
  return node("li", {}, node("b", {}, gives.join(", ")), ` means ${doing}. ${remedy}`);
}

/** @param {string} title @param {string} name @param {HTMLElement[]} lines */
function listed(title, name, lines) {
  return node("div", {}, node("h3", {}, title), node("ul", { class: name || null }, ...lines));
}

/** @param {Frame | undefined} next */
function coming(next) {
  return node("section", { class: "next", "aria-label": "Next" }, node("h3", {}, "Next"), next
    ? node("p", {}, node("b", {}, next.title), branchSpan(next.branch), next.ask ? ` ${next.ask}` : "")
    : node("p", {}, "That was the last one."));
}
