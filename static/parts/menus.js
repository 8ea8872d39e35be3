// @ts-check
// A row of menus over one place: what opens stands under the whole row, which stays as it is.

import { button, node } from "halfturn/parts/nodes.js";

/** @typedef {import("./types.d.ts").Child} Child */
/** @typedef {{key: string, title: string, content: Child}} Menu */

/**
 * The row, and what opens under it. At most one menu is open; `opened` remembers which.
 * @param {Set<string>} opened @param {Menu[]} menus @param {...Child} more what else stands in the row
 */
export function menuRow(opened, menus, ...more) {
  const panels = menus.map(({ key, content }) => node("div", { class: "panel", id: `menu-${key}` }, content));
  const buttons = menus.map(({ key, title }) =>
    button(title, () => turn(key), { class: "menu", "data-focus": `open ${key}`, "aria-controls": `menu-${key}` }));
  const show = () => menus.forEach(({ key }, index) => {
    buttons[index].setAttribute("aria-expanded", String(opened.has(key)));
    panels[index].hidden = !opened.has(key);
  });
  const turn = (/** @type {string} */ key) => {
    const wasOpen = opened.has(key);
    for (const menu of menus) opened.delete(menu.key);
    if (!wasOpen) opened.add(key);
    show();
  };
  menus.forEach(({ key }, index) => panels[index].addEventListener("keydown", ({ key: pressed }) => {
    if (pressed !== "Escape") return;
    turn(key);
    buttons[index].focus();
  }));
  show();
  return [node("div", { class: "desk" }, ...buttons, ...more), ...panels];
}
