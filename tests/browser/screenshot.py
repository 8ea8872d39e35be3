"""Makes the README's picture: `python -m tests.browser.screenshot` writes static/screenshot.png."""

from playwright.sync_api import sync_playwright

from app.pages import pages
from app.parts.template import STATIC
from app.serving.server import serve
from tests.browser.desk import LINK, Desk
from tests.find_browser import find_browser, launch_flags


def main() -> None:
    """Solve the first half of a problem, as a student would, and take the picture."""
    executable = find_browser()
    site = serve(pages(), port=0, threaded=True)
    assert site is not None
    try:
        with sync_playwright() as playwright:
            browser = playwright.chromium.launch(executable_path=executable, args=launch_flags())
            wishes = {"base_url": site.url, "reduced_motion": "reduce"}
            page = browser.new_page(viewport={"width": 1440, "height": 900}, **wishes)  # type: ignore[arg-type]
            desk = Desk(page, LINK)
            desk.solve_until("distance.near")
            desk.entry("distance.far").focus()
            page.locator("html[data-halfturn=ready]").wait_for(state="attached")
            page.wait_for_timeout(500)  # the last stroke and the fonts have settled
            page.screenshot(path=STATIC / "screenshot.png")
            browser.close()
    finally:
        site.stop()


if __name__ == "__main__":
    main()
