// @ts-check
// What can be done on the chart to answer, for whoever has keys and for whoever has a finger.

import { lengthStep } from "halfturn/parts/stage/hands.js";
import { writtenLength } from "halfturn/parts/stage/readings.js";

/** @typedef {import("halfturn/parts/stage/types.d.ts").Task} Task */
/** @typedef {import("halfturn/parts/stage/types.d.ts").Notation} Notation */

/** Whether the page is used with a finger in the first place. */
export const isTouched = () => matchMedia("(pointer: coarse)").matches;

/** What can be done, in the course's unit of length. @param {Task} task @param {Notation} notation */
export function hintFor({ kind }, notation) {
  const step = lengthStep(notation), [coarse, fine] = [step, step / 10].map((length) => writtenLength(length, { ...notation, decimals: 4 }));
  const short = (/** @type {string} */ text) => text.replace(/0+(?=\s|°)/, "").replace(/\.(?=\s|°)/, "");
  return {
    place: "Click or drag to put the point. Arrow keys move it by 0.01, with Shift by 0.001; Enter hands it in.",
    "on circle": "Click or drag to put the point on the circle. Arrow keys move it along by 0.01, with Shift by 0.001; Enter hands it in.",
    radius: "Drag to open the circle about the centre. Arrow keys change its radius by 0.01, with Shift by 0.001; Enter hands it in.",
    along: `Drag along the circle, either way round. Right walks ${short(coarse)} toward the generator, Left toward the load; with Shift ${short(fine)}. Enter hands it in.`,
    "along circle": "Drag along the circle, either way round. Right walks clockwise by 0.01, Left counter-clockwise; with Shift 0.001. Enter hands it in.",
    pick: "Click one of the points. Arrow keys go from one to the next; Enter hands it in.",
  }[kind];
}

/** @param {Task} task */
export function touchHintFor({ kind }) {
  return {
    place: "Tap to put the point, then move its ring with a finger. Two fingers bring the chart closer.",
    "on circle": "Tap to put the point on the circle, then move its ring with a finger. Two fingers bring the chart closer.",
    radius: "Tap where the circle is to pass, or move the ring with a finger.",
    along: "Move the ring along the circle with a finger, either way round.",
    "along circle": "Move the ring along the circle with a finger, either way round.",
    pick: "Tap one of the points.",
  }[kind];
}
