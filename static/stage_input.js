// Pointers, wheel and keys on the stage: what moves the hand, and what moves the view.

const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
const NEARER = 1.5; // of one press of + or of the button

// `stage` brings: view, hand(), moved(), handIn(), pad. Returns a function that lets go of everything.
function listen(stage) {
  const { pad, view } = stage;
  const pointers = new Map();
  let mode = "", spaceHeld = false, before = null, carried = null;

  const place = (event) => {
    const box = pad.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  };

  const onDown = (event) => {
    if (event.target.closest?.("button")) return;
    pointers.set(event.pointerId, place(event));
    pad.classList.add("by-pointer");
    pad.focus({ preventScroll: true });
    if (pointers.size === 2) return startPinch();
    if (pointers.size > 2) return undefined;
    const touching = event.pointerType === "touch";
    if (event.button === 1 || spaceHeld || (event.button === 0 && !stage.hand() && !touching)) mode = "pan";
    else if (event.button === 0 && stage.hand()) startDrag(event);
    if (!mode) return undefined;
    event.preventDefault();
    pad.setPointerCapture(event.pointerId);
    return undefined;
  };

  function startDrag(event) {
    mode = "drag";
    carried = stage.hand();
    before = { ...carried };
    carry(place(event));
  }

  function carry(at) {
    stage.hand().moveTo(view.toChart(at));
    stage.moved();
  }

  // A second finger means that the view is to be moved: the hand goes back to where it was.
  function startPinch() {
    if (mode === "drag") putBack();
    mode = "pinch";
    for (const id of pointers.keys()) if (pad.isConnected) try { pad.setPointerCapture(id); } catch { /* already lifted */ }
  }

  function putBack() {
    const hand = stage.hand();
    if (!hand || hand !== carried) return;
    for (const name of ["at", "walked", "asked", "index"]) if (Object.getOwnPropertyDescriptor(hand, name)?.writable) hand[name] = before[name];
    stage.moved(before.touched);
  }

  const onMove = (event) => {
    const old = pointers.get(event.pointerId), now = place(event);
    if (!old) return;
    if (mode === "pinch" && pointers.size === 2) {
      const [other] = [...pointers].filter(([id]) => id !== event.pointerId).map(([, at]) => at);
      const [was, is] = [apart(old, other), apart(now, other)];
      view.pan((now[0] - old[0]) / 2, (now[1] - old[1]) / 2);
      if (was > 0) view.enlarge(is / was, [(now[0] + other[0]) / 2, (now[1] + other[1]) / 2]);
    } else if (mode === "pan") view.pan(now[0] - old[0], now[1] - old[1]);
    else if (mode === "drag" && stage.hand() === carried) carry(now);
    pointers.set(event.pointerId, now);
  };

  const onUp = (event) => {
    if (!pointers.delete(event.pointerId)) return;
    const dragged = mode === "drag";
    if (!pointers.size || dragged) mode = "";
    if (!dragged || stage.hand() !== carried) return; // what was asked may have changed meanwhile
    if (event.type === "pointercancel") putBack();
    else stage.handIn();
  };

  const onWheel = (event) => {
    if (!event.ctrlKey) return;
    event.preventDefault();
    view.enlarge(Math.exp(-event.deltaY * (event.deltaMode ? 0.05 : 0.0025)), place(event));
  };

  const onKey = (event) => {
    if (event.target !== pad || event.ctrlKey || event.metaKey || event.altKey) return;
    pad.classList.remove("by-pointer");
    const used = press(event.key, event.shiftKey);
    if (used) { event.preventDefault(); event.stopPropagation(); }
  };

  function press(key, fine) {
    const hand = stage.hand();
    if (key === "+" || key === "=") return view.enlarge(NEARER, hand?.at ? view.toScreen(hand.at) : undefined), true;
    if (key === "-" || key === "_" || key === "−") return view.enlarge(1 / NEARER), true;
    if (key === "0") return view.whole(), true;
    if (key === " ") return (spaceHeld = true);
    if (key === "Escape" && mode === "drag") return (mode = ""), putBack(), true;
    if (key === "Enter" && hand) return stage.handIn(), true;
    if (!ARROWS[key] || (!hand && view.isWhole())) return false;
    if (!hand) return view.pan(-60 * ARROWS[key][0], 60 * ARROWS[key][1]), true;
    hand.press(ARROWS[key], fine);
    stage.moved();
    if (hand.at) view.reveal(hand.at);
    return true;
  }

  const onKeyUp = (event) => { if (event.key === " ") spaceHeld = false; };
  const onBlur = () => { spaceHeld = false; };
  const onTouch = (event) => { if (event.touches.length > 1) event.preventDefault(); };

  const heard = [
    [pad, "pointerdown", onDown], [pad, "pointermove", onMove], [pad, "pointerup", onUp], [pad, "pointercancel", onUp],
    [pad, "wheel", onWheel, { passive: false }], [pad, "touchstart", onTouch, { passive: false }],
    [pad, "touchmove", onTouch, { passive: false }], [pad, "keydown", onKey], [pad, "keyup", onKeyUp], [pad, "blur", onBlur],
  ];
  for (const [target, type, listener, options] of heard) target.addEventListener(type, listener, options);
  return () => heard.forEach(([target, type, listener]) => target.removeEventListener(type, listener));
}

function apart([x0, y0], [x1, y1]) {
  return Math.hypot(x1 - x0, y1 - y0);
}
