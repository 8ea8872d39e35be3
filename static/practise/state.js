// @ts-check
// What the sheet remembers beside the page that it shows, and how it changes with another page.

/** @typedef {import("../messages.d.ts").SheetPage} SheetPage */
/** @typedef {import("../messages.d.ts").PractiseSaid} Said */
/** @typedef {import("../parts/types.d.ts").Drafts} Drafts */
/**
 * `displaced` is a sheet of the student's own that gave way to one from a link or a file.
 * @typedef {import("../parts/types.d.ts").Desk<SheetPage, Said> & {displaced: any, redraw: () => void}} SheetDesk
 */

/**
 * What was typed, without what the sheet now holds.
 * @param {Drafts} drafts @param {Record<string, {text?: string, revealed?: boolean}>} entered @returns {Drafts}
 */
export function stillDrafts(drafts, entered) {
  const isTaken = (/** @type {string} */ key) => entered[key]?.text === drafts[key] || entered[key]?.revealed;
  return Object.fromEntries(Object.entries(drafts).filter(([key]) => !isTaken(key)));
}

/**
 * The record of one's own sheet for the same problem, where a sheet that was brought takes its place and differs.
 * @param {{record: any} | undefined} own @param {{record: any}} brought
 */
export function displacedBy(own, brought) {
  const entries = own?.record.sheet.entries ?? {};
  const differs = JSON.stringify(entries) !== JSON.stringify(brought.record.sheet.entries);
  return differs && Object.keys(entries).length ? own?.record : null;
}

/**
 * Whether more is settled than before, or the student has taken over, or handed over: then attention goes on.
 * @param {SheetPage} before @param {SheetPage} next
 */
export function hasGoneOn(before, next) {
  const settled = (/** @type {SheetPage} */ page) => page.steps.flatMap(({ fields }) => fields.filter((field) => field.settled).map(({ key }) => key));
  const known = new Set(settled(before));
  return before.guided !== next.guided || settled(next).some((key) => !known.has(key));
}
