// @ts-check
// Who draws has the chart and the entry that the drawing answers in sight together. Where they stand one over the other,
// the page's style sheet keeps the chart at the top meanwhile, and the page is moved so that the entry is under it.

const GAP = 8; // pixels between the chart and what is asked

/** @param {HTMLElement} whole the chart with what belongs to it @param {string} field */
export function keepTogether(whole, field) {
  document.documentElement.dataset.hand = "drawing";
  const entry = entryOf(field), chart = whole.getBoundingClientRect();
  if (!entry || entry.getBoundingClientRect().left >= chart.right) return;
  const { top, bottom } = (entry.closest("form") ?? entry).getBoundingClientRect();
  const end = chart.height + GAP; // of the chart, once it stands at the top
  if (chart.top >= 0 && top >= chart.bottom && bottom <= innerHeight) return;
  scrollBy({ top: top - end, behavior: "instant" });
}

/** What was said of an answer comes into sight, under the chart where that stands over it. @param {HTMLElement | null} said */
export function keepInSight(said) {
  const chart = document.querySelector(".stage");
  if (!said || !chart) return;
  const isUnder = said.getBoundingClientRect().left < chart.getBoundingClientRect().right;
  if (isUnder) document.documentElement.dataset.hand = "drawing";
  const { top, bottom } = said.getBoundingClientRect();
  const start = isUnder ? Math.max(0, chart.getBoundingClientRect().bottom) : 0;
  if (top < start || bottom > innerHeight) scrollBy({ top: bottom + GAP - innerHeight, behavior: "instant" });
}

/** Nothing is drawn any more, or something is typed: the chart moves with the page again. */
export function stopDrawing() {
  delete document.documentElement.dataset.hand;
}

/** The box or the first button of a field, wherever the page has it. @param {string} field @returns {HTMLElement | null} */
function entryOf(field) {
  const wanted = `[data-field="${CSS.escape(field)}"]`;
  const within = (/** @type {ParentNode} */ place) => {
    /** @type {HTMLElement | null} */
    let found = place.querySelector(wanted);
    for (const node of found ? [] : place.querySelectorAll("*")) found ||= node.shadowRoot && within(node.shadowRoot);
    return found;
  };
  const sheet = document.getElementById("sheet");
  return field && sheet ? within(sheet) : null;
}

for (const event of ["focusin", "input"]) {
  document.addEventListener(event, (happened) => {
    const [target] = happened.composedPath();
    if (target instanceof HTMLInputElement && target.type === "text" && happened.isTrusted) stopDrawing();
  });
}
