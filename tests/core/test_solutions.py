"""The answers of a designer, taken apart and put together again."""

import copy
import pickle

from core import quarter_wave, single_stub
from core.solutions import Solutions


def test_some_of_them_keep_the_reason():
    """A slice of solutions still says why they are unusual."""
    solutions = quarter_wave(100, 50)

    assert "This load is real" in solutions.reason
    assert solutions.reason == solutions[:1].reason
    assert isinstance(solutions[:1], Solutions)
    assert solutions[0] is solutions[:1][0]


def test_copies_keep_the_reason():
    """A copy, and one that went through a file, say the same."""
    solutions = single_stub(50j, 50)

    for again in (copy.copy(solutions), copy.deepcopy(solutions), pickle.loads(pickle.dumps(solutions))):
        assert (solutions, solutions.reason) == (again, again.reason)
