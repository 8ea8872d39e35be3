"""Which one to build as a lesson: its values against the core's response, its mistakes, its choice, its texts.

What a student writes is worked out here by plain arithmetic. That the mistakes are usual is common practice, no source.
"""

from math import pi, tan

import numpy as np
import pytest

from core import bandwidth, frequency_response, single_stub
from core.elements import Section, Stub
from core.network import MatchingNetwork
from lessons.course.near_and_far import BOTH, NEAR
from lessons.course.which_one_to_build import LESSON
from lessons.course.which_values import comes_back, exact_reach
from lessons.grammar.given_kinds import Percent
from lessons.grammar.kinds import LengthOfLine, Number, ReflectionSize
from lessons.grammar.lesson import Work
from lessons.grammar.notation import STANDARD, Notation
from lessons.grammar.numbers import Unreadable
from lessons.grammar.problem import Problem
from lessons.working.achieved import closing
from lessons.working.construction import plans, stroke_groups
from tests.lessons.course.test_shunt_stub import HALF_MADE
from tests.lessons.solving import blank, random_problem, shipped_problems, solved
from tests.lessons.solving import problem as any_problem

SEEDS = range(1, 40)


def problem(load: complex = 60 - 80j, line: float = 50.0, **others: object) -> Problem:
    """A problem of the lesson: five percent above the design's frequency, unless said otherwise."""
    return any_problem(load, line, LESSON, **others)


def by_the_core(given: Problem, error: float) -> list[float]:
    """|Γ| of both solutions with an error, by the network evaluator."""
    found = single_stub(given["load"], given["line"], None, given["method"], given["end"])
    if given["off"] == "frequency":
        return [float(abs(frequency_response(one, 1 + error).reflection)) for one in found]
    stretched = [(1 + error, 1.0), (1.0, 1 + error)][given["off"] == "stub"]
    sizes: list[float] = []
    for one in found:
        line, stub = (
            part * stretch for part, stretch in zip((one.distance, one.stub_length), stretched, strict=True)
        )
        ends = Section(line, given["line"]), Stub(stub, given["line"], given["method"], given["end"])
        sizes.append(float(abs(MatchingNetwork(given["load"], given["line"], ends).input_reflection())))
    return sizes


class TestValues:
    @pytest.mark.parametrize("seed", SEEDS)
    def test_what_comes_back(self, seed):
        """|Γ| of both solutions is the core's for the same error, and what the lesson's network shows as well."""
        given = random_problem(seed, LESSON)
        work = blank(given).truth
        shown = [LESSON.network(work, one, LESSON.fields).input_reflection() for one in BOTH]  # type: ignore[union-attr]

        assert pytest.approx(by_the_core(given, given["by"] / 100)) == [work.of("back", one) for one in BOTH]
        assert pytest.approx([work.of("back", one) for one in BOTH]) == np.abs(shown).tolist()

    @pytest.mark.parametrize("seed", SEEDS)
    def test_exact_edges(self, seed):
        """At both edges that the closing tells the ratio is the one allowed; for a frequency they are the core's."""
        given = random_problem(seed, LESSON)
        allowed = (given["allowed"] - 1) / (given["allowed"] + 1)
        for index, branch in enumerate(BOTH):
            below, above = exact_reach(given, branch)
            for edge in (-below, above):
                if np.isfinite(edge):
                    assert pytest.approx(allowed, rel=1e-4) == by_the_core(given, edge)[index]
            if given["off"] == "frequency":
                found = single_stub(given["load"], given["line"], None, given["method"], given["end"])[index]
                band = bandwidth(found, given["allowed"])
                assert [band.below, band.above] == [below, above]

    @pytest.mark.parametrize("seed", SEEDS)
    def test_the_estimate_is_one(self, seed):
        """In what is drawn, the ratio at the estimated error is near the one allowed, in both solutions."""
        given = random_problem(seed, LESSON)
        work = blank(given).truth
        allowed = (given["allowed"] - 1) / (given["allowed"] + 1)
        sizes = [
            float(comes_back(given, one, np.sign(given["by"]) * work.of("reach", one) / 100)) for one in BOTH
        ]

        assert [pytest.approx(allowed, rel=0.25)] * 2 == sizes

    def test_no_edge(self):
        """A piece of which no error does harm is followed to half of its length, and no farther."""
        given = problem(51 - 2j, off="line", allowed=2.0)

        assert (float("inf"), float("inf")) == exact_reach(given, NEAR)
        assert "more than 50 % too short to more than 50 % too long" in closing(blank(given).truth)

    def test_only_what_is_off_changes(self):
        """A line cut wrong leaves the stub as it was designed, and nobody is asked for its length."""
        sheet = blank(problem(off="line", by=-10.0))
        near, _ = single_stub(60 - 80j, 50)

        assert pytest.approx([0.9 * near.distance, near.stub_length]) == [
            sheet.truth.of(one, NEAR) for one in ("distance_off", "length_off")
        ]
        assert "length_off" not in [step.key for step in sheet.steps]
        assert "length_off" in [step.key for step in blank(problem(off="stub")).steps]


@pytest.mark.parametrize(
    ("given", "sentence"), [(problem(50 + 0j), "matched already"), (problem(20j), "no power")]
)
def test_refused(given, sentence):
    """What cannot be matched, or need not, has no two solutions to choose from."""
    truth = blank(given).truth

    assert sentence in LESSON.refuses(given)
    assert not HALF_MADE.search(truth.say(LESSON.task))
    assert "" == closing(truth)


class TestGivens:
    @pytest.mark.parametrize(("text", "value"), [("5", 5), ("-5 %", -5), ("−2.5", -2.5), ("+10%", 10)])
    def test_percent(self, text, value):
        """An error is a number of percent with its sign."""
        kind = Percent("error", 0.5, 20, "5")

        assert value == kind.read(text) == kind.read(kind.write(value))

    @pytest.mark.parametrize("text", ["0", "0.1", "-40", "21 %"])
    def test_silly_sizes(self, text):
        """An error that is none, or that leaves nothing of a match, is refused with what is allowed."""
        with pytest.raises(
            Unreadable, match=r"from 0\.5 to 20 percent, one way or the other, such as 5 or −5"
        ):
            Percent("error", 0.5, 20, "5").read(text)


ABOVE, OPEN = problem(), problem(end="open", by=-10.0)
STUB, SERIES = problem(off="stub", by=-10.0), problem(100 + 50j, method="series", by=10.0)
LINE = problem(off="line", by=10.0)
# 60 - j80 on 50 ohm: y = 0.3 + j0.4, designed near 0.1104 and 0.0950, far 0.2594 and 0.4050 of a wave
Y, D, L = 0.3 + 0.4j, single_stub(60 - 80j, 50)[0].distance, single_stub(60 - 80j, 50)[0].stub_length
FAR_D = single_stub(60 - 80j, 50)[1].distance


def after(length: float) -> complex:
    """What 0.3 + j0.4 becomes after so much line, by the tangent (Pozar, 4th ed., eq. 2.44, from memory)."""
    t = 1j * tan(2 * pi * length)
    return (Y + t) / (1 + t * Y)


def shorted(length: float) -> float:
    """The susceptance of a shorted stub (Pozar, 4th ed., eq. 2.45c, from memory)."""
    return -1 / tan(2 * pi * length)


TOTAL = after(1.05 * D) + 1j * shorted(1.05 * L)
BACK = abs(TOTAL - 1) / abs(TOTAL + 1)
NAMED = [
    (ABOVE, "distance_off.near", D, "as designed"),
    (ABOVE, "distance_off.near", D / 1.05, "other way"),
    (ABOVE, "length_off.far", 0.95 * 0.4050, "other way"),
    (ABOVE, "distance_off.near", 1.05**2 * D, "twice"),
    (ABOVE, "distance_off.near", 1.5 * D, "tenfold"),
    (ABOVE, "length_off.far", 0.05 * 0.4050, "change alone"),
    (ABOVE, "distance_off.near", D + 0.05, "of a wave"),
    (ABOVE, "length_off.near", 1.05 * D, "lengths exchanged"),
    (ABOVE, "length_off.near", 1.05 * 0.4050, "branches mixed"),
    (ABOVE, "arriving.near", after(D), "as designed"),
    (ABOVE, "arriving.near", after(-1.05 * D), "wrong way"),
    (ABOVE, "arriving.near", after(1.05 * D / 2), "double angle"),
    (ABOVE, "arriving.near", after(2.1 * D), "half angle"),
    (ABOVE, "arriving.near", Y, "not walked"),
    (ABOVE, "arriving.near", 1 / after(1.05 * D), "one over it"),
    (ABOVE, "arriving.near", after(1.05 * D).conjugate(), "sign lost"),
    (ABOVE, "shows.near", shorted(L), "as designed"),
    (ABOVE, "shows.near", -shorted(1.05 * L), "sign lost"),
    (ABOVE, "shows.near", tan(2 * pi * 1.05 * L), "wrong end"),
    (ABOVE, "shows.near", shorted(2.1 * L), "half angle"),
    (ABOVE, "shows.near", shorted(1.05 * L / 2), "double angle"),
    (ABOVE, "total.near", after(1.05 * D), "stub left out"),
    (ABOVE, "total.near", after(1.05 * D) - 1j * shorted(1.05 * L), "subtracted"),
    (ABOVE, "total.near", after(1.05 * D) + 1j * shorted(L), "stub as designed"),
    (LINE, "total.far", after(1.1 * FAR_D) - shorted(L), "to the real part"),
    (ABOVE, "total.near", after(D) + 1j * shorted(1.05 * L), "line as designed"),
    (ABOVE, "total.near", 1j * TOTAL.imag, "real part lost"),
    (ABOVE, "total.near", 1, "match taken for granted"),
    (ABOVE, "back.near", (1 + BACK) / (1 - BACK), "ratio"),
    (ABOVE, "back.near", BACK**2, "power"),
    (ABOVE, "back.near", abs(TOTAL - 1), "not divided"),
    (ABOVE, "back.near", 1 / BACK, "upside down"),
    (ABOVE, "back.near", abs(TOTAL.real - 1) / (TOTAL.real + 1), "real part alone"),
    (ABOVE, "back.near", abs((after(1.05 * D) - 1) / (after(1.05 * D) + 1)), "without the stub"),
    (ABOVE, "limit", 0.5, "less one"),
    (ABOVE, "limit", 0.5 / 1.5, "by the ratio"),
    (ABOVE, "limit", 5, "upside down"),
    (ABOVE, "limit", 0.04, "power"),
    (ABOVE, "reach.near", 5 * BACK / 0.2, "upside down"),
    (ABOVE, "reach.near", 2 * 5 * 0.2 / BACK, "both ways"),
    (ABOVE, "reach.near", 5 * 1.5 * (1 - BACK) / (1 + BACK), "by ratios"),
    (ABOVE, "reach.near", 5 * (0.2 / BACK) ** 2, "squared"),
    (ABOVE, "reach.near", 0.2 / BACK, "factor alone"),
    (ABOVE, "reach.near", 5 * 0.2 / BACK - 5, "how much more"),
    (OPEN, "distance_off.near", 1.1 * D, "other way"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("given", "key", "value", "slip"), NAMED, ids=[f"{key}, {slip}" for _, key, _, slip in NAMED]
)
def test_slips_are_named(given, key, value, slip):
    """Whoever makes the mistake is told which it is, or asked about it where another gives the same number."""
    unit = " wl" if "off" in key else ""
    verdict = blank(given).enter(key, f"{value:.5f}".strip("()") + unit).verdicts[key]

    assert "slip" == verdict.judgement
    assert slip in verdict.suspected


class TestFollowThrough:
    def test_the_lengths_of_the_design(self):
        """Who goes on from the length of the design is right in what follows from it, and told that it does."""
        sheet = blank(ABOVE).enter("distance_off.near", f"{D:.4f} wl").carry("distance_off.near")
        line = after(round(D, 4))
        sheet = sheet.enter("arriving.near", f"{line:.4f}".strip("()"))

        assert sheet.verdicts["arriving.near"].follows

    def test_a_match_that_cannot_be(self):
        """Where by a wrong sheet nothing comes back, there is no proportion, and the way back leads to the junction."""
        sheet = blank(ABOVE).enter("back.near", "0").carry("back.near").enter("reach.near", "5")

        assert ("impossible", "arriving") == (
            sheet.verdicts["reach.near"].judgement,
            sheet.verdicts["reach.near"].back_to,
        )

    def test_the_end_says_what_is_so(self):
        """The closing sentence is the solver's, whatever the sheet has made of it."""
        sheet = blank(ABOVE).enter("back.near", "0.5").carry("back.near")

        assert closing(sheet.truth) == closing(sheet.work)


class TestChoice:
    @pytest.mark.parametrize(
        "given", [ABOVE, problem(off="line", by=-10.0, end="open")], ids=["less line", "more"]
    )
    def test_the_worked_example_takes_the_one_that_bears_it(self, given):
        """It takes the solution that less comes back from, also where that is the one with more line."""
        truth = blank(given).truth
        expected = min(BOTH, key=lambda one: float(truth.of("back", one))).key

        assert (expected, "less comes back") == (truth["choose.which"], truth["choose.why"])

    def test_an_untrue_reason(self):
        """That less comes back from the other one is no reason for this one."""
        sheet = solved(ABOVE).enter("choose.which", "far").enter("choose.why", "less comes back")

        assert ("slip", "untrue less comes back") == (
            sheet.verdicts["choose.why"].judgement,
            sheet.verdicts["choose.why"].slip,
        )
        assert "right" == sheet.enter("choose.why", "more room").verdicts["choose.why"].judgement

    @pytest.mark.parametrize(
        ("given", "verdict"),
        [
            (ABOVE, "The near one bears more, either way."),
            (problem(off="stub", method="series", end="open"), "The far one bears more, either way."),
            (problem(end="open"), "depends on the way it is off"),
        ],
        ids=["near", "far", "either"],
    )
    def test_what_the_end_says_of_both(self, given, verdict):
        """Which one bears more is said of both ways of being off, and of neither where they differ."""
        assert verdict in closing(blank(given).truth)


class TestTexts:
    def test_what_is_told(self):
        """The task tells both designs in the course's symbols and units, and that the load is taken to stay."""
        notation = Notation({"d": "D", "l": "ℓ"}, length="degrees")
        task = Work(LESSON, ABOVE, notation).say(LESSON.task)

        assert f"near, D = {360 * D:.2f}° and ℓ = {360 * L:.2f}°" in task
        assert "The load is taken to stay as it is." in task
        assert "taken to stay" not in Work(LESSON, LINE, notation).say(LESSON.task)

    def test_a_series_stub_speaks_of_impedance(self):
        """Nothing across the line, nothing of admittance."""
        work = blank(SERIES).truth
        said = " ".join(
            work.say(text) for step in LESSON.steps_of(SERIES) for text in (step.ask, step.rule, step.because)
        )

        assert "admittance" not in said
        assert "susceptance" not in said
        assert "reactance" in said

    def test_the_estimate_is_called_one(self):
        """The estimate is said to be no more, with the exact one beside it."""
        step = next(one for one in LESSON.steps if one.key == "reach")

        assert "An estimate, no more. Exactly: near 11.4 % above; far 2.9 % above." == blank(ABOVE).truth.say(
            step.because
        )


class TestDrawn:
    def test_every_step_draws(self):
        """Each step up to what is allowed leaves something on the chart, and both circles of |Γ| have their size."""
        drawn = dict(stroke_groups(solved(ABOVE)))
        (near, far) = drawn["back"]

        assert {
            "place",
            "admittance",
            "distance_off",
            "length_off",
            "arriving",
            "shows",
            "total",
            "back",
            "limit",
        } == {*drawn}
        assert [pytest.approx(BACK, abs=1e-3), pytest.approx(0.366, abs=1e-3)] == [
            near.circle.radius,  # type: ignore[union-attr]
            far.circle.radius,  # type: ignore[union-attr]
        ]

    def test_the_line_drawing(self):
        """It shows both designs, and then each piece as long as it acts."""
        sheet = blank(ABOVE)
        drawn = [sheet, sheet.enter("distance_off.near", f"{1.05 * D:.4f} wl")]
        lengths = [
            [one.length for one in plans(each)[0].network.elements if isinstance(one, Section | Stub)]
            for each in drawn
        ]

        assert [pytest.approx([D, L]), pytest.approx([1.05 * D, L], abs=1e-4)] == lengths


class TestKinds:
    def test_a_calculated_length(self):
        """A calculated length is a thousandth of a wave off at most, on a chart's sheet too, and has four decimals."""
        read, calculated = LengthOfLine(), LengthOfLine(arithmetic=True)

        assert read.off_by(0.115, 0.111, "chart") < 1 < 2 < calculated.off_by(0.115, 0.111, "chart")
        assert ("0.111 λ", "0.1110 λ") == tuple(one.write(0.111, STANDARD) for one in (read, calculated))

    def test_where_a_length_lies(self):
        """A length that is nearly right is said to be a little off, not some twentieth of a wave."""
        kind = LengthOfLine(arithmetic=True)

        assert "It is a little too long." == kind.where(0.123, 0.111, STANDARD)
        assert "It is some 0.05 wavelength too short." == kind.where(0.06, 0.111, STANDARD)

    def test_three_decimals_of_a_small_size(self):
        """|Γ| to three decimals is right however small it is, also where it is calculated."""
        assert (
            ReflectionSize().off_by(0.054, 0.0535, "calculated")
            < 1
            < ReflectionSize().off_by(0.056, 0.0535, "calculated")
        )

    def test_worked_out_with_a_tolerance(self):
        """A number that is worked out is no reading, for all that so much may be off."""
        assert Number(tolerance=0.1, worked_out=True).arithmetic
        assert not Number(tolerance=0.1).arithmetic


def test_steps():
    """The steps come in the order of the derivation; a series stub needs no admittance."""
    agreed = [
        "normalise", "place", "admittance", "distance_off", "length_off", "arriving", "shows", "total", "back",
        "limit", "reach", "choose",
    ]  # fmt: skip

    assert agreed == [step.key for step in LESSON.steps_of(ABOVE)]
    assert "admittance" not in [step.key for step in LESSON.steps_of(SERIES)]


@pytest.mark.parametrize("given", shipped_problems(LESSON), ids=lambda given: given.key)
def test_shipped_problems_differ(given):
    """In every problem that is shipped one solution sends back clearly less, and no piece is too short to see."""
    near, far = by_the_core(given, given["by"] / 100)

    assert abs(near - far) > 0.05
    assert LESSON.instructive(given)
