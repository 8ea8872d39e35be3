"""Which page stands at which address."""

from collections.abc import Callable
from functools import partial

from app.check.page import self_check
from app.course.page import course
from app.lecture.page import lecture, notes
from app.paper.page import paper
from app.parts.template import FilledPage
from app.practise.page import practise
from app.sets.page import sets_page
from lessons.course.catalogue import CATALOGUE
from lessons.grammar.catalogue import Catalogue
from lessons.problems.sets import Shelf, shelf


def pages(catalogue: Catalogue = CATALOGUE, sets: Shelf | None = None) -> dict[str, Callable[[], FilledPage]]:
    """Every address the program answers with a page, and the function that makes it for one visitor.

    sets : the problem sets to offer; None for those that come with the program."""
    sets = shelf(catalogue) if sets is None else sets
    return {
        "/": partial(practise, catalogue, sets),
        "/course": partial(course, catalogue),
        "/check": partial(self_check, catalogue),
        "/sets": partial(sets_page, catalogue, sets),
        "/lecture": partial(lecture, catalogue, sets),
        "/lecture/notes": notes,
        "/paper": partial(paper, catalogue),
    }
