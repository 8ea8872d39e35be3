"""Worksheets, their keys and finished sheets as vector pages: made from the one lesson, to print, write and draw on.

The first page holds the problem and a chart large enough for ruler and compass; the next the steps, each with its
question, room to work it, and a line for every value.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from app.parts.messages.shared import ProblemWords
from app.parts.printed_chart.layouts import PRINT
from app.parts.vector import LINE, document, line, shortened, text, width_of, wrapped
from app.parts.vector_chart import Place
from app.parts.words import CAUTION, problem_words
from app.parts.worksheet_chart import (
    BODY,
    FINE,
    LARGEST_RADIUS,
    MARGIN,
    RADIAL_HEIGHT,
    SIZES,
    chart_svg,
    drawn_chart,
    headline,
)
from app.parts.worksheet_steps import (
    INK,
    QUIET,
    Block,
    Working,
    block_height,
    drawn_block,
    in_columns,
    step_blocks,
)
from lessons.grammar.lesson import Lesson
from lessons.grammar.notation import STANDARD, Notation
from lessons.grammar.problem import Problem
from lessons.working.achieved import closing
from lessons.working.refused import worked_to_the_end
from lessons.working.sheet import Sheet

__all__ = [
    "DRAWINGS",
    "SIZES",
    "answer_key",
    "chart_svg",
    "finished_sheet_svg",
    "worksheet",
]

DRAWINGS = ("blank", "half")
SMALLEST_RADIUS = 55.0
HEAD, FOOT = 9.0, 5.0
USUAL_HEADLINE = 30.0  # room for title, story and task, so that the charts of a whole class are of one size
GUTTER, COLUMNS = 7.0, 2
WORKINGS = tuple(
    Working(lines, lines * apart)
    for lines in (3, 2, 1)
    for apart in (8.5, 8.0, 7.5, 7.0, 6.5, 6.0, *((5.5, 5.0) if lines == 1 else ()))
) + tuple(Working(0, height) for height in (5.0, 4.0, 3.0, 2.0, 1.0, 0.0))
"""Room to work in, the best first: ruled lines as far apart as they can be, then white space alone."""


def worksheet(
    lesson: Lesson,
    problem: Problem,
    notation: Notation = STANDARD,
    *,
    size: str = "A4",
    drawn: str = "blank",
    seed: int | str | None = None,
    name: str = "",
) -> list[str]:
    """Pages to work a problem on.

    size : one of SIZES.  drawn : "blank", or "half" where the first half is worked and drawn already.
    seed : the number or the variant that the sheet and its key share.  name : whose it is, where that is known.
    A problem that the lesson refuses is worked and drawn to where it ends, with the sentence why.
    Raises KeyError for a size or drawing that does not exist."""
    sheet = Sheet(lesson, problem, notation)
    shown = {"blank": 0, "half": len(sheet.steps) // 2}[drawn]
    return _pages(
        replace(sheet, shown=shown), _Paper(size, "Worksheet", _numbered(problem, seed), True, name)
    )


def answer_key(
    lesson: Lesson,
    problem: Problem,
    notation: Notation = STANDARD,
    *,
    size: str = "A4",
    seed: int | str | None = None,
) -> list[str]:
    """The key of a worksheet: every step's value, how it comes about, and the whole drawing. Raises as `worksheet`."""
    sheet = Sheet(lesson, problem, notation)
    return _pages(replace(sheet, shown=len(sheet.steps)), _Paper(size, "Key", _numbered(problem, seed)))


def _numbered(problem: Problem, seed: int | str | None) -> str:
    """The number with what else it takes to draw the problem again."""
    return "" if seed is None else problem.difficulty.after(seed)


def finished_sheet_svg(sheet: Sheet, *, size: str = "A4") -> list[str]:
    """A student's sheet as it stands, with the drawing and the verdicts. Raises as `worksheet`."""
    return _pages(sheet, _Paper(size, "Sheet", "", to_fill_in=True))


# --- pages ---------------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class _Paper:
    """What a set of pages is: its size, kind and number, and whose it is."""

    size: str
    kind: str
    number: str
    to_fill_in: bool = False
    owner: str = ""

    @property
    def width(self) -> float:
        return SIZES[self.size][0]

    @property
    def height(self) -> float:
        return SIZES[self.size][1]

    @property
    def inner(self) -> float:
        """Width between the margins."""
        return self.width - 2 * MARGIN

    @property
    def name(self) -> str:
        """Worksheet 12, Key to worksheet 12, or without a number."""
        number = f" {self.number}" if self.number else ""
        return f"Key to worksheet{number}" if self.kind == "Key" and number else f"{self.kind}{number}"


def _pages(sheet: Sheet, paper: _Paper) -> list[str]:
    sheet = worked_to_the_end(sheet)
    words = problem_words(sheet.truth)
    first, spoken = _chart_page(sheet, paper, words)
    others = _step_pages(sheet, paper, words)
    pages = [(first, spoken), *((page, f"The steps of: {words['given']}") for page in others)]
    return [
        document(
            paper.width,
            paper.height,
            f"{paper.name}: {words['title']}, page {number} of {len(pages)}",
            description,
            content,
            _foot(sheet, paper, number, len(pages)),
        )
        for number, (content, description) in enumerate(pages, 1)
    ]


def _chart_page(sheet: Sheet, paper: _Paper, words: ProblemWords) -> tuple[str, str]:
    """The problem and the chart, as large as the page leaves room for; and what is drawn, in words."""
    top = MARGIN + HEAD
    refusal = sheet.lesson.refuses(sheet.problem)
    head, written = headline(words, top, paper.inner, refusal)
    caution = wrapped(CAUTION, FINE, paper.inner)
    bottom = paper.height - MARGIN - FOOT - len(caution) * LINE * FINE - RADIAL_HEIGHT
    top += max(head, USUAL_HEADLINE)
    radius = min(LARGEST_RADIUS, max(SMALLEST_RADIUS, int((bottom - top) / PRINT.extent) / 2))
    top += max(0.0, 0.15 * (bottom - top - 2 * PRINT.extent * radius))  # what is left over, mostly below
    place = Place(paper.width / 2, top + PRINT.extent * radius, radius)
    drawn, spoken = drawn_chart(sheet, place, MARGIN)
    content = _name_line(sheet, paper) + written + drawn + _small_print(caution, paper)
    return content, " ".join(part for part in (words["given"], refusal, spoken) if part)


def _name_line(sheet: Sheet, paper: _Paper) -> str:
    """Who works it and when, and which sheet it is."""
    base, right = MARGIN + 4.5, paper.width - MARGIN
    number = text(right, base, paper.name, BODY, text_anchor="end", font_weight="600", fill=INK)
    if not paper.to_fill_in:
        told = text(MARGIN, base, sheet.lesson.title, BODY, fill=QUIET)
        return told + number + _rule(MARGIN, base + 1.8, right)
    end = right - width_of(paper.name, BODY, bold=True) - 4
    date = end - 38
    written = text(MARGIN, base, "Name", BODY, fill=QUIET) + text(date, base, "Date", BODY, fill=QUIET)
    (owner,) = shortened(paper.owner, BODY, date - 3 - MARGIN - 12, bold=True) or [""]
    if owner:
        written += text(MARGIN + 12, base, owner, BODY, font_weight="600", fill=INK)
    return number + written + _rule(MARGIN + 11, base + 0.8, date - 3) + _rule(date + 9, base + 0.8, end)


def _foot(sheet: Sheet, paper: _Paper, number: int, count: int) -> str:
    base = paper.height - MARGIN
    right = f"{paper.name}, page {number} of {count}"
    return text(MARGIN, base, sheet.lesson.title, FINE, fill=QUIET) + text(
        paper.width - MARGIN, base, right, FINE, text_anchor="end", fill=QUIET
    )


def _small_print(lines: list[str], paper: _Paper, size: float = FINE, fill: str = QUIET) -> str:
    """Lines that end just above the foot of the page."""
    first = paper.height - MARGIN - FOOT - LINE * size * (len(lines) - 1)
    rows = enumerate(lines)
    return "".join(text(MARGIN, first + LINE * size * row, said, size, fill=fill) for row, said in rows)


def _rule(x0: float, y: float, x1: float) -> str:
    return line(x0, y, x1, y, stroke="#777", stroke_width=0.2)


# --- the steps -----------------------------------------------------------------------------------------------------


def _step_pages(sheet: Sheet, paper: _Paper, words: ProblemWords) -> list[str]:
    """The steps in columns, with as much room for working as one page gives; more pages only if it must be."""
    width = (paper.inner - GUTTER * (COLUMNS - 1)) / COLUMNS
    refusal = sheet.lesson.refuses(sheet.problem)
    ending = wrapped(refusal or (closing(sheet.work) if sheet.finished else ""), BODY, paper.inner)
    top = MARGIN + HEAD
    height = paper.height - MARGIN - FOOT - len(ending) * LINE * BODY - 2 - top
    blocks, working = _fitted(sheet, width, height)
    pages = []
    for columns in in_columns(blocks, working, height, COLUMNS):
        parts = [_step_head(paper, words["title"])]
        for column, stacked in enumerate(columns):
            y = top
            for block in stacked:
                parts.append(drawn_block(block, working, MARGIN + column * (width + GUTTER), y, width))
                y += block_height(block, working)
        pages.append("".join(parts))
    pages[-1] += _small_print(ending, paper, BODY, INK)
    return pages


def _fitted(sheet: Sheet, width: float, height: float) -> tuple[list[Block], Working]:
    """The steps in full with the best room for working that one page gives, else briefly, else on more pages."""
    for brief in (False, True):
        blocks = step_blocks(sheet, width, brief)
        for working in WORKINGS:
            if len(in_columns(blocks, working, height, COLUMNS)) == 1:
                return blocks, working
    return step_blocks(sheet, width), WORKINGS[-1]


def _step_head(paper: _Paper, title: str) -> str:
    base, right = MARGIN + 4.5, paper.width - MARGIN
    room = paper.inner - width_of(paper.name, BODY, bold=True) - 6
    title = f"{paper.owner}: {title}" if paper.owner else title
    (shown,) = shortened(title, BODY, room, bold=True) or [""]
    bold = {"font_weight": "600", "fill": INK}
    number = text(right, base, paper.name, BODY, text_anchor="end", **bold)
    return text(MARGIN, base, shown, BODY, **bold) + number + _rule(MARGIN, base + 1.8, right)
