"""The rooms and the arrows between them, read from the source itself."""

import ast
import re
import sys
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

from lessons.course.catalogue import CATALOGUE

TOP = Path(__file__).resolve().parent.parent
ROOMS = ("app", "core", "lessons")
AGREED = {"DEVELOPERS.md", "README.md", "app", "core", "lessons", "pyproject.toml", "static", "tests"}
MADE = {"__pycache__", "build", "dist", "halfturn.egg-info"}  # by installing and running, never committed
ALLOWED = {
    "core": {"core", "numpy"},
    "lessons": {"core", "lessons", "numpy"},
}
LONGEST_MODULE = 300
FOLDERS = {
    # What each folder may import of its own room, beside itself; the face of a room may import all of it.
    "lessons": {
        "grammar": set(),
        "course": {"grammar"},
        "working": {"grammar"},
        "problems": {"grammar", "working"},
        "saved": {"grammar", "working", "problems"},
        "homework": {"grammar", "working"},
        "classes": {"grammar", "working", "problems", "saved"},
    },
    "app": {
        "serving": {"parts"},
        "commands": {"serving", "parts", "report", "paper"},
        "parts": set(),
        "practise": {"parts"},
        "check": {"parts"},
        "lecture": {"parts"},
        "paper": {"parts"},
        "report": {"parts"},
        "sets": {"parts"},
        "course": {"parts"},
    },
    "static": {
        "parts": set(),
        "practise": {"parts"},
        "check": {"parts"},
        "lecture": {"parts"},
        "paper": {"parts"},
        "report": set(),
        "sets": {"parts"},
        "course": {"parts"},
    },
}


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


def folder_of(module: str, room: str) -> str:
    """The folder inside a room that a module's full name lies in; "" for its face."""
    parts = module.split(".")
    return parts[1] if len(parts) > 2 and parts[0] == room else ""


def modules_imported(path: Path) -> set[str]:
    """Full names of the modules of our own rooms that a module imports."""
    names = set()
    for node in ast.walk(ast.parse((TOP / path).read_text("utf-8"))):
        if isinstance(node, ast.Import):
            names |= {f"{alias.name}." for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            names |= {f"{node.module}.{alias.name}" for alias in node.names}
    return {name for name in names if name.split(".")[0] in ROOMS}


def folder_arrows(room: str) -> set[tuple[str, str]]:
    """Which folder of a room imports which other one."""
    if room == "static":
        return static_arrows()
    arrows = set()
    for path in modules(room):
        if len(path.parts) > 2:
            to = {folder_of(name, room) for name in modules_imported(path)}
            arrows |= {(path.parts[1], folder) for folder in to if folder not in ("", path.parts[1])}
    return arrows


def static_arrows() -> set[tuple[str, str]]:
    """The same for the browser's modules, which are imported by name."""
    arrows = set()
    for path in sorted((TOP / "static").rglob("*.js")):
        own = path.relative_to(TOP / "static").parts[0]
        named = re.findall(r"[\"']halfturn/(\w+)/", path.read_text("utf-8"))
        arrows |= {(own, folder) for folder in named if folder != own}
    return arrows


def words_of_lessons() -> set[str]:
    """Keys of lessons, of their fields and of their branches: words that only a lesson's own room may say."""
    lessons = list(CATALOGUE)
    fields = {one.quantity for lesson in lessons for one in lesson.fields.values()}
    branches = {branch.key for lesson in lessons for branch in lesson.branches}
    keys = {lesson.key for lesson in lessons} | {key for lesson in lessons for key in lesson.former_keys}
    return keys | branches | {field for field in fields if "." in field or "_" in field}


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


@pytest.mark.parametrize("room", FOLDERS)
def test_arrows_between_folders(room: str):
    """Inside a room a folder imports only those that it may."""
    allowed = {(folder, to) for folder, others in FOLDERS[room].items() for to in others}

    assert set() == folder_arrows(room) - allowed


@pytest.mark.parametrize("room", FOLDERS)
def test_folders_have_no_cycle(room: str):
    """No folder leads back to itself, by whatever way."""
    TopologicalSorter(FOLDERS[room]).prepare()


@pytest.mark.parametrize("room", ["core", "lessons", "app"])
def test_modules_have_no_cycle(room: str):
    """No module leads back to itself, by whatever way; the face of a room is left out, as it names all."""
    paths = [path for path in modules(room) if path.name != "__init__.py"]
    names = {".".join(path.with_suffix("").parts) for path in paths}
    graph: dict[str, set[str]] = {}
    for path in paths:
        found = {name if name in names else name.rpartition(".")[0] for name in modules_imported(path)}
        graph[".".join(path.with_suffix("").parts)] = (found & names) - {".".join(path.with_suffix("").parts)}

    TopologicalSorter(graph).prepare()


@pytest.mark.parametrize("room", ["app", "static"])
def test_no_lesson_is_named(room: str):
    """What shows lessons knows none: no key of a lesson, a field or a branch stands there as a word of its own."""
    words = "|".join(sorted(map(re.escape, words_of_lessons())))
    named = re.compile(rf"""(?<=["'`.])(?:{words})(?=["'`.])""")
    found = [
        f"{path.relative_to(TOP)}: {word}"
        for path in sorted((TOP / room).rglob("*"))
        if path.suffix in (".py", ".js", ".css", ".html")
        for word in named.findall(path.read_text("utf-8"))
    ]

    assert [] == found


def test_one_way_to_the_program():
    """Everything that a page says goes through the outbox, which holds it while there is no connection."""
    static = TOP / "static"
    says = [path for path in sorted(static.rglob("*.js")) if ".send_msg(" in path.read_text("utf-8")]

    assert ["parts/outbox.js"] == [path.relative_to(static).as_posix() for path in says]
