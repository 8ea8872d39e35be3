// @ts-check
// Several tabs on the same sheet: each follows what was done in another.

import { note, dismissing } from "halfturn/parts/announce.js";

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

export function sayFollowed() {
  note("followed", FOLLOWED, dismissing("followed"));
}
