// @ts-check
// Readings of the chart in the browser, so that they follow a finger. Each has its twin in core, and a test compares
// them. A point is its reflection u + jv; angles in radians, lengths in wavelengths.

/** Normalised impedance [r, x] that reflects so: twin of core.line.impedance_from_reflection. @param {number} u @param {number} v @returns {[number, number]} */
export function impedance(u, v) {
  const below = (1 - u) ** 2 + v * v;
  return below === 0 ? [Infinity, 0] : [(1 - u * u - v * v) / below, (2 * v) / below];
}

/** Normalised admittance [g, b]: twin of core.line.admittance_from_reflection. @param {number} u @param {number} v @returns {[number, number]} */
export function admittance(u, v) {
  return impedance(-u, -v);
}

/** Standing-wave ratio of a size of reflection: twin of core.line.swr. @param {number} size */
export function standingWaveRatio(size) {
  return size >= 1 ? Infinity : (1 + size) / (1 - size);
}

/** A length modulo half a wavelength, in [0, 0.5): twin of core.line.wrap_half_wave. @param {number} length */
export function wrapHalfWave(length) {
  const wrapped = length - 0.5 * Math.floor(length / 0.5);
  return wrapped > 0.5 - 1e-15 ? 0 : wrapped;
}

/** Reading of the scale toward the generator beside a point: twin of core.chart.rim_position. @param {number} u @param {number} v */
export function rimPosition(u, v) {
  return wrapHalfWave(0.25 - Math.atan2(v, u) / (4 * Math.PI));
}

/** Wavelengths toward the generator of a turn by this angle (clockwise is below zero): the inverse of core.chart.walk. @param {number} angle */
export function wavelengthsOfTurn(angle) {
  return angle === 0 ? 0 : -angle / (4 * Math.PI);
}

/** The point reached from one by walking toward the generator: twin of core.line.toward_generator. @param {number} u @param {number} v @param {number} distance @returns {[number, number]} */
export function walkedFrom(u, v, distance) {
  const turn = -4 * Math.PI * distance, c = Math.cos(turn), s = Math.sin(turn);
  return [u * c - v * s, u * s + v * c];
}

/** The turn from one direction to another by the shorter way, in (-pi, pi]. @param {number} from @param {number} to */
export function turnBetween(from, to) {
  const turn = to - from - 2 * Math.PI * Math.round((to - from) / (2 * Math.PI));
  return turn === -Math.PI ? Math.PI : turn;
}

/** A number as the notation writes it: twin of Notation.number. @param {number} value @param {number} decimals */
export function written(value, decimals) {
  if (!Number.isFinite(value)) return value > 0 ? "∞" : "−∞";
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? text.replace("-", "") : text.replace("-", "−");
}

/** A length with its unit: twin of Notation.wavelengths. @param {number} value @param {{decimals: number, length: string}} notation */
export function writtenLength(value, notation) {
  const decimals = Math.max(notation.decimals, 3);
  if (notation.length === "degrees") return `${written(360 * value, decimals - 2)}°`;
  return `${written(value, decimals)} λ`;
}

/** An angle with its unit: twin of Notation.angle_of. @param {number} value @param {{decimals: number, angle: string}} notation */
export function writtenAngle(value, notation) {
  if (notation.angle === "degrees") return `${written((value * 180) / Math.PI, 1)}°`;
  return `${written(value, notation.decimals)} rad`;
}
