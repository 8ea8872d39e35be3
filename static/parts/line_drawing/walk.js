// @ts-check
// What is shown now: the picture, over it what is dragged, and between two pictures the way.

/** @import { Picture, Values } from "halfturn/parts/line_drawing/types.d.ts" */

const LONGEST = 2;                   // wavelengths; a drag beyond it stops there

/** The picture's own lengths. @param {Picture} picture @returns {Values} */
export const lengthsOf = picture => picture.plans.map(({ elements }) => elements.map(element => element.length ?? null));

/**
 * A length that was unknown starts from nothing: a stub comes from the load, and grows from its junction.
 * @param {Values} from @param {Values} to @param {number} share
 * @returns {Values}
 */
export function between(from, to, share) {
  return to.map((lengths, i) => lengths.map((end, k) => {
    const start = from[i]?.[k] ?? 0;
    return end === null ? null : start + share * (end - start);
  }));
}

/**
 * A walk is told by the chart, as a branch's key, an element of its network and a length; null where it is not one of
 * this drawing.
 * @param {Picture} picture @param {any} detail
 */
export function walkIn(picture, detail) {
  const { branch, element, wavelengths } = detail ?? {};
  const plan = picture.plans?.findIndex(one => (one.branch?.key ?? null) === branch) ?? -1;
  const walked = picture.plans?.[plan]?.elements[element];
  if (!Number.isInteger(element) || (walked?.kind !== "section" && walked?.kind !== "stub")) return null;
  if (wavelengths === null) return { plan, element, value: null };
  return Number.isFinite(wavelengths) ? { plan, element, value: Math.max(0, Math.min(wavelengths, LONGEST)) } : null;
}

/**
 * The lengths with what is walked over them.
 * @param {Values} values @param {{plan: number, element: number, value: number | null}[]} walks
 * @returns {Values}
 */
export function walked(values, walks) {
  return values.map((lengths, i) => lengths.map((length, k) =>
    walks.find(walk => walk.plan === i && walk.element === k)?.value ?? length));
}
