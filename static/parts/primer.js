// @ts-check
// The primer of a lesson: what stands before its problems, on one screen.

import { figureNode } from "halfturn/parts/figure.js";
import { surviving } from "halfturn/parts/keeping.js";
import { node } from "halfturn/parts/nodes.js";

/** @typedef {import("../messages.d.ts").PrimerWords} Primer */

/** Primers that have come, by their keys, and where the hand is in their figures. @returns {Map<string, {primer: Primer, pose: number | undefined}>} */
const come = () => surviving("primers", () => new Map());

/** @param {Primer | null} primer */
export function primerCame(primer) {
  if (primer) come().set(primer.key, { primer, pose: undefined });
}

/** A primer in place, once it has come; `ask` has it sent. @param {string} key @param {() => void} ask */
export function primerNodes(key, ask) {
  const found = come().get(key);
  if (!found) {
    ask();
    return [node("p", { class: "waiting" }, "It is on its way.")];
  }
  const { primer: { paragraphs, figure } } = found;
  return [...paragraphs.map((text) => node("p", {}, text)), figure ? figureNode(figure, found.pose ?? figure.start, (pose) => { found.pose = pose; }) : ""];
}
