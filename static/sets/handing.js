// @ts-check
// What is done of a set on this device, and the file that is handed in.

import { signature } from "halfturn/parts/keeping.js";

/** @typedef {import("../messages.d.ts").SetWords} SetWords */
/** @typedef {import("../parts/keeping.js").Kept} Kept */
/** A problem with its sheet, if there is one. @typedef {{key: string, state: "" | "begun" | "solved", record: any, drafts: boolean}} Progress */

/** How far one has come in a problem. @type {Record<string, string>} */
export const STATES = { solved: "✓ solved", begun: "… begun", "": "not begun" };

/** @param {SetWords} set @param {Record<string, Kept>} sheets @returns {Progress[]} */
export function progress(set, sheets) {
  return set.problems.map((one) => {
    const kept = sheets[signature(one)], record = kept?.record?.sheet, state = kept?.record?.state;
    const begun = record?.attempts?.length > 0 || record?.shown > 0;
    return {
      key: one.key, record: begun ? record : null, drafts: Object.values(kept?.drafts ?? {}).some((text) => text.trim()),
      state: state === "solved" ? "solved" : begun ? "begun" : "",
    };
  });
}

/** The file: see `lessons/classes/hand_in.py`. @param {SetWords} set @param {Progress[]} done @param {Date} now */
export function handIn(set, done, now) {
  return {
    halfturn: "hand-in", version: 1, set: { key: set.key, version: set.version }, name: set.name,
    saved: now.toISOString().replace(/\.\d+Z$/, "Z"),
    sheets: done.filter(({ record }) => record).map(({ key, record }) => ({ problem: key, sheet: record })),
  };
}

/** @param {SetWords} set */
export function fileName({ key, name }) {
  const plain = name.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase().replace(/[^\p{L}\p{N}]+/gu, "-").replace(/^-|-$/g, "");
  return `halfturn-${key}-${plain || "hand-in"}.json`;
}
