// @ts-check
// What the browser keeps under a name: sheets by problem, and what was typed but not yet checked.
//
// A sheet has a revision, which grows with each change. A tab that has not seen the newest one never writes over it: it
// is given that one, to go on with. Whatever in a store cannot be read is laid aside as it is, and said.

import { dismissing, note, unnote } from "halfturn/parts/announce.js";
import { download } from "halfturn/parts/save.js";
import { readStore, typedSince } from "halfturn/parts/store.js";

/** @typedef {import("./types.d.ts").Drafts} Drafts */
/** @typedef {{record: any, drafts: Drafts, revision?: number}} Kept */
/** @typedef {{sheets: Record<string, Kept>, last: string | null}} Store */
/** @typedef {{entries: Record<string, string>, record: any}} Page */

export const MOST_SHEETS = 100;
const DAMAGED = "Part of what this browser kept could not be read. It is kept aside as it is.";
const FULL = "This browser keeps nothing more for this page: its store is full, or closed to it. What you enter stays only while this page is open.";
const NEWER = "What you worked on last was made by a newer version of the program. It is kept as it is, and comes back when that version answers; what is entered for its problem meanwhile is not kept.";
const LIGHT = "This browser cannot keep your wish for a light or dark page: its store is full, or closed to it. It holds for this visit.";

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
export const inHand = () => surviving("in hand", () => new Map());

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

/** Say that something cannot be kept, once as long as the page is open. @param {string} name @param {string} words @param {Record<string, () => void>} [acts] */
export function sayUnkept(name, words, acts = dismissing(name)) {
  const said = surviving("said unkept", () => new Set());
  if (said.has(name)) return;
  said.add(name);
  note(name, words, acts);
}

/** @param {(() => void) | undefined} saveFile */
function sayFull(saveFile) {
  sayUnkept("full", FULL, saveFile ? { "Save to a file": saveFile } : {});
}

globalThis.document?.addEventListener("halfturn:unkept", () => sayUnkept("light", LIGHT)); // from the page's own script

/** What could not be read goes aside, under a name of its own, and is said. @param {string} name @param {string[]} texts */
export function setAside(name, texts) {
  const aside = `${name}.unread`, before = recallText(aside), all = [...(before ? [before] : []), ...texts].join("\n");
  if (!retainText(aside, all)) sayFull(undefined);
  note("damaged", DAMAGED, { "Save it to a file": () => download("halfturn-unread.txt", new Blob([all], { type: "text/plain" })) });
}

/** What is kept under a name; what of it cannot be read goes aside. @param {string} name @returns {Store} */
function storeOf(name) {
  const { store, damaged } = readStore(recallText(name));
  if (damaged.length) {
    setAside(name, damaged);
    retain(name, store);
  }
  return store;
}

/** While a sheet waits, nothing goes in its place, and nothing before it that was not touched. @param {string | null} waiting @param {string} problem @param {Page} page @param {Drafts} drafts */
function isHeldBack(waiting, problem, { record }, drafts) {
  return waiting !== null && (waiting === problem || !(record.state || record.text || Object.keys(drafts).length));
}

/** The place of the sheet that only a newer program than the one which answers now can read. @param {string} name */
function placeApart(name) {
  const apart = surviving(`apart of ${name}`, () => ({ name: /** @type {string | null} */ (null) }));
  return {
    /** @returns {string | null} the sheet that waits for a newer program */
    waiting: () => apart.name,
    /** A sheet waits where it is for a newer program; with null none does. @param {string | null} problem */
    setApart(problem) {
      if (problem === apart.name) return;
      apart.name = problem;
      if (problem) note("newer", NEWER);
      else unnote("newer");
    },
  };
}

/** @param {string} name @param {() => void} [saveFile] how a student saves a sheet otherwise */
export function shelf(name, saveFile) {
  /** The revision of each sheet that this tab has seen, and what was typed in it. @type {Map<string, Kept>} */
  const seen = surviving(`seen of ${name}`, () => new Map());
  const apart = placeApart(name), kept = () => storeOf(name);
  const shelfOf = {
    kept,
    ...apart,
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
      if (isNewer(stored, seen.get(problem)) || isHeldBack(apart.waiting(), problem, page, drafts)) return;
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
      setAside(name, [JSON.stringify({ [problem]: unread })]);
    },
  };
  return shelfOf;
}
