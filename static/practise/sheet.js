// @ts-check
// The worksheet column. Shows a page of plain data, keeps what is being typed, and sends what the student does.

import { arrive, keepFocus } from "halfturn/parts/focus.js";
import { showFaults } from "halfturn/parts/forms.js";
import { shelf, signature } from "halfturn/parts/keeping.js";
import { hear, listen, markReady, node } from "halfturn/parts/nodes.js";
import { sheetNodes } from "halfturn/practise/column.js";
import { inputs } from "halfturn/practise/entries.js";
import { saveDrawings } from "halfturn/practise/files.js";
import { displacedBy, hasGoneOn, stillDrafts } from "halfturn/practise/state.js";

/** @typedef {import("../messages.d.ts").SheetPage} SheetPage */
/** @typedef {import("../messages.d.ts").PractiseSaid} Said */
/** @typedef {import("./state.js").SheetDesk} SheetDesk */

const kept = shelf("halfturn.v1");

/** @param {{model: import("../parts/types.d.ts").Model<Said, {page: SheetPage}>, el: HTMLElement}} place */
export function render({ model, el }) {
  const root = node("div", { class: "work" });
  el.append(root);
  /** @type {SheetDesk} */
  const desk = {
    root, page: model.page, drafts: {}, opened: new Set(), displaced: null,
    send: (said) => model.send_msg(said),
    save: () => { if (!desk.page.refusal) kept.save(desk.page, desk.drafts); },
    redraw: () => drawnAgain(desk),
  };
  // Whoever draws with the keys goes on with them: from the chart back to the sheet.
  let byKey = false;
  model.on("remove", listen([
    [document, "keydown", () => { byKey = true; }, true],
    [document, "pointerdown", () => { byKey = false; }, true],
  ]));
  hear(model, {
    page: (page) => take(desk, page),
    draft: (draft) => putDraft(desk, draft, byKey),
    save: saveDrawings,
    faults: (faults) => showFaults(root, faults),
  });
  begin(desk);
  root.replaceChildren(...sheetNodes(desk));
  toTitle(desk);
  markReady("sheet");
}

/** The sheet that the page opens with: of the link, or of what was kept. @param {SheetDesk} desk */
function begin(desk) {
  const { page } = desk, store = kept.kept(), before = store.sheets[page.linked ? signature(page) : store.last ?? ""];
  if (page.brought) {
    desk.displaced = displacedBy(kept.of(page), page);
    desk.save();
    history.replaceState(null, "", location.pathname); // a reload then finds what was changed since
  } else if (before) {
    desk.drafts = before.drafts ?? {};
    desk.send({ do: "restore", record: before.record });
  } else desk.save();
}

/** Another page has come. @param {SheetDesk} desk @param {SheetPage} page */
function take(desk, page) {
  desk.drafts = stillDrafts(desk.drafts, page.record.sheet.entries);
  const before = page.fresh ? kept.of(page) : undefined;
  show(desk, page);
  if (!before) return; // else a problem worked on before comes back as it was left
  desk.drafts = before.drafts ?? {};
  desk.send({ do: "restore", record: before.record });
}

/** @param {SheetDesk} desk @param {SheetPage} next */
function show(desk, next) {
  const before = desk.page, isOther = signature(before) !== signature(next);
  if (isOther) Object.assign(desk, { drafts: {}, opened: new Set(), displaced: null });
  if (next.brought) desk.displaced = displacedBy(kept.of(next), next);
  desk.page = next;
  const atTitle = isOther || focused(desk.root) === "title";
  drawnAgain(desk);
  if (atTitle) toTitle(desk);
  else if (hasGoneOn(before, next) && !focused(desk.root)?.startsWith("worked ")) toOpenEntry(desk);
}

/** The page starts at its title. @param {SheetDesk} desk */
function toTitle({ root }) {
  arrive(/** @type {HTMLElement | null} */ (root.querySelector(".title")));
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
  desk.root.replaceChildren(...sheetNodes(desk));
  desk.save();
  focusAgain();
}

/** A drawn answer goes into its box. @param {SheetDesk} desk @param {import("../messages.d.ts").Draft} draft @param {boolean} byKey */
function putDraft(desk, { field, text }, byKey) {
  desk.drafts[field] = text;
  for (const input of inputs(desk.root, field)) {
    if (input.type === "radio") input.checked = input.value === text;
    else input.value = text;
  }
  desk.save();
  if (byKey) /** @type {HTMLElement | null} */ (desk.root.querySelector(`[data-focus="check ${CSS.escape(field)}"]`))?.focus();
}
