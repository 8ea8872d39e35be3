// What the sheet and the self-check have in common: making nodes, keeping work in the browser, and the two forms.
// All text goes in as text, never as markup.

export function node(tag, attributes = {}, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (name.startsWith("on")) made.addEventListener(name.slice(2), value);
    else if (value === true) made.setAttribute(name, "");
    else if (value !== false && value != null) made.setAttribute(name, value);
  }
  made.append(...children.filter(child => child != null && child !== ""));
  return made;
}

export function foldable(opened, title, key, content) {
  const box = node("details", {open: opened.has(key)}, node("summary", {"data-focus": `open ${key}`}, title), content);
  box.addEventListener("toggle", () => box.open ? opened.add(key) : opened.delete(key));
  return box;
}

// --- what the browser keeps under a name: sheets by problem, and what was typed but not yet checked -------------

const MOST_SHEETS = 30;
export const signature = page => JSON.stringify(page.entries);

export function shelf(name) {
  function kept() {
    try {
      const store = JSON.parse(localStorage.getItem(name));
      if (store && typeof store.sheets === "object" && store.sheets) return store;
    } catch { /* nothing kept, or nothing readable: start afresh */ }
    return {sheets: {}, last: null};
  }

  // page, drafts : as they stand on the page.  The newest goes last, and counts as the one worked on.
  function save(page, drafts) {
    const store = kept(), problem = signature(page);
    delete store.sheets[problem];
    store.sheets[problem] = {record: page.record, drafts};
    store.last = problem;
    for (const old of Object.keys(store.sheets).slice(0, -MOST_SHEETS)) delete store.sheets[old];
    try { localStorage.setItem(name, JSON.stringify(store)); } catch { /* a full or closed store loses nothing on the page */ }
  }

  return {kept, save};
}

// --- forms: one's own load, and the notation --------------------------------------------------------------------

export const OWN = [["load", "Load impedance, Ω", "60 − j80"], ["line", "Line impedance, Ω", "50"],
  ["stub", "Stub impedance, Ω", "the line's"], ["frequency", "Frequency", "868 MHz, if lengths in mm are wanted"],
  ["velocity", "Velocity factor", "0.66"]];
export const PICK = {end: ["Stub's end", [["short", "short circuit"], ["open", "open circuit"]]],
  accuracy: ["Answers are", [["chart", "read from the chart"], ["calculated", "calculated"]]],
  admittance: ["Admittance by", [["half turn", "half turn"], ["overlay", "overlay"]]],
  imaginary: ["Imaginary unit", [["j", "j"], ["i", "i"]]], angle: ["Angles in", [["degrees", "degrees"], ["radians", "radians"]]],
  length: ["Lengths of line in", [["wavelengths", "wavelengths"], ["degrees", "degrees of line"]]],
  decimals: ["Decimals shown", [["2", "2"], ["3", "3"], ["4", "4"]], "3"]}; // options, and which of them is usual if not the first

// page, drafts : asked for each time, as they change.  save, send : keep the drafts, and tell the program.
export function forms({root, page, drafts, save, send}) {
  function typedEntry(form, values, key, label, example = "") {
    const id = `${form}-${key}`;
    const input = node("input", {id, name: key, type: "text", autocomplete: "off", spellcheck: "false", "data-focus": id,
      placeholder: example, "aria-describedby": `${id}-fault`, oninput: event => { drafts()[id] = event.target.value; save(); }});
    input.value = drafts()[id] ?? values[key] ?? "";
    return node("div", {class: "pair"}, node("label", {for: id}, label), input, node("p", {class: "fault", id: `${id}-fault`, role: "alert"}));
  }

  function pickedEntry(form, values, key) {
    const id = `${form}-${key}`, [label, options, usual = options[0][0]] = PICK[key];
    const select = node("select", {id, name: key, "data-focus": id, "aria-describedby": `${id}-fault`},
      ...options.map(([value, words]) => node("option", {value}, words)));
    select.value = values[key] ?? usual;
    return node("div", {class: "pair"}, node("label", {for: id}, label), select, node("p", {class: "fault", id: `${id}-fault`, role: "alert"}));
  }

  function ownForm(name, what, button, entries) {
    const submit = event => {
      event.preventDefault();
      const texts = Object.fromEntries(new FormData(event.target));
      for (const fault of event.target.querySelectorAll(".fault")) fault.textContent = "";
      send(what, {texts});
    };
    return node("form", {class: "own", "data-form": name, novalidate: true, onsubmit: submit}, ...entries,
      node("button", {type: "submit", "data-focus": `submit ${name}`}, button));
  }

  const ownLoad = (button, values = page().entries) => ownForm("own", "own problem", button, [
    ...OWN.map(([key, label, example]) => typedEntry("own", values, key, label, example)),
    pickedEntry("own", values, "end"), pickedEntry("own", values, "accuracy")]);

  const notation = () => ownForm("notation", "notation", "Write it so", [
    typedEntry("notation", page().notation, "d", "Symbol for the distance"),
    typedEntry("notation", page().notation, "l", "Symbol for the stub length"),
    ...["admittance", "imaginary", "angle", "length", "decimals"].map(key => pickedEntry("notation", page().notation, key))]);

  function showFaults({form, faults}) {
    for (const [key, sentence] of Object.entries(faults)) {
      const place = root.querySelector(`#${CSS.escape(`${form}-${key}`)}-fault`);
      if (place) place.textContent = sentence;
    }
    const first = root.querySelector(`[data-form="${form}"] .fault:not(:empty)`);
    if (first) first.parentElement.querySelector("input, select, textarea").focus();
  }

  return {ownLoad, notation, showFaults};
}
