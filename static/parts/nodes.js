// @ts-check
// Making nodes. All text goes in as text, never as markup.

/** @typedef {import("./types.d.ts").Attributes} Attributes */
/** @typedef {import("./types.d.ts").Child} Child */

/**
 * @template {keyof HTMLElementTagNameMap} Tag
 * @param {Tag} tag
 * @param {Attributes} [attributes]
 * @param {...Child} children empty ones are left out
 * @returns {HTMLElementTagNameMap[Tag]}
 */
export function node(tag, attributes = {}, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (name.startsWith("on")) made.addEventListener(name.slice(2), /** @type {EventListener} */ (value));
    else if (value === true) made.setAttribute(name, "");
    else if (value !== false && value != null) made.setAttribute(name, String(value));
  }
  made.append(...present(children));
  return made;
}

/** @param {Child[]} children @returns {(Node | string)[]} */
export function present(children) {
  return /** @type {(Node | string)[]} */ (children.filter((child) => child));
}

/**
 * A box that folds, and remembers in `opened` whether it is open.
 * @param {Set<string>} opened @param {string} key @param {HTMLElement} summary @param {...Child} content
 */
export function folded(opened, key, summary, ...content) {
  const box = node("details", { open: opened.has(key) }, summary, ...content);
  box.addEventListener("toggle", () => box.open ? opened.add(key) : opened.delete(key));
  return box;
}

/** @param {Set<string>} opened @param {string} title @param {string} key @param {Child} content */
export function foldable(opened, title, key, content) {
  return folded(opened, key, node("summary", { "data-focus": `open ${key}` }, title), content);
}

/** @param {string} words @param {() => void} act @param {Attributes} [more] */
export function button(words, act, more = {}) {
  return node("button", { type: "button", onclick: act, ...more }, words);
}

/**
 * Listeners that are all taken away by what comes back.
 * @param {[EventTarget, string, (event: any) => void, boolean?][]} all
 */
export function listen(all) {
  for (const [target, type, listener, capture] of all) target.addEventListener(type, listener, capture);
  return () => {
    for (const [target, type, listener, capture] of all) target.removeEventListener(type, listener, capture);
  };
}

/** Say that this part of the page can be used. @param {string} part */
export function markReady(part) {
  document.documentElement.dataset[part] = "ready";
}
