"""Files on the wire: compressed once, kept for a year where their address names their content, and nothing else."""

import gzip
import re
from collections.abc import Iterator
from pathlib import Path

import brotli
import pytest

from app.parts.template import STATIC, asset
from app.serving import packed
from app.serving.packed import Around, Shelf, coding_for
from app.serving.server import Running
from tests.app.serving.wire import ask, ask_bytes, in_own_loop

YEAR = "public, max-age=31536000, immutable"
LIBRARY = "/static/js/bokeh.min.js"


@pytest.fixture
def shelf() -> Iterator[Shelf]:
    """An empty shelf."""
    shelf = Shelf()
    yield shelf
    shelf.close()


class TestCompression:
    @pytest.mark.parametrize(
        "path", [LIBRARY, "/static/parts/page.css", "/static/extensions/panel/panel.min.js"]
    )
    @pytest.mark.parametrize(("coding", "unpack"), [("br", brotli.decompress), ("gzip", gzip.decompress)])
    def test_same_file(self, site: Running, path: str, coding: str, unpack):
        """A file comes compressed to those who ask for it, and is the same once unpacked."""
        whole = ask_bytes(site.url, path)[2]
        status, headers, body = ask_bytes(site.url, path, **{"Accept-Encoding": coding})

        assert (200, coding, "Accept-Encoding") == (status, headers["content-encoding"], headers["vary"])
        assert whole == unpack(body)
        assert len(body) < len(whole) / 2

    def test_page(self, site: Running):
        """A page made for one visitor comes compressed as well."""
        _, headers, body = ask_bytes(site.url, "/", **{"Accept-Encoding": "gzip, br"})

        assert "gzip" == headers["content-encoding"]
        assert "<title>" in gzip.decompress(body).decode()

    def test_page_is_the_same_unpacked(self, site: Running):
        """A page of which most was compressed beforehand is one gzip file, whole, and as large as one made at once."""
        _, _, packed_page = ask_bytes(site.url, "/", **{"Accept-Encoding": "gzip"})
        page = gzip.decompress(packed_page).decode()
        plain = ask_bytes(site.url, "/")[2].decode()

        def but_for_the_token(html: str) -> str:
            return re.sub(r'"token":"[^"]+"', "", html)

        assert packed_page.startswith(Around.HEAD)
        assert but_for_the_token(plain) == but_for_the_token(page)
        assert len(packed_page) < 1.02 * len(gzip.compress(page.encode(), 9))

    @pytest.mark.parametrize("inside", ["", "é", "a" * 100_000])
    def test_around(self, inside: str):
        """What stands in the one place that differs may be anything, or nothing."""
        whole = Around("before " * 100, " after" * 100)
        expected = "before " * 100 + inside + " after" * 100

        assert expected == whole.plain(inside).decode()
        assert expected == gzip.decompress(whole.gzipped(inside)).decode()

    @pytest.mark.parametrize(
        ("accepted", "coding"),
        [
            ("gzip, deflate, br, zstd", "br"),
            ("gzip;q=1.0, br;q=0", "gzip"),
            ("GZIP", "gzip"),
            ("*", "br"),
            ("*;q=0", ""),
            ("identity", ""),
            ("br;q=0.001", "br"),
            ("", ""),
        ],
    )
    def test_what_the_browser_understands(self, accepted: str, coding: str):
        """A coding is chosen by what the browser says it understands (RFC 9110, section 12.5.3)."""
        assert coding == coding_for(accepted)

    def test_once(self, shelf: Shelf, monkeypatch: pytest.MonkeyPatch):
        """However many ask for a file, also at the same time, it is compressed once."""
        packings: list[str] = []
        really = packed.pack

        def counted(body: bytes, coding: str) -> bytes:
            packings.append(coding)
            return really(body, coding)

        monkeypatch.setattr(packed, "pack", counted)

        async def crowd():
            import asyncio

            waiting = [shelf.take_file(STATIC / "parts/page.css", "gzip") for _ in range(50)]
            return {file.digest for file in await asyncio.gather(*waiting)}

        digests = in_own_loop(crowd)

        assert (1, ["gzip"]) == (len(digests), packings)

    def test_changed(self, shelf: Shelf, tmp_path: Path):
        """A file that was changed is served as it is now."""
        file = tmp_path / "words.css"

        async def read(text: str) -> bytes:
            file.write_text(text)
            return (await shelf.take_file(file, "")).body

        assert b"before" == in_own_loop(lambda: read("before"))
        assert b"and after" == in_own_loop(lambda: read("and after"))


class TestKeeping:
    def test_everything_a_page_names(self, site: Running):
        """Every script and style sheet that a page names is kept for a year: its address names its content."""
        addresses = re.findall(r"(?:src|href)=\"(/?static/[^\"]+\?v=[^\"]+)\"", ask(site, "/")[2])

        assert len(addresses) >= 4
        assert {YEAR} == {ask(site, f"/{a.lstrip('/')}")[1]["cache-control"] for a in addresses}

    @pytest.mark.parametrize(
        "address",
        ["/static/parts/page.css", "/static/parts/page.css?v=", "/static/parts/page.css?v=0123456789ab"],
    )
    def test_no_version_of_this_content(self, site: Running, address: str):
        """Without a version, or with an older server's, a browser asks again each time: the content may differ."""
        assert "no-cache" == ask(site, address)[1]["cache-control"]

    @pytest.mark.parametrize("coding", ["", "gzip", "br"])
    def test_not_sent_twice(self, site: Running, coding: str):
        """A file that the browser still has is not sent again."""
        wish = {"Accept-Encoding": coding}
        tag = ask_bytes(site.url, asset("parts/page.css"), **wish)[1]["etag"]
        status, _, body = ask_bytes(site.url, asset("parts/page.css"), **wish, **{"If-None-Match": tag})

        assert (304, b"") == (status, body)

    def test_unused_library(self, site: Running):
        """The library for drawing by the graphics processor, which no page uses, is not loaded."""
        text = ask(site, "/")[2]

        assert "bokeh.min.js" in text
        assert "bokeh-gl" not in text


class TestNothingElse:
    @pytest.mark.parametrize(
        "path",
        [
            "/static/",
            "/static/no-such.css",
            "/static/..%2fapp%2f__main__.py",
            "/static/../app/__main__.py",
            "/static/%00",
            "/static/parts/page.css%00",
            "/static/%ff",
            "/static/" + "a" * 5000,
            "/static/extensions/panel/../../../server/tornado.py",
            "/static/extensions/nobody/x.js",
            "/static/extensions/panel",
            "/static//etc/passwd",
            "/static/%2fetc%2fpasswd",
            "/static/lib",
        ],
    )
    def test_no_such_file(self, site: Running, path: str):
        """Only what lies in the folders is served, and an odd name is answered like any other that is not there."""
        assert 404 == ask(site, path)[0]

    @pytest.mark.parametrize("path", [LIBRARY, "/liveness", "/static/parts/page.css", "/", "/nowhere"])
    def test_no_guessing(self, site: Running, path: str):
        """Every answer tells the browser to take its type as it is given."""
        assert "nosniff" == ask(site, path)[1]["x-content-type-options"]
