"""The radial scales: each mark where the formulas of the trade put it."""

from itertools import pairwise

import numpy as np
import pytest
from skrf.mathFunctions import mag_2_db
from skrf.tlineFunctions import zl_2_swr

from app.parts.printed_chart.radial_scales import LABEL_GAP, RadialScale, radial_scales

SIZE, SWR, LOSS = radial_scales()


def by_text(scale: RadialScale) -> dict[str, float]:
    """Position of each numbered mark."""
    return {mark.text: mark.position for mark in scale.marks if mark.text}


class TestMarks:
    def test_standing_wave_ratio(self):
        """scikit-rf finds the ratio of every mark at the impedance where the chart's axis shows it."""
        for mark in SWR.marks[:-1]:
            axis = (1 + mark.position) / (1 - mark.position)

            assert zl_2_swr(1.0, axis) == pytest.approx(mark.value, rel=1e-12)

    def test_return_loss(self):
        """scikit-rf's decibels of the size of every mark are minus its return loss."""
        for mark in LOSS.marks[1:]:
            assert -mag_2_db(mark.position) == pytest.approx(mark.value, abs=1e-12)

    def test_size(self):
        """The size of the reflection is even: a hundred divisions, a number at every tenth."""
        assert [mark.position for mark in SIZE.marks] == pytest.approx(np.linspace(0, 1, 101), abs=1e-15)
        assert [f"{tenth / 10:g}" for tenth in range(11)] == list(by_text(SIZE))

    def test_ends(self):
        """From the centre to the rim: matched, nothing returned, to all returned."""
        ends = [(scale.marks[0].value, scale.marks[-1].value) for scale in (SIZE, SWR, LOSS)]

        assert [(0, 1), (1, np.inf), (np.inf, 0)] == ends
        assert {(0.0, 1.0)} == {
            (scale.marks[0].position, scale.marks[-1].position) for scale in (SIZE, SWR, LOSS)
        }

    @pytest.mark.parametrize("scale", radial_scales(), ids=lambda scale: scale.key)
    def test_numbers_have_room(self, scale: RadialScale):
        """Numbers stand apart, marks at least 0.6 mm apart on a radius of 75, and a number is its value."""
        assert LABEL_GAP <= min(b - a for a, b in pairwise(sorted(by_text(scale).values()))) + 1e-12
        assert 0.0079 < min(b.position - a.position for a, b in pairwise(scale.marks))
        assert all(float(mark.text) == mark.value for mark in scale.marks if mark.text not in ("", "∞"))

    @pytest.mark.parametrize("scale", radial_scales(), ids=lambda scale: scale.key)
    def test_divisions_can_be_counted(self, scale: RadialScale):
        """Between two numbers the divisions are even, so that counting them gives the value of each."""
        numbered = sorted(mark.value for mark in scale.marks if mark.text)

        for first, last in pairwise(numbered):
            values = sorted(mark.value for mark in scale.marks if first <= mark.value <= last)
            if np.isinf(last):
                assert [first, last] == values
            else:
                assert pytest.approx(np.linspace(first, last, len(values)), abs=1e-12) == values
        assert len(scale.marks) > 4 * len(numbered)

    @pytest.mark.parametrize(("scale", "wanted"), [(SWR, "1 1.2 1.5 2 3 5 10 ∞"), (LOSS, "∞ 20 10 6 3 1 0")])
    def test_the_usual_values_are_numbered(self, scale: RadialScale, wanted: str):
        """The ratios and losses that are spoken of most bear their number (common practice, no source)."""
        assert set(wanted.split()) <= set(by_text(scale))
