"""Serving: pages over HTTP and websocket, static files, health, limits and error pages.

This module knows nothing of lessons: it is given a mapping from addresses to functions that make a page.
It replaces two of Panel's request handlers by subclasses, which is why pyproject.toml holds Panel and Bokeh
to one minor version and why tests/app/test_server.py checks each replacement on a running server.
"""

import contextlib
import ipaddress
import os
import sys
import threading
import webbrowser
from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import Future
from dataclasses import dataclass
from urllib.parse import urlunsplit

import panel as pn
from bokeh.server.urls import per_app_patterns
from panel.io.server import DocHandler, WSHandler, get_server
from tornado.httputil import HTTPServerRequest
from tornado.ioloop import IOLoop
from tornado.routing import Matcher, PathMatches, Rule
from tornado.web import RequestHandler, StaticFileHandler

from app.template import STATIC, message_page

MAX_MESSAGE = 256 * 1024  # bytes in one websocket message; a whole saved sheet is a tenth of it
MAX_ADDRESS = 16 * 1024  # characters in a path with its query; a problem in a link needs a few hundred
SESSION_TOKEN_SECONDS = 7 * 24 * 3600  # a page left open overnight can still reconnect
LOOPBACK_HOSTS = {"localhost", "127.0.0.1", "[::1]"}

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

Pages = Mapping[str, Callable[[], object]]


class OwnLook(RequestHandler):
    """Every answer carries our headers; every error is a page of ours with one sentence."""

    def set_default_headers(self) -> None:
        for name, value in HEADERS.items():
            self.set_header(name, value)

    def write_error(self, status_code: int, **kwargs) -> None:
        self.finish(message_page(*SENTENCES.get(status_code, OTHERWISE)))


class Page(OwnLook, DocHandler):
    """A page made by one of the given functions."""

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


@dataclass(frozen=True)
class Running:
    """A server in a thread: where it is, and how to end it."""

    url: str
    server: pn.io.server.Server
    thread: threading.Thread

    def stop(self) -> None:
        """End the server and wait until its port is free."""
        loop = self.server.io_loop
        loop.add_callback(loop.stop)
        self.thread.join(timeout=10)


def serve(
    pages: Pages,
    *,
    port: int,
    address: str = "127.0.0.1",
    open_browser: bool = False,
    threaded: bool = False,
    announce: Callable[[str], object] = lambda url: None,
) -> Running | None:
    """Serve `pages` until interrupted, or, when `threaded`, return a Running once the server listens.

    pages : from a route ('/', '/practise') to a function without arguments that makes a Panel object or
    template.
    port : 0 takes any free port.  announce : called with the address once the server listens.
    Raises OSError if the port cannot be had.
    """
    pn.config.reconnect = True
    started: Future[tuple[str, pn.io.server.Server]] = Future()

    def greet(url: str) -> None:
        announce(url)
        if open_browser:
            show(url)

    if not threaded:
        _run(pages, port, address, lambda server, url: greet(url))
        return None
    thread = threading.Thread(target=_run_or_fail, args=(pages, port, address, started), daemon=True)
    thread.start()
    url, server = started.result()
    greet(url)
    return Running(url, server, thread)


def show(url: str) -> bool:
    """Open `url` in the user's browser; False if there is none, or no screen to show it on."""
    screenless = sys.platform.startswith("linux") and not os.environ.keys() & {"DISPLAY", "WAYLAND_DISPLAY"}
    return not screenless and webbrowser.open(url)


def page_url(address: str, port: int) -> str:
    """The address to type into a browser for a server bound to `address`."""
    if address in ("0.0.0.0", "::", ""):
        address = "127.0.0.1"  # bound to every interface: this one is always among them
    return urlunsplit(("http", f"{_bracketed(address)}:{port}", "/", "", ""))


def accepted_hosts(address: str) -> set[str] | None:
    """Host names answered when bound to `address`, or None for any, where names of the network must work."""
    if address == "localhost" or _is_loopback(address):
        return LOOPBACK_HOSTS | {_bracketed(address).lower()}
    return None


def _bracketed(address: str) -> str:
    return f"[{address}]" if ":" in address else address


def _is_loopback(address: str) -> bool:
    try:
        return ipaddress.ip_address(address).is_loopback
    except ValueError:
        return False


def _run_or_fail(pages: Pages, port: int, address: str, started: Future) -> None:
    try:
        _run(pages, port, address, lambda server, url: started.set_result((url, server)))
    except BaseException as error:
        if started.done():
            raise
        started.set_exception(error)


def _run(pages: Pages, port: int, address: str, started: Callable) -> None:
    """Build the server on a loop of its own and run it until the loop is stopped."""
    loop = IOLoop(make_current=False)
    try:
        server = _build(pages, port, address, loop)
        server.start()
        loop.add_callback(started, server, page_url(address, server.port))
        loop.start()
        server.stop()
    finally:
        loop.close()


def _build(pages: Pages, port: int, address: str, loop: IOLoop):
    with _own_handlers():
        server = get_server(
            dict(pages),
            port=port,
            address=address,
            loop=loop,
            liveness=True,
            default_handler_class=Missing,
            use_index=False,
            ico_path="none",
            websocket_max_message_size=MAX_MESSAGE,
            session_token_expiration=SESSION_TOKEN_SECONDS,
            include_headers=[],
            include_cookies=[],
        )
    server._tornado.default_router.rules[:0] = _first_rules(address, page_url(address, server.port))
    return server


def _first_rules(address: str, url: str) -> list[Rule]:
    """What is looked at before Panel's own rules, in this order."""
    rules = [
        Rule(LongAddress(), TooLong),
        Rule(PathMatches(r"/static/([^/]+)"), Static, {"path": str(STATIC)}),
        # Panel would import any installed module that such an address names; ours are enough.
        Rule(PathMatches(r"/components/(?!app\.).*"), Missing),
    ]
    hosts = accepted_hosts(address)
    if hosts is not None:
        rules.insert(0, Rule(ForeignHost(hosts), Refused, {"url": url}))
    return rules


@contextlib.contextmanager
def _own_handlers() -> Iterator[None]:
    """Let servers built inside use our page and socket, and no handler made for embedding elsewhere."""
    before = per_app_patterns[:]
    per_app_patterns[:] = [(r"/?", Page), (r"/ws", Socket)]
    try:
        yield
    finally:
        per_app_patterns[:] = before
