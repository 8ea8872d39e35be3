"""The entries of the forms that most pages have: a problem of one's own, and how the course writes."""

from __future__ import annotations

from collections.abc import Mapping

from app.parts.messages.shared import Entry, Forms, Option
from lessons.grammar.lesson import Problem
from lessons.grammar.notation import STANDARD, Notation
from lessons.problems.seeds import write_problem
from lessons.saved.records import notation_texts

PROBLEM: tuple[tuple[str, str, str, tuple[Option, ...]], ...] = (
    ("load", "Load impedance, Ω", "60 − j80", ()),
    ("line", "Line impedance, Ω", "50", ()),
    ("stub", "Stub impedance, Ω", "the line's", ()),
    ("frequency", "Frequency", "868 MHz, if lengths in mm are wanted", ()),
    ("velocity", "Velocity factor", "0.66", ()),
    ("end", "Stub's end", "", (("short", "short circuit"), ("open", "open circuit"))),
)
ANSWERS: tuple[Option, ...] = (("chart", "read from the chart"), ("calculated", "calculated"))
NOTATION: tuple[tuple[str, str, str, tuple[Option, ...]], ...] = (
    ("d", "Symbol for the distance", "", ()),
    ("l", "Symbol for the stub length", "", ()),
    ("admittance", "Admittance by", "", (("half turn", "half turn"), ("overlay", "overlay"))),
    ("imaginary", "Imaginary unit", "", (("j", "j"), ("i", "i"))),
    ("angle", "Angles in", "", (("degrees", "degrees"), ("radians", "radians"))),
    ("length", "Lengths of line in", "", (("wavelengths", "wavelengths"), ("degrees", "degrees of line"))),
    ("decimals", "Decimals shown", "", (("2", "2"), ("3", "3"), ("4", "4"))),
)
ON_AN_EMPTY_PAGE = {"line": "50"}  # what most problems have alike


def forms(problem: Problem | None, notation: Notation) -> Forms:
    """Both forms, filled in with a problem, or hardly where there is none yet, and with a notation."""
    texts = ON_AN_EMPTY_PAGE if problem is None else write_problem(problem)
    return {"own": own_entries(texts), "notation": notation_entries(notation_texts(notation))}


def own_entries(texts: Mapping[str, str]) -> list[Entry]:
    """Entries for a problem of one's own and how its answers are found, filled in with a problem's texts."""
    answers = entry("accuracy", "Answers are", "", ANSWERS, text=texts.get("accuracy", ""))
    return [*problem_entries(texts), answers]


def problem_entries(texts: Mapping[str, str]) -> list[Entry]:
    """Entries for a problem alone."""
    return [entry(*facts, text=texts.get(facts[0], "")) for facts in PROBLEM]


def notation_entries(texts: Mapping[str, str]) -> list[Entry]:
    """Entries for a notation, filled in with its texts and where there is none with what is usual."""
    filled = {**notation_texts(STANDARD), **texts}
    return [entry(*facts, text=filled[facts[0]]) for facts in NOTATION]


def entry(
    key: str, label: str, example: str = "", options: tuple[Option, ...] = (), *, text: str = ""
) -> Entry:
    """One entry; a choice stands at its first option where nothing is filled in."""
    text = text or (options[0][0] if options else "")
    return {"key": key, "label": label, "example": example, "text": text, "options": list(options)}
