"""Fingers on a screen that feels them, in a browser of the Chromium family."""

from collections.abc import Callable

from playwright.sync_api import Page

Touch = Callable[..., None]


def fingers_on(page: Page) -> Touch:
    """Puts fingers on places of the screen ("touchStart"), moves them there ("touchMove"), lifts them ("touchEnd")."""
    session = page.context.new_cdp_session(page)

    def touch(kind: str, *places: tuple[float, float]) -> None:
        fingers = [{"x": x, "y": y, "id": index} for index, (x, y) in enumerate(places)]
        session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": fingers})

    return touch
