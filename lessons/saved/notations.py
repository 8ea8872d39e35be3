"""A notation as short texts: what a link carries, a form holds and a record keeps."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from lessons.grammar.notation import STANDARD, Notation, Symbol

LONGEST_SYMBOL = 8
FEWEST_DECIMALS, MOST_DECIMALS = 2, 6


class BadText(ValueError):
    """A text that says no notation; the message is the sentence for whoever wrote it."""


@dataclass(frozen=True)
class Habit:
    """One of a notation's habits: its key in links, the attribute it sets, and its words in a form."""

    key: str
    name: str
    label: str
    options: tuple[tuple[str, str], ...]


HABITS = (
    Habit("admittance", "way to show admittance", "Admittance by", (("half turn",) * 2, ("overlay",) * 2)),
    Habit("imaginary", "imaginary unit", "Imaginary unit", (("j",) * 2, ("i",) * 2)),
    Habit("angle", "unit of angles", "Angles in", (("degrees",) * 2, ("radians",) * 2)),
    Habit(
        "length",
        "unit of lengths",
        "Lengths of line in",
        (("wavelengths",) * 2, ("degrees", "degrees of line")),
    ),
)
DECIMALS = Habit("decimals", "decimals", "Decimals shown", (("2",) * 2, ("3",) * 2, ("4",) * 2))


def notation_from(texts: Mapping[str, str], symbols: Sequence[Symbol]) -> tuple[Notation, dict[str, str]]:
    """The notation of a link's texts, and one sentence for each text that could not be used and was left out.

    symbols : those that the lesson lets a course rename.  Other texts are passed over, and an empty one means the
    usual notation."""
    found: dict[str, Any] = {}
    faults: dict[str, str] = {}

    def read(key: str, reader: Callable[[str], Any], into: dict[str, Any]) -> None:
        text = texts.get(key, "").strip()
        if text:
            try:
                into[key] = reader(text)
            except BadText as fault:
                faults[key] = str(fault)

    written: dict[str, str] = {}
    for symbol in symbols:
        read(symbol.key, _read_symbol, written)
    for habit in HABITS:
        read(habit.key, _word_reader(habit), found)
    read(DECIMALS.key, _read_decimals, found)
    if twice := _written_twice(symbols, written):
        faults[twice.key] = f"{_both_labels(symbols, written, twice)} need two different symbols."
        written = {}
    renamed = {key: text for key, text in written.items() if text != key}
    return replace(STANDARD, symbols=renamed, **found), faults


def notation_texts(notation: Notation, symbols: Sequence[Symbol]) -> dict[str, str]:
    """A notation as texts, every part of it: what a form holds."""
    return {symbol.key: notation.symbol(symbol.key) for symbol in symbols} | {
        habit.key: str(getattr(notation, habit.key)) for habit in (*HABITS, DECIMALS)
    }


def write_notation(notation: Notation) -> dict[str, str]:
    """The texts that give this notation back: only what is not usual, for a link."""
    texts = {habit.key: str(getattr(notation, habit.key)) for habit in (*HABITS, DECIMALS)}
    usual = {habit.key: str(getattr(STANDARD, habit.key)) for habit in (*HABITS, DECIMALS)}
    changed = {key: text for key, text in texts.items() if text != usual[key]}
    return {key: text for key, text in notation.symbols.items() if text != key} | changed


def _written_twice(symbols: Sequence[Symbol], written: Mapping[str, str]) -> Symbol | None:
    """The last symbol that is written as another one is."""
    texts = [written.get(symbol.key, symbol.key) for symbol in symbols]
    return next(
        (s for s, text in reversed(list(zip(symbols, texts, strict=True))) if texts.count(text) > 1), None
    )


def _both_labels(symbols: Sequence[Symbol], written: Mapping[str, str], twice: Symbol) -> str:
    alike = [
        symbol.label
        for symbol in symbols
        if written.get(symbol.key, symbol.key) == written.get(twice.key, twice.key)
    ]
    return " and ".join(alike).capitalize()


def _read_symbol(text: str) -> str:
    if len(text) > LONGEST_SYMBOL or set(text) & set("{}<>") or not text.isprintable():
        raise BadText(f"A symbol is 1 to {LONGEST_SYMBOL} characters, without braces and angle brackets.")
    return text


def _read_decimals(text: str) -> int:
    if text not in {str(n) for n in range(FEWEST_DECIMALS, MOST_DECIMALS + 1)}:
        raise BadText(f"Decimals are a whole number from {FEWEST_DECIMALS} to {MOST_DECIMALS}.")
    return int(text)


def _word_reader(habit: Habit) -> Callable[[str], str]:
    words = [key for key, _ in habit.options]

    def read(text: str) -> str:
        if text.lower() not in words:
            raise BadText(f"The {habit.name} must be {' or '.join(words)}.")
        return text.lower()

    return read
