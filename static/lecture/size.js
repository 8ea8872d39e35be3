// @ts-check
// How large the lecture is on this screen: --u is a hundredth of the height of a screen of 16 to 9. Letters for the
// audience are 4 of them, so that a capital is 30 pixels high on 1080 lines; the chart is told the same for its letters,
// and on that screen draws its lines and markers twice as large as on a desk. Set before anything is drawn.

const LEAST = 4; // pixels of --u on the smallest screens, which are held in the hand

function setSize() {
  const unit = Math.max(LEAST, Math.min(innerHeight, (innerWidth * 9) / 16) / 100), { style } = document.documentElement;
  style.setProperty("--u", `${unit}px`);
  style.setProperty("--stage-letters", (3.95 * unit).toFixed(2));
  style.setProperty("--stage-scale", Math.max(1, unit / 5.4).toFixed(3));
}

setSize();
addEventListener("resize", setSize);
