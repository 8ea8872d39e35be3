// The elements of the stage, and the words in them. Whatever comes from outside is written as text, never as HTML.

const COLUMN_NAMES = ["point", "z", "y", "|Γ|", "angle", "on the scale"];

function make(tag, attributes = {}, ...children) {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) node.setAttribute(name, value);
  node.append(...children);
  return node;
}

function makeParts(model) {
  const figure = model.get_child("figure");
  const [names, edges, ink, hand] = ["names", "edges", "ink", "hand"].map((name) => shape("g", { class: name }));
  const overlay = shape("svg", { class: "overlay", "aria-hidden": "true" });
  overlay.append(names, edges, ink, hand);
  const closer = iconButton("Closer", "M8 3V13M3 8H13"), wholeButton = iconButton("Whole chart", "M3 6V3H6M10 3H13V6M13 10V13H10M6 13H3V10");
  const task = make("p", { id: "task", class: "heard" });
  const pad = make(
    "div",
    { class: "pad", role: "application", tabindex: "0", "aria-label": model.label, "aria-describedby": "task" },
    make("div", { class: "printed" }, figure), overlay, make("div", { class: "views" }, closer, wholeButton),
  );
  const readout = make("div", { class: "readout", "aria-hidden": "true" }), hint = make("p", { class: "hint", "aria-hidden": "true" });
  const said = make("div", { class: "heard", role: "status" });
  const spoken = make("ul", { class: "heard", "aria-label": "What is drawn on the chart" });
  const points = make("details", { class: "points" }, make("summary", {}, "Points"));
  const whole = make("div", { class: "whole" }, pad, readout, hint, task, said, spoken, points);
  return { whole, figure, pad, overlay, names, edges, ink, hand, closer, wholeButton, readout, hint, task, said, spoken, points };
}

function iconButton(name, d) {
  const icon = shape("svg", { viewBox: "0 0 16 16", "aria-hidden": "true" });
  icon.append(shape("path", { d }));
  return make("button", { type: "button", "aria-label": name, title: name }, icon);
}

function writeReadout(readout, pairs) {
  const cell = ([name, value]) => make("span", { class: name === "walked" ? "wide" : "" }, make("i", {}, name), make("b", {}, value));
  readout.replaceChildren(...pairs.map(cell));
}

function writeSpoken(list, groups) {
  list.replaceChildren(...groups.flatMap((group) => group.strokes).map(({ spoken }) => make("li", {}, spoken)));
}

function writePoints(details, rows) {
  const open = details.open, head = make("tr", {}, ...COLUMN_NAMES.map((name) => make("th", { scope: "col" }, name)));
  const body = rows.map(([name, ...cells]) => make("tr", {}, make("th", { scope: "row" }, name), ...cells.map((cell) => make("td", {}, cell))));
  const table = make("table", {}, make("thead", {}, head), make("tbody", {}, ...body));
  details.replaceChildren(make("summary", {}, "Points"), make("div", { class: "scroll" }, table));
  details.hidden = !rows.length;
  details.open = open;
}
