"""The browser's modules: what they import, and the one module that they are sent as."""

import re
import tomllib
from pathlib import Path

import pytest

from app.check.page import SelfCheckView
from app.course.page import CourseView
from app.lecture.page import LectureView, NotesView
from app.paper.page import PaperView
from app.parts.line_drawing import LineDrawing
from app.parts.modules import PREFIX, TOGETHER, address, every_module, imported_by, modules, script, together
from app.parts.stage import Stage
from app.parts.template import STATIC
from app.practise.sheet_column import SheetView
from app.sets.page import SetsView
from tests.lessons.solving import SIDES

TOP = Path(__file__).resolve().parents[3]
COMPONENTS = (
    CourseView,
    SheetView,
    SelfCheckView,
    LectureView,
    NotesView,
    PaperView,
    SetsView,
    Stage,
    LineDrawing,
)
FOLDERS = sorted(path.name for path in STATIC.iterdir() if path.is_dir())
WRITTEN = sorted(path.relative_to(STATIC).as_posix() for path in STATIC.rglob("*/*.js"))
LONGEST_MODULE, LONGEST_FUNCTION = 300, 45  # lines
CLASSIC = {
    "parts/page.js",
    "parts/connection.js",
    "lecture/size.js",
}  # run before anything is drawn, so they are no modules


def text_of(name: str) -> str:
    """What stands in a module."""
    return (STATIC / name).read_text("utf-8")


def test_what_is_imported_comes_along():
    """A module brings what it imports, also over several lines and through others, each once."""
    found = modules("lecture/lecture.js")

    assert "lecture/lecture.js" == found[0]
    assert {"lecture/words.js", "lecture/pen.js"} <= set(found)
    assert len(found) == len(set(found))


class TestTogether:
    def test_all_are_in_it(self):
        """Every module is in the one that is sent, and every name that one exports can be had of it."""
        text = together().decode()
        scopes = re.findall(
            r'^modules\["([^"]+)"\] = \(\) => \{\n(.*?)^return \{ ([^}]*) \};\n\};$', text, re.M | re.S
        )
        exported = {name: re.findall(r"^export (?:async )?(?:function|const|class) (\w+)", text_of(name), re.M)
                    for name in every_module()}  # fmt: skip

        assert set(WRITTEN) - CLASSIC == set(every_module())
        assert exported == {name: names.split(", ") for name, _, names in scopes}

    def test_no_import_is_left(self):
        """What a module imports it has of its neighbours: nothing further is fetched."""
        assert ["use"] == re.findall(r"^(?:import|export)\b.*?(\w+) =", together().decode(), re.M)
        assert "import {" not in together().decode()

    def test_renamed_import(self, monkeypatch: pytest.MonkeyPatch):
        """An import under another name, and one over several lines, mean the same when put together."""
        written = {
            "a.js": 'import {\n  one,\n  two as other,\n} from "halfturn/b.js";\n\nexport const three = one + other;\n',
            "b.js": "export const one = 1;\nexport function two() { return 2; }\nexport async function four() {}\n",
        }
        monkeypatch.setattr("app.parts.modules._text", written.__getitem__)
        monkeypatch.setattr("app.parts.modules.every_module", lambda: list(written))

        scopes = together.__wrapped__().decode().split("\n", 2)[2]

        assert (
            'modules["a.js"] = () => {\nconst {\n  one,\n  two: other,\n} = use("b.js");\n\n'
            "const three = one + other;\nreturn { three };\n};\n"
            'modules["b.js"] = () => {\nconst one = 1;\nfunction two() { return 2; }\nasync function four() {}\n'
            "return { one, two, four };\n};\n"
        ) == scopes

    def test_nothing_but_remarks_is_left_out(self):
        """A line that is left out as a remark stands in no text: between the marks of none is one open."""
        for name in WRITTEN:
            before = ""
            for line in text_of(name).splitlines(keepends=True):
                assert not re.match(r"\s*(//|/\*\*.*\*/\n)", line) or before.count("`") % 2 == 0, (name, line)
                before += line if not re.match(r"\s*//", line) else ""

    def test_address_names_the_content(self, monkeypatch: pytest.MonkeyPatch):
        """After an upgrade the address is another one, so that a page that stayed open takes the new modules."""
        before = address()
        monkeypatch.setattr("app.parts.modules._digest", lambda: "another")

        assert re.fullmatch(rf"/static/{TOGETHER}\?v=[0-9a-f]{{12}}", before)
        assert address() == f"/static/{TOGETHER}?v=another"
        assert address() in script("paper/paper.js")


def test_module_that_there_is_not():
    """A wrong name is an error when the program starts, not in a student's browser."""
    with pytest.raises(FileNotFoundError, match=r"nothing\.js"):
        modules("parts/nothing.js")


def test_no_module_lies_unused():
    """Every module belongs to a page."""
    used = {name for component in COMPONENTS for name in component.modules()}

    assert set() == set(WRITTEN) - used - CLASSIC


@pytest.mark.parametrize("name", WRITTEN)
def test_imports_are_by_name(name: str):
    """Modules import each other by their full names only, from their own folder or from the shared parts."""
    text = text_of(name)
    own = {"parts", name.partition("/")[0]}

    assert set() == {
        said
        for said in re.findall(r"""(?:from|^import)\s*["']([^"']+)["']""", text)
        if not re.fullmatch(rf"{PREFIX}({'|'.join(own)})/[\w/]+\.(?:js|d\.ts)", said)
    }


@pytest.mark.parametrize("name", WRITTEN)
def test_modules_and_functions_are_short(name: str):
    """A module is checked for its types and read in one sitting, a function of it on one screen."""
    lines = text_of(name).splitlines()
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
    code = re.sub(r"/\*.*?\*/", "", text_of(name), flags=re.DOTALL)
    code = re.sub(r"//.*|\bhow far\b", "", code)

    assert [] == [side for side in SIDES if re.search(rf"\b{side}\b", code, re.IGNORECASE)]


def test_everything_is_packed():
    """Whatever kind of file lies in a folder of the browser's code goes into the package."""
    packed = tomllib.loads((TOP / "pyproject.toml").read_text("utf-8"))["tool"]["setuptools"]["package-data"]
    kinds = {f"*{path.suffix}" for folder in FOLDERS for path in (STATIC / folder).rglob("*.*")}

    assert set() == kinds - set(packed["*"])
