"""A visitor without a browser: bare sockets, so that what is measured is the program and little else.

`python -m tests.bench.visitor` reads one JSON list of `[what, facts]` from its input, does all of them at the same
time, and prints what came of each, and the processor time that it took itself.
"""

from __future__ import annotations

import asyncio
import base64
import gzip
import json
import os
import re
import sys
import time
from collections.abc import Awaitable, Callable
from contextlib import suppress
from typing import Any
from urllib.parse import urlsplit

FILES = re.compile(r'<(?:script|link)\b[^>]*\b(?:src|href)="(/[^"]+\?v=[^"]+)"')
ASK = {"Accept-Encoding": "gzip, br", "Connection": "keep-alive"}


class Visitor:
    """One page of one visitor: asked for, opened, and spoken with."""

    def __init__(self, url: str) -> None:
        place = urlsplit(url)
        self.host, self.port = place.hostname or "", place.port or 80
        self.bytes = 0
        self._number = 0

    async def open(self, path: str, files: bool) -> None:
        """Ask for the page, for the files that it names if `files`, and then for its document."""
        reader, writer = await asyncio.open_connection(self.host, self.port)
        html = gzip.decompress(await self._get(reader, writer, path)).decode()
        for name in FILES.findall(html) if files else ():
            await self._get(reader, writer, name)
        token = re.search(r'"token":"([^"]+)"', html)
        assert token is not None
        writer.close()
        await writer.wait_closed()
        await self._connect(path.partition("?")[0].rstrip("/") + "/ws", token[1])
        await self._tell("PULL-DOC-REQ", {})
        self.document = (await self._heard("PULL-DOC-REPLY"))["doc"]

    def component(self, name: str) -> str:
        """The model of the component of this class."""
        return next(
            root["id"] for root in self.document["roots"] if root["attributes"].get("class_name") == name
        )

    async def say(self, model: str, said: dict[str, Any], until: Callable[[dict[str, Any]], bool]) -> None:
        """Say what was done in a component, and wait until something is told for which `until` holds."""
        self._number += 1
        entries = [["model", {"id": model}], ["data", wire({**said, "number": self._number})]]
        event = {"type": "event", "name": "data_event", "values": {"type": "map", "entries": entries}}
        told = {"kind": "MessageSent", "msg_type": "bokeh_event", "msg_data": event}
        await self._tell("PATCH-DOC", {"events": [told]})
        while not any(
            until(plain(event["msg_data"]["values"])["data"])
            for event in (await self._heard("PATCH-DOC"))["events"]
            if event["kind"] == "MessageSent"
        ):
            pass

    async def close(self) -> None:
        """Go."""
        self._writer.close()
        with suppress(ConnectionError):
            await self._writer.wait_closed()

    async def _get(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter, path: str) -> bytes:
        lines = [
            f"GET {path} HTTP/1.1",
            f"Host: {self.host}:{self.port}",
            *(f"{k}: {v}" for k, v in ASK.items()),
        ]
        writer.write("\r\n".join([*lines, "", ""]).encode())
        head = await reader.readuntil(b"\r\n\r\n")
        if not head.startswith(b"HTTP/1.1 200"):
            raise ConnectionError(head.decode().splitlines()[0])
        length = re.search(rb"(?i)content-length: (\d+)", head)
        assert length is not None
        body = await reader.readexactly(int(length[1]))
        self.bytes += len(head) + len(body)
        return body

    async def _connect(self, path: str, token: str) -> None:
        self._reader, self._writer = await asyncio.open_connection(self.host, self.port)
        key = base64.b64encode(os.urandom(16)).decode()
        lines = [
            f"GET {path} HTTP/1.1",
            f"Host: {self.host}:{self.port}",
            "Upgrade: websocket",
            "Connection: Upgrade",
            f"Sec-WebSocket-Key: {key}",
            "Sec-WebSocket-Version: 13",
            f"Sec-WebSocket-Protocol: bokeh, {token}",
        ]
        self._writer.write("\r\n".join([*lines, "", ""]).encode())
        head = await self._reader.readuntil(b"\r\n\r\n")
        if not head.startswith(b"HTTP/1.1 101"):
            raise ConnectionError(head.decode().splitlines()[0])
        await self._heard("ACK")

    async def _tell(self, kind: str, content: object) -> None:
        for part in ({"msgid": str(self._number), "msgtype": kind}, {}, content):
            text = json.dumps(part).encode()
            size = len(text)
            length = bytes([0x80 | size]) if size < 126 else b"\xfe" + size.to_bytes(2, "big")
            self._writer.write(b"\x81" + length + bytes(4) + text)  # masked with nothing: RFC 6455, 5.3

    async def _heard(self, kind: str) -> dict[str, Any]:
        """The content of the next message of a kind. Raises ConnectionError if the server closes before."""
        while True:
            head, _, content = [await self._part() for _ in range(3)]
            if json.loads(head)["msgtype"] == kind:
                return json.loads(content)

    async def _part(self) -> bytes:
        while True:
            first, size = await self._reader.readexactly(2)
            if size > 125:
                size = int.from_bytes(await self._reader.readexactly(2 if size == 126 else 8), "big")
            body = await self._reader.readexactly(size)
            self.bytes += size
            if first & 0x0F == 8:
                raise ConnectionError(f"closed with {int.from_bytes(body[:2], 'big')}")
            if first & 0x0F in (0, 1):
                return body


def wire(value: Any) -> Any:
    """Plain data as the library in the browser writes it."""
    if isinstance(value, dict):
        return {"type": "map", "entries": [[key, wire(one)] for key, one in value.items()]}
    return value


def plain(value: Any) -> Any:
    """What the server wrote as such, read back."""
    if isinstance(value, dict) and value.get("type") == "map":
        return {key: plain(one) for key, one in value.get("entries", [])}
    return value


async def opening(url: str, path: str, files: bool, at: float = 0.0, stay: bool = False) -> dict[str, float]:
    """Open a page `at` seconds from now: how long it took until it was there. Who stays keeps it open to the end."""
    await asyncio.sleep(at)
    begun, one = time.perf_counter(), Visitor(url)
    await one.open(path, files)
    took = time.perf_counter() - begun
    if not stay:
        await one.close()
    return {"seconds": took, "bytes": one.bytes}


async def working(url: str, pause: float, seconds: float) -> dict[str, list[float]]:
    """Check a step again and again: how long each took, in milliseconds."""
    one = Visitor(url)
    taken: list[float] = []
    await one.open("/?load=60-80j&line=50", files=False)
    model, end = one.component("SheetView"), time.perf_counter() + seconds
    while time.perf_counter() < end:
        begun = time.perf_counter()
        said = {"do": "enter", "field": "normalise", "text": f"{60 + len(taken)}-80j"}
        await one.say(model, said, lambda told: "page" in told)
        taken.append(1e3 * (time.perf_counter() - begun))
        await asyncio.sleep(pause)
    await one.close()
    return {"milliseconds": taken}


async def printing(url: str, count: int, at: float = 0.0) -> dict[str, float]:
    """Have so many worksheets with their keys made."""
    one = Visitor(url)
    await one.open("/paper", files=False)
    await asyncio.sleep(at)
    begun = time.perf_counter()
    texts = {"seed": "1", "count": str(count), "key": "with"}
    await one.say(one.component("PaperView"), {"do": "make", "texts": texts}, lambda told: "end" in told)
    took = time.perf_counter() - begun
    await one.close()
    return {"seconds": took}


DOINGS: dict[str, Callable[..., Awaitable[Any]]] = {"open": opening, "work": working, "print": printing}


async def _all(wishes: list[tuple[str, dict[str, Any]]]) -> list[Any]:
    done = await asyncio.gather(*(DOINGS[what](**facts) for what, facts in wishes), return_exceptions=True)
    return [{"failed": repr(one)} if isinstance(one, BaseException) else one for one in done]


if __name__ == "__main__":
    came = asyncio.run(_all(json.load(sys.stdin)))
    json.dump({"came": came, "processor": sum(os.times()[:2])}, sys.stdout)
