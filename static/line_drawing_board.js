// The board sketch: the same lengths as copper seen from above. A shunt stub is a branch of a trace over a ground
// plane; a series stub needs both conductors within reach, so there the line is two strips side by side.

// Copper is the wider the lower its impedance; a picture of that, no measure.
const breadthOf = (ohms, u) => u * Math.max(0.4, Math.min(1.8, (50 / ohms) ** 0.7));

function drawBoard(pen, picture, values, current, frame) {
  const {u} = pen, {distance, length} = values[current], series = picture.stub.placement === "series";
  const middle = frame.y + (series ? 7 : 6.4) * u, breadth = breadthOf(picture.line.ohms, u);
  const strips = series ? [-1, 1].map(way => middle + way * (0.3 * u + breadth / 2)) : [middle];
  const board = {...frame, series, strips, breadth, upper: strips[0] - breadth / 2, lower: strips.at(-1) + breadth / 2,
    top: frame.y + 4.5 * u, bottom: frame.y + frame.h - 2.1 * u};
  const branch = distance === null ? null : branchAt(pen, board, picture.stub.ohms, distance, length);
  heading(pen, frame, "board", "The board, from above");
  pen.text("board-generator-label", "quiet", frame.x, board.top - 0.5 * u, ["generator"]);
  pen.path("board-outline", "board", rectangle(frame.x + 0.5, board.top, frame.w - 1, board.bottom - board.top));
  pen.take(frame.x, board.upper, frame.w, board.lower - board.upper);
  if (branch) distanceDimension(pen, frame, "board", picture, distance, board.upper - 0.2 * u);
  pen.ground = " on-board";
  if (!series) drawGround(pen, board);
  drawCopper(pen, board, branch, picture.stub.end, current);
  drawLoadPads(pen, board);
  if (branch) branchLabels(pen, board, picture, branch, current, length);
  pen.ground = "";
  scaleBar(pen, frame, "board", picture, "; widths not to scale");
}

// A corner where the board is cut away shows the plane under it.
function drawGround(pen, board) {
  const {u} = pen, size = 2.3 * u, x = board.x + 0.5, y = board.bottom, words = ["ground plane underneath"];
  const steps = [1, 2, 3, 4].map(k => k * size / 5);
  pen.path("board-ground", "ground", `M${x} ${y - size}L${x + size} ${y}H${x}Z`);
  pen.path("board-ground-hatch", "thin", steps.map(k => `M${x} ${y - k}L${x + k} ${y}`).join(""));
  pen.text("board-ground-label", "quiet", x + size + 0.3 * u, y - 0.5 * u, words);
  pen.take(x, y - size, size, size);
  pen.take(x, y - 1.5 * u, size + 0.3 * u + pen.width(words), 1.5 * u);
}

// The branch's middle line goes `down` from the edge of the trace, and the rest of it `aside` where the board is too
// shallow; it ends at (`ex`, `ey`). A series branch is two strips `half` to either side of it.
function branchAt(pen, board, ohms, distance, length) {
  const {u} = pen, x = across(board, distance), breadth = breadthOf(ohms, u), known = length !== null;
  const run = known ? length * board.scale : STUMP * u, down = Math.min(run, board.bend), aside = run - down;
  const half = board.series ? 0.25 * u + breadth / 2 : 0, reach = half + breadth / 2;
  const way = distance < 0.25 ? -1 : 1, ex = x + way * aside, ey = board.lower + down;
  pen.take(x - reach, board.lower, 2 * reach, down + 0.6 * u);
  if (aside) pen.take(Math.min(x, ex) - reach, ey - reach, aside + 2 * reach, 2 * reach);
  return {x, breadth, half, reach, known, down, aside, way, ex, ey};
}

// A line beside the branch's middle line, `off` to its right, and `more` beyond its end.
function along(board, {x, aside, way, ex, ey}, off, more = 0) {
  const start = `M${x + off} ${board.lower - 1}`;
  return aside ? `${start}V${ey - way * off}H${ex + way * more}` : `${start}V${ey + more}`;
}

// All copper gets its edge first and its face after, so that pieces that touch run together.
function drawCopper(pen, board, branch, end, side) {
  const {u} = pen, {x, load, strips, breadth, series} = board, faces = [];
  const strip = (part, look, width, path) => {
    pen.path(`${part}-edge`, "edge", path(1), width + 2);
    faces.push([part, `copper ${look}`, path(0), width]);
  };
  strips.forEach((y, i) => {
    const gap = series && branch && i ? branch.half - branch.breadth / 2 : 0;
    const cut = more => gap ? `H${branch.x - gap + more}M${branch.x + gap - more} ${y}` : "";
    strip(`board-trace-${i}`, "", breadth, more => `M${x + 0.5} ${y}${cut(more)}H${load + 0.8 * u}`);
  });
  if (branch?.known) drawBranch(pen, board, branch, end, side, strip);
  for (const face of faces) pen.path(...face);
  if (branch && !branch.known) drawUnknown(pen, board, branch, side);
  if (!branch?.known || end === "open" || series) return;
  pen.path("board-hole", `pad ${side}`, ring(branch.ex, branch.ey, Math.max(0.62 * u, branch.breadth / 2)));
  pen.path("board-hole-inside", "hole", ring(branch.ex, branch.ey, 0.28 * u));
}

function drawBranch(pen, board, branch, end, side, strip) {
  const {half, breadth, reach, aside, x, ex, ey} = branch, offsets = board.series ? [-half, half] : [0];
  offsets.forEach((off, i) => strip(`board-branch-${i}`, side, breadth, more => along(board, branch, off, more)));
  if (!board.series || end === "open") return;
  strip("board-bridge", side, 0.6 * pen.u, more => aside
    ? `M${ex} ${ey - reach - more}V${ey + reach + more}` : `M${x - reach - more} ${ey}H${x + reach + more}`);
}

function drawUnknown(pen, board, branch, side) {
  const {half, breadth, ex, ey} = branch, offsets = board.series ? [-half, half] : [0];
  const outline = offsets.flatMap(off => [off - breadth / 2, off + breadth / 2]);
  pen.path("board-branch-unknown", `stump ${side}`, outline.map(off => along(board, branch, off)).join(""));
  pen.text("board-unknown", `name ${side}`, ex, ey + 1.1 * pen.u, ["?"], "middle");
}

// Two pads with the part across them; over a ground plane the second one is joined to it by a hole.
function drawLoadPads(pen, {load, strips, series}) {
  const {u} = pen, x = load + 0.6 * u, [first, second] = strips;
  const pad = (i, left, y) => pen.path(`board-pad-${i}`, "pad", rectangle(left, y - 0.75 * u, 1.5 * u, 1.5 * u));
  if (series) {
    pad(0, x, first - 0.2 * u);
    pad(1, x, second + 0.2 * u);
    pen.path("board-part", "part", rectangle(x - 0.15 * u, first - 0.3 * u, 1.8 * u, second - first + 0.6 * u));
    pen.text("board-load", "label", x + 2 * u, (first + second) / 2 + 0.36 * u, ["load"]);
  } else {
    pad(0, x, first);
    pad(1, x + 4 * u, first);
    pen.path("board-pad-hole", "hole", ring(x + 4.95 * u, first, 0.28 * u));
    pen.path("board-part", "part", rectangle(x + 0.9 * u, first - 0.95 * u, 3.7 * u, 1.9 * u));
    pen.text("board-load", "label", x + 2.75 * u, first + 0.36 * u, ["load"], "middle");
  }
}

function branchLabels(pen, board, picture, branch, side, length) {
  const {u} = pen, {x, reach, way, aside, down, known} = branch, {writing, stub} = picture, {lower} = board;
  const bounds = {x: board.x + 0.5 * u, y: lower + 0.5 * u, w: board.w - u, h: board.bottom - lower - 0.9 * u};
  const lines = [{part: "name", marker: side, look: `name ${side}`, runs: [side]}];
  if (known) {
    const size = writtenMillimetres(length, writing) || writtenWaves(length, writing);
    lines.push({part: "label", runs: [`_${picture.symbols.length}`, ` = ${size}`]});
    lengthAlong(pen, board, branch, stub.end === "short" && !board.series ? 0.28 * u : 0);
  }
  lines.push({part: "ohms", runs: [stub.text]});
  const first = aside ? -way : 1;
  pen.block("board-length", lines, (w, h) => [first, -first].flatMap(to => [0.5, 0, 1].map(share =>
    [x + to * (reach + 0.7 * u) - (to < 0 ? w : 0), lower + 0.5 * u + share * (down - h)])), bounds);
  if (known) endLabel(pen, board, stub.end, branch, bounds);
}

function endLabel(pen, board, end, {ex, ey, reach, way, aside}, bounds) {
  const {u} = pen, words = end === "open" ? "open end" : board.series ? "bridge" : "plated hole";
  pen.block("board-end", [{part: "words", look: "quiet", runs: [words]}], (w, h) => {
    const clear = Math.max(reach, 0.7 * u) + 0.5 * u, y = ey - h / 2;
    const right = [ex + clear, y], left = [ex - clear - w, y];
    const beside = way < 0 && aside ? [left, right] : [right, left];
    return [...beside, [ex - w / 2, ey + (aside ? clear : 1.15 * u)], [ex - w / 2, ey - clear - h]];
  }, bounds);
}

// The length is measured along the middle of the copper, to the middle of the hole if it ends in one.
function lengthAlong(pen, board, {x, down, aside, ex, ey, way}, hole) {
  const h = 0.5 * pen.u, b = 0.22 * pen.u, y = board.lower, round = aside > hole + h;
  if (down + aside < 3 * h + hole) return;
  const [tx, ty] = round ? [ex - way * hole, ey] : [ex, ey - hole];
  pen.path("board-length", "thin", `M${x} ${y}V${ty}${round ? `H${tx}` : ""}`);
  const tip = round ? `l${-way * h} ${-b}v${2 * b}Z` : `l${-b} ${-h}h${2 * b}Z`;
  pen.path("board-length-heads", "head", `M${x} ${y}l${-b} ${h}h${2 * b}ZM${tx} ${ty}${tip}`);
}
