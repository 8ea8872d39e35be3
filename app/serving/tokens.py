"""Sessions are named by the server alone: tokens signed with one key, each bound to the page that asked for it.

A deployment's processes and servers share the key, so that a page which meets another of them is known there by its
token. Whatever is not signed with it names nothing: the page gets a fresh session, as any visitor would.
"""

import base64
import binascii
import hashlib
import hmac
import json
import secrets
import zlib
from dataclasses import dataclass

from bokeh.core.types import ID
from bokeh.util.token import _TOKEN_ZLIB_KEY, generate_jwt_token, get_session_id, get_token_payload

KEY_BYTES = 32
TOKEN_SECONDS = 7 * 24 * 3600  # a page left open overnight can still reconnect
MOST_CLAIMED = 64 * 1024  # bytes unpacked from a token that is not ours; an address of 16 kB fits
OF_LIBRARIES = ("theme",)  # names in an address that Panel would act on
NAMES_A_SESSION = ("bokeh-session-id", "bokeh-token")

Arguments = dict[str, list[bytes]]


@dataclass(frozen=True)
class Ticket:
    """A session's name, and the token by which the page that asked may connect to it."""

    session: ID
    token: str


class Tokens:
    """Makes and checks the tokens of one deployment."""

    def __init__(self, key: bytes | None = None) -> None:
        self.key = key or secrets.token_bytes(KEY_BYTES)

    def fresh(self, page: str, arguments: Arguments) -> Ticket:
        """A ticket to a session that nobody has yet, of the page at the route `page` with these arguments."""
        session = ID(self._signed(secrets.token_urlsafe(KEY_BYTES)))
        payload = {"headers": {}, "cookies": {}, "arguments": told(arguments), "page": page}
        token = generate_jwt_token(
            session, secret_key=self.key, signed=True, extra_payload=payload, expiration=TOKEN_SECONDS
        )
        return Ticket(session, token)

    def admit(self, page: str, token: str) -> Ticket:
        """The ticket that `token` is, or, if it is not ours or another page's, a fresh one with its arguments."""
        body, _, signature = token.partition(".")
        if not hmac.compare_digest(signature.encode(), self._signature(body).encode()):
            return self.fresh(page, _claimed(body))
        payload = get_token_payload(token)
        if payload.get("page") != page:
            return self.fresh(page, {})
        return Ticket(get_session_id(token), token)

    def _signed(self, text: str) -> str:
        return f"{text}.{self._signature(text)}"

    def _signature(self, text: str) -> str:
        digest = hmac.new(self.key, text.encode(), hashlib.sha256).digest()
        return base64.urlsafe_b64encode(digest).decode().rstrip("=")


def told(arguments: Arguments) -> Arguments:
    """What a page may know of its address: no name that a library would act on, and nothing but text."""
    return {
        name: [value.decode("utf-8", "replace").encode() for value in values]
        for name, values in arguments.items()
        if name not in (*OF_LIBRARIES, *NAMES_A_SESSION)
    }


def _claimed(body: str) -> Arguments:
    """What a token that is not ours says stood in the address: to be trusted as little, and no longer."""
    try:
        packed = _unpadded(json.loads(_unpadded(body))[_TOKEN_ZLIB_KEY])
        text = zlib.decompressobj().decompress(packed, MOST_CLAIMED)
        arguments = json.loads(text)["arguments"]
        return {
            name: [_unpadded(value["bytes"]) for value in values]
            for name, values in arguments.items()
            if isinstance(values, list)
        }
    except (
        ValueError,  # no JSON, no UTF-8
        binascii.Error,
        zlib.error,
        KeyError,
        TypeError,
        AttributeError,
        RecursionError,
    ):
        return {}


def _unpadded(text: str) -> bytes:
    return base64.urlsafe_b64decode(text.encode() + b"=" * (-len(text) % 4))
