// @ts-check
// Reading what was kept: it may have been made by another version, cut off, or edited by hand.

/** @typedef {import("./types.d.ts").Drafts} Drafts */
/** @typedef {import("./keeping.js").Kept} Kept */
/** @typedef {import("./keeping.js").Store} Store */

const DEEPEST = 16; // levels in a sheet; one of ours has eight
const LONGEST = 200_000; // characters of a sheet; one of ours has some ten thousand
const LARGEST = 2 ** 53; // whole numbers beyond it are not exact

/**
 * What of a store can be used, and the texts of whatever cannot.
 * @param {string | null} text @returns {{store: Store, damaged: string[]}}
 */
export function readStore(text) {
  const empty = { sheets: {}, last: null };
  if (text === null) return { store: empty, damaged: [] };
  const found = parsed(text);
  if (!isRecord(found) || !isRecord(found.sheets)) return { store: empty, damaged: [text] };
  const all = Object.entries(found.sheets), good = all.filter(([, sheet]) => isSheet(sheet));
  const damaged = all.filter(([, sheet]) => !isSheet(sheet)).map(([name, sheet]) => written({ [name]: sheet }));
  const sheets = Object.fromEntries(good), last = typeof found.last === "string" && found.last in sheets ? found.last : null;
  return { store: { sheets, last }, damaged };
}

/** @param {string} text @returns {any} */
function parsed(text) {
  try { return JSON.parse(text); } catch { return undefined; }
}

/** @param {unknown} value */
function written(value) {
  try { return JSON.stringify(value); } catch { return String(value); }
}

/** @param {unknown} value @returns {value is Record<string, any>} */
export function isRecord(value) {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** Whether this is a sheet that can be sent to the program, which says itself what it cannot read in it. @param {any} sheet @returns {sheet is Kept} */
export function isSheet(sheet) {
  if (!isRecord(sheet) || !isRecord(sheet.record) || !isRecord(sheet.drafts)) return false;
  if (sheet.revision !== undefined && !Number.isSafeInteger(sheet.revision)) return false;
  return Object.values(sheet.drafts).every((text) => typeof text === "string") && isPlain(sheet.record, DEEPEST) &&
    JSON.stringify(sheet).length <= LONGEST;
}

/** @param {unknown} value @param {number} levels @returns {boolean} */
function isPlain(value, levels) {
  if (typeof value === "number") return Math.abs(value) < LARGEST;
  if (typeof value !== "object" || value === null) return true;
  return levels > 0 && Object.values(value).every((one) => isPlain(one, levels - 1));
}

/** What was typed since these drafts were kept. @param {Drafts} drafts @param {Drafts} before @returns {Drafts} */
export function typedSince(drafts, before) {
  return Object.fromEntries(Object.entries(drafts).filter(([key, text]) => before[key] !== text));
}
