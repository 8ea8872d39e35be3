// @ts-check
// Lengths as the course writes them.

/** @import { Writing } from "halfturn/parts/line_drawing/types.d.ts" */

/**
 * Fixed decimals as Python writes them: what lies exactly between two goes to the even digit.
 * @param {number} value
 * @param {number} decimals
 */
export function fixed(value, decimals) {
  const digits = value.toFixed(60), end = digits.length - 60 + decimals;
  const below = digits.slice(0, end).replace(/\.$/, "");
  return /^50*$/.test(digits.slice(end)) && /[02468]$/.test(below) ? below : value.toFixed(decimals);
}

/**
 * A length with its unit: twin of Notation.wavelengths, with the decimals and the unit that came from there.
 * @param {number} wavelengths
 * @param {Writing} writing
 */
export function writtenWaves(wavelengths, { in_a_wavelength, decimals, unit }) {
  return fixed(wavelengths * in_a_wavelength, decimals) + unit;
}

/**
 * The same in millimetres, or nothing where no wavelength is known: twin of Millimetres.write.
 * @param {number} wavelengths
 * @param {Writing} writing
 */
export function writtenMillimetres(wavelengths, { wavelength_mm, mm_decimals }) {
  return wavelength_mm === null ? "" : `${fixed(wavelengths * wavelength_mm, mm_decimals)} mm`;
}

/**
 * What a thing's name and value are written as: `d = 0.110 λ`.
 * @param {string} symbol
 * @param {string} value
 * @returns {string[]}
 */
export function named(symbol, value) {
  return symbol ? [`_${symbol}`, ` = ${value}`] : [value];
}

const BARS = [1 / 32, 1 / 8, 1 / 2, 1, 2, 5, 10, 20, 50, 100, 1000, 1e4, 1e5, 1e6, 1e9, 1e12];
const FRACTIONS = new Map([[1 / 32, "λ/32"], [1 / 8, "λ/8"], [1 / 4, "λ/4"], [1 / 2, "λ/2"], [3 / 4, "3λ/4"], [1, "λ"], [5 / 4, "5λ/4"], [3 / 2, "3λ/2"], [7 / 4, "7λ/4"]]);

/**
 * The scale bar: an eighth of a wavelength where that can be seen, else the next longer one that can.
 * @param {number} scale pixels a wavelength
 * @param {number} least pixels that the bar should have
 * @param {Writing} writing
 */
export function scaleBar(scale, least, writing) {
  const waves = BARS.slice(1).find(bar => bar * scale >= least) ?? BARS[BARS.length - 1];
  return { pixels: waves * scale, waves: writtenPart(waves, writing), mm: writtenMillimetres(waves, writing) };
}

/** A round length, as a part of a wavelength where it is one. @param {number} waves @param {Writing} writing */
export function writtenPart(waves, { in_a_wavelength }) {
  return in_a_wavelength === 360 ? `${360 * waves}°` : FRACTIONS.get(waves) ?? `${waves} λ`;
}
