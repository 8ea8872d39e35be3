"""The browser's code: real modules in `static/`, sent together as one.

A module is called `halfturn/<folder>/<file>.js` wherever it is imported. A browser would fetch each of them by itself;
so they are put together here, each in a scope of its own, into one script that is asked for once and kept: its address
names its content. A module is evaluated when it is first used, so a page runs no code of another page.
"""

import hashlib
import re
from functools import cache

from app.parts.template import STATIC, at

PREFIX = "halfturn/"
TOGETHER = "halfturn.js"  # under /static/, beside the folders
_IMPORT = re.compile(rf"""^import \{{([^}}]*)\}} from "{PREFIX}([^"]+)";$""", re.MULTILINE)
_EXPORT = re.compile(r"^export (?=(?:async )?(?:function|const|class) (\w+))", re.MULTILINE)
_REMARK = re.compile(
    r"^\s*(?://.*|/\*\*.*\*/)\n", re.MULTILINE
)  # alone on its line, as the notes on types are
_BEFORE = """\
const modules = {}, made = {};
export const use = (name) => made[name] ??= modules[name]();
"""


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
    return [imported for _, imported in _IMPORT.findall(_text(name))]


def every_module() -> list[str]:
    """All modules in `static/`; a script that exports nothing is none."""
    names = sorted(file.relative_to(STATIC).as_posix() for file in STATIC.rglob("*.js"))
    return [name for name in names if _EXPORT.search(_text(name))]


@cache
def together() -> bytes:
    """One module that holds all of them: `use("practise/sheet.js")` gives what that one exports."""
    return "".join([_BEFORE, *(_scope(name) for name in every_module())]).encode()


def _scope(name: str) -> str:
    """A module as a function that evaluates it and returns what it exports."""
    text = _REMARK.sub("", _text(name))
    exported = ", ".join(_EXPORT.findall(text))
    body = _IMPORT.sub(lambda found: f'const {{{_renamed(found[1])}}} = use("{found[2]}");', text)
    return f'modules["{name}"] = () => {{\n{_EXPORT.sub("", body)}return {{ {exported} }};\n}};\n'


def _renamed(names: str) -> str:
    return re.sub(r"(\w+) as (\w+)", r"\1: \2", names)


def _text(name: str) -> str:
    return (STATIC / name).read_text("utf-8")


@cache
def _digest() -> str:
    return hashlib.sha256(together()).hexdigest()[:12]


def address() -> str:
    """Where the browser finds all modules; an upgrade has another address."""
    return at(f"/static/{TOGETHER}?v={_digest()}")


def script(name: str) -> str:
    """The script of a component that the module `name` renders; as it is no file, it names the whole address."""
    return f'export const {{ render }} = (await import(location.origin + "{address()}")).use("{name}");'
