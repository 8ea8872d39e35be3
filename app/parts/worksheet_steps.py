"""The steps of a sheet on paper: what is asked, room to work it, and a line for each value, in columns.

Whatever stands on the sheet already - given by the tutor, or a student's own - stands on the lines.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from app.parts.vector import LINE, Look, element, line, path, polyline, shortened, text, width_of, wrapped
from app.parts.words import judged
from lessons.grammar.lesson import Field, Impossible, Step
from lessons.working.attempts import Entry
from lessons.working.sheet import Sheet

HEADING, BODY, SMALL, VALUE = 3.3, 2.8, 2.4, 3.2
NUMBER_WIDTH, GAP, BETWEEN = 7.0, 3.0, 5.0  # of a step's number; under a step; between two lines side by side
PAD = 0.9  # between what is asked and where it is answered
WRITING, WRITTEN = 8.0, 5.2  # height of a line to write on, and of one that is written on already
BOX, OPTION = 2.4, 4.2  # side and height of a box to tick
BESIDE_BOX = BOX + 1.3
MOST_BESIDE = 2  # lines side by side
INK, QUIET, RULE = "#000", "#444", "#777"
RULED: Look = {"stroke": RULE, "stroke_width": 0.2}
Draw = Callable[[float, float], str]  # a row's markup, from its upper left corner


@dataclass(frozen=True)
class Row:
    """Part of a step from edge to edge of its column. working : height comes from the lines left to work in."""

    height: float
    draw: Draw
    working: bool = False


@dataclass(frozen=True)
class Working:
    """Room that each step leaves for its working, and how many ruled lines it has."""

    lines: int
    height: float


Block = tuple[Row, ...]


def step_blocks(sheet: Sheet, width: float, brief: bool = False) -> list[Block]:
    """Each step of the sheet as rows of that width, up to where a problem ends that is refused; when `brief`, without
    the questions that the tutor answers."""
    steps = sheet.steps[: sheet.shown] if sheet.lesson.refuses(sheet.problem) else sheet.steps
    return [tuple(_rows(sheet, step, number, width, brief)) for number, step in enumerate(steps, 1)]


def in_columns(
    blocks: Sequence[Block], working: Working, height: float, columns: int
) -> list[list[list[Block]]]:
    """Pages of columns of steps, each column filled before the next; no step is broken."""
    filled: list[list[Block]] = [[]]
    left = height
    for block in blocks:
        needed = block_height(block, working)
        if needed - GAP > left and filled[-1]:
            filled.append([])
            left = height
        filled[-1].append(block)
        left -= needed
    return [filled[start : start + columns] for start in range(0, len(filled), columns)]


def block_height(block: Block, working: Working) -> float:
    """Height of a step with its working."""
    return sum(_working_height(working) if row.working else row.height for row in block)


def drawn_block(block: Block, working: Working, x: float, y: float, width: float) -> str:
    """The markup of a step whose upper left corner is there."""
    parts = []
    for row in block:
        if row.working:
            levels = [y + working.height * part / working.lines for part in range(1, working.lines + 1)]
            parts += [
                line(x + NUMBER_WIDTH, at, x + width, at, stroke_dasharray="0.25 0.9", **RULED)
                for at in levels
            ]
            y += _working_height(working)
        else:
            parts.append(row.draw(x, y))
            y += row.height
    return element("g", *parts, class_="step")


def _working_height(working: Working) -> float:
    return working.height + PAD


# --- the rows of a step --------------------------------------------------------------------------------------------


def _rows(sheet: Sheet, step: Step, number: int, width: float, brief: bool) -> Iterator[Row]:
    inner = width - NUMBER_WIDTH
    shown = _is_shown(sheet, step)
    yield Row(1.5 * HEADING, _heading(number, step.title))
    if not (shown and brief):
        yield from _sentences(sheet.work.say(step.ask), BODY, inner, INK)
    if shown:
        yield from _sentences(_numbers(sheet, step), SMALL, inner, QUIET, style="italic")
        yield Row(PAD, lambda x, y: "")
    elif not _all_choices(sheet, step.fields):
        yield Row(0.0, lambda x, y: "", working=True)
    for is_choice, fields in groupby(step.fields, lambda one: _all_choices(sheet, (one,))):
        if is_choice:
            for one in fields:
                yield from _options(sheet, one, inner)
        else:
            for beside in _in_rows(tuple(fields)):
                yield _lines_to_write_on(sheet, beside, inner)
    yield Row(GAP, lambda x, y: "")


def _in_rows(fields: Sequence[Field]) -> Iterator[Sequence[Field]]:
    """Fields as they stand side by side: no value is cut, as it would be on a shorter line."""
    for first in range(0, len(fields), MOST_BESIDE):
        yield fields[first : first + MOST_BESIDE]


def _is_shown(sheet: Sheet, step: Step) -> bool:
    """Whether the tutor works the step, and so says how."""
    return sheet.steps.index(step) < sheet.shown and not any(one.key in sheet.entries for one in step.fields)


def _numbers(sheet: Sheet, step: Step) -> str:
    try:
        return step.numbers(sheet.work)
    except Impossible as fault:
        return str(fault)


def _all_choices(sheet: Sheet, fields: Sequence[Field]) -> bool:
    return all(one.kind(sheet.work).names_a_choice for one in fields)


def _heading(number: int, title: str) -> Draw:
    def draw(x: float, y: float) -> str:
        bold = {"font_weight": "600", "fill": INK}
        return text(x, y + HEADING, str(number), HEADING, **bold) + text(
            x + NUMBER_WIDTH, y + HEADING, title, HEADING, **bold
        )

    return draw


def _sentences(said: str, size: float, width: float, ink: str, style: str | None = None) -> Iterator[Row]:
    for words in wrapped(said, size, width):
        yield Row(
            LINE * size,
            lambda x, y, words=words: text(  # type: ignore[misc]
                x + NUMBER_WIDTH, y + size, words, size, fill=ink, font_style=style
            ),
        )


def _lines_to_write_on(sheet: Sheet, fields: Sequence[Field], width: float) -> Row:
    """Fields side by side, each with its name over a line; a single one has its name before the line."""
    labels = [sheet.work.say(one.full_label) for one in fields]
    each = (width - BETWEEN * (len(fields) - 1)) / len(fields)
    names = [wrapped(label, SMALL, each) for label in labels]
    alone = len(fields) == 1 and width_of(labels[0], BODY) < 0.6 * width
    above = 0.0 if alone else LINE * SMALL * max(map(len, names))
    height = above + (WRITTEN if all(sheet.settled(one.key) for one in fields) else WRITING)

    def draw(x: float, y: float) -> str:
        parts = []
        for column, one in enumerate(fields):
            left = x + NUMBER_WIDTH + column * (each + BETWEEN)
            indent = width_of(labels[column], BODY) + 1.5 if alone else 0.0
            if alone:
                parts.append(text(left, y + height - 0.9, labels[column], BODY, fill=INK))
            else:
                parts += [
                    text(left, y + SMALL * (1 + LINE * row), words, SMALL, fill=QUIET)
                    for row, words in enumerate(names[column])
                ]
            parts.append(line(left + indent, y + height, left + each, y + height, **RULED))
            parts.append(_value(sheet, one, left + indent + 0.8, y + height - 0.9, each - indent - 0.8))
        return "".join(parts)

    return Row(height + 1.2, draw)


def _value(sheet: Sheet, one: Field, x: float, y: float, width: float) -> str:
    """What stands on a line, cut to it, and behind a student's own how it was judged."""
    verdict = sheet.verdicts.get(one.key)
    written = sheet.text(one.key) if verdict else sheet.entries.get(one.key, Entry()).text
    if not written.strip():
        return ""
    (shown,) = shortened(f"{written}{_sign(sheet, one)}", VALUE, width, bold=True)
    return text(x, y, shown, VALUE, fill=INK, font_weight="600", class_="value")


def _sign(sheet: Sheet, one: Field) -> str:
    """The sign of the verdict on an entry of a student's; nothing on what the tutor has shown from the start."""
    entry, verdict = sheet.entries.get(one.key), sheet.verdicts.get(one.key)
    if entry is None or verdict is None:
        return ""
    if entry.revealed:
        return " (shown)"
    return f" {judged(verdict)[0]}" + (" (carried)" if entry.carried and not verdict.accepted else "")


def _options(sheet: Sheet, one: Field, width: float) -> Iterator[Row]:
    """The name of a choice, then its options with a box each, as many in a row as fit."""
    kind, verdict = one.kind(sheet.work), sheet.verdicts.get(one.key)
    chosen = verdict.value if verdict else None
    label = f"{sheet.work.say(one.full_label)}{_sign(sheet, one)}{_also_right(sheet, one)}"
    yield Row(PAD, lambda x, y: "")
    yield from _sentences(label, SMALL, width, QUIET)
    for row in _side_by_side(kind.options, width):
        lines = max(len(words) for _, _, words in row)
        yield Row(
            OPTION + (lines - 1) * LINE * BODY,
            lambda x, y, row=row: "".join(  # type: ignore[misc]
                _box(x + NUMBER_WIDTH + at, y, words, key == chosen) for at, key, words in row
            ),
        )


def _also_right(sheet: Sheet, one: Field) -> str:
    """For a choice that the tutor shows, which others would have been right as well."""
    if one.accepts is None or one.key not in sheet.verdicts or one.key in sheet.entries:
        return ""
    kind = one.kind(sheet.work)
    others = [
        kind.write(key, sheet.notation) for key in one.accepts(sheet.work) if key != sheet.work[one.key]
    ]
    return f" (also right: {'; '.join(others)})" if others else ""


def _side_by_side(
    options: Sequence[tuple[str, str]], width: float
) -> list[list[tuple[float, str, list[str]]]]:
    """Options in rows, each with its distance from the left and its words in lines."""
    rows: list[list[tuple[float, str, list[str]]]] = [[]]
    at = 0.0
    for key, words in options:
        lines = wrapped(words, BODY, width - BESIDE_BOX, bold=True)
        needed = BESIDE_BOX + width_of(words, BODY, bold=True) if len(lines) == 1 else width
        if rows[-1] and at + needed > width:
            rows.append([])
            at = 0.0
        rows[-1].append((at, key, lines))
        at += needed + BETWEEN
    return rows


def _box(x: float, y: float, lines: Sequence[str], ticked: bool) -> str:
    top = y + 0.8
    box = element("rect", x=x, y=top, width=BOX, height=BOX, fill="none", stroke=INK, stroke_width=0.22)
    cross = polyline((x, top), (x + BOX, top + BOX)) + polyline((x + BOX, top), (x, top + BOX))
    tick = path(cross, fill="none", stroke=INK, stroke_width=0.5, class_="ticked") if ticked else ""
    weight = "600" if ticked else None
    words = (
        text(x + BESIDE_BOX, top + 0.86 * BOX + LINE * BODY * row, said, BODY, fill=INK, font_weight=weight)
        for row, said in enumerate(lines)
    )
    return box + tick + "".join(words)
