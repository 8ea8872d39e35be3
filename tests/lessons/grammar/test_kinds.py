"""How answers are read, written and measured. The tolerances are the project's own: what a chart can be read to."""

from math import inf, nan
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core import reflection_coefficient
from lessons.grammar.kinds import (
    Accuracy,
    Choice,
    Immittance,
    Kind,
    LengthOfLine,
    Millimetres,
    Reflection,
    StandingWaveRatio,
    Susceptance,
)
from lessons.grammar.notation import STANDARD, Notation
from lessons.grammar.numbers import Unreadable
from tests.lessons.solving import NOTATIONS

ENDS = Choice((("short", "the short point, y = ∞"), ("open", "the open point, y = 0")))
ORDINARY: list[tuple[Kind, Any]] = [
    (Immittance(), 0.6 - 1j),
    (Immittance(), complex(inf)),
    (Reflection(), -0.3 + 0.5j),
    (StandingWaveRatio(), 3.658),
    (Susceptance(1.0), -1.397),
    (LengthOfLine(), 0.0627),
    (Millimetres(456.0), 28.6),
    (Millimetres(6.85), 0.4295),
    (ENDS, "open"),
]
ACCURACIES: tuple[Accuracy, Accuracy] = ("chart", "calculated")

every_kind = pytest.mark.parametrize(("kind", "value"), ORDINARY, ids=lambda case: type(case).__name__)
parts = st.floats(0, 20)
normalised = st.builds(complex, parts, st.floats(-20, 20))
ordinary = normalised.filter(lambda value: abs(value) > 1e-6)


@every_kind
class TestEveryKind:
    @pytest.mark.parametrize("accuracy", ACCURACIES)
    def test_reads_what_it_writes(self, kind, value, accuracy):
        """What the tutor writes into a box is right when a student writes the same, in every notation."""
        off = [kind.off_by(kind.read(kind.write(value, n), n), value, accuracy) for n in NOTATIONS]

        assert max(off) <= 1

    def test_nothing_is_off_from_itself(self, kind, value):
        """The solver's own answer is right by any measure."""
        assert [0.0, 0.0] == [kind.off_by(value, value, accuracy) for accuracy in ACCURACIES]

    @pytest.mark.parametrize("text", ["abc", "1e999", "nan", "9" * 10_000, "<script>", ""])
    def test_refuses_with_a_sentence(self, kind, value, text):
        """What is no answer of this kind is refused with a sentence, whatever the kind."""
        with pytest.raises(Unreadable, match=r"^[^\n{}]{10,160}\.$"):
            kind.read(text, STANDARD)


class TestImmittance:
    @given(mine=normalised, right=normalised)
    def test_measured_on_the_chart(self, mine, right):
        """Read from a chart, an answer is off by its distance on paper: 0.02 of the radius is one tolerance."""
        apart = abs(reflection_coefficient(mine, 1) - reflection_coefficient(right, 1))

        assert Immittance().off_by(mine, right, "chart") <= apart / 0.02 * (1 + 1e-9)

    @given(right=ordinary)
    def test_calculated(self, right):
        """Calculated, half a percent is one tolerance."""
        assert pytest.approx(2) == Immittance().off_by(right * 1.01, right, "calculated")

    @given(mine=normalised, right=normalised)
    def test_calculating_is_never_punished(self, mine, right):
        """What is right when calculated is right when read from a chart."""
        off_chart, off_calculated = (Immittance().off_by(mine, right, accuracy) for accuracy in ACCURACIES)

        assert off_chart <= off_calculated

    @pytest.mark.parametrize("right", [0.6 - 1j, -1 + 0j, complex(inf)], ids=str)
    def test_impossible_values_are_measured_too(self, right):
        """A slip may predict an impossible value; nothing breaks when an answer is held against it."""
        assert Immittance().off_by(0.6 - 1.5j, right, "chart") > 1

    def test_negative_resistance(self):
        """A real part below zero is refused: nothing passive shows one."""
        with pytest.raises(Unreadable, match="below zero here: check its sign"):
            Immittance().read("-0.6 + j1", STANDARD)


class TestReflection:
    def test_more_than_all(self):
        """No passive load sends back more than it gets."""
        with pytest.raises(Unreadable, match="the size of a reflection is 1 or less"):
            Reflection().read("1.2 ∠ 30°", STANDARD)

    def test_the_rim_counts(self):
        """A reading on the rim may exceed it by a rounding."""
        assert pytest.approx(1, abs=1e-4) == abs(Reflection().read("0.7071 + j0.70715", STANDARD))

    def test_angle_in_the_unit_of_the_course(self):
        """In a course of radians -1.05 is an angle of -60 degrees."""
        value = Reflection().read("0.45 ∠ -1.05", Notation(angle="radians"))

        assert Reflection().off_by(value, 0.225 - 0.3897j, "chart") < 0.1


class TestStandingWaveRatio:
    @pytest.mark.parametrize(("mine", "right"), [(1.52, 1.5), (5.4, 5.1)])
    def test_coarser_where_the_scale_is_denser(self, mine, right):
        """A ratio is read off the axis, where large ones stand closer together."""
        assert StandingWaveRatio().off_by(mine, right, "chart") < 1

    def test_below_one_is_read(self):
        """A ratio below 1 is read, so that the slip behind it can be named."""
        assert 0.27 == StandingWaveRatio().read("0.27", STANDARD)

    def test_negative(self):
        """A ratio of sizes is not negative."""
        with pytest.raises(Unreadable, match="1 or more, never negative"):
            StandingWaveRatio().read("-50", STANDARD)


class TestSusceptance:
    @pytest.mark.parametrize("text", ["-1.47", "−j1.47", "0 - j1.47", "-1.47j"])
    def test_with_and_without_its_unit(self, text):
        """A susceptance may be written as b or as jb."""
        assert -1.47 == Susceptance().read(text, STANDARD)

    def test_not_a_whole_admittance(self):
        """The whole admittance is not its susceptance."""
        with pytest.raises(Unreadable, match="the imaginary part alone"):
            Susceptance().read("1 - j1.47", STANDARD)

    def test_read_on_its_circle(self):
        """On g = 1 a susceptance of 1.47 stands farther from 1.57 than on the rim."""
        assert Susceptance(1.0).off_by(1.57, 1.47, "chart") < Susceptance(0.0).off_by(1.57, 1.47, "chart")

    def test_fine_enough_to_be_copied(self):
        """A small susceptance is written so that its copy is right even when calculated."""
        text = Susceptance().write(0.3045, STANDARD)

        assert Susceptance().off_by(Susceptance().read(text, STANDARD), 0.3045, "calculated") <= 1


class TestLengthOfLine:
    @pytest.mark.parametrize(("accuracy", "tolerance"), [("chart", 0.005), ("calculated", 0.001)])
    def test_tolerance(self, accuracy, tolerance):
        """A chart is read to 0.005 wavelength; a calculation is wanted to 0.001."""
        assert pytest.approx(1) == LengthOfLine().off_by(0.11 + tolerance, 0.11, accuracy)

    @pytest.mark.parametrize("halves", [-2, -1, 1, 5])
    def test_half_waves_are_equal(self, halves):
        """Lengths repeat every half wavelength on a lossless line (any text on lines: common practice, no source)."""
        assert pytest.approx(0, abs=1e-9) == LengthOfLine().off_by(0.11 + halves / 2, 0.11, "calculated")

    @given(mine=st.floats(0, 0.5), right=st.floats(0, 0.5))
    def test_never_more_than_a_quarter_wave(self, mine, right):
        """Two lengths are never farther apart than a quarter wave, and as far one way as the other."""
        off = LengthOfLine().off_by(mine, right, "chart")

        assert off <= 0.25 / 0.005 + 1e-9
        assert pytest.approx(off, abs=1e-9) == LengthOfLine().off_by(right, mine, "chart")

    @pytest.mark.parametrize(
        ("text", "length"),
        [("0.11", "wavelengths"), ("39.6°", "wavelengths"), ("39.6", "degrees"), ("0.11 λ", "degrees")],
    )
    def test_the_unit_of_the_course(self, text, length):
        """A number without a unit is in the unit of the course; a unit that stands there counts."""
        assert pytest.approx(0.11) == LengthOfLine().read(text, Notation(length=length))

    @pytest.mark.parametrize(
        ("text", "match"), [("28 mm", "not in metres"), ("-50", "more than ten wavelengths")]
    )
    def test_refusals(self, text, match):
        """A length in metres or of many wavelengths is not one read from a chart."""
        with pytest.raises(Unreadable, match=match):
            LengthOfLine().read(text, STANDARD)


class TestMillimetres:
    @pytest.mark.parametrize("text", ["23.4", "23.4 mm", "2.34 cm", "0.0234 m"])
    def test_metric_units(self, text):
        """Millimetres are meant where no unit stands; centimetres and metres are turned into them."""
        assert pytest.approx(23.4) == Millimetres(456).read(text, STANDARD)

    @pytest.mark.parametrize("text", ["0.1 λ", "36°"])
    def test_not_in_wavelengths(self, text):
        """A length in wavelengths is not yet one in millimetres."""
        with pytest.raises(Unreadable, match="wanted in millimetres"):
            Millimetres(456).read(text, STANDARD)

    def test_tolerance_is_that_of_the_chart(self):
        """The chart's 0.005 wavelength, in millimetres of this line."""
        assert pytest.approx(1) == Millimetres(400).off_by(22, 20, "chart")


class TestChoice:
    @pytest.mark.parametrize("text", ["open", " Open ", "the open point, y = 0"])
    def test_by_key_or_by_words(self, text):
        """A choice is made by its key or by the words that stand on it."""
        assert "open" == ENDS.read(text, STANDARD)

    def test_nothing_in_between(self):
        """A choice is right or it is not."""
        assert inf == ENDS.off_by("short", "open", "chart")


@pytest.mark.parametrize(
    "kind", [StandingWaveRatio(), LengthOfLine(), Susceptance(1.0)], ids=lambda k: type(k).__name__
)
def test_not_a_number_is_never_right(kind):
    """A value that cannot be worked out matches nothing."""
    assert not kind.off_by(0.3, nan, "chart") <= 4
