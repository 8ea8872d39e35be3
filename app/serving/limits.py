"""How much one process takes on: so many pages, and so many connections as the system lets it open files."""

from __future__ import annotations

import socket
from dataclasses import dataclass, field
from typing import Any

from tornado.netutil import add_accept_handler

MOST_PAGES = (
    1000  # open at once in one process; each takes some 0.2 MB when it is opened, more once it is worked on
)
MOST_FILES = 65_536
RESERVE = (
    64  # files that the process opens for itself, and connections on which it says that there are too many
)
BUSY = (
    b"HTTP/1.1 503 Service Unavailable\r\nRetry-After: 30\r\nConnection: close\r\nContent-Length: 0\r\n\r\n"
)


@dataclass
class Limits:
    """The limits of one process. `http` is its server, once there is one."""

    most_pages: int = MOST_PAGES
    most_connections: int = MOST_FILES
    http: Any = None
    at_work: set[Any] = field(default_factory=set)

    def full(self, application: Any, session: str = "") -> bool:
        """Whether a further page would be one too many; one that is open already is not."""
        pages = application.applications.values()
        return not any(session in page._sessions for page in pages) and self.most_pages <= sum(
            len(page._sessions) for page in pages
        )

    def crowded(self, further: int = 0) -> bool:
        """Whether more connections are open than can be served, and `further` ones beyond."""
        return self.connections() > self.most_connections + further

    def connections(self) -> int:
        """Connections open now, the pages' websockets included."""
        return len(self.http._connections) + len(self.http.request_callback._clients)

    def watch(self, http: Any) -> None:
        """Shut connections out that not even the sentence can be sent on, where accepting them would fail."""
        self.http = http
        accept = http._handle_connection

        def accept_some(connection: socket.socket, address: Any) -> None:
            if self.crowded(RESERVE // 2):
                connection.setblocking(False)
                connection.send(BUSY)
                connection.close()
            else:
                accept(connection, address)

        for number, listening in http._sockets.items():
            http._handlers[number]()  # gives up the one that tornado has set
            http._handlers[number] = add_accept_handler(listening, accept_some)


def most_connections() -> int:
    """How many connections this process may have open, after asking the system for as many files as it gives."""
    try:
        import resource
    except ImportError:  # no such limit on this system
        return MOST_FILES
    soft, hard = resource.getrlimit(resource.RLIMIT_NOFILE)
    wished = MOST_FILES if hard == resource.RLIM_INFINITY else min(hard, MOST_FILES)
    if soft != resource.RLIM_INFINITY and soft < wished:
        resource.setrlimit(resource.RLIMIT_NOFILE, (wished, hard))
        soft = wished
    return max(1, (MOST_FILES if soft == resource.RLIM_INFINITY else soft) - RESERVE)
