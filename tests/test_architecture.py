"""The rooms and the arrows between them, read from the source itself."""

import ast
import re
import sys
from pathlib import Path

import pytest

TOP = Path(__file__).resolve().parent.parent
ROOMS = ("app", "core", "lessons")
AGREED = {"DEVELOPERS.md", "README.md", "app", "core", "lessons", "pyproject.toml", "static", "tests"}
MADE = {"__pycache__", "build", "dist", "halfturn.egg-info"}  # by installing and running, never committed
ALLOWED = {
    "core": {"core", "numpy"},
    "lessons": {"core", "lessons", "numpy"},
}
LONGEST_MODULE = 300


def modules(*rooms: str) -> list[Path]:
    """Python files of the rooms, as paths from the top."""
    return sorted(path.relative_to(TOP) for room in rooms for path in (TOP / room).rglob("*.py"))


def imported(path: Path) -> set[str]:
    """First names of all that a module imports; a relative import is its own package's."""
    names = set()
    for node in ast.walk(ast.parse((TOP / path).read_text("utf-8"))):
        if isinstance(node, ast.Import):
            names |= {alias.name.partition(".")[0] for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            names.add(path.parts[0] if node.level else (node.module or "").partition(".")[0])
    return names


def claims_in(path: Path) -> list[ast.FunctionDef]:
    """The tests of a file, those in classes included."""
    tree = ast.parse((TOP / path).read_text("utf-8"))
    return [n for n in ast.walk(tree) if isinstance(n, ast.FunctionDef) and n.name.startswith("test_")]


@pytest.mark.parametrize("path", modules("core", "lessons"), ids=str)
def test_arrows_point_down(path: Path):
    """A room imports only numpy, the standard library, itself and the rooms below it."""
    assert set() == imported(path) - ALLOWED[path.parts[0]] - sys.stdlib_module_names


@pytest.mark.parametrize("path", modules(*ROOMS), ids=str)
def test_modules_are_short(path: Path):
    """A module is short enough to read from top to bottom in one sitting."""
    assert LONGEST_MODULE >= len((TOP / path).read_text("utf-8").splitlines())


@pytest.mark.parametrize("path", modules("tests"), ids=str)
def test_every_test_states_a_claim(path: Path):
    """Every test says in its docstring what it claims."""
    assert [] == [test.name for test in claims_in(path) if not (ast.get_docstring(test) or "").endswith(".")]


def test_no_outside_address_is_served():
    """Nothing that is served names another host; the names of the W3C's vocabularies are no requests."""
    found = [
        f"{path.relative_to(TOP)}: {address}"
        for room in ("app", "static")
        for path in sorted((TOP / room).rglob("*"))
        if path.is_file()
        and path.suffix not in (".pyc", ".png")
        and TOP / "app" / "commands" not in path.parents  # prints at a terminal, and is served to nobody
        for address in re.findall(r"(?:https?|wss?)://[^\s\"'<>)]*", path.read_text("utf-8"))
        if not re.match(r"http://www\.w3\.org/", address)
    ]

    assert [] == found


def test_top_level_is_as_agreed():
    """The top level holds the agreed names and dotfiles only."""
    assert set() == {path.name for path in TOP.iterdir() if path.name[0] != "."} - AGREED - MADE
