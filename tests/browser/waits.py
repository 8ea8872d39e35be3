"""What browser tests wait for: conditions, never a time."""

from playwright.sync_api import Page


def ready(page: Page) -> None:
    """Wait until the page can be used.

    The components set the mark at the end of their rendering; the document counts as idle some milliseconds
    earlier, when a first key press would still be lost.
    """
    page.locator("html[data-halfturn=ready]").wait_for(state="attached")
