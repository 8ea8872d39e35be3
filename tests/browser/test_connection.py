"""The connection breaks in every way that a network has: nothing entered is lost, and each press counts once."""

from __future__ import annotations

import os
import re
import signal
from collections.abc import Iterator
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, Page, expect

from app.serving.server import Running
from tests.app.serving.wire import free_port, program
from tests.browser.conftest import DESK
from tests.browser.network import Network, network
from tests.browser.stage.board import Board
from tests.browser.waits import ready

LINK = "/?load=60-80j&line=50"
CUTS = 100
LONG = 60_000  # milliseconds that a page may take to be connected again on a busy machine
HOUR = 3_600_000
POINT = 0.4058 - 0.4324j
"""Where 1.2 - j1.6 lies: (z - 1)/(z + 1), with 0.593 at -46.8 degrees."""
ATTEMPTS = """() => {
  const { sheets, last } = JSON.parse(localStorage.getItem("halfturn.v1"));
  return sheets[last].record.sheet;
}"""


@pytest.fixture
def net(site: Running) -> Iterator[Network]:
    """A network between the browser and the program."""
    with network(urlsplit(site.url).port or 0) as one:
        yield one


@pytest.fixture
def student(browser: Browser) -> Iterator[Page]:
    """A page of a browser, not opened yet."""
    context = browser.new_context(viewport=DESK)  # type: ignore[arg-type]
    yield context.new_page()
    context.close()


def opened(student: Page, port: int, path: str = LINK) -> Page:
    """The page, opened over a network on that port."""
    student.goto(f"http://127.0.0.1:{port}{path}")
    ready(student)
    return student


def connected(page: Page) -> None:
    """Wait until the page is connected."""
    page.locator("html[data-connection=up]").wait_for(state="attached", timeout=LONG)


def parted(page: Page) -> None:
    """Wait until the page knows that it is not."""
    page.locator("html[data-connection=down]").wait_for(state="attached", timeout=LONG)


def answer(page: Page, key: str, text: str) -> None:
    """Type an answer and press its button, once."""
    page.locator(f'input[data-field="{key}"]').fill(text)
    page.locator(f'button[data-focus="check {key}"]').click()


def done(page: Page, key: str) -> None:
    """Wait until a step is done."""
    expect(page.locator(f'[data-step="{key}"].done')).to_be_visible(timeout=LONG)


def attempts(page: Page, key: str) -> int:
    """How often a field was answered, as it is kept."""
    return sum(one[1:2] == [key] and len(one) == 3 for one in page.evaluate(ATTEMPTS)["attempts"])


class TestOutage:
    def test_for_ever(self, student: Page, net: Network):
        """However long the connection is gone, it is tried again: an hour later the page hears as before."""
        student.clock.install()
        page = opened(student, net.port)
        net.down()
        parted(page)
        for _ in range(8):
            page.clock.fast_forward(HOUR // 8)
            page.wait_for_timeout(50)

        expect(page.locator("#notes")).to_contain_text("kept in this browser")
        net.up()
        page.clock.fast_forward(HOUR)
        connected(page)
        expect(page.locator("#notes")).to_be_empty()
        page.clock.resume()
        answer(page, "normalise", "1.2-1.6j")
        done(page, "normalise")

    def test_presses_are_held(self, student: Page, net: Network):
        """What is pressed while the connection is gone is carried out afterwards, in order, and each press once."""
        page = opened(student, net.port)
        net.down()
        parted(page)
        answer(page, "normalise", "1.2+1.6j")
        answer(page, "normalise", "1.2-1.6j")
        page.locator('button[data-focus="hint normalise"]').click()
        net.up()
        page.evaluate("dispatchEvent(new Event('online'))")
        done(page, "normalise")
        expect(page.locator('[data-step="normalise"] .hints li')).to_have_count(1)

        assert 2 == attempts(page, "normalise")

    def test_drawings_are_held(self, student: Page, net: Network):
        """What is drawn while the connection is gone is in its box afterwards, and is checked if that was pressed."""
        page = opened(student, net.port)
        answer(page, "normalise", "1.2-1.6j")
        done(page, "normalise")
        page.locator('.pad[data-asks="place"]').wait_for()
        net.down()
        parted(page)
        Board(page).drag(0, 0.5j, POINT)
        page.locator('button[data-focus="check place"]').click()
        net.up()
        page.evaluate("dispatchEvent(new Event('online'))")
        done(page, "place")

        assert 1 == attempts(page, "place")
        assert "draw" == next(one[0] for one in page.evaluate(ATTEMPTS)["attempts"] if one[1] == "place")

    def test_drawing_is_not_checked_unasked(self, student: Page, net: Network):
        """A drawing that was held goes into its box and waits there; of two, the later one stands."""
        page = opened(student, net.port)
        answer(page, "normalise", "1.2-1.6j")
        done(page, "normalise")
        page.locator('.pad[data-asks="place"]').wait_for()
        net.down()
        parted(page)
        Board(page).drag(0, 0.5j)
        Board(page).drag(0.5j, POINT)
        net.up()
        page.evaluate("dispatchEvent(new Event('online'))")
        box = page.locator('input[data-field="place"]')

        expect(box).to_have_value(re.compile(r"0\.59. ∠ −4[67]"), timeout=LONG)
        assert 0 == attempts(page, "place")

    def test_typed_over_a_held_drawing(self, student: Page, net: Network):
        """What is typed after a drawing that is held is what is checked, and stays in the box."""
        page = opened(student, net.port)
        answer(page, "normalise", "1.2-1.6j")
        done(page, "normalise")
        page.locator('.pad[data-asks="place"]').wait_for()
        net.down()
        parted(page)
        Board(page).drag(0, 0.5j)
        page.locator('input[data-field="place"]').fill("0.593 < -46.8")
        net.up()
        page.evaluate("dispatchEvent(new Event('online'))")
        connected(page)
        page.locator('button[data-focus="check place"]').click()

        done(page, "place")

    def test_at_once(self, student: Page, net: Network):
        """When the network returns, the connection is tried without waiting for the next pause to end."""
        student.clock.install()
        page = opened(student, net.port)
        net.down()
        parted(page)
        page.clock.fast_forward(HOUR)
        page.wait_for_timeout(300)
        net.up()
        page.evaluate("dispatchEvent(new Event('online'))")

        connected(page)

    def test_silence(self, student: Page, net: Network):
        """A network that swallows everything is found out by an answer that does not come, and the press is kept."""
        page = opened(student, net.port)
        net.silent()
        answer(page, "normalise", "1.2-1.6j")
        parted(page)
        net.up()
        page.evaluate("dispatchEvent(new Event('online'))")
        done(page, "normalise")

        assert 1 == attempts(page, "normalise")

    def test_first_connection(self, student: Page, net: Network):
        """A page whose first connection fails becomes usable with the next one."""
        page = student
        net_port = f"http://127.0.0.1:{net.port}"
        page.add_init_script(
            """const Real = WebSocket; let first = true;
            globalThis.WebSocket = class extends Real {
              constructor(url, protocols) {
                super(first ? url.replace("/ws", "/nowhere") : url, protocols);
                first = false;
              }
            };"""
        )
        page.goto(net_port + LINK)
        ready(page)

        answer(page, "normalise", "1.2-1.6j")
        done(page, "normalise")

    def test_cut_a_hundred_times(self, student: Page, net: Network):
        """Cut a hundred times while a student types, the page keeps each entry, and ends where the student is."""
        page = opened(student, net.port)
        box = page.locator('input[data-field="normalise"]')
        for number in range(CUTS):
            box.fill(f"{number}")
            net.cut()
            if number % 10 == 0:
                connected(page)
                expect(box).to_have_value(f"{number}", timeout=LONG)
        connected(page)

        expect(box).to_have_value(f"{CUTS - 1}", timeout=LONG)
        answer(page, "normalise", "1.2-1.6j")
        net.cut()
        done(page, "normalise")
        assert 1 == attempts(page, "normalise")

    def test_caret_stays(self, student: Page, net: Network):
        """Who types while the connection comes back goes on where the caret was."""
        page = opened(student, net.port)
        box = page.locator('input[data-field="normalise"]')
        box.fill("1.2-1.6")
        page.keyboard.press("ArrowLeft")
        net.cut()
        parted(page)
        connected(page)
        expect(box).to_be_focused()
        page.keyboard.type("7")

        expect(box).to_have_value("1.2-1.76")


class TestOtherPages:
    def test_check(self, student: Page, net: Network):
        """Lines of one's own are kept over an outage, and marked after it."""
        page = opened(student, net.port, "/check?load=60-80j&line=50")
        net.down()
        parted(page)
        page.locator("#working-text").fill("z = 1.2-1.6j")
        page.get_by_role("button", name="Mark my working").click()
        net.up()

        expect(page.locator(".marked .verdict").first).to_contain_text("Right", timeout=LONG)
        expect(page.locator("#working-text")).to_have_value("z = 1.2-1.6j")

    def test_lecture(self, student: Page, net: Network):
        """A lecture goes on without a connection, stays where it is with the next, and then takes another problem."""
        page = opened(student, net.port, "/lecture?load=60-80j&line=50")
        net.down()
        parted(page)
        for _ in range(3):
            page.keyboard.press("ArrowRight")
        page.keyboard.press("v")
        shown = page.locator("article").get_attribute("data-frame")
        net.up()
        connected(page)

        expect(page.locator(f'article.told[data-frame="{shown}"]')).to_be_visible(timeout=LONG)
        page.keyboard.press("n")
        expect(page.locator(f'article[data-frame="{shown}"]')).to_be_visible(timeout=LONG)

    def test_moved_load(self, student: Page, net: Network):
        """A load that is put elsewhere on the lecture's chart during an outage is the lecture's load after it."""
        page = opened(student, net.port, "/lecture?load=60-80j&line=50")
        page.keyboard.press("m")
        page.locator('.pad[data-asks="moved"]').wait_for()
        net.down()
        parted(page)
        Board(page).drag(POINT, 0.3j, 0.5)
        net.up()
        page.evaluate("dispatchEvent(new Event('online'))")

        expect(page.locator(".brief")).to_contain_text(re.compile(r"Load 1\d\d Ω"), timeout=LONG)

    def test_paper(self, student: Page, net: Network):
        """What was typed for a worksheet is printed after the outage."""
        page = opened(student, net.port, "/paper?load=60-80j&line=50")
        net.down()
        parted(page)
        page.get_by_label("Load").first.fill("25+10j")
        net.up()

        expect(page.locator("figure img").first).to_have_attribute("alt", re.compile("25"), timeout=LONG)
        expect(page.get_by_label("Load").first).to_have_value("25+10j")


class TestServers:
    def test_killed(self, student: Page):
        """The program is killed while an answer is on its way: the next process gives it, and the sheet stands."""
        port = free_port()
        with program(port) as process:
            page = opened(student, port)
            answer(page, "normalise", "1.2-1.6j")
            done(page, "normalise")
            os.kill(process.pid, signal.SIGSTOP)
            answer(page, "place", "0.593 < -46.8")
            os.kill(process.pid, signal.SIGKILL)
            parted(page)
        with program(port):
            done(page, "place")
            expect(page.locator('[data-step="normalise"].done summary')).to_contain_text("1.200 − j1.600")
            assert 1 == attempts(page, "place")

    def test_suspended(self, student: Page):
        """The program is put to sleep for a while: the press is answered once when it wakes."""
        port = free_port()
        with program(port) as process:
            page = opened(student, port)
            os.kill(process.pid, signal.SIGSTOP)
            answer(page, "normalise", "1.2-1.6j")
            page.wait_for_timeout(1500)
            os.kill(process.pid, signal.SIGCONT)
            done(page, "normalise")

            assert 1 == attempts(page, "normalise")

    def test_clock_jumps(self, student: Page, net: Network):
        """The computer's clock is set back a day, then forward a year: entries are kept and checked as before."""
        student.clock.install()
        page = opened(student, net.port)
        page.clock.set_system_time("2020-01-01")
        answer(page, "normalise", "1.2-1.6j")
        done(page, "normalise")
        page.clock.set_system_time("2031-01-01")
        net.cut()
        parted(page)
        page.clock.fast_forward(HOUR)
        connected(page)
        answer(page, "place", "0.593 < -46.8")

        done(page, "place")

    def test_rolling_upgrade(self, student: Page):
        """An older server that meets a newer one's sheet says so, and the sheet goes on with the next newer server."""
        older, newer = free_port(), free_port()
        with program(older), program(newer, newer=True), network(newer) as switch:
            page = opened(student, switch.port)
            answer(page, "normalise", "1.2-1.6j")
            done(page, "normalise")
            before = page.evaluate(ATTEMPTS)
            switch.ports = [older]
            switch.cut()
            expect(page.locator(".notice")).to_contain_text("newer Halfturn", timeout=LONG)
            expect(page.locator("#notes")).to_contain_text("comes back")
            page.locator('input[data-field="normalise"]').fill("7")
            assert before == page.evaluate(ATTEMPTS)
            page.reload()
            ready(page)
            expect(page.locator(".notice")).to_contain_text("newer Halfturn", timeout=LONG)
            switch.ports = [newer]
            switch.cut()

            done(page, "normalise")
            expect(page.locator("#notes")).to_be_empty()
            assert before == page.evaluate(ATTEMPTS)

    def test_two_behind_a_switch(self, student: Page):
        """Two processes behind a plain TCP switch, which leads a page to either: each cut goes on with the other."""
        first, second = free_port(), free_port()
        with program(first), program(second), network(first, second) as switch:
            page = opened(student, switch.port)
            answer(page, "normalise", "1.2-1.6j")
            done(page, "normalise")
            for number in range(4):
                switch.cut()
                page.locator('input[data-field="place"]').fill(f"0.{number}")
                connected(page)
            answer(page, "place", "0.593 < -46.8")

            done(page, "place")
            assert [1, 1] == [attempts(page, key) for key in ("normalise", "place")]
