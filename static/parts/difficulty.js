// @ts-check
// How hard random problems are to be: chosen where they are drawn, and kept by this browser for every page of it.

import { meaning, pair, select } from "halfturn/parts/forms.js";
import { recall, retain, sayUnkept } from "halfturn/parts/keeping.js";

/** @typedef {import("../messages.d.ts").Entry} Entry */

export const DIFFICULTY = "halfturn.difficulty";
const UNKEPT = "This browser cannot keep how hard random problems are to be: its store is full, or closed to it. It holds for this visit.";

/** What was chosen last, as far as the program offers it. @param {Entry} entry @returns {any} */
export function chosen({ options, text }) {
  const kept = recall(DIFFICULTY);
  return options.some(([key]) => key === kept) ? kept : text;
}

/** What a message says of what it wants drawn. @param {Entry} entry */
export const drawnSo = (entry) => ({ difficulty: chosen(entry) });

/** The query of what another page is to draw. What this browser keeps is looked at there. @param {string} query */
export function queryDrawnSo(query) {
  const kept = recall(DIFFICULTY);
  return typeof kept === "string" && kept ? `${query}&${new URLSearchParams({ difficulty: kept })}` : query;
}

/** @param {string} value */
function keep(value) {
  if (!retain(DIFFICULTY, value)) sayUnkept("difficulty", UNKEPT);
}

/** The choice with its label and what it means, as in any form. @param {Entry} entry */
export function difficultyPair(entry) {
  return pair("drawn", entry, chosen(entry), { onchange: ({ target: { value } }) => keep(value) });
}

/** The choice alone, to stand beside what draws; and what it means, in sight once it is chosen. @param {Entry} entry @returns {[HTMLElement, HTMLElement]} */
export function difficultyChoice(entry) {
  const id = "difficulty", said = meaning(entry, `${id}-meaning`);
  const onchange = () => { keep(choice.value); said.show(choice.value); said.node.hidden = false; };
  const choice = select(entry, { id, "data-focus": id, "aria-label": entry.label, "aria-describedby": said.node.id, onchange });
  choice.value = chosen(entry);
  said.show(choice.value);
  said.node.hidden = true;
  return [choice, said.node];
}
