// @ts-check
// What the browser keeps under a name: sheets by problem, and what was typed but not yet checked.
//
// A sheet has a revision, which grows with each change. A tab that has not seen the newest one never writes over it: it
// is given that one, to go on with. Whatever in a store cannot be read is laid aside as it is, and said.

import { note } from "halfturn/parts/announce.js";
import { download } from "halfturn/parts/save.js";
import { readStore, typedSince } from "halfturn/parts/store.js";

/** @typedef {import("./types.d.ts").Drafts} Drafts */
/** @typedef {{record: any, drafts: Drafts, revision?: number}} Kept */
/** @typedef {{sheets: Record<string, Kept>, last: string | null}} Store */
/** @typedef {{entries: Record<string, string>, record: any}} Page */

export const MOST_SHEETS = 60; // a set has ten or so, and a student more than one of them
const DAMAGED = "Part of what this browser kept could not be read. It is kept aside as it is.";
const FULL = "This browser keeps nothing more for this page: its store is full, or closed to it. What you enter stays only while this page is open.";

/**
 * Something that outlives the parts of a page, which are built anew with each new connection.
 * @template One @param {string} name @param {() => One} make @returns {One}
 */
export function surviving(name, make) {
  /** @type {Map<string, any>} */
  const all = (/** @type {any} */ (globalThis).halfturn ??= new Map());
  if (!all.has(name)) all.set(name, make());
  return all.get(name);
}

/** What could not be stored, for as long as the page is open. @returns {Map<string, string>} */
const inHand = () => surviving("in hand", () => new Map());

/** @param {string} name @returns {string | null} */
export function recallText(name) {
  try { return inHand().get(name) ?? localStorage.getItem(name); } catch { return inHand().get(name) ?? null; }
}

/** @param {string} name @returns {any} what was kept, or null where there is nothing or nothing readable */
export function recall(name) {
  try { return JSON.parse(recallText(name) ?? "null"); } catch { return null; }
}

/** @param {string} name @param {unknown} value @returns {boolean} whether it is stored, and not only in hand */
export function retain(name, value) {
  try { return retainText(name, JSON.stringify(value)); } catch { return false; } // what cannot be written leaves what was
}

/** @param {string} name @param {string} text */
function retainText(name, text) {
  try {
    localStorage.setItem(name, text);
    inHand().delete(name);
    return true;
  } catch {
    inHand().set(name, text);
    return false;
  }
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

/** @param {Kept | undefined} stored @param {Kept | undefined} ours */
function isNewer(stored, ours) {
  return (stored?.revision ?? 0) > (ours?.revision ?? 0);
}

/** Say that nothing can be kept, once. @param {(() => void) | undefined} saveFile */
function sayFull(saveFile) {
  const said = surviving("said full", () => ({ yes: false }));
  if (said.yes) return;
  said.yes = true;
  note("full", FULL, saveFile ? { "Save to a file": saveFile } : {});
}

/** What could not be read goes aside, under a name of its own, and is said. @param {string} name @param {string[]} texts */
function layAside(name, texts) {
  const aside = `${name}.unread`, before = recallText(aside), all = [...(before ? [before] : []), ...texts].join("\n");
  if (!retainText(aside, all)) sayFull(undefined);
  note("damaged", DAMAGED, { "Save it to a file": () => download("halfturn-unread.txt", new Blob([all], { type: "text/plain" })) });
}

/** What is kept under a name; what of it cannot be read goes aside. @param {string} name @returns {Store} */
function storeOf(name) {
  const { store, damaged } = readStore(recallText(name));
  if (damaged.length) {
    layAside(name, damaged);
    retain(name, store);
  }
  return store;
}

/** @param {string} name @param {() => void} [saveFile] how a student saves a sheet otherwise */
export function shelf(name, saveFile) {
  /** The revision of each sheet that this tab has seen, and what was typed in it. @type {Map<string, Kept>} */
  const seen = surviving(`seen of ${name}`, () => new Map());
  const kept = () => storeOf(name);
  const shelfOf = {
    kept,
    /** The sheet that is taken from the shelf to go on with. @param {string | null} problem @returns {Kept | undefined} */
    take(problem) {
      const sheet = kept().sheets[problem ?? ""];
      if (sheet) seen.set(problem ?? "", sheet);
      return sheet;
    },
    /** @param {{entries: Record<string, string>}} page @returns {Kept | undefined} */
    of: (page) => shelfOf.take(signature(page)),
    /** The sheet as another tab has left it since, with what was typed here on top. @param {Page} page @param {Drafts} drafts */
    newer(page, drafts) {
      const problem = signature(page), ours = seen.get(problem), stored = kept().sheets[problem];
      if (!ours || !isNewer(stored, ours)) return undefined;
      seen.set(problem, stored);
      return { ...stored, drafts: { ...stored.drafts, ...typedSince(drafts, ours.drafts) } };
    },
    /** @param {Page} page @param {Drafts} drafts */
    save(page, drafts) {
      const problem = signature(page), store = kept(), stored = store.sheets[problem], { record } = page;
      if (isNewer(stored, seen.get(problem))) return;
      const isSame = stored && JSON.stringify([stored.record, stored.drafts]) === JSON.stringify([record, drafts]);
      const sheet = isSame ? stored : { record, drafts: { ...drafts }, revision: (stored?.revision ?? 0) + 1 };
      seen.set(problem, sheet);
      if ((!isSame || store.last !== problem) && !retain(name, shelved(store, problem, sheet))) sayFull(saveFile);
    },
    /** A sheet that the program could not read is laid aside as it is. @param {string} problem */
    layAside(problem) {
      const store = kept(), { [problem]: unread, ...sheets } = store.sheets;
      if (!unread) return;
      retain(name, { sheets, last: null });
      layAside(name, [JSON.stringify({ [problem]: unread })]);
    },
  };
  return shelfOf;
}
