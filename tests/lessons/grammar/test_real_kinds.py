"""Kinds of answer in ohms and in siemens, and branches whose word cannot stand before a noun."""

import pytest

from lessons.grammar.branch import Branch
from lessons.grammar.kinds import Resistance, Said, Siemens
from lessons.grammar.notation import STANDARD, Notation
from lessons.grammar.numbers import Unreadable


class TestResistance:
    @pytest.mark.parametrize(("text", "value"), [("70.7", 70.7), ("70,7", 70.7), ("70.7 Ω", 70.7)])
    def test_read(self, text, value):
        """A real number is read, with or without its unit."""
        assert value == Resistance(in_ohms=True).read(text, STANDARD)

    @pytest.mark.parametrize(
        ("text", "why"), [("2+j1", "real"), ("-3", "above zero"), ("0", "above zero"), ("inf", "above zero")]
    )
    def test_refused(self, text, why):
        """What is no resistance of a line that takes power is refused in a sentence."""
        with pytest.raises(Unreadable, match=why):
            Resistance().read(text, STANDARD)

    @pytest.mark.parametrize(
        ("value", "in_ohms", "written"),
        [
            (2.61834, False, "2.618"),
            (0.0474321, False, "0.0474"),
            (88.938, True, "88.94 Ω"),
            (0.35, True, "0.35 Ω"),
        ],
    )
    def test_written(self, value, in_ohms, written):
        """Small ones keep their digits, so that what follows from them is as exact."""
        assert written == Resistance(in_ohms=in_ohms).write(value, STANDARD)

    def test_by_the_chart_or_by_arithmetic(self):
        """Read from the chart it may be off by 0.02 there, worked out by half a percent."""
        assert 1 > Resistance().off_by(2.65, 2.6, "chart")
        assert 1 < Resistance(arithmetic=True).off_by(2.65, 2.6, "chart")
        assert 1 < Resistance().off_by(2.65, 2.6, "calculated")
        assert pytest.approx(1) == Resistance(arithmetic=True).off_by(100.5, 100, "chart")

    def test_drawn(self):
        """A point beside the axis is read on it."""
        assert pytest.approx(3) == Resistance().drawn(0.5 + 0.1j, "impedance")
        assert pytest.approx(150) == Resistance(50, in_ohms=True).drawn(0.5 + 0j, "impedance")

    @pytest.mark.parametrize(
        ("name", "value", "texts"),
        [
            ("R max", "150", ["3.0", "150.0"]),
            ("r", "150 Ω", ["3.0"]),
            ("r", "3", ["3.0"]),
            ("r", "6/2", ["3.0"]),
        ],
    )
    def test_understood(self, name, value, texts):
        """In someone's own lines ohms are divided by the line's impedance, and sums are worked out."""
        found = Resistance(50).understood(Said(name, value, STANDARD))

        assert texts == [one.text for one in found]


class TestSiemens:
    def test_written_and_read(self):
        """Millisiemens are written with their unit and read back."""
        kind = Siemens(50)

        assert "13.51 + j18.92 mS" == kind.write(13.514 + 18.919j, STANDARD)
        assert 13.51 + 18.92j == kind.read("13.51 + j18.92 mS", STANDARD)

    @pytest.mark.parametrize(
        ("text", "value"),
        [("13.5+18.9j mS", 13.5 + 18.9j), ("0.0135+0.0189j S", 13.5 + 18.9j), ("13.5+18.9j", 13.5 + 18.9j)],
    )
    def test_understood(self, text, value):
        """In someone's own lines siemens are turned into millisiemens."""
        (found,) = Siemens(50).understood(Said("Y", text, STANDARD))

        assert pytest.approx(value) == complex(found.text)

    def test_ohms_are_none(self):
        """Ohms are refused in a sentence."""
        with pytest.raises(Unreadable, match="admittance is wanted"):
            list(Siemens(50).understood(Said("Y", "20 Ω", Notation())))


def test_a_branch_behind_its_noun():
    """A branch's word stands before a noun, or what tells it apart stands behind."""
    assert "near crossing" == Branch("near", "near", "first").named("crossing")
    assert "one at the maximum" == Branch("max", "maximum", "first", where="at the maximum").named("one")
