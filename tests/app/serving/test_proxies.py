"""Behind the balancers that a department has: two servers, one of them killed, with the printed configuration."""

import asyncio
import contextlib
import io
import json
import os
import signal
import subprocess
import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager, redirect_stdout
from pathlib import Path

import pytest
from tornado.httpclient import HTTPError
from tornado.websocket import WebSocketClientConnection

from app.commands import deploy
from tests.app.serving.test_intruders import components, document, said
from tests.app.serving.wire import (
    ask_bytes,
    closed,
    free_port,
    greeted,
    heard,
    in_own_loop,
    program,
    tell,
    token_in,
)
from tests.find_proxies import NoProxy, find_or_install

ESTABLISHED = "01"
LONGER_THAN_A_LOOK = 1.5  # seconds; a balancer's look at a server is over by then
HOST = "tutor.example"
MAIN = """\
daemon off;
pid {folder}/pid;
error_log stderr warn;
events {{ worker_connections 256; }}
http {{
    access_log off;
    client_body_temp_path {folder}/body; proxy_temp_path {folder}/proxy; fastcgi_temp_path {folder}/f;
    uwsgi_temp_path {folder}/u; scgi_temp_path {folder}/s;
    include {folder}/halfturn.conf;
}}
"""


def printed(*words: str) -> str:
    """What `halfturn deploy` prints."""
    out = io.StringIO()
    with redirect_stdout(out):
        assert 0 == deploy.main(words)
    return out.getvalue()


def nginx(folder: Path, configuration: str) -> list[str]:
    """The command that runs nginx with this configuration in its http part."""
    (folder / "halfturn.conf").write_text(configuration)
    (folder / "nginx.conf").write_text(MAIN.format(folder=folder))
    return [find_or_install("nginx"), "-p", str(folder), "-c", str(folder / "nginx.conf")]


def haproxy(folder: Path, configuration: str) -> list[str]:
    """The command that runs HAProxy with this configuration."""
    (folder / "haproxy.cfg").write_text(configuration)
    return [find_or_install("haproxy"), "-db", "-f", str(folder / "haproxy.cfg")]


@contextmanager
def proxy(command: list[str], port: int) -> Iterator[None]:
    """A proxy that listens, ended at the end."""
    with subprocess.Popen(command, stderr=subprocess.DEVNULL) as process:
        try:
            waited(lambda: ask_bytes(f"http://127.0.0.1:{port}/", "/halfturn/liveness", Host=HOST)[0] == 200)
            yield
        finally:
            process.send_signal(signal.SIGTERM)


def waited(holds: Callable[[], bool], seconds: float = 30) -> None:
    """Wait until something holds."""
    until = time.monotonic() + seconds
    while time.monotonic() < until:
        with contextlib.suppress(OSError):
            if holds():
                return
        time.sleep(0.05)
    raise AssertionError(f"not within {seconds} s")


@pytest.mark.parametrize(("kind", "runs"), [("nginx", nginx), ("haproxy", haproxy)])
def test_one_of_two_is_killed(kind: str, runs: Callable[[Path, str], list[str]], tmp_path: Path):
    """A page whose server is killed is let in at the other with the same token, and its sheet goes on there."""
    if not Path("/proc/net/tcp").exists():
        pytest.skip("this system does not list its connections, so the server to kill cannot be told")
    front, ports = free_port(), [free_port(), free_port()]
    places = [f"127.0.0.1:{port}" for port in ports]
    words = ["--host", HOST, "--listen", str(front), "--prefix", "/halfturn"]
    configuration = printed(kind, *words, "--server", places[0], "--server", places[1])
    try:
        command = runs(tmp_path, configuration)
    except NoProxy as nothing:
        pytest.skip(str(nothing))
    options = ["--prefix", "/halfturn", "--public-host", HOST, "--signing-key-file", str(tmp_path / "key")]
    with ExitStack() as stack:
        servers = [stack.enter_context(program(port, *options)) for port in ports]
        stack.enter_context(proxy(command, front))
        url = f"http://127.0.0.1:{front}/"
        status, headers, body = ask_bytes(url, "/halfturn/?load=25-10j&line=50", Host=HOST)
        token = token_in(body.decode())
        seat = {"Host": HOST, "Cookie": headers["set-cookie"].partition(";")[0], "Origin": f"http://{HOST}"}

        async def work_and_lose_the_server() -> list[int]:
            before = [peers(port) for port in ports]
            client = await greeted(url, "/halfturn/", token, **seat)
            await enter(client, "0.5-0.2j")
            now = [peers(port) for port in ports]
            await asyncio.sleep(LONGER_THAN_A_LOOK)
            holds = [now[i] & peers(ports[i]) - before[i] for i in (0, 1)]
            asked = [process for process, held in zip(servers, holds, strict=True) if held]
            for process in asked:
                os.kill(process.pid, signal.SIGKILL)
            await closed(client)
            client.close()
            return [process.pid for process in asked]

        async def come_back() -> WebSocketClientConnection:
            """As a page does: try again until the other server has taken it in."""
            for _ in range(5):
                with contextlib.suppress(AssertionError, HTTPError):
                    return await greeted(url, "/halfturn/", token, **seat)
                await asyncio.sleep(1)
            return await greeted(url, "/halfturn/", token, **seat)

        async def go_on() -> str:
            client = await come_back()
            shown = json.dumps(await document(client), ensure_ascii=False)
            await enter(client, "0.5-0.2j")
            client.close()
            await closed(client)
            return shown

        killed = in_own_loop(work_and_lose_the_server)
        waited(lambda: ask_bytes(url, "/halfturn/liveness", **seat)[0] == 200)
        shown = in_own_loop(go_on)

    assert 200 == status
    assert 1 == len(killed)
    assert "25 − j10" in shown


async def enter(client, text: str) -> None:
    """Enter the normalised load; it is checked."""
    data = {"type": "map", "entries": [["do", "enter"], ["field", "normalise"], ["text", text]]}
    for component in components(await document(client)):
        await tell(client, "PATCH-DOC", {"events": [said(component, data)]})
    assert text in json.dumps(await heard(client, "PATCH-DOC"), ensure_ascii=False)


def peers(port: int) -> set[str]:
    """Who holds a connection to the server on this port, as the system lists them (proc(5), /proc/net/tcp)."""
    rows = [line.split() for line in Path("/proc/net/tcp").read_text().splitlines()[1:]]
    return {row[1] for row in rows if row[2].endswith(f":{port:04X}") and row[3] == ESTABLISHED}


@pytest.mark.parametrize("kind", ["nginx", "haproxy", "systemd", "container"])
def test_printed(kind: str):
    """Each configuration names the host, the servers and how a server is to be ended, and leaves no gap."""
    text = printed(kind, "--host", HOST, "--prefix", "/halfturn")

    assert "5006" in text
    assert "/halfturn" in text
    assert not {"{host}", "{prefix}", "{{", "}}"} & set(text.split())


def test_no_other_line(capsys: pytest.CaptureFixture[str]):
    """What is no host name cannot bring a line of its own into a configuration."""
    with pytest.raises(SystemExit, match="2"):
        deploy.main(["nginx", "--host", "a; } evil {"])

    assert "a host name is" in capsys.readouterr().err
