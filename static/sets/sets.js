// @ts-check
// The page of sets. What is done of a set is looked up among the sheets that this browser keeps; a hand-in is made of
// them here, and leaves as a file.

import { announce } from "halfturn/parts/announce.js";
import { keepFocus } from "halfturn/parts/focus.js";
import { recall, retain, shelf, surviving } from "halfturn/parts/keeping.js";
import { button, markReady, node, present } from "halfturn/parts/nodes.js";
import { outbox } from "halfturn/parts/outbox.js";
import { download } from "halfturn/parts/save.js";
import { followOthers } from "halfturn/parts/tabs.js";
import { count, notices } from "halfturn/parts/words.js";
import { fileName, handIn, progress, STATES } from "halfturn/sets/handing.js";

/** @typedef {import("../messages.d.ts").SetsPage} SetsPage */
/** @typedef {import("../messages.d.ts").SetWords} SetWords */
/** @typedef {import("../messages.d.ts").SetsSaid} Said */
/** @typedef {{page: SetsPage, root: HTMLElement, typed: string, said: string, give(name: string): void}} Counter */

const SHEETS = "halfturn.v1"; // where practice keeps its sheets
const kept = shelf(SHEETS);
/** The name that was given last for a set. @param {string} key */
const nameOf = (key) => `halfturn.name.${key}`;

/** @param {{model: import("../parts/types.d.ts").Model<Said, {page: SetsPage}>, el: HTMLElement}} place */
export function render({ model, el }) {
  const root = node("div", { class: "work sets" });
  el.append(root);
  const line = outbox("sets", model, { page: (page) => take(counter, page) });
  const earlier = surviving("sets", () => ({ typed: /** @type {string | null} */ (null) }));
  /** @type {Counter} */
  const counter = {
    page: model.page, root, said: "",
    get typed() { return earlier.typed ?? ""; },
    set typed(text) { earlier.typed = text; },
    give: (text) => line.say({ do: "name", text }),
  };
  model.on("remove", followOthers(SHEETS, () => paint(counter)));
  const { set } = counter.page, before = set ? recall(nameOf(set.key)) : null;
  if (earlier.typed === null) earlier.typed = typeof before === "string" ? before : "";
  paint(counter);
  line.restore(typeof before === "string" && before ? { do: "name", text: before } : undefined);
  markReady("sets");
}

/** @param {Counter} counter @param {SetsPage} page */
function take(counter, page) {
  const before = counter.page.set?.name;
  counter.page = page;
  const { set } = page;
  if (set?.name) retain(nameOf(set.key), set.name);
  counter.said = "";
  paint(counter);
  if (set?.fault) {
    announce(set.fault);
    /** @type {HTMLElement | null} */ (counter.root.querySelector("#name"))?.focus();
  } else if (set?.name && set.name !== before) announce(`The problems of ${set.name}.`);
}

/** @param {Counter} counter */
function paint(counter) {
  const focusAgain = keepFocus(counter.root), { page } = counter;
  counter.root.replaceChildren(...present([
    ...notices(page.notices),
    ...(page.set ? setNodes(counter, page.set) : []),
    others(page),
    guide(page),
  ]));
  focusAgain();
}

/** @param {Counter} counter @param {SetWords} set */
function setNodes(counter, set) {
  const sheets = kept.kept().sheets, done = progress(set, sheets);
  const known = !set.varies || set.name !== "";
  return [
    node("p", { class: "lesson" }, `${count(set.problems.length, "problem")}, version ${set.version} of the set`),
    node("h2", {}, set.title),
    nameForm(counter, set),
    known ? node("ol", { class: "of-set" }, ...set.problems.map((one, index) => problemNode(one, done[index].state)))
      : node("p", { class: "ahead" }, `${count(set.problems.length, "problem")}: ${set.problems.map(({ title }) => title).join("; ")}.`),
    handing(counter, set, done),
    node("p", { class: "teaching" }, node("a", { href: set.lecture }, "Lecture through this set")),
  ];
}

/** @param {Counter} counter @param {SetWords} set */
function nameForm(counter, set) {
  const input = node("input", {
    type: "text", id: "name", maxlength: 200, autocomplete: "name", spellcheck: "false", "data-focus": "name",
    "aria-describedby": "name-why name-fault", "aria-invalid": set.fault ? "true" : null,
    oninput: ({ target }) => { counter.typed = target.value; },
  });
  input.value = counter.typed;
  const why = set.varies
    ? "Your own numbers follow from it, the same on any device; case, spaces and accents do not matter."
    : "It goes into the file that you hand in.";
  const onsubmit = (/** @type {Event} */ event) => { event.preventDefault(); counter.give(input.value); };
  return node("form", { class: "who", novalidate: true, onsubmit },
    node("label", { for: "name" }, "Your name or number"),
    node("span", { class: "box" }, input, node("button", { type: "submit", "data-focus": "give name" }, set.name ? "Change" : "Show my problems")),
    node("p", { class: "example", id: "name-why" }, `${why} It stays in this browser, and in the file that you save.`),
    node("p", { class: "fault", id: "name-fault", role: "alert" }, set.fault),
    set.code && set.varies ? node("p", {}, `Problems of ${set.name}: variant ${set.code}.`) : "");
}

/** @param {import("../messages.d.ts").SetProblemWords} one @param {string} state */
function problemNode(one, state) {
  return node("li", {},
    node("a", { href: one.address, "data-focus": `problem ${one.key}` }, one.title),
    node("span", { class: "gives" }, `${one.lesson}. ${one.given}`),
    node("span", { class: "come" }, STATES[state]));
}

/** @param {Counter} counter @param {SetWords} set @param {import("./handing.js").Progress[]} done */
function handing(counter, set, done) {
  const begun = done.filter(({ record }) => record), solved = done.filter(({ state }) => state === "solved").length;
  const unchecked = done.filter(({ drafts }) => drafts).length;
  const why = !set.name ? "Type your name or number first." : begun.length ? "" : "Begin a problem first: there is no sheet on this device yet.";
  const save = () => {
    if (why) return;
    const file = handIn(set, done, new Date());
    download(fileName(set), new Blob([JSON.stringify(file)], { type: "application/json" }));
    counter.said = `Saved ${count(file.sheets.length, "sheet")} as ${fileName(set)}. Send that file to your teacher; you may save it again later, the newest counts.`;
    paint(counter);
    announce(counter.said);
  };
  return node("section", { "aria-label": "Hand in" },
    node("h3", {}, "Hand in"),
    node("p", {}, `On this device: ${solved} of ${set.problems.length} solved, ${begun.length - solved} begun.`),
    unchecked ? node("p", { class: "notice" }, `In ${count(unchecked, "sheet")} something is typed and not checked: it will not be handed in.`) : "",
    button("Save the file to hand in", save, { class: why ? "" : "next", "data-focus": "hand in", "aria-disabled": why ? "true" : null, "aria-describedby": "hand-in-why" }),
    node("p", { class: "example", id: "hand-in-why" }, why || "One file with every answer that you checked, and the hints that you took."),
    node("p", { class: "said" }, counter.said));
}

/** @param {SetsPage} page */
function others({ sets, set }) {
  const list = node("ul", { class: "all-sets" }, ...sets.map((one) =>
    node("li", {}, node("a", { href: one.address, "aria-current": one.title === set?.title ? "true" : null }, one.title), node("span", { class: "lesson" }, ` · ${count(one.count, "problem")}`))));
  return set ? node("details", {}, node("summary", { "data-focus": "other sets" }, "All sets"), list)
    : node("section", {}, node("h2", {}, "Problem sets"), list);
}

/** @param {SetsPage} page */
function guide({ guide, set }) {
  const steps = guide.map(([what, how]) => node("li", {}, node("strong", {}, `${what}. `), how));
  const list = node("ol", { class: "five" }, ...steps);
  return set ? node("details", {}, node("summary", { "data-focus": "guide" }, "If you teach: from a set to the report"), list)
    : node("section", {}, node("h3", {}, "If you teach: from a set to the report"), list);
}
