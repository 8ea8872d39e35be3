"""The command `halfturn`: serve the tutor on this machine and open it in a browser."""

import argparse
import errno
import logging
import os
import socket
import sys
from collections.abc import Iterator

HIGHEST_PORT = 65535


class Trouble(Exception):
    """Something that the user can put right, said in one sentence."""


def main(arguments: list[str] | None = None) -> int:
    """Run the program; the exit code, 0 unless it could not serve."""
    options = _parser().parse_args(arguments)
    try:
        port = choose_port(options.address, options.port)
        _serve(options.address, port, open_browser=not options.no_browser)
    except Trouble as trouble:
        print(trouble, file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        pass  # Ctrl-C before the server listens; afterwards the server itself ends on it
    return 0


def choose_port(address: str, port: int) -> int:
    """`port` if it is free on `address`, else the next free one if someone at the terminal agrees.

    Raises Trouble if no port can be had or nobody agrees.
    """
    if is_free(address, port):
        return port
    following = next(
        (p for p in range(port + 1, min(port + 100, HIGHEST_PORT) + 1) if is_free(address, p)), None
    )
    busy = f"Port {port} is in use"
    if following is None:
        raise Trouble(f"{busy}, and so are the ports after it: name a free one with --port.")
    if not sys.stdin.isatty():
        raise Trouble(f"{busy}; the next free one is {following}: halfturn --port {following}")
    if not agrees(f"{busy}. Use {following} instead? [Y/n] "):
        raise Trouble(f"Nothing was started; to use another port: halfturn --port {following}")
    return following


def is_free(address: str, port: int) -> bool:
    """Whether a server could listen on `address` and `port` now.

    Raises Trouble if it could not for a reason that another port does not cure.
    """
    try:
        for family, kind, protocol, place in _places(address, port):
            with socket.socket(family, kind, protocol) as probe:
                if os.name == "posix":  # as the server does: a port still closing after a restart is free
                    probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
                probe.bind(place)
    except PermissionError as error:
        raise Trouble(f"This user may not use port {port}; choose one above 1023 with --port.") from error
    except (OSError, UnicodeError) as error:  # UnicodeError: not even the form of a host name
        if getattr(error, "errno", None) == errno.EADDRINUSE:
            return False
        raise Trouble(f"{_shown(address)} is not an address of this machine; 127.0.0.1 always is.") from error
    return True


def agrees(question: str) -> bool:
    """Ask at the terminal; an empty answer means yes, the end of input no."""
    try:
        return input(question).strip().lower() in ("", "y", "yes")
    except EOFError:
        print()
        return False


def _places(address: str, port: int) -> Iterator[tuple]:
    for family, kind, protocol, _, place in socket.getaddrinfo(address, port, type=socket.SOCK_STREAM):
        yield family, kind, protocol, place


def _serve(address: str, port: int, *, open_browser: bool) -> None:
    # Imported late: a wrong option or a busy port is then answered at once.
    from app.pages import pages
    from app.serving.places import accepted_hosts
    from app.serving.server import serve

    def announce(url: str) -> None:
        print(f"Halfturn is at {url} (Ctrl-C ends it)", flush=True)
        if accepted_hosts(address) is None:
            print("Everyone who can reach this machine over the network can open it too.", flush=True)

    logging.getLogger("tornado.access").setLevel(
        logging.ERROR
    )  # a mistyped address is no news for the terminal
    try:
        serve(pages(), port=port, address=address, open_browser=open_browser, announce=announce)
    except OSError as error:  # taken between the look and the bind
        raise Trouble(f"Port {port} could not be had: {error.strerror}. Name another with --port.") from error


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="halfturn",
        description="Serve the reflection-chart tutor on this machine and open it in a browser.",
    )
    parser.add_argument(
        "--port", type=_port, default=5006, help="port to serve on (default %(default)s; 0: any)"
    )
    parser.add_argument(
        "--address",
        default="127.0.0.1",
        help="address to listen on (default %(default)s: this machine only; 0.0.0.0: the whole network)",
    )
    parser.add_argument("--no-browser", action="store_true", help="print the address without opening it")
    return parser


def _port(text: str) -> int:
    if text.isascii() and text.isdigit() and len(text) <= 5 and int(text) <= HIGHEST_PORT:
        return int(text)
    raise argparse.ArgumentTypeError(
        f"a port is a whole number from 0 to {HIGHEST_PORT}, not {_shown(text)}."
    )


def _shown(text: str) -> str:
    """What was typed, in quotes, cut to what fits in a sentence."""
    return repr(text if len(text) <= 40 else text[:40] + "…")


if __name__ == "__main__":
    sys.exit(main())
