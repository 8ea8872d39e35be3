"""What is kept of a sheet, as plain data for JSON: in the browser after every entry, in a file, in a link.

A record comes back from anywhere, so everything in it is checked: its kind and version, the type and the size of each
part. Fields and steps that the lesson never knew are left out; anything worse is refused with a sentence.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import replace
from typing import Any, cast, get_args

from lessons.grammar.catalogue import Catalogue
from lessons.grammar.lesson import Lesson, Step
from lessons.grammar.notation import Notation
from lessons.grammar.problem import Problem
from lessons.problems.set_values import WORDS
from lessons.problems.texts import keys_of, read_problem, write_problem
from lessons.saved.former import Moved, former_fields, moved
from lessons.saved.notations import HABITS, notation_from, write_notation
from lessons.working.attempts import MOST_ATTEMPTS, Attempt, Doing, Entry
from lessons.working.sheet import RUNGS, Sheet

VERSION = 3  # 1 had no attempts, 2 forgot what was taken back
LONGEST_ENTRY, LONGEST_TEXT = 200, 100
MOST_PARTS, MOST_SLIPS = 200, 20
NOT_A_SHEET = "This is not a sheet that Halfturn saved"


class BadRecord(ValueError):
    """A record that cannot be used; the message is the sentence for the student."""


class FromNewer(BadRecord):
    """A record of a later version of the program, or of a lesson that only another has: it is good there."""


# --- a sheet -------------------------------------------------------------------------------------------------------


def sheet_record(sheet: Sheet) -> dict[str, Any]:
    """A sheet as plain data: all that a student did, and nothing that follows from it."""
    problem = sheet.problem
    words = {"key": problem.key, "title": problem.title, "story": problem.story}
    return {
        "version": VERSION,
        "lesson": sheet.lesson.key,
        "problem": write_problem(problem, sheet.lesson)
        | {word: text[: WORDS[word]] for word, text in words.items() if text},
        "notation": write_notation(sheet.notation),
        "entries": {key: _entry_record(entry) for key, entry in {**sheet.aside, **sheet.entries}.items()},
        "hints": dict(sheet.hints),
        "shown": sheet.shown,
        "attempts": [_attempt_record(attempt) for attempt in sheet.attempts],
    }


def sheet_from_record(record: object, catalogue: Catalogue) -> Sheet:
    """The sheet that was saved. Raises BadRecord with a sentence for whatever cannot be one."""
    parts = _dict(record, "the whole")
    _check_version(parts)
    lesson = catalogue.find(parts.get("lesson"))
    if lesson is None:
        fault = FromNewer if isinstance(parts.get("lesson"), str) else BadRecord
        raise fault("This sheet belongs to a lesson that this Halfturn does not have.")
    problem = _problem(parts, lesson)
    steps = lesson.steps_of(problem)
    fields, keys = {field.key for step in steps for field in step.fields}, {step.key for step in steps}
    formerly = former_fields(lesson, problem)
    entries = {k: _entry(v) for k, v in _part(parts, "entries").items() if k in fields | formerly}
    known = keys | {old for step in steps for old in step.formerly}
    hints = {k: _count(v, RUNGS, "hints") for k, v in _part(parts, "hints").items() if k in known}
    today = moved(lesson, problem, entries, hints)
    return Sheet(
        lesson,
        problem,
        _notation(parts, lesson),
        {key: entry for k, entry in entries.items() if (key := today.fields.get(k, k)) in fields},
        {key: rung for k, rung in hints.items() if (key := today.steps.get(k, k)) in keys},
        min(_count(parts.get("shown", 0), _most_shown(steps), "shown"), len(steps)),
        tuple(_attempts(parts.get("attempts", []), fields, keys, today)),
        aside={k: entry for k, entry in entries.items() if k in formerly - today.fields.keys()},
    )


def _most_shown(steps: Collection[Step]) -> int:
    """How many steps there were at most, when some that are one today were several."""
    return len(steps) + sum(max(0, len(step.formerly) - 1) for step in steps)


def _entry_record(entry: Entry) -> dict[str, Any]:
    record: dict[str, Any] = {"text": entry.text[:LONGEST_ENTRY]}
    record |= {flag: True for flag in ("carried", "revealed") if getattr(entry, flag)}
    if entry.slips:
        record["slips"] = list(dict.fromkeys(entry.slips))[:MOST_SLIPS]
    return record


def _attempt_record(attempt: Attempt) -> list[str]:
    """As short as can be: what was done, to what, and the text if there is one."""
    parts = [attempt.doing, attempt.at, attempt.text[:LONGEST_ENTRY]]
    while parts and not parts[-1]:
        parts.pop()
    return parts


def _attempts(
    value: object, fields: Collection[str], steps: Collection[str], today: Moved
) -> Iterator[Attempt]:
    """What was done to the sheet; what was done to fields and steps that the lesson does not know is left out."""
    places: Mapping[str, Collection[str]] = {"hint": steps, "start over": ("",), "undo": ("",)}
    if not isinstance(value, list) or len(value) > MOST_ATTEMPTS:
        raise BadRecord(f"{NOT_A_SHEET}: its attempts are no list of at most {MOST_ATTEMPTS}.")
    for one in value:
        if not isinstance(one, list) or not 1 <= len(one) <= 3:
            raise BadRecord(f"{NOT_A_SHEET}: an attempt is no list of what was done, to what, and a text.")
        doing, at, text = (_text(part, LONGEST_ENTRY, "an attempt") for part in (*one, "", "")[:3])
        if doing not in get_args(Doing):
            raise BadRecord(f"{NOT_A_SHEET}: an attempt is none that this Halfturn knows.")
        attempt = today.attempt(Attempt(cast(Doing, doing), at, text))
        if attempt.at in places.get(doing, fields):
            yield attempt


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
        raise FromNewer("This sheet was saved by a newer Halfturn than this one; open it with that.")


def _problem(parts: Mapping[str, object], lesson: Lesson) -> Problem:
    texts = _texts(
        _part(parts, "problem"), {**dict.fromkeys(keys_of(lesson), LONGEST_ENTRY), **WORDS}, "problem"
    )
    reading = read_problem(texts, lesson)
    for sentence in (*reading.faults.values(), lesson.refuses(reading.problem)):
        if sentence:
            raise BadRecord(f"The sheet's problem cannot be used: {sentence}")
    words = {word: texts[word] for word in WORDS if word in texts}
    return replace(reading.problem, **cast(dict[str, Any], words))


def _notation(parts: Mapping[str, object], lesson: Lesson) -> Notation:
    keys = [*(symbol.key for symbol in lesson.symbols), *(habit.key for habit in HABITS), "decimals"]
    texts = _texts(_part(parts, "notation"), dict.fromkeys(keys, LONGEST_TEXT), "notation")
    notation, faults = notation_from(texts, lesson.symbols)
    if faults:
        raise BadRecord(f"The sheet's notation cannot be used: {next(iter(faults.values()))}")
    return notation


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
