"""`halfturn deploy`: prints configurations for serving behind a proxy, the very ones that the tests run."""

import argparse
from collections.abc import Callable, Sequence

from app.commands.readers import host_name, listening_place, path_prefix, server_place, whole

NGINX = """\
# halfturn deploy nginx: goes into the http part, as a file in sites-enabled/.
# Pages stay with one server by a cookie that holds a random number; a page whose server is gone goes on at another.
map $cookie_halfturn_seat $halfturn_seat {{
    default              $request_id;
    "~^[0-9a-f]{{32}}$"  $cookie_halfturn_seat;
}}
map $http_upgrade $halfturn_upgrade {{
    default  upgrade;
    ""       "";
}}
upstream halfturn {{
    hash $halfturn_seat consistent;
{servers}
}}
server {{
    listen {listen};
    server_name {host};
    location {prefix}/ {{
        proxy_pass http://halfturn;
        proxy_http_version 1.1;
        proxy_set_header Host $host;
        proxy_set_header Upgrade $http_upgrade;
        proxy_set_header Connection $halfturn_upgrade;
        proxy_connect_timeout 2s;
        proxy_read_timeout 120s;
        proxy_next_upstream error timeout http_503;
        add_header Set-Cookie "halfturn_seat=$halfturn_seat; Path={prefix}/; HttpOnly; SameSite=Strict";
    }}
}}
"""
NGINX_SERVER = "    server {server} max_fails=1 fail_timeout=5s;"

HAPROXY = """\
# halfturn deploy haproxy: pages stay with one server by a cookie; a page whose server is gone goes on at another.
defaults
    mode http
    timeout connect 2s
    timeout client 120s
    timeout server 120s
    timeout tunnel 1h
    timeout check 5s
    option redispatch
    retries 3
    retry-on conn-failure empty-response 503
frontend halfturn_front
    bind {listen}
    default_backend halfturn
backend halfturn
    balance leastconn
    cookie halfturn_seat insert indirect nocache httponly attr SameSite=Strict
    option httpchk GET {prefix}/liveness
    default-server inter 2s fall 2 rise 1 on-marked-down shutdown-sessions
{servers}
"""
HAPROXY_SERVER = "    server halfturn{number} {server} check cookie {number}"

SYSTEMD = """\
# halfturn deploy systemd: save as /etc/systemd/system/halfturn.service
[Unit]
Description=Halfturn, a reflection-chart tutor
After=network.target

[Service]
DynamicUser=yes
StateDirectory=halfturn
ExecStart={command}
Restart=always
KillSignal=SIGTERM
TimeoutStopSec=15
LimitNOFILE=65536
NoNewPrivileges=yes
ProtectSystem=strict
ProtectHome=yes
PrivateTmp=yes

[Install]
WantedBy=multi-user.target
"""
CONTAINER = """\
# halfturn deploy container: save as Containerfile beside the program's pyproject.toml, then build and run it.
FROM python:3-slim
COPY . /opt/halfturn
RUN pip install --no-cache-dir /opt/halfturn && useradd --system --create-home halfturn
USER halfturn
WORKDIR /home/halfturn
EXPOSE {port}
STOPSIGNAL SIGTERM
CMD {command}
"""


def nginx(options: argparse.Namespace) -> str:
    """A part of nginx's configuration."""
    servers = [NGINX_SERVER.format(server=server) for server in options.server]
    return NGINX.format(
        servers="\n".join(servers), listen=options.listen, host=options.host, prefix=options.prefix
    )


def haproxy(options: argparse.Namespace) -> str:
    """A whole configuration of HAProxy."""
    servers = [HAPROXY_SERVER.format(number=n, server=one) for n, one in enumerate(options.server, 1)]
    bind = options.listen if ":" in options.listen else f":{options.listen}"
    return HAPROXY.format(servers="\n".join(servers), listen=bind, prefix=options.prefix)


def serving(options: argparse.Namespace, program: Sequence[str], key_file: str, address: str) -> list[str]:
    """The command line of one server."""
    port = options.server[0].rpartition(":")[2]
    prefix = ["--prefix", options.prefix] if options.prefix else []
    return [
        *program,
        "--no-browser",
        *("--address", address),
        *("--port", port),
        *("--processes", str(options.processes)),
        *("--public-host", options.host),
        *prefix,
        *("--signing-key-file", key_file),
    ]


def systemd(options: argparse.Namespace) -> str:
    """A unit of systemd."""
    words = serving(options, [options.program], "/var/lib/halfturn/signing-key", "127.0.0.1")
    return SYSTEMD.format(command=" ".join(words))


def container(options: argparse.Namespace) -> str:
    """A file from which a container is built."""
    words = serving(options, ["halfturn"], "/home/halfturn/signing-key", "0.0.0.0")
    shown = ", ".join(f'"{word}"' for word in words)
    return CONTAINER.format(port=options.server[0].rpartition(":")[2], command=f"[{shown}]")


KINDS: dict[str, Callable[[argparse.Namespace], str]] = {
    "nginx": nginx,
    "haproxy": haproxy,
    "systemd": systemd,
    "container": container,
}


def main(arguments: Sequence[str]) -> int:
    """Print the configuration asked for; the exit code."""
    options = _parser().parse_args(arguments)
    options.server = options.server or ["127.0.0.1:5006", "127.0.0.1:5007"]
    print(KINDS[options.kind](options), end="")
    return 0


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="halfturn deploy",
        description="Print a configuration for serving the tutor to many, behind a proxy that speaks TLS.",
    )
    add = parser.add_argument
    usual = "(default %(default)s)"
    add("kind", choices=KINDS, help="what to print a configuration for")
    add("--host", type=host_name, default="halfturn.example", help=f"the public host name {usual}")
    add("--listen", type=listening_place, default="80", help=f"where the proxy listens {usual}")
    add(
        "--server",
        type=server_place,
        action="append",
        metavar="HOST:PORT",
        help="a server to bring visitors to, given once for each (default 127.0.0.1:5006 and :5007)",
    )
    add("--prefix", type=path_prefix, default="", help="the path under which it is served, such as /halfturn")
    count = whole(1, 64, "the count of processes")
    add("--processes", type=count, default=2, help=f"processes of a server {usual}")
    add("--program", default="/opt/halfturn/.venv/bin/halfturn", help=f"where the command is {usual}")
    return parser
