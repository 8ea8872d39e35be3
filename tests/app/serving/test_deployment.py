"""Serving to many: ended gracefully, in several processes, under a public name and a prefix, with one signing key."""

import os
import re
import signal
import time
from pathlib import Path
from urllib.parse import urljoin

import pytest

from app.serving.setup import read_key
from tests.app.serving.wire import (
    ask_bytes,
    children,
    closed,
    free_port,
    greeted,
    heard,
    in_own_loop,
    program,
    sentence,
    tell,
)

RESTARTING = 1012  # IANA's list of close codes


def url(port: int) -> str:
    """The program's address on this machine."""
    return f"http://127.0.0.1:{port}/"


class TestEnding:
    @pytest.mark.parametrize("processes", [1, 2])
    def test_gracefully(self, processes: int):
        """On SIGTERM pages are told to connect elsewhere, nobody new is let in, and the program ends well."""
        port = free_port()
        with program(port, "--processes", str(processes)) as process:

            async def last():
                client = await greeted(url(port))
                process.send_signal(signal.SIGTERM)
                code = await closed(client)
                client.close()
                return code

            code = in_own_loop(last)
            rest, complaint = process.communicate(timeout=20)

        assert RESTARTING == code
        assert (0, "", "") == (process.returncode, rest, complaint)
        with pytest.raises(ConnectionError, match="refused"):
            ask_bytes(url(port), "/liveness")


class TestProcesses:
    def test_page_of_one_opens_at_another(self):
        """Whichever process made a page, its connection opens at any, and a process that is killed is replaced."""
        port = free_port()
        with program(port, "--processes", "2") as process:

            async def open_all():
                for _ in range(3):
                    client = await greeted(url(port), "/")
                    await tell(client, "PULL-DOC-REQ", {})
                    assert (await heard(client, "PULL-DOC-REPLY"))["doc"]["roots"]
                    client.close()
                    await closed(client)

            in_own_loop(open_all)
            before = children(process)
            os.kill(before[0], signal.SIGKILL)
            until = time.monotonic() + 20
            while time.monotonic() < until and len({*children(process)} - {before[0]}) < 2:
                time.sleep(0.05)

            assert 2 == len(before)
            assert 2 == len({*children(process)} - {before[0]})
            assert 200 == ask_bytes(url(port), "/")[0]


class TestPlace:
    def test_public_host(self):
        """Behind a proxy that keeps the host name, that name is answered, and no other."""
        port = free_port()
        with program(port, "--public-host", "tutor.example"):
            answers = [
                ask_bytes(url(port), "/", Host=name)[0] for name in ("tutor.example", "TUTOR.example:8443")
            ]
            status, _, text = ask_bytes(url(port), "/", Host="other.example")
            alive = ask_bytes(url(port), "/liveness", Host="10.0.0.7")[0]

            async def connect():
                headers = {"Host": "tutor.example", "Origin": "https://tutor.example"}
                client = await greeted(url(port), **headers)
                client.close()
                await closed(client)

            in_own_loop(connect)

        assert [200, 200] == answers
        assert 403 == status
        assert "does not answer under this host name" in sentence(text.decode())
        assert 200 == alive

    def test_prefix(self):
        """Under a prefix every address that a page names lies under it, and each of them is answered."""
        port = free_port()
        with program(port, "--prefix", "/halfturn/"):
            paths = ("/halfturn/", "/halfturn/check", "/halfturn/lecture/notes")
            pages = {path: ask_bytes(url(port), path) for path in paths}
            named = {a for path, (_, _, text) in pages.items() for a in addresses(path, text.decode())}
            answered = {address: ask_bytes(url(port), address)[0] for address in named}
            elsewhere = [ask_bytes(url(port), path)[0] for path in ("/", "/check", "/static/parts/page.css")]
            status, headers, _ = ask_bytes(url(port), "/halfturn")
            missing = ask_bytes(url(port), "/halfturn/nowhere")[2].decode()

            async def connect():
                client = await greeted(url(port), "/halfturn/check")
                client.close()
                await closed(client)

            in_own_loop(connect)

        assert [200, 200, 200] == [page[0] for page in pages.values()]
        assert len(named) > 6
        assert {} == {
            a: status for a, status in answered.items() if status != 200 or not a.startswith("/halfturn/")
        }
        assert [404, 404, 404] == elsewhere
        assert (301, "/halfturn/") == (status, headers["location"])
        assert 'href="/halfturn/"' in missing


class TestSigningKey:
    def test_made_for_its_owner(self, tmp_path: Path):
        """A key that is not there is made, long, for its owner alone, and the same for who comes after."""
        path = tmp_path / "key"
        key = read_key(path)

        assert len(key) >= 32
        assert key == read_key(path)
        assert 0o600 == path.stat().st_mode & 0o777

    def test_too_short(self, tmp_path: Path):
        """A key that could be guessed is refused."""
        path = tmp_path / "key"
        path.write_text("short")

        with pytest.raises(ValueError, match="at least 32"):
            read_key(path)


def addresses(path: str, html: str) -> list[str]:
    """What a page at `path` names in its markup, as a browser would ask for it."""
    found = re.findall(r"(?:src|href)=\"([^\"#]+)\"", html)
    return [urljoin(path, address) for address in found if not address.startswith("data:")]
