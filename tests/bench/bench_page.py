"""How fast the page is: `python -m tests.bench.bench_page` prints load times, bytes, a check's round trip, drag frames.

Figures are ratios, or come with what they are measured against in the same run: this machine against itself.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from statistics import median, quantiles
from urllib.parse import urlsplit

import panel as pn
from bokeh.plotting import figure
from playwright.sync_api import Browser, Page, sync_playwright

from app.pages import pages
from app.serving.server import Running, serve
from tests.bench.figures import Figure, show
from tests.bench.slow_link import slow_link
from tests.browser.desk import LINK, Desk
from tests.find_browser import find_browser, launch_flags

LOADS, CHECKS = 9, 60
SLOW_BITS, SLOW_ROUND_TRIP = 1.6e6, 0.15
FAST_BITS, FAST_ROUND_TRIP = 1e9, 0.0
PATIENCE = 120_000
LINKED = "/?" + "&".join(f"{key}={value.replace(' ', '%20')}" for key, value in LINK.items())
BARE_READY = "() => window.Bokeh?.documents?.[0]?.is_idle === true"
READY = "() => document.documentElement.dataset.halfturn === 'ready'"


def bare() -> object:
    """The least that Panel and Bokeh show: one figure with one line."""
    plot = figure(width=400, height=400, tools="", toolbar_location=None)
    plot.line([0, 1], [0, 1])
    return pn.Row(plot)


def main() -> list[Figure]:
    """Measure everything in one run and print it."""
    site = serve({**pages(), "/bare": bare}, port=0, threaded=True)
    assert site is not None
    executable = find_browser()
    try:
        with sync_playwright() as playwright:
            browser = playwright.chromium.launch(executable_path=executable, args=launch_flags())
            figures = show(loads(browser, site)) + show(bytes_sent(browser, site)) + show(slow(browser, site))
            figures += show(with_page(browser, site, checks)) + show(with_page(browser, site, frames))
            browser.close()
    finally:
        site.stop()
    return figures


def loads(browser: Browser, site: Running) -> Iterator[Figure]:
    """Times from navigation: ours, and a bare page's, in turn, each in a fresh context."""
    times: dict[str, list[float]] = {"bare": [], "ready": [], "read": []}
    for _ in range(LOADS):
        with_fresh(browser, site.url, lambda page: times["bare"].append(loaded(page, "/bare", BARE_READY)))
        with_fresh(browser, site.url, lambda page: times["ready"].append(loaded(page, LINKED, READY)))
        with_fresh(browser, site.url, lambda page: times["read"].append(readable(page)))
    plain, ours = median(times["bare"]), median(times["ready"])
    yield Figure("a bare page of Panel and Bokeh, ready after", plain, "ms")
    yield Figure("our page, ready after", ours, "ms")
    why = f"a bare page took {plain / 1000:.2f} s in the same run"
    yield Figure("the same, as a ratio", ours / plain, "", 1.25)
    yield Figure("words and chart painted after", median(times["read"]) / 1000, "s", 0.3, why)


def bytes_sent(browser: Browser, site: Running) -> Iterator[Figure]:
    """What comes over the wire until the page is ready, headers and the websocket's messages included."""
    port = urlsplit(site.url).port or 0
    with slow_link(port, FAST_BITS, FAST_ROUND_TRIP) as (through, link):
        context = browser.new_context(base_url=f"http://127.0.0.1:{through}")
        for which, goal in (("first", 850), ("second", 60)):
            before, page = link.down.sent, context.new_page()
            loaded(page, LINKED, READY)
            page.close()
            yield Figure(f"sent for a {which} load", (link.down.sent - before) / 1000, "kB", goal)
        context.close()


def slow(browser: Browser, site: Running) -> Iterator[Figure]:
    """A first load over a slow link."""
    port = urlsplit(site.url).port or 0
    with slow_link(port, SLOW_BITS, SLOW_ROUND_TRIP) as (through, _):
        url, times = f"http://127.0.0.1:{through}", {"read": 0.0, "ready": 0.0}

        def both(page: Page) -> None:
            times["read"], times["ready"] = readable(page), loaded(page, None, READY)

        with_fresh(browser, url, both)
        with_fresh(browser, url, lambda page: times.update(bare=loaded(page, "/bare", BARE_READY)))
    why = f"a bare page took {times['bare'] / 1000:.2f} s"
    link = f"{SLOW_BITS / 1e6:g} Mbit/s and {1000 * SLOW_ROUND_TRIP:.0f} ms"
    yield Figure(f"at {link}: words and chart can be read after", times["read"] / 1000, "s", 2.5, why)
    yield Figure(f"at {link}: the page can be used after", times["ready"] / 1000, "s", 7, why)


def loaded(page: Page, route: str | None, condition: str) -> float:
    """Milliseconds from navigation until the condition holds; without a route, of the navigation that there was."""
    if route is not None:
        page.goto(route, wait_until="commit", timeout=PATIENCE)
    page.wait_for_function(condition, timeout=PATIENCE)
    return page.evaluate("performance.now()")


def readable(page: Page) -> float:
    """Milliseconds from navigation until the problem's words and the whole printed chart have been painted."""
    page.add_init_script(PAINTED)
    page.goto(LINKED, wait_until="commit", timeout=PATIENCE)
    page.wait_for_function("() => window.paintedAt", timeout=PATIENCE)
    return page.evaluate("window.paintedAt")


def checks(page: Page) -> Iterator[Figure]:
    """Time from pressing Check until the verdict stands on the page, measured in the browser."""
    Desk(page)
    times = []
    for turn in range(CHECKS):
        page.locator('input[data-field="normalise"]').fill(f"{60 + turn}-80j")
        times.append(page.evaluate(ROUND_TRIP))
    yield Figure("a step's check in the browser, half of them within", median(times), "ms")
    yield Figure("a step's check in the browser, 95 of 100 within", quantiles(times, n=20)[-1], "ms")


def frames(page: Page) -> Iterator[Figure]:
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
    yield Figure("frames a second while a point is dragged, as a ratio to rest", moving / resting, "")


def with_fresh(browser: Browser, url: str, measure: Callable[[Page], object]) -> None:
    """Measure in a page of a browser that has nothing of ours."""
    context = browser.new_context(base_url=url)
    measure(context.new_page())
    context.close()


def with_page(
    browser: Browser, site: Running, measure: Callable[[Page], Iterator[Figure]]
) -> Iterator[Figure]:
    """Measure in a page of its own."""
    context = browser.new_context(base_url=site.url, viewport={"width": 1440, "height": 900})
    yield from measure(context.new_page())
    context.close()


# Its opening stands behind the chart and the words: once it has been read, the next frame shows them.
PAINTED = """(() => {
  const look = () => document.getElementById("opening") && document.querySelector("#printed > svg, .printed-chart")
    ? requestAnimationFrame(() => { window.paintedAt ??= performance.now(); }) : requestAnimationFrame(look);
  requestAnimationFrame(look);
})()"""
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
