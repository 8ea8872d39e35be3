// The view of the chart: how the plane of reflection lies on the screen, and what of the printed chart is shown at that
// size. The ink is drawn over it with the same mapping.

const CLOSEST = 20; // how many times the whole chart can be enlarged
const COMPACT_BELOW = 540; // pixels of width under which the scales take the compact layout
const LETTERS = { of: 0.033, least: 9, most: 16 }; // size of printed numbers, by the radius of the whole chart
const PRINTED = 0.56; // size of printed numbers, by that of letters beside strokes, where a page sets it
const BOKEH_SHIFT = 0.5; // Bokeh draws half a pixel to the right and down, to have crisp lines

function makeView(plot, box, paper, columns, redraw) {
  const view = { x: 0, y: 0, half: 0, size: 0, layout: "", grid: "half turn" };
  let frame = 0;

  view.radii = () => paper.layouts[view.layout];
  view.scale = () => view.size / (2 * view.half);
  view.toScreen = ([u, v]) => [
    (u - view.x) * view.scale() + view.size / 2 + BOKEH_SHIFT,
    (view.y - v) * view.scale() + view.size / 2 + BOKEH_SHIFT,
  ];
  view.toChart = ([left, top]) => [
    (left - BOKEH_SHIFT - view.size / 2) / view.scale() + view.x,
    view.y - (top - BOKEH_SHIFT - view.size / 2) / view.scale(),
  ];
  // A page that is seen from afar sets --stage-scale, for strokes and markers, and --stage-letters, in pixels.
  const wished = (name) => Number(getComputedStyle(box).getPropertyValue(name)) || 0;
  const usualLetters = () => Math.min(LETTERS.most, Math.max(LETTERS.least, (LETTERS.of * view.size) / (2 * view.radii().extent)));
  view.letters = () => PRINTED * wished("--stage-letters") || usualLetters();
  view.inkScale = () => wished("--stage-scale") || 1;
  view.inkLetters = () => wished("--stage-letters") || Math.max(11.5, 1.2 * view.letters());
  view.holds = ([x, y]) => x >= 0 && y >= 0 && x <= view.size && y <= view.size;
  view.isWhole = () => view.half >= view.radii().extent * 0.999;

  view.measure = () => {
    const size = box.clientWidth;
    if (!size) return;
    const layout = size < COMPACT_BELOW || wished("--stage-letters") ? "compact" : "regular";
    const part = view.layout ? view.half / view.radii().extent : 1;
    if (layout !== view.layout) fill(layout);
    view.size = size;
    view.half = part * view.radii().extent;
    view.apply();
  };

  // Enlarge about a place on the screen that stays where it is.
  view.enlarge = (factor, at = [view.size / 2, view.size / 2]) => {
    const kept = view.toChart(at), { extent } = view.radii();
    view.half = Math.min(extent, Math.max(extent / CLOSEST, view.half / factor));
    const moved = view.toChart(at);
    view.x += kept[0] - moved[0];
    view.y += kept[1] - moved[1];
    view.apply();
  };

  // Whether the glyph of this name is drawn in this view; larger letters need more room.
  view.shows = (name) => {
    const [grid, fromScale] = plot.renderers.find(({ data_source: source }) => source.name === name).tags;
    const room = name.includes("labels") ? view.scale() * (usualLetters() / view.letters()) : view.scale();
    return (grid !== "admittance" || view.grid === "overlay") && room >= fromScale;
  };

  view.pan = (right, down) => {
    view.x -= right / view.scale();
    view.y += down / view.scale();
    view.apply();
  };

  view.whole = () => {
    view.half = view.radii().extent;
    view.apply();
  };

  // Bring a point of the chart into view.
  view.reveal = ([u, v]) => {
    const room = 0.9 * view.half;
    view.x = Math.min(Math.max(view.x, u - room), u + room);
    view.y = Math.min(Math.max(view.y, v - room), v + room);
    view.apply();
  };

  view.apply = () => {
    const room = view.radii().extent - view.half;
    view.x = Math.min(room, Math.max(-room, view.x));
    view.y = Math.min(room, Math.max(-room, view.y));
    if (!frame) frame = requestAnimationFrame(show);
  };

  view.stop = () => cancelAnimationFrame(frame);

  function show() {
    frame = 0;
    setLocally(plot.x_range, { start: view.x - view.half, end: view.x + view.half });
    setLocally(plot.y_range, { start: view.y - view.half, end: view.y + view.half });
    const letters = `${view.letters().toFixed(1)}px`;
    for (const renderer of plot.renderers) {
      setLocally(renderer, { visible: view.shows(renderer.data_source.name) });
      if (renderer.glyph.type === "Text" && letters !== view.lettersSet) setLocally(renderer.glyph, { text_font_size: { value: letters } });
    }
    view.lettersSet = letters;
    redraw();
  }

  function fill(layout) {
    view.layout = layout;
    for (const { data_source: source } of plot.renderers) {
      const { name, ...data } = columns[layout][source.name] ?? columns.any[source.name];
      setLocally(source, { data });
    }
  }

  return view;
}

// Change a model in this browser only: the server neither needs to know nor is asked.
function setLocally(model, values) {
  if (Object.entries(values).some(([name, value]) => model[name] !== value)) model.setv(values, { sync: false });
}

// Let the colours of the printed chart follow the page: each paint it was made with gives way to a CSS variable. Says
// whether there was a drawing to do it to.
function followPage(element, paint) {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(Object.entries(paint).map(([role, colour]) => {
    const paints = `rgb(${[1, 3, 5].map((at) => parseInt(colour.slice(at, at + 2), 16)).join()})`;
    return `[stroke="${paints}"] { stroke: var(--${role}) } [fill="${paints}"] { fill: var(--${role}) }`;
  }).join("\n") + "text { font-variant-numeric: tabular-nums }");
  const roots = drawingRoots(element);
  for (const root of roots) root.adoptedStyleSheets = [...root.adoptedStyleSheets, sheet];
  return roots.length > 0;
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
