"""Which page stands at which address."""

from collections.abc import Callable

import panel as pn

from app.check.page import self_check
from app.lecture.page import lecture, notes
from app.paper.page import paper
from app.practise.page import practise


def pages() -> dict[str, Callable[[], pn.Template]]:
    """Every address the program answers with a page, and the function that makes it for one visitor."""
    return {
        "/": practise,
        "/check": self_check,
        "/lecture": lecture,
        "/lecture/notes": notes,
        "/paper": paper,
    }
