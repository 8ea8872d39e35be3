"""Request handlers and the rules that choose them: pages, static files, and what is refused.

Page and Socket stand in for Panel's own handlers, so pyproject.toml holds Panel and Bokeh to one minor
version and tests/app/serving checks each of them on a running server.
"""

import contextlib
import gzip
import logging
import re
from collections.abc import Callable, Iterator
from typing import Any
from urllib.parse import unquote

from bokeh.server.urls import per_app_patterns
from panel.io.server import DocHandler
from tornado.httputil import HTTPServerRequest
from tornado.routing import Matcher, PathMatches, Rule
from tornado.web import HTTPError, RequestHandler

from app.parts.template import message_page
from app.serving.connection import Socket
from app.serving.limits import Limits
from app.serving.opening import html, is_unmade, page_in
from app.serving.packed import LEAST, coding_for
from app.serving.setup import Setup
from app.serving.tokens import NAMES_A_SESSION

MAX_ADDRESS = 16 * 1024  # characters in a path with its query; a problem in a link needs a few hundred
RETRY_SECONDS = 30
KEPT = "public, max-age=31536000, immutable"  # a year
QUICK = 5  # gzip's level for what is made for one visitor

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
    409: (
        "Not opened",
        "This request names a session, and sessions are named by the program alone: open the page without it.",
    ),
    414: ("Address too long", f"The address is longer than {MAX_ADDRESS} characters, so it was not read."),
    500: (
        "Something went wrong",
        "This page could not be made; what you entered before is kept in your browser.",
    ),
    503: (
        "Too many at once",
        "As many pages are open as this machine can serve; what you entered before is kept in your browser. "
        "Try again in a minute.",
    ),
}
OTHERWISE = ("Not understood", "The request could not be understood.")


log = logging.getLogger(__name__)


class OwnLook(RequestHandler):
    """Every answer carries our headers; every error is a page of ours with one sentence.

    The log learns of an address its path alone: what follows is a visitor's problem, or a whole sheet.
    """

    def __init__(self, *given: Any, **named: Any) -> None:
        super().__init__(*given, **named)
        self.settings["limits"].at_work.add(self)

    def on_finish(self) -> None:
        self.settings["limits"].at_work.discard(self)

    def set_default_headers(self) -> None:
        for name, value in HEADERS.items():
            self.set_header(name, value)

    def finish(self, chunk: Any = None) -> Any:
        """A page made for one visitor is compressed on its way out."""
        if chunk is not None:
            self.write(chunk)
        if "Content-Encoding" not in self._headers and sum(map(len, self._write_buffer)) >= LEAST:
            self.set_header("Vary", "Accept-Encoding")
            if coding_for(self._accepted(), ("gzip",)):
                self._write_buffer = [gzip.compress(b"".join(self._write_buffer), QUICK)]
                self.set_header("Content-Encoding", "gzip")
        return super().finish()

    def compute_etag(self) -> str | None:
        return None  # a page made for one visitor is never the same again

    def _accepted(self) -> str:
        return self.request.headers.get("Accept-Encoding", "")

    def write_error(self, status_code: int, **kwargs: Any) -> None:
        if status_code == 503:
            self.set_header("Retry-After", str(RETRY_SECONDS))
            self.set_header("Connection", "close")
        self.finish(message_page(*SENTENCES.get(status_code, OTHERWISE)))

    def log_exception(self, kind: Any, value: Any, trace: Any) -> None:
        if not isinstance(value, HTTPError):
            log.error("A request failed: %s", self._request_summary(), exc_info=(kind, value, trace))

    def _request_summary(self) -> str:
        return f"{self.request.method} {self.request.path}"


class Page(OwnLook, DocHandler):
    """A page made by one of the given functions, which `reported` has wrapped, in a session that nobody else has."""

    _session: Any = None

    async def get(self, *given: Any, **named: Any) -> None:
        if self._names_a_session():
            raise HTTPError(409)
        async with self.settings["turns"].take():
            session = await self.get_session()
        page = page_in(session.document)
        if page is None:
            self._session = session
            await DocHandler.get(self, *given, **named)
            return
        gzipped = bool(coding_for(self._accepted(), ("gzip",)))
        self.set_header("Cache-Control", "no-store")
        self.set_header("Content-Encoding", "gzip" if gzipped else "identity")
        self.set_header("Vary", "Accept-Encoding")
        self.finish(html(page, session.token, self.settings["libraries"], gzipped))

    async def get_session(self):
        if self._session is not None:
            return self._session
        if self.settings["limits"].full(self.application):
            raise HTTPError(503)
        context = self.application_context
        ticket = self.settings["tokens"].fresh(context.url, self.request.arguments)
        session = await context.create_session_if_needed(ticket.session, self.request, ticket.token)
        if is_unmade(session.document):
            raise HTTPError(500)
        return session

    async def prepare(self) -> None:
        await DocHandler.prepare(self)
        bare = self.request.path.rstrip("/")
        if bare == self.application.prefix:  # type: ignore[attr-defined]
            bare += "/"
        if bare != self.request.path:  # files named relative to the page would be looked for a level too deep
            self.redirect(f"{bare}?{self.request.query}".rstrip("?"), permanent=True)

    def _names_a_session(self) -> bool:
        request = self.request
        given = {*request.arguments, *request.cookies, *request.headers}
        return bool({name.lower() for name in given}.intersection(NAMES_A_SESSION))


class Static(OwnLook):
    """A file of ours or of the libraries', compressed, and kept for a year where its address names this content."""

    tag: str | None = None

    async def get(self, path: str) -> None:
        packed = await self.settings["shelf"].take(path, coding_for(self._accepted()))
        if packed is None:
            raise HTTPError(404)
        self.tag = packed.tag
        named = self.request.arguments.get("v", [b""])[-1].decode("ascii", "replace")
        self.set_header("Cache-Control", KEPT if named in packed.versions else "no-cache")
        self.set_header("Content-Type", packed.kind)
        self.set_header("Vary", "Accept-Encoding")
        self.set_header("Content-Encoding", packed.coding or "identity")
        self.write(packed.body)

    head = get

    def compute_etag(self) -> str | None:
        return self.tag


class Alive(OwnLook):
    """Tells whoever watches over the program that it lives; under any host name, as a balancer has none."""

    def get(self) -> None:
        self.write({"/liveness": True})


class Says(OwnLook):
    """Answers every request with the sentence of one status."""

    def initialize(self, status: int) -> None:
        self.status = status

    def prepare(self) -> None:
        self.send_error(self.status)


class Missing(Says):
    """Whatever no other rule answers."""

    def initialize(self, status: int = 404) -> None:
        self.status = status


class Refused(OwnLook):
    """A request under a host name that is not ours, as a rebound name of a hostile site would bring."""

    def initialize(self, url: str) -> None:
        self.url = url

    def prepare(self) -> None:
        self.set_status(403)
        sentence = f"Halfturn does not answer under this host name; open {self.url} instead."
        self.finish(message_page("Wrong host name", sentence, home=None))


class When(Matcher):
    """Matches a request of which `holds` is true."""

    def __init__(self, holds: Callable[[HTTPServerRequest], bool]) -> None:
        self.holds = holds

    def match(self, request: HTTPServerRequest) -> dict[str, Any] | None:
        return {} if self.holds(request) else None


def is_long(request: HTTPServerRequest) -> bool:
    """Whether path and query exceed MAX_ADDRESS."""
    return len(request.uri or "") > MAX_ADDRESS


def is_no_path(request: HTTPServerRequest) -> bool:
    """Whether the path holds characters that no file's or page's name has."""
    path = unquote(request.path, errors="replace")
    return "�" in path or not path.isprintable()


def first_rules(setup: Setup, url: str, limits: Limits) -> list[Rule]:
    """What is looked at before Panel's own rules, in this order; `url` is where the program says that it is."""
    prefix, hosts = re.escape(setup.prefix), setup.hosts
    return [
        Rule(When(lambda request: limits.crowded()), Says, {"status": 503}),
        Rule(PathMatches(rf"{prefix}/liveness"), Alive),
        Rule(When(lambda request: not_ours(request, hosts)), Refused, {"url": url}),
        Rule(When(is_long), Says, {"status": 414}),
        Rule(When(is_no_path), Missing),
        Rule(PathMatches(rf"{prefix}/static/(.*)"), Static),
        # Panel would import any installed module that such an address names; ours are enough.
        Rule(PathMatches(rf"{prefix}/components/(?!app\.).*"), Missing),
    ]


def not_ours(request: HTTPServerRequest, hosts: set[str] | None) -> bool:
    """Whether the request comes under a host name that is none of `hosts`."""
    return hosts is not None and request.host_name.rstrip(".") not in hosts


@contextlib.contextmanager
def own_handlers() -> Iterator[None]:
    """Let servers built inside use our page and socket, and no handler made for embedding elsewhere."""
    before = per_app_patterns[:]
    per_app_patterns[:] = [(r"/?", Page), (r"/ws", Socket)]
    try:
        yield
    finally:
        per_app_patterns[:] = before
