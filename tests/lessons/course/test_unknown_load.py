"""An unknown load as a lesson: its values by plain arithmetic, its mistakes, its texts."""

from cmath import exp
from math import pi, tan

import pytest
from hypothesis import assume
from hypothesis import given as for_all
from hypothesis import strategies as st

from core.elements import Section
from lessons.course.unknown_load import FIRST, LESSON
from lessons.grammar.kinds import Wavelength
from lessons.grammar.notation import STANDARD
from lessons.grammar.numbers import Unreadable
from lessons.grammar.problem import Problem
from lessons.working.achieved import closing
from lessons.working.construction import plans
from tests.lessons.solving import blank, random_problem, shipped_problems

GIVEN = [*shipped_problems(LESSON), *(random_problem(seed, LESSON) for seed in (3, 7))]
places = st.floats(0, 100)


def problem(**others: object) -> Problem:
    """A problem of the lesson: a ratio of 3 on 50 ohm, a wave of 40 cm, a minimum 7 cm nearer to the generator."""
    facts = {name: others.pop(name) for name in ("accuracy",) if name in others}
    usual = {"swr": 3.0, "first": 4.0, "second": 24.0, "minimum": 11.0, "counted": "load", "line": 50.0}
    return LESSON.problem({**usual, **others}, **facts)


@for_all(
    swr=st.floats(1.1, 50),
    first=places,
    second=places,
    minimum=places,
    counted=st.sampled_from(("load", "generator")),
)
def test_of_any_probe(swr, first, second, minimum, counted):
    """The load's reflection, turned by the distance of the minimum from its place, is minus its own size."""
    wave = 2 * abs(second - first)
    toward_generator = (minimum - first) * (1 if counted == "load" else -1)
    assume(wave > 1 and 1e-6 < abs(toward_generator) < 9 * wave)
    given = problem(swr=swr, first=first, second=second, minimum=minimum, counted=counted)
    work = blank(given).truth
    z = work["ohms"] / 50
    at_minimum = (z - 1) / (z + 1) * exp(-4j * pi * toward_generator / wave)

    assert "" == LESSON.refuses(given)
    assert pytest.approx(-(swr - 1) / (swr + 1)) == at_minimum
    assert pytest.approx(wave) == work["wave"]


@pytest.mark.parametrize(
    ("others", "sentence"),
    [
        ({"second": 4.0}, "at one place"),
        ({"minimum": 4.0}, "has not moved"),
        ({"minimum": 500.0}, "more than 10 wavelengths away"),
        ({"swr": 1.001}, "nearly the same everywhere"),
    ],
)
def test_refused(others, sentence):
    """Places with nothing to find are refused in a sentence."""
    assert sentence in LESSON.refuses(problem(**others))


class TestPlaces:
    @pytest.mark.parametrize(
        ("text", "cm"), [("12.4", 12.4), ("12,4 cm", 12.4), ("124 mm", 12.4), ("1.2 m", 120)]
    )
    def test_read(self, text, cm):
        """A place is read in centimetres where no unit stands, else in its own."""
        assert cm == pytest.approx(FIRST.kind.read(text))

    def test_written(self):
        """What is written gives the same number back."""
        assert 12.4 == FIRST.kind.read(FIRST.kind.write(12.4))

    @pytest.mark.parametrize(
        ("text", "sentence"), [("-1", "from 0 to"), ("0.3 λ", "in centimetres"), ("30°", "in cent")]
    )
    def test_refused(self, text, sentence):
        """A place before the scale, or in wavelengths, is refused in a sentence."""
        with pytest.raises(Unreadable, match=sentence):
            FIRST.kind.read(text)

    @pytest.mark.parametrize(("text", "cm"), [("40", 40), ("400 mm", 40), ("0.4 m", 40)])
    def test_wavelength(self, text, cm):
        """A wavelength that is asked in centimetres is read in any metric unit, and written in centimetres."""
        kind = Wavelength(40.0, "41.2", "cm")

        assert cm == pytest.approx(kind.read(text, STANDARD))
        assert kind.write(40.0, STANDARD).endswith(" cm")


def z_at(turn: float) -> complex:
    """What stands on the circle of |Γ| = 0.5 so many half turns counter-clockwise from the minimum."""
    point = -0.5 * exp(1j * turn * pi)
    return (1 + point) / (1 - point)


def written(value: complex) -> str:
    """A complex number as a student writes it."""
    return f"{complex(value):.5g}".strip("()")


Z = z_at(0.7)
MIRRORED, IN_OHMS = written(Z.conjugate()), written(50 * Z.conjugate())
NAMED = [
    ("wave", "20", "half of it"),
    ("wave", "80", "quarter wave"),
    ("wave", "28", "sum"),
    ("wave", "8", "place itself"),
    ("wave", "14", "to the load's minimum"),
    ("circle.size", "0.333", "one over the ratio"),
    ("circle.size", "0.75", "ratio over one more"),
    ("circle.size", "0.667", "less one over the ratio"),
    ("circle.size", "0.25", "power"),
    ("circle.lowest", "3", "maximum"),
    ("circle.lowest", "16.67", "in ohms"),
    ("shift.toward", "load", "scale turned round"),
    ("shift.waves", "0.35 wl", "half waves"),
    ("shift.waves", "0.325 wl", "other minimum"),
    ("shift.waves", "0.275 wl", "place itself"),
    ("shift.waves", "5.714 wl", "upside down"),
    ("shift.waves", "0.0875 wl", "to the middle"),
    ("sense", "clockwise", "the minimum's way"),
    ("there", 1 / Z, "from the maximum"),
    ("there", z_at(1.4), "double the length"),
    ("there", 1 / 3 + 0j, "not walked"),
    ("there", 1j / tan(0.85 * pi), "on the rim"),
    ("there", complex(-Z.imag, -Z.real), "parts exchanged"),
    ("there", Z * 50, "in ohms"),
    ("ohms", Z, "not denormalised"),
    ("ohms", Z / 50, "divided again"),
    ("ohms", (Z * 50).conjugate(), "sign of the reactance lost"),
    ("ohms", complex(50 * Z.real, Z.imag), "one part multiplied"),
    ("ohms", 50 / 3 + 0j, "minimum"),
]


@pytest.mark.parametrize(("key", "value", "slip"), NAMED, ids=[f"{key}, {slip}" for key, _, slip in NAMED])
def test_slips_are_named(key, value, slip):
    """Whoever makes the mistake is told which it is."""
    text = value if isinstance(value, str) else written(value)
    sheet = blank(problem()).enter(key, text)

    assert ("slip", slip) == (sheet.verdicts[key].judgement, sheet.verdicts[key].slip)


def test_other_way_round():
    """Who chose the way rightly and still has the other sign is not asked about the way: the sign was lost."""
    sheet = blank(problem())
    asked = sheet.enter("there", MIRRORED).verdicts["there"]
    known = sheet.enter("sense", "counter-clockwise").enter("there", MIRRORED).verdicts["there"]

    assert {"other way round", "sign of the reactance lost"} == set(asked.suspected)
    assert "sign of the reactance lost" == known.slip


class TestFollowThrough:
    def test_the_scale_turned_round(self):
        """Who takes the scale for one that counts from the other end is right after it, by the own way round."""
        sheet = blank(problem()).enter("shift.toward", "load").carry("shift.toward")
        sheet = sheet.enter("sense", "clockwise").enter("there", MIRRORED).enter("ohms", IN_OHMS)

        assert [True] * 3 == [sheet.verdicts[key].follows for key in ("sense", "there", "ohms")]

    def test_half_a_wave(self):
        """A wave of half the length makes twice the shift, and the walk ends there."""
        sheet = blank(problem()).enter("wave", "20").carry("wave").enter("shift.waves", "0.35 wl")
        sheet = sheet.enter("there", written(z_at(1.4)))

        assert [True] * 2 == [sheet.verdicts[key].follows for key in ("shift.waves", "there")]

    @pytest.mark.parametrize("size", ["0", "1"])
    def test_no_circle(self, size):
        """A radius that makes no circle leads back to that step."""
        sheet = blank(problem()).enter("circle.size", size).carry("circle.size").enter("there", "1 - j")

        assert ("impossible", "circle") == (
            sheet.verdicts["there"].judgement, sheet.verdicts["there"].back_to
        )  # fmt: skip

    @pytest.mark.parametrize("wave", ["0.1", "0", "-40"])
    def test_a_wave_of_next_to_nothing(self, wave):
        """A wave so short that the shift cannot be meant leads back to that step."""
        sheet = blank(problem()).enter("wave", wave).carry("wave").enter("shift.waves", "0.1 wl")

        assert ("impossible", "wave") == (
            sheet.verdicts["shift.waves"].judgement, sheet.verdicts["shift.waves"].back_to
        )  # fmt: skip


def test_drawn():
    """The circle opened and the points put on the chart are right where the typed answers are."""
    sheet = blank(problem()).draw("circle.size", 0.5).draw("circle.lowest", -0.5 + 0j)
    sheet = sheet.draw("there", (Z - 1) / (Z + 1))

    assert {"right"} == {sheet.verdicts[key].judgement for key in ("circle.size", "circle.lowest", "there")}


def test_the_end_says_what_is_so():
    """The closing sentence is the solver's, also where a wrong value was carried on."""
    sheet = blank(problem()).enter("there", MIRRORED).carry("there").enter("ohms", IN_OHMS)

    assert f"The load is {50 * Z.real:.2f} − j{-50 * Z.imag:.2f} Ω" in closing(sheet.work)


def test_what_is_drawn():
    """Nothing is drawn of a load that is asked; when it is found it stands on the line up to its first minimum."""
    sheet = blank(problem())
    (plan,) = plans(sheet.enter("ohms", written(50 * Z)))

    assert () == plans(sheet)
    assert pytest.approx(50 * Z, rel=1e-3) == plan.network.load_impedance
    assert [0.175] == pytest.approx([one.length for one in plan.network.elements if isinstance(one, Section)])


def test_steps():
    """The steps come in the order of the derivation."""
    assert ["wave", "circle", "shift", "sense", "there", "ohms"] == [step.key for step in LESSON.steps]
