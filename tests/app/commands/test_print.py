"""`halfturn print`: a class's worksheets with their names, and the key that finds a student's variant."""

import re
from html import unescape
from pathlib import Path
from xml.etree import ElementTree

import pytest

from app.__main__ import main
from app.paper.for_class import pupils
from lessons.course.catalogue import CATALOGUE
from lessons.course.shunt_stub import LESSON
from lessons.grammar.difficulty import DIFFICULTIES, Difficulty
from lessons.grammar.lesson import Work
from lessons.problems.set_files import read_set
from lessons.problems.variants import code_of
from tests.lessons.classes.conftest import TEXT
from tests.lessons.solving import random_problem

NAMES = ("Ada Löwe", "Bea <b>Bold</b> & Co", "4711")
ONE = read_set(TEXT, "week-3.toml", CATALOGUE)
SVG = "{http://www.w3.org/2000/svg}"


def run(folder) -> int:
    """The command on the set and the class list in a folder."""
    files = [str(folder / name) for name in ("week-3.toml", "class.txt", "out")]
    return main(["print", files[0], "--class", files[1], "--into", files[2]])


@pytest.fixture(scope="module")
def printed(tmp_path_factory):
    """Both files, for a class of three."""
    folder = tmp_path_factory.mktemp("paper")
    (folder / "week-3.toml").write_text(TEXT, "utf-8")
    (folder / "class.txt").write_text("\n".join(NAMES), "utf-8")
    assert 0 == run(folder)
    return [(folder / "out" / f"week-3-{name}.html").read_text("utf-8") for name in ("worksheets", "key")]


def pages(text: str) -> list[ElementTree.Element]:
    """The pages of a document, as an XML reader sees them."""
    return [
        ElementTree.fromstring(page) for page in re.findall(r'<svg class="page".*?</svg>', text, re.DOTALL)
    ]


class TestWorksheets:
    def test_two_pages_each(self, printed):
        """Each student has two pages for each problem, in the order of the list and of the set."""
        found = pages(printed[0])
        titles = [page.findtext(f"{SVG}title") or "" for page in found]

        assert len(NAMES) * len(ONE.items) * 2 == len(found)
        assert [code_of("week-3", name) for name in NAMES] == list(
            dict.fromkeys(re.findall(r"Worksheet (\w+)", " ".join(titles)))
        )

    def test_names_are_on_them(self, printed):
        """Each page has its student's name on it, as words whatever is in it."""
        found = pages(printed[0])
        each = len(found) // len(NAMES)

        for index, name in enumerate(NAMES):
            for page in found[index * each : (index + 1) * each]:
                words = [text.text or "" for text in page.iter(f"{SVG}text")]
                assert [one for one in words if one.startswith(name)]

    def test_chart_is_there_once(self, printed):
        """The printed chart stands in the file once, however many pages show it."""
        assert 1 == printed[0].count('<g class="printed">')
        assert len(pages(printed[0])) // 2 == printed[0].count('<use href="#printed-0"/>')

    def test_alone(self, printed):
        """The files load nothing and run nothing."""
        for text in printed:
            assert not re.search(r"<(script|link|img|iframe)|url\(|@import", text)


class TestKey:
    def test_finds_a_variant_by_name(self, printed):
        """Under a student's name stand the variant, what it gives, and the solver's value of every field."""
        for pupil in pupils(ONE, NAMES):
            section = next(
                part
                for part in re.findall(r"<section.*?</section>", printed[1], re.DOTALL)
                if pupil.code in part
            )
            words = unescape(re.sub(r"<[^>]+>", "", section))

            assert words.strip().startswith(f"{pupil.name}: variant {pupil.code}")
            for lesson, problem in pupil.problems:
                work = Work(lesson, problem)
                assert work.say(lesson.brief) in words
                for step in lesson.steps_of(problem):
                    assert [] == [one.key for one in step.fields if work.write(one.key) not in words]

    def test_links_lead_to_names(self, printed):
        """The names at its top lead to them, in the order of the alphabet."""
        links = re.findall(r'<a href="#(s\d+)">(.*?)</a>', printed[1])

        assert [re.escape(name) for name in sorted(NAMES, key=str.casefold)] == [
            re.escape(unescape(name)) for _, name in links
        ]
        assert all(f'id="{place}"' in printed[1] for place, _ in links)


@pytest.mark.parametrize(
    ("text", "names", "said"),
    [
        ("x", "Ada", "week-3.toml: This is not TOML"),
        (TEXT, "", "holds no name"),
        (TEXT, "Ada\nADA", "line 2: ADA is in line 1 already"),
    ],
)
def test_refused(text, names, said, tmp_path, capsys):
    """A bad set or a bad list is refused in a sentence, and nothing is written."""
    (tmp_path / "week-3.toml").write_text(text, "utf-8")
    (tmp_path / "class.txt").write_text(names, "utf-8")

    assert 1 == run(tmp_path)
    assert said in capsys.readouterr().err
    assert not (tmp_path / "out").exists()


class TestAtRandom:
    def sheets(self, folder: Path, *more: str) -> tuple[str, str]:
        """The worksheets and the key of random problems for the class."""
        (folder / "class.txt").write_text("\n".join(NAMES), "utf-8")
        lesson = ["--lesson", LESSON.key, "--class", str(folder / "class.txt"), "--into", str(folder / "out")]
        assert 0 == main(["print", *lesson, *more])
        first, second = (next((folder / "out").glob(f"*-{name}.html")) for name in ("worksheets", "key"))
        return first.read_text("utf-8"), second.read_text("utf-8")

    @pytest.mark.parametrize("difficulty", DIFFICULTIES, ids=lambda one: one.key)
    def test_from_number_and_difficulty(self, difficulty: Difficulty, tmp_path: Path):
        """A number and a difficulty give each name one problem, that of the paper view, on its sheet and in the key."""
        printed, answers = self.sheets(tmp_path, "--seed", "12", "--difficulty", difficulty.key)
        titles = [page.findtext(f"{SVG}title") or "" for page in pages(printed)]

        for number, name in enumerate(NAMES, 12):
            problem = random_problem(number, difficulty=difficulty)
            assert 2 == len([t for t in titles if t.startswith(f"Worksheet {difficulty.after(number)}: ")])
            section = next(
                one for one in answers.split("<section ") if unescape(one).count(f"{name}: worksheet")
            )
            words = unescape(re.sub(r"<[^>]+>", "", section))
            assert f"{name}: worksheet {difficulty.after(number)}" in words
            assert problem.title in words
            assert Work(LESSON, problem).write("length.near") in words

    def test_the_files_say_which(self, tmp_path: Path):
        """The files are called by lesson, number and difficulty, so that the next class's go beside them."""
        self.sheets(tmp_path, "--seed", "12", "--difficulty", "hard")

        assert {"shunt-stub-12-hard-key.html", "shunt-stub-12-hard-worksheets.html"} == {
            path.name for path in (tmp_path / "out").iterdir()
        }

    @pytest.mark.parametrize(
        ("more", "said"),
        [
            ([], "give either the FILE of a set, or --lesson"),
            (["week-3.toml", "--lesson", "shunt-stub"], "give either the FILE of a set, or --lesson"),
            (["week-3.toml", "--difficulty", "hard"], "what a set varies stands in its file"),
            (["--lesson", "shunt-stub", "--difficulty", "fiendish"], "invalid choice: 'fiendish'"),
        ],
    )
    def test_what_does_not_go_together(self, more: list[str], said: str, capsys: pytest.CaptureFixture[str]):
        """A set and random problems are told apart, and a difficulty is one of the three."""
        with pytest.raises(SystemExit, match="2"):
            main(["print", "--class", "class.txt", *more])

        assert said in capsys.readouterr().err

    def test_numbers_that_end_too_soon(self, tmp_path: Path, capsys: pytest.CaptureFixture[str]):
        """A first number that leaves none for the last of the class is refused in a sentence."""
        (tmp_path / "class.txt").write_text("\n".join(NAMES), "utf-8")

        assert 1 == main(
            ["print", "--lesson", "shunt-stub", "--class", str(tmp_path / "class.txt"), "--seed", "999999"]
        )
        assert "from 0 to 999997 for a class of 3" in capsys.readouterr().err
