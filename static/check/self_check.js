// @ts-check
// The self-check column. Shows a page of plain data, keeps what is being typed, and sends what the student does.
// There are two ways to write, all lines in one box or one entry a step; the text is one, and so is the marked list.

import { pageNodes } from "halfturn/check/column.js";
import { keptDrafts, unsentDrafts } from "halfturn/check/state.js";
import { arrive, keepFocus } from "halfturn/parts/focus.js";
import { showFaults } from "halfturn/parts/forms.js";
import { shelf, signature } from "halfturn/parts/keeping.js";
import { hear, markReady, node } from "halfturn/parts/nodes.js";

/** @typedef {import("../messages.d.ts").CheckPage} CheckPage */
/** @typedef {import("../messages.d.ts").CheckSaid} Said */
/** @typedef {import("./state.js").CheckDesk} CheckDesk */

const kept = shelf("halfturn.check.v1");

/** @param {{model: import("../parts/types.d.ts").Model<Said, {page: CheckPage}>, el: HTMLElement}} place */
export function render({ model, el }) {
  const root = node("div", { class: "work" }), said = node("p", { class: "unseen", role: "status" });
  el.append(root, said);
  /** @type {CheckDesk} */
  const desk = {
    root, page: model.page, drafts: {}, opened: new Set(), sent: {},
    send: (message) => model.send_msg(message),
    save: () => kept.save(desk.page, desk.drafts),
    redraw: () => show(desk, desk.page),
  };
  hear(model, {
    page: (page) => take(desk, page, said),
    faults: (faults) => {
      desk.sent = {};
      showFaults(root, faults);
    },
  });
  const store = kept.kept(), before = store.sheets[desk.page.linked ? signature(desk.page) : store.last ?? ""];
  if (before) {
    desk.drafts = before.drafts ?? {};
    desk.send({ do: "restore", record: before.record });
  } else desk.save();
  root.replaceChildren(...pageNodes(desk));
  markReady("sheet");
}

/** Another page has come. @param {CheckDesk} desk @param {CheckPage} page @param {HTMLElement} said where it is read aloud */
function take(desk, page, said) {
  if (page.fresh) return revive(desk, page);
  const isMarked = "text" in desk.sent;
  desk.drafts = unsentDrafts(desk.drafts, desk.sent);
  desk.sent = {};
  show(desk, page);
  if (!isMarked) return;
  said.textContent = page.summary;
  const heading = /** @type {HTMLElement | null} */ (desk.root.querySelector("#marked"));
  if (desk.drafts.way !== "steps" && heading) arrive(heading, heading.closest("section"));
}

/** A problem worked on before comes back as it was left. @param {CheckDesk} desk @param {CheckPage} page */
function revive(desk, page) {
  const before = kept.of(page);
  desk.opened.delete("own");
  if (before?.record?.text) desk.drafts = before.drafts ?? {};
  show(desk, page);
  if (before?.record?.text) desk.send({ do: "restore", record: before.record });
}

/** @param {CheckDesk} desk @param {CheckPage} page */
function show(desk, page) {
  if (signature(desk.page) !== signature(page)) desk.drafts = keptDrafts(desk.drafts);
  desk.page = page;
  const focusAgain = keepFocus(desk.root);
  desk.root.replaceChildren(...pageNodes(desk));
  desk.save();
  focusAgain();
}
