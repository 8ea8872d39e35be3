"""Nothing that is asked stands elsewhere on the page before it is settled."""

import json
import re
from collections.abc import Iterator

import pytest

from app.practise.page import Desk
from app.practise.sheet_column import sheet_page
from app.practise.sitting import Sitting
from lessons.course.catalogue import CATALOGUE
from lessons.grammar.lesson import Lesson
from lessons.grammar.notation import STANDARD, Notation
from lessons.problems.seeds import random_problem
from lessons.working.sheet import Sheet
from tests.lessons.solving import fields_of, typed, unit_of

LESSONS = pytest.mark.parametrize("lesson", CATALOGUE, ids=lambda lesson: lesson.key)
NOTATIONS = (STANDARD, Notation(length="degrees"))


def desk_for(lesson: Lesson, seed: int, notation: Notation = STANDARD) -> Desk:
    """A desk with a random problem, all of it the student's to do."""
    sitting = Sitting(CATALOGUE)
    sitting.sheet = Sheet(lesson, random_problem(seed, lesson), notation)
    sitting.guided = False
    sitting.attend(fields_of(sitting.sheet)[0].key)
    return Desk(sitting)


def shown(desk: Desk) -> dict[str, str]:
    """All that a student can read: on the sheet, in the drawing, on the chart, and in the table of points."""
    page = {
        name: part for name, part in desk.sheet.page.items() if name not in ("record", "links", "choices")
    }
    parts = {
        "sheet": page,
        "drawing": desk.drawing.picture,
        "points": desk.stage.points,
        "chart": list(words_of(desk.stage.strokes)),
    }
    return {name: json.dumps(part, ensure_ascii=False) for name, part in parts.items()}


def words_of(part: object) -> Iterator[str]:
    """What is written in a part of the page: a chart's coordinates are read by nobody."""
    if isinstance(part, str):
        yield part
    elif isinstance(part, dict | list | tuple):
        for one in part.values() if isinstance(part, dict) else part:
            yield from words_of(one)


def known_texts(sheet: Sheet) -> set[str]:
    """Values in writing that the student has already, or that the problem gives."""
    done = [one.key for one in fields_of(sheet) if sheet.settled(one.key)]
    settled = {text for key in done for text in (sheet.work.write(key), sheet.text(key))}
    settled |= {one.kind.say(sheet.problem[one.key], sheet.notation) for one in sheet.lesson.givens}
    return settled | {text for one in settled for text in (one.lstrip("−"), one.split(" ")[-1])}


def played(desk: Desk) -> Iterator[tuple[str, str, str, str]]:
    """A whole problem, answered rightly: at every field, each open field with its answer and where else it stands."""
    sitting = desk.sitting
    for one in fields_of(sitting.sheet):
        sheet = sitting.sheet
        desk.sheet.page = page_of(desk)
        everywhere, known = shown(desk), known_texts(sheet)
        for asked in fields_of(sheet):
            answer = sheet.truth.write(asked.key)
            if (
                sheet.settled(asked.key)
                or isinstance(sheet.truth[asked.key], str)
                or _is_known(answer, known)
            ):
                continue
            for place, text in everywhere.items():
                if re.search(rf"(?<![\d.]){re.escape(answer)}", text):
                    yield one.key, asked.key, answer, place
        kind = one.kind(sheet.truth)
        text = typed(kind, sheet.truth[one.key]) + unit_of(kind)
        desk.do({"do": "enter", "field": one.key, "text": text})
        assert sitting.sheet.settled(one.key)


def page_of(desk: Desk) -> dict:
    """The sheet as it is told now."""
    return dict(sheet_page(desk.sitting))


def _is_known(answer: str, known: set[str]) -> bool:
    return any(answer.lstrip("−") in text for text in known)


@LESSONS
@pytest.mark.parametrize("seed", range(4))
def test_no_answer_stands_on_the_page(lesson: Lesson, seed: int):
    """At every step of random problems, no open field's answer can be read anywhere on the page."""
    assert [] == list(played(desk_for(lesson, seed, NOTATIONS[seed % 2])))


@pytest.mark.parametrize(
    "lesson",
    [one for one in CATALOGUE if any(given.key == "frequency" for given in one.givens)],
    ids=lambda lesson: lesson.key,
)
def test_millimetres_come_with_the_answer(lesson: Lesson):
    """The drawing has millimetres where they are not asked, or once they are answered."""
    seed = next(s for s in range(50) if random_problem(s, lesson)["frequency"])
    desk = desk_for(lesson, seed)
    list(played(desk))

    assert desk.drawing.picture["writing"]["wavelength_mm"] == desk.sitting.sheet.truth.wavelength_mm


@pytest.mark.parametrize("load", ["50+60j", "25-60j", "40-20j", "22.5-30j"])
def test_an_example_is_no_answer(load: str):
    """Where the example beside a box would be the answer, another stands there."""
    sitting = Sitting(CATALOGUE)
    sitting.open_link({"load": load, "line": "50"})
    desk = Desk(sitting)
    for one in fields_of(sitting.sheet):
        (field,) = (f for s in page_of(desk)["steps"] for f in s["fields"] if f["key"] == one.key)
        if not field["options"]:
            assert not sitting.sheet.enter(one.key, field["example"]).verdicts[one.key].accepted
        kind = one.kind(sitting.sheet.truth)
        text = typed(kind, sitting.sheet.truth[one.key]) + unit_of(kind)
        sitting.enter(one.key, text)
