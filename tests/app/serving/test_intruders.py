"""Nobody reaches into another's page: sessions come from the server alone, and a browser writes no property."""

import json
from typing import Any

import pytest
from bokeh.server.session import ServerSession
from tornado.httpclient import HTTPError
from tornado.websocket import WebSocketClientConnection

from app.pages import pages
from app.serving.connection import SORRY
from app.serving.server import Running
from tests.app.serving.wire import (
    ask,
    closed,
    converse,
    greeted,
    heard,
    in_own_loop,
    sentence,
    session_in,
    tell,
    token_in,
)

NOT_ALLOWED = 1008  # RFC 6455, section 7.4.1: policy violation
SCRIPT = "export function render() { document.title = 'taken'; }"


def session_names(site: Running) -> set[str]:
    """The sessions that a server holds now."""
    return {session.id for session in site.server.get_sessions()}


def connected(site: Running) -> list[str]:
    """The session of each open websocket."""
    return [connection.session.id for connection in site.server._tornado._clients]


async def document(client: WebSocketClientConnection) -> dict[str, Any]:
    """The page's whole document, as the browser gets it."""
    await tell(client, "PULL-DOC-REQ", {})
    return (await heard(client, "PULL-DOC-REPLY"))["doc"]


def models(value: object) -> list[dict[str, Any]]:
    """Every model written out in a document, by id and attributes."""
    found: list[dict[str, Any]] = []
    if isinstance(value, list):
        found = [one for item in value for one in models(item)]
    elif isinstance(value, dict):
        own = [value] if value.get("type") == "object" and "id" in value else []
        found = own + [one for item in value.values() for one in models(item)]
    return found


def components(page: dict[str, Any]) -> list[str]:
    """The components of ours in a document, by id."""
    return [model["id"] for model in models(page) if "esm" in model.get("attributes", {})]


def change(model: str, attribute: str, new: object) -> dict[str, Any]:
    """The event by which a browser writes a property."""
    return {"kind": "ModelChanged", "model": {"id": model}, "attr": attribute, "new": new}


def said(model: str, data: object, name: str = "data_event") -> dict[str, Any]:
    """The event by which a component of ours says something."""
    values = {"type": "map", "entries": [["model", {"id": model}], ["data", data]]}
    told = {"type": "event", "name": name, "values": values}
    return {"kind": "MessageSent", "msg_type": "bokeh_event", "msg_data": told}


class TestSessionFixation:
    @pytest.mark.parametrize("name", ["bokeh-session-id", "bokeh-token"])
    def test_argument(self, site: Running, name: str):
        """A link that names a session is refused with a sentence, and no such session is made."""
        status, _, text = ask(site, f"/?{name}=known")

        assert 409 == status
        assert "names a session" in sentence(text)
        assert "known" not in session_names(site)

    @pytest.mark.parametrize("header", [{"Bokeh-Session-Id": "known"}, {"Cookie": "bokeh-session-id=known"}])
    def test_header_and_cookie(self, site: Running, header: dict[str, str]):
        """A session named in a header or a cookie is refused as well."""
        assert 409 == ask(site, "/", **header)[0]
        assert "known" not in session_names(site)

    def test_strangers_do_not_meet(self, site: Running):
        """Two visitors who follow one link hold two sessions."""
        tokens = [token_in(ask(site, "/?load=25&line=50")[2]) for _ in range(2)]

        assert 2 == len({session_in(token) for token in tokens})

    @pytest.mark.parametrize("keep", [0, 1])
    def test_token_made_elsewhere(self, site: Running, keep: int):
        """A token that the server did not sign opens a session of its own, never the one that it names."""
        victim = token_in(ask(site, "/")[2])
        forged = ".".join([victim.split(".")[0], *["A" * 43] * keep])

        async def look(client):
            return connected(site)

        names = converse(site, look, token=forged)

        assert 1 == len(names)
        assert session_in(victim) not in names

    def test_token_of_another_page(self, site: Running):
        """A token opens the session of the page that asked for it, and on no other page."""
        token = token_in(ask(site, "/paper")[2])

        async def look(client):
            return connected(site)

        assert [session_in(token)] == converse(site, look, path="/paper", token=token)
        assert session_in(token) not in converse(site, look, path="/check", token=token)

    @pytest.mark.parametrize(
        "token", ["", "x", "e30", "bnVsbA", "W10.x", "eyJzZXNzaW9uX2lkIjo3fQ.x", "é", "." * 9]
    )
    def test_token_that_is_none(self, site: Running, token: str):
        """Whatever stands in a token's place, the page that follows is a fresh one or the door is shut."""
        before = session_names(site)

        async def knock():
            try:
                client = await greeted(site.url, "/", token=token)
            except (AssertionError, ValueError, HTTPError):
                return
            client.close()
            await closed(client)

        in_own_loop(knock)

        assert 1 >= len(session_names(site) - before)
        assert not {"", "x", "7"} & session_names(site)

    def test_one_page_a_session(self, site: Running):
        """A second client with the same token takes the session over: the first is shut out, never overheard."""
        token = token_in(ask(site, "/")[2])

        async def meet():
            first = await greeted(site.url, "/", token)
            second = await greeted(site.url, "/", token)
            code = await closed(first)
            there = connected(site)
            first.close()
            second.close()
            await closed(second)
            return code, there

        code, there = in_own_loop(meet)

        assert NOT_ALLOWED == code
        assert [session_in(token)] == there

    def test_query_in_a_foreign_token_is_kept(self, site: Running):
        """A page that meets a new server, whose key is another, still shows the problem of its address."""
        token = token_in(ask(site, "/?load=25-10j&line=50")[2]).split(".")[0] + ".foreign"

        async def look(client):
            return json.dumps(await document(client), ensure_ascii=False)

        assert "25 − j10" in converse(site, look, token=token)


class TestOwnMessages:
    def test_carried_out(self, site: Running):
        """What a component of the page says is heard and carried out, and what the page did not say is not."""

        async def enter(client):
            entries = [["do", "enter"], ["field", "normalise"], ["text", "9 \ud83d"]]
            data = {"type": "map", "entries": entries}
            for component in components(await document(client)):
                await tell(client, "PATCH-DOC", {"events": [said(component, data), said("p0", data)]})
            return json.dumps(await heard(client, "PATCH-DOC"), ensure_ascii=False)

        assert "9 \N{REPLACEMENT CHARACTER}" in converse(site, enter)

    def test_page_is_ready(self, site: Running):
        """That the page is ready, and that it came back, are heard too."""

        async def arrive(client):
            for name in ("document_ready", "client_reconnected"):
                event = {"type": "event", "name": name, "values": {"type": "map"}}
                sent = {"kind": "MessageSent", "msg_type": "bokeh_event", "msg_data": event}
                await tell(client, "PATCH-DOC", {"events": [sent]})
                await heard(client, "OK")
            return True

        assert converse(site, arrive)

    def test_fault_is_kept_in(self, site: Running, monkeypatch: pytest.MonkeyPatch):
        """What goes wrong while a message is carried out is told in one sentence, without where it happened."""

        def broken(message, connection):
            raise RuntimeError("a fault inside")

        monkeypatch.setattr(ServerSession, "pull", broken)

        async def provoke(client):
            await tell(client, "PULL-DOC-REQ", {})
            return await heard(client, "ERROR")

        assert {"text": SORRY, "traceback": None} == converse(site, provoke)


class TestProperties:
    def test_script_of_a_component(self, site: Running):
        """A browser cannot put a script of its own into a page, not even its own page."""

        async def attack(client):
            component = components(await document(client))[0]
            await tell(client, "PATCH-DOC", {"events": [change(component, "esm", SCRIPT)]})
            await heard(client, "OK")
            return json.dumps(await document(client), ensure_ascii=False)

        assert SCRIPT not in converse(site, attack)

    @pytest.mark.parametrize("path", sorted(pages()))
    def test_none_can_be_written(self, site: Running, path: str):
        """Whatever property of whatever model of a page a browser writes, the server's document stays the same."""

        async def attack(client):
            before = await document(client)
            (connection,) = site.server._tornado._clients
            everything = [
                change(model.id, name, changed(model, name))
                for model in connection.session.document.models
                for name in model.properties()
            ]
            for start in range(0, len(everything), 500):
                await tell(client, "PATCH-DOC", {"events": everything[start : start + 500]})
                await heard(client, "OK")
            return len(everything), before, await document(client)

        tried, before, after = converse(site, attack, path)

        assert tried > 40
        assert before == after

    @pytest.mark.parametrize(
        "event",
        [
            {"kind": "RootAdded", "model": {"type": "object", "name": "Div", "id": "x1"}},
            {"kind": "RootRemoved", "model": {"id": "p1002"}},
            {"kind": "TitleChanged", "title": "taken"},
            {"kind": "ColumnDataChanged", "model": {"id": "p1"}, "attr": "data", "data": {}, "cols": None},
            {"kind": "ColumnsStreamed", "model": {"id": "p1"}, "attr": "data", "data": {}, "rollover": None},
            {"kind": "ColumnsPatched", "model": {"id": "p1"}, "attr": "data", "patches": {}},
        ],
        ids=lambda event: event["kind"],
    )
    def test_no_other_change(self, site: Running, event: dict[str, Any]):
        """Roots, title and tables of a page cannot be changed from a browser either."""

        async def attack(client):
            before = await document(client)
            await tell(client, "PATCH-DOC", {"events": [event]})
            await heard(client, "OK")
            return before, await document(client)

        before, after = converse(site, attack)

        assert before == after

    @pytest.mark.parametrize(
        "event",
        [
            {"kind": "MessageSent", "msg_type": "other", "msg_data": None},
            {
                "kind": "MessageSent",
                "msg_type": "bokeh_event",
                "msg_data": {"type": "event", "name": "button_click"},
            },
            {"kind": "x"},
            {},
            [],
            None,
        ],
        ids=str,
    )
    def test_no_other_event(self, site: Running, event: object):
        """Any event that no page of ours sends ends the connection."""

        async def attack(client):
            await tell(client, "PATCH-DOC", {"events": [event]})
            return await closed(client)

        assert NOT_ALLOWED == converse(site, attack)

    @pytest.mark.parametrize(
        "data",
        [
            {"type": "object", "name": "Div", "id": "x1", "attributes": {"text": "taken"}},
            {"type": "ndarray", "array": [1], "dtype": "float64", "shape": [1], "order": "little"},
            {"type": "bytes", "data": "H4sIAAAAAAAA/wMAAAAAAAAAAAA="},
            {"type": "slice", "start": 0, "stop": 1, "step": 1},
            {"type": "map", "entries": [[["a"], 1]]},
            {"type": "map", "entries": [["do"]]},
            {"id": "p1002"},
        ],
        ids=str,
    )
    def test_only_plain_data(self, site: Running, data: object):
        """What a component says is plain data: a message can name or make no object of the server's."""

        async def attack(client):
            component = components(await document(client))[0]
            await tell(client, "PATCH-DOC", {"events": [said(component, data)]})
            return await closed(client)

        assert NOT_ALLOWED == converse(site, attack)

    @pytest.mark.parametrize("kind", ["PUSH-DOC", "SERVER-INFO-REQ", "OK", "ERROR", "ACK", "nothing"])
    def test_no_other_message(self, site: Running, kind: str):
        """A page asks for its document and says what is done in it; any other kind of message ends the connection."""

        async def attack(client):
            await tell(client, kind, {"doc": {"roots": [], "title": "taken", "version": "3.9.2"}})
            return await closed(client)

        assert NOT_ALLOWED == converse(site, attack)


def changed(model: Any, name: str) -> object:
    """A value other than the property's own that it would take, where one is easily found."""
    try:
        value = getattr(model, name)
    except Exception:  # noqa: BLE001  a property that was never set and has no default
        return "taken"
    if isinstance(value, bool):
        return not value
    if isinstance(value, (int, float)):
        return value + 1
    return "taken" if isinstance(value, str) else None
