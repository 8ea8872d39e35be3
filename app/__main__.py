"""The command `halfturn`: serve the tutor on this machine and open it in a browser."""

from __future__ import annotations

import argparse
import errno
import importlib
import os
import socket
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from app.commands.readers import HIGHEST_PORT, host_name, path_prefix, shown, whole

if TYPE_CHECKING:
    from lessons.problems.sets import Shelf

MOST_PROCESSES = 64
COMMANDS = ("deploy", "mark", "print", "quiz", "sets")
"""What it does besides serving, each a module of `app/commands`, read only when it is asked for."""


class Trouble(Exception):
    """Something that the user can put right, said in one sentence."""


def main(arguments: list[str] | None = None) -> int:
    """Run the program; the exit code, 0 unless it could not serve."""
    given = sys.argv[1:] if arguments is None else arguments
    if given and given[0] in COMMANDS:
        return importlib.import_module(f"app.commands.{given[0]}").main(given[1:])
    options = _parser().parse_args(given)
    try:
        port = choose_port(options.address, options.port)
        _serve(options, port)
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
        raise Trouble(f"{shown(address)} is not an address of this machine; 127.0.0.1 always is.") from error
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


def _serve(options: argparse.Namespace, port: int) -> None:
    # Imported late: a wrong option or a busy port is then answered at once.
    from app.pages import pages
    from app.serving.places import accepted_hosts
    from app.serving.server import serve

    def announce(url: str) -> None:
        print(f"Halfturn is at {url} (Ctrl-C ends it)", flush=True)
        if accepted_hosts(options.address, options.public_host) is None:
            print("Everyone who can reach this machine over the network can open it too.", flush=True)

    if options.processes > 1 and not hasattr(os, "fork"):
        raise Trouble("Several processes on one port need a system with fork; leave --processes out.")
    key = _signing_key(options.signing_key_file)
    try:
        serve(
            pages(sets=_sets(options.sets)),
            port=port,
            address=options.address,
            open_browser=not options.no_browser,
            announce=announce,
            processes=options.processes,
            public_hosts=tuple(options.public_host),
            prefix=options.prefix,
            key=key,
            most_pages=options.most_pages,
        )
    except OSError as error:  # taken between the look and the bind
        raise Trouble(f"Port {port} could not be had: {error.strerror}. Name another with --port.") from error


def _sets(folders: list[Path]) -> Shelf:
    """The sets in these folders, and those that come with the program. Raises Trouble with every fault of a file."""
    from lessons.course.catalogue import CATALOGUE
    from lessons.problems.problem_sets import BadSet
    from lessons.problems.sets import shelf

    for folder in folders:
        if not folder.is_dir():
            raise Trouble(
                f"{shown(str(folder))} is no folder: --sets names one that holds sets, files in TOML."
            )
    try:
        return shelf(CATALOGUE, folders)
    except BadSet as fault:
        raise Trouble(
            f"{fault}\nNothing was started: mend these sets, or take them out of their folder."
        ) from fault


def _signing_key(path: str | None) -> bytes | None:
    """The key in a file, made if it is not there; None where no file is named. Raises Trouble."""
    if path is None:
        return None
    from app.serving.setup import read_key

    try:
        return read_key(Path(path))
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or error
        raise Trouble(f"The signing key in {shown(path)} cannot be used: {reason}.") from error


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="halfturn",
        description="Serve the reflection-chart tutor on this machine and open it in a browser.",
        epilog="For a class: halfturn sets check FILE looks at a problem set, print FILE makes its worksheets, "
        "quiz FILE writes it for a learning platform, mark DIR marks what was handed in. To serve behind a proxy: "
        "halfturn deploy. Each tells more with --help.",
    )
    parser.add_argument(
        "--port",
        type=whole(0, HIGHEST_PORT, "a port"),
        default=5006,
        help="port to serve on (default %(default)s; 0: any)",
    )
    parser.add_argument(
        "--address",
        default="127.0.0.1",
        help="address to listen on (default %(default)s: this machine only; 0.0.0.0: the whole network)",
    )
    parser.add_argument(
        "--processes",
        type=whole(1, MOST_PROCESSES, "the count of processes"),
        default=1,
        help="how many processes share the work (default %(default)s; not on Windows)",
    )
    parser.add_argument(
        "--public-host",
        type=host_name,
        action="append",
        default=[],
        metavar="NAME",
        help="a host name under which a proxy in front brings its visitors; may be given again",
    )
    parser.add_argument(
        "--prefix",
        type=path_prefix,
        default="",
        metavar="PATH",
        help="a path to serve under, such as /halfturn",
    )
    parser.add_argument(
        "--signing-key-file",
        metavar="FILE",
        help="a key shared by the servers of one deployment, so that a page may go on at another; made if not there",
    )
    parser.add_argument(
        "--most-pages",
        type=whole(1, 100_000, "the count of pages"),
        default=1000,
        help="pages open at once in one process, beyond which visitors are asked to wait (default %(default)s)",
    )
    parser.add_argument(
        "--sets",
        type=Path,
        action="append",
        default=[],
        metavar="DIR",
        help="a folder of problem sets to offer beside those that come with the program; may be given again",
    )
    parser.add_argument("--no-browser", action="store_true", help="print the address without opening it")
    return parser


if __name__ == "__main__":
    sys.exit(main())
