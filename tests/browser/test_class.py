"""The whole way of a class: a set of ten problems over five lessons is written, checked, served, solved, handed in,
marked, taken to a learning platform, and printed."""

import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from app.__main__ import main
from app.pages import pages
from app.serving.server import Running, serve
from lessons.classes.marks import mark_class
from lessons.classes.stumbles import slips_of
from lessons.course.catalogue import CATALOGUE
from lessons.problems.set_files import read_set
from lessons.problems.sets import Shelf, problems_of, shelf
from lessons.problems.texts import write_problem
from lessons.problems.variants import code_of
from lessons.working.sheet import Sheet
from tests.browser.waits import ready
from tests.lessons.classes.qti_reader import read_package
from tests.lessons.classes.simulated import begun, hand_in, solved, write

LESSONS, EACH, STEPS = 5, 2, 3
PLANTED = {"wrong way": 12, "sign of the reactance lost": 8, "not normalised": 4}
"""Slips by how many of the thirty simulated students make them; the first in the list make all."""
BROWSED = "Zoë from the browser"
VARIED = """[problem.vary]
load = { from = "20-60j", to = "80-20j", step = 5 }
"""


def text() -> str:
    """The set: two problems of each of five lessons, the first of all whole and varied, the others shortened."""
    usual = CATALOGUE.usual
    chosen = [usual, *(one for one in CATALOGUE if one is not usual)][:LESSONS]
    tables = ['key = "all-lessons"\ntitle = "All of it"\nversion = 3\n[points]\nhint = 0.5\n']
    for lesson in chosen:
        for number, problem in enumerate(problems_of(lesson, CATALOGUE)[:EACH]):
            texts = {key: value for key, value in write_problem(problem, lesson).items() if key != "without"}
            whole = lesson is usual and number == 0
            steps = [step.key for step in lesson.steps_of(problem)][:STEPS]
            lines = [
                f'{key} = "{value}"'
                for key, value in {"lesson": lesson.key, "key": problem.key, **texts}.items()
            ]
            lines += [f'title = "{problem.title}"', 'story = "A story."']
            lines += [] if whole else [f"steps = {json.dumps(steps)}"]
            tables.append("[[problem]]\n" + "\n".join(lines) + "\n" + (VARIED if whole else ""))
    return "\n".join(tables)


@pytest.fixture(scope="module")
def sets(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of a teacher's sets."""
    folder = tmp_path_factory.mktemp("sets")
    (folder / "all.toml").write_text(text(), "utf-8")
    return folder


@pytest.fixture(scope="module")
def site(sets: Path) -> Iterator[Running]:
    """The program with the teacher's sets."""
    running = serve(pages(sets=shelf(CATALOGUE, [sets])), port=0, threaded=True)
    assert running is not None
    yield running
    running.stop()


ONE = read_set(text(), "all.toml", CATALOGUE)


def answer_all(page: Page, sheet: Sheet) -> None:
    """Give the solver's answer to every field, as the page asks for it."""
    for step in sheet.steps:
        for one in step.fields:
            entry = page.locator(f'input[data-field="{one.key}"]')
            if one.kind(sheet.truth).names_a_choice:
                page.locator(f'input[data-field="{one.key}"][value="{sheet.truth[one.key]}"]').check()
            else:
                entry.fill(sheet.truth.write(one.key))
            page.locator(f'button[data-focus="check {one.key}"]').click()
    expect(page.locator(".closing")).to_be_visible()


def test_whole_way(page: Page, sets: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    """A set goes from its file to the report, and to a learning platform, and to paper."""
    assert 0 == main(["sets", "check", str(sets / "all.toml")])
    assert (LESSONS, LESSONS * EACH) == (len({one.lesson.key for one in ONE.items}), len(ONE.items))

    by_browser(page, tmp_path / "handed/zoe.json")
    by_simulation(tmp_path / "handed")
    assert 0 == main(["mark", str(tmp_path / "handed"), "--sets", str(sets)])
    assert "31 students, 310 sheets." in capsys.readouterr().out
    planted_slips_are_named(tmp_path / "handed")

    assert 0 == main(["quiz", str(sets / "all.toml"), "--variants", "1", "--into", str(tmp_path)])
    for version in ("2.1", "3.0"):
        items = read_package((tmp_path / f"all-lessons-qti-{version}.zip").read_bytes()).items
        assert len(ONE.items) == len(items)
        assert all(item.most == pytest.approx(item.outcomes(item.correct)["SCORE"]) for item in items)

    (tmp_path / "class.txt").write_text("Ada\nBen\n", "utf-8")
    files = ["--class", str(tmp_path / "class.txt"), "--into", str(tmp_path)]
    assert 0 == main(["print", str(sets / "all.toml"), *files])
    page.goto((tmp_path / "all-lessons-worksheets.html").as_uri())
    sheets = page.locator("svg.page").count()
    assert sheets >= 2 * 2 * len(ONE.items)
    assert sheets == len(re.findall(rb"/Type\s*/Page\b", page.pdf(prefer_css_page_size=True)))


def by_browser(page: Page, file: Path) -> None:
    """One student gives a name on the set's page, solves each problem, and saves the file to hand in."""
    page.goto("/sets?set=all-lessons")
    ready(page)
    page.get_by_label("Your name or number").fill(BROWSED)
    page.get_by_role("button", name="Show my problems").click()
    for item in ONE.items:
        page.get_by_role("link", name=item.problem.title, exact=True).click()
        ready(page)
        answer_all(page, Sheet(item.lesson, ONE.variant(item, code_of(ONE.key, BROWSED))))
        page.locator(".in-set a").first.click()
        ready(page)
    expect(page.get_by_text(f"{len(ONE.items)} of {len(ONE.items)} solved")).to_be_visible()
    with page.expect_download() as saved:
        page.get_by_role("button", name="Save the file to hand in").click()
    file.parent.mkdir()
    saved.value.save_as(file)


def by_simulation(folder: Path) -> None:
    """Thirty students by the teaching names, the first ones with planted slips."""
    for number in range(30):
        name = f"Student {number}"
        slips = [slip for slip, many in PLANTED.items() if number < many]
        sheets = {item.problem.key: solved(begun(ONE, item, name), slips) for item in ONE.items}
        write(folder, f"{number}.json", hand_in(ONE, name, sheets))


def planted_slips_are_named(folder: Path) -> None:
    """The report names them in the order of how many made them; the browser's student made none and solved all."""
    files = [(path.name, path) for path in sorted(folder.glob("*.json"))]
    (marks,), refused = mark_class(files, Shelf((ONE,)), CATALOGUE)
    found = [(one.slip, one.students) for one in slips_of(marks) if one.slip in PLANTED]
    (zoe,) = [student for student in marks.students if student.name == BROWSED]

    assert () == refused
    assert [True] * len(ONE.items) == [sheet.replay.sheet.solved for sheet in zoe.sheets]
    assert not any(step.slips for sheet in zoe.sheets for step in sheet.replay.steps)
    assert all(step.first_time for sheet in zoe.sheets for step in sheet.replay.steps)
    assert list(PLANTED) == list(dict.fromkeys(slip for slip, _ in found))
    assert {slip: max(many for one, many in found if one == slip) for slip in PLANTED} == PLANTED
    report = (folder / "marked/all-lessons/report.html").read_text("utf-8")
    places = [
        report.index(f". {one.doing[:1].upper()}{one.doing[1:]}</h3>".replace("'", "&#x27;"))
        for one in slips_of(marks)
    ]
    assert sorted(places) == places
