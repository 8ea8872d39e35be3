"""The page around every view: a template filled with named roots, and the plain page with one sentence."""

import hashlib
from functools import cache
from pathlib import Path

import panel as pn
from jinja2 import Environment, FileSystemLoader

from app.parts.screen_chart import printed_svg

HERE = Path(__file__).parent
STATIC = HERE.parents[1] / "static"


_prefix = [""]


def set_prefix(prefix: str) -> None:
    """Let every address that a page names begin with `prefix`, "" or "/halfturn"; one for the whole process."""
    _prefix[:] = [prefix]
    asset.cache_clear()


def at(address: str) -> str:
    """The address from the root under which the program serves what it calls `address`."""
    return _prefix[0] + address


@cache
def asset(name: str) -> str:
    """The address of a file in `static/`, with a digest of its content so that an upgrade is seen at once.

    Raises FileNotFoundError if there is no such file.
    """
    digest = hashlib.sha256((STATIC / name).read_bytes()).hexdigest()[:12]
    return at(f"/static/{name}?v={digest}")


_environment = Environment(
    loader=FileSystemLoader(HERE), autoescape=False, trim_blocks=True, lstrip_blocks=True
)
_environment.globals |= {"asset": asset, "at": at, "printed_chart": printed_svg}
PLACES = ("stage", "drawing", "sheet")
LEAD = "Match a load on the reflection chart, one construction at a time: steps checked, slips named."
WAYS = (
    ("/", "Practise"),
    ("/check", "Check my working"),
    ("/sets", "Sets"),
    ("/lecture", "Lecture"),
    ("/paper", "Paper"),
)


def page(
    title: str, *, here: str = "/", needs: tuple[str, ...] = (), layout: str = "page.html", **roots: object
) -> pn.Template:
    """A page with `title` and Panel objects in its named places.

    `stage` (the chart), `drawing` (under it) and `sheet` (beside them) have places in the page's grid; a place without
    a root is left out. Roots of any other name join the document without a place, which suits components that draw
    nothing.
    here : the page's own address.  needs : marks that its components set on the html element when they have rendered;
    when all are there the page counts as ready.  layout : the file with the page's own arrangement, if it has one.
    """
    template = pn.Template(_environment.get_template(layout))
    filled = [name for name in PLACES if name in roots]
    asked = [name for root in roots.values() for name in getattr(root, "modules", tuple)()]
    facts = {
        "page_title": title,
        "lead": LEAD,
        "ways": WAYS,
        "here": here,
        "needs": needs,
        "modules": dict.fromkeys(asked),
    }
    for name, value in {**facts, "places": PLACES, "filled": filled}.items():
        template.add_variable(name, value)
    for name, root in roots.items():
        template.add_panel(name, root)
    return template


def message_page(title: str, sentence: str, home: str | None = "/") -> str:
    """HTML of a page in the program's own look that says `sentence`, and links to `home` if there is one."""
    return _environment.get_template("message.html").render(page_title=title, sentence=sentence, home=home)
