// @ts-check
// Where attention is: kept while a column is drawn anew, or led to something that has come.

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
