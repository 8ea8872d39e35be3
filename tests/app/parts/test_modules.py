"""The browser's modules: what a page asks for, and under which names and addresses."""

import re
import tomllib
from pathlib import Path

import pytest

from app.check.page import SelfCheckView
from app.lecture.page import LectureView, NotesView
from app.paper.page import PaperView
from app.parts.component import Scripted
from app.parts.line_drawing import LineDrawing
from app.parts.modules import PREFIX, import_map, imported_by, modules
from app.parts.stage import Stage
from app.parts.template import STATIC, asset
from app.practise.sheet_column import SheetView
from app.sets.page import SetsView
from tests.lessons.solving import SIDES

TOP = Path(__file__).resolve().parents[3]
COMPONENTS = (SheetView, SelfCheckView, LectureView, NotesView, PaperView, SetsView, Stage, LineDrawing)
FOLDERS = sorted(path.name for path in STATIC.iterdir() if path.is_dir())
WRITTEN = sorted(path.relative_to(STATIC).as_posix() for path in STATIC.rglob("*/*.js"))
LONGEST_MODULE, LONGEST_FUNCTION = 300, 45  # lines
CLASSIC = {
    "parts/page.js",
    "parts/connection.js",
    "lecture/size.js",
}  # run before anything is drawn, so they are no modules


def test_what_is_imported_comes_along():
    """A module brings what it imports, also over several lines and through others, each once."""
    found = modules("lecture/lecture.js")

    assert "lecture/lecture.js" == found[0]
    assert {"lecture/words.js", "lecture/pen.js"} <= set(found)
    assert len(found) == len(set(found))


def test_each_module_has_its_version():
    """A name leads to the address of this very version of the file."""
    assert {PREFIX + name: asset(name) for name in modules("lecture/pen.js")} == import_map("lecture/pen.js")[
        "imports"
    ]


def test_module_that_there_is_not():
    """A wrong name is an error when the program starts, not in a student's browser."""
    with pytest.raises(FileNotFoundError, match=r"nothing\.js"):
        modules("parts/nothing.js")


@pytest.mark.parametrize("component", COMPONENTS)
def test_script_of_a_component(component: type[Scripted]):
    """A component's own script only says which module draws it, and the map knows all names in it."""
    assert f'export {{ render }} from "{PREFIX}{component.module}";' == component._esm
    assert set(component.modules()) == {
        name.removeprefix(PREFIX) for name in component._process_importmap()["imports"]
    }


def test_no_module_lies_unused():
    """Every module belongs to a page."""
    used = {name for component in COMPONENTS for name in component.modules()}

    assert set() == set(WRITTEN) - used - CLASSIC


@pytest.mark.parametrize("name", WRITTEN)
def test_imports_are_by_name(name: str):
    """Modules import each other by their full names only, from their own folder or from the shared parts."""
    text = (STATIC / name).read_text("utf-8")
    own = {"parts", name.partition("/")[0]}

    assert set() == {
        said
        for said in re.findall(r"""(?:from|^import)\s*["']([^"']+)["']""", text)
        if not re.fullmatch(rf"{PREFIX}({'|'.join(own)})/[\w/]+\.(?:js|d\.ts)", said)
    }


@pytest.mark.parametrize("name", WRITTEN)
def test_modules_and_functions_are_short(name: str):
    """A module is checked for its types and read in one sitting, a function of it on one screen."""
    lines = (STATIC / name).read_text("utf-8").splitlines()
    starts = [at for at, line in enumerate(lines) if re.match(r"(export )?(async )?function ", line)]
    ends = [next(at for at in range(start, len(lines)) if lines[at].endswith("}") and lines[at][0] == "}")
            for start in starts]  # fmt: skip

    assert "// @ts-check" == lines[0]
    assert LONGEST_MODULE >= len(lines)
    assert [] == [
        lines[start] for start, end in zip(starts, ends, strict=True) if end - start >= LONGEST_FUNCTION
    ]


def test_imports_go_round_nowhere():
    """No module needs itself by way of others."""
    for name in WRITTEN:
        needed = {one for other in imported_by(name) for one in modules(other)}

        assert name not in needed


@pytest.mark.parametrize("name", WRITTEN)
def test_no_solution_is_known_by_name(name: str):
    """What a lesson calls its solutions reaches the browser as data: no such word stands in the code."""
    code = re.sub(r"/\*.*?\*/", "", (STATIC / name).read_text("utf-8"), flags=re.DOTALL)
    code = re.sub(r"//.*|\bhow far\b", "", code)

    assert [] == [side for side in SIDES if re.search(rf"\b{side}\b", code, re.IGNORECASE)]


def test_everything_is_packed():
    """Whatever kind of file lies in a folder of the browser's code goes into the package."""
    packed = tomllib.loads((TOP / "pyproject.toml").read_text("utf-8"))["tool"]["setuptools"]["package-data"]
    kinds = {f"*{path.suffix}" for folder in FOLDERS for path in (STATIC / folder).rglob("*.*")}

    assert set() == kinds - set(packed["*"])
