// @ts-check
// What the sheet remembers beside the page that it shows, and how it changes with another page.

/** @typedef {import("../messages.d.ts").SheetPage} SheetPage */
/** @typedef {import("../messages.d.ts").SheetStep} SheetStep */
/** @typedef {import("../messages.d.ts").PractiseSaid} Said */
/** @typedef {import("../parts/types.d.ts").Drafts} Drafts */
/**
 * `ask` has the lesson's primer sent, `goOn` leads to what is open. `stateOf` tells how far a problem's sheet has come that was kept, of those `shelved` when the page was drawn. `displaced` is a sheet of the student's own that gave way
 * to one from a link or a file; `restored` names the sheet whose record the program was given last; `drawn`
 * holds the drawings, by their fields, that the program has not put in writing yet.
 * @typedef {import("../parts/types.d.ts").Desk<SheetPage, Said> & {displaced: any, restored: string,
 *   drawn: Record<string, Omit<import("../parts/stage/types.d.ts").HandedIn, "field">>,
 *   restore(record: any, name?: string): void, redraw: () => void, ask: () => void, goOn: () => void, stateOf: (problem: {entries: Record<string, string>}) => string,
 *   shelved: Record<string, import("../parts/keeping.js").Kept>}} SheetDesk
 */

/**
 * What was typed, without what the sheet now holds.
 * @param {Drafts} drafts @param {Record<string, {text?: string, revealed?: boolean}>} entered @returns {Drafts}
 */
export function stillDrafts(drafts, entered) {
  const isTaken = (/** @type {string} */ key) => entered[key]?.text === drafts[key] || entered[key]?.revealed;
  return Object.fromEntries(Object.entries(drafts).filter(([key]) => !isTaken(key)));
}

/**
 * The record of one's own sheet for the same problem, where a sheet that was brought takes its place and differs.
 * @param {{record: any} | undefined} own @param {{record: any}} brought
 */
export function displacedBy(own, brought) {
  const entries = own?.record.sheet.entries ?? {};
  const differs = JSON.stringify(entries) !== JSON.stringify(brought.record.sheet.entries);
  return differs && Object.keys(entries).length ? own?.record : null;
}

/**
 * Whether more is settled than before, or the student has taken over, or handed over: then attention goes on.
 * @param {SheetPage} before @param {SheetPage} next
 */
export function hasGoneOn(before, next) {
  const settled = (/** @type {SheetPage} */ page) => page.steps.flatMap(({ fields }) => fields.filter((field) => field.settled).map(({ key }) => key));
  const known = new Set(settled(before));
  return before.guided !== next.guided || settled(next).some((key) => !known.has(key));
}

/**
 * What is said on a page and was not on the one before, to be read aloud: verdicts, a hint, a step shown, the ending.
 * @param {SheetPage} before @param {SheetPage} page
 */
export function newlySaid(before, page) {
  if (before.problem.key !== page.problem.key || before.problem.given !== page.problem.given) return `${page.problem.title}. ${page.problem.given}`;
  const earlier = new Map(before.steps.map((step) => [step.key, step]));
  const lines = page.steps.flatMap((step) => saidOf(step, earlier.get(step.key)));
  const { outcome } = page, ends = outcome && outcome.title !== before.outcome?.title ? [outcome.title, ...outcome.sentences] : [];
  return [...lines, ...ends].join(" ");
}

/** The field whose answer was not taken, just now; "" where none was. @param {SheetPage} before @param {SheetPage} page */
export function newlyRefused(before, page) {
  const earlier = new Map(before.steps.map((step) => [step.key, step]));
  const judged = page.steps.flatMap((step) => newlyJudged(step, earlier.get(step.key)));
  return judged.find(({ verdict }) => verdict && !["right", "close"].includes(verdict.judgement))?.key ?? "";
}

/** @param {SheetStep} step @param {SheetStep | undefined} before */
function newlyJudged(step, before) {
  const old = new Map(before?.fields.map(({ key, verdict, text }) => [key, JSON.stringify([verdict, text])]));
  return before ? step.fields.filter(({ key, verdict, text }) => verdict && JSON.stringify([verdict, text]) !== old.get(key)) : [];
}

/** @param {SheetStep} step @param {SheetStep | undefined} before @returns {string[]} */
function saidOf(step, before) {
  const judged = newlyJudged(step, before);
  const hints = before ? step.hints.slice(before.hints.length) : [];
  const worked = step.worked.length && !before?.worked.length ? [`${step.title}.`, ...step.worked, ...step.values.map(({ which, text }) => `${which} ${text}.`)] : [];
  return [...(worked.length ? [] : judged.map(({ verdict }) => verdict ? `${verdict.word}. ${verdict.sentence}` : "")), ...hints, ...worked];
}
