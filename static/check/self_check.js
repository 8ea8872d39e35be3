// @ts-check
// The self-check column. Shows a page of plain data, keeps what is being typed, and sends what the student does.
// There are two ways to write, all lines in one box or one entry a step; the text is one, and so is the marked list.

import { pageNodes } from "halfturn/check/column.js";
import { keptDrafts, unsentDrafts } from "halfturn/check/state.js";
import { announce } from "halfturn/parts/announce.js";
import { arrive, followFocus, keepFocus } from "halfturn/parts/focus.js";
import { showFaults } from "halfturn/parts/forms.js";
import { shelf, signature, surviving } from "halfturn/parts/keeping.js";
import { markReady, node } from "halfturn/parts/nodes.js";
import { outbox } from "halfturn/parts/outbox.js";
import { download } from "halfturn/parts/save.js";
import { follow, followOthers, resume, settle, takeUp } from "halfturn/parts/tabs.js";

/** @typedef {import("../messages.d.ts").CheckPage} CheckPage */
/** @typedef {import("../messages.d.ts").CheckSaid} Said */
/** @typedef {import("./state.js").CheckDesk} CheckDesk */

const NAME = "halfturn.check.v1";
/** What is on the desk, also while the page is built anew. @type {{desk: CheckDesk | null}} */
const last = surviving("check", () => ({ desk: null }));
const kept = shelf(NAME, saveLines);

/** @param {{model: import("../parts/types.d.ts").Model<Said, {page: CheckPage}>, el: HTMLElement}} place */
export function render({ model, el }) {
  const root = node("div", { class: "work" });
  el.append(root);
  const line = outbox("check", model, {
    page: (page) => take(desk, page),
    faults: (faults) => {
      desk.sent = {};
      showFaults(root, faults);
    },
  });
  /** @type {CheckDesk} */
  const desk = {
    root, page: model.page, drafts: {}, opened: new Set(), sent: {}, restored: "",
    send: (message) => { follow(kept, desk); line.say(message); },
    restore: (record, name = signature(desk.page)) => {
      desk.restored = name;
      line.restore({ do: "restore", record });
    },
    save: () => { if (!follow(kept, desk)) kept.save(desk.page, desk.drafts); },
    redraw: () => show(desk, desk.page),
  };
  model.on("remove", followOthers(NAME, () => follow(kept, desk)));
  const before = last.desk;
  last.desk = desk;
  if (before) goOn(desk, before);
  else takeUp(kept, desk);
  root.replaceChildren(...pageNodes(desk));
  followFocus("sheet", root);
  markReady("sheet");
}

/** The page was built anew over another connection: it goes on as it was. @param {CheckDesk} desk @param {CheckDesk} before */
function goOn(desk, { page, drafts, opened, sent }) {
  Object.assign(desk, { page: { ...desk.page, ...page }, drafts, opened, sent });
  resume(kept, desk);
}

/** The lines as a text, which can be put into the box again. */
function saveLines() {
  const lines = last.desk?.drafts.text ?? last.desk?.page.text ?? "";
  download("halfturn-working.txt", new Blob([lines], { type: "text/plain" }));
}

/** Another page has come. @param {CheckDesk} desk @param {CheckPage} page */
function take(desk, page) {
  settle(kept, desk.restored, page);
  if (page.fresh) return revive(desk, page);
  const isMarked = "text" in desk.sent;
  desk.drafts = unsentDrafts(desk.drafts, desk.sent);
  desk.sent = {};
  show(desk, page);
  if (!isMarked) return;
  announce(page.summary);
  const heading = /** @type {HTMLElement | null} */ (desk.root.querySelector("#marked"));
  if (desk.drafts.way !== "steps" && heading) arrive(heading, heading.closest("section"));
}

/** A problem worked on before comes back as it was left. @param {CheckDesk} desk @param {CheckPage} page */
function revive(desk, page) {
  const before = kept.of(page);
  desk.opened.delete("own");
  if (before?.record?.text) desk.drafts = before.drafts;
  show(desk, page);
  if (before?.record?.text) desk.restore(before.record);
}

/** @param {CheckDesk} desk @param {CheckPage} page */
function show(desk, page) {
  if (signature(desk.page) !== signature(page) && !page.restored) desk.drafts = keptDrafts(desk.drafts);
  desk.page = page;
  const focusAgain = keepFocus(desk.root);
  desk.root.replaceChildren(...pageNodes(desk));
  desk.save();
  focusAgain();
}
