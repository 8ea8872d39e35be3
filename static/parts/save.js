// @ts-check
// Saving what was drawn: a vector drawing as a file, the same in pixels, or many files in one.
// A drawing is the text of an SVG that says its width and height in millimetres.

const DOTS_PER_INCH = 300;

/** @param {string} name @param {string} svg */
export function saveSvg(name, svg) {
  download(`${name}.svg`, new Blob([svg], { type: "image/svg+xml" }));
}

/** @param {string} name @param {string} svg */
export async function savePng(name, svg) {
  download(`${name}.png`, await pngOf(svg));
}

/** @typedef {[string, Blob]} NamedFile its name has an ending */

/** @param {string} name @param {NamedFile[]} files */
export async function saveTogether(name, files) {
  download(`${name}.zip`, await zipOf(files));
}

/** @param {string} name with its ending @param {Blob} blob */
export function download(name, blob) {
  const address = URL.createObjectURL(blob);
  const link = document.createElement("a");
  link.href = address;
  link.download = name.replace(/[^\p{L}\p{N}._ -]+/gu, "-");
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

// --- pixels ---------------------------------------------------------------------------------------------------------

/** Width and height that a drawing has in dots. @param {string} svg */
export function sizeInDots(svg) {
  const [, width, height] = svg.match(/^<svg[^>]* width="([\d.]+)mm" height="([\d.]+)mm"/) ?? [];
  if (!width) throw new Error("This drawing does not say its size in millimetres.");
  const dots = (/** @type {string} */ millimetres) => Math.round((Number(millimetres) / 25.4) * DOTS_PER_INCH);
  return { width: dots(width), height: dots(height) };
}

/** The drawing as a PNG that says its resolution, so that it is printed at true size. @param {string} svg */
export async function pngOf(svg) {
  const canvas = Object.assign(document.createElement("canvas"), sizeInDots(svg));
  const address = URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" }));
  try {
    const picture = new Image();
    picture.src = address;
    await picture.decode();
    canvas.getContext("2d")?.drawImage(picture, 0, 0, canvas.width, canvas.height);
  } finally {
    URL.revokeObjectURL(address);
  }
  /** @type {Blob | null} */
  const blob = await new Promise((done) => canvas.toBlob(done, "image/png"));
  if (!blob) throw new Error("This browser has not enough memory to draw the page in pixels: save it as SVG.");
  return withResolution(await blob.arrayBuffer(), DOTS_PER_INCH);
}

/**
 * A PNG with a chunk for its resolution after the first one (Portable Network Graphics, 3rd ed., 11.3.4.3: pHYs).
 * @param {ArrayBuffer} png @param {number} dotsPerInch
 */
export function withResolution(png, dotsPerInch) {
  const chunk = new DataView(new ArrayBuffer(21)), perMetre = Math.round(dotsPerInch / 0.0254);
  chunk.setUint32(0, 9);
  "pHYs".split("").forEach((letter, index) => chunk.setUint8(4 + index, letter.charCodeAt(0)));
  chunk.setUint32(8, perMetre);
  chunk.setUint32(12, perMetre);
  chunk.setUint8(16, 1);                                       // the unit is the metre
  chunk.setUint32(17, checksum(new Uint8Array(chunk.buffer, 4, 13)));
  const afterHeader = 33;                                      // 8 bytes of signature and 25 of the header
  return new Blob([png.slice(0, afterHeader), chunk.buffer, png.slice(afterHeader)], { type: "image/png" });
}

// --- many files in one ----------------------------------------------------------------------------------------------

/**
 * A ZIP archive whose files are stored as they are (PKZIP application note 6.3: 4.3.7, 4.3.12 and 4.3.16).
 * @param {NamedFile[]} files
 */
export async function zipOf(files) {
  const bodies = [], directory = [];
  let offset = 0, listed = 0;
  for (const [name, blob] of files) {
    const content = new Uint8Array(await blob.arrayBuffer()), letters = new TextEncoder().encode(name);
    const facts = [20, 0x0800, 0, 0, 0x21, checksum(content), content.length, content.length, letters.length, 0];
    const sizes = [2, 2, 2, 2, 2, 4, 4, 4, 2, 2];
    const local = packed([0x04034b50, ...facts], [4, ...sizes]);
    const central = packed([0x02014b50, 20, ...facts, 0, 0, 0, 0, offset], [4, 2, ...sizes, 2, 2, 2, 4, 4]);
    bodies.push(local, letters, content);
    directory.push(central, letters);
    offset += local.length + letters.length + content.length;
    listed += central.length + letters.length;
  }
  const end = packed([0x06054b50, 0, 0, files.length, files.length, listed, offset, 0], [4, 2, 2, 2, 2, 4, 4, 2]);
  return new Blob([...bodies, ...directory, end], { type: "application/zip" });
}

/** Numbers one after another in so many bytes each, the lowest byte first. @param {number[]} values @param {number[]} sizes */
export function packed(values, sizes) {
  return Uint8Array.from(values.flatMap((value, index) =>
    Array.from({length: sizes[index]}, (_, place) => (value / 2 ** (8 * place)) & 0xff)));
}

const REMAINDERS = Uint32Array.from({length: 256}, (_, byte) => {
  let rest = byte;
  for (let bit = 0; bit < 8; bit++) rest = rest & 1 ? (rest >>> 1) ^ 0xedb88320 : rest >>> 1;
  return rest;
});

/** The cyclic redundancy check that PNG and ZIP share (ISO 3309, polynomial 0x04C11DB7). @param {Uint8Array} bytes */
export function checksum(bytes) {
  let rest = 0xffffffff;
  for (const byte of bytes) rest = REMAINDERS[(rest ^ byte) & 0xff] ^ (rest >>> 8);
  return (rest ^ 0xffffffff) >>> 0;
}
