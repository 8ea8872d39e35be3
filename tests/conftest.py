"""What all tests share: one running server, and random tests that are the same on every machine."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

import hypothesis
import pytest

if TYPE_CHECKING:
    from app.serving.server import Running

hypothesis.settings.register_profile("same-everywhere", derandomize=True, deadline=None)
hypothesis.settings.load_profile("same-everywhere")


@pytest.fixture(scope="session")
def site() -> "Iterator[Running]":
    """The real program, served on a free port of this machine."""
    # Imported here, so that the tests of the solver and the lessons start without the whole program.
    from app.pages import pages
    from app.serving.server import serve

    running = serve(pages(), port=0, threaded=True)
    assert running is not None
    yield running
    running.stop()
