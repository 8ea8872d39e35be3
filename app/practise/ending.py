"""Where the power goes at the end of a sheet, in sentences."""

from __future__ import annotations

from core.elements import Section
from lessons.grammar.notation import Notation
from lessons.working.achieved import listed
from lessons.working.powers import Powers, powers
from lessons.working.sheet import Sheet

NOTHING = 5e-4  # of the power: what is written as 0.0 %


def power_sentences(sheet: Sheet) -> list[str]:
    """Of each finished design what reaches the load, and the standing-wave ratio on each part of its line; once where
    the same holds of several, and of places on one line once."""
    found = powers(sheet)
    if not any(one.is_design for one in found):
        return [_powers(one, sheet.notation) for one in found[:1]]
    told: dict[str, list[str]] = {}
    for one in found:
        told.setdefault(_powers(one, sheet.notation), []).extend([one.branch.word] if one.branch else [])
    return [f"{f'{listed(names)}: '.capitalize() if names else ''}{text}" for text, names in told.items()]


def _powers(one: Powers, notation: Notation) -> str:
    without = f", {100 * one.bare:.1f} % without the match" if one.is_design else ""
    places = [
        f"{notation.number(ratio, 2)} {_where(section, symbol)}" for section, symbol, ratio in one.parts
    ]
    reaches = f"{100 * one.delivered:.1f} % of what the generator has to give reaches the load{without}."
    if max(one.delivered, one.bare) < NOTHING:
        reaches = "It takes no power: all that the generator sends comes back."
    return f"{reaches} Standing-wave ratio: {', '.join(places)}."


def _where(section: Section | None, symbol: str) -> str:
    """Where a standing-wave ratio is met: on a line with loss it is less toward the generator."""
    if section is None:
        return "on the line to the generator"
    return f"{'at the load side of' if section.attenuation else 'on'} {symbol or 'the section'}"
