"""Which page stands at which address."""

from collections.abc import Callable
from functools import partial

from app.check.page import self_check
from app.course.page import course
from app.lecture.page import lecture, notes
from app.paper.page import paper
from app.parts.template import FilledPage
from app.practise.page import practise
from lessons.course.catalogue import CATALOGUE
from lessons.grammar.catalogue import Catalogue


def pages(catalogue: Catalogue = CATALOGUE) -> dict[str, Callable[[], FilledPage]]:
    """Every address the program answers with a page, and the function that makes it for one visitor."""
    return {
        "/": partial(practise, catalogue),
        "/course": partial(course, catalogue),
        "/check": partial(self_check, catalogue),
        "/lecture": partial(lecture, catalogue),
        "/lecture/notes": notes,
        "/paper": partial(paper, catalogue),
    }
