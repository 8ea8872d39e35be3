// The words of the lecture: a frame in large type, the keys, and what each of them does.
// All text goes in as text, never as markup.

import {node} from "halfturn/parts/common.js";

const MARKS = {near: "▲", far: "◆"};
export const SHOWN_AS = {"side by side": "Near and far", "in turn": "Near, then far", near: "Near only", far: "Far only"};
export const LIGHTS = {light: "Light", dark: "Dark", mono: "Black and white"};

// What can be done: the keys for it, how they are written, what it does, and its small button, if it has one.
export const KEYS = [
  {act: "forward", keys: ["ArrowRight", "PageDown", " "], written: "→ PgDn Space", does: "Next construction", button: "Forward"},
  {act: "back", keys: ["ArrowLeft", "PageUp"], written: "← PgUp", does: "One construction back", button: "Back"},
  {act: "first", keys: ["Home"], written: "Home", does: "To the beginning"},
  {act: "last", keys: ["End"], written: "End", does: "To the end"},
  {act: "values", keys: [".", "v"], written: ". V", does: "Reveal or hide the values of this construction", button: "Values"},
  {act: "all values", keys: ["V"], written: "Shift V", does: "Reveal or hide all values"},
  {act: "spotlight", keys: ["s"], written: "S", does: "Light one stroke; again for the next", button: "Spotlight"},
  {act: "blank", keys: ["b"], written: "B", does: "Blank chart, and back", button: "Blank"},
  {act: "pen", keys: ["p"], written: "P", does: "Freehand pen, on and off"},
  {act: "clear", keys: ["c"], written: "C", does: "Clear what the pen drew"},
  {act: "showing", keys: ["n"], written: "N", does: "Near and far side by side, in turn, or one alone", button: "Near/far"},
  {act: "load", keys: ["l"], written: "L", does: "Another load, line or notation", button: "Load"},
  {act: "move", keys: ["m"], written: "M", does: "Move the load’s point on the chart, and stop"},
  {act: "closer", keys: ["+", "="], written: "+", does: "Look closer at the chart"},
  {act: "further", keys: ["-", "_"], written: "−", does: "Look at it from further away"},
  {act: "whole", keys: ["0"], written: "0", does: "The whole chart"},
  {act: "light", keys: ["t"], written: "T", does: "Light, dark, or black and white", button: "Light"},
  {act: "full", keys: ["f"], written: "F", does: "Full screen, and back", button: "Full screen"},
  {act: "notes", keys: ["o"], written: "O", does: "Open the presenter’s page", button: "Notes"},
  {act: "keys", keys: ["?"], written: "?", does: "These keys", button: "Keys"},
  {act: "end", keys: ["Escape"], written: "Esc", does: "End spotlight, moving or pen; close this card"},
];

// What a key press asks for; "" where it asks for nothing here.
export function actOf(event) {
  if (event.ctrlKey || event.metaKey || event.altKey) return "";
  const key = event.key.length > 1 ? event.key : event.shiftKey ? event.key.toUpperCase() : event.key.toLowerCase();
  return KEYS.find(({keys}) => keys.includes(key))?.act ?? (event.shiftKey ? KEYS.find(({keys}) => keys.includes(key.toLowerCase()))?.act ?? "" : "");
}

// One frame. Before its values are revealed the question stands there; afterwards what it comes to.
export function frameWords(frame, told) {
  const title = node("h2", {tabindex: "-1"},
    frame.number && frame.key !== "closing" ? node("span", {class: "number"}, `${frame.number} `) : "", frame.title,
    frame.side ? node("span", {class: `which ${frame.side}`}, ` ${MARKS[frame.side]} ${frame.side}`) : "");
  return node("article", {class: told ? "told" : "asked", "data-frame": frame.key}, title,
    told || !frame.ask ? "" : node("p", {class: "ask"}, frame.ask),
    frame.rule ? node("p", {class: "rule"}, frame.rule) : "",
    told && frame.numbers ? node("p", {class: "numbers"}, frame.numbers) : "",
    outcomes(frame, told),
    told && frame.because ? node("p", {class: "because"}, frame.because) : "");
}

// Near and far of one quantity stand under its name.
function outcomes(frame, told) {
  const labels = [...new Set(frame.outcomes.map(({label}) => label))];
  const value = ({side, text}) => node("dd", {class: side},
    side ? node("span", {class: "side"}, `${MARKS[side]} ${side} `) : "",
    told ? node("span", {class: "value"}, text) : node("span", {class: "value hidden", "aria-label": "not yet revealed"}, "?"));
  return labels.length ? node("dl", {class: "outcomes"}, ...labels.map(label => node("div", {class: "outcome"},
    node("dt", {}, label), ...frame.outcomes.filter(one => one.label === label).map(value)))) : "";
}

// The card of all keys; each line is a button that does the same.
export function keyCard(script, act) {
  const line = ({act: name, written, does}) => node("li", {}, node("button", {type: "button", "data-act": name, onclick: () => act(name)},
    node("kbd", {}, written), node("span", {}, does)));
  return node("dialog", {class: "card", "aria-label": "Keys"}, node("h2", {}, "Keys"),
    node("ul", {class: "keys"}, ...KEYS.map(line)),
    node("nav", {"aria-label": "Ways to use it"}, ...script.ways.map(([address, name]) => node("a", {href: address}, name))),
    node("p", {class: "caution"}, script.caution));
}

// The entry for another load, with the shipped problems and the notation.
export function loadEntry(script, form, send) {
  const chosen = node("select", {id: "choice", onchange: event => send("open", {key: event.target.value})},
    node("option", {value: ""}, "Choose one"), ...script.choices.map(({key, title}) => node("option", {value: key}, title)));
  return node("dialog", {class: "card entry", "aria-label": "Another load"}, node("h2", {}, "Another load"),
    form.ownLoad("Show this load"),
    node("div", {class: "own"}, node("div", {class: "pair"}, node("label", {for: "choice"}, "From the river watch’s set"), chosen),
      node("button", {type: "button", onclick: () => send("random")}, "A random problem")),
    node("details", {}, node("summary", {}, "Notation"), form.notation()),
    node("button", {type: "button", class: "close", onclick: event => event.target.closest("dialog").close()}, "Close"));
}
