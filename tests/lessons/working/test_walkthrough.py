"""The walkthrough: the lesson's own steps, frame by frame, with what is to be found out kept apart."""

from dataclasses import replace
from itertools import product

import pytest

from lessons.course.givens import load_at
from lessons.course.shunt_stub import LESSON
from lessons.grammar.notation import Notation
from lessons.grammar.strokes import Way
from lessons.working.construction import stroke_groups
from lessons.working.sheet import Sheet
from lessons.working.walkthrough import Frame, showings, walkthrough, without_value
from tests.lessons.solving import NOTATIONS, OVERLAY, blank, changed, problem, shipped, shipped_problems
from tests.reference.single_stubs import LAST_DIGIT, printed

SHOWINGS = tuple(key for key, _ in showings(LESSON))
FLOAT = problem(60 - 80j, frequency=868e6, velocity=0.66)
"""The whip over a float."""


def by_key(frames: tuple[Frame, ...]) -> dict[str, Frame]:
    """Frames by their keys."""
    return {frame.key: frame for frame in frames}


def found_out(frame: Frame) -> list[str]:
    """The values that a frame leads to."""
    return [outcome.text for outcome in frame.outcomes]


def tutor_solved(sheet: Sheet) -> Sheet:
    """The sheet with every step worked by the tutor."""
    return replace(sheet, shown=len(sheet.steps))


class TestFrames:
    def test_one_for_each_step(self):
        """Side by side there is one frame a step, between the opening and what the design achieves."""
        steps = [step.key for step in LESSON.steps_of(FLOAT)]

        assert ["opening", *steps, "closing"] == [frame.key for frame in walkthrough(LESSON, FLOAT)]

    def test_words_are_the_steps(self):
        """Every word of a frame is the step's own, with the course's symbols put in."""
        frames, work = by_key(walkthrough(LESSON, FLOAT)), blank(FLOAT).truth

        for step in LESSON.steps_of(FLOAT):
            frame = frames[step.key]
            assert (step.title, work.say(step.ask), work.say(step.rule)) == (
                frame.title,
                frame.ask,
                frame.rule,
            )
            assert (step.numbers(work), work.say(step.because)) == (frame.numbers, frame.because)

    @pytest.mark.parametrize("notation", NOTATIONS[::5], ids=str)
    def test_values_are_the_solvers(self, notation: Notation):
        """Every value is the solver's own answer to the field, written as the course writes it."""
        work = blank(FLOAT, notation).truth
        shown = {text for frame in walkthrough(LESSON, FLOAT, notation) for text in found_out(frame)}

        assert shown == {work.write(field.key) for step in LESSON.steps_of(FLOAT) for field in step.fields}

    @pytest.mark.parametrize("showing", SHOWINGS[:2])
    @pytest.mark.parametrize("given", shipped_problems(), ids=lambda p: p.key)
    def test_draws_what_practice_draws(self, given, showing):
        """Stroke for stroke the walkthrough draws what stands on a solved sheet, each stroke once."""
        practised = [s for _, strokes in stroke_groups(tutor_solved(blank(given))) for s in strokes]
        drawn = [s for frame in walkthrough(LESSON, given, showing=showing) for s in frame.strokes]

        assert set(practised) == set(drawn)
        assert len(drawn) == len(set(drawn))

    def test_steps_left_out(self):
        """A step that the problem leaves out has no frame, and numbers run on."""
        frames = walkthrough(LESSON, replace(FLOAT, without=frozenset({"place", "needed"})))

        assert not {"place", "needed"} & set(by_key(frames))
        assert list(range(len(frames))) == [frame.number for frame in frames]

    @pytest.mark.parametrize("load", [0, 25j, complex("inf"), 50, 50 + 0.001j])
    def test_up_to_where_it_ends(self, load):
        """A load that the lesson refuses is shown with its point and circle, and why there is nothing more."""
        frames = by_key(walkthrough(LESSON, problem(load)))

        assert frames["place"].strokes
        assert frames["mismatch"].strokes
        assert "crossing" not in frames
        assert LESSON.refuses(problem(load)) == frames["closing"].numbers


class TestLengths:
    @printed("shunt")
    def test_agree_with_print(self, example):
        """Distances and stub lengths shown agree with printed examples to one in the last printed digit."""
        frames = by_key(walkthrough(LESSON, problem(example.load, example.line, end=example.end)))
        shown = [
            float(one.text.removesuffix(" λ"))
            for key in ("distance", "length")
            for one in frames[key].outcomes
        ]

        assert pytest.approx([*example.distances, *example.lengths], abs=LAST_DIGIT + 1e-5) == shown

    def test_follow_the_load(self):
        """Another load gives other values in every frame that is about the load."""
        one, other = (by_key(walkthrough(LESSON, problem(load))) for load in (60 - 80j, 25 - 40j))
        same = {key for key in one if one[key].outcomes and found_out(one[key]) == found_out(other[key])}

        assert same == {"unit_circle", "start", "total", "choose"}


class TestShowing:
    def test_in_turn(self):
        """In turn, near comes before far, each in a frame of its own."""
        keys = [frame.key for frame in walkthrough(LESSON, FLOAT, showing="in turn")]

        for step in ("crossing", "susceptance", "distance", "needed", "length", "total"):
            assert keys[keys.index(f"{step}.near") + 1] == f"{step}.far"

    @pytest.mark.parametrize(("side", "other"), [("near", "far"), ("far", "near")])
    def test_alone(self, side, other):
        """One solution alone shows no value and no stroke of the other."""
        frames = walkthrough(LESSON, FLOAT, showing=side)

        assert len(frames) == len(walkthrough(LESSON, FLOAT))
        assert not any(
            outcome.branch and outcome.branch.key == other for frame in frames for outcome in frame.outcomes
        )
        roles = {stroke.role for frame in frames for stroke in frame.strokes}
        assert {"near": "first", "far": "second"}[side] in roles
        assert {"near": "first", "far": "second"}[other] not in roles

    @pytest.mark.parametrize("showing", SHOWINGS)
    def test_same_values(self, showing):
        """However near and far are shown, a value is the same."""
        together = {(o.label, o.branch): o.text for f in walkthrough(LESSON, FLOAT) for o in f.outcomes}
        shown = {
            (o.label, o.branch): o.text
            for f in walkthrough(LESSON, FLOAT, showing=showing)
            for o in f.outcomes
        }

        assert shown.items() <= together.items()


class TestKeptApart:
    @pytest.mark.parametrize("notation", [Notation(), OVERLAY], ids=["half turn", "overlay"])
    def test_what_is_seen_at_once(self, notation):
        """What is asked and how it is done holds none of the numbers that are to be found out."""
        for frame in walkthrough(LESSON, FLOAT, notation):
            numbers = [text for text in found_out(frame) if any(sign.isdigit() for sign in text)]
            said = f"{frame.ask} {frame.rule} {frame.spoken}"
            assert [] == [text for text in numbers if text in said and "=" not in text]

    def test_spoken_values(self):
        """Whoever listens hears every value that others see."""
        for frame in walkthrough(LESSON, FLOAT):
            assert all(text in frame.spoken_values for text in (*found_out(frame), frame.numbers))

    def test_strokes_without_value(self):
        """A stroke in words without its value holds no number but that of a circle's name."""
        strokes = [s for frame in walkthrough(LESSON, FLOAT) for s in frame.strokes]
        words = [without_value(stroke, LESSON) for stroke in strokes]

        assert ["g = 1"] == [
            s.label for s, text in zip(strokes, words, strict=True) if any(c.isdigit() for c in text)
        ]
        assert all(
            stroke.label.replace("_", " ") in text for stroke, text in zip(strokes, words, strict=True)
        )


class TestUsualSlips:
    def test_give_what_is_heard(self):
        """Beside each slip stands the number that betrays it: 0.390 wavelength is the walk the wrong way."""
        slips = by_key(walkthrough(LESSON, FLOAT, showing="near"))["distance.near"].slips
        wrong_way = next(slip for slip in slips if "toward the load" in slip.doing)

        assert ("0.390 λ",) == wrong_way.gives
        assert "clockwise" in wrong_way.remedy

    def test_never_the_right_value(self):
        """No slip is told by a value that is right in the same place: that would call a right answer a mistake."""
        for given in shipped_problems():
            for frame in walkthrough(LESSON, given, showing="near"):
                right = found_out(frame)
                for gives in (slip.gives for slip in frame.slips):
                    in_place = (
                        zip(gives, right, strict=True) if len(gives) == len(right) else product(gives, right)
                    )
                    assert all(wrong != value for wrong, value in in_place), frame.key

    def test_powers_of_ten(self):
        """A length that is wrong by a power of ten is told by the nearest of them: ten times as long."""
        given = shipped("whip-434")
        slips = by_key(walkthrough(LESSON, given))["millimetres"].slips
        lengths = [blank(given).truth[f"millimetres.{one}"] for one in ("distance", "length")]

        assert [tuple(f"{10 * length:.1f} mm" for length in lengths)] == [
            slip.gives for slip in slips if "powers of ten" in slip.doing
        ]

    def test_only_those_that_can_be_made(self):
        """With a stub like the line nobody goes wrong by the ratio of their impedances."""
        alike, unlike = (by_key(walkthrough(LESSON, p)) for p in (FLOAT, changed(FLOAT, stub=75.0)))

        assert len(unlike["length"].slips) == len(alike["length"].slips) + 2

    def test_once_for_near_and_far(self):
        """A slip that can be made at both crossings is told once, with both its values."""
        told = [slip.doing for slip in by_key(walkthrough(LESSON, FLOAT))["distance"].slips]

        assert len(told) == len(set(told))


class TestNotation:
    def test_symbols(self):
        """The course's symbols stand in the words, at the values and beside the strokes."""
        frames = by_key(
            walkthrough(LESSON, FLOAT, Notation({"d": "s", "l": "t"}, imaginary="i", length="degrees"))
        )

        assert "give s" in frames["distance"].ask
        assert "stub length t" in {outcome.label for outcome in frames["length"].outcomes}
        assert {"s"} == {s.label for s in frames["distance"].strokes if isinstance(s, Way)}
        assert ["0.300 + i0.400"] == found_out(frames["admittance"])
        assert all(text.endswith("°") for text in found_out(frames["distance"]))

    def test_overlay(self):
        """Where admittance is read on a second grid, the rule says so."""
        assert "dotted grid" in by_key(walkthrough(LESSON, FLOAT, OVERLAY))["admittance"].rule


class TestLoadByHand:
    @pytest.mark.parametrize(
        ("reflection", "line", "load"),
        [
            pytest.param(0, 50, 50, id="centre"),
            pytest.param(1 / 3, 50, 100, id="twice the line"),
            pytest.param(0.5j, 50, 30 + 40j, id="by hand: (1 + 0.5j) / (1 - 0.5j) = 0.6 + 0.8j"),
            pytest.param(-1, 75, 0, id="short"),
            pytest.param(1j, 50, 50j, id="on the rim"),
            pytest.param(0.1 + 0.1j, 50, 60 + 12j, id="whole ohms on 50"),
            pytest.param(0.1, 3, 3.7, id="tenths on 3"),
            pytest.param(0.5, 600, 1800, id="tens on 600"),
        ],
    )
    def test_is_round(self, reflection, line, load):
        """A point put by hand is a load in round numbers."""
        assert load == load_at(reflection, line)

    def test_open(self):
        """The open point is an open circuit."""
        assert load_at(1, 50) == complex("inf")

    def test_never_negative(self):
        """No rounding takes the resistance below zero."""
        assert load_at(-1 + 1e-17j, 50).real == 0
