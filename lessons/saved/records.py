"""What is kept of a sheet, as plain data for JSON: in the browser after every entry, in a file, in a link.

A record comes back from anywhere, so everything in it is checked: its kind and version, the type and the size of each
part. Fields and steps that the lesson does not know are left out; anything worse is refused with a sentence.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any, cast

from lessons.grammar.lesson import Lesson, Problem
from lessons.grammar.notation import STANDARD, Notation
from lessons.problems.sets import WORDS
from lessons.problems.texts import KEYS, read_problem, write_problem
from lessons.working.sheet import RUNGS, Entry, Sheet

VERSION = 1
LONGEST_ENTRY, LONGEST_TEXT, LONGEST_SYMBOL = 200, 100, 8
MOST_PARTS, MOST_SLIPS = 200, 20
FEWEST_DECIMALS, MOST_DECIMALS = 2, 6
NOT_A_SHEET = "This is not a sheet that Halfturn saved"


class BadRecord(ValueError):
    """A record that cannot be used; the message is the sentence for the student."""


# --- a sheet -------------------------------------------------------------------------------------------------------


def sheet_record(sheet: Sheet) -> dict[str, Any]:
    """A sheet as plain data: all that a student did, and nothing that follows from it."""
    problem = sheet.problem
    words = {"key": problem.key, "title": problem.title, "story": problem.story}
    return {
        "version": VERSION,
        "lesson": sheet.lesson.key,
        "problem": write_problem(problem)
        | {word: text[: WORDS[word]] for word, text in words.items() if text},
        "notation": write_notation(sheet.notation),
        "entries": {key: _entry_record(entry) for key, entry in sheet.entries.items()},
        "hints": dict(sheet.hints),
        "shown": sheet.shown,
    }


def sheet_from_record(record: object, lessons: Mapping[str, Lesson]) -> Sheet:
    """The sheet that was saved. Raises BadRecord with a sentence for whatever cannot be one."""
    parts = _dict(record, "the whole")
    _check_version(parts)
    key = parts.get("lesson")
    lesson = lessons.get(key) if isinstance(key, str) else None
    if lesson is None:
        raise BadRecord("This sheet belongs to a lesson that this Halfturn does not have.")
    problem = _problem(parts, lesson)
    steps = lesson.steps_of(problem)
    known_fields = {field.key for step in steps for field in step.fields}
    known_steps = {step.key for step in steps}
    return Sheet(
        lesson,
        problem,
        _notation(parts),
        {k: _entry(v) for k, v in _part(parts, "entries").items() if k in known_fields},
        {k: _count(v, RUNGS, "hints") for k, v in _part(parts, "hints").items() if k in known_steps},
        _count(parts.get("shown", 0), len(steps), "shown"),
    )


def _entry_record(entry: Entry) -> dict[str, Any]:
    record: dict[str, Any] = {"text": entry.text[:LONGEST_ENTRY]}
    record |= {flag: True for flag in ("carried", "revealed") if getattr(entry, flag)}
    if entry.slips:
        record["slips"] = list(dict.fromkeys(entry.slips))[:MOST_SLIPS]
    return record


def _entry(value: object) -> Entry:
    parts = _dict(value, "an entry")
    slips = parts.get("slips", [])
    if not isinstance(slips, list) or len(slips) > MOST_SLIPS:
        raise BadRecord(f"{NOT_A_SHEET}: an entry's slips are no list of at most {MOST_SLIPS}.")
    return Entry(
        text=_text(parts.get("text", ""), LONGEST_ENTRY, "an entry"),
        carried=_flag(parts.get("carried", False)),
        revealed=_flag(parts.get("revealed", False)),
        slips=tuple(_text(slip, LONGEST_TEXT, "a slip") for slip in slips),
    )


def _check_version(parts: Mapping[str, object]) -> None:
    version = parts.get("version")
    if not isinstance(version, int) or isinstance(version, bool) or version < 1:
        raise BadRecord(f"{NOT_A_SHEET}: it has no version.")
    if version > VERSION:
        raise BadRecord("This sheet was saved by a newer Halfturn than this one; open it with that.")


def _problem(parts: Mapping[str, object], lesson: Lesson) -> Problem:
    texts = _texts(_part(parts, "problem"), {**dict.fromkeys(KEYS, LONGEST_ENTRY), **WORDS}, "problem")
    reading = read_problem(texts, lesson)
    for sentence in (*reading.faults.values(), lesson.refuses(reading.problem)):
        if sentence:
            raise BadRecord(f"The sheet's problem cannot be used: {sentence}")
    words = {word: texts[word] for word in WORDS if word in texts}
    return replace(reading.problem, **cast(dict[str, Any], words))


def _notation(parts: Mapping[str, object]) -> Notation:
    texts = _texts(_part(parts, "notation"), dict.fromkeys(NOTATION_KEYS, LONGEST_TEXT), "notation")
    notation, faults = notation_from(texts)
    if faults:
        raise BadRecord(f"The sheet's notation cannot be used: {next(iter(faults.values()))}")
    return notation


# --- a notation ----------------------------------------------------------------------------------------------------


def notation_from(texts: Mapping[str, str]) -> tuple[Notation, dict[str, str]]:
    """The notation of a link's texts, and one sentence for each text that could not be used and was left out.

    Keys are those of `NOTATION_KEYS`; others are passed over, and an empty text means the usual notation."""
    found: dict[str, Any] = {}
    faults: dict[str, str] = {}
    for key, (name, read) in NOTATION_KEYS.items():
        text = texts.get(key, "").strip()
        if not text:
            continue
        try:
            found[name] = read(text)
        except BadRecord as fault:
            faults[key] = str(fault)
    notation = replace(STANDARD, **found)
    if notation.distance == notation.stub_length:
        faults["l"] = "Distance and stub length need two different symbols."
        notation = replace(notation, distance=STANDARD.distance, stub_length=STANDARD.stub_length)
    return notation, faults


def notation_texts(notation: Notation) -> dict[str, str]:
    """A notation as texts, every part of it: what a form holds."""
    return {key: str(getattr(notation, name)) for key, (name, _) in NOTATION_KEYS.items()}


def write_notation(notation: Notation) -> dict[str, str]:
    """The texts that give this notation back: only what is not usual, for a link."""
    usual = notation_texts(STANDARD)
    return {key: text for key, text in notation_texts(notation).items() if text != usual[key]}


def _read_symbol(text: str) -> str:
    if len(text) > LONGEST_SYMBOL or set(text) & set("{}<>") or not text.isprintable():
        raise BadRecord(f"A symbol is 1 to {LONGEST_SYMBOL} characters, without braces and angle brackets.")
    return text


def _read_decimals(text: str) -> int:
    if text not in {str(n) for n in range(FEWEST_DECIMALS, MOST_DECIMALS + 1)}:
        raise BadRecord(f"Decimals are a whole number from {FEWEST_DECIMALS} to {MOST_DECIMALS}.")
    return int(text)


def _word_reader(name: str, *words: str) -> Callable[[str], str]:
    def read(text: str) -> str:
        if text.lower() not in words:
            raise BadRecord(f"The {name} must be {' or '.join(words)}.")
        return text.lower()

    return read


NOTATION_KEYS: dict[str, tuple[str, Callable[[str], Any]]] = {
    "d": ("distance", _read_symbol),
    "l": ("stub_length", _read_symbol),
    "admittance": ("admittance", _word_reader("way to show admittance", "half turn", "overlay")),
    "imaginary": ("imaginary", _word_reader("imaginary unit", "j", "i")),
    "angle": ("angle", _word_reader("unit of angles", "degrees", "radians")),
    "length": ("length", _word_reader("unit of lengths", "wavelengths", "degrees")),
    "decimals": ("decimals", _read_decimals),
}


# --- one gate for each kind of part --------------------------------------------------------------------------------


def _dict(value: object, name: str) -> dict[str, object]:
    if not isinstance(value, dict) or not all(isinstance(key, str) for key in value):
        raise BadRecord(f"{NOT_A_SHEET}: {name} is not a list of names and values.")
    if len(value) > MOST_PARTS:
        raise BadRecord(f"{NOT_A_SHEET}: {name} has more than {MOST_PARTS} parts.")
    return value


def _part(parts: Mapping[str, object], name: str) -> dict[str, object]:
    return _dict(parts.get(name, {}), f"the part “{name}”")


def _texts(parts: Mapping[str, object], longest: Mapping[str, int], name: str) -> dict[str, str]:
    """The texts of known names; others are left out."""
    return {key: _text(parts[key], longest[key], f"the {name}'s {key}") for key in longest if key in parts}


def _text(value: object, longest: int, name: str) -> str:
    if not isinstance(value, str):
        raise BadRecord(f"{NOT_A_SHEET}: {name} is not a text.")
    if len(value) > longest:
        raise BadRecord(f"{NOT_A_SHEET}: {name} is longer than {longest} characters.")
    return value


def _count(value: object, most: int, name: str) -> int:
    if not isinstance(value, int) or isinstance(value, bool) or not 0 <= value <= most:
        raise BadRecord(f"{NOT_A_SHEET}: “{name}” is not a whole number from 0 to {most}.")
    return value


def _flag(value: object) -> bool:
    if not isinstance(value, bool):
        raise BadRecord(f"{NOT_A_SHEET}: whether an entry was carried or shown is neither true nor false.")
    return value
