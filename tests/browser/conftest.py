"""A real browser on the real program; a page in which anything goes wrong fails its test."""

from collections.abc import Iterator
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

from app.serving.server import Running
from tests.find_browser import find_browser, launch_flags

DESK = {"width": 1440, "height": 900}


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """One browser for all tests; each test gets a context of its own in it."""
    path = find_browser()
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=path, args=launch_flags())
        yield started
        started.close()


@pytest.fixture
def troubles() -> list[str]:
    """What went wrong in the page so far; a test that provokes a trouble checks it and clears the list."""
    return []


@pytest.fixture
def page(
    request: pytest.FixtureRequest, browser: Browser, site: Running, troubles: list[str]
) -> Iterator[Page]:
    """An empty page whose relative addresses lead to the program, watched for troubles.

    `@pytest.mark.screen(width=390, height=844, colour_scheme="dark", reduced_motion="reduce")` sets it up
    otherwise.
    """
    mark = request.node.get_closest_marker("screen")
    wishes = dict(mark.kwargs) if mark else {}
    context = browser.new_context(
        base_url=site.url,
        viewport={side: wishes.pop(side, pixels) for side, pixels in DESK.items()},  # type: ignore[arg-type]
        color_scheme=wishes.pop("colour_scheme", "light"),
        reduced_motion=wishes.pop("reduced_motion", "no-preference"),
        **wishes,
    )
    opened = context.new_page()
    watch(opened, urlsplit(site.url).netloc, troubles)
    yield opened
    context.close()

    assert [] == troubles


def watch(page: Page, host: str, troubles: list[str]) -> None:
    """Add to `troubles` console errors, uncaught exceptions, failed requests and requests to other hosts."""

    def foreign(url: str) -> None:
        parts = urlsplit(url)
        if parts.scheme in ("http", "https", "ws", "wss") and parts.netloc != host:
            troubles.append(f"request to another host: {url}")

    def failed(request) -> None:
        if request.failure != "net::ERR_ABORTED":  # a page left or reloaded while it loads is no trouble
            troubles.append(f"failed request: {request.url}: {request.failure}")

    page.on(
        "console", lambda said: troubles.append(f"console: {said.text}") if said.type == "error" else None
    )
    page.on("pageerror", lambda error: troubles.append(f"page error: {error}"))
    page.on("request", lambda request: foreign(request.url))
    page.on("requestfailed", failed)
    page.on("websocket", lambda socket: foreign(socket.url))
