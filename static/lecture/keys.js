// @ts-check
// What can be done in a lecture: the keys for it, how they are written, what it does, and its small button, if it has one.

/** @typedef {{act: string, keys: string[], written: string, does: string, button?: string}} Key */

/** @type {Key[]} */
export const KEYS = [
  { act: "forward", keys: ["ArrowRight", "PageDown", " "], written: "→ PgDn Space", does: "Next construction", button: "Forward" },
  { act: "back", keys: ["ArrowLeft", "PageUp"], written: "← PgUp", does: "One construction back", button: "Back" },
  { act: "first", keys: ["Home"], written: "Home", does: "To the beginning" },
  { act: "last", keys: ["End"], written: "End", does: "To the end" },
  { act: "values", keys: [".", "v"], written: ". V", does: "Reveal or hide the values of this construction", button: "Values" },
  { act: "all values", keys: ["V"], written: "Shift V", does: "Reveal or hide all values" },
  { act: "keep", keys: ["k"], written: "K", does: "Keep revealed values on the chart, or show only the newest" },
  { act: "spotlight", keys: ["s"], written: "S", does: "Light one stroke; again for the next", button: "Spotlight" },
  { act: "blank", keys: ["b"], written: "B", does: "Blank chart, and back", button: "Blank" },
  { act: "waves", keys: ["w"], written: "W", does: "Voltage and current along the line, shown and hidden", button: "Waves" },
  { act: "pen", keys: ["p"], written: "P", does: "Freehand pen, on and off" },
  { act: "clear", keys: ["c"], written: "C", does: "Clear what the pen drew" },
  { act: "showing", keys: ["n"], written: "N", does: "Solutions side by side, in turn, or one alone", button: "Solutions" },
  { act: "next problem", keys: ["g"], written: "G", does: "On to the next problem of the set", button: "Next problem" },
  { act: "problem before", keys: ["G"], written: "Shift G", does: "Back to the problem before" },
  { act: "load", keys: ["l"], written: "L", does: "Another problem, lesson or notation", button: "Problem" },
  { act: "move", keys: ["m"], written: "M", does: "Move the load’s point on the chart, and stop" },
  { act: "closer", keys: ["+", "="], written: "+", does: "Look closer at the chart" },
  { act: "further", keys: ["-", "_"], written: "−", does: "Look at it from further away" },
  { act: "whole", keys: ["0"], written: "0", does: "The whole chart" },
  { act: "light", keys: ["t"], written: "T", does: "Light, dark, or black and white", button: "Light" },
  { act: "full", keys: ["f"], written: "F", does: "Full screen, and back", button: "Full screen" },
  { act: "notes", keys: ["o"], written: "O", does: "Open the presenter’s page", button: "Notes" },
  { act: "keys", keys: ["?"], written: "?", does: "These keys", button: "Keys" },
  { act: "end", keys: ["Escape"], written: "Esc", does: "End spotlight, moving or pen; close this card" },
];

/**
 * What a key press asks for; "" where it asks for nothing here.
 * @param {{key: string, shiftKey?: boolean, ctrlKey?: boolean, metaKey?: boolean, altKey?: boolean}} press
 */
export function actOf({ key, shiftKey, ctrlKey, metaKey, altKey }) {
  if (ctrlKey || metaKey || altKey) return "";
  const low = key.toLowerCase(), named = key.length > 1 ? key : shiftKey ? key.toUpperCase() : low;
  const actFor = (/** @type {string} */ wanted) => KEYS.find(({ keys }) => keys.includes(wanted))?.act ?? "";
  return actFor(named) || (shiftKey ? actFor(low) : "");
}
