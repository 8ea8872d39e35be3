// The printed chart under the ink: a Bokeh figure that follows the view. To draw it anew takes longer than a frame, so while
// the view moves, the drawing there is moved and stretched along, and it is drawn anew where the view comes to rest.

const REST = 140; // milliseconds without a change after which the view is at rest
const FURTHER_IN = 2; // times as far from the rim as on a desk that numbers of b stand where letters are large

function makePrinted(plot, box, pieces, view) {
  const filled = new Map(); // names of the pieces that each source holds
  let told = null, drawn = null, last = -Infinity, timer = 0, watched = null;

  // Bokeh draws some frames after it is told to; the drawing is not moved along any more as soon as it has.
  const watcher = new MutationObserver(() => place(drawn = told));

  function follow() {
    const now = performance.now(), moving = drawn && drawn.size === view.size && now - last < REST;
    last = now;
    clearTimeout(timer);
    if (!moving) return tell();
    place(drawn);
    timer = setTimeout(tell, REST);
    return undefined;
  }

  // Lay the drawing that was made for one view where it belongs in the present one.
  function place(made) {
    const element = box.querySelector(".printed"), stretched = made.half / view.half;
    const left = (view.size / 2) * (1 - stretched) + (made.x - view.x) * view.scale();
    const top = (view.size / 2) * (1 - stretched) - (made.y - view.y) * view.scale();
    const resized = made.size !== view.size, still = !resized && made.x === view.x && made.y === view.y && made.half === view.half;
    element.style.transform = still || resized ? "" : `matrix(${stretched}, 0, 0, ${stretched}, ${left}, ${top})`;
    box.dataset.view = still && watched ? "still" : "moving";
  }

  function tell() {
    watch();
    const { x, y, half, size } = view;
    const changes = [
      setLocally(plot.x_range, { start: x - half, end: x + half }),
      setLocally(plot.y_range, { start: y - half, end: y + half }),
      ...plot.renderers.map(print),
    ];
    told = { x, y, half, size };
    if (!drawn || !changes.some(Boolean)) drawn = told;
    place(drawn);
  }

  // Put into a glyph the pieces that there is room for.
  function print({ data_source: source, glyph }) {
    const shown = pieces.filter((piece) => piece.glyph === source.name && view.shows(piece));
    const names = shown.map(({ name, layout }) => `${layout} ${name}`).join();
    const stale = names !== (filled.get(source.name) ?? "");
    if (stale) setLocally(source, { data: Object.fromEntries(source.columns().map((column) => [column, together(shown, column)])) });
    filled.set(source.name, names);
    const size = `${view.letters().toFixed(1)}px`;
    const sized = glyph.type === "Text" && glyph.text_font_size.value !== size && setLocally(glyph, { text_font_size: { value: size } });
    return stale || sized;
  }

  function together(shown, column) {
    const laid = shown.map((piece) => ({ ...piece, columns: view.isAfar() ? apart(piece) : piece.columns }));
    return laid.flatMap(({ columns, look }) => columns[column] ?? Array(Object.values(columns)[0].length).fill(look[column]));
  }

  // Numbers of b stand further in than those of x. For letters seen from afar they need more room between them, and near
  // the rim's ends, where the arcs are short, there is none.
  function apart({ glyph, grid, columns }) {
    if (glyph !== "numbers" || grid !== "admittance") return columns;
    const onAxis = (i) => Math.abs(columns.y[i]) < 0.05, kept = columns.text.flatMap((text, i) => (onAxis(i) || Math.abs(Number(text.replace("−", "-"))) < 5 ? [i] : []));
    const inward = (i) => { const size = Math.hypot(columns.x[i], columns.y[i]); return onAxis(i) ? 1 : (1 - FURTHER_IN * (1 - size)) / size; };
    const rows = Object.fromEntries(Object.entries(columns).map(([name, values]) => [name, kept.map((i) => values[i])]));
    return { ...rows, x: kept.map((i) => columns.x[i] * inward(i)), y: kept.map((i) => columns.y[i] * inward(i)) };
  }

  function watch() {
    const roots = watched ? [] : drawingRoots(box.querySelector(".printed").firstElementChild);
    for (const root of roots) watcher.observe(root, { childList: true, subtree: true });
    if (roots.length) watched = roots;
    for (const root of watched || []) root.firstElementChild.setAttribute("viewBox", `0 0 ${view.size} ${view.size}`);
  }

  return { follow, stop: () => { clearTimeout(timer); watcher.disconnect(); } };
}

// Change a model in this browser only: the server neither needs to know nor is asked.
// Says whether anything changed.
function setLocally(model, values) {
  const changes = Object.entries(values).some(([name, value]) => model[name] !== value);
  if (changes) model.setv(values, { sync: false });
  return changes;
}

// On paper the page is narrower than Bokeh, which measures on the screen, knows: its drawing shrinks along.
const ON_PAPER = "@media print { .bk-Canvas, .bk-layer, svg { width: 100% !important; height: 100% !important } }";

// Let the colours of the printed chart follow the page: each paint it was made with gives way to a CSS variable. Says
// whether there was a drawing to do it to.
function followPage(element, paint) {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(Object.entries(paint).map(([role, colour]) => {
    const paints = `rgb(${[1, 3, 5].map((at) => parseInt(colour.slice(at, at + 2), 16)).join()})`;
    return `[stroke="${paints}"] { stroke: var(--${role}) } [fill="${paints}"] { fill: var(--${role}) }`;
  }).join("\n") + "text { font-variant-numeric: tabular-nums }" + ON_PAPER);
  const adopt = (inside) => {
    if (!inside) return;
    inside.adoptedStyleSheets = [...inside.adoptedStyleSheets, sheet];
    for (const child of inside.children) adopt(child.shadowRoot);
  };
  const found = drawingRoots(element).length > 0;
  if (found) adopt(element.shadowRoot);
  return found;
}

// The shadow roots under an element that hold a drawing.
function drawingRoots(element) {
  const inside = element.shadowRoot;
  if (!inside) return [];
  if (inside.firstElementChild?.tagName === "svg") return [inside];
  return [...inside.children].flatMap(drawingRoots);
}

// Bokeh makes its event layer a stop of the Tab key, without a name: the stage around it is the one to stop at.
function leaveTabOrder(element) {
  if (element.tabIndex >= 0 && element.hasAttribute("tabindex")) element.tabIndex = -1;
  for (const child of element.shadowRoot?.children ?? element.children) leaveTabOrder(child);
}
