// The stage: the printed chart, the ink over it, the hand that draws an answer, and all of it in words.

const TASK_WORDS = { place: "Point", "on circle": "Point", radius: "Circle", along: "Walk", pick: "Choice" };

// Whoever draws the line beside the chart moves along with a walk.
function tellWalk({ task, walked }) {
  const [quantity, branch] = task.field.split("."), element = { distance: 0, length: 1 }[quantity];
  document.dispatchEvent(new CustomEvent("halfturn:walk", { detail: { branch, element, wavelengths: walked } }));
}

export function render({ model, el }) {
  const parts = makeParts(model);
  el.append(parts.whole);
  const stage = { ...parts, hand: () => hand };
  const redraw = () => {
    if (!following && !follow()) return void requestAnimationFrame(redraw);
    parts.overlay.setAttribute("viewBox", `0 0 ${view.size} ${view.size}`);
    drawNames(parts.names, view, ink.rays());
    drawEdges(parts.edges, view, pieces);
    ink.redraw();
    drawHand();
    parts.wholeButton.hidden = view.isWhole();
    document.documentElement.dataset.stage ||= "ready";
  };
  const pieces = JSON.parse(model.pieces);
  const view = makeView(model.figure, parts.pad, model.paper, pieces, redraw);
  const ink = makeInk(parts.ink, view);
  let hand = null, following = false, frame = 0;

  // Bokeh makes its drawing a moment after this component is rendered, or never if it is removed before.
  function follow() {
    following = !parts.whole.isConnected || followPage(parts.figure, model.paper.paint);
    if (!following) return false;
    leaveTabOrder(parts.figure);
    view.apply();
    return true;
  }

  function drawHand() {
    frame = 0;
    parts.hand.replaceChildren(...handShapes(view, hand).map(handNode));
    writeReadout(parts.readout, hand ? hand.read() : []);
    if (hand?.task.kind === "along" && hand.touched) tellWalk(hand);
  }

  stage.view = view;
  stage.moved = (touched = true) => {
    hand.touched = touched;
    if (!frame) frame = requestAnimationFrame(drawHand);
  };
  stage.handIn = () => {
    hand.settle?.();
    drawHand();
    const value = hand.touched ? hand.answer() : null;
    if (value === null) return say(hand.task.kind === "pick" ? "Choose a point first." : "Move it first, then press Enter.");
    say(`${TASK_WORDS[hand.task.kind]} handed in: ${hand.read().map((pair) => pair.join(" ")).join(", ")}.`);
    model.send_msg({ type: "answer", field: hand.task.field, turn: hand.task.turn, value });
  };
  const say = (text) => { parts.said.textContent = text; };

  const show = (groups, animate = false) => {
    ink.show(groups, animate);
    if (view.size) drawNames(parts.names, view, ink.rays());
    writeSpoken(parts.spoken, groups);
  };
  const takeTask = () => {
    hand = makeHand(model.gesture, view, model.notation);
    parts.pad.classList.toggle("asked", Boolean(hand));
    parts.hint.textContent = hand ? HINTS[hand.task.kind] : "";
    parts.task.textContent = hand ? `${hand.task.prompt} ${HINTS[hand.task.kind]}`.trim() : "Press + to look closer, 0 for the whole chart.";
    if (view.size) drawHand();
  };
  const takeNotation = () => {
    view.grid = model.notation.admittance;
    takeTask();
    if (view.size) view.apply();
  };

  let shown = "";
  const takeStrokes = () => {
    if (JSON.stringify(model.strokes) !== shown) show(model.strokes);
    shown = JSON.stringify(model.strokes);
  };
  model.on("strokes", takeStrokes);
  model.on("points", () => writePoints(parts.points, model.points));
  model.on("gesture", takeTask);
  model.on("notation", takeNotation);
  model.on("label", () => parts.pad.setAttribute("aria-label", model.label));
  model.on("msg:custom", (message) => {
    if (message.type !== "draw") return;
    shown = JSON.stringify(message.strokes);
    show(message.strokes, message.animate);
  });

  // A page that steps by itself says what to show, without asking the server.
  const onShow = ({ detail }) => { shown = ""; show(detail.groups, detail.animate); };
  document.addEventListener("halfturn:show", onShow);
  const onDraw = () => { parts.pad.focus({ preventScroll: true }); parts.pad.scrollIntoView({ block: "nearest" }); };
  document.addEventListener("halfturn:draw", onDraw);

  parts.closer.addEventListener("click", () => view.enlarge(NEARER));
  parts.wholeButton.addEventListener("click", () => { view.whole(); parts.pad.focus({ preventScroll: true }); });
  const deafen = listen(stage), watcher = new ResizeObserver(() => view.measure());
  watcher.observe(parts.pad);
  model.on("remove", () => { document.removeEventListener("halfturn:show", onShow); document.removeEventListener("halfturn:draw", onDraw); deafen(); watcher.disconnect(); view.stop(); ink.show([]); });

  writePoints(parts.points, model.points);
  takeStrokes();
  takeNotation();
  view.measure();
}
