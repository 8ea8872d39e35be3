"""Serving: pages given as a mapping from addresses to functions, until interrupted or in a thread.

This module and its handlers know nothing of lessons.
"""

import os
import socket
import sys
import threading
import webbrowser
from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import Future
from dataclasses import dataclass, replace
from typing import Any

import panel as pn
from panel.io.server import get_server
from tornado.ioloop import IOLoop

from app.parts.template import set_prefix
from app.serving.ending import end_on_signals
from app.serving.handlers import Missing, first_rules, own_handlers
from app.serving.limits import Limits, most_connections
from app.serving.opening import Turns, prepare, reported, scripts, spare_the_collector, without_unused
from app.serving.packed import Shelf
from app.serving.processes import bound, given, run_all
from app.serving.setup import Setup
from app.serving.tokens import TOKEN_SECONDS

MAX_MESSAGE = 1024 * 1024  # bytes in one websocket message; a page that meets a new server sends a third
SOCKET_MEMORY = 5  # zlib's, of each page's connection: 144 kB
IDLE_SECONDS = 75  # a connection kept for further requests; a page's websocket is not idle

Pages = Mapping[str, Callable[[], object]]


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
    processes: int = 1,
    **options: Any,
) -> Running | None:
    """Serve `pages` until SIGTERM or Ctrl-C, or, when `threaded`, return a Running once the server listens.

    pages : from a route ('/', '/practise') to a function without arguments that makes a Panel object or
    template.
    port : 0 takes any free port.  announce : called with the address once the server listens.
    processes : how many share the port and the work.  options : the rest of a Setup.
    Raises OSError if the port cannot be had.
    """
    pn.config.reconnect = True
    setup = Setup(port=port, address=address, **options)
    set_prefix(setup.prefix)
    prepare()
    started: Future[tuple[str, pn.io.server.Server]] = Future()

    def greet(url: str) -> None:
        announce(url)
        if open_browser and _has_screen():
            # In a thread, as some browsers keep the call until they are closed.
            threading.Thread(target=webbrowser.open, args=(url,), daemon=True).start()

    if not threaded:
        spare_the_collector()
    if processes > 1:
        _run_several(pages, setup, processes, greet)
        return None
    if not threaded:
        _run(pages, setup, lambda server, url: greet(url))
        return None
    thread = threading.Thread(target=_run_or_fail, args=(pages, setup, started), daemon=True)
    thread.start()
    url, server = started.result()
    greet(url)
    return Running(url, server, thread)


def _has_screen() -> bool:
    """False on a Linux without a display, where a text browser would take over the terminal."""
    return not sys.platform.startswith("linux") or bool(os.environ.keys() & {"DISPLAY", "WAYLAND_DISPLAY"})


def _run_or_fail(pages: Pages, setup: Setup, started: Future) -> None:
    try:
        _run(pages, setup, lambda server, url: started.set_result((url, server)))
    except Exception as error:
        if started.done():
            raise
        started.set_exception(error)


def _run_several(pages: Pages, setup: Setup, count: int, greet: Callable[[str], object]) -> None:
    """Bind the port, and let processes that share the signing key listen on it."""
    sockets = bound(setup.address, setup.port)
    setup = replace(setup, port=sockets[0].getsockname()[1], key=setup.tokens.key)
    greet(setup.url(setup.port))
    run_all(count, lambda: _run(pages, setup, lambda server, url: None, sockets))


def _run(pages: Pages, setup: Setup, started: Callable, sockets: Sequence[socket.socket] = ()) -> None:
    """Build the server on a loop of its own and run it until the loop is stopped."""
    loop = IOLoop(make_current=False)
    try:
        with given(list(sockets)):
            server = _build(pages, setup, loop)
        end_on_signals(server)
        server.start()
        loop.add_callback(started, server, setup.url(server.port))
        loop.start()
        server.stop()
        server._tornado.settings["shelf"].close()
    finally:
        loop.close()


def _build(pages: Pages, setup: Setup, loop: IOLoop):
    limits = Limits(most_pages=setup.most_pages, most_connections=most_connections())
    with own_handlers():
        server = get_server(
            {route: reported(make) for route, make in pages.items()},
            port=setup.port,
            address=setup.address,
            prefix=setup.prefix,
            loop=loop,
            location=False,
            default_handler_class=Missing,
            use_index=False,
            ico_path="none",
            http_server_kwargs={"idle_connection_timeout": IDLE_SECONDS},
            websocket_max_message_size=MAX_MESSAGE,
            session_token_expiration=TOKEN_SECONDS,
            include_headers=[],
            include_cookies=[],
            sign_sessions=True,
            secret_key=setup.tokens.key,
            tokens=setup.tokens,
            hosts=setup.hosts,
            limits=limits,
            shelf=Shelf(),
            turns=Turns(),
            websocket_compression_level=1,
            websocket_compression_mem_level=SOCKET_MEMORY,
            log_function=_say_nothing,
        )
    limits.watch(server._http)
    everything = server._tornado.resources
    server._tornado.resources = lambda url=None: without_unused(everything(url))
    server._tornado.settings["libraries"] = scripts(server._tornado.resources())
    server._tornado.default_router.rules[:0] = first_rules(setup, setup.url(server.port), limits)
    return server


def _say_nothing(handler: object) -> None:
    """No line in the log for a request that went well or was mistyped: nothing is recorded of who asks for what."""
