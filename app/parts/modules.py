"""The browser's code: real modules in `static/`, found by name over an import map.

A module is called `halfturn/<folder>/<file>.js` wherever it is imported; the map leads each name to an address that
names the version of the file, so that a browser can keep it and yet sees an upgrade at once.
"""

import re
from functools import cache

from app.parts.template import STATIC, asset

PREFIX = "halfturn/"
_IMPORT = re.compile(rf"""^(?:import|export|\}})[^"';]*["']{PREFIX}([^"']+)["'];?$""", re.MULTILINE)


@cache
def modules(*names: str) -> tuple[str, ...]:
    """Modules in `static/` and all that they import, each once, in the order in which they are met.

    Raises FileNotFoundError for a module that there is not."""
    found: dict[str, None] = {}
    waiting = list(names)
    while waiting:
        name = waiting.pop(0)
        if name not in found:
            found[name] = None
            waiting += imported_by(name)
    return tuple(found)


def imported_by(name: str) -> list[str]:
    """What a module itself imports."""
    return _IMPORT.findall((STATIC / name).read_text("utf-8"))


def import_map(*names: str) -> dict[str, dict[str, str]]:
    """The import map for these modules and all that they import."""
    return {"imports": {PREFIX + name: asset(name) for name in modules(*names)}}
