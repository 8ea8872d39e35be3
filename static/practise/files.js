// @ts-check
// A sheet goes to a file, to a link, or to paper, and comes back from the first two.

import { button, node } from "halfturn/parts/nodes.js";
import { download, savePng, saveSvg } from "halfturn/parts/save.js";

/** @typedef {import("../messages.d.ts").SheetPage} SheetPage */
/** @typedef {import("./state.js").SheetDesk} SheetDesk */

const LARGEST_FILE = 200_000;
/** @type {["chart" | "sheet", "svg" | "png", string][]} */
const EXPORTS = [
  ["chart", "svg", "Save the chart as SVG"],
  ["chart", "png", "Save the chart as PNG"],
  ["sheet", "svg", "Save the worked sheet as SVG"],
  ["sheet", "png", "Save the worked sheet as PNG"],
];

/** @param {SheetDesk} desk */
export function keeping(desk) {
  const { page, send } = desk;
  const file = node("input", { type: "file", id: "open-file", accept: ".json,application/json", onchange: ({ target }) => openFile(desk, target) });
  return node("div", { class: "own" },
    button("Save the sheet to a file", () => saveFile(page), { "data-focus": "save" }),
    node("label", { class: "pair", for: "open-file" }, "Open a sheet from a file", file),
    link("Link to this problem", page.links.problem), link("Link to the whole sheet", page.links.sheet),
    ...EXPORTS.map(([what, kind, words]) => button(words, () => send({ do: "export", what, kind }), { "data-focus": words })),
    button("Print the page", () => print(), { "data-focus": "print" }));
}

/** @param {string} label @param {string} query */
function link(label, query) {
  const value = `${location.origin}${location.pathname}?${query}`;
  const text = node("input", { type: "text", readonly: true, value, onfocus: ({ target }) => target.select() });
  const said = node("span", { class: "copied", role: "status" });
  const copy = async () => { said.textContent = await copied(text) ? "Copied." : "It is marked: copy it with the keys of your browser."; };
  return node("div", { class: "pair link" }, node("label", {}, label, text),
    node("span", {}, button("Copy", copy, { "data-focus": `copy ${label}`, "aria-label": `Copy the ${label[0].toLowerCase()}${label.slice(1)}` }), said));
}

/** Whether a text came into the clipboard, which a page may not reach everywhere; then it is marked. @param {HTMLInputElement} text */
async function copied(text) {
  try {
    await navigator.clipboard.writeText(text.value);
    return true;
  } catch {
    text.focus();
    text.select();
    return document.execCommand?.("copy") ?? false;
  }
}

/** @param {SheetPage} page */
export function saveFile({ record, problem }) {
  download(`${fileName(problem.title)}.json`, new Blob([JSON.stringify(record.sheet, null, 1)], { type: "application/json" }));
}

/** @param {string} title */
export function fileName(title) {
  return `halfturn-${title.toLowerCase().replace(/[^a-z0-9]+/g, "-") || "sheet"}`;
}

/** @param {SheetDesk} desk @param {HTMLInputElement} input */
async function openFile({ send }, { files }) {
  const file = files?.[0];
  if (!file) return;
  send({ do: "open file", record: file.size <= LARGEST_FILE ? parsed(await file.text()) : null });
}

/** @param {string} text @returns {unknown} null where it cannot be read, which the program says */
export function parsed(text) {
  try { return JSON.parse(text); } catch { return null; }
}

/** @param {import("../messages.d.ts").Drawings} told */
export async function saveDrawings({ name, drawings, kind }) {
  const save = kind === "svg" ? saveSvg : savePng;
  for (const [index, svg] of drawings.entries()) await save(drawings.length > 1 ? `${name} ${index + 1}` : name, svg);
}
