// @ts-check
// What a hand draws: the attributes of the shapes, in order.

import { textNode } from "halfturn/parts/stage/lettering.js";
import { arcPath, headOnArc, ringPath, shape } from "halfturn/parts/stage/svg.js";

/** @typedef {import("halfturn/parts/stage/types.d.ts").Pair} Pair */
/** @typedef {import("halfturn/parts/stage/types.d.ts").Hand} Hand */
/** @typedef {import("halfturn/parts/stage/view.js").View} View */
/** @typedef {Record<string, string | number>} Attributes */

const ORIGIN = /** @type {Pair} */ ([0, 0]);

/** @param {View} view @param {Hand | null} hand @returns {Node[]} */
export function handNodes(view, hand) {
  if (!hand) return [];
  if (hand.task.kind === "pick") return pickNodes(view, hand);
  const [x, y] = view.toScreen(/** @type {Pair} */ (hand.at));
  const grip = [{ class: "grip", d: ringPath([x, y], 9) }, { class: "dot", d: ringPath([x, y], 2) }];
  return [...trail(view, hand), ...grip].map((attributes) => shape("path", attributes));
}

/** @param {View} view @param {Hand} hand @returns {Attributes[]} */
function trail(view, hand) {
  const { kind, center, radius, start } = hand.task;
  if (kind === "on circle") return [{ class: "guide", d: arcPath(view, center, radius, 0, 2 * Math.PI) }];
  if (kind === "radius") return [{ class: "trail", d: arcPath(view, ORIGIN, hand.size?.() ?? 0, 0, 2 * Math.PI) }];
  if (kind === "along") return walk(view, ORIGIN, Math.hypot(...start), start, -4 * Math.PI * (hand.walked ?? 0));
  if (kind === "along circle") return walk(view, center, radius, start, hand.turned ?? 0);
  return [];
}

/** @param {View} view @param {Pair} center @param {number} radius @param {Pair} origin @param {number} turn @returns {Attributes[]} */
function walk(view, center, radius, origin, turn) {
  const start = Math.atan2(origin[1] - center[1], origin[0] - center[0]);
  const guide = { class: "guide", d: arcPath(view, center, radius, 0, 2 * Math.PI) };
  const still = [guide, { class: "dot", d: ringPath(view.toScreen(origin), 4) }];
  if (!turn) return still;
  const head = headOnArc(view, { center, radius, start }, turn, 9);
  return [...still, { class: "trail", d: arcPath(view, center, radius, start, turn) }, ...(head ? [{ class: "head", ...head }] : [])];
}

/** @param {View} view @param {Hand} hand @returns {Node[]} */
function pickNodes(view, hand) {
  return hand.task.points.flatMap(([key, u, v], index) => {
    const at = view.toScreen([u, v]), chosen = index === hand.index;
    const ring = shape("path", { class: chosen ? "grip chosen" : "grip", d: ringPath(at, 14) });
    const name = textNode(key, { class: "target", x: at[0], y: at[1] - 19 });
    return chosen ? [ring, shape("path", { class: "dot", d: ringPath(at, 5) }), name] : [ring, name];
  });
}
