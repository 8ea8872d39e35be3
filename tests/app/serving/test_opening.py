"""Many open the page at the same time: nobody at work waits for them, and what all share is made once."""

import asyncio
import gzip
import json
import re
import time

import pytest

from app.parts.template import page
from app.serving import opening
from app.serving.opening import Turns
from app.serving.packed import Around
from app.serving.server import Running, serve
from tests.app.serving.wire import ask, closed, greeted, heard, in_own_loop, tell
from tests.bench.visitor import Visitor, wire
from tests.browser.press import Press

OPENINGS, SOME = 30, 6
SLOW = 0.02  # seconds that a page takes to be made


class TestTurns:
    def test_checks_go_before_openings(self):
        """While many wait for their page, what is done on one that is open comes after a few, not after all."""
        done: list[str] = []

        def make():
            time.sleep(SLOW)
            done.append("opening")
            return page("Busy", sheet=Press("press", lambda: done.append("press")))

        async def talk(site: Running) -> int:
            one = Visitor(site.url)
            await one.open("/", files=False)
            others = [Visitor(site.url) for _ in range(OPENINGS)]
            waiting = [asyncio.create_task(other.open("/", files=False)) for other in others]
            while done.count("opening") < SOME:
                await asyncio.sleep(0.001)
            before = len(done)
            await press(one)
            while "press" not in done:
                await asyncio.sleep(0.001)
            await asyncio.gather(*waiting)
            for visitor in (one, *others):
                await visitor.close()
            return done.index("press") - before

        assert SOME > in_own_loop(lambda: with_site(make, talk))
        assert 1 + OPENINGS == done.count("opening")

    def test_a_document_waits_as_well(self, monkeypatch: pytest.MonkeyPatch):
        """A page that meets another server has its document made there, and waits for its turn like any other."""
        turns: list[str] = []
        take = Turns.take

        def counted(self: Turns):
            turns.append("turn")
            return take(self)

        def make():
            turns.append("made")
            return page("Anew", sheet=Press("press", lambda: None))

        async def talk(site: Running) -> None:
            client = await greeted(site.url, "/", token="from.elsewhere")
            await tell(client, "PULL-DOC-REQ", {})
            await heard(client, "PULL-DOC-REPLY")
            client.close()
            await closed(client)

        monkeypatch.setattr(Turns, "take", counted)
        in_own_loop(lambda: with_site(make, talk))

        assert ["turn", "made", "turn"] == turns  # the second for sending it


class TestOnce:
    def test_html(self, site: Running, monkeypatch: pytest.MonkeyPatch):
        """The HTML of a page is made and compressed for the first visitor; the others get theirs around their token."""
        ask(site, "/")
        monkeypatch.setattr(Around, "__init__", lambda *given: pytest.fail("compressed once more"))

        tokens = {re.search(r'"token":"([^"]+)"', ask(site, "/")[2])[1] for _ in range(3)}  # type: ignore[index]

        assert 3 == len(tokens)

    @pytest.mark.parametrize(("path", "roots"), [("/", 3), ("/check", 3), ("/lecture", 3), ("/paper", 1)])
    def test_document(self, site: Running, path: str, roots: int):
        """A visitor's document holds the page's components and what they show, and no other model."""

        async def talk() -> list[str]:
            one = Visitor(site.url)
            await one.open(path, files=False)
            await one.close()
            return re.findall(r'"name": ?"([^"]+)", ?"id": ?"', json.dumps(one.document["roots"]))

        models = in_own_loop(talk)

        assert roots == models.count("panel.models.esm.ReactiveESM")
        assert 2 * roots == len(models)

    def test_first_words(self, site: Running):
        """The problem and what is asked first stand in the page itself, and what an address brought is text there."""
        text = ask(site, "/?load=25-10j&line=50&title=%3Cb%3E")[2]
        words = re.findall(r"<p>(.*?)</p>", text.partition('id="first-words"')[2].partition("</div>")[0])

        assert "Match 25 − j10 Ω to a line of 50 Ω" in " ".join(words)
        assert "by the line impedance" in words[-1]
        assert "<b>" not in text

    def test_visitor_token_is_in_no_kept_part(self):
        """What is kept of a page for all holds nothing of the first visitor."""
        kept = opening.around.cache_info().currsize
        whole = Around("before", "after")

        assert b"beforeoneafter" == gzip.decompress(whole.gzipped("one"))
        assert b"beforeotherafter" == gzip.decompress(whole.gzipped("other"))
        assert kept == opening.around.cache_info().currsize


async def press(one: Visitor) -> None:
    """Press the button, without waiting for anything."""
    entries = [["model", {"id": one.component("Press")}], ["data", wire({"do": "press"})]]
    event = {"type": "event", "name": "data_event", "values": {"type": "map", "entries": entries}}
    await one._tell("PATCH-DOC", json.loads(json.dumps({"events": [
        {"kind": "MessageSent", "msg_type": "bokeh_event", "msg_data": event}]})))  # fmt: skip


async def with_site(make, talk):
    """A conversation with a site of one page."""
    site = serve({"/": make}, port=0, threaded=True)
    assert site is not None
    try:
        return await talk(site)
    finally:
        site.stop()
