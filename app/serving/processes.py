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
ENDING = (signal.SIGTERM, signal.SIGINT)
HEARD = (*ENDING, getattr(signal, "SIGCHLD", signal.SIGTERM))  # where there is none, there is one process


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
    with _heard() as signals:
        running = {_start(work): time.monotonic() for _ in range(count)}
        ending = False
        while running:
            told = signals.recv(64)
            if any(number in ENDING for number in told):
                ending = True
                for process in running:
                    _tell(process, signal.SIGTERM)
            for begun in [running.pop(process) for process in list(running) if _has_ended(process)]:
                if not ending:
                    running[_start(work, begun + SOONEST_SECONDS)] = time.monotonic()


@contextmanager
def _heard() -> Iterator[socket.socket]:
    """The numbers of the signals that come meanwhile, as bytes to be received in turn: none is missed."""
    reader, writer = socket.socketpair()
    writer.setblocking(False)
    signal.set_wakeup_fd(writer.fileno())
    before = {one: signal.signal(one, lambda number, frame: None) for one in HEARD}
    try:
        yield reader
    finally:
        for one, handler in before.items():
            signal.signal(one, handler)
        signal.set_wakeup_fd(-1)
        reader.close()
        writer.close()


def _start(work: Callable[[], object], soonest: float = 0.0) -> int:
    """Begin `work` in a process of its own, which waits until then; a signal ends it from its first moment."""
    signal.pthread_sigmask(signal.SIG_BLOCK, HEARD)
    process = os.fork()
    if process:
        signal.pthread_sigmask(signal.SIG_UNBLOCK, HEARD)
        return process
    code = 1
    try:
        os.setpgid(0, 0)  # Ctrl-C at the terminal reaches the first process, which passes it on
        signal.set_wakeup_fd(-1)  # else what this process is told would be heard by the first
        for one in HEARD:
            signal.signal(one, signal.SIG_DFL)
        signal.pthread_sigmask(signal.SIG_UNBLOCK, HEARD)
        time.sleep(max(0.0, soonest - time.monotonic()))
        work()
        code = 0
    finally:
        os._exit(code)


def _has_ended(process: int) -> bool:
    return os.waitpid(process, os.WNOHANG)[0] == process


def _tell(process: int, number: int) -> None:
    with suppress(ProcessLookupError):
        os.kill(process, number)
