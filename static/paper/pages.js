// @ts-check
// The pages of the paper view: they come sheet by sheet, are shown as pictures, and stand ready to be printed.

import { savePage } from "halfturn/paper/saving.js";
import { keysLast, printRules, put, summary } from "halfturn/paper/sheets.js";
import { button, node } from "halfturn/parts/nodes.js";
import { count } from "halfturn/parts/words.js";

/** @typedef {import("../messages.d.ts").PaperPage} PaperPage */
/** @typedef {import("../messages.d.ts").PaperSheet} PaperSheet */
/** @typedef {import("../messages.d.ts").PaperStart} PaperStart */
/** @typedef {PaperPage & {svg: string, address: string}} Page with its drawing, and where the browser has it as a picture */
/**
 * `parts` are the texts that pages share, `isWhole` says that the last page has come.
 * @typedef {{start: PaperStart | null, parts: string[], pages: Page[], isWhole: boolean, status: HTMLElement,
 *   link: HTMLAnchorElement, actions: HTMLButtonElement[], shelves: Record<string, HTMLElement>, preview: HTMLElement,
 *   printed: HTMLElement, rules: HTMLElement}} Press
 */

/** @returns {Press} */
export function makePress() {
  const shelves = { worksheet: node("div", { class: "pages" }), key: node("div", { class: "pages" }) };
  document.getElementById("paper-print")?.remove(); // of a page that has come back to another server
  return {
    start: null, parts: [], pages: [], isWhole: false, actions: [], shelves,
    status: node("p", { class: "status", role: "status" }),
    link: node("a", {}, "Link to these sheets"),
    preview: node("section", { class: "preview", "aria-label": "Pages" }, shelves.worksheet, shelves.key),
    printed: document.body.appendChild(node("div", { id: "paper-print", "aria-hidden": "true" })),
    rules: document.head.appendChild(node("style")),
  };
}

/** Take away what stands outside of the component. @param {Press} press */
export function forget({ printed, rules }) {
  printed.remove();
  rules.remove();
}

/** @param {Press} press @param {PaperStart} start */
export function beginRun(press, start) {
  for (const page of press.pages) URL.revokeObjectURL(page.address);
  Object.assign(press, { start, parts: [], pages: [], isWhole: false });
  for (const place of [...Object.values(press.shelves), press.printed]) place.replaceChildren();
  for (const action of press.actions) action.disabled = true;
  press.rules.textContent = printRules(start.millimetres);
  press.link.href = start.link;
  history.replaceState(null, "", start.link);
  press.status.textContent = `Making ${count(start.sheets, "sheet")} …`;
}

/** @param {Press} press @param {PaperSheet} sheet */
export function addSheet(press, sheet) {
  if (!press.start || sheet.run !== press.start.run) return;
  press.parts.push(...sheet.parts);
  for (const one of sheet.pages) {
    const svg = put(one.parts, press.parts);
    const page = { ...one, svg, address: URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" })) };
    press.pages.push(page);
    press.shelves[page.kind].append(shown(press, page, press.start.millimetres));
  }
  if (press.start.sheets > 1) press.status.textContent = `Making sheet ${sheet.index + 1} of ${press.start.sheets} …`;
}

/** @param {Press} press @param {Page} page @param {number[]} millimetres */
function shown(press, page, [width, height]) {
  const picture = node("img", { src: page.address, alt: `${page.title}. ${page.description}`, loading: "lazy", decoding: "async" });
  picture.style.aspectRatio = `${width} / ${height}`;
  const save = (/** @type {"svg" | "png"} */ ending) => {
    const words = ending.toUpperCase();
    return button(words, () => savePage(press, page, ending), { "aria-label": `${words}: ${page.title}` });
  };
  return node("figure", {}, picture, node("figcaption", {}, node("span", {}, page.title), save("svg"), save("png")));
}

/** @param {Press} press */
export function endRun(press) {
  press.isWhole = true;
  for (const action of press.actions) action.disabled = false;
  press.pages = keysLast(press.pages);
  press.printed.replaceChildren(...press.pages.map((page) => node("img", { src: page.address, alt: "", loading: "lazy" })));
  press.status.textContent = summary(press);
}
