// @ts-check
// Saving and printing the pages of the paper view.

import { summary } from "halfturn/paper/sheets.js";
import { pngOf, savePng, saveSvg, saveTogether } from "halfturn/parts/save.js";
import { count } from "halfturn/parts/words.js";

/** @typedef {import("./pages.js").Page} Page */
/** @typedef {import("./pages.js").Press} Press */
/** @typedef {"svg" | "png"} Ending */

const MOST_IN_PIXELS = 20;

/** Do what takes a while, and say so; what goes wrong is said, too. @param {Press} press @param {string} words @param {() => Promise<void> | void} act */
async function busy(press, words, act) {
  press.status.textContent = words;
  try {
    await act();
    press.status.textContent = summary(press);
  } catch (fault) {
    press.status.textContent = fault instanceof Error ? fault.message : String(fault);
  }
}

/** @param {Press} press @param {Page} page @param {Ending} ending */
export function savePage(press, { name, svg }, ending) {
  return ending === "svg" ? saveSvg(name, svg) : busy(press, "Drawing the page in pixels …", () => savePng(name, svg));
}

/** @param {Press} press @param {Ending} ending */
export function saveAll(press, ending) {
  const { pages } = press;
  return busy(press, `Saving ${count(pages.length, "page")} …`, async () => {
    if (ending === "png" && pages.length > MOST_IN_PIXELS) throw new Error(tooMany(pages.length));
    if (pages.length === 1) return ending === "png" ? savePng(pages[0].name, pages[0].svg) : saveSvg(pages[0].name, pages[0].svg);
    /** @type {import("../parts/save.js").NamedFile[]} */
    const files = [];
    for (const { name, svg } of pages) files.push([`${name}.${ending}`, ending === "png" ? await pngOf(svg) : new Blob([svg])]);
    return saveTogether("worksheets", files);
  });
}

/** @param {number} pages */
function tooMany(pages) {
  return `Pixels take much room: at most ${MOST_IN_PIXELS} pages are saved as PNG at once, not ${pages}. Save them as SVG, print, or save single pages below.`;
}

/** @param {Press} press */
export function printAll(press) {
  const pictures = /** @type {HTMLImageElement[]} */ ([...press.printed.children]);
  return busy(press, "Getting the pages ready …", async () => {
    for (const picture of pictures) picture.loading = "eager";
    await Promise.all(pictures.map((picture) => picture.decode()));
    globalThis.print();
  });
}
