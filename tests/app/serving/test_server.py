"""The server on the wire: what it answers, what it refuses, and that its replaced parts are really in use."""

import gc
import re
import socket
import warnings
from urllib.parse import urlsplit

import panel as pn
import pytest

from app.parts import modules
from app.parts.template import asset, page
from app.serving.handlers import MAX_ADDRESS
from app.serving.places import accepted_hosts, page_url
from app.serving.server import MAX_MESSAGE, Running, serve
from tests.app.serving.wire import ask, closed, converse, sentence


@pytest.fixture
def serve_here():
    """Serves the given pages on a free port until the test ends."""
    running = []

    def start(pages, **options) -> Running:
        server = serve(pages, port=0, threaded=True, **options)
        assert server is not None
        running.append(server)
        return server

    yield start
    for server in running:
        server.stop()


class TestAnswers:
    def test_liveness(self, site: Running):
        """The health address answers that the program lives."""
        status, _, text = ask(site, "/liveness")

        assert (200, '{"/liveness": true}') == (status, text)

    def test_page_has_the_policy(self, site: Running):
        """A page forbids everything from other hosts, and evaluating text as code."""
        status, headers, _ = ask(site, "/")

        assert 200 == status
        assert "default-src 'self'" in headers["content-security-policy"]
        assert "unsafe-eval" not in headers["content-security-policy"]

    def test_page_names_its_language(self, site: Running):
        """A page says that it is in English, for whoever has it read aloud."""
        assert '<html lang="en">' in ask(site, "/")[2]

    def test_page_asks_no_other_host(self, site: Running):
        """No address in a page leads to another host."""
        addresses = re.findall(r"(?:src|href)=\"([^\"]+)\"", ask(site, "/")[2])

        assert addresses
        assert [] == [a for a in addresses if "//" in a and not a.startswith("data:")]

    def test_trailing_slash(self, serve_here):
        """An address with a slash too many leads to the page, its query kept."""
        site = serve_here({"/": empty, "/practise": empty})
        status, headers, _ = ask(site, "/practise/?load=25")

        assert (301, "/practise?load=25") == (status, headers["location"])


class TestStatic:
    def test_served(self, site: Running):
        """The style sheet comes with its type, and a browser asks each time whether it has changed."""
        status, headers, text = ask(site, "/static/parts/page.css")

        assert (200, "text/css", "no-cache") == (status, headers["content-type"], headers["cache-control"])
        assert "--paper" in text

    def test_version_is_kept(self, site: Running):
        """An address that names a version of a file lets the browser keep it: its content cannot change."""
        assert "max-age=" in ask(site, asset("parts/page.css"))[1]["cache-control"]

    def test_libraries_still_served(self, site: Running):
        """Our folder does not hide the scripts of the libraries under the same address."""
        assert 200 == ask(site, "/static/js/bokeh.min.js")[0]

    def test_module_in_a_folder(self, site: Running):
        """A module of the browser's code comes from its folder, with the type that browsers insist on."""
        status, headers, _ = ask(site, asset("parts/save.js"))

        assert (200, "text/javascript") == (status, headers["content-type"])

    @pytest.mark.parametrize("page", ["/", "/check", "/lecture", "/lecture/notes", "/paper"])
    def test_page_asks_early(self, site: Running, page: str):
        """A page asks for all modules in its head, as one, so that they are on their way while the libraries load."""
        html = ask(site, page)[2]
        head = html.partition("<body")[0]

        assert [modules.address()] == re.findall(r'<link rel="modulepreload" href="([^"]+)">', head)
        assert 1 == html.count(modules.TOGETHER)

    @pytest.mark.parametrize("page", ["/", "/check", "/lecture", "/lecture/notes", "/paper"])
    def test_no_script_holds_the_page_up(self, site: Running, page: str):
        """A page can be read before its scripts have come: none that is fetched has to run before the page goes on."""
        html = ask(site, page)[2]
        fetched = re.findall(r"<script[^>]*\bsrc=[^>]*>", html)

        assert len(fetched) >= 5
        assert [] == [script for script in fetched if " defer " not in script]
        assert html.rindex("<script>") < html.index('<link rel="stylesheet"')  # else it would wait for that

    def test_all_modules_as_one(self, site: Running):
        """All modules come as one, kept for a year under the address that a page names."""
        status, headers, text = ask(site, modules.address())

        assert (200, "text/javascript") == (status, headers["content-type"])
        assert "immutable" in headers["cache-control"]
        assert modules.together().decode() == text

    @pytest.mark.parametrize(
        "path",
        ["/static/no-such.css", "/static/..%2fapp%2fserver.py", "/static/parts/..%2f..%2fapp%2fpages.py"],
    )
    def test_nothing_else(self, site: Running, path: str):
        """Only what lies in the folder is served."""
        assert ask(site, path)[0] in (403, 404)


class TestErrors:
    @pytest.mark.parametrize(
        "path", ["/nowhere", "/practise/nowhere", "/autoload.js", "/components/this/s/_css/x"]
    )
    def test_wrong_address(self, site: Running, path: str):
        """A wrong address gets a page in our look with one sentence."""
        status, headers, text = ask(site, path)

        assert 404 == status
        assert "There is no page at this address." == sentence(text)
        assert "page.css" in text
        assert "content-security-policy" in headers

    def test_page_that_fails(self, serve_here, caplog: pytest.LogCaptureFixture):
        """A page that cannot be made gets a sentence without a word of the fault, which goes to the log."""

        def broken():
            raise RuntimeError("a fault inside")

        status, _, text = ask(serve_here({"/": broken}), "/")

        assert 500 == status
        assert "This page could not be made" in sentence(text)
        assert "a fault inside" not in text
        assert "a fault inside" in caplog.text

    @pytest.mark.parametrize(
        "query",
        ["theme=%ff", "theme=dark", "load=%ff", "%ff=1", "a=%00", "bokeh-app-path=%20", "load=%ed%a0%80"],
    )
    def test_odd_query(self, site: Running, query: str):
        """Whatever bytes stand in a query, the page opens; what it cannot use it says itself."""
        assert 200 == ask(site, f"/?{query}")[0]

    def test_log_keeps_no_query(self, serve_here, caplog: pytest.LogCaptureFixture):
        """The log says which page failed, and nothing of the problem or the sheet in its address."""

        def broken():
            raise RuntimeError("a fault inside")

        site = serve_here({"/": broken})
        ask(site, "/?load=25-10j")
        ask(site, "/nowhere?load=25-10j")

        assert "a fault inside" in caplog.text
        assert "25-10j" not in caplog.text

    def test_wrong_method(self, site: Running):
        """Sending a form to a page is refused with a sentence."""
        status, _, text = ask(site, "/", method="POST")

        assert 405 == status
        assert "nothing can be sent" in sentence(text)


class TestHost:
    @pytest.mark.parametrize(
        "host", ["rebound.example", "rebound.example:5006", "127.0.0.1.rebound.example", ""]
    )
    def test_foreign_host_refused(self, site: Running, host: str):
        """A name that someone else pointed at this machine gets nothing but a sentence."""
        status, _, text = ask(site, "/", Host=host)

        assert 403 == status
        assert "does not answer under this host name" in sentence(text)

    def test_foreign_host_gets_no_file_either(self, site: Running):
        """Refusal covers every address, not only the pages."""
        assert [403, 403] == [
            ask(site, path, Host="rebound.example")[0] for path in ("/static/parts/page.css", "/ws")
        ]

    @pytest.mark.parametrize("host", ["localhost", "LOCALHOST:5006", "127.0.0.1:80", "[::1]:5006"])
    def test_own_names_answered(self, site: Running, host: str):
        """Every name of this machine itself is answered, whatever port a tunnel gave it."""
        assert 200 == ask(site, "/liveness", Host=host)[0]

    @pytest.mark.parametrize("address", ["0.0.0.0", "192.168.1.20", "::", "hut.example"])
    def test_network(self, address: str):
        """Bound to a network, the program answers under any name that the network gave it."""
        assert accepted_hosts(address) is None

    def test_given_loopback_address(self):
        """Another loopback address is answered under its own name as well."""
        assert {"localhost", "127.0.0.1", "[::1]", "127.0.0.5"} == accepted_hosts("127.0.0.5")


class TestLimits:
    def test_long_query_reaches_the_page(self, site: Running):
        """A query of ten thousand characters still opens the page, which says itself what it ignores."""
        assert 200 == ask(site, "/?load=" + "9" * 10_000)[0]

    def test_longer_address(self, site: Running):
        """A longer one than any we make is refused with a sentence that names the limit."""
        status, _, text = ask(site, "/?load=" + "9" * MAX_ADDRESS)

        assert 414 == status
        assert str(MAX_ADDRESS) in sentence(text)

    def test_long_message(self, site: Running):
        """A websocket message above the limit ends the connection."""

        async def shout(client):
            await client.write_message("x" * (MAX_MESSAGE + 1))
            return await closed(client)

        assert 1009 == converse(site, shout)  # RFC 6455, section 7.4.1: message too big


class TestSocket:
    def test_small_messages_leave_at_once(self, site: Running):
        """Every open connection has TCP_NODELAY set; without it each answer waits for an acknowledgement."""

        async def look(client):
            clients = list(site.server._tornado._clients)
            streams = [connection._socket.ws_connection.stream for connection in clients]
            return [stream.socket.getsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY) for stream in streams]

        flags = converse(site, look)

        assert flags
        assert all(flags)

    def test_reconnect_is_on(self, site: Running):
        """A page that loses its connection tries to get it back."""
        assert pn.config.reconnect is True


class TestPage:
    def test_places(self, serve_here):
        """Each root stands in the section of its name; one without a place is still in the document."""
        roots = {name: pn.pane.HTML(name) for name in ("stage", "drawing", "sheet", "keys")}
        text = ask(serve_here({"/": lambda: page("Places", **roots)}), "/")[2]

        assert ["stage", "drawing", "sheet"] == re.findall(r'<section id="(\w+)"', text)
        assert 1 == re.split("<div hidden>", text)[1].count('class="root"')

    def test_title_is_escaped(self, serve_here):
        """A title is text, never markup."""
        text = ask(serve_here({"/": lambda: page("<script>")}), "/")[2]

        assert "<h1>&lt;script&gt;</h1>" in text


@pytest.mark.parametrize(
    ("address", "url"),
    [
        ("127.0.0.1", "http://127.0.0.1:5006/"),
        ("0.0.0.0", "http://127.0.0.1:5006/"),
        ("::1", "http://[::1]:5006/"),
        ("localhost", "http://localhost:5006/"),
    ],
)
def test_page_url(address: str, url: str):
    """The address shown is one that a browser on this machine can open."""
    assert url == page_url(address, 5006)


def test_port_that_cannot_be_had(site: Running):
    """Serving on a taken port raises in the caller, also when the server runs in a thread."""
    taken = urlsplit(site.url).port
    assert taken is not None

    with pytest.raises(OSError, match="in use"):
        serve({"/": empty}, port=taken, threaded=True)
    with warnings.catch_warnings():  # tornado leaves the socket that it could not bind to the collector
        warnings.simplefilter("ignore", ResourceWarning)
        gc.collect()


def empty() -> pn.viewable.Viewable:
    """The smallest page."""
    return pn.Column()
