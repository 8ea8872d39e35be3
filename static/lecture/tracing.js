// @ts-check
// While the load is being moved, the program is asked for the construction there, one question at a time, so that what is
// seen follows the hand as fast as the answers come and never lags behind a queue of them.

/** @typedef {import("./talk.js").Talk} Talk */
/** @typedef {[number, number]} Pair */

/** @param {Talk} talk @returns {{answered(): void, stop(): void}} */
export function tracing(talk) {
  const heard = new AbortController();
  let asked = false;
  /** @type {Pair | null} */
  let next = null;
  const ask = (/** @type {Pair} */ at) => {
    asked = true;
    talk.send({ do: "trace", at });
  };
  const onHold = (/** @type {any} */ { detail }) => {
    if (!talk.moving) return;
    if (asked) next = detail.at;
    else ask(detail.at);
  };
  document.addEventListener("halfturn:hold", onHold, { signal: heard.signal });
  return {
    answered() {
      const at = next;
      asked = false;
      next = null;
      if (at && talk.moving) ask(at);
    },
    stop: () => heard.abort(),
  };
}
