"""Browsers of other families on the real program; where one is not installed its tests are skipped, and say so."""

from collections.abc import Iterator
from contextlib import ExitStack

import pytest

from app.serving.server import Running
from tests.browser.engines.driver import Engine, firefox, webkit
from tests.browser.engines.student import Student
from tests.find_engines import NoEngine


@pytest.fixture(scope="module", params=[firefox, webkit], ids=["Firefox", "WebKit"])
def engine(request: pytest.FixtureRequest) -> Iterator[Engine]:
    """One browser of each family for all tests of a file: idle ones take a good part of a processor."""
    with ExitStack() as stack:
        try:
            page = stack.enter_context(request.param())
        except NoEngine as nothing:
            pytest.skip(str(nothing))
        yield page


@pytest.fixture
def student(engine: Engine, site: Running) -> Iterator[Student]:
    """Someone at this browser; an error in the page fails the test."""
    before = len(engine.troubles)
    yield Student(engine, site.url)

    assert [] == engine.troubles[before:]
