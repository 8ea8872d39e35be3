"""The later designers against searches: every match found, none invented. In full by the long counts."""

import pytest

from tests.long.long_chapters import SEARCHES


@pytest.mark.parametrize("search", SEARCHES, ids=range(len(SEARCHES)))
def test_search_finds_the_same(search):
    """A search over the parts' values finds the designer's matches and no others, with the same values."""
    counts = search(120, seed=7)

    assert (0, 0) == (counts.missed, counts.invented), counts
    assert counts.found > 40
    assert counts.apart < 1e-8
    assert counts.left_over < 1e-8
