"""A slow link: what a phone has at the edge of its network, between a browser and the program, in a loop of its own.

Every byte waits its turn on one line of so many bits a second, and then for half of the round trip. A connection costs
one round trip before it carries anything. The slow start of TCP and lost packets are left out.
"""

from __future__ import annotations

import asyncio
import contextlib
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field

PIECE = 4096


@dataclass
class Line:
    """One direction of the link. `sent` counts its bytes."""

    bits_a_second: float
    delay: float
    sent: int = 0
    _free: float = 0.0

    def due(self, size: int) -> float:
        """When so many bytes that come now are through, in seconds of the loop."""
        now = asyncio.get_running_loop().time()
        self._free = max(now, self._free) + 8 * size / self.bits_a_second
        self.sent += size
        return self._free + self.delay


@dataclass
class Link:
    """The link to a port of this machine. `down.sent` is what came from the program."""

    port: int
    bits_a_second: float
    round_trip: float
    _open: set[asyncio.StreamWriter] = field(default_factory=set)

    def __post_init__(self) -> None:
        self.up = Line(self.bits_a_second, self.round_trip / 2)
        self.down = Line(self.bits_a_second, self.round_trip / 2)

    async def join(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        """Carry one connection."""
        await asyncio.sleep(self.round_trip)
        onward, back = await asyncio.open_connection("127.0.0.1", self.port)
        self._open |= {writer, back}
        await asyncio.gather(_carry(reader, back, self.up), _carry(onward, writer, self.down))
        self._open -= {writer, back}

    def cut(self) -> None:
        """End all connections."""
        for writer in list(self._open):
            writer.transport.abort()


async def _carry(reader: asyncio.StreamReader, writer: asyncio.StreamWriter, line: Line) -> None:
    """Pass pieces on, each when it is due; many may be on their way at the same time."""
    ways: asyncio.Queue[tuple[float, bytes]] = asyncio.Queue(256)

    async def deliver() -> None:
        with contextlib.suppress(ConnectionError):
            while True:
                due, piece = await ways.get()
                await asyncio.sleep(due - asyncio.get_running_loop().time())
                if not piece:
                    break
                writer.write(piece)
                await writer.drain()
        writer.close()

    delivering = asyncio.create_task(deliver())
    piece = b"-"
    while piece:
        try:
            piece = await reader.read(PIECE)
        except ConnectionError:
            piece = b""
        due = line.due(len(piece))
        await ways.put((due, piece))
        # No piece is taken before the line is free: the sender has to wait, as it would on a real one.
        await asyncio.sleep(max(0.0, due - line.delay - asyncio.get_running_loop().time()))
    await delivering


@contextmanager
def slow_link(port: int, bits_a_second: float, round_trip: float) -> Iterator[tuple[int, Link]]:
    """A port that leads to `port` over such a link, and the link."""
    link, loop = Link(port, bits_a_second, round_trip), asyncio.new_event_loop()
    thread = threading.Thread(target=loop.run_forever, daemon=True)
    thread.start()

    def run(what):
        return asyncio.run_coroutine_threadsafe(what, loop).result(10)

    async def listen():
        return await asyncio.start_server(link.join, "127.0.0.1", 0)

    async def end() -> None:
        server.close()
        link.cut()
        await asyncio.sleep(0.1)

    server = run(listen())
    try:
        yield server.sockets[0].getsockname()[1], link
    finally:
        run(end())
        loop.call_soon_threadsafe(loop.stop)
        thread.join(10)
        loop.close()
