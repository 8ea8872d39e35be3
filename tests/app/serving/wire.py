"""Speaking to a server without a browser: one request, or a conversation over a page's websocket."""

import asyncio
import base64
import http.client
import json
import re
import signal
import socket
import subprocess
import sys
from collections.abc import Awaitable, Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest
from tornado.httpclient import HTTPRequest
from tornado.websocket import WebSocketClientConnection, websocket_connect

from app.serving.server import Running

Conversation = Callable[[WebSocketClientConnection], Awaitable[Any]]
SECONDS = 60
NEWER = """from app.__main__ import main
from lessons.saved import records
records.VERSION += 1
raise SystemExit(main())
"""


def ask_bytes(url: str, path: str, method: str = "GET", **headers: str) -> tuple[int, dict[str, str], bytes]:
    """Status, headers (names in lower case) and body of the answer to one request."""
    connection = http.client.HTTPConnection(urlsplit(url).netloc, timeout=SECONDS)
    try:
        connection.request(method, path, headers=headers)
        answer = connection.getresponse()
        body = answer.read()
    finally:
        connection.close()
    return answer.status, {name.lower(): value for name, value in answer.getheaders()}, body


def ask(site: Running, path: str, method: str = "GET", **headers: str) -> tuple[int, dict[str, str], str]:
    """As `ask_bytes`, of a running server, with the body as text."""
    status, answered, body = ask_bytes(site.url, path, method, **headers)
    return status, answered, body.decode()


def sentence(html: str) -> str:
    """The first paragraph of a message page."""
    found = re.search(r"<p>(.*?)</p>", html)
    assert found is not None, html
    return found[1]


def token_in(html: str) -> str:
    """The token that a page was given for its websocket."""
    found = re.search(r'"token":"([^"]+)"', html)
    assert found is not None, html
    return found[1]


def session_in(token: str) -> str:
    """The session's name in a token."""
    told = token.split(".")[0]
    return json.loads(base64.urlsafe_b64decode(told + "=" * (-len(told) % 4)))["session_id"]


async def closed(client: WebSocketClientConnection) -> int | None:
    """Wait until the other side has closed the connection, whatever it still says; the code it gave."""
    while await client.read_message() is not None:
        pass
    return client.close_code


async def greeted(
    url: str, path: str = "/", token: str | None = None, **headers: str
) -> WebSocketClientConnection:
    """A page's websocket, once the server has greeted; with its own page's token if none is given."""
    if token is None:
        token = token_in(ask_bytes(url, path)[2].decode())
    address = url.rstrip("/").replace("http", "ws", 1) + path.rstrip("/") + "/ws"
    client = await websocket_connect(HTTPRequest(address, headers=headers), subprotocols=["bokeh", token])
    for _ in ("header", "metadata", "content"):
        if await client.read_message() is None:
            client.close()
            raise AssertionError(f"closed before greeting, with {client.close_code}")
    return client


async def tell(client: WebSocketClientConnection, kind: str, content: object) -> None:
    """Send one message as the library in the browser would."""
    for part in ({"msgid": "1", "msgtype": kind}, {}, content):
        await client.write_message(json.dumps(part))


async def heard(client: WebSocketClientConnection, kind: str) -> Any:
    """The content of the next message of this kind.

    Raises ConnectionError if the server closes before.
    """
    while (header := await client.read_message()) is not None:
        parts = [await client.read_message(), await client.read_message()]
        if json.loads(header)["msgtype"] == kind:
            assert parts[1] is not None
            return json.loads(parts[1])
    raise ConnectionError(f"closed with {client.close_code}: {client.close_reason}")


def in_own_loop(talk: Callable[[], Awaitable[Any]]) -> Any:
    """Run a conversation in a thread with a loop of its own; its result."""

    async def timed() -> Any:
        return await asyncio.wait_for(talk(), timeout=SECONDS)

    with ThreadPoolExecutor(1) as pool:
        return pool.submit(asyncio.run, timed()).result()


def converse(
    site: Running, conversation: Conversation, path: str = "/", token: str | None = None, **headers: str
) -> Any:
    """Open a page's websocket and await `conversation(client)`; its result."""

    async def talk() -> Any:
        client = await greeted(site.url, path, token, **headers)
        try:
            return await conversation(client)
        finally:
            ours = client.close_code is None  # else the server has closed it: nothing to wait for
            client.close()
            if ours:
                await closed(client)

    return in_own_loop(talk)


def free_port() -> int:
    """A port on which nobody listens."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


def children(process: subprocess.Popen[str]) -> list[int]:
    """The processes that a process has started."""
    listed = Path(f"/proc/{process.pid}/task/{process.pid}/children")
    if not listed.exists():
        pytest.skip("this system does not list a process's children")
    return [int(word) for word in listed.read_text().split()]


@contextmanager
def program(port: int, *options: str, newer: bool = False) -> Iterator[subprocess.Popen[str]]:
    """The program in a process of its own, listening on `port`; ended as a system would end it.

    newer : as a later version of it would be, whose records this one does not know."""
    start = ["-c", NEWER] if newer else ["-m", "app"]
    command = [sys.executable, *start, "--no-browser", "--port", str(port), *options]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        try:
            assert process.stdout.readline().startswith("Halfturn is at ")
            yield process
        finally:
            process.send_signal(signal.SIGTERM)
            try:
                process.communicate(timeout=20)
            except (subprocess.TimeoutExpired, ValueError):
                process.kill()
