"""The page around every view: a template filled with named roots, and the plain page with one sentence."""

import hashlib
import json
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from html import escape
from pathlib import Path
from typing import Any

import panel as pn
from bokeh.document import Document
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


def inline(name: str) -> str:
    """A small script of `static/`, to stand in a page where asking for it would hold the page up."""
    return f"<script>\n{(STATIC / name).read_text('utf-8')}</script>"


def place(name: str) -> str:
    """Where the root of this name is drawn."""
    return f'<div id="at-{name}" class="root"></div>'


_environment = Environment(
    loader=FileSystemLoader(HERE), autoescape=False, trim_blocks=True, lstrip_blocks=True
)
_environment.globals |= {
    "asset": asset,
    "at": at,
    "inline": inline,
    "place": place,
    "printed_chart": printed_svg,
}
PLACES = ("stage", "drawing", "sheet")
OPENING = "\0opening\0"  # where a page has what differs from visitor to visitor
LEAD = "The reflection chart, one construction at a time: steps checked, slips named."
WAYS = (
    ("/course", "Course"),
    ("/", "Practise"),
    ("/check", "Check my working"),
    ("/sets", "Sets"),
    ("/lecture", "Lecture"),
    ("/paper", "Paper"),
)


@dataclass(frozen=True)
class Arrangement:
    """What a page is, the same for every visitor: `names` are those of its roots, in order."""

    title: str
    here: str
    needs: tuple[str, ...]
    layout: str
    names: tuple[str, ...]

    def halves(self, scripts: tuple[str, ...], modules: str) -> tuple[str, str]:
        """The page's HTML before and after what differs; `scripts` are the libraries', `modules` ours in one."""
        html = _environment.get_template(self.layout).render(
            page_title=self.title,
            lead=LEAD,
            ways=WAYS,
            here=self.here,
            needs=self.needs,
            scripts=scripts,
            modules=modules,
            filled=[name for name in PLACES if name in self.names],
            placeless=[name for name in self.names if name not in PLACES],
            opening=OPENING,
        )
        before, after = html.split(OPENING)
        return before, after


@dataclass(frozen=True)
class FilledPage:
    """A page for one visitor. words : paragraphs that can be read before any script has run."""

    arrangement: Arrangement
    roots: tuple[Any, ...]
    words: tuple[str, ...] = ()

    def put_into(self, document: Document) -> None:
        """Give the visitor's document the models of all roots."""
        for name, root in zip(self.arrangement.names, self.roots, strict=True):
            model = root.get_root(document)
            model.name = name
            root._documents[document] = model
            document.add_root(model)
            document.on_session_destroyed(root._server_destroy)

    def opening(self, token: str) -> str:
        """What differs: the first words, and what the browser opens the session with."""
        names = self.arrangement.names
        places = {name: f"at-{name}" for name in names}
        told = {"token": token, "roots": places, "root_ids": names, "use_for_title": False}
        words = "".join(f"<p>{escape(one)}</p>" for one in self.words)
        first = f'<div id="first-words">{words}</div>' if words else ""
        as_json = json.dumps(told, separators=(",", ":"))
        return f'{first}<script type="application/json" id="opening">{as_json}</script>'


def page(
    title: str,
    *,
    here: str = "/",
    needs: tuple[str, ...] = (),
    layout: str = "page.html",
    words: Sequence[str] = (),
    **roots: object,
) -> FilledPage:
    """A page with `title` and Panel objects in its named places.

    `stage` (the chart), `drawing` (under it) and `sheet` (beside them) have places in the page's grid; a place without
    a root is left out. Roots of any other name join the document without a place, which suits components that draw
    nothing.
    here : the page's own address.  needs : marks that its components set on the html element when they have rendered;
    when all are there the page counts as ready.  layout : the file with the page's own arrangement, if it has one.
    words : paragraphs of the sheet to be read before it has been drawn.
    """
    arrangement = Arrangement(title, here, needs, layout, tuple(roots))
    return FilledPage(arrangement, tuple(map(pn.panel, roots.values())), tuple(one for one in words if one))


def message_page(title: str, sentence: str, home: str | None = "/") -> str:
    """HTML of a page in the program's own look that says `sentence`, and links to `home` if there is one."""
    return _environment.get_template("message.html").render(page_title=title, sentence=sentence, home=home)
