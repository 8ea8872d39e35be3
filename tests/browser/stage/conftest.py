"""The stage alone, in place of the whole program, and a hand on it."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Page

from app.serving.server import Running, serve
from tests.browser.stage.board import Board
from tests.browser.stage_page import stage_page


@pytest.fixture(scope="package")
def site() -> Iterator[Running]:
    """The stage alone, in place of the whole program."""
    running = serve({"/": stage_page}, port=0, threaded=True)
    assert running is not None
    yield running
    running.stop()


@pytest.fixture
def board(page: Page) -> Board:
    return Board(page)
