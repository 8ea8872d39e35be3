"""The network between a browser and the program, as it may be: cut, silent, or leading to another server."""

import asyncio
import contextlib
import threading
from collections.abc import Iterator
from contextlib import contextmanager

PIECE = 65536


class Network:
    """A plain TCP switch on a port of its own, in a loop of its own. It knows nothing of what it carries."""

    def __init__(self, *ports: int) -> None:
        self.ports = list(ports)
        self.is_up = True
        self.carries = True
        self.port = 0
        self._turn = 0
        self._open: set[asyncio.StreamWriter] = set()
        self.loop: asyncio.AbstractEventLoop
        self._ended: asyncio.Event

    def cut(self) -> None:
        """Break every connection there is, as a fallen access point would; new ones can be made."""
        self._call(self._cut)

    def down(self) -> None:
        """Break every connection, and let none be made."""
        self.is_up = False
        self.cut()

    def up(self) -> None:
        """Let connections be made again, and carry what they say."""
        self.is_up = self.carries = True

    def silent(self) -> None:
        """Swallow whatever is said on either side, and break nothing."""
        self.carries = False

    def _call(self, act) -> None:
        async def acted() -> None:
            act()

        asyncio.run_coroutine_threadsafe(acted(), self.loop).result(10)

    def _cut(self) -> None:
        for writer in list(self._open):
            writer.transport.abort()

    async def _join(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        self._open.add(writer)
        try:
            if self.is_up and (onward := await self._onward()):
                await self._carry(reader, writer, *onward)
        except asyncio.CancelledError:
            pass  # the network ends; the loop would else complain
        finally:
            self._open.discard(writer)
            writer.transport.abort()

    async def _onward(self) -> tuple[asyncio.StreamReader, asyncio.StreamWriter] | None:
        """A connection to the next of the servers that listens."""
        for _ in self.ports:
            self._turn += 1
            with contextlib.suppress(OSError):
                return await asyncio.open_connection("127.0.0.1", self.ports[self._turn % len(self.ports)])
        return None

    async def _carry(self, reader, writer, far_reader, far_writer) -> None:
        self._open.add(far_writer)
        ways = [asyncio.create_task(self._pass(*way)) for way in ((reader, far_writer), (far_reader, writer))]
        await asyncio.wait(ways, return_when=asyncio.FIRST_COMPLETED)
        for way in ways:
            way.cancel()
        self._open.discard(far_writer)
        far_writer.transport.abort()

    async def _pass(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        with contextlib.suppress(OSError):
            while piece := await reader.read(PIECE):
                if self.carries:
                    writer.write(piece)
                    await writer.drain()
        await asyncio.sleep(0.05)  # what was said last arrives

    def run(self, listening: threading.Event) -> None:
        """Carry until ended; in a thread of its own, as the browser's driver has the loop of this one."""

        async def main() -> None:
            self.loop = asyncio.get_running_loop()
            self._ended = asyncio.Event()
            server = await asyncio.start_server(self._join, "127.0.0.1", 0)
            self.port = server.sockets[0].getsockname()[1]
            listening.set()
            await self._ended.wait()
            server.close()
            self._cut()
            await asyncio.sleep(0.1)  # the ways between break

        asyncio.run(main())

    def end(self) -> None:
        """Break everything and stop listening."""
        self._call(self._ended.set)


@contextmanager
def network(*ports: int) -> Iterator[Network]:
    """A network that leads to servers on these ports, in turn."""
    one, listening = Network(*ports), threading.Event()
    thread = threading.Thread(target=one.run, args=(listening,), daemon=True)
    thread.start()
    assert listening.wait(10)
    try:
        yield one
    finally:
        one.end()
        thread.join(10)
