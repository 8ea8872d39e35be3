// @ts-check
// The words of the lecture: a frame in large type, the card of keys, and the entry for another load.

import { KEYS } from "halfturn/lecture/keys.js";
import { difficultyPair, drawnSo } from "halfturn/parts/difficulty.js";
import { notationForm, ownForm } from "halfturn/parts/forms.js";
import { button, node } from "halfturn/parts/nodes.js";
import { responsePlot, SCREEN } from "halfturn/parts/response_plot.js";
import { branchWords } from "halfturn/parts/words.js";

/** @typedef {import("../messages.d.ts").FrameWords} Frame */
/** @typedef {import("../messages.d.ts").Outcome} Outcome */
/** @typedef {import("../messages.d.ts").Script} Script */
/** @typedef {import("../messages.d.ts").LectureSaid} Said */
/** @typedef {import("../parts/types.d.ts").FormDesk & {send(said: Said): void}} Desk */

/** One frame. Before its values are revealed the question stands there; afterwards what it comes to. @param {Frame} frame @param {boolean} told */
export function frameWords(frame, told) {
  const { number, branch } = frame;
  const title = node("h2", { tabindex: "-1" },
    number ? node("span", { class: "number" }, `${number} `) : "", frame.title,
    branch ? node("span", { class: `which ${branch.role}` }, ` ${branchWords(branch)}`) : "");
  return node("article", { class: told ? "told" : "asked", "data-frame": frame.key }, title,
    told || !frame.ask ? "" : node("p", { class: "ask" }, frame.ask),
    frame.response ? overFrequency(frame.response) : "",
    frame.rule ? node("p", { class: "rule" }, frame.rule) : "",
    told && frame.numbers ? node("p", { class: "numbers" }, frame.numbers) : "",
    outcomes(frame, told),
    told && frame.because ? node("p", { class: "because" }, frame.because) : "");
}

/** The designs' curves, with the limit of their bands. @param {import("../messages.d.ts").ResponseWords} response */
function overFrequency(response) {
  const plot = responsePlot(response, SCREEN, "Standing-wave ratio over frequency; the same is said in words.");
  plot.label();
  plot.bound(response.limit);
  return node("div", { class: "plot" }, /** @type {any} */ (plot.picture));
}

/** The solutions of one quantity stand under its name. @param {Frame} frame @param {boolean} told */
function outcomes(frame, told) {
  const labels = [...new Set(frame.outcomes.map(({ label }) => label))];
  const values = (/** @type {string} */ label) => frame.outcomes.filter((one) => one.label === label).map((one) => outcome(one, told));
  return labels.length ? node("dl", { class: "outcomes" }, ...labels.map((label) =>
    node("div", { class: "outcome" }, node("dt", {}, label), ...values(label)))) : "";
}

/** @param {Outcome} one @param {boolean} told */
function outcome({ branch, text }, told) {
  return node("dd", { class: branch?.role },
    branch ? node("span", { class: "side" }, `${branchWords(branch)} `) : "",
    told ? node("span", { class: "value" }, text) : node("span", { class: "value hidden", "aria-label": "not yet revealed" }, "?"));
}

/** The card of all keys; each line is a button that does the same. @param {Script} script @param {(act: string) => void} act */
export function keyCard({ ways, caution }, act) {
  const line = (/** @type {import("./keys.js").Key} */ { act: name, written, does }) => node("li", {},
    node("button", { type: "button", "data-act": name, onclick: () => act(name) }, node("kbd", {}, written), node("span", {}, does)));
  return node("dialog", { class: "card", "aria-label": "Keys" }, node("h2", {}, "Keys"),
    node("ul", { class: "keys" }, ...KEYS.map(line)),
    node("nav", { "aria-label": "Ways to use it" }, ...ways.map(([address, name]) => node("a", { href: address }, name))),
    node("p", { class: "caution" }, caution));
}

/** The entry for another problem, or lesson, with the problems that come with the program, and the notation. @param {Desk} desk @param {Script} script */
export function loadEntry(desk, { choices, forms, lessons, lessonKey }) {
  const lesson = node("select", { id: "lesson", onchange: ({ target }) => desk.send({ do: "lesson", key: target.value }) },
    ...lessons.map(({ key, title }) => node("option", { value: key, selected: key === lessonKey }, title)));
  const chosen = node("select", { id: "choice", onchange: ({ target }) => desk.send({ do: "open", key: target.value }) },
    node("option", { value: "" }, "Choose one"), ...choices.map(({ key, title }) => node("option", { value: key }, title)));
  return node("dialog", { class: "card entry", "aria-label": "Another problem" }, node("h2", {}, "Another problem"),
    node("div", { class: "own" }, node("div", { class: "pair" }, node("label", { for: "lesson" }, "Lesson"), lesson)),
    ownForm(desk, forms, "Show this problem"),
    node("div", { class: "own" },
      node("div", { class: "pair" }, node("label", { for: "choice" }, "From the river watch’s set"), chosen),
      difficultyPair(forms.difficulty),
      button("A random problem", () => desk.send({ do: "random", ...drawnSo(forms.difficulty) }))),
    node("details", {}, node("summary", {}, "Notation"), notationForm(desk, forms)),
    node("button", { type: "button", class: "close", onclick: ({ target }) => target.closest("dialog")?.close() }, "Close"));
}
