"""Which page stands at which address."""

from collections.abc import Callable

import panel as pn

from app.template import page


def front() -> pn.Template:
    """The first page."""
    text = "<p>Halfturn teaches matching on the reflection chart; the lessons are not on this page yet.</p>"
    return page("Halfturn", sheet=pn.pane.HTML(text))


def pages() -> dict[str, Callable[[], pn.Template]]:
    """Every address the program answers with a page, and the function that makes it for one visitor."""
    return {"/": front}
