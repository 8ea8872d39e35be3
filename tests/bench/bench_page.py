"""How fast the page is: `python -m tests.bench.bench_page` prints load time, a check's round trip, and drag frames.

Figures are ratios, or come with what they are measured against in the same run: this machine against itself.
"""

from __future__ import annotations

from collections.abc import Callable
from statistics import median, quantiles

import panel as pn
from bokeh.plotting import figure
from playwright.sync_api import Browser, Page, sync_playwright

from app.pages import pages
from app.serving.server import Running, serve
from tests.browser.desk import LINK, Desk
from tests.find_browser import find_browser, launch_flags

LOADS, CHECKS = 9, 60
LINKED = "/?" + "&".join(f"{key}={value.replace(' ', '%20')}" for key, value in LINK.items())


def bare() -> object:
    """The least that Panel and Bokeh show: one figure with one line."""
    plot = figure(width=400, height=400, tools="", toolbar_location=None)
    plot.line([0, 1], [0, 1])
    return pn.Row(plot)


def main() -> None:
    """Measure everything in one run and print it."""
    site = serve({**pages(), "/bare": bare}, port=0, threaded=True)
    assert site is not None
    executable = find_browser()
    try:
        with sync_playwright() as playwright:
            browser = playwright.chromium.launch(executable_path=executable, args=launch_flags())
            print_loads(browser, site)
            with_page(browser, site, print_checks)
            with_page(browser, site, print_frames)
            browser.close()
    finally:
        site.stop()


def print_loads(browser: Browser, site: Running) -> None:
    """Time from navigation until ready: ours, and a bare page's, in turn, each in a fresh context."""
    bare_ready = "() => window.Bokeh?.documents?.[0]?.is_idle === true"
    our_ready = "() => document.documentElement.dataset.halfturn === 'ready'"
    times: dict[str, list[float]] = {"/bare": [], LINKED: []}
    for _ in range(LOADS):
        for route, condition in (("/bare", bare_ready), (LINKED, our_ready)):
            context = browser.new_context(base_url=site.url)
            page = context.new_page()
            page.goto(route, wait_until="commit")
            page.wait_for_function(condition)
            times[route].append(page.evaluate("performance.now()"))
            context.close()
    plain, ours = median(times["/bare"]), median(times[LINKED])
    print(
        f"page load     {ours:.0f} ms against {plain:.0f} ms for a bare page: {ours / plain:.2f} (goal <= 1.3)"
    )


def print_checks(page: Page) -> None:
    """Time from pressing Check until the verdict stands on the page, measured in the browser."""
    Desk(page)
    times = []
    for turn in range(CHECKS):
        page.locator('input[data-field="normalise"]').fill(f"{60 + turn}-80j")
        times.append(page.evaluate(ROUND_TRIP))
    middle, worst = median(times), quantiles(times, n=20)[-1]
    print(f"a step check  p50 {middle:.1f} ms, p95 {worst:.1f} ms ({CHECKS} checks)")


def print_frames(page: Page) -> None:
    """Frames a second while a point is dragged round the chart, against the same page at rest."""
    desk = Desk(page)
    desk.answer("normalise", "1.2-1.6j")
    page.locator('input[data-field="place"]').focus()
    box = page.locator("#stage").bounding_box()
    assert box is not None
    resting = page.evaluate(FRAMES)
    x, y = box["x"] + box["width"] / 2, box["y"] + box["width"] / 2
    page.mouse.move(x + 60, y)
    page.mouse.down()
    page.evaluate("window.counted = (" + FRAMES + ")()")
    for turn in range(180):
        page.mouse.move(x + 60 + turn % 90, y + turn % 45)
    moving = page.evaluate("window.counted")
    page.mouse.up()
    print(f"dragging      {moving:.0f} frames a second, {resting:.0f} at rest: {moving / resting:.2f}")


def with_page(browser: Browser, site: Running, measure: Callable[[Page], None]) -> None:
    """Measure in a page of its own."""
    context = browser.new_context(base_url=site.url, viewport={"width": 1440, "height": 900})
    measure(context.new_page())
    context.close()


ROUND_TRIP = """() => new Promise(done => {
  const sheet = [...document.querySelectorAll("#sheet *")].find(e => e.shadowRoot?.querySelector(".work")).shadowRoot;
  const start = performance.now(), before = sheet.getElementById("verdict-normalise");
  new MutationObserver((_, watch) => {
    const now = sheet.getElementById("verdict-normalise");
    if (now && now !== before && now.textContent) { watch.disconnect(); done(performance.now() - start); }
  }).observe(sheet, {childList: true, subtree: true});
  sheet.querySelector('button[data-focus="check normalise"]').click();
})"""
FRAMES = """() => new Promise(done => {
  let frames = 0; const start = performance.now();
  const count = now => {
    frames += 1;
    if (now - start < 2000) requestAnimationFrame(count); else done(1000 * frames / (now - start));
  };
  requestAnimationFrame(count);
})"""

if __name__ == "__main__":
    main()
