"""Spoiled inputs are answered or refused in a sentence: a sample of what `tests.long` asks in full."""

import logging

import pytest
from tornado.websocket import WebSocketClientConnection

from app.serving.server import Running
from tests.app import fuzz
from tests.app.serving.test_intruders import components, document
from tests.app.serving.wire import closed, greeted, heard, in_own_loop, tell

READ, HEARD, SENT = 5_000, 500, 100


def test_readers():
    """Whatever is to be read, each reader reads it or says in a sentence why not."""
    told = fuzz.read_all(READ, seed=5)

    assert {} == dict(told.failed)
    assert set(fuzz.READERS) == set(told.asked)


def test_messages():
    """Whatever a browser says, the page that hears it goes on."""
    told = fuzz.hear_all(HEARD, seed=5)

    assert {} == dict(told.failed)


def test_socket(site: Running, caplog: pytest.LogCaptureFixture):
    """Over a real connection, too, no message brings a fault: each is answered, or the connection is shut."""
    caplog.set_level(logging.WARNING)

    async def opened() -> tuple[WebSocketClientConnection, str]:
        client = await greeted(site.url)
        (found, *_) = components(await document(client))
        return client, found

    async def talk() -> int:
        client, component = await opened()
        answered = 0
        for page, message in fuzz.messages(SENT, seed=8):
            if page != "practise":
                continue
            event = fuzz.spoken(message)
            event["values"]["entries"][0][1] = {"id": component}
            sent = {"kind": "MessageSent", "msg_type": "bokeh_event", "msg_data": event}
            await tell(client, "PATCH-DOC", {"events": [sent]})
            try:
                await heard(client, "OK")
                answered += 1
            except ConnectionError:
                client.close()
                client, component = await opened()
        client.close()
        await closed(client)
        return answered

    answered = in_own_loop(talk)

    assert SENT / 2 < answered
    assert [] == [one.getMessage() for one in caplog.records if one.exc_info or one.levelno >= logging.ERROR]
