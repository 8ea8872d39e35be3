// @ts-check
// Terms of the trade, explained where they stand: a press on one opens its meaning under the paragraph.

import { node } from "halfturn/parts/nodes.js";

/** @typedef {import("../messages.d.ts").TermWords} TermWords */
/** @typedef {import("./state.js").SheetDesk} SheetDesk */

/** Where terms stand in a text, each only where it stands first. @param {string} text @param {TermWords[]} terms @returns {(string | {word: string, term: TermWords})[]} */
export function withTerms(text, terms) {
  const known = new Map(terms.flatMap((term) => term.words.map((word) => [word.toLowerCase(), term])));
  if (!known.size) return [text];
  const words = [...known.keys()].sort((a, b) => b.length - a.length).map((word) => word.replace(/[^\w ]/g, "\\$&"));
  const met = new Set(), pieces = [];
  let end = 0;
  for (const found of text.matchAll(new RegExp(`(?<![\\w-])(?:${words.join("|")})(?![\\w-])`, "gi"))) {
    const term = /** @type {TermWords} */ (known.get(found[0].toLowerCase()));
    if (met.has(term)) continue;
    met.add(term);
    pieces.push(text.slice(end, found.index), { word: found[0], term });
    end = found.index + found[0].length;
  }
  return [...pieces, text.slice(end)].filter((piece) => piece !== "");
}

/** A paragraph whose terms can be asked for. @param {SheetDesk} desk @param {string} place its name, apart from those of others @param {string} text @param {string} [look] */
export function explained(desk, place, text, look) {
  const meanings = node("span", { class: "meanings" }), pieces = withTerms(text, desk.page.terms);
  const tell = () => meanings.replaceChildren(...pieces.flatMap((piece) => typeof piece !== "string" && desk.opened.has(keyOf(piece.term))
    ? [node("span", { class: "meaning", role: "note" }, node("dfn", {}, piece.term.words[0]), `: ${piece.term.meaning}`)] : []));
  const keyOf = (/** @type {TermWords} */ { words }) => `term ${place} ${words[0]}`;
  const asked = (/** @type {{word: string, term: TermWords}} */ { word, term }) => {
    const key = keyOf(term), isOpen = () => String(desk.opened.has(key));
    const onclick = (/** @type {{currentTarget: HTMLElement}} */ { currentTarget }) => {
      if (!desk.opened.delete(key)) desk.opened.add(key);
      currentTarget.setAttribute("aria-expanded", isOpen());
      tell();
    };
    return node("button", { type: "button", class: "term", "data-focus": key, "aria-expanded": isOpen(), onclick }, word);
  };
  tell();
  return node("p", { class: look }, ...pieces.map((piece) => typeof piece === "string" ? piece : asked(piece)), meanings);
}
