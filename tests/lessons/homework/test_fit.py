"""All lines of a working fitted together: the student's own numbers, values without a mark, and exchanged symbols."""

import pytest

from lessons.course.shunt_stub import LESSON
from lessons.homework.working import Working

LOOP = LESSON.problem({"load": 40 + 30j, "line": 100.0})
FEEDER = LESSON.problem({"load": 60 - 80j, "line": 50.0})
OTHER_WAY = """
y = 1 + j1.04
y = 1 - j1.04
l_A = 0.36λ
l_B = 0.032λ
d_A = 0.1222λ
d_B = 0.3778λ
""".strip()


def working(text: str, problem=FEEDER) -> Working:
    """A working of a problem, from its text."""
    return Working(LESSON, problem, text=text)


def judged(own: Working) -> dict[str, str]:
    """What is said of each line, by its key."""
    return {line.key: line.verdict.judgement for line in own.lines}


class TestExchangedSymbols:
    def test_right_work_is_right(self):
        """Right work with l for the distance and d for the stub, numbered from the far solution, is right."""
        own = working(OTHER_WAY, LOOP)

        assert {
            f"{what}.{side}": "right"
            for what in ("crossing", "distance", "length")
            for side in ("near", "far")
        } == (judged(own))

    def test_it_is_said(self):
        """That the symbols are taken so is said, and that 1 is the far solution."""
        own = working(OTHER_WAY, LOOP)

        assert "1 for the far one, 2 for the near one" in own.remarks[0]
        assert "your l is taken for the distance, your d for the stub length" in own.remarks[1]

    @pytest.mark.parametrize(
        "text",
        [
            "d near = 0.110\nl near = 0.095",
            "d near = 0.110\nl near = 0.405",
            "l near = 0.110",
            "d near = 0.390",
        ],
    )
    def test_only_where_several_lines_speak_for_it(self, text: str):
        """One wrong length is a slip, not another symbol."""
        assert () == working(text).remarks

    def test_new_lines_are_in_the_students_symbols(self):
        """A value entered beside such a text is written in its symbols, so that it is read as it is meant."""
        own = working(OTHER_WAY, LOOP).entered({"distance.far": "0.361"})

        assert "l far = 0.361" in own.text
        assert "0.361" == own.value_of("distance.far")


class TestTogether:
    def test_numbers_and_unmarked_values(self):
        """The order of the student's numbers and of the values without a mark are found together."""
        own = working(
            "d1 = 0.260\nl1 = 0.405\nd2 = 0.110\nl2 = 0.095\ny = 1 - j1.47\ny = 1 + j1.47\nb_s = 1.47, -1.47"
        )

        assert {"right"} == set(judged(own).values())
        assert 8 == len(own.lines)

    def test_a_slip_among_right_lines(self):
        """One wrong line among right ones is judged in the solution that the others are of."""
        own = working("y_2 = 1 + j1.47\nd_2 = 0.110\nl_2 = 0.405\ny_1 = 1 - j1.47\nd_1 = 0.260")

        assert "slip" == judged(own)["length.near"]
        assert {"right"} == {verdict for key, verdict in judged(own).items() if key != "length.near"}

    def test_the_same_length_twice(self):
        """A length in wavelengths with its degrees behind it is one line with a remark."""
        own = working("d near = 39.7° = 0.110λ")

        assert {"distance.near": "right"} == judged(own)
        assert "Read along with it and not marked: “39.7°”." in own.lines[0].notes


class TestEntering:
    def test_what_stands_beside_stays(self):
        """A line of which one part is written anew keeps the other parts, with all that stands in them."""
        own = working("z = (60-j80)/50 = 1.2-j1.6, SWR = 3.5").entered({"mismatch": "3.91"})

        assert "zL = (60-j80)/50 = 1.2-j1.6\nSWR = 3.91" == own.text
