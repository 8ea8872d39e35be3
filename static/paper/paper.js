// The paper view: a form that says what is to be printed, the pages as pictures, and saving and printing them.
// A page is the text of a drawing and is only ever shown as a picture, so that nothing in it can act.

import {node, OWN, PICK} from "halfturn/parts/common.js";
import {pngOf, savePng, saveSvg, saveTogether} from "halfturn/parts/save.js";

const WAIT = 300;                                              // milliseconds after the last change of the form
const MOST_IN_PIXELS = 20;
const OFFERS = {size: "Paper", drawn: "Chart", key: "Key"};
const WORDS = {blank: "blank", half: "first half worked and drawn", with: "with the sheets", without: "none", only: "the key only"};
const KINDS = {problem: "A problem of the set", load: "My own load", seed: "Random problems"};

export function render({model, el}) {
  const form = model.form;
  const root = node("div", {class: "work paper"});
  el.append(root);
  let run = 0, parts = [], pages = [], about = null, timer = null, complete = false;

  // --- the form ---

  const texts = {...form.texts};
  let kind = Object.keys(KINDS).find(key => key in texts && key !== "problem") ?? "problem";
  const fault = key => node("p", {class: "fault", id: `paper-${key}-fault`, role: "alert"});
  const pair = (key, label, input) => node("div", {class: "pair"}, node("label", {for: `paper-${key}`}, label), input, fault(key));
  const facts = key => ({id: `paper-${key}`, name: key, "aria-describedby": `paper-${key}-fault`});

  function typed(key, label, example = "", more = {}) {
    const input = node("input", {...facts(key), type: "text", autocomplete: "off", spellcheck: "false", placeholder: example, ...more});
    input.value = texts[key] ?? form.usual[key] ?? more.value ?? "";
    return pair(key, label, input);
  }

  function picked(key, label, options) {
    const select = node("select", facts(key), ...options.map(([value, words]) => node("option", {value}, words)));
    select.value = texts[key] ?? form.usual[key] ?? options[0][0];
    return pair(key, label, select);
  }

  const number = (key, label, least, most, usual) =>
    typed(key, label, "", {type: "number", min: least, max: most, step: 1, value: usual, inputmode: "numeric"});

  const offered = {
    problem: () => [picked("problem", "Problem", form.choices)],
    load: () => [...OWN.map(([key, label, example]) => typed(key, label, example)), picked("end", ...PICK.end)],
    seed: () => [number("seed", "First sheet's number", 0, form.most.seed, drawLots()), number("count", `Sheets, at most ${form.most.count}`, 1, form.most.count, 1),
      node("div", {class: "pair wide"}, node("p", {class: "example"}, "A number gives the same problem on any machine, so a key can be printed later."),
        node("button", {type: "button", onclick: otherNumbers}, "Other numbers"))],
  };

  const drawLots = () => String(Math.floor(Math.random() * (form.most.seed - form.most.count)));

  function otherNumbers() {
    root.querySelector("#paper-seed").value = drawLots();
    changed();
  }

  const kindOf = ([key, words]) => {
    const input = node("input", {type: "radio", name: "kind", value: key, onchange: () => { kind = key; fill(); }});
    input.checked = key === kind;
    return node("label", {}, input, words);
  };

  const source = node("div", {class: "own"}), status = node("p", {class: "status", role: "status"});
  const fill = () => { remember(); source.replaceChildren(...offered[kind]()); };

  const notation = () => [typed("d", "Symbol for the distance"), typed("l", "Symbol for the stub length"),
    ...["admittance", "imaginary", "angle", "length", "decimals"].map(key => picked(key, ...PICK[key]))];

  const button = (words, act, more = {}) => node("button", {type: "button", disabled: true, onclick: act, ...more}, words);
  const actions = [button("Print", print, {class: "next"}), button("Save as SVG", () => saveAll("svg")), button("Save as PNG", () => saveAll("png"))];
  const link = node("a", {}, "Link to these sheets");

  const fields = node("form", {novalidate: true, "aria-label": "What to print", onsubmit: event => { event.preventDefault(); make(); }, oninput: changed},
    node("fieldset", {}, node("legend", {}, "Which problem"), ...Object.entries(KINDS).map(kindOf)), source,
    node("div", {class: "own"}, picked("size", OFFERS.size, form.sizes.map(size => [size, size])),
      ...[["drawn", form.drawings], ["key", form.keys]].map(([key, all]) => picked(key, OFFERS[key], all.map(one => [one, WORDS[one]])))),
    node("details", {}, node("summary", {}, "Notation"), node("div", {class: "own"}, ...notation())),
    node("p", {class: "actions"}, ...actions), status, node("p", {}, link));

  function remember() {
    for (const [key, value] of new FormData(fields)) if (key !== "kind") texts[key] = value;
  }

  const wanted = () => Object.fromEntries([...new FormData(fields)].filter(([key]) => key !== "kind"));

  function changed() {
    clearTimeout(timer);
    timer = setTimeout(make, WAIT);
  }

  function make() {
    remember();
    model.send_msg({do: "make", texts: wanted()});
  }

  // --- the pages ---

  const preview = node("section", {class: "preview", "aria-label": "Pages"});
  const shelves = {worksheet: node("div", {class: "pages"}), key: node("div", {class: "pages"})};
  preview.append(shelves.worksheet, shelves.key);
  root.append(node("h2", {}, "Worksheets to print"), node("p", {class: "story"}, "Each sheet is two pages: the problem with a chart to draw on, and the steps with lines for their values."),
    node("div", {class: "bench"}, fields, preview));
  document.getElementById("paper-print")?.remove();            // of a page that has come back to another server
  const printed = document.body.appendChild(node("div", {id: "paper-print", "aria-hidden": "true"}));
  const rules = document.head.appendChild(node("style"));

  function begin(start) {
    run = start.run;
    about = start;
    complete = false;
    for (const page of pages) URL.revokeObjectURL(page.address);
    parts = [], pages = [];
    for (const place of [shelves.worksheet, shelves.key, printed]) place.replaceChildren();
    for (const action of actions) action.disabled = true;
    rules.textContent = printRules(start.millimetres);
    link.href = start.link;
    history.replaceState(null, "", start.link);
    say(`Making ${count(start.sheets, "sheet")} …`);
  }

  function add(sheet) {
    if (sheet.run !== run) return;
    parts.push(...sheet.parts);
    for (const page of sheet.pages) {
      page.svg = page.parts.map(part => typeof part === "number" ? parts[part] : part).join("");
      page.address = URL.createObjectURL(new Blob([page.svg], {type: "image/svg+xml"}));
      pages.push(page);
      shelves[page.kind].append(shown(page));
    }
    if (about.sheets > 1) say(`Making sheet ${sheet.index + 1} of ${about.sheets} …`);
  }

  function shown(page) {
    const picture = node("img", {src: page.address, alt: `${page.title}. ${page.description}`, loading: "lazy", decoding: "async"});
    const [width, height] = about.millimetres;
    picture.style.aspectRatio = `${width} / ${height}`;
    return node("figure", {}, picture, node("figcaption", {}, node("span", {}, page.title),
      ...[["SVG", () => saveSvg(page.name, page.svg)], ["PNG", () => busy("Drawing the page in pixels …", () => savePng(page.name, page.svg))]].map(([words, act]) =>
        node("button", {type: "button", "aria-label": `${words}: ${page.title}`, onclick: act}, words))));
  }

  function finish() {
    complete = true;
    for (const action of actions) action.disabled = false;
    pages.sort((one, other) => (one.kind === "key") - (other.kind === "key"));
    printed.replaceChildren(...pages.map(page => node("img", {src: page.address, alt: "", loading: "lazy"})));
    say(summary());
    document.documentElement.dataset.paper = "ready";
  }

  const count = (number, words) => `${number} ${words}${number === 1 ? "" : "s"}`;
  const summary = () => `${count(pages.length, "page")} on ${about.size}, ${count(about.sheets, "sheet")}. Print at 100 % (true size), on both sides if you can.`;
  const say = words => { status.textContent = words; };

  // --- saving and printing ---

  async function busy(words, act) {
    say(words);
    try { await act(); say(summary()); } catch (fault) { say(fault.message); }
  }

  const saveAll = ending => busy(`Saving ${count(pages.length, "page")} …`, async () => {
    if (ending === "png" && pages.length > MOST_IN_PIXELS) {
      throw new Error(`Pixels take much room: at most ${MOST_IN_PIXELS} pages are saved as PNG at once, not ${pages.length}. Save them as SVG, print, or save single pages below.`);
    }
    if (pages.length === 1) return ending === "png" ? savePng(pages[0].name, pages[0].svg) : saveSvg(pages[0].name, pages[0].svg);
    const files = [];
    for (const page of pages) files.push([`${page.name}.${ending}`, ending === "png" ? await pngOf(page.svg) : new Blob([page.svg])]);
    await saveTogether("worksheets", files);
  });

  function print() {
    return busy("Getting the pages ready …", async () => {
      for (const picture of printed.children) picture.loading = "eager";
      await Promise.all([...printed.children].map(picture => picture.decode()));
      window.print();
    });
  }

  // --- what comes from the program ---

  function showFaults(faults) {
    for (const place of root.querySelectorAll(".fault")) place.textContent = "";
    for (const [key, sentence] of Object.entries(faults)) {
      const place = root.querySelector(`#paper-${CSS.escape(key)}-fault`);
      if (place) place.textContent = sentence; else say(sentence);
      root.querySelector(`#paper-${CSS.escape(key)}`)?.setAttribute("aria-invalid", "true");
    }
  }

  function calm() {
    for (const input of root.querySelectorAll("[aria-invalid]")) input.removeAttribute("aria-invalid");
    showFaults({});
  }

  model.on("msg:custom", event => {
    const said = event.data ?? event;
    if (said.faults) { calm(); showFaults(said.faults); document.documentElement.dataset.paper = "ready"; }
    if (said.start) { calm(); begin(said.start); if (run === 1) showFaults(form.faults); }  // what a link held wrongly
    if (said.sheet) add(said.sheet);
    if (said.end === run && !complete) finish();
  });
  model.on("remove", () => { printed.remove(); rules.remove(); });

  source.replaceChildren(...offered[kind]());
  make();
}

// Only the pages are printed, each on a sheet of its own at true size.
function printRules([width, height]) {
  return `@page { size: ${width}mm ${height}mm; margin: 0; }
#paper-print { display: none; }
.page:not(:has(.board)) { max-width: none; }
@media print {
  html, body { margin: 0; padding: 0; background: #fff; }
  body > *:not(#paper-print) { display: none !important; }
  #paper-print { display: block; }
  #paper-print img { display: block; width: ${width}mm; height: ${height}mm; break-after: page; break-inside: avoid; }
  #paper-print img:last-child { break-after: auto; }
}`;
}
