"""The command: what it prints, and how it answers what it cannot do."""

import contextlib
import io
import signal
import socket
import subprocess
import sys
from collections.abc import Iterator

import pytest

from app import __main__ as command
from app.__main__ import Trouble, choose_port


class Terminal(io.StringIO):
    """A standard input at which someone sits."""

    def isatty(self) -> bool:
        return True


@pytest.fixture
def busy() -> Iterator[int]:
    """A port on which somebody else listens."""
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        yield other.getsockname()[1]


def run(*arguments: str) -> subprocess.CompletedProcess[str]:
    """The command run to its end with nobody at the terminal."""
    return subprocess.run(
        [sys.executable, "-m", "app", *arguments],
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        timeout=60,
    )


class TestServing:
    def test_prints_address_and_ends_quietly(self):
        """It prints the address once it can be opened, and Ctrl-C ends it without a complaint."""
        process = subprocess.Popen(
            [sys.executable, "-m", "app", "--no-browser", "--port", "0"],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )
        with process:
            assert process.stdout is not None
            line = process.stdout.readline()
            with contextlib.closing(socket.create_connection(("127.0.0.1", port_in(line)), timeout=10)):
                pass
            process.send_signal(signal.SIGINT)
            rest, complaint = process.communicate(timeout=20)

        assert line.startswith("Halfturn is at http://127.0.0.1:")
        assert ("", "", 0) == (rest, complaint, process.returncode)


class TestBusyPort:
    def test_nobody_to_ask(self, busy: int):
        """Without a terminal one sentence names the next free port and the command for it."""
        done = run("--no-browser", "--port", str(busy))

        assert (1, "") == (done.returncode, done.stdout)
        assert 1 == len(done.stderr.splitlines())
        assert f"Port {busy} is in use; the next free one is " in done.stderr
        assert "halfturn --port " in done.stderr

    @pytest.mark.parametrize("answer", ["\n", "y\n", " Yes \n"])
    def test_offer_taken(self, busy: int, answer: str, monkeypatch: pytest.MonkeyPatch):
        """At a terminal the next free port is offered, and used on a yes or a bare Enter."""
        monkeypatch.setattr(sys, "stdin", Terminal(answer))

        assert busy < choose_port("127.0.0.1", busy)

    @pytest.mark.parametrize("answer", ["n\n", "what\n", ""])
    def test_offer_declined(self, busy: int, answer: str, monkeypatch: pytest.MonkeyPatch):
        """Anything but a yes starts nothing."""
        monkeypatch.setattr(sys, "stdin", Terminal(answer))

        with pytest.raises(Trouble, match="Nothing was started"):
            choose_port("127.0.0.1", busy)

    def test_none_free(self, monkeypatch: pytest.MonkeyPatch):
        """Where every port that follows is taken, the sentence says so."""
        monkeypatch.setattr(command, "is_free", lambda address, port: False)

        with pytest.raises(Trouble, match="so are the ports after it"):
            choose_port("127.0.0.1", 65_530)


class TestBadOptions:
    @pytest.mark.parametrize("port", ["abc", "-1", "65536", "1e3", "", "٥", "9" * 10_000])
    def test_port(self, port: str, capsys: pytest.CaptureFixture[str]):
        """A port that is none gets the range that is allowed."""
        with pytest.raises(SystemExit, match="2"):
            command.main([f"--port={port}"])
        complaint = capsys.readouterr().err.splitlines()[-1]

        assert "a port is a whole number from 0 to 65535, not " in complaint
        assert len(complaint) < 160

    @pytest.mark.parametrize("address", ["203.0.113.7", "no such host", "a" * 300])
    def test_address(self, address: str, capsys: pytest.CaptureFixture[str]):
        """An address that is not this machine's gets a sentence that names one that is."""
        assert 1 == command.main(["--no-browser", "--address", address])
        complaint = capsys.readouterr().err

        assert "127.0.0.1 always is." in complaint
        assert len(complaint) < 160

    def test_port_kept_for_the_system(self, monkeypatch: pytest.MonkeyPatch):
        """A port that this user may not use gets a sentence that names the allowed ones."""

        def refuse(self, place):
            raise PermissionError(13, "Permission denied")

        monkeypatch.setattr(socket.socket, "bind", refuse)

        with pytest.raises(Trouble, match="may not use port 80; choose one above 1023"):
            choose_port("127.0.0.1", 80)


def port_in(line: str) -> int:
    """The port of the address in a printed line."""
    return int(line.split("127.0.0.1:")[1].split("/")[0])
