"""Tables in someone's own working: a row of heads, then rows of values, each of which says what a line would.

           | d     | l                    | near  | far
    near   | 0.110 | 0.095         d      | 0.110 | 0.259

A table is one only where its heads are names, or solutions, and a row of values follows: all else is left to be read,
or said to be unread, as the line it is.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from lessons.homework.clauses import Clauses
from lessons.homework.typeset import plain

MOST_CELLS = 40  # in a row: nobody has more values
_RULE = re.compile(r"[\s|:+=_-]*-{2,}[\s|:+=_-]*")  # what is drawn between heads and values
_SIGN = re.compile(r"[=≈;]")
_UNIT = re.compile(r"(.*\S)\s*[(\[]([^()\[\]]*)[)\]]")
_HAS_DIGIT = re.compile(r"\d")


def tables(lines: Sequence[str], clauses: Clauses) -> dict[int, list[str]]:
    """What each line of a table says, as statements, by the line's index; nothing for heads and rules."""
    said: dict[int, list[str]] = {}
    heads: list[str] | None = None
    for index, line in enumerate(lines):
        cells = _cells(line)
        if heads and cells and (row := _row(heads, cells, clauses)):
            said[index] = row
        elif heads and _RULE.fullmatch(line):
            said[index] = []
        else:
            heads = cells if cells and _follows(lines, index, cells, clauses) else None
            if heads:
                said[index] = []
    return said


def _cells(line: str) -> list[str] | None:
    """The cells of a row, between bars or tabs; None for a line that is no row."""
    if _SIGN.search(line) or _RULE.fullmatch(line):
        return None
    text = line.strip("\n").replace("\t", "|").strip(" ")
    edged = len(text) > 1 and text.startswith("|") and text.endswith("|")
    cells = [plain(cell) for cell in (text[1:-1] if edged else text).split("|")]
    return cells if 1 < len(cells) <= MOST_CELLS else None


def _follows(lines: Sequence[str], index: int, heads: list[str], clauses: Clauses) -> bool:
    """Whether a row of values for these heads comes next."""
    following = (line for line in lines[index + 1 :] if line.strip() and not _RULE.fullmatch(line))
    cells = _cells(next(following, ""))
    return cells is not None and bool(_row(heads, cells, clauses))


def _row(heads: list[str], cells: list[str], clauses: Clauses) -> list[str]:
    """The statements of a row; nothing where it and its heads do not say what each value is."""
    if len(cells) != len(heads) or not any(map(_HAS_DIGIT.search, cells)):
        return []
    first, beside = heads[0], [cells[0]]
    if clauses.is_named(_apart(first)[0]):
        beside, columns = [], list(zip(heads, cells, strict=True))
    else:
        columns = list(zip(heads[1:], cells[1:], strict=True))
    said = [_statement(beside, head, cell, clauses) for head, cell in columns if cell]
    return [one for one in said if one] if all(said) else []


def _statement(beside: list[str], head: str, cell: str, clauses: Clauses) -> str:
    """A value with the name, and the solution, that its row and its column give it; "" where they give none."""
    heads = [_apart(one) for one in (*beside, head)]
    names = [one for one in heads if clauses.is_named(one[0])]
    marks = [_solution(one, clauses) for one, _ in heads if not clauses.is_named(one)]
    if len(names) != 1 or any(clauses.heading(one) is None for one in marks):
        return ""
    name, unit = names[0]
    value = f"{cell} {unit}" if unit and cell[-1:].isdigit() else cell
    return f"{''.join(f'{mark}: ' for mark in marks)}{name} = {value}"


def _solution(head: str, clauses: Clauses) -> str:
    """A head that names a solution, also by its number alone."""
    return head if clauses.heading(head) is not None else f"solution {head}"


def _apart(head: str) -> tuple[str, str]:
    """A head and the unit in brackets behind it."""
    found = _UNIT.fullmatch(head)
    return (found[1], found[2]) if found else (head, "")
