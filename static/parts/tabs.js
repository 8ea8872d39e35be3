// @ts-check
// The desk of a column and what is kept of it: taken up when the page opens, and followed where another tab has gone on.

import { note, dismissing } from "halfturn/parts/announce.js";
import { signature } from "halfturn/parts/keeping.js";

/** @typedef {ReturnType<typeof import("./keeping.js").shelf>} Shelf */
/** @typedef {{page: {entries: Record<string, string>, record: any, linked?: boolean, asked?: boolean, lessonKey?: string}, drafts: import("./types.d.ts").Drafts,
 *   save(): void, restore(record: any, name?: string): void}} Desk */

const FOLLOWED = "This sheet was carried on in another tab or window. Here it is as it stands there.";

/**
 * Call `look` whenever another tab may have changed what is kept under a name; what comes back ends it.
 * A tab that was put to sleep has missed the browser's word of it, so it looks when it is woken.
 * @param {string} name @param {() => void} look
 */
export function followOthers(name, look) {
  const ended = new AbortController(), { signal } = ended;
  addEventListener("storage", ({ key }) => { if (key === name || key === null) look(); }, { signal });
  for (const woken of ["focus", "pageshow"]) addEventListener(woken, look, { signal });
  document.addEventListener("visibilitychange", () => { if (!document.hidden) look(); }, { signal });
  return () => ended.abort();
}

/** What the page opens with, where anything was kept: of the link's problem or lesson, or of the one worked on last. @param {Shelf} kept @param {Desk} desk */
export function takeUp(kept, desk) {
  const { page } = desk, { sheets, last } = kept.kept(), own = signature(page);
  const ofLesson = Object.keys(sheets).findLast((name) => sheets[name].record.sheet?.lesson === page.lessonKey && !sheets[name].record.drill);
  const name = page.linked ? own : (page.asked ? ofLesson : last) ?? own, before = kept.take(name);
  if (!before) return desk.save();
  desk.drafts = before.drafts;
  desk.restore(before.record, name);
}

/** What is kept becomes of what the program says of it: what it cannot read goes aside, what only a newer one can waits. @param {Shelf} kept @param {string} restored @param {{damaged?: boolean, newer?: boolean, restored?: boolean, fresh?: boolean}} page */
export function settle(kept, restored, { damaged, newer, restored: isBack, fresh }) {
  if (newer) kept.setApart(restored);
  else if (damaged) kept.layAside(restored);
  if (isBack || fresh) kept.setApart(null);
}

/** Over another connection the desk goes on as it was, or with the sheet that waits for the program now there. @param {Shelf} kept @param {Desk} desk */
export function resume(kept, desk) {
  const name = kept.waiting(), before = name === null ? undefined : kept.take(name);
  if (!before) return desk.restore(desk.page.record);
  desk.drafts = before.drafts;
  desk.restore(before.record, name ?? undefined);
}

/** Where another tab has carried on with what is on the desk, go on from there; whether it has. @param {Shelf} kept @param {Desk} desk */
export function follow(kept, desk) {
  const newer = kept.newer(desk.page, desk.drafts);
  if (!newer) return false;
  desk.page.record = newer.record;
  desk.drafts = newer.drafts;
  kept.save(desk.page, desk.drafts); // with what was typed here on top
  desk.restore(newer.record);
  note("followed", FOLLOWED, dismissing("followed"));
  return true;
}
