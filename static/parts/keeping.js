// @ts-check
// What the browser keeps under a name: sheets by problem, and what was typed but not yet checked.

/** @typedef {import("./types.d.ts").Drafts} Drafts */
/** @typedef {{record: any, drafts: Drafts}} Kept */
/** @typedef {{sheets: Record<string, Kept>, last: string | null}} Store */

export const MOST_SHEETS = 30;

/** @param {string} name @returns {any} what was kept, or null where there is nothing or nothing readable */
export function recall(name) {
  try { return JSON.parse(localStorage.getItem(name) ?? "null"); } catch { return null; }
}

/** @param {string} name @param {unknown} value */
export function retain(name, value) {
  try { localStorage.setItem(name, JSON.stringify(value)); } catch { /* a full or closed store loses nothing on the page */ }
}

/** The problem that a page is about, as the name of its sheet. @param {{entries: Record<string, string>}} page */
export function signature(page) {
  return JSON.stringify(page.entries);
}

/**
 * The store with one more sheet. The newest goes last and counts as the one worked on; the oldest go.
 * @param {Store} store @param {string} problem @param {Kept} sheet @returns {Store}
 */
export function shelved(store, problem, sheet) {
  const others = Object.entries(store.sheets).filter(([name]) => name !== problem);
  const sheets = [...others, [problem, sheet]].slice(-MOST_SHEETS);
  return { sheets: Object.fromEntries(sheets), last: problem };
}

/** @param {string} name */
export function shelf(name) {
  /** @returns {Store} */
  const kept = () => {
    const store = recall(name);
    return store && typeof store.sheets === "object" && store.sheets ? store : { sheets: {}, last: null };
  };
  return {
    kept,
    /** @param {{entries: Record<string, string>}} page @returns {Kept | undefined} */
    of: (page) => kept().sheets[signature(page)],
    /** @param {{entries: Record<string, string>, record: any}} page @param {Drafts} drafts */
    save: (page, drafts) => retain(name, shelved(kept(), signature(page), { record: page.record, drafts })),
  };
}
