"""A student's own working: every line marked with why, later ones from the student's own, and nothing shown unasked."""

from dataclasses import replace

import pytest

from core.network import Section, Stub
from lessons.course.shunt_stub import LESSON
from lessons.grammar.kinds import Choice
from lessons.grammar.notation import Notation
from lessons.grammar.problem import Problem
from lessons.homework.working import LONGEST_WORKING, MarkedLine, TooLong, Working
from lessons.working.construction import stroke_groups
from tests.lessons.homework.examples import (
    DEGREES,
    DEGREES_NOTATION,
    HOMEWORKS,
    JUDGED,
    OHMS,
    TEXTS,
    WAVELENGTHS,
)
from tests.lessons.solving import (
    HALF_TURN,
    blank,
    changed,
    notation_from,
    problem,
    read_problem,
    solved,
)

POZAR = read_problem(TEXTS).problem


def working(text: str, given: Problem = POZAR, notation: Notation = HALF_TURN) -> Working:
    """A working of a problem, from its text."""
    return Working(LESSON, given, notation, text)


def judged(own: Working) -> dict[str, str]:
    """What is said of each line, by the field it answers."""
    return {
        line.field.key: "follows" if line.verdict.follows else line.verdict.judgement for line in own.lines
    }


def line(own: Working, key: str) -> MarkedLine:
    """The line of that key."""
    return next(line for line in own.lines if line.key == key)


def lengths_of(own: Working) -> list[float]:
    """Lengths of the near design, wavelengths."""
    return [
        one.length for one in own.designs["design.near"].network.elements if isinstance(one, Section | Stub)
    ]


class TestHomework:
    @pytest.mark.parametrize(("text", "notation"), HOMEWORKS.values(), ids=HOMEWORKS)
    def test_twelve_lines(self, text: str, notation: dict[str, str]):
        """Twelve lines with two slips and one line that follows a slip are marked alike in three courses' notation."""
        own = working(text, notation=notation_from(notation)[0])

        assert JUDGED == judged(own)
        assert () == own.unread
        assert 12 == len(own.lines)

    def test_in_the_order_of_the_derivation(self):
        """The list is in the order of the derivation, whatever order the lines are in."""
        steps = [line.step.key for line in working("\n".join(reversed(WAVELENGTHS.split("\n")))).lines]

        assert [line.step.key for line in working(WAVELENGTHS).lines] == steps
        assert steps == sorted(steps, key=[step.key for step in LESSON.steps].index)

    def test_slips_are_named(self):
        """A slip is named, and one that several slips can be asks the questions that tell them apart."""
        own = working(WAVELENGTHS)
        nothing_before = working("z = 1.2-j1.6\nbs near = 1.47")

        assert "walking toward the load" in line(own, "distance.far").verdict.sentence
        assert "leaving the sign as it was" in line(own, "needed.near").verdict.sentence
        assert "Did you flip the sign?" in line(nothing_before, "needed.near").verdict.sentence
        assert "Right for your earlier values" in line(own, "length.near").verdict.sentence

    def test_as_in_practice(self):
        """The solver's own values, in the names of the course, are right in every line."""
        for notation in (HALF_TURN, Notation({"d": "s", "l": "t"}, "overlay", "i", length="degrees")):
            sheet = solved(POZAR, notation)
            own = working("", notation=notation).entered(
                {key: entry.text for key, entry in sheet.entries.items()}
            )

            assert {"right"} == set(judged(own).values())
            assert len(own.lines) == len(sheet.entries)


class TestWhichSolution:
    def test_numbered_the_other_way(self):
        """A student's 1 and 2 may be the far and the near solution: they are taken as they fit, and it is said."""
        own = working("d1 = 0.260\nd2 = 0.110\nl1 = 0.405\nl2 = 0.095\ny1 = 1 - j1.47")

        assert {"right"} == set(judged(own).values())
        assert "d1 = 0.260" == line(own, "distance.far").statement.written
        assert "1 for the far one" in own.remarks[0]
        assert () == working("d1 = 0.110\nd2 = 0.260").remarks

    def test_letters(self):
        """A and b serve as well as 1 and 2."""
        assert {"right"} == set(judged(working("d_a = 0.110\nd_b = 0.260\nl_a = 0.095")).values())

    @pytest.mark.parametrize(
        ("side", "values"), [("near", (1.47, 0.110, -1.47, 0.095)), ("far", (-1.47, 0.26, 1.47, 0.405))]
    )
    def test_no_mark_at_all(self, side: str, values: tuple[float, ...]):
        """Lines without a mark are one solution: the one they fit best, and it is said."""
        own = working("b = {}\nd = {}\nbs = {}\nl = {}".format(*values))

        assert {
            f"{what}.{side}": "right" for what in ("susceptance", "distance", "needed", "length")
        } == judged(own)
        assert all(f"it fits the {side} one best" in line.notes[0] for line in own.lines)

    def test_no_mark_and_one_wrong(self):
        """A wrong line without a mark goes with the right ones, where its slip can be named."""
        own = working("b = 1.47\nd = 0.390\nl = 0.095")

        assert "walking toward the load" in line(own, "distance.near").verdict.sentence

    def test_mixed_solutions(self):
        """The length of one solution with the distance of the other is a slip, not two right lines."""
        own = working("b = 1.47\nd = 0.110\nl = 0.405")

        assert (
            "branches mixed" == line(own, "length.near").verdict.slip or "slip" == judged(own)["length.near"]
        )

    def test_two_without_a_mark(self):
        """Two values without a mark are one of each solution, in either order."""
        for text in (
            "d = 0.110\nd = 0.260",
            "d = 0.260\nd = 0.110",
            "d = 0.260 and 0.110",
            "d far = 0.26\nd = 0.11",
        ):
            assert {"distance.near": "right", "distance.far": "right"} == judged(working(text)), text

    def test_both_crossings(self):
        """Both crossings may be written as 1 ± jb."""
        assert {"crossing.near": "right", "crossing.far": "right"} == judged(working("y = 1 ± j1.47"))

    def test_the_loads_or_the_crossings(self):
        """A y without a mark is the load's or a crossing's, whichever it fits."""
        own = judged(working("y = 1 - j1.47\ny = 0.3 + j0.4"))

        assert {"admittance": "right", "crossing.far": "right"} == own


class TestUnits:
    def test_ohms_or_normalised(self):
        """A capital without a unit is taken as it fits, and the reading in ohms is said."""
        assert "Taken in ohms" in line(working("Z = 60-80j"), "normalise").notes[0]
        assert () == line(working("Z = 1.2-1.6j"), "normalise").notes
        assert "right" == judged(working("Z = 1.2-1.6j"))["normalise"]

    def test_left_in_ohms(self):
        """A small z in ohms without a unit is the slip of leaving it so."""
        assert "leaving the load in ohms" in line(working("z = 60-80j"), "normalise").verdict.sentence

    def test_bare_degrees_and_millimetres(self):
        """A number without a unit, too large for wavelengths, is taken in degrees or millimetres, and it is said."""
        assert "Taken in degrees" in line(working("d near = 39.7"), "distance.near").notes[0]
        assert "Taken in millimetres" in line(working("d near = 25.2"), "millimetres.distance.near").notes[0]

    def test_wavelengths_in_a_course_of_degrees(self):
        """In a course of degrees a number below one is taken in wavelengths, where it fits so."""
        own = working("d near = 0.110", notation=Notation(length="degrees"))

        assert "right" == judged(own)["distance.near"]

    def test_millimetres_stand_for_the_length(self):
        """Millimetres alone give the length: later values follow from it, and the design is built with it."""
        own = working("y near = 1+j1.47\nd near = 25.2 mm\nl near = 92.3 mm\ny total near = 1 + j2.94")

        assert "distance.near" == own.lines[1].field.key
        assert "follows" == judged(own)["total.near"]
        assert [25.2 / 227.945, 92.3 / 227.945] == pytest.approx(lengths_of(own), rel=1e-4)

    def test_millimetres_beside_wavelengths(self):
        """Beside the same length in wavelengths they are judged from that: 0.25 of 227.9 mm follows from 0.25."""
        own = working("d near = 0.250\nd near = 57.0 mm")

        assert "wrong" == judged(own)["distance.near"]
        assert "right" == line(own, "millimetres.distance.near").verdict.judgement

    def test_velocity_forgotten(self):
        """Millimetres of free space are the slip of forgetting the velocity factor, also without wavelengths beside."""
        for text in ("d near = 38.1 mm", "d near = 0.110\nd near = 38.1 mm"):
            verdict = line(working(text), "millimetres.distance.near").verdict
            assert "velocity ignored" == verdict.slip, text

    def test_another_stub(self):
        """With a stub of 75 ohm a siemens value is normalised by the chart that it fits."""
        own = working("Bs1 = -29.4 mS\nb own near = -2.21\nl1 = 0.068", problem(60 - 80j, stub=75.0))

        assert {"needed.near": "right", "own.near": "right", "length.near": "right"} == judged(own)


class TestFollowing:
    def test_wrong_values_are_carried(self):
        """A wrong value is carried without asking: one error costs one line."""
        own = working("z = 1.2+1.6j\nΓ = 0.593 < 46.85\nSWR = 3.91\ny = 0.3 - j0.4")

        assert {
            "normalise": "slip",
            "place": "follows",
            "mismatch": "right",
            "admittance": "follows",
        } == judged(own)

    def test_from_the_solver_where_nothing_stands(self):
        """What was not given follows from the solver, so any line can be checked alone."""
        for key, text in solved(POZAR).entries.items():
            own = working("").entered({key: text.text})
            assert ["right"] == [line.verdict.judgement for line in own.lines], key

    def test_impossible(self):
        """A value that nothing can follow from is blamed where the next line stands."""
        own = working("y = 0\nd near = 0.2")

        assert "impossible" == judged(own)["distance.near"]
        assert "admittance" == line(own, "distance.near").verdict.back_to

    def test_written_again(self):
        """Of two lines for the same the last one counts, and the first is marked all the same."""
        own = working("bs near = 1.47\nbs near = -1.47\nl near = 0.095")

        assert ["slip", "right", "right"] == [line.verdict.judgement for line in own.lines]
        assert not own.lines[2].verdict.follows
        assert "written again further down" in own.lines[0].notes[-1]


class TestUnread:
    def test_one_line(self):
        """A line that cannot be read gets a sentence naming it, and the rest is marked."""
        own = working(WAVELENGTHS.replace("SWR = 3.91", "SWR = much"))

        assert JUDGED | {"mismatch": "unreadable"} == judged(own)
        assert ["Line 3, “SWR = much”: “much” is not a number; write one such as 0.172."] == [
            unread.sentence for unread in own.unread
        ]

    @pytest.mark.parametrize("text", ["abc", "1e999", "-50", "nan", "x" * 10_000, "<script>", ""])
    def test_bad_values(self, text: str):
        """No value of any quantity stops the others from being marked."""
        for name in ("z", "Γ", "SWR", "y1", "b", "d", "l far", "bs", "circle", "y total", "because"):
            own = working(f"{name} = {text}\nd near = 0.110")
            assert "right" == judged(own)["distance.near"], name

    def test_nothing_follows_from_it(self):
        """What cannot be read takes no part: a readable line for the same still counts."""
        own = working("bs near = -1.47\nbs near = -1.4.7\nl near = 0.095")

        assert "right" == line(own, "length.near").verdict.judgement

    def test_too_long(self):
        """A text that is too long is refused with a sentence, and the working is as it was."""
        with pytest.raises(TooLong, match=r"^That is 20001 characters; at most 20000 are read\."):
            working("d = 0.1").written("x" * (LONGEST_WORKING + 1))

    @pytest.mark.parametrize("load", [50, 25j, complex("inf")])
    def test_a_problem_without_solution(self, load: complex):
        """Where the lesson refuses the problem nothing is marked; the load is drawn, as far as there is anything."""
        own = working(WAVELENGTHS, problem(load))

        assert ((), {}) == (own.lines, own.designs)
        assert ["place", "mismatch"] == [key for key, _ in own.construction][:2]
        assert not any(key in ("crossing", "distance", "length") for key, _ in own.construction)


class TestAsking:
    def test_nothing_unasked(self):
        """No verdict and no note holds the solver's value where the student's differs."""
        own = working("z = 1.3-1.7j\ny = 0.5+0.6j\nd near = 0.15\nl near = 0.2")
        said = " ".join(" ".join((line.verdict.sentence, *line.notes)) for line in own.lines)

        for value in ("1.200", "1.600", "0.300", "0.400", "0.110", "0.095"):
            assert value not in said

    def test_the_solvers_value(self):
        """The solver's value is that for the problem, with the one from the student's own values where they differ."""
        own = working("z = 1.2+1.6j\ny = 0.3+j0.4")

        assert "The solver's value is 1.200 − j1.600." == own.solver_value("normalise")
        assert own.solver_value("admittance") == (
            "The solver's value is 0.300 + j0.400. From your own earlier values it would be 0.300 − j0.400."
        )

    def test_in_the_unit_that_is_asked(self):
        """The solver's value of a length in millimetres is in millimetres, for the solution that the line is of."""
        assert "59.1 mm" in working("d far = 54.9 mm").solver_value("millimetres.distance.far")

    def test_again(self):
        """Asking again puts the value away."""
        own = working("d near = 0.2").ask("distance.near")

        assert frozenset({"distance.near"}) == own.asked
        assert frozenset() == own.ask("distance.near").asked


class TestEntering:
    def test_entries_make_lines(self):
        """A value in an entry becomes a line in the names of the course."""
        own = working("", notation=Notation({"d": "s"})).entered(
            {"distance.near": "0.110", "normalise": "1.2-1.6j"}
        )

        assert "s near = 0.110\nzL = 1.2-1.6j" == own.text
        assert ("0.110", "1.2-1.6j") == (own.value_of("distance.near"), own.value_of("normalise"))

    def test_in_place_of_its_line(self):
        """A value takes the place of the line that gave it, and leaves the others as they are written."""
        own = working("zL = 1.2-j1.6\n\nd1 = 0.390 λ\nfoo").entered({"distance.near": "0.110"})

        assert "zL = 1.2-j1.6\n\nd near = 0.110\nfoo" == own.text

    def test_part_of_a_line(self):
        """A line with several values keeps the others."""
        own = working("SWR = 3.91; y = 1 ± j1.4; foo = 3").entered({"crossing.far": "1 - j1.47"})

        assert "SWR = 3.91\ny near = 1 + j1.4\ny far = 1 - j1.47\nfoo = 3" == own.text

    def test_emptied(self):
        """An emptied entry takes its line out."""
        assert "z = 1.2-1.6j" == working("z = 1.2-1.6j\nd near = 0.11").entered({"distance.near": " "}).text

    def test_unchanged(self):
        """What stands there already changes nothing, and neither does an empty entry where nothing stood."""
        own = working(WAVELENGTHS)

        assert own.text == own.entered({"distance.near": "0.110 λ", "own.near": ""}).text

    def test_under_headings(self):
        """An entry is of its own field, whatever heading stands above."""
        for key in ("normalise", "admittance", "mismatch", "distance.near", "crossing.near", "total.near"):
            own = working(OHMS).entered({key: "0.77"})
            assert "0.77" == own.value_of(key)

    @pytest.mark.parametrize(
        "text", ["abc", "1e999", "-50", "nan", "x" * 10_000, "<script>", "a; b", "near\nfar"]
    )
    def test_bad_values_stay(self, text: str):
        """What cannot be read stays in its entry with a reason, and every other line is as it was."""
        before = working(WAVELENGTHS)
        own = before.entered({"admittance": text})

        assert " ".join(text.replace(";", ",").split()) == own.value_of("admittance")
        assert line(own, "admittance").unread is not None
        assert {k: v for k, v in judged(before).items() if k != "admittance"}.keys() <= judged(own).keys()

    def test_unknown_field(self):
        """A field that the lesson does not have is a KeyError."""
        with pytest.raises(KeyError, match=r"nonsense"):
            working("").entered({"nonsense": "1"})


class TestConstruction:
    def test_what_practice_draws(self):
        """A whole right working draws what practice draws."""
        sheet = solved(POZAR)
        own = working("").entered({key: entry.text for key, entry in sheet.entries.items()})

        assert [key for key, _ in stroke_groups(sheet)] == [key for key, _ in own.construction]
        assert [len(s) for _, s in stroke_groups(sheet)] == [len(s) for _, s in own.construction]

    @pytest.mark.parametrize(
        ("text", "drawn"),
        [
            ("", {}), ("z = 1.2-1.6j", {"place": 1}), ("SWR = 3.91", {"mismatch": 1}),
            ("y = 0.3+0.4j", {"admittance": 2}),
            ("d near = 0.110", {}), ("y = 0.3+0.4j\nd near = 0.110", {"admittance": 2, "distance": 2}),
            ("b near = 1.47", {}), ("l near = 0.095", {"length": 1}),
            ("bs near = -1.47\nl near = 0.095", {"length": 2}),
            ("circle: g = 1", {"unit_circle": 1}), ("circle: r = 1", {}), ("start = open", {}),
        ],
    )  # fmt: skip
    def test_only_what_was_entered(self, text: str, drawn: dict[str, int]):
        """A stroke is drawn only where every value it is made of was entered: none of the solver's shows."""
        assert drawn == {key: len(strokes) for key, strokes in working(text).construction}

    def test_depends_on_nothing_else(self):
        """The same lines draw the same for any load: the load itself is nowhere in it."""
        text = "y = 0.3+0.4j\ny near = 1+j1.2\nd near = 0.15\nl near = 0.2\nSWR = 3\ny total near = 1.1"
        strokes = [working(text, changed(POZAR, load=load)).construction for load in (60 - 80j, 25 + 10j)]

        assert strokes[0] == strokes[1]


class TestDesign:
    def test_needs_both_lengths(self):
        """A design is judged once both of its lengths stand there."""
        assert {} == working("d near = 0.110\nl far = 0.405").designs
        assert {"design.near"} == set(working("d near = 0.110\nl near = 0.095").designs)

    def test_of_wrong_lengths(self):
        """Wrong lengths are built as they are, and the lines that nothing can follow from as well."""
        own = working("y = 0\nd near = 0.2\nl near = 0.3")

        assert [0.2, 0.3] == lengths_of(own)

    def test_ideal(self):
        """The design it is compared with is matched."""
        designs = working(WAVELENGTHS).designs

        assert ["design.near", "design.far"] == list(designs)
        for design in designs.values():
            assert pytest.approx(0, abs=1e-12) == abs(design.ideal.input_reflection())


class TestLeavingOut:
    def test_steps_switched_off(self):
        """A step that practice leaves out can be checked all the same."""
        own = working("SWR = 3.91", replace(POZAR, without=frozenset({"mismatch"})))

        assert {"mismatch": "right"} == judged(own)

    def test_every_field_has_names(self):
        """Each field of the lesson can be named, and each choice be said in its own words."""
        work = blank(changed(POZAR, stub=75.0)).truth
        for step in LESSON.steps:
            for one in step.fields:
                assert one.names, one.key
                kind = one.kind(work)
                for key, words in kind.options if isinstance(kind, Choice) else ():
                    own = working(f"{one.names[0]}: {words}")
                    assert key == own.sheet.entries[one.key].text, words


def test_decimal_commas_and_subscripts():
    """The homework of a course with decimal commas is read to the last line."""
    assert () == working(DEGREES, notation=notation_from(DEGREES_NOTATION)[0]).unread
