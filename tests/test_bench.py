"""What the benches measure with: figures against their goals, the README's table, and the link that is slow."""

import socket
import threading
import time

import pytest

from tests.bench.figures import BEGIN, END, README, Figure, tabled
from tests.bench.slow_link import slow_link

MEBIBIT = 1024 * 1024


class TestFigures:
    @pytest.mark.parametrize(("value", "told"), [(29.0, "met"), (30.0, "met"), (31.0, "NOT MET: it is slow")])
    def test_goal(self, value: float, told: str):
        """A figure says whether its goal was met, and what keeps it from that where it was not."""
        assert f"(goal <= 30 ms: {told})" in Figure("an opening", value, "ms", 30, "it is slow").line()

    def test_without_goal(self):
        """A figure that is only told claims no goal."""
        assert "goal" not in Figure("an opening", 3.0, "ms").line()

    def test_table(self):
        """The table takes the place of the one before it, and leaves the rest of the text alone."""
        once = tabled(f"before {BEGIN}{END} after", [Figure("a", 1.0, "s", 2), Figure("b", 3.25, "", 2)])
        again = tabled(once, [Figure("c", 100.4, "kB")])

        assert "| a | 1 s | at most 2 s |\n| b | 3.25 | at most 2, not met |\n" in once
        assert "| c | 100 kB |  |\n" in again
        assert "| a |" not in again
        assert again.startswith("before ")
        assert again.endswith(" after")

    def test_readme_has_a_place(self):
        """The README has the one place for the table."""
        assert "| c |" in tabled(README.read_text("utf-8"), [Figure("c", 1.0, "")])

    def test_no_place(self):
        """A text without a place for the table is refused."""
        with pytest.raises(ValueError, match="0 places"):
            tabled("nothing", [])


class TestSlowLink:
    def test_bits_and_round_trip(self):
        """A mebibit at a mebibit a second takes a second and the round trips at least; every byte arrives."""
        sent = bytes(range(256)) * (MEBIBIT // 8 // 256)
        with socket.create_server(("127.0.0.1", 0)) as server:
            giving = threading.Thread(target=_give, args=(server, sent))
            giving.start()
            with slow_link(server.getsockname()[1], MEBIBIT, 0.1) as (port, link):
                begun = time.perf_counter()
                with socket.create_connection(("127.0.0.1", port)) as ours:
                    ours.sendall(b"go")
                    came = b"".join(iter(lambda: ours.recv(65536), b""))
                took = time.perf_counter() - begun
            giving.join()

        assert sent == came
        assert len(sent) == link.down.sent
        assert took >= 1 + 0.1 + 0.1  # the bytes, the connection, and there and back


def _give(server: socket.socket, what: bytes) -> None:
    """Send all of it to the first who asks."""
    client, _ = server.accept()
    with client:
        client.recv(2)
        client.sendall(what)
