"""The page around every view: a template filled with named roots, and the plain page with one sentence."""

import hashlib
from functools import cache
from pathlib import Path

import panel as pn
from jinja2 import Environment, FileSystemLoader

HERE = Path(__file__).parent
STATIC = HERE.parent / "static"


@cache
def asset(name: str) -> str:
    """The address of a file in `static/`, with a digest of its content so that an upgrade is seen at once.

    Raises FileNotFoundError if there is no such file.
    """
    digest = hashlib.sha256((STATIC / name).read_bytes()).hexdigest()[:12]
    return f"/static/{name}?v={digest}"


_environment = Environment(
    loader=FileSystemLoader(HERE), autoescape=False, trim_blocks=True, lstrip_blocks=True
)
_environment.globals["asset"] = asset
PLACES = ("head", "stage", "drawing", "sheet")


def page(title: str, **roots) -> pn.Template:
    """A page with `title` and Panel objects in its named places.

    `stage` (the chart), `drawing` (under it) and `sheet` (beside them) have places in the page's grid, `head`
    a strip above it; a place without a root is left out. Roots of any other name join the document without a
    place on the page, which suits components that draw nothing.
    """
    template = pn.Template(_environment.get_template("page.html"))
    template.add_variable("page_title", title)
    template.add_variable("places", PLACES)
    template.add_variable("filled", [name for name in PLACES if name in roots])
    for name, root in roots.items():
        template.add_panel(name, root)
    return template


def message_page(title: str, sentence: str, home: str | None = "/") -> str:
    """HTML of a page in the program's own look that says `sentence`, and links to `home` if there is one."""
    return _environment.get_template("message.html").render(page_title=title, sentence=sentence, home=home)
