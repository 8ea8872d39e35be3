"""Values of a set's file: their kinds and sizes, before a lesson reads them."""

from __future__ import annotations

import re
from math import inf

from lessons.grammar.lesson import Lesson
from lessons.grammar.numbers import quoted
from lessons.problems.texts import keys_of

WORDS = {"key": 40, "title": 120, "story": 600}
"""Texts that each problem of a set needs, and how many characters each may have."""
OF_THE_SET = ("key", "title", "version", "notes", "seed", "points", "problem")
LONGEST_NOTES, LARGEST_VERSION, LARGEST_SEED = 4000, 9999, 999_999
LARGEST_NUMBER = 1e15
KEY = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


def fault_of_set(key: str, value: object) -> str:
    """What is wrong with a value that stands before the problems, "" where nothing is."""
    match key:
        case "title":
            return _fault_of_text(value, WORDS["title"])
        case "notes":
            return _fault_of_text(value, LONGEST_NOTES)
        case "key":
            fits = isinstance(value, str) and len(value) <= WORDS["key"] and KEY.fullmatch(value)
            return "" if fits else "A set's key is small letters, digits and hyphens, such as week-3."
        case "version":
            return _fault_of_whole(value, 1, LARGEST_VERSION)
        case "seed":
            return _fault_of_whole(value, 0, LARGEST_SEED)
        case "points" | "problem":
            return ""
    return f"There is no such field; before its problems a set may have {', '.join(OF_THE_SET[:-1])}."


def _fault_of_text(value: object, most: int) -> str:
    fits = isinstance(value, str) and 0 < len(value.strip()) <= most
    return "" if fits else f"This must be a text of 1 to {most} characters."


def _fault_of_whole(value: object, least: int, most: int) -> str:
    fits = isinstance(value, int) and not isinstance(value, bool) and least <= value <= most
    return "" if fits else f"This must be a whole number from {least} to {most}."


def fault_of(field: str, value: object, lesson: Lesson) -> str:
    """What is wrong with a value of a problem, before its lesson reads it; "" where nothing is."""
    if field in WORDS:
        return _fault_of_text(value, WORDS[field])
    if field == "notes":
        return _fault_of_text(value, LONGEST_NOTES)
    if field == "vary":
        return "" if isinstance(value, dict) else "What varies is a table: [problem.vary], then a given each."
    if field == "steps":
        return _fault_of_steps(value, lesson)
    known = (*WORDS, "lesson", *keys_of(lesson), "steps", "vary", "notes")
    if field not in known:
        return f"There is no such field; the fields are {', '.join(known)}."
    if text_of(value) is None:
        return "This must be a number of ordinary size, or a text in quotation marks."
    return ""


def _fault_of_steps(value: object, lesson: Lesson) -> str:
    known = [step.key for step in lesson.steps]
    if not isinstance(value, list) or not value or not all(isinstance(one, str) for one in value):
        such = f'["{known[0]}", "{known[-1]}"]'
        return f"The steps asked are a list such as {such}; those that there are: {', '.join(known)}."
    formerly = {old for step in lesson.steps for old in step.formerly}
    unknown = [one for one in value if one not in known and one not in formerly]
    if not unknown:
        return ""
    return f"{quoted(unknown[0])} is no step of this lesson; those that there are: {', '.join(known)}."


def text_of(value: object) -> str | None:
    """A text as it stands, a number as it would be typed, None for anything else."""
    if isinstance(value, str):
        return value
    if isinstance(value, bool) or not isinstance(value, int | float):
        return None
    return repr(value) if not abs(value) > LARGEST_NUMBER or value == inf else None
