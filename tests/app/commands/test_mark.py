"""`halfturn mark`: a folder of hand-ins becomes a table, two reports and a sheet of feedback for each student."""

import csv
import re
from collections import Counter
from html.parser import HTMLParser
from pathlib import Path

import pytest

from app.__main__ import main
from app.commands.class_list import read_class_list
from app.commands.mark import slug
from lessons.course.catalogue import CATALOGUE
from lessons.grammar.lesson import Work
from lessons.problems.set_files import read_set
from lessons.saved.spreadsheet import separated
from tests.lessons.classes.conftest import TEXT
from tests.lessons.classes.simulated import begun, hand_in, solved, write

PLANTED = ("wrong way", "sign of the reactance lost", "not normalised")
HOW_MANY = (6, 4, 2)
HOSTILE = "<img src=x onerror=alert(1)> ../../=cmd"
ONE = read_set(TEXT, "week-3.toml", CATALOGUE)


@pytest.fixture(scope="module")
def folder(tmp_path_factory) -> Path:
    """A class of nine whose first students make planted slips, one of them hostile; marked."""
    folder = tmp_path_factory.mktemp("handed")
    (folder / "week-3.toml").write_text(TEXT, "utf-8")
    for number in range(8):
        slips = [slip for slip, many in zip(PLANTED, HOW_MANY, strict=True) if number < many]
        name = HOSTILE if number == 0 else f"Student {number}"
        sheets = {item.problem.key: solved(begun(ONE, item, name), slips) for item in ONE.items}
        write(folder, f"sub/{number}.json", hand_in(ONE, name, sheets))
    item = ONE.items[0]
    open_one = solved(begun(ONE, item, "Helped"), upto="crossing").hint("crossing").hint("crossing")
    write(folder, "helped.json", hand_in(ONE, "Helped", {"varied": open_one}))
    write(folder, "broken.json", "{")
    (folder / "class.txt").write_text(f"{HOSTILE}\nStudent 1\nMissing Mary\n", "utf-8")
    assert 0 == main(["mark", str(folder), "--class", str(folder / "class.txt")])
    return folder


class Reader(HTMLParser):
    """An independent reader of a page: its tags, and its words."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.tags: Counter[str] = Counter()
        self.attributes: list[tuple[str, str | None]] = []
        self.words: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        self.tags[tag] += 1
        self.attributes += attrs

    def handle_data(self, data):
        self.words.append(data)


def page(folder: Path, name: str = "report.html") -> Reader:
    """A page that was written, read."""
    return Reader((folder / "marked/week-3" / name).read_text("utf-8"))


class TestTable:
    def rows(self, folder: Path) -> list[dict[str, str]]:
        """The table as any reader of CSV sees it."""
        with (folder / "marked/week-3/marks.csv").open(encoding="utf-8", newline="") as file:
            return list(csv.DictReader(file))

    def test_a_row_a_student_and_step(self, folder):
        """There is a row for each student and step of each sheet."""
        steps = [len(item.lesson.steps_of(item.problem)) for item in ONE.items]

        assert 8 * sum(steps) + steps[0] == len(self.rows(folder))

    def test_what_was_planted(self, folder):
        """Slips stand in the rows of those who made them, and of nobody else."""
        made = {(row["name"], slip) for row in self.rows(folder) for slip in row["slip names"].split("; ")}

        for slip, many in zip(PLANTED, HOW_MANY, strict=True):
            assert many == len([who for who, what in made if what == slip])

    def test_right_first_time(self, folder):
        """A step is right first time just where nothing was planted and no hint was taken."""
        for row in self.rows(folder):
            clean = (
                row["slips"] == row["hints"] == row["wrong without a slip"] == "0" and row["done"] == "yes"
            )
            assert ("yes" if clean else "no") == row["right first time"]

    def test_points(self, folder):
        """A step right at the end is worth a point, less a quarter for each hint; one not done nothing."""
        points = {
            row["points"] for row in self.rows(folder) if row["name"] == "Helped" and row["done"] == "no"
        }

        assert {"0"} == points
        assert {"1"} == {row["points"] for row in self.rows(folder) if row["name"] == "Student 7"}

    def test_no_formula(self, folder):
        """A name that a spreadsheet would take for a formula is none in the table."""
        assert "'=1+1\r\n" == separated([["=1+1"]])
        assert [] == [
            cell for row in self.rows(folder) for cell in row.values() if cell.startswith(("=", "@"))
        ]


class TestReport:
    def test_planted_slips_in_order(self, folder):
        """The planted slips stand in the order of how many students made them, each with the tutor's own words."""
        words = "\n".join(page(folder).words)
        places = [
            words.index(said)
            for said in ("Walking toward the load, counter-clockwise", "Losing the sign of the reactance",
                         "Leaving the load in ohms")
        ]  # fmt: skip

        assert sorted(places) == places
        item = ONE.items[0]
        (slip,) = [one for one in item.lesson.field("distance.near").slips if one.key == PLANTED[0]]
        assert Work(item.lesson, item.problem).say(slip.remedy) in words

    def test_three_sheets(self, folder):
        """No slip shows more than three sheets, one a student where there are as many."""
        text = (folder / "marked/week-3/report.html").read_text("utf-8")
        shown = [article.count("<blockquote>") for article in re.findall(r"<article>.*?</article>", text)]

        assert 3 == max(shown)
        assert min(shown) >= 1

    def test_self_contained(self, folder):
        """It loads nothing from anywhere and runs no script."""
        for name in ("report.html", "report-without-names.html"):
            read = page(folder, name)

            assert not {"script", "link", "iframe", "img", "object"} & set(read.tags)
            assert [] == [
                v for k, v in read.attributes if k in ("href", "src") and not (v or "").startswith("#")
            ]

    def test_hostile_name_is_only_words(self, folder):
        """A name with markup in it stands there as words, in the report and on its owner's feedback."""
        (file,) = [p for p in (folder / "marked/week-3/feedback").iterdir() if "cmd" in p.name]

        assert HOSTILE in "".join(page(folder).words)
        assert HOSTILE in "".join(Reader(file.read_text("utf-8")).words)
        assert re.fullmatch(r"\d{3}-[a-z0-9-]+\.html", file.name)

    def test_without_names(self, folder):
        """The form to be projected names no student and no file."""
        words = "".join(page(folder, "report-without-names.html").words)
        with_names = "".join(page(folder).words)

        for name in (HOSTILE, "Student 1", "Helped", "Missing Mary", ".json"):
            assert name in with_names
            assert name not in words

    def test_reads_aloud(self, folder):
        """Each drawing is said in words as well, and its numbers stand in a table."""
        read = page(folder)

        assert {"img"} == {value for key, value in read.attributes if key == "role" and value != "region"}
        assert read.tags["title"] == 1 + read.tags["svg"]
        assert read.tags["table"] == 2

    def test_who_is_missing(self, folder):
        """Names of the class list who handed in nothing are listed, and a damaged file has its sentence."""
        words = "".join(page(folder).words)

        assert re.search(r"Nothing came from 1 name of the class list\s*Missing Mary\s*Files", words)
        assert "class.txt" not in words
        assert "broken.json: The file is damaged" in words


class TestFeedback:
    def test_one_each(self, folder):
        """Each student has a sheet of feedback, which names nobody else."""
        files = sorted((folder / "marked/week-3/feedback").iterdir())
        pages = ["".join(Reader(file.read_text("utf-8")).words) for file in files]

        assert 9 == len(files)
        for number in range(1, 8):
            assert 1 == sum(f"Student {number}" in words for words in pages)

    def test_what_it_says(self, folder):
        """It has what was entered, what the tutor said on the way, and the points."""
        (file,) = [p for p in (folder / "marked/week-3/feedback").iterdir() if "helped" in p.name]
        words = "".join(Reader(file.read_text("utf-8")).words)

        assert re.search(r"\d+ of \d+ points for what was handed in", words)
        assert "Not handed in: A loop." in words
        assert "With 2 of 4 hints." in words
        assert "nothing entered" in words


class TestCommand:
    def test_again(self, folder, capsys):
        """Marked again, what was written before is not taken for hand-ins."""
        assert 0 == main(["mark", str(folder)])
        assert "9 students, 17 sheets" in capsys.readouterr().out

    @pytest.mark.parametrize(
        ("arguments", "said"),
        [
            (["{0}/gone"], "is no folder"),
            (["{0}"], "No hand-in was marked"),
            (["{0}", "--class", "{0}/no"], "cannot be read"),
        ],
    )
    def test_nothing_there(self, arguments, said, tmp_path, capsys):
        """Where there is nothing to mark the command says so and ends with 1."""
        assert 1 == main(["mark", *(one.format(tmp_path) for one in arguments)])
        assert said in capsys.readouterr().err

    def test_a_bad_set_beside_them(self, tmp_path, capsys):
        """A bad set in the folder is said by line and key before anything is marked."""
        (tmp_path / "bad.toml").write_text(TEXT.replace("version = 2", "version = 0"), "utf-8")

        assert 1 == main(["mark", str(tmp_path)])
        assert "bad.toml, line 3, version" in capsys.readouterr().err

    @pytest.mark.parametrize(
        ("name", "file"),
        [("Ada Löwe", "ada-lowe"), ("../..", "student"), ("李", "student"), ("A" * 80, "a" * 40)],
    )
    def test_slug(self, name, file):
        """A name becomes part of a file's name on any system."""
        assert file == slug(name)


class TestClassList:
    @pytest.mark.parametrize(
        ("text", "said"),
        [
            ("Ada\n\nADA\n", r"line 3: ADA is in line 1 already"),
            ("", "holds no name"),
            ("...\n", "line 1: a name has a letter"),
        ],
    )
    def test_faults(self, text, said, tmp_path):
        """A list with one name twice, with none, or with what is none is refused by its line."""
        file = tmp_path / "class.txt"
        file.write_text(text, "utf-8")

        with pytest.raises(ValueError, match=said):
            read_class_list(file)

    def test_read(self, tmp_path):
        """Names stand one a line; empty lines and remarks are left out."""
        file = tmp_path / "class.txt"
        file.write_text("\ufeff# group A\nAda  Löwe\r\n\n4711\n", "utf-8")

        assert ("Ada Löwe", "4711") == read_class_list(file)
