"""A set as a quiz: read by an independent reader, it says of the same answers what the tutor says."""

import os
import re
import shutil
import subprocess
import zipfile
from dataclasses import replace
from pathlib import Path

import pytest

from app.__main__ import main
from app.parts.worksheet_chart import blank_chart_svg
from lessons.classes.packages import package, quiz_of
from lessons.classes.qti import boxes
from lessons.classes.quiz import quiz_item
from lessons.classes.regions import as_typed
from lessons.course.catalogue import CATALOGUE
from lessons.grammar.lesson import Work
from lessons.problems.problem_sets import SetProblem
from lessons.problems.set_files import read_set
from lessons.problems.variants import code_of
from lessons.working.marking import mark, predicted_all
from tests.lessons.classes.conftest import TEXT
from tests.lessons.classes.qti_reader import Item, read_package
from tests.toys import TOYS

ONE = read_set(
    TEXT.replace("steps = [", "frequency = 868e6\n#").replace("[points]\nhint = 0.25", ""),
    "week-3.toml",
    CATALOGUE,
)
QUIZ = quiz_of(ONE, 1)
CHART = blank_chart_svg()
PACKAGES = {version: package(QUIZ, version, CHART) for version in ("2.1", "3.0")}
SCHEMA, CONVERTER = (
    os.environ.get("HALFTURN_QTI_SCHEMA"),
    os.environ.get("HALFTURN_QTI_CONVERT") or shutil.which("qti-convert"),
)
NEAR_EDGE = 2e-4  # of a tolerance: nearer to its edge than this, rounding may decide


ITEMS = {version: read_package(content).items for version, content in PACKAGES.items()}


def truth_of(number: int) -> Work:
    """The solver's derivation of an item's problem."""
    item = ONE.items[number]
    return Work(item.lesson, ONE.variant(item, code_of(ONE.key, "quiz 1") if item.vary else ""))


def asked() -> list:
    """Each question of the quiz, with the number of its item and the name of its response."""
    return [
        pytest.param(number, question, f"R{place}", id=f"{quiz.key}-{question.key}")
        for number, quiz in enumerate(QUIZ.items)
        for place, question in enumerate((q for step in quiz.steps for q in step.questions), 1)
    ]


def answers(name: str, question, value) -> dict:
    """A value as answers to the boxes of a question."""
    if question.asked == "choice":
        return {name: f"c-{re.sub(r'[^A-Za-z0-9-]', '-', value)}"}
    parts = (value.real, value.imag) if question.asked == "complex" else (float(value),)
    return dict(zip(boxes(question, name), parts, strict=True))


def tried(field, truth: Work) -> list:
    """Answers of all kinds: right ones, some a little and some far off, what slips give and what lies about it."""
    kind = field.kind(truth)
    if kind.names_a_choice:
        return [key for key, _ in kind.options]
    value = truth[field.key]
    slips = [one for slip in field.slips for one in predicted_all(slip, truth)]
    found = []
    for middle in (value, *slips):
        ways = (1, -0.6 + 0.8j) if isinstance(value, complex) else (1, -1)
        size = 1e-3 * max(abs(middle), 0.1)
        found += [middle + way * size * 1.7**power for way in ways for power in (2, 5, 8)]
        found.append(middle)
    half = {"wavelengths": 0.5, "millimetres": (truth.wavelength_mm or 0) / 2}.get(kind.length_in)
    return found + ([value + half, value + half * 1.004, value + 3 * half] if half else [])


def is_at_an_edge(field, truth: Work, value) -> bool:
    """Whether rounding may decide."""
    kind, accuracy = field.kind(truth), truth.problem.accuracy
    off = kind.off_by(value, truth[field.key], accuracy)
    return any(abs(off - edge) < NEAR_EDGE * edge for edge in (1, 2))


class TestAsTheTutor:
    @pytest.mark.parametrize(("number", "question", "name"), asked())
    def test_same_answers(self, number, question, name):
        """An answer is right in the quiz just where the tutor accepts it, and a slip that it names is the tutor's."""
        item, truth = ITEMS["2.1"][number], truth_of(number)
        field, picking = truth.lesson.field(question.key), truth.lesson.picking_field
        names = [q.key for step in QUIZ.items[number].steps for q in step.questions]
        picked = {}
        if picking and picking.key in names and field is not picking:
            picked = {f"R{names.index(picking.key) + 1}": f"c-{truth[picking.key]}"}
        before = item.outcomes(picked)["SCORE"]
        foreseen = {one.sentence: one for one in question.foreseen}
        named = set()
        for value in tried(field, truth):
            if question.asked != "choice" and is_at_an_edge(field, truth, value):
                continue
            text = value if isinstance(value, str) else as_typed(value)
            verdict = mark(field, text, truth, truth)
            outcomes = item.outcomes({**picked, **answers(name, question, value)})
            said = item.feedback[f"F{name}", outcomes[f"F{name}"]]

            assert verdict.accepted == (outcomes["SCORE"] > before), (text, verdict)
            if said in foreseen:
                same = (foreseen[said].slip, foreseen[said].right)
                assert (verdict.slip, verdict.accepted) == same, (text, said)
                named.add(verdict.slip)
        assert named - {""} or not any(one.slip for one in question.foreseen)

    def test_both_versions_judge_alike(self):
        """Both versions come to the same outcomes for the same answers."""
        for one, other in zip(ITEMS["2.1"], ITEMS["3.0"], strict=True):
            for some in ({}, one.correct, dict.fromkeys(one.declared, 0.3)):
                assert one.outcomes(some) == other.outcomes(some)
                assert one.shown(some) == other.shown(some)

    def test_right_answers(self):
        """The declared right answers earn the whole score, in both versions."""
        for items in ITEMS.values():
            for item in items:
                assert item.most == pytest.approx(item.outcomes(item.correct)["SCORE"])

    def test_nothing_entered(self):
        """Where nothing is entered nothing is earned, and that is said."""
        for item in ITEMS["2.1"]:
            assert 0 == item.outcomes({})["SCORE"]
            assert {"Nothing was entered."} == set(item.shown({}))


class TestPackage:
    def test_both_versions_ask_alike(self):
        """Both versions ask the same in the same words."""
        words = [
            [" ".join(" ".join(item.root.itertext()).split()) for item in items] for items in ITEMS.values()
        ]

        assert words[0] == words[1]

    def test_chart(self):
        """Each item shows the chart, a picture that lies in the package, with its words."""
        read = read_package(PACKAGES["2.1"])
        for item in read.items:
            (img,) = item.root.iter("img")
            assert ("../chart.svg", True) == (img.get("src"), bool(img.get("alt")))
        assert read.files["chart.svg"].startswith(b"<svg")

    def test_one_variant_by_lot(self):
        """Of several variants of a problem each student gets one; each has its own numbers, fixed."""
        quiz = quiz_of(replace(ONE, items=ONE.items[:1]), 2)
        read = read_package(package(quiz, "2.1", CHART))
        (section,) = read.test.iter("assessmentSection")

        assert "1" == section.find("selection").get("select")  # type: ignore[union-attr]
        assert 2 == len(read.items)
        assert read.items[0].correct != read.items[1].correct

    def test_the_same_bytes(self):
        """One set gives one package, byte for byte."""
        assert PACKAGES["3.0"] == package(quiz_of(ONE, 1), "3.0", CHART)

    def test_of_other_kinds(self):
        """A lesson that the program does not have makes a quiz like any other."""
        for toy in TOYS:
            problem = toy.problem()
            quiz = quiz_item(SetProblem(problem, toy), "toy", Work(toy, problem), None)
            questions = [question for step in quiz.steps for question in step.questions]

            assert len(questions) == sum(len(step.fields) for step in toy.steps_of(problem))
            assert all(any(one.right for one in question.foreseen) for question in questions)

    def test_command(self, tmp_path, capsys):
        """The command writes both packages, and says what a quiz cannot do."""
        (tmp_path / "week-3.toml").write_text(TEXT, "utf-8")

        assert 0 == main(["quiz", str(tmp_path / "week-3.toml"), "--variants", "1", "--into", str(tmp_path)])
        assert "it cannot follow a student's earlier values" in capsys.readouterr().out
        for version in ("2.1", "3.0"):
            assert 2 == len(read_package((tmp_path / f"week-3-qti-{version}.zip").read_bytes()).items)

    def test_bad_set(self, tmp_path, capsys):
        """A bad set is refused by line and key."""
        (tmp_path / "week-3.toml").write_text(TEXT.replace("version = 2", "version = 0"), "utf-8")

        assert 1 == main(["quiz", str(tmp_path / "week-3.toml")])
        assert "week-3.toml, line 3, version" in capsys.readouterr().err


def valid(files: dict[str, bytes]) -> list[str]:
    """What the specification's schema finds wrong with the items and the test of a package."""
    etree = pytest.importorskip("lxml.etree")
    schema = etree.XMLSchema(etree.parse(SCHEMA, etree.XMLParser(no_network=True)))
    return [
        f"{name}: {schema.error_log.last_error}"
        for name, content in files.items()
        if name.endswith(".xml")
        and "manifest" not in name
        and not schema.validate(etree.fromstring(content).getroottree())
    ]


@pytest.mark.skipif(not SCHEMA, reason="HALFTURN_QTI_SCHEMA names no schema of QTI 2.1.")
def test_schema():
    """The package of 2.1 is valid by the specification's own schema."""
    assert [] == valid(read_package(PACKAGES["2.1"]).files)


@pytest.mark.skipif(not (SCHEMA and CONVERTER), reason="There is no converter of QTI 3.0 here, or no schema.")
def test_converted_down(tmp_path):
    """The package of 3.0, converted down by an independent converter, is valid 2.1, and judges as ours does."""
    (tmp_path / "three.zip").write_bytes(PACKAGES["3.0"])
    subprocess.run(
        [str(CONVERTER), "downgrade", "three.zip", "two.zip"], cwd=tmp_path, check=True, capture_output=True
    )
    with zipfile.ZipFile(Path(tmp_path) / "two.zip") as archive:
        files = {name: archive.read(name) for name in archive.namelist()}
    ours = read_package(PACKAGES["2.1"])

    assert [] == valid(files)
    for name, content in files.items():
        if name.startswith("items/"):
            theirs, own = Item(content), Item(ours.files[name])
            assert theirs.outcomes(theirs.correct) == own.outcomes(own.correct)
            assert theirs.shown(theirs.correct) == own.shown(own.correct)
