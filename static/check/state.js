// @ts-check
// What the self-check remembers beside the page that it shows. Of the drafts, "text" is the box of all lines, "way" the
// way of writing, and "entry ..." a single value.

/** @typedef {import("../messages.d.ts").CheckPage} CheckPage */
/** @typedef {import("../messages.d.ts").CheckSaid} Said */
/** @typedef {import("../parts/types.d.ts").Drafts} Drafts */
/** @typedef {{text?: string, texts?: Drafts}} Sent */
/** @typedef {import("../parts/types.d.ts").Desk<CheckPage, Said> & {sent: Sent, restored: string, restore(record: any, name?: string): void,
 *   redraw: () => void}} CheckDesk */

/** The name of a single value among the drafts. @param {string} key */
export function draftOf(key) {
  return `entry ${key}`;
}

/** What of the drafts goes along to another problem: the lines, and the way of writing. @param {Drafts} drafts @returns {Drafts} */
export function keptDrafts({ way, text }) {
  return { ...(way === undefined ? {} : { way }), ...(text === undefined ? {} : { text }) };
}

/** The drafts without what was sent and is none any more; what was typed since stays. @param {Drafts} drafts @param {Sent} sent @returns {Drafts} */
export function unsentDrafts(drafts, { text, texts = {} }) {
  const sent = { ...(text === undefined ? {} : { text }), ...Object.fromEntries(Object.entries(texts).map(([key, value]) => [draftOf(key), value])) };
  return Object.fromEntries(Object.entries(drafts).filter(([name, value]) => /** @type {Drafts} */ (sent)[name] !== value));
}

/**
 * The single values that were changed, by their fields.
 * @param {{steps: {fields: {key: string, text: string}[]}[]}} page @param {Drafts} drafts @returns {Drafts}
 */
export function changedEntries({ steps }, drafts) {
  const fields = steps.flatMap((step) => step.fields);
  const isChanged = fields.filter(({ key, text }) => (drafts[draftOf(key)] ?? text) !== text);
  return Object.fromEntries(isChanged.map(({ key }) => [key, drafts[draftOf(key)]]));
}
