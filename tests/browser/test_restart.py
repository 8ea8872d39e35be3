"""A page outlives its server, and lives behind a proxy: nothing is lost, or sought on another host."""

import shutil
import socket
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.app.serving.test_proxies import HOST, nginx, printed, waited
from tests.app.serving.wire import free_port
from tests.app.serving.wire import program as a_program
from tests.browser.conftest import DESK, watch
from tests.browser.waits import ready
from tests.find_proxies import NoProxy

LONG = 60_000  # milliseconds that a page may take to be connected again on a busy machine


@contextmanager
def program(port: int) -> Iterator[None]:
    """The program in a process of its own, gone at the end as if its machine had stopped."""
    command = [sys.executable, "-m", "app", "--port", str(port), "--no-browser"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        process.stdout.readline()  # its address: it listens
        try:
            yield
        finally:
            process.kill()


@pytest.fixture
def port() -> int:
    """A port that is free."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


@pytest.fixture
def student(browser: Browser, port: int) -> Iterator[Page]:
    """A page of a browser that the test's own server will fill."""
    context = browser.new_context(base_url=f"http://127.0.0.1:{port}", viewport=DESK)  # type: ignore[arg-type]
    yield context.new_page()
    context.close()


def check(page: Page, key: str, text: str) -> None:
    """Answer a field, once: what is pressed while the connection is down is heard when it is back."""
    page.locator(f'input[data-field="{key}"]').fill(text)
    page.locator(f'button[data-focus="check {key}"]').click()
    expect(page.locator(f'[data-step="{key}"].done')).to_be_visible(timeout=LONG)


def test_the_sheet_goes_on(student: Page, port: int):
    """After a restart the sheet stands as it was, the next answer is checked, and no other host was asked."""
    troubles: list[str] = []
    with program(port):
        student.goto("/?load=60-80j&line=50")
        ready(student)
        check(student, "normalise", "1.2-1.6j")
    watch(student, f"127.0.0.1:{port}", troubles)
    with program(port):
        check(student, "place", "0.593 < -46.8")
        expect(student.locator('[data-step="normalise"].done summary')).to_contain_text("1.200 − j1.600")

    assert [] == [one for one in troubles if "another host" in one or "Content Security Policy" in one]


@pytest.fixture
def behind_tls(port: int, tmp_path: Path) -> Iterator[str]:
    """The program under a prefix, behind nginx that speaks TLS with a certificate made for the test; its address."""
    front, certificate, key = free_port(), tmp_path / "certificate.pem", tmp_path / "key.pem"
    subject = ["-days", "1", "-nodes", "-subj", f"/CN={HOST}", "-keyout", str(key), "-out", str(certificate)]
    made = ["openssl", "req", "-x509", "-newkey", "rsa:2048", *subject]
    words = ["--host", HOST, "--listen", str(front), "--prefix", "/halfturn", "--server", f"127.0.0.1:{port}"]
    plain = f"listen {front};"
    spoken = f"listen {front} ssl; ssl_certificate {certificate}; ssl_certificate_key {key};"
    configuration = printed("nginx", *words)
    assert plain in configuration
    try:
        command = nginx(tmp_path, configuration.replace(plain, spoken))
    except NoProxy as nothing:
        pytest.skip(str(nothing))
    if shutil.which("openssl") is None:
        pytest.skip("TLS is not tested: openssl, which makes the certificate, is not installed.")
    subprocess.run(made, check=True, capture_output=True)
    with (
        a_program(port, "--prefix", "/halfturn", "--public-host", HOST),
        subprocess.Popen(command, stderr=subprocess.DEVNULL) as process,
    ):
        try:
            yield f"https://127.0.0.1:{front}/halfturn"
        finally:
            process.terminate()


def test_prefix_behind_tls(browser: Browser, behind_tls: str):
    """Behind a proxy that speaks TLS, under a prefix, every page is usable, and nothing is asked for in the clear."""
    context = browser.new_context(viewport=DESK, ignore_https_errors=True)  # type: ignore[arg-type]
    troubles: list[str] = []
    asked: list[str] = []
    page = context.new_page()
    page.on("request", lambda request: asked.append(request.url))
    page.on("websocket", lambda socket: asked.append(socket.url))
    waited(lambda: listens(behind_tls))
    watch(page, urlsplit(behind_tls).netloc, troubles)
    for path in ("/check", "/lecture", "/lecture/notes", "/paper", "/?load=60-80j&line=50"):
        page.goto(behind_tls + path)
        ready(page)
    check(page, "normalise", "1.2-1.6j")
    page.reload()
    ready(page)
    expect(page.locator('[data-step="normalise"].done')).to_be_visible()
    context.close()

    assert [] == troubles
    assert {("https", "halfturn"), ("wss", "halfturn")} == {
        (urlsplit(url).scheme, urlsplit(url).path.split("/")[1])
        for url in asked
        if url[:5] not in ("data:", "blob:")
    }


def listens(url: str) -> bool:
    """Whether somebody takes connections there."""
    with socket.create_connection(("127.0.0.1", urlsplit(url).port or 0), timeout=1):
        return True
