// The view of the chart: how the plane of reflection lies on the screen, and what of the printed chart is shown at that
// size. The ink is drawn over it with the same mapping.

const CLOSEST = 20; // how many times the whole chart can be enlarged
const COMPACT_BELOW = 540; // pixels of width under which the scales take the compact layout
const LETTERS = { of: 0.033, least: 9, most: 16 }; // size of printed numbers, by the radius of the whole chart
const PRINTED = 0.54; // size of printed numbers, by that of letters beside strokes, where a page sets it
const BOKEH_SHIFT = 0.5; // Bokeh draws half a pixel to the right and down, to have crisp lines

function makeView(plot, box, paper, pieces, redraw) {
  const view = { x: 0, y: 0, half: 0, size: 0, layout: "", grid: "half turn" };
  const printed = makePrinted(plot, box, pieces, view);
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
  // A page that is seen from afar sets --stage-scale, for strokes and markers, and --stage-letters, in pixels. Looked up
  // once for a size: asking in the middle of drawing would have the browser work out all styles each time.
  let wished = { scale: 0, letters: 0 };
  const ask = (name) => Number(getComputedStyle(box).getPropertyValue(name)) || 0;
  const usualLetters = () => Math.min(LETTERS.most, Math.max(LETTERS.least, (LETTERS.of * view.size) / (2 * view.radii().extent)));
  view.letters = () => PRINTED * wished.letters || usualLetters();
  view.isAfar = () => wished.letters > 0;
  view.inkScale = () => wished.scale || 1;
  view.inkLetters = () => wished.letters || Math.max(11.5, 1.2 * view.letters());
  view.holds = ([x, y]) => x >= 0 && y >= 0 && x <= view.size && y <= view.size;
  view.isWhole = () => view.half >= view.radii().extent * 0.999;

  view.measure = () => {
    const size = box.clientWidth;
    if (!size) return;
    wished = { scale: ask("--stage-scale"), letters: ask("--stage-letters") };
    const part = view.layout ? view.half / view.radii().extent : 1;
    view.layout = size < COMPACT_BELOW || view.isAfar() ? "compact" : "regular";
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

  // Whether a piece of the printed chart is shown in this view; larger letters need more room.
  view.shows = ({ grid, layout, glyph, from_scale: from }) => {
    const room = glyph === "numbers" && view.isAfar() ? view.scale() * (LETTERS.least / view.letters()) : view.scale();
    return (layout === "any" || layout === view.layout) && (grid !== "admittance" || view.grid === "overlay") && room >= from;
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

  view.stop = () => {
    cancelAnimationFrame(frame);
    printed.stop();
  };

  function show() {
    frame = 0;
    printed.follow();
    redraw();
  }

  return view;
}
