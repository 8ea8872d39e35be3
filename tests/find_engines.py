"""Finds browsers of other families for the tests, Firefox and WebKit, and installs Debian's where it can."""

from __future__ import annotations

import os
import shutil
from dataclasses import dataclass
from pathlib import Path

from tests.find_browser import _as_root, _run_all

# Where Debian and others keep programs that nobody calls by name, below /usr.
LIBRARIES = ("lib/*/webkit2gtk-4*", "lib/webkit2gtk-4*", "lib64/webkit2gtk-4*", "libexec/webkit2gtk-4*")


class NoEngine(Exception):
    """A browser of this family was not found or could not be installed; the message says what was tried."""


@dataclass(frozen=True)
class Family:
    """A family of browsers: the programs that its tests need, and the packages that bring them."""

    name: str
    programs: tuple[tuple[str, ...], ...]  # of each, the names that it may have
    packages: tuple[str, ...]

    def found(self) -> list[str]:
        """Paths of the programs, in their order. Raises NoEngine for the first that is not there."""
        return [self._path(names) for names in self.programs]

    def _path(self, names: tuple[str, ...]) -> str:
        for name in names:
            path = shutil.which(name) or _in_libraries(name)
            if path:
                return path
        raise NoEngine(f"{self.name} is not tested: {' or '.join(names)} is not installed.")


FIREFOX = Family("Firefox", (("firefox-esr", "firefox"),), ("firefox-esr",))
WEBKIT = Family("WebKit", (("WebKitWebDriver",), ("MiniBrowser",), ("Xvfb",)), ("webkit2gtk-driver", "xvfb"))
FAMILIES = (FIREFOX, WEBKIT)


def find_or_install(family: Family) -> list[str]:
    """Paths of a family's programs, installed by the package manager if they were not here. Raises NoEngine."""
    try:
        return family.found()
    except NoEngine as nothing:
        root = _as_root()
        if root is None or not shutil.which("apt-get"):
            raise NoEngine(f"{nothing} Nobody here may install it.") from nothing
    apt = [*root, "env", "DEBIAN_FRONTEND=noninteractive", "apt-get"]
    failure = _run_all(
        [[*apt, "update"], [*apt, "install", "-y", "--no-install-recommends", *family.packages]]
    )
    if failure:
        raise NoEngine(f"{family.name} is not tested: {failure}")
    return family.found()


def _in_libraries(name: str) -> str | None:
    """The newest program of that name in the folder of WebKit's library."""
    found = [
        path
        for place in LIBRARIES
        for path in Path("/usr").glob(f"{place}/{name}")
        if os.access(path, os.X_OK)
    ]
    return str(max(found)) if found else None
