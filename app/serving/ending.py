"""Ending a server without losing anyone: nobody new is let in, pages are told to connect elsewhere, answers go out."""

from __future__ import annotations

import asyncio
import signal
import threading
from typing import Any

RESTARTING = 1012  # IANA's list of close codes: the service restarts
GRACE_SECONDS = 8.0
LOOK_SECONDS = 0.02


def end_on_signals(server: Any) -> None:
    """End `server` gracefully on SIGTERM and on Ctrl-C, and at once on a second one."""
    if threading.current_thread() is not threading.main_thread():
        return
    loop = server.io_loop.asyncio_loop
    ending: list[asyncio.Task] = []

    def begin() -> None:
        if ending:
            loop.stop()
        else:
            ending.append(loop.create_task(end(server)))

    for one in (signal.SIGTERM, signal.SIGINT):
        signal.signal(one, lambda number, frame: loop.call_soon_threadsafe(begin))


async def end(server: Any) -> None:
    """Take no further connection, close the pages' websockets, wait for what is still on its way, and stop."""
    server._http.stop()
    await asyncio.sleep(0)  # what has been accepted is being read
    for connection in list(server._tornado._clients):
        connection._socket.close(RESTARTING, "the server ends; connect again")
    until = asyncio.get_running_loop().time() + GRACE_SECONDS
    while is_busy(server) and asyncio.get_running_loop().time() < until:
        await asyncio.sleep(LOOK_SECONDS)
    server.io_loop.stop()


def is_busy(server: Any) -> bool:
    """Whether a page is still connected, a request at work, or an answer on its way."""
    return bool(
        server._tornado._clients
        or server._tornado.settings["limits"].at_work
        or any(connection.stream.writing() for connection in server._http._connections)
    )
