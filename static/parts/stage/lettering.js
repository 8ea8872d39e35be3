// @ts-check
// Names as a course writes them: "y_L" is y with a subscript L, and a lone l is set so that it is no stroke and no 1.

import { shape } from "halfturn/parts/stage/svg.js";

/** @typedef {{said: string, look: "" | "sub" | "ell"}} Part */

const MARKED = /_(?:\{([^}]*)\}|([\p{L}\d]+))|(?<![\p{L}\d])l(?![\p{L}\d])/gu;
const SUB = 0.72; // size of a subscript
const SERIF = "Georgia, 'Times New Roman', 'Liberation Serif', serif";

/** The parts of a text, each in one look. @param {string} text @returns {Part[]} */
export function partsOf(text) {
  /** @type {Part[]} */
  const parts = [];
  let last = 0;
  for (const found of text.matchAll(MARKED)) {
    parts.push({ said: text.slice(last, found.index), look: "" });
    parts.push(found[0] === "l" ? { said: "l", look: "ell" } : { said: found[1] ?? found[2], look: "sub" });
    last = found.index + found[0].length;
  }
  return [...parts, { said: text.slice(last), look: /** @type {""} */ ("") }].filter(({ said }) => said);
}

/** A text of a drawing. @param {string} text @param {Record<string, string | number>} attributes */
export function textNode(text, attributes) {
  const parts = partsOf(text), node = shape("text", attributes);
  let lowered = false;
  for (const { said, look } of parts) {
    const down = look === "sub" ? 1 : 0, dy = down - (lowered ? 1 : 0);
    lowered = look === "sub";
    const drop = (dy * 0.22) / (look === "sub" ? SUB : 1);
    node.append(look || dy ? shape("tspan", { class: look, dy: `${drop}em` }, said) : said);
  }
  return node;
}

/** The same for a page. @param {string} text @returns {Node[]} */
export function htmlNodes(text) {
  return partsOf(text).map(({ said, look }) => {
    if (!look) return document.createTextNode(said);
    const node = document.createElement(look === "sub" ? "sub" : "i");
    node.className = look;
    node.textContent = said;
    return node;
  });
}

const pen = /** @type {CanvasRenderingContext2D} */ (document.createElement("canvas").getContext("2d"));

/** Width of a text in pixels. @param {string} text @param {number} letters their size @param {number} weight */
export function widthOf(text, letters, weight) {
  return partsOf(text).reduce((width, { said, look }) => {
    pen.font = look === "ell" ? `italic ${weight} ${letters}px ${SERIF}` : `${weight} ${look ? SUB * letters : letters}px system-ui, sans-serif`;
    return width + pen.measureText(said).width;
  }, 0);
}
