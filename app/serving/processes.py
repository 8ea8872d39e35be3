"""Several processes on one port: started, watched, and ended together."""

from __future__ import annotations

import os
import signal
import socket
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress

import bokeh.server.server
from tornado.netutil import bind_sockets

SOONEST_SECONDS = 1.0  # between two starts of one place, where a process ends as soon as it has begun


def bound(address: str, port: int) -> list[socket.socket]:
    """Sockets on one port, for several processes to listen on."""
    return bind_sockets(port, address)


@contextmanager
def given(sockets: list[socket.socket]) -> Iterator[None]:
    """Let a server built inside listen on these sockets rather than bind its own; with none, it binds."""
    before = bokeh.server.server.bind_sockets
    if sockets:
        port = sockets[0].getsockname()[1]
        bokeh.server.server.bind_sockets = lambda *place: (sockets, port)
    try:
        yield
    finally:
        bokeh.server.server.bind_sockets = before


def run_all(count: int, work: Callable[[], object]) -> None:
    """Do `work` in `count` processes until SIGTERM or Ctrl-C; one that dies is replaced by a new one."""
    running: dict[int, float] = {}
    ending: list[int] = []

    def pass_on(number: int, frame: object) -> None:
        ending.append(number)
        for process in running:
            _tell(process, signal.SIGTERM)

    for one in (signal.SIGTERM, signal.SIGINT):
        signal.signal(one, pass_on)
    for _ in range(count):
        running[_start(work)] = time.monotonic()
    while running:
        process, _ = os.wait()
        begun = running.pop(process, 0.0)
        if not ending:
            time.sleep(max(0.0, begun + SOONEST_SECONDS - time.monotonic()))
        if not ending:
            running[_start(work)] = time.monotonic()


def _start(work: Callable[[], object]) -> int:
    process = os.fork()
    if process:
        return process
    code = 1
    try:
        os.setpgid(0, 0)  # Ctrl-C at the terminal reaches the first process, which passes it on
        work()
        code = 0
    finally:
        os._exit(code)


def _tell(process: int, number: int) -> None:
    with suppress(ProcessLookupError):
        os.kill(process, number)
