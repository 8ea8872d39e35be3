"""Request handlers and the rules that choose them: pages, socket, static files, and what is refused.

Page and Socket stand in for Panel's own handlers, so pyproject.toml holds Panel and Bokeh to one minor
version and tests/app/test_server.py checks each of them on a running server.
"""

import contextlib
import logging
from collections.abc import Callable, Iterator
from weakref import WeakSet

import panel as pn
from bokeh.document import Document
from bokeh.server.urls import per_app_patterns
from panel.io.resources import LOCAL_DIST
from panel.io.server import DocHandler, WSHandler
from tornado.httputil import HTTPServerRequest
from tornado.routing import Matcher, PathMatches, Rule
from tornado.web import HTTPError, RequestHandler, StaticFileHandler

from app.parts.template import STATIC, message_page

MAX_ADDRESS = 16 * 1024  # characters in a path with its query; a problem in a link needs a few hundred

HEADERS = {
    # Bokeh needs inline scripts and styles, Panel's components blob: modules; neither needs eval.
    "Content-Security-Policy": (
        "default-src 'self'; script-src 'self' 'unsafe-inline' blob:; style-src 'self' 'unsafe-inline'; "
        "img-src 'self' data: blob:; font-src 'self' data:; connect-src 'self' blob:; object-src 'none'; "
        "base-uri 'self'; form-action 'self'; frame-ancestors 'self'"
    ),
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
}
SENTENCES = {
    404: ("No such page", "There is no page at this address."),
    405: ("Not understood", "This page can be read, but nothing can be sent to it that way."),
    414: ("Address too long", f"The address is longer than {MAX_ADDRESS} characters, so it was not read."),
    500: (
        "Something went wrong",
        "This page could not be made; what you entered before is kept in your browser.",
    ),
}
OTHERWISE = ("Not understood", "The request could not be understood.")


_unmade: WeakSet[Document] = WeakSet()


class OwnLook(RequestHandler):
    """Every answer carries our headers; every error is a page of ours with one sentence."""

    def set_default_headers(self) -> None:
        for name, value in HEADERS.items():
            self.set_header(name, value)

    def write_error(self, status_code: int, **kwargs) -> None:
        self.finish(message_page(*SENTENCES.get(status_code, OTHERWISE)))


def reported(make: Callable[[], object]) -> Callable[[], object]:
    """`make`, its failure kept for the log and from the page, where Panel would print it."""

    def made() -> object:
        # A page rebuilt over the socket, after a restart, never asked for its address: without this its style sheets
        # would be looked for on another host.
        pn.state.curdoc.template_variables.setdefault("dist_url", f"/{LOCAL_DIST}")
        try:
            return make()
        except Exception:
            logging.getLogger(__name__).exception("A page could not be made.")
            _unmade.add(pn.state.curdoc)
            return pn.Column()

    return made


class Page(OwnLook, DocHandler):
    """A page made by one of the given functions, which `reported` has wrapped."""

    async def get_session(self):
        session = await super().get_session()
        if session.document in _unmade:
            raise HTTPError(500)
        return session

    async def prepare(self) -> None:
        await DocHandler.prepare(self)
        bare = self.request.path.rstrip("/") or "/"
        if bare != self.request.path:  # files named relative to the page would be looked for a level too deep
            self.redirect(f"{bare}?{self.request.query}".rstrip("?"), permanent=True)


class Socket(WSHandler):
    """The page's connection, sending small messages at once: without it each answer waits some 40 ms."""

    def open(self, *args, **kwargs):
        self.set_nodelay(True)
        return super().open(*args, **kwargs)


class Static(OwnLook, StaticFileHandler):
    """A file from `static/`: kept for long when its address names a version, else asked for each time."""

    def get_content_type(self) -> str:
        """A module is only run under this type, which some systems do not know for its ending."""
        return "text/javascript" if self.path.endswith(".js") else super().get_content_type()

    def set_extra_headers(self, path: str) -> None:
        if "v" not in self.request.arguments:
            self.set_header("Cache-Control", "no-cache")


class Missing(OwnLook):
    """Whatever no other rule answers."""

    def prepare(self) -> None:
        self.send_error(404)


class TooLong(OwnLook):
    """An address longer than any that the program makes."""

    def prepare(self) -> None:
        self.send_error(414)


class Refused(OwnLook):
    """A request under a host name that is not ours, as a rebound name of a hostile site would bring."""

    def initialize(self, url: str) -> None:
        self.url = url

    def prepare(self) -> None:
        self.set_status(403)
        sentence = f"Halfturn does not answer under this host name; open {self.url} instead."
        self.finish(message_page("Wrong host name", sentence, home=None))


class ForeignHost(Matcher):
    """Matches a request whose Host header is none of `hosts`."""

    def __init__(self, hosts: set[str]):
        self.hosts = hosts

    def match(self, request: HTTPServerRequest) -> dict | None:
        return None if request.host_name.rstrip(".") in self.hosts else {}


class LongAddress(Matcher):
    """Matches a request whose path and query exceed MAX_ADDRESS."""

    def match(self, request: HTTPServerRequest) -> dict | None:
        return {} if len(request.uri or "") > MAX_ADDRESS else None


def _our_files() -> str:
    """Pattern of the files in `static/` and its folders, at any depth; the libraries' own lie at the same address."""
    folders = "|".join(sorted(path.name for path in STATIC.iterdir() if path.is_dir()))
    return rf"/static/((?:{folders})/.+|[^/]+)"


def first_rules(hosts: set[str] | None, url: str) -> list[Rule]:
    """What is looked at before Panel's own rules, in this order; `hosts` as for ForeignHost, None for any."""
    rules = [
        Rule(LongAddress(), TooLong),
        Rule(PathMatches(_our_files()), Static, {"path": str(STATIC)}),
        # Panel would import any installed module that such an address names; ours are enough.
        Rule(PathMatches(r"/components/(?!app\.).*"), Missing),
    ]
    if hosts is not None:
        rules.insert(0, Rule(ForeignHost(hosts), Refused, {"url": url}))
    return rules


@contextlib.contextmanager
def own_handlers() -> Iterator[None]:
    """Let servers built inside use our page and socket, and no handler made for embedding elsewhere."""
    before = per_app_patterns[:]
    per_app_patterns[:] = [(r"/?", Page), (r"/ws", Socket)]
    try:
        yield
    finally:
        per_app_patterns[:] = before
