// @ts-check
// Frames as plain data: which of them are drawn, what of them is revealed, and which one a key leads to.

/** @typedef {import("../messages.d.ts").FrameWords} Frame */
/** @typedef {Record<string, any>} Stroke */
/** @typedef {{key: string, current: boolean, strokes: Stroke[]}} Group */

/** The frames up to this one that draw something. @param {Frame[]} frames @param {number} index */
export function drawnFrames(frames, index) {
  return frames.slice(0, index + 1).filter(({ strokes }) => strokes.length);
}

/** Strokes in the order of the spotlight: those of the newest construction first. @param {Frame[]} frames @param {number} index */
export function strokesInTurn(frames, index) {
  return drawnFrames(frames, index).reverse().flatMap((one) => one.strokes.map((stroke) => ({ one, stroke })));
}

/**
 * What the chart shows: all frames so far, the newest at full strength, or one stroke lit and the others dim.
 * @param {Frame[]} frames @param {number} index @param {Set<string>} revealed keys of frames @param {number} lit -1 for none
 * @param {boolean} keeps whether revealed values stay when the next construction comes
 * @returns {Group[]}
 */
export function groupsOf(frames, index, revealed, lit, keeps) {
  const shown = drawnFrames(frames, index), light = strokesInTurn(frames, index)[lit];
  if (!light) return shown.map((one, i) => group(one, i === shown.length - 1, revealed, keeps));
  const others = shown.flatMap((one) =>
    one.strokes.filter((stroke) => stroke !== light.stroke).map((stroke) => dressed(stroke, one, false, revealed, keeps)));
  return [{ key: "others", current: false, strokes: others },
    { key: "lit", current: true, strokes: [dressed(light.stroke, light.one, true, revealed, keeps)] }];
}

/** @param {Frame} one @param {boolean} current @param {Set<string>} revealed @param {boolean} keeps @returns {Group} */
function group(one, current, revealed, keeps) {
  return { key: one.key, current, strokes: one.strokes.map((stroke) => dressed(stroke, one, current, revealed, keeps)) };
}

/**
 * A stroke that keeps its value back until its frame is revealed, and afterwards, if values are kept, for good.
 * @param {Stroke} stroke @param {Frame} one @param {boolean} current @param {Set<string>} revealed @param {boolean} keeps
 */
function dressed({ quiet, ...line }, one, current, revealed, keeps) {
  const told = revealed.has(one.key);
  return { ...line, value: (current || keeps) && told ? line.value : "", whole: keeps, spoken: told ? line.spoken : quiet };
}

/**
 * Where a frame stands: that of the key, else one of the same step, else as far on as before.
 * @param {{key: string, step: string}[]} frames @param {{frame: string, step: string}} wanted @param {number} before
 */
export function placeOf(frames, wanted, before) {
  const exact = frames.findIndex(({ key }) => key === wanted.frame);
  if (exact >= 0) return exact;
  const same = frames.findIndex(({ step }) => step === wanted.step);
  return same >= 0 ? same : Math.max(0, Math.min(before, frames.length - 1));
}
