"""The pages' parts for the shunt stub's lesson, as the tests of them use it."""

from collections.abc import Mapping
from typing import Any

from app.check.page import Checking
from app.lecture import script as lecture
from app.paper import page as paper
from app.paper import setting as settings
from app.parts import worksheet as sheets
from app.parts.messages.showing import PaperForm
from app.practise.sitting import Sitting as AnySitting
from lessons.course.catalogue import CATALOGUE
from lessons.course.shunt_stub import LESSON
from lessons.grammar.problem import Problem


def worksheet(problem: Problem, *more: Any, **how: Any) -> list[str]:
    """Pages to work a problem on."""
    return sheets.worksheet(LESSON, problem, *more, **how)


def answer_key(problem: Problem, *more: Any, **how: Any) -> list[str]:
    """The key of a worksheet."""
    return sheets.answer_key(LESSON, problem, *more, **how)


def setting(problem: Problem, *more: Any, **how: Any) -> settings.Setting:
    """A setting of the paper view."""
    return settings.Setting(LESSON, problem, *more, **how)


def read_setting(texts: Mapping[str, str]) -> tuple[settings.Setting, dict[str, str]]:
    """The setting of texts, and their faults."""
    return settings.read_setting(texts, CATALOGUE)


def write_setting(one: settings.Setting) -> dict[str, str]:
    """A setting as texts."""
    return settings.write_setting(one, CATALOGUE)


def link(one: settings.Setting) -> str:
    """The address of a setting."""
    return settings.link(one, CATALOGUE)


def form(
    one: settings.Setting, faults: Mapping[str, str], asked: Mapping[str, str] | None = None
) -> PaperForm:
    """What the paper's form offers."""
    return paper.form(one, faults, CATALOGUE, asked)


def press(tell: Any, later: Any) -> paper.Press:
    """The press of the paper view."""
    return paper.Press(tell, later, CATALOGUE)


def sitting(**values: Any) -> AnySitting:
    """A sitting with all lessons at hand."""
    return AnySitting(CATALOGUE, **values)


def checking(**values: Any) -> Checking:
    """A self-check with all lessons at hand."""
    return Checking(CATALOGUE, **values)


def opened(query: Mapping[str, str]) -> tuple[lecture.Topic, list[str]]:
    """The topic that a link opens in the lecture."""
    return lecture.opened(query, CATALOGUE)
