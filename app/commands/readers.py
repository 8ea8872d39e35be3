"""Readers of what is typed after an option: each returns its value, or says what is allowed."""

import argparse
import re
from collections.abc import Callable

HIGHEST_PORT = 65535


def whole(least: int, most: int, what: str) -> Callable[[str], int]:
    """Reads a whole number from `least` to `most`, or says that `what` is one."""

    def read(text: str) -> int:
        if text.isascii() and text.isdigit() and len(text) <= len(str(most)) and least <= int(text) <= most:
            return int(text)
        raise argparse.ArgumentTypeError(
            f"{what} is a whole number from {least} to {most}, not {shown(text)}."
        )

    return read


def host_name(text: str) -> str:
    """A host name in lower case, without a port."""
    name = text.lower().rstrip(".")
    if re.fullmatch(r"[a-z0-9_-]{1,63}(\.[a-z0-9_-]{1,63})*|\[[0-9a-f:.]+\]", name):
        return name
    raise argparse.ArgumentTypeError(
        f"a host name is letters, digits, dots and hyphens without a port, not {shown(text)}."
    )


def path_prefix(text: str) -> str:
    """A path to serve under, without a slash at its end."""
    path = text.rstrip("/")
    if re.fullmatch(r"(/[A-Za-z0-9._~-]+)*", path) and not {".", ".."}.intersection(path.split("/")):
        return path
    raise argparse.ArgumentTypeError(f"a prefix is a path such as /halfturn, not {shown(text)}.")


def server_place(text: str) -> str:
    """A server as name and port, such as 127.0.0.1:5006."""
    name, _, port = text.rpartition(":")
    return f"{host_name(name)}:{whole(1, HIGHEST_PORT, 'a port')(port)}"


def listening_place(text: str) -> str:
    """A port, or an address and a port, to listen on."""
    return server_place(text) if ":" in text else str(whole(1, HIGHEST_PORT, "a port")(text))


def shown(text: str) -> str:
    """What was typed, in quotes, cut to what fits in a sentence."""
    return repr(text if len(text) <= 40 else text[:40] + "…")
