"""Past its limits the program says a sentence, and goes on once there is room again."""

import socket
from urllib.parse import urlsplit

import panel as pn
import pytest

from app.serving.server import serve
from tests.app.serving.wire import ask, closed, converse, sentence


@pytest.fixture
def small():
    """A server for few pages and few connections."""
    running = serve({"/": pn.Column}, port=0, threaded=True, most_pages=3)
    assert running is not None
    yield running
    running.stop()


class TestPages:
    def test_one_too_many(self, small):
        """The page after the last that fits gets 503 and a sentence, and is told when to come again."""
        opened = [ask(small, "/")[0] for _ in range(3)]
        status, headers, text = ask(small, "/")

        assert [200, 200, 200] == opened
        assert (503, "30") == (status, headers["retry-after"])
        assert "As many pages are open as this machine can serve" in sentence(text)

    def test_connection_of_an_unknown_page(self, small):
        """A page of another server that would be one too many is asked to try later, by the websocket's close code."""
        for _ in range(3):
            ask(small, "/")

        with pytest.raises(AssertionError, match="closed before greeting, with 1013"):
            converse(small, closed, token="of.another")


class TestConnections:
    def test_one_too_many(self, small, caplog: pytest.LogCaptureFixture):
        """Past the open-file limit a sentence is sent and no traceback written, and later there is room again."""
        limits = small.server._tornado.settings["limits"]
        limits.most_connections = 3
        place = urlsplit(small.url)
        idle = [socket.create_connection((place.hostname, place.port)) for _ in range(5)]
        status, _, text = ask(small, "/")
        for one in idle:
            one.close()
        later = [ask(small, "/liveness")[0] for _ in range(20)][-1]

        assert 503 == status
        assert "As many pages are open" in sentence(text)
        assert 200 == later
        assert "Traceback" not in caplog.text

    def test_far_too_many(self, small):
        """Where not even the sentence can be made, the connection is answered and shut at once."""
        limits = small.server._tornado.settings["limits"]
        limits.most_connections = -100

        place = urlsplit(small.url)
        with socket.create_connection((place.hostname, place.port), timeout=10) as one:
            answer = one.recv(1000)

        assert answer.startswith(b"HTTP/1.1 503 ")
