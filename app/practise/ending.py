"""Where the power goes at the end of a sheet, in sentences."""

from __future__ import annotations

from lessons.working.powers import Powers, powers
from lessons.working.sheet import Sheet


def power_sentences(sheet: Sheet) -> list[str]:
    """Of each finished design what reaches the load, and the standing-wave ratio on each part of its line."""
    return [_powers(one, sheet) for one in powers(sheet)]


def _powers(one: Powers, sheet: Sheet) -> str:
    notation = sheet.notation
    name = f"{one.branch.word.capitalize()}: " if one.branch else ""
    without = f", {100 * one.bare:.1f} % without the match" if sheet.lesson.matches else ""
    last = "the line to the generator"
    places = [
        f"{notation.number(ratio, 2)} on {(symbol or 'the section') if section else last}"
        for section, symbol, ratio in one.parts
    ]
    return (
        f"{name}{100 * one.delivered:.1f} % of what the generator has to give reaches the load{without}. "
        f"Standing-wave ratio: {', '.join(places)}."
    )
