"""Finds nginx and HAProxy for the tests, and installs them where the system's own packages may be."""

import shutil
from functools import cache

from tests.find_browser import _as_root, _run_all

PACKAGES = {"nginx": "nginx-light", "haproxy": "haproxy"}
PLACES = "/usr/sbin:/usr/local/sbin:/usr/bin:/usr/local/bin:/opt/homebrew/bin"


class NoProxy(Exception):
    """The proxy was not found and could not be installed; the message says what was tried."""


@cache
def find_or_install(name: str) -> str:
    """Path of `name`, "nginx" or "haproxy". Nothing that was installed is left running.

    Raises NoProxy with what was tried.
    """
    found = shutil.which(name) or shutil.which(name, path=PLACES)
    if found:
        return found
    root = _as_root()
    if root is None or not shutil.which("apt-get"):
        raise NoProxy(f"{name} is not installed, and nobody here may install it.")
    # Services are started on installing unless a policy forbids it; the tests start their own.
    quiet = [*root, "env", "DEBIAN_FRONTEND=noninteractive", "RUNLEVEL=1", "apt-get"]
    failure = _run_all(
        [[*quiet, "update"], [*quiet, "install", "-y", "--no-install-recommends", PACKAGES[name]]]
    )
    found = shutil.which(name, path=PLACES)
    if failure or not found:
        raise NoProxy(failure or f"{name} was installed, but cannot be found.")
    return found
