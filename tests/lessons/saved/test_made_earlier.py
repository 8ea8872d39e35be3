"""Sheets, links and what a browser kept, made by the first version of the program: they open for ever."""

import json
from pathlib import Path
from urllib.parse import parse_qsl

import pytest

from app.practise.sitting import Sitting
from lessons.course.catalogue import CATALOGUE
from lessons.saved.links import read_link, sheet_from_link
from lessons.saved.records import sheet_from_record
from lessons.working.progress import Progress
from lessons.working.sheet import Sheet

MADE = Path(__file__).parent / "made_earlier"
SHEETS = ("sheet-in-work", "sheet-half-worked")
LINKS = (MADE / "links.txt").read_text("utf-8").splitlines()


def made(name: str) -> object:
    """What a file of then holds."""
    return json.loads((MADE / f"{name}.json").read_text("utf-8"))


def is_as_it_was(sheet: Sheet) -> bool:
    """Whether the sheet in work has its lesson, its problem, its notation and all that was done."""
    problem = sheet.problem
    return (
        "shunt-stub" == sheet.lesson.key
        and (60 - 80j, 50.0, 75.0, "open", 868e6, 0.66)
        == tuple(problem[key] for key in ("load", "line", "stub", "end", "frequency", "velocity"))
        and ("s", "t", "overlay", "i")
        == (*map(sheet.notation.symbol, "dl"), sheet.notation.admittance, sheet.notation.imaginary)
        and ("0.110 λ", True) == (sheet.text("distance.near"), sheet.settled("distance.far"))
        and sheet.entries["mismatch"].carried
        and sheet.entries["admittance"].revealed
        and "needed" == (sheet.current.key if sheet.current else "")
    )


def test_sheet_in_work():
    """A saved sheet opens as the shunt stub, with every entry, hint, carried value and slip."""
    assert is_as_it_was(sheet_from_record(made("sheet-in-work"), CATALOGUE))


def test_half_worked_sheet():
    """A sheet whose first steps the tutor worked opens with them worked and the student's own after them."""
    sheet = sheet_from_record(made("sheet-half-worked"), CATALOGUE)

    assert (4, "crossing") == (sheet.shown, sheet.current.key if sheet.current else "")


def test_what_the_browser_kept():
    """A browser's record of then comes back, the progress as that of the only lesson there was."""
    sitting = Sitting(CATALOGUE)
    sitting.restore(made("browser-store"))

    assert is_as_it_was(sitting.sheet)
    assert {"shunt-stub": Progress(worked=2, own=8, run=1)} == sitting.mastery


@pytest.mark.parametrize("link", [link for link in LINKS if "sheet=" not in link])
def test_problem_links(link):
    """A link to a problem opens it as the shunt stub, without a complaint."""
    found = read_link(dict(parse_qsl(link)), CATALOGUE)

    assert ("shunt-stub", ()) == (found.lesson.key, found.faults)
    assert found.problem is not None
    assert found.problem["load"] in (60 - 80j, 30 - 50j)


def test_sheet_links():
    """A link to a whole sheet opens all of it."""
    first, second = (
        sheet_from_link(dict(parse_qsl(link))["sheet"], CATALOGUE) for link in LINKS if "sheet=" in link
    )

    assert is_as_it_was(first)
    assert 4 == second.shown
