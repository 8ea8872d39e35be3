// In a closer view the axis and the rim with their numbers may be out of sight: then each curve of the grid bears its
// name where it leaves the view, the coarser ones first, as far apart as there is room.

const EDGE_FROM = 1.4; // times enlarged from which this is done
const EDGE_ROOM = { along: 44, across: 17 }; // pixels between two names on a horizontal and on a vertical edge
const EDGE_INSET = 4;

function drawEdges(layer, view, pieces) {
  layer.replaceChildren();
  if (view.half * EDGE_FROM > view.radii().extent) return;
  layer.style.fontSize = `${view.letters()}px`;
  const taken = [[view.size - 36, 12], [view.size - 70, 12]]; // the buttons
  const grids = pieces.filter((piece) => piece.columns.name && view.shows(piece)).sort((a, b) => a.from_scale - b.from_scale);
  for (const { columns, grid } of grids) nameCurves(layer, view, columns, taken, grid);
}

function nameCurves(layer, view, arcs, taken, grid) {
  for (let i = 0; i < arcs.x.length; i++) {
    const free = edgeCrossings(view, arcs, i).find(({ at }) => taken.every(([x, y]) => apartEnough(at, x, y)));
    if (!free) continue;
    taken.push(free.at);
    layer.append(shape("text", { class: `edge ${grid}`, x: free.at[0], y: free.at[1], dy: "0.35em", "text-anchor": free.anchor }, arcs.name[i]));
  }
}

function apartEnough([x, y], otherX, otherY) {
  return Math.abs(x - otherX) >= EDGE_ROOM.along || Math.abs(y - otherY) >= EDGE_ROOM.across;
}

// Where an arc crosses the edges of the view: the left, right, upper and lower one in turn.
function edgeCrossings(view, arcs, i) {
  const [u, v, radius] = [arcs.x[i], arcs.y[i], arcs.radius[i]], found = [];
  const [left, right, low, high] = [view.x - view.half, view.x + view.half, view.y - view.half, view.y + view.half];
  const add = (point, place) => {
    const turned = (Math.atan2(point[1] - v, point[0] - u) - arcs.start_angle[i]) / (2 * Math.PI);
    const within = (turned - Math.floor(turned)) * 2 * Math.PI <= arcs.end_angle[i] - arcs.start_angle[i];
    if (within && point[0] >= left && point[0] <= right && point[1] >= low && point[1] <= high) found.push(place(view.toScreen(point)));
  };
  const half = (distance) => Math.sqrt(Math.max(0, radius ** 2 - distance ** 2));
  for (const sign of [1, -1]) {
    for (const [edge, x, anchor] of [[left, EDGE_INSET, "start"], [right, view.size - EDGE_INSET, "end"]]) {
      if (Math.abs(edge - u) < radius) add([edge, v + sign * half(edge - u)], ([, y]) => ({ at: [x, y], anchor }));
    }
    for (const [edge, y] of [[high, 10], [low, view.size - 10]]) {
      if (Math.abs(edge - v) < radius) add([u + sign * half(edge - v), edge], ([x]) => ({ at: [x, y], anchor: "middle" }));
    }
  }
  return found;
}
