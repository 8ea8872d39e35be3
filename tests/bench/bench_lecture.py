"""How quick the lecture is: `python -m tests.bench.bench_lecture` prints the time from a key to the first part of a
stroke, frames a second while strokes are drawn, and what is sent to the server meanwhile.

Times are the browser's own, beside those of a page that does nothing but wait for its next frame after a key.
"""

from __future__ import annotations

from statistics import median, quantiles

from playwright.sync_api import Browser, Page, sync_playwright

from app.pages import pages
from app.serving.server import serve
from tests.browser.projector import LINK, Projector, frames_of
from tests.browser.test_lecture import WATCH_KEY
from tests.find_browser import find_browser, launch_flags

ROUNDS = 5
DRAWN = [frame for frame in frames_of(LINK) if any(type(s).__name__ != "Point" for s in frame.strokes)]


def main() -> None:
    """Measure everything in one run and print it."""
    site = serve(pages(), port=0, threaded=True)
    assert site is not None
    executable = find_browser()
    try:
        with sync_playwright() as playwright:
            browser = playwright.chromium.launch(executable_path=executable, args=launch_flags())
            for width, height in ((1280, 720), (1920, 1080)):
                print_lecture(browser, site.url, width, height)
            browser.close()
    finally:
        site.stop()


def print_lecture(browser: Browser, url: str, width: int, height: int) -> None:
    """A lecture given several times over on a screen of that size."""
    context = browser.new_context(base_url=url, viewport={"width": width, "height": height})
    page = context.new_page()
    sent: list[object] = []
    page.on("websocket", lambda socket: socket.on("framesent", lambda frame: sent.append(frame)))
    room = Projector(page)
    page.wait_for_timeout(500)
    before = len(sent)
    idle = [page_alone(page) for _ in range(20)]
    first, rates, at_rest = [], [], page.evaluate(RATE, 1000)
    for _ in range(ROUNDS):
        room.press("Home")
        for frame in frames_of(LINK)[1:]:
            page.evaluate(WATCH_KEY)
            room.press("PageDown")
            if frame in DRAWN:
                rates.append(page.evaluate(RATE, 350))
                first.append(page.evaluate("window.firstStroke"))
            room.drawn_out()
    print(
        f"{width}x{height}  key to first stroke p50 {median(first):.0f} ms, p95 {quantiles(first, n=20)[-1]:.0f} ms "
        f"(goal < 100; a page that only waits for its frame: {median(idle):.0f} ms)\n"
        f"{'':{len(f'{width}x{height}')}}  while drawing {median(rates):.0f} frames a second, {at_rest:.0f} at rest: "
        f"{median(rates) / at_rest:.2f}; {len(sent) - before} messages to the server in {len(first)} steps"
    )
    context.close()


def page_alone(page: Page) -> float:
    """From a key that means nothing to the second frame after it, the first that could show a part of a stroke."""
    page.evaluate(WAIT_FRAME)
    page.keyboard.press("F8")
    return float(page.evaluate("window.nextFrame"))


WAIT_FRAME = """() => {
  window.nextFrame = new Promise(done => document.addEventListener("keydown", event => {
    requestAnimationFrame(() => requestAnimationFrame(() => done(performance.now() - event.timeStamp)));
  }, {once: true, capture: true}));
}"""
RATE = """time => new Promise(done => {
  let frames = -1, start = null;
  const count = now => {
    frames += 1; start ??= now;
    if (now - start < time) requestAnimationFrame(count); else done(1000 * frames / (now - start));
  };
  requestAnimationFrame(count);
})"""

if __name__ == "__main__":
    main()
