"""Worksheets and keys: what stands on them, that nothing gives the answer away, and that all of it is on the page."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from xml.etree import ElementTree

import pytest

from app.parts.vector import shortened, width_of, wrapped
from app.parts.words import CAUTION
from app.parts.worksheet import SIZES, finished_sheet_svg
from app.parts.worksheet import answer_key as key_of
from lessons.course.along_the_line import LESSON as ALONG
from lessons.course.shunt_stub import LESSON
from lessons.course.two_reactances import LESSON as TWO
from lessons.grammar.given_lengths import Stated
from lessons.grammar.notation import Notation
from lessons.grammar.problem import Problem
from lessons.working.sheet import Sheet
from tests.app.reading import SVG, Page, pieces, read
from tests.app.shunt import answer_key, worksheet
from tests.lessons.solving import problem, random_problem, shipped_problems

SEED = 4711
LEAST_MARGIN = (
    10.0  # millimetres that every page keeps white: more than ordinary printers need (common practice)
)
OVERLAY = Notation(admittance="overlay", imaginary="i", angle="radians", length="degrees", decimals=4)
LONG = problem(
    load=123456 - 654321j,
    line=98765.4,
    stub=123.456,
    frequency=123.456789e6,
    velocity=0.66,
    title="A remarkably long title " * 5,
    story="wordwithoutanyspace" * 20 + " and then some more words" * 9,
)
HOSTILE = replace(
    random_problem(3),
    title="</text><script>alert(1)</script>\"'&amp;\x00\x1b\ud800",
    story="]]><image href='x' onerror='y'/>",
)


def pages(svgs: list[str]) -> list[Page]:
    return [read(svg) for svg in svgs]


def said(svgs: list[str]) -> str:
    """All words of all pages, spaces of any kind alike."""
    return " ".join(" ".join(word for page in pages(svgs) for word in page.words()).split())


def task(svgs: list[str]) -> str:
    """Title, story and task: what stands before the chart's first number."""
    words = pages(svgs)[0].words()
    first = next(index for index, word in enumerate(words) if word.startswith("Random problem"))
    return " ".join(words[first : next(at for at in range(first, len(words)) if words[at] in ("0", "0°"))])


def values(svgs: list[str]) -> list[str]:
    """What stands on the lines."""
    return ["".join(one.itertext()) for page in pages(svgs) for one in page.find("text", "value")]


def every_set() -> Iterator[tuple[str, list[str]]]:
    """Sheets and keys of every kind, size, notation and length."""
    for size in SIZES:
        for name, given in (
            ("random", random_problem(SEED)),
            ("shipped", shipped_problems()[-1]),
            ("long", LONG),
        ):
            for kind, notation in (("half turn", Notation()), ("overlay", OVERLAY)):
                for drawn in ("blank", "half"):
                    sheet = worksheet(given, notation, size=size, drawn=drawn, seed=SEED)
                    yield f"{size} {name} {kind} {drawn}", sheet
                yield f"{size} {name} {kind} key", answer_key(given, notation, size=size, seed=SEED)


SETS = dict(every_set())


class TestWorksheet:
    def test_asks_every_step(self):
        """A blank sheet has every step's title and question, and a line or a box for every answer."""
        problem = shipped_problems()[-1]
        sheet = worksheet(problem)
        work = Sheet(LESSON, problem).truth
        text = said(sheet)
        for step in LESSON.steps_of(problem):
            assert step.title in text
            assert " ".join(work.say(step.ask).split()) in text
            for field in step.fields:
                assert work.say(field.label).split(":")[0] in text

    def test_blank_gives_nothing_away(self):
        """A blank sheet has no value, no tick and no stroke, neither to be seen nor to be read aloud."""
        sheet = worksheet(random_problem(SEED))
        answers = {text for text in values(answer_key(random_problem(SEED))) if len(text) > 5}

        assert [] == values(sheet)
        assert not any(page.find("path", "ticked") or page.find("g", "labels") for page in pages(sheet))
        assert not any(answer in svg for answer in answers for svg in sheet)

    def test_half_is_the_first_half(self):
        """A part-drawn sheet has the values and strokes of the first half of the steps, and the others' lines empty."""
        problem = random_problem(SEED)
        steps = LESSON.steps_of(problem)
        half, whole = worksheet(problem, drawn="half"), values(answer_key(problem))

        assert values(half) == whole[: len(values(half))]
        assert len(steps) // 2 == sum(step.title in said(half) for step in steps[: len(steps) // 2])
        assert pages(half)[0].find("path", "curve", "mismatch")
        assert [] == pages(half)[0].find("path", "way")

    def test_seed_and_caution(self):
        """Each sheet says its number on every page, has lines for name and date, and the caution in small print."""
        sheet = worksheet(random_problem(SEED), seed=SEED)

        assert all(f"Worksheet {SEED}" in page.words() for page in pages(sheet))
        assert {"Name", "Date"} <= set(pages(sheet)[0].words())
        assert CAUTION in said(sheet)

    def test_one_sheet_of_paper(self):
        """Every problem that comes with the program, and a class of random ones, fit on two pages, key and sheet."""
        for size in SIZES:
            for given in (*shipped_problems(), *(random_problem(seed) for seed in range(5))):
                assert 2 == len(worksheet(given, size=size)) == len(answer_key(given, size=size))

    @pytest.mark.parametrize("problem", [
        pytest.param(problem(50 + 0j), id="matched"), pytest.param(problem(30j), id="purely reactive"),
    ])  # fmt: skip
    def test_nothing_to_solve(self, problem: Problem):
        """A load that needs no match, or can have none, still has its point and circle drawn, and the sentence why."""
        sheet = worksheet(problem)
        chart, steps = pages(sheet)

        assert chart.find("path", "marker", "load")
        assert chart.find("path", "curve", "mismatch") or problem["load"] == problem["line"]
        assert LESSON.steps[0].title in steps.words()
        assert 2 == said(sheet).count(LESSON.refuses(problem)[:40])

    def test_size_that_does_not_exist(self):
        """A page of another size is an error of the caller."""
        with pytest.raises(KeyError, match="A5"):
            worksheet(random_problem(SEED), size="A5")


class TestKey:
    @pytest.mark.parametrize("seed", [0, SEED, 999_999])
    @pytest.mark.parametrize("notation", [Notation(), OVERLAY], ids=["standard", "overlay"])
    def test_matches_its_sheet(self, seed: int, notation: Notation):
        """Sheet and key of a seed share number and problem, and the key holds the solver's value of every field."""
        problem = random_problem(seed)
        sheet, key = worksheet(problem, notation, seed=seed), answer_key(problem, notation, seed=seed)
        truth = Sheet(LESSON, problem, notation).truth
        written = [truth.write(f.key) for s in LESSON.steps_of(problem) for f in s.fields]
        options = [text for text in written if text not in values(key)]

        assert f"Key to worksheet {seed}" in pages(key)[0].words()
        assert f"Worksheet {seed}" in pages(sheet)[0].words()
        assert task(sheet) == task(key)
        assert problem.title in task(key)
        assert all(option in said(key) for option in options)
        assert len(written) - len(options) == len(values(key))

    @pytest.mark.parametrize("load", [25 - 35j, 140 - 70j], ids=["four solutions", "two"])
    def test_no_value_is_cut(self, load: complex):
        """Of two reactances, which ask four values in a step, the key holds every value whole."""
        given = problem(load, 50.0, TWO, frequency=434e6)
        truth = Sheet(TWO, given).truth
        asked = [one for step in TWO.steps_of(given) for one in step.fields]
        written = [truth.write(one.key) for one in asked if not one.kind(truth).names_a_choice]

        assert written == values(key_of(TWO, given))

    def test_ticks_the_right_options(self):
        """In the key each choice has the box of the solver's answer ticked, and no other."""
        problem = random_problem(SEED)
        key = pages(answer_key(problem))[1]
        truth = Sheet(LESSON, problem).truth
        chosen = [
            truth.write(key)
            for key in ("unit_circle", "start.point", "start.sense", "choose.which", "choose.why")
        ]
        bold = [word for word in key.words() if word in chosen]

        assert chosen == bold
        assert len(chosen) == len(key.find("path", "ticked"))

    def test_draws_everything(self):
        """The key's chart has every role, and a legend that names them without colour."""
        first = pages(answer_key(random_problem(SEED)))[0]

        assert {"load", "constant-mismatch circle", "unit circle", "near solution", "far solution"} <= set(
            first.words()
        )
        for role in ("mismatch", "unit", "first", "second"):
            assert first.find("path", role, within="lines")

    def test_legend_names_the_end_that_is_known(self):
        """Where the walk begins at the input, the square in the legend is not called the load."""
        back = ALONG.problem({"input": 30 - 20j, "line": 50.0, "along": Stated(0.2, "wavelengths")})
        words = pages(key_of(ALONG, back))[0].words()

        assert "input" in words
        assert "load" not in words

    def test_says_what_the_design_achieves(self):
        """The key ends with the standing-wave ratio that the lengths achieve."""
        assert "standing-wave ratio of 1.00 (near) and 1.00 (far)" in said(answer_key(random_problem(SEED)))


class TestFinishedSheet:
    def test_student_s_own_entries_with_verdicts(self):
        """A student's sheet prints what was entered, with the sign of its verdict; what is open stays a line."""
        problem = shipped_problems()[0]
        sheet = (
            Sheet(LESSON, problem).enter("normalise", "0.6 - j1").enter("place", "0.3 ∠ 10°").carry("place")
        )
        sheet = sheet.reveal("mismatch")

        assert ["0.6 - j1 ✓", "0.3 ∠ 10° ✗ (carried)"] == values(finished_sheet_svg(sheet))[:2]
        assert values(finished_sheet_svg(sheet))[2].endswith("(shown)")
        assert 3 == len(values(finished_sheet_svg(sheet)))

    def test_choice_of_the_student(self):
        """A choice of the student's is ticked and judged."""
        sheet = Sheet(LESSON, shipped_problems()[0]).enter("unit_circle", "axis")
        page = pages(finished_sheet_svg(sheet))[1]

        assert 1 == len(page.find("path", "ticked"))
        assert "The circle ✗" in page.words()

    def test_long_entries_are_cut_to_their_line(self):
        """An entry of two hundred characters does not run over its line."""
        sheet = Sheet(LESSON, shipped_problems()[0]).enter("normalise", "9" * 200)
        (value,) = values(finished_sheet_svg(sheet))

        assert value.endswith("…")
        assert len(value) < 40


class TestEveryPage:
    @pytest.mark.parametrize("name", SETS)
    def test_inside_the_page(self, name: str):
        """No line, box or word of any page comes nearer to its edge than the margin."""
        for page in pages(SETS[name]):
            width, height = page.size
            for x, y in _places(page):
                assert LEAST_MARGIN <= x <= width - LEAST_MARGIN
                assert LEAST_MARGIN <= y <= height - LEAST_MARGIN

    @pytest.mark.parametrize("name", SETS)
    def test_words_do_not_run_into_each_other(self, name: str):
        """No two upright words cover each other, but for a label and its halo."""
        for page in pages(SETS[name]):
            boxes = [_box(one) for one in _upright(page)]
            for index, (text, left, right, base, size) in enumerate(boxes):
                for other, others_left, others_right, others_base, _ in boxes[:index]:
                    if text != other and abs(base - others_base) < 0.7 * size:
                        assert right <= others_left + 0.3 or others_right <= left + 0.3, (text, other)

    def test_hostile_words_stay_words(self):
        """Markup, quotes and characters that XML forbids come out as text, or as a replacement, never as markup."""
        for svgs in (worksheet(HOSTILE), answer_key(HOSTILE)):
            for page in pages(svgs):
                assert {one.tag.removeprefix(SVG) for one in page.root.iter()} <= {
                    "svg", "title", "desc", "rect", "g", "path", "line", "circle", "text", "tspan",
                }  # fmt: skip
                assert not any(name.startswith("on") for one in page.root.iter() for name in one.attrib)
        assert "</text><script>alert(1)</script>\"'&amp;\ufffd\ufffd\ufffd" in said(worksheet(HOSTILE))

    def test_sizes(self):
        """A4 is 210 by 297 millimetres (ISO 216), Letter 8.5 by 11 inches (ANSI/ASME Y14.1), both from memory."""
        assert (210, 297) == read(SETS["A4 random half turn blank"][0]).size
        assert (8.5 * 25.4, 11 * 25.4) == pytest.approx(read(SETS["Letter random half turn blank"][0]).size)

    def test_large_enough_for_ruler_and_compass(self):
        """Every usual sheet's chart has a radius of at least 70 mm, so that 0.002 wavelength is 1.75 mm or more."""
        radii = [read(svgs[0]).rim[2] for name, svgs in SETS.items() if "long" not in name]

        assert min(radii) >= 70
        assert all(min(radii) <= 75 for _ in radii)

    def test_pages_are_numbered(self):
        """The title of each page, which is read aloud, says which page of how many it is."""
        titles = [page.root.findtext(f"{SVG}title", "") for page in pages(SETS["A4 random overlay key"])]

        assert ["page 1 of 2", "page 2 of 2"] == [title.rpartition(", ")[2] for title in titles]


class TestWords:
    def test_wrapped(self):
        """Words fall into lines no wider than they may be, and none is lost."""
        story = shipped_problems()[0].story
        lines = wrapped(story, 3, 40)

        assert story.split() == " ".join(lines).split()
        assert all(width_of(one, 3) <= 40 for one in lines)
        assert len(lines) > 3

    def test_numbers_keep_together(self):
        """No line ends within a complex number or before its unit."""
        lines = wrapped("Match a load of 30 − j50 Ω", 3, 30)

        assert ["Match a load of", "30 − j50 Ω"] == lines

    def test_long_word_is_cut(self):
        """A word longer than a line goes on in the next."""
        assert "x" * 50 == "".join(wrapped("x" * 50, 3, 20))

    def test_shortened(self):
        """What has no room is left out, and an ellipsis says so within the width."""
        (line,) = shortened("a long title that has no room here", 3, 30)

        assert line.endswith("…")
        assert width_of(line, 3) <= 30
        assert ["short"] == shortened("short", 3, 30)


def _places(page: Page) -> Iterator[tuple[float, float]]:
    """Corners of everything on a page but the white ground; of words, as wide as they can be."""
    for one in page.root.iter():
        tag, at = one.tag.removeprefix(SVG), one.attrib
        if tag == "line":
            yield from ((float(at[f"x{end}"]), float(at[f"y{end}"])) for end in (1, 2))
        elif tag == "path" and "transform" not in at:
            yield from (place for stroke in _strokes(one) for place in stroke)
        elif tag == "circle":
            x, y, radius = (float(at[name]) for name in ("cx", "cy", "r"))
            yield from ((x - radius, y - radius), (x + radius, y + radius))
    for _, left, right, base, size in map(_box, _upright(page)):
        yield from ((left, base - size), (right, base + 0.25 * size))


def _strokes(path: ElementTree.Element) -> list[list[tuple[float, float]]]:
    """The strokes of a path; of a small circle of a marker only where it begins."""
    if "a" in path.attrib["d"]:
        first = re.findall(r"-?[\d.]+", path.attrib["d"])[:2]
        return [[(float(first[0]), float(first[1]))]]
    return pieces(path)


def _upright(page: Page) -> list[ElementTree.Element]:
    """Words that are not turned: all but the numbers of the chart and the labels along the rim."""
    moved = {id(word) for group in page.find("g") if "transform" in group.attrib for word in group.iter()}
    return [
        one
        for one in page.root.iter(SVG + "text")
        if "transform" not in one.attrib and id(one) not in moved and not one.attrib.get("aria-hidden")
    ]


def _box(one: ElementTree.Element) -> tuple[str, float, float, float, float]:
    """Text, left, right, baseline and size of some words, as wide as they can be."""
    text, size = "".join(one.itertext()), float(one.attrib["font-size"])
    parts = [(one.text, size), *((span.text, float(span.get("font-size", size))) for span in one)]
    parts += [(span.tail, size) for span in one]
    width = sum(width_of(part or "", letters, bold="font-weight" in one.attrib) for part, letters in parts)
    left = (
        float(one.attrib["x"])
        - {"start": 0.0, "middle": width / 2, "end": width}[one.attrib.get("text-anchor", "start")]
    )
    return text, left, left + width, float(one.attrib["y"]), size
