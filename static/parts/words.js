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

/** The problems to choose from. @param {Choice[]} choices @param {string} current @param {(key: string) => void} choose */
export function choiceList(choices, current, choose) {
  const line = (/** @type {Choice} */ { key, title }) =>
    node("li", {}, button(title, () => choose(key), { "aria-current": key === current ? "true" : null }));
  return node("ul", { class: "choices" }, ...choices.map(line));
}

/** A number of things. @param {number} number @param {string} word */
export function count(number, word) {
  return `${number} ${word}${number === 1 ? "" : "s"}`;
}
