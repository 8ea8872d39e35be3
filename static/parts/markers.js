// @ts-check
// The marker of each role, wherever one is drawn in the browser; paper has the same outlines in app/parts/vector_strokes.py.

/** Corners, or a circle for what has no marker of its own; a point up is negative, and 7 is the farthest. @type {Record<string, number[][]>} */
const CORNERS = {
  load: [[-5, -5], [5, -5], [5, 5], [-5, 5]],
  first: [[0, -7], [6.5, 5], [-6.5, 5]],
  second: [[0, -7], [7, 0], [0, 7], [-7, 0]],
  third: [[0, 7], [6.5, -5], [-6.5, -5]],
  fourth: [[-2.2, -6.5], [2.2, -6.5], [2.2, -2.2], [6.5, -2.2], [6.5, 2.2], [2.2, 2.2], [2.2, 6.5], [-2.2, 6.5], [-2.2, 2.2], [-6.5, 2.2], [-6.5, -2.2], [-2.2, -2.2]],
  slip: [[-6, -4], [-4, -6], [0, -2], [4, -6], [6, -4], [2, 0], [6, 4], [4, 6], [0, 2], [-4, 6], [-6, 4], [-2, 0]],
};
const FARTHEST = 7;

/** The marker of a solution as a sign in a text, where two are named alike: without colour they are still told apart. @type {Record<string, string>} */
export const SIGNS = { first: "▲", second: "◆", third: "▼", fourth: "✚" };

/**
 * The path of a role's marker about a place, no point of it farther than `reach` to a side.
 * @param {string} role @param {number} x @param {number} y @param {number} reach
 */
export function markerPath(role, x = 0, y = 0, reach = FARTHEST) {
  const size = reach / FARTHEST, r = 4 * size;
  if (!(role in CORNERS)) return `M${x + r} ${y}A${r} ${r} 0 1 1 ${x - r} ${y}A${r} ${r} 0 1 1 ${x + r} ${y}Z`;
  return `M${CORNERS[role].map(([right, down]) => `${x + right * size} ${y + down * size}`).join("L")}Z`;
}
