"""A page outlives its server: another process takes over, and nothing is lost or sought on another host."""

import socket
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import DESK, watch
from tests.browser.waits import ready

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
