// @ts-check
// Words that several pages show alike.

import { button, node } from "halfturn/parts/nodes.js";

/** @typedef {import("../messages.d.ts").Branch} Branch */
/** @typedef {import("../messages.d.ts").Choice} Choice */
/** @typedef {import("../messages.d.ts").Mark} Mark */

/** The markers of the roles that solutions play, in letters. @type {Record<string, string>} */
const MARKS = { first: "▲", second: "◆", third: "▼", fourth: "✚" };

/** A solution by its marker and its word. @param {Branch} branch */
export function branchWords({ role, word }) {
  return `${MARKS[role]} ${word}`;
}

/** What is said of an entry: sign and word, then a sentence. @param {Mark} mark @returns {(Node | string)[]} */
export function judged({ sign, word, sentence }) {
  return [node("strong", {}, `${sign} ${word}`), sentence ? ` ${sentence}` : ""];
}

/** @param {string[]} sentences */
export function notices(sentences) {
  return sentences.map((text) => node("p", { class: "notice", role: "alert" }, text));
}

/**
 * The lessons or problems to choose from, with what they give and how far one has come in them.
 * @template {Choice & {given?: string}} One
 * @param {One[]} choices @param {string} current @param {(key: string) => void} choose @param {(choice: One) => string} [state]
 */
export function choiceList(choices, current, choose, state = () => "") {
  const line = (/** @type {One} */ choice) => {
    const pick = button(choice.title, () => choose(choice.key), { "aria-current": choice.key === current ? "true" : null }), come = state(choice);
    if (choice.given) pick.append(node("span", { class: "gives" }, choice.given));
    if (come) pick.append(node("span", { class: "come" }, come));
    return node("li", {}, pick);
  };
  return node("ul", { class: "choices" }, ...choices.map(line));
}

/** A number of things. @param {number} number @param {string} word */
export function count(number, word) {
  return `${number} ${word}${number === 1 ? "" : "s"}`;
}

/** Where in a set a problem stands, the way back to it, and on to the next. @param {import("../messages.d.ts").SetPlace} place */
export function placeInSet({ title, number, count: of, address, next }) {
  return node("p", { class: "in-set" }, `Problem ${number} of ${of} of `, node("a", { href: address }, title), next ? " · " : "",
    next ? node("a", { href: next }, "Next problem") : "");
}
