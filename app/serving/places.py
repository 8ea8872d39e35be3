"""Where a server is: the address to type, and the host names that it answers under."""

import ipaddress
from collections.abc import Iterable
from urllib.parse import urlsplit, urlunsplit

LOOPBACK_HOSTS = {"localhost", "127.0.0.1", "[::1]"}


def page_url(address: str, port: int, prefix: str = "") -> str:
    """The address to type into a browser for a server bound to `address`."""
    if address in ("0.0.0.0", "::", ""):
        address = "127.0.0.1"  # bound to every interface: this one is always among them
    return urlunsplit(("http", f"{_bracketed(address)}:{port}", f"{prefix}/", "", ""))


def accepted_hosts(address: str, public_hosts: Iterable[str] = ()) -> set[str] | None:
    """Host names answered when bound to `address`, or None for any, where names of the network must work.

    public_hosts : names under which a proxy in front brings its visitors; given any, only these and our own are
    answered.
    """
    named = {name.lower() for name in public_hosts}
    if named or address == "localhost" or _is_loopback(address):
        return LOOPBACK_HOSTS | {_bracketed(address).lower()} | named
    return None


def same_or_allowed(origin: str, host: str, hosts: set[str] | None) -> bool:
    """Whether a page from `origin` may open a websocket to `host`: it is the same, or one of our own `hosts`."""
    try:
        place = urlsplit(origin)
        return place.netloc.lower() == host.lower() or (
            hosts is not None and host_in(place.netloc).lower() in hosts
        )
    except ValueError:
        return False


def host_in(place: str) -> str:
    """The name in `name:port`, an address of version 6 in its brackets."""
    name, colon, port = place.rpartition(":")
    return name if colon and port.isdigit() else place


def _bracketed(address: str) -> str:
    return f"[{address}]" if ":" in address else address


def _is_loopback(address: str) -> bool:
    try:
        return ipaddress.ip_address(address).is_loopback
    except ValueError:
        return False
