// @ts-check
// What is said of a working: line by line, and of each finished design.

import { button, foldable, node } from "halfturn/parts/nodes.js";
import { judged } from "halfturn/parts/words.js";

/** @typedef {import("../messages.d.ts").CheckStep} CheckStep */
/** @typedef {import("../messages.d.ts").Design} Design */
/** @typedef {import("../messages.d.ts").LineWords} LineWords */
/** @typedef {import("./state.js").CheckDesk} CheckDesk */

const STALE = "Your lines have changed since they were marked: mark them again.";

/** @param {CheckDesk} desk */
const isStale = ({ drafts, page }) => (drafts.text ?? page.text) !== page.text;

/** Where the lines were edited since, nothing that was said of them stands any longer. @param {CheckDesk} desk */
export function showStale(desk) {
  desk.root.querySelector(".marked")?.toggleAttribute("data-stale", isStale(desk));
}

/** @param {CheckDesk} desk */
export function marked(desk) {
  const { page } = desk, singly = desk.drafts.way === "steps";
  if (!page.summary) return [];
  return [node("section", { class: "marked", "aria-labelledby": "marked", "data-stale": isStale(desk) },
    node("h3", { id: "marked", tabindex: "-1" }, "Marked"),
    node("p", { class: "stale" }, STALE),
    singly ? "" : node("p", { class: "summary" }, page.summary),
    ...page.remarks.map((text) => node("p", { class: "note" }, text)),
    page.offer ? offer(desk, page.offer) : "",
    page.unread.length ? unread(page.unread) : "",
    singly ? "" : lines(desk),
    ...page.designs.map((one) => design(desk, one)))];
}

/** @param {CheckDesk} desk @param {import("../messages.d.ts").SymbolsOffer} symbols */
function offer({ send }, { words, texts }) {
  return node("p", { class: "asks" }, button(words, () => send({ do: "notation", texts }), { "data-focus": "offer" }));
}

/** @param {string[]} sentences */
function unread(sentences) {
  const line = (/** @type {string} */ text) => node("li", {}, node("strong", {}, "? Not read"), ` ${text}`);
  return node("ul", { class: "unread", "aria-label": "Not read" }, ...sentences.map(line));
}

/** @param {CheckDesk} desk */
function lines(desk) {
  const written = desk.page.steps.filter((step) => step.lines.length);
  return node("ol", { class: "steps" }, ...written.map((step) => node("li", { "data-step": step.key },
    heading(step), ...step.lines.map((line) => marking(desk, step, line, true)))));
}

/** @param {CheckStep} step */
export function heading({ number, title }) {
  return node("h4", {}, node("span", { class: "number", "aria-hidden": "true" }, String(number)), title);
}

/** What is said of one line. @param {CheckDesk} desk @param {CheckStep} step @param {LineWords} line @param {boolean} written whether it is shown */
export function marking(desk, step, line, written) {
  const { key, label, verdict } = line, isWrong = !["right", "close"].includes(verdict.judgement);
  const goal = () => node("div", { class: "hint" }, ...step.goal.map((text) => node("p", {}, text)));
  return node("div", { class: "line", "data-line": key },
    written ? node("p", { class: "written" }, node("span", { class: "which" }, label), node("code", {}, line.written)) : "",
    ...line.notes.map((text) => node("p", { class: "note" }, text)),
    node("div", { class: "mark" },
      node("p", { class: `verdict ${verdict.judgement}`, id: `line-${key}` }, ...judged(verdict)),
      node("div", { class: "asks" },
        isWrong ? foldable(desk.opened, "First hint", `hint ${key}`, goal()) : "",
        asking(desk, line, Boolean(line.solver), "the solver's value"))),
    line.solver ? node("p", { class: "solver" }, line.solver) : "");
}

/** @param {CheckDesk} desk @param {{key: string, label: string}} line @param {boolean} isShown @param {string} what */
function asking({ send }, { key, label }, isShown, what) {
  const act = isShown ? "Hide" : "Show";
  return button(`${act} ${what}`, () => send({ do: "ask", key }), {
    class: "quiet", "data-focus": `ask ${key}`, "aria-pressed": String(isShown), "aria-label": `${act} ${what}: ${label}`,
  });
}

/** @param {CheckDesk} desk @param {Design} one */
function design(desk, { key, title, lengths, verdict, mayAsk, offs }) {
  const ask = () => asking(desk, { key, label: title }, offs.length > 0, "how far each length is from best");
  return node("section", { class: "design", "data-line": key },
    node("h4", {}, `${title}: `, node("code", {}, lengths)),
    node("p", { class: `verdict ${verdict.judgement}` }, ...judged(verdict)),
    mayAsk ? node("div", { class: "asks" }, ask()) : "",
    ...offs.map((text) => node("p", { class: "solver" }, text)));
}
