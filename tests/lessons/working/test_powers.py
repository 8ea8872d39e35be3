"""Where the power of a finished design goes, and when the voltage along the line may be seen."""

from dataclasses import replace

import pytest

from lessons.course.shunt_stub import LESSON
from lessons.working.powers import powers
from lessons.working.sheet import Sheet
from lessons.working.withheld import waves_may_be_seen
from tests.lessons.solving import problem
from tests.toys import ALONG

LOAD = 60 - 80j
BACK = abs((LOAD - 50) / (LOAD + 50))


def solved(sheet: Sheet) -> Sheet:
    """The sheet with the solver's answers to all that it asks."""
    for step in sheet.steps:
        for field in step.fields:
            options = field.kind(sheet.truth).options
            sheet = sheet.enter(field.key, str(sheet.truth[field.key]) if options else sheet.write(field.key))
    return sheet


class TestPowers:
    """Closed forms: without a match 1 - |Γ|² is delivered, and the ratio is (1 + |Γ|) / (1 - |Γ|)
    (common practice, no source)."""

    def test_of_a_match(self):
        """Nearly all is delivered with the design, 1 - |Γ|² without it; the ratio falls at the junction."""
        near, far = powers(solved(Sheet(LESSON, problem(LOAD))))

        for one, symbol in ((near, "d"), (far, "d")):
            assert abs(1 - BACK**2 - one.bare) < 1e-12
            assert one.delivered > 0.999
            (section, name, ratio), (feed, _, after) = one.parts
            assert section is not None
            assert (symbol, None) == (name, feed)
            assert abs((1 + BACK) / (1 - BACK) - ratio) < 1e-9
            assert after < 1.05

    def test_of_no_match(self):
        """A lesson that matches nothing tells what its line delivers, the same with it as without."""
        (only,) = powers(solved(Sheet(ALONG, ALONG.problem())))

        assert abs(only.delivered - only.bare) < 1e-12
        assert abs(only.parts[0][2] - only.parts[1][2]) < 1e-9

    def test_unfinished(self):
        """Of a sheet that is not done nothing is told."""
        assert () == powers(Sheet(LESSON, problem(LOAD)))


class TestWaves:
    def test_not_before_they_give_nothing_away(self):
        """The voltage is seen once the field that it would give away is settled, and not before."""
        sheet = Sheet(LESSON, problem(LOAD))
        seen = []
        for key in ("normalise", "place", "mismatch"):
            seen.append(waves_may_be_seen(sheet))
            sheet = sheet.enter(key, sheet.write(key))

        assert [False, False, False] == seen
        assert waves_may_be_seen(sheet)

    def test_where_it_is_not_asked(self):
        """Where that step is switched off, it is seen from the start."""
        assert waves_may_be_seen(Sheet(LESSON, problem(LOAD, without=frozenset({"mismatch"}))))

    def test_otherwise_at_the_end(self):
        """A lesson that says nothing of it shows it when the problem is done, and of a refused problem at once."""
        silent = replace(LESSON, waves_after="")
        assert not waves_may_be_seen(Sheet(silent, problem(LOAD), shown=5))
        assert waves_may_be_seen(solved(Sheet(silent, problem(LOAD))))

        assert waves_may_be_seen(Sheet(LESSON, problem(0j)))

    def test_no_such_field(self):
        """A lesson that names a field which it does not have is refused."""
        with pytest.raises(ValueError, match="no field of it"):
            replace(LESSON, waves_after="foo")
