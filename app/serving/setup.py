"""How a server is to be set up: what the command line says, in one value."""

from __future__ import annotations

import os
import re
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from app.serving.limits import MOST_PAGES
from app.serving.places import accepted_hosts, page_url
from app.serving.tokens import KEY_BYTES, Tokens

PREFIX = re.compile(r"(/[A-Za-z0-9._~-]+)*")


@dataclass(frozen=True)
class Setup:
    """One server, or each of several processes of it.

    port : 0 takes any free one.  public_hosts : names under which a proxy in front brings its visitors.
    prefix : what stands before every path, "" or "/halfturn".  key : what tokens are signed with; None for a new one.
    most_pages : open at once in one process.
    """

    port: int
    address: str = "127.0.0.1"
    public_hosts: tuple[str, ...] = ()
    prefix: str = ""
    key: bytes | None = None
    most_pages: int = MOST_PAGES

    @property
    def hosts(self) -> set[str] | None:
        """Host names answered, None for any."""
        return accepted_hosts(self.address, self.public_hosts)

    @cached_property
    def tokens(self) -> Tokens:
        """What signs and reads the tokens, in every process of this server alike."""
        return Tokens(self.key)

    def url(self, port: int) -> str:
        """The address to type once the server listens on `port`."""
        return page_url(self.address, port, self.prefix)


def read_key(path: Path) -> bytes:
    """The signing key in a file; a file that is not there is made, for its owner alone.

    Raises OSError if it can be neither read nor made, ValueError if it is too short to keep anyone out.
    """
    try:
        with open(path, "xb", opener=_for_owner) as file:
            file.write(Tokens().key.hex().encode())
    except FileExistsError:
        pass
    key = path.read_bytes().strip()
    if len(key) < KEY_BYTES:
        raise ValueError(f"a signing key has at least {KEY_BYTES} characters")
    return key


def _for_owner(path: str, flags: int) -> int:
    return os.open(path, flags, 0o600)
