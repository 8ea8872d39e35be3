// @ts-check
// Where attention is: kept while a column is drawn anew, or led to something that has come.

import { surviving } from "halfturn/parts/keeping.js";

/**
 * Remember what has the focus under its `data-focus`; what comes back gives it to the node of that name, with its caret.
 * @param {HTMLElement} root
 */
export function keepFocus(root) {
  const active = /** @type {any} */ (root.getRootNode()).activeElement;
  const name = active?.dataset?.focus, caret = active?.selectionStart;
  return () => {
    const again = name && /** @type {any} */ (root.querySelector(`[data-focus="${CSS.escape(name)}"]`));
    if (!again) return;
    again.focus({ preventScroll: true });
    try { again.setSelectionRange(caret, caret); } catch { /* it holds no text */ }
  };
}

/**
 * Lead attention to an element, and bring it or what is around it into view. On a touch screen a box to write in would
 * raise the keyboard unasked: there attention goes to what is around it.
 * @param {HTMLElement | null | undefined} target @param {Element | null} [seen]
 */
export function arrive(target, seen = target) {
  const raises = target?.matches("input[type=text]") && matchMedia("(pointer: coarse)").matches;
  const place = raises ? /** @type {HTMLElement | null} */ (seen) : target;
  if (raises && place !== target) place?.setAttribute("tabindex", "-1");
  if (!raises || place !== target) place?.focus({ preventScroll: true });
  const calm = matchMedia("(prefers-reduced-motion: reduce)").matches;
  seen?.scrollIntoView({ block: "nearest", behavior: calm ? "auto" : "smooth" });
}

/** @typedef {{root: HTMLElement | null, name: string, caret: number | null}} Place */

/**
 * Where attention is in a part of the page, for when that is built anew: it comes back to the node of the same name.
 * @param {string} part @param {HTMLElement} root
 */
export function followFocus(part, root) {
  /** @type {Place} */
  const place = surviving(`focus of ${part}`, () => ({ root: null, name: "", caret: null }));
  const note = (/** @type {Event} */ { target }) => {
    const { dataset, selectionStart } = /** @type {HTMLInputElement} */ (target);
    Object.assign(place, { root, name: dataset.focus ?? "", caret: selectionStart ?? null });
  };
  for (const event of ["focusin", "input", "keyup"]) root.addEventListener(event, note);
  // What is taken away with the page loses its focus, too, but is not left.
  root.addEventListener("focusout", () => setTimeout(() => {
    if (root.isConnected && place.root === root && !root.contains(activeIn(root))) place.name = "";
  }));
  const { caret } = place, again = place.root !== root && place.name && !document.activeElement?.matches(":not(body)")
    ? /** @type {any} */ (root.querySelector(`[data-focus="${CSS.escape(place.name)}"]`)) : null;
  place.root = root;
  if (!again) return;
  again.focus({ preventScroll: true });
  try { again.setSelectionRange(caret, caret); } catch { /* it holds no text */ }
}

/** @param {HTMLElement} root */
function activeIn(root) {
  return /** @type {any} */ (root.getRootNode()).activeElement;
}
