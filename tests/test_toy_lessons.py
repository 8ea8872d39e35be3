"""The promise of the grammar: a new lesson is one file. Two toys go through every page, link, record and set."""

import json
from dataclasses import replace
from pathlib import Path

import pytest

from app.check.page import CheckDesk, Checking
from app.lecture.page import Lectern
from app.lecture.script import opened, script
from app.paper.page import Press, form
from app.paper.setting import link, read_setting
from app.parts.worksheet import answer_key, chart_svg, worksheet
from app.practise.page import Desk
from app.practise.sitting import Sitting
from lessons.course.catalogue import CATALOGUE
from lessons.grammar.lesson import Lesson
from lessons.grammar.notation import Notation
from lessons.homework.working import Working
from lessons.problems.seeds import random_problem
from lessons.problems.set_files import read_set
from lessons.saved.links import problem_query, read_link, sheet_from_link, sheet_link
from lessons.saved.notations import DECIMALS, HABITS
from lessons.saved.records import sheet_from_record, sheet_record
from lessons.working.sheet import Sheet
from tests.toys import ALONG, FOURFOLD, TOYS, answers

TOP = Path(__file__).resolve().parent.parent
every_toy = pytest.mark.parametrize("toy", [ALONG, FOURFOLD], ids=lambda lesson: lesson.key)
OVERLAY = Notation(admittance="overlay", imaginary="i", length="degrees")


def solved(toy: Lesson, notation: Notation = OVERLAY) -> Sheet:
    """A sheet of the toy's usual problem with the solver's answers typed in."""
    sheet = Sheet(toy, toy.problem(), notation)
    for key, text in answers(toy, sheet.problem, notation).items():
        sheet = sheet.enter(key, text)
    return sheet


@every_toy
class TestToys:
    def test_practise(self, toy):
        """The practise page solves it by typing, draws it, says what comes out, and keeps it for a reload."""
        sitting = Sitting(TOYS)
        sitting.open_lesson(toy.key)
        desk = Desk(sitting)
        desk.do({"do": "solve alone"})
        for key, text in answers(toy, sitting.sheet.problem).items():
            desk.do({"do": "enter", "field": key, "text": text})
        again = Sitting(TOYS)
        again.restore(json.loads(json.dumps(sitting.record())))

        assert (True, None) == (sitting.sheet.finished, sitting.sheet.matched)
        assert sitting.sheet == again.sheet
        assert desk.stage.strokes

    def test_check(self, toy):
        """The self-check marks pasted lines of it."""
        problem = toy.problem()
        names = Working(toy, problem).names
        lines = [
            f"{names.name_for(q, one.branch)} = {answers(toy, problem)[one.key]}"
            for q in names.quantities
            for one in q.fields
        ]
        working = Working(toy, problem).written("\n".join(lines))
        desk = CheckDesk(Checking(TOYS, working=working, chosen=True))

        assert len(lines) == len(working.lines)
        assert {"right"} == {line.verdict.judgement for line in working.lines}
        assert desk.view.page["steps"]

    def test_lecture(self, toy):
        """The lecture shows it, in every way its branches can be shown."""
        topic, faults = opened({"lesson": toy.key}, TOYS)
        shown = script(topic, TOYS)

        assert [] == faults
        constructions = [one for one in shown["frames"] if not one["picture"]]
        assert len(toy.steps) + 2 == len(constructions)
        assert (6 if toy.branches else 1) == len(shown["showings"])
        assert Lectern({"lesson": toy.key}, TOYS).words.script["lesson"] == toy.title

    def test_paper(self, toy):
        """Paper prints worksheets and keys of it, and its link opens the same."""
        setting, faults = read_setting({"lesson": toy.key, "seed": "3"}, TOYS)
        heard: list[dict] = []
        later: list = []
        Press(heard.append, later.append, TOYS).make({"lesson": toy.key, "seed": "3"})
        problem = random_problem(3, toy)

        assert {} == faults
        assert f"lesson={toy.key}" in link(setting, TOYS) or toy is TOYS.usual
        assert "start" in heard[0]
        assert form(setting, {}, TOYS)["kinds"][1]["entries"]
        assert worksheet(toy, problem)
        assert answer_key(toy, problem, OVERLAY)
        assert "<svg" in chart_svg(solved(toy))

    def test_link(self, toy):
        """A link carries its problem, and one carries the whole sheet."""
        sheet = solved(toy)
        query = dict(
            pair.split("=") for pair in problem_query(sheet.problem, sheet.notation, TOYS).split("&")
        )
        found = read_link(query, TOYS)

        assert (toy, sheet.problem, ()) == (found.lesson, found.problem, found.faults)
        assert sheet == sheet_from_link(sheet_link(sheet).partition("=")[2], TOYS)

    def test_record(self, toy):
        """A record brings the sheet back with every attempt."""
        sheet = solved(toy)

        assert sheet == sheet_from_record(json.loads(json.dumps(sheet_record(sheet))), TOYS)

    def test_set_file(self, toy):
        """A set file holds its problems beside those of other lessons."""
        stated = {"along-a-line": 'load = "60-80j"\nline = 50\nalong = 0.2', "fourfold": "gain = 0.25"}[
            toy.key
        ]
        text = f'[[problem]]\nlesson = "{toy.key}"\nkey = "a"\ntitle = "A"\nstory = "One."\n{stated}\n'
        (problem,) = read_set(text, "mine.toml", TOYS).problems

        assert toy.key == problem.lesson
        assert {"along": 0.2, "gain": 0.25}[toy.givens[-1].key] == problem[toy.givens[-1].key]

    def test_random(self, toy):
        """Random problems of it are the same from one seed, and its own."""
        assert random_problem(5, toy) == random_problem(5, toy)
        assert toy.key == random_problem(5, toy).lesson


def test_follow_through():
    """A wrong z carried on makes the input impedance that follows from it right for the student."""
    sheet = Sheet(ALONG, ALONG.problem()).enter("normalise", "0.5-1.6j").carry("normalise")
    sheet = sheet.enter("input", sheet.work.write("input"))

    assert ("right", True) == (sheet.verdicts["input"].judgement, sheet.verdicts["input"].follows)


def test_branches_from_anywhere():
    """Four solutions numbered in a student's own order are laid on the branches that they fit."""
    work = Sheet(FOURFOLD, FOURFOLD.problem()).truth
    values = [work.write(f"turn.{key}") for key in ("s", "n", "w", "e")]
    working = Working(FOURFOLD, FOURFOLD.problem()).written(
        "\n".join(f"q{i} = {v}" for i, v in enumerate(values, 1))
    )

    assert {"right"} == {line.verdict.judgement for line in working.lines}
    assert {"turn.n", "turn.e", "turn.s", "turn.w"} == {line.key for line in working.lines}


@pytest.mark.parametrize("lesson", [*TOYS, *CATALOGUE], ids=lambda lesson: lesson.key)
def test_keys_do_not_meet_in_a_link(lesson):
    """Givens, symbols and the course's habits share an address, so no two of them have one key."""
    keys = [
        *(one.key for one in lesson.givens),
        *(one.key for one in lesson.symbols),
        *(one.key for one in (*HABITS, DECIMALS)),
        *(
            "lesson",
            "sheet",
            "accuracy",
            "without",
            "step",
            "theme",
            "seed",
            "count",
            "size",
            "drawn",
            "key",
            "problem",
        ),
    ]

    assert len(keys) == len(set(keys))


def test_two_of_one_name():
    """A lesson in which a field would hide another, or a given, is refused when it is written."""
    with pytest.raises(ValueError, match="'input' names two"):
        replace(ALONG, steps=(*ALONG.steps, replace(ALONG.steps[-1], key="again")))
    with pytest.raises(ValueError, match="'normalise' names two"):
        replace(ALONG, givens=(*ALONG.givens, replace(ALONG.givens[0], key="normalise")))


def test_branch_of_no_lesson():
    """So is a lesson whose field belongs to a branch that is not among the lesson's."""
    with pytest.raises(ValueError, match=r"'turn\.w' belongs to the branch 'w'"):
        replace(FOURFOLD, branches=FOURFOLD.branches[:3])


def test_lesson_shown_to_developers():
    """The lesson that DEVELOPERS.md walks through is the one tested here, line for line."""
    start, end = (f"# --- {word} of the lesson shown to developers ---\n" for word in ("start", "end"))
    tested = (TOP / "tests/toys.py").read_text("utf-8").split(start)[1].split(end)[0]
    shown = (TOP / "DEVELOPERS.md").read_text("utf-8").split("```python\n")[1].split("```")[0]

    assert tested.strip() == shown.strip()
