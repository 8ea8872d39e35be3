"""A page's websocket: small messages leave at once, one page a session, and only our own messages are let in."""

from __future__ import annotations

import logging
from typing import Any

from bokeh.protocol import Protocol
from bokeh.protocol.message import Message
from bokeh.protocol.messages.patch_doc import patch_doc
from bokeh.protocol.messages.pull_doc_req import pull_doc_req
from bokeh.server.session import ServerSession
from panel.io.server import WSHandler

from app.serving.messages import Heard, NotAllowed, heard, speaker
from app.serving.places import same_or_allowed

log = logging.getLogger(__name__)

NOT_UNDERSTOOD, NOT_ALLOWED, TRY_LATER = 1002, 1008, 1013  # RFC 6455, section 7.4.1, and IANA's list
PARTS = 3
SORRY = "This could not be done; what you entered is kept in your browser."


class Socket(WSHandler):
    """The page's connection. Without TCP_NODELAY each answer waits some 40 ms."""

    _token: str | None

    def check_origin(self, origin: str) -> bool:
        """Whether a page from `origin` may connect: from the host asked, or from one of our own names."""
        return same_or_allowed(origin, self.request.host, self.settings["hosts"])

    def open(self, *args: Any, **kwargs: Any) -> None:
        self._parts: list[str] = []
        self.set_nodelay(True)
        if self.selected_subprotocol != "bokeh" or self._token is None:
            self.close(NOT_UNDERSTOOD, "no page's connection")
            return
        # Signed anew or admitted: from here on the libraries see tokens of this server only.
        ticket = self.settings["tokens"].admit(self.application_context.url, self._token)
        if self.settings["limits"].full(self.application, ticket.session):
            self.close(TRY_LATER, "too many pages are open")
            return
        self._token = ticket.token
        super().open(*args, **kwargs)

    async def _async_open(self, token: str) -> None:
        async with self.settings["turns"].take():  # its document may have to be made anew
            await super()._async_open(token)
        for other in list(self.connection.session._subscribed_connections):
            if (
                other is not self.connection
            ):  # the half of a line that broke, or a stranger: either is shut out
                other._socket.connection = None
                self.application.client_lost(other)
                other._socket.close(NOT_ALLOWED, "the page is connected elsewhere")

    async def on_message(self, fragment: str | bytes) -> None:
        if self.connection is None:
            return
        try:
            message = self._gathered(fragment)
        except NotAllowed as refused:
            self.close(NOT_ALLOWED, str(refused))
            return
        reply = await self._reply(message) if message else None
        if reply is not None:
            await self.send_message(reply)

    def _gathered(self, fragment: str | bytes) -> Heard | None:
        """The message that this part completes, if it does. Raises NotAllowed."""
        if isinstance(fragment, bytes):
            raise NotAllowed("no text")
        self._parts.append(fragment)
        if len(self._parts) < PARTS:
            return None
        parts, self._parts = self._parts, []
        return heard(parts)

    async def _reply(self, said: Heard) -> Message | None:
        """Carry out what was said; the answer to it, which tells nothing of a fault but that there was one."""
        connection = self.connection
        try:
            if said.events is None:
                async with self.settings["turns"].take():
                    return await ServerSession.pull(pull_doc_req(said.header, {}, {}), connection)
            known = {
                None,
                *connection.session.document.models._models,
            }  # a page rebuilt since has other models
            events = [event for event in said.events if speaker(event) in known]
            message = patch_doc(said.header, {}, {"events": events})
            return await ServerSession.patch(message, connection) if events else connection.ok(message)
        except Exception:
            log.exception("What was said by a page could not be carried out.")
            reply = Protocol().create("ERROR", said.header["msgid"], SORRY)
            reply.content["traceback"] = None
            return reply
