"""Which page stands at which address."""

from collections.abc import Callable

import panel as pn

from app.lecture import lecture, notes
from app.paper import paper
from app.practise import practise
from app.self_check import self_check


def pages() -> dict[str, Callable[[], pn.Template]]:
    """Every address the program answers with a page, and the function that makes it for one visitor."""
    return {
        "/": practise,
        "/check": self_check,
        "/lecture": lecture,
        "/lecture/notes": notes,
        "/paper": paper,
    }
