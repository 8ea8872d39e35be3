"""Driving a browser of another family by the open standards: WebDriver (W3C), and WebDriver BiDi (W3C).

Both describe keys and pointers alike. What differs is how a command gets there: BiDi over a websocket that the browser
itself opens (Firefox), WebDriver over HTTP to a program beside it (WebKit).
"""

from __future__ import annotations

import asyncio
import json
import os
import re
import subprocess
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from typing import Any, Protocol
from urllib.error import HTTPError
from urllib.request import Request, urlopen

from tornado.websocket import WebSocketClientConnection, websocket_connect

from tests.app.serving.wire import free_port
from tests.find_engines import FIREFOX, WEBKIT

WIDTH, HEIGHT = 1440, 900
SECONDS = 60  # for any answer of a browser
Actions = list[dict[str, Any]]


class Engine(Protocol):
    """A page of a browser."""

    @property
    def troubles(self) -> list[str]:
        """Errors that it has told of so far."""

    def go(self, url: str) -> None:
        """Open an address, and wait until it is loaded."""

    def evaluate(self, script: str) -> Any:
        """The value of an expression in the page, as plain data."""

    def act(self, actions: Actions) -> None:
        """Carry out actions of keys and pointers (W3C WebDriver, section 15)."""


class Firefox:
    """A page of Firefox, over a websocket in a loop of its own, as the caller's thread may have another."""

    def __init__(self, address: str) -> None:
        self.troubles: list[str] = []
        self._loop = asyncio.new_event_loop()
        threading.Thread(target=self._loop.run_forever, daemon=True).start()
        self._number = 0
        self._line: WebSocketClientConnection = self._await(self._opened(f"{address}/session"))
        self._ask("session.new", capabilities={})
        self._ask("session.subscribe", events=["log.entryAdded"])
        self._page = self._ask("browsingContext.getTree")["contexts"][0]["context"]
        self._ask(
            "browsingContext.setViewport", context=self._page, viewport={"width": WIDTH, "height": HEIGHT}
        )

    def go(self, url: str) -> None:
        self._ask("browsingContext.navigate", context=self._page, url=url, wait="complete")

    def evaluate(self, script: str) -> Any:
        told = self._ask(
            "script.evaluate",
            expression=f"JSON.stringify({script}) ?? 'null'",
            target={"context": self._page},
            awaitPromise=False,
        )
        assert told["type"] == "success", told
        return json.loads(told["result"]["value"])

    def act(self, actions: Actions) -> None:
        self._ask("input.performActions", context=self._page, actions=actions)

    async def _opened(self, address: str) -> WebSocketClientConnection:
        return await websocket_connect(address)

    def _ask(self, method: str, **params: Any) -> Any:
        self._number += 1
        return self._await(self._answer({"id": self._number, "method": method, "params": params}))

    async def _answer(self, command: dict[str, Any]) -> Any:
        await self._line.write_message(json.dumps(command))
        while (told := await self._line.read_message()) is not None:
            one = json.loads(told)
            if one.get("id") == command["id"]:
                assert one["type"] == "success", one
                return one["result"]
            if one.get("method") == "log.entryAdded" and one["params"]["level"] == "error":
                self.troubles.append(str(one["params"]["text"]))
        raise ConnectionError("Firefox has gone.")

    def _await(self, awaited: Any) -> Any:
        async def timed() -> Any:
            return await asyncio.wait_for(awaited, SECONDS)

        return asyncio.run_coroutine_threadsafe(timed(), self._loop).result()

    def end(self) -> None:
        """Let go of the connection and its loop."""
        self._loop.call_soon_threadsafe(self._line.close)
        self._loop.call_soon_threadsafe(self._loop.stop)


class WebKit:
    """A page of WebKit. It tells of no errors by itself, so each page is asked to note its own once it is loaded."""

    NOTE = """(globalThis.noted = [],
      addEventListener("error", ({ message }) => noted.push(message)),
      addEventListener("unhandledrejection", ({ reason }) => noted.push(String(reason))), 0)"""

    def __init__(self, port: int, program: str) -> None:
        self._noted: list[str] = []
        self._address = f"http://127.0.0.1:{port}/session"
        asked = {"webkitgtk:browserOptions": {"binary": program, "args": ["--automation"]}}
        session = self._ask("", {"capabilities": {"alwaysMatch": asked}})["sessionId"]
        self._address += f"/{session}"
        self._fit()

    def _fit(self) -> None:
        """Make the window so large that the page in it has its size."""
        self._ask("/window/rect", {"width": WIDTH, "height": HEIGHT})
        width, height = self.evaluate("[innerWidth, innerHeight]")
        self._ask("/window/rect", {"width": 2 * WIDTH - width, "height": 2 * HEIGHT - height})

    @property
    def troubles(self) -> list[str]:
        return self._noted + self.evaluate("globalThis.noted ?? []")

    def go(self, url: str) -> None:
        self._noted = self.troubles
        self._ask("/url", {"url": url})
        self.evaluate(self.NOTE)

    def evaluate(self, script: str) -> Any:
        return self._ask("/execute/sync", {"script": f"return {script.strip()};", "args": []})

    def act(self, actions: Actions) -> None:
        self._ask("/actions", {"actions": actions})

    def _ask(self, path: str, body: dict[str, Any]) -> Any:
        headers = {"Content-Type": "application/json"}
        request = Request(self._address + path, json.dumps(body).encode(), headers)
        try:
            with urlopen(request, timeout=SECONDS) as answer:
                return json.load(answer)["value"]
        except HTTPError as error:
            raise AssertionError(error.read().decode()) from None

    def end(self) -> None:
        """Close the browser."""
        with urlopen(Request(self._address, method="DELETE"), timeout=SECONDS):
            pass


@contextmanager
def firefox() -> Iterator[Engine]:
    """Firefox with a profile of its own. Raises NoEngine where it is not installed."""
    (program,) = FIREFOX.found()
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as profile:
        command = [program, "--headless", "--no-remote", "--profile", profile, "--remote-debugging-port", "0"]
        with _started(command, stderr=subprocess.PIPE) as process:
            assert process.stderr is not None
            lines = iter(process.stderr.readline, "")
            address = next(found[0] for line in lines if (found := re.search(r"ws://\S+", line)))
            threading.Thread(target=process.stderr.read, daemon=True).start()  # else it would fill up
            page = Firefox(address)
            yield page
            page.end()


@contextmanager
def webkit() -> Iterator[Engine]:
    """WebKit on a screen that nobody sees. Raises NoEngine where it is not installed."""
    driver, program, screen = WEBKIT.found()
    port = free_port()
    with ExitStack() as stack:
        size = f"{2 * WIDTH}x{2 * HEIGHT}x24"
        seen = stack.enter_context(
            _started(
                [screen, "-displayfd", "1", "-screen", "0", size, "-nolisten", "tcp"], stdout=subprocess.PIPE
            )
        )
        assert seen.stdout is not None
        # Its sandbox needs rights that a container does not give; what is opened is this program alone.
        more = {
            "DISPLAY": f":{seen.stdout.readline().strip()}",
            "WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS": "1",
        }
        stack.enter_context(_started([driver, f"--port={port}"], env={**os.environ, **more}))
        _listening(port)
        page = WebKit(port, program)
        yield page
        page.end()


@contextmanager
def _started(command: list[str], **options: Any) -> Iterator[subprocess.Popen[str]]:
    quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL, **options}
    with subprocess.Popen(command, stdin=subprocess.DEVNULL, text=True, errors="replace", **quiet) as process:
        try:
            yield process
        finally:
            process.terminate()


def _listening(port: int) -> None:
    """Wait until the driver answers."""
    until = time.monotonic() + SECONDS
    while True:
        try:
            urlopen(f"http://127.0.0.1:{port}/status", timeout=SECONDS).close()
            return
        except OSError:
            if time.monotonic() > until:
                raise
            time.sleep(0.05)
