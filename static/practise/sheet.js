// @ts-check
// The worksheet column. Shows a page of plain data, keeps what is being typed, and sends what the student does.

import { chosen, DIFFICULTY } from "halfturn/parts/difficulty.js";
import { arrive, followFocus, keepFocus } from "halfturn/parts/focus.js";
import { showFaults } from "halfturn/parts/forms.js";
import { announce } from "halfturn/parts/announce.js";
import { shelf, signature, surviving } from "halfturn/parts/keeping.js";
import { listen, markReady, node } from "halfturn/parts/nodes.js";
import { outbox } from "halfturn/parts/outbox.js";
import { primerCame } from "halfturn/parts/primer.js";
import { COURSE, course, keepProgress, meet, SHEETS as NAME } from "halfturn/parts/progress.js";
import { keepInSight } from "halfturn/parts/stage/together.js";
import { follow, followOthers, resume, settle, takeUp } from "halfturn/parts/tabs.js";
import { sheetNodes } from "halfturn/practise/column.js";
import { inputs, withdraw } from "halfturn/practise/entries.js";
import { saveDrawings, saveFile } from "halfturn/practise/files.js";
import { displacedBy, hasGoneOn, newlyRefused, newlySaid, stillDrafts } from "halfturn/practise/state.js";

/** @typedef {import("../messages.d.ts").SheetPage} SheetPage */
/** @typedef {import("../messages.d.ts").PractiseSaid} Said */
/** @typedef {import("./state.js").SheetDesk} SheetDesk */
/** @typedef {import("../parts/stage/types.d.ts").HandedIn} HandedIn */

/** What is on the desk, also while the page is built anew. @type {{desk: SheetDesk | null}} */
const last = surviving("sheet", () => ({ desk: null }));
const kept = shelf(NAME, () => last.desk && saveFile(last.desk.page));

/** @param {{model: import("../parts/types.d.ts").Model<Said, {page: SheetPage}>, el: HTMLElement}} place */
export function render({ model, el }) {
  const root = node("div", { class: "work" });
  el.append(root);
  // Whoever draws with the keys goes on with them: from the chart back to the sheet.
  let byKey = false;
  const line = outbox("practise", model, {
    page: (page) => take(desk, page),
    draft: (draft) => putDraft(desk, draft, byKey),
    save: saveDrawings,
    faults: (faults) => showFaults(root, faults),
    primer: (primer) => { primerCame(primer); drawnAgain(desk); },
  });
  /** @type {SheetDesk} */
  const desk = {
    root, page: model.page, drafts: {}, drawn: {}, opened: new Set(), displaced: null, restored: "",
    send: (said) => { follow(kept, desk); line.say(said); },
    restore: (record, name = signature(desk.page)) => {
      desk.restored = name;
      line.restore({ do: "restore", record, progress: course().progress });
    },
    ask: () => line.tell({ do: "primer" }),
    goOn: () => toOpenEntry(desk),
    save: () => { if (!follow(kept, desk) && !desk.page.refusal) kept.save(desk.page, desk.drafts); },
    redraw: () => drawnAgain(desk),
    stateOf: (problem) => desk.shelved[signature(problem)]?.record.state ?? "",
    shelved: {},
  };
  const deafen = listen([
    [document, "keydown", () => { byKey = true; }, true],
    [document, "pointerdown", () => { byKey = false; }, true],
    [document, "halfturn:drawn", ({ detail }) => handIn(desk, detail)],
  ]);
  const alone = [followOthers(NAME, () => follow(kept, desk)), followOthers(COURSE, followProgress(line)), followDifficulty(desk)];
  model.on("remove", () => { deafen(); for (const end of alone) end(); });
  const before = last.desk;
  last.desk = desk;
  if (before) goOn(desk, before);
  else begin(desk, line);
  desk.shelved = kept.kept().sheets;
  root.replaceChildren(...sheetNodes(desk));
  if (!before) toTitle(desk);
  followFocus("sheet", root);
  markReady("sheet");
}

/** The sheet that the page opens with: of the link, or of what was kept. @param {SheetDesk} desk @param {{tell(said: Said): void}} line */
function begin(desk, line) {
  const { page } = desk, { progress } = course();
  if (page.brought || page.drill) {
    desk.displaced = page.drill ? null : displacedBy(kept.of(page), page);
    desk.save();
    history.replaceState(null, "", location.pathname); // a reload then finds what was changed since
  } else takeUp(kept, desk);
  if (desk.restored) return;
  if (Object.keys(progress).length) line.tell({ do: "progress", record: progress });
  if (!page.linked && !page.brought) openPrimer(desk);
}

/** What another tab has learnt of the student goes to the program. @param {{tell(said: Said): void}} line */
function followProgress(line) {
  let known = JSON.stringify(course().progress);
  return () => {
    const { progress } = course(), now = JSON.stringify(progress);
    if (now !== known) line.tell({ do: "progress", record: progress });
    known = now;
  };
}

/** What another tab has chosen is shown here, where it holds as well. @param {SheetDesk} desk */
function followDifficulty(desk) {
  let shown = chosen(desk.page.forms.difficulty);
  return followOthers(DIFFICULTY, () => {
    const now = chosen(desk.page.forms.difficulty);
    if (now !== shown) drawnAgain(desk);
    shown = now;
  });
}

/** A lesson that is met for the first time opens with its primer. @param {SheetDesk} desk */
function openPrimer({ page, opened }) {
  if (page.primer && !page.drill && meet(page.lessonKey)) opened.add("primer");
}

/** The page was built anew over another connection: it goes on as it was. @param {SheetDesk} desk @param {SheetDesk} before */
function goOn(desk, { page, drafts, drawn, opened, displaced }) {
  Object.assign(desk, { page: { ...desk.page, ...page }, drafts, drawn, opened, displaced });
  resume(kept, desk);
}

/** Another page has come. @param {SheetDesk} desk @param {SheetPage} page */
function take(desk, page) {
  settle(kept, desk.restored, page);
  keepProgress(desk.page.record.progress, page.record.progress);
  desk.drafts = stillDrafts(desk.drafts, page.record.sheet.entries);
  const before = page.fresh ? kept.of(page) : undefined, said = newlySaid(desk.page, page);
  const refused = signature(desk.page) === signature(page) ? newlyRefused(desk.page, page) : "";
  show(desk, page);
  if (refused) keepInSight(desk.root.querySelector(`#verdict-${CSS.escape(refused)}`));
  announce(said);
  if (!before) return; // else a problem worked on before comes back as it was left
  desk.drafts = before.drafts;
  desk.restore(before.record, signature(page));
}

/** @param {SheetDesk} desk @param {SheetPage} next */
function show(desk, next) {
  const before = desk.page, isOther = signature(before) !== signature(next);
  if (isOther) Object.assign(desk, { drafts: next.restored ? desk.drafts : {}, drawn: {}, opened: new Set(), displaced: null });
  if (next.brought) desk.displaced = displacedBy(kept.of(next), next);
  desk.page = next;
  if (before.lessonKey !== next.lessonKey) openPrimer(desk);
  const atTitle = isOther || focused(desk.root) === "title";
  drawnAgain(desk);
  if (atTitle) toTitle(desk);
  else if (hasGoneOn(before, next) && !focused(desk.root)?.startsWith("worked ")) toOpenEntry(desk);
}

/** The page starts at its title, or at the primer where that is open. @param {SheetDesk} desk */
function toTitle({ root }) {
  arrive(/** @type {HTMLElement | null} */ (root.querySelector(".primer[open]") ?? root.querySelector(".title")));
}

/** What is open goes on at its entry; a sheet that is done, at what it comes to. @param {SheetDesk} desk */
function toOpenEntry({ root, page }) {
  const here = root.querySelector(page.outcome ? ".closing" : ".current");
  const entry = inputs(root, page.focus)[0] ?? here?.querySelector("button.next");
  arrive(/** @type {HTMLElement | null} */ (page.outcome ? here : entry ?? here), here);
}

/** The name of what has the focus in the sheet. @param {HTMLElement} root @returns {string | undefined} */
function focused(root) {
  return /** @type {any} */ (root.getRootNode()).activeElement?.dataset?.focus;
}

/** @param {SheetDesk} desk */
function drawnAgain(desk) {
  const focusAgain = keepFocus(desk.root);
  desk.save(); // first, as the list of problems tells what was kept
  desk.shelved = kept.kept().sheets;
  desk.root.replaceChildren(...sheetNodes(desk));
  focusAgain();
}

/** What is drawn is written by the program, which may take until there is a connection. @param {SheetDesk} desk @param {HandedIn} handedIn */
function handIn(desk, { field, value, plotted }) {
  desk.drawn[field] = { value, plotted };
  desk.send({ do: "draw", field, value, plotted });
}

/** A drawn answer goes into its box, unless something was typed or drawn since. @param {SheetDesk} desk @param {import("../messages.d.ts").Draft} draft @param {boolean} byKey */
function putDraft(desk, { field, value, text }, byKey) {
  if (JSON.stringify(desk.drawn[field]?.value) !== JSON.stringify(value)) return;
  delete desk.drawn[field];
  desk.drafts[field] = text;
  withdraw(desk.root, field);
  for (const input of inputs(desk.root, field)) {
    if (input.type === "radio") input.checked = input.value === text;
    else input.value = text;
  }
  desk.save();
  if (byKey) /** @type {HTMLElement | null} */ (desk.root.querySelector(`[data-focus="check ${CSS.escape(field)}"]`))?.focus();
}
