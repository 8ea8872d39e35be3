"""How smoothly the chart moves: `python -m tests.bench.bench_stage` prints frames a second while it is zoomed or moved.

Each figure stands beside those of the same page at rest, in the same run.
"""

from __future__ import annotations

from playwright.sync_api import Page, sync_playwright

from app.parts.screen_chart import printed_svg
from app.serving.server import serve
from tests.browser.stage.board import Board
from tests.browser.stage_page import stage_page
from tests.find_browser import find_browser, launch_flags

SECONDS = 4


def main() -> None:
    """Measure the half turn and the overlay, the whole chart and a closer view."""
    site = serve({"/": stage_page}, port=0, threaded=True)
    assert site is not None
    executable = find_browser()
    print(f"printed chart {len(printed_svg()) / 1000:.0f} kB, once in each page")
    try:
        with sync_playwright() as playwright:
            browser = playwright.chromium.launch(executable_path=executable, args=launch_flags())
            for admittance in ("half turn", "overlay"):
                page = browser.new_page(base_url=site.url, viewport={"width": 1440, "height": 900})
                print_frames(page, admittance)
            browser.close()
    finally:
        site.stop()


def print_frames(page: Page, admittance: str) -> None:
    """Frames a second while the wheel turns in and out, and while a closer view is moved about."""
    board = Board(page).open(f"show=6&admittance={admittance.replace(' ', '%20')}")
    resting, zooming = (page.evaluate(FRAMES, [kind, SECONDS]) for kind in ("rest", "zoom"))
    board.press("0", "+", "+", "+")
    panning = page.evaluate(FRAMES, ["pan", SECONDS])
    print(
        f"{admittance:13} zooming {zooming:.0f} frames a second, moving {panning:.0f}, at rest {resting:.0f}: "
        f"{zooming / resting:.2f} and {panning / resting:.2f}"
    )


FRAMES = """async ([kind, seconds]) => {
  const root = [...document.querySelectorAll("*")].map(e => e.shadowRoot).find(r => r?.querySelector(".pad"));
  const pad = root.querySelector(".pad"), box = pad.getBoundingClientRect(), start = performance.now();
  const at = { clientX: box.left + 0.4 * box.width, clientY: box.top + 0.4 * box.height, cancelable: true };
  const mouse = (type, right = 0, down = 0) => pad.dispatchEvent(new PointerEvent(type, {
    ...at, button: 1, pointerId: 1, pointerType: "mouse", clientX: at.clientX + right, clientY: at.clientY + down }));
  let frames = 0;
  const step = () => {
    frames += 1;
    const inward = (performance.now() - start) % 2000 < 1000;
    const wheel = { ...at, ctrlKey: true, deltaY: inward ? -25 : 25 };
    if (kind === "zoom") pad.dispatchEvent(new WheelEvent("wheel", wheel));
    const type = frames === 1 ? "pointerdown" : "pointermove";
    if (kind === "pan") mouse(type, 60 * Math.sin(frames / 10), 60 * Math.cos(frames / 14));
  };
  while (performance.now() - start < 1000 * seconds) {
    await new Promise(done => requestAnimationFrame(() => { step(); done(); }));
  }
  mouse("pointerup");
  return (1000 * frames) / (performance.now() - start);
}"""

if __name__ == "__main__":
    main()
