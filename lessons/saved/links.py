"""Links: a problem and a notation in words, or a whole sheet packed small enough for an address."""

from __future__ import annotations

import base64
import binascii
import json
import zlib
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any
from urllib.parse import urlencode

from lessons.grammar.catalogue import Catalogue
from lessons.grammar.difficulty import ANY, DIFFICULTIES, Difficulty, difficulty_of
from lessons.grammar.lesson import Lesson
from lessons.grammar.notation import Notation
from lessons.grammar.numbers import quoted
from lessons.grammar.problem import Problem
from lessons.problems.places import Place, read_place
from lessons.problems.seeds import random_problem
from lessons.problems.sets import Shelf
from lessons.problems.texts import read_problem, required, write_problem
from lessons.saved.notations import notation_from, write_notation
from lessons.saved.records import BadRecord, sheet_from_record, sheet_record
from lessons.working.sheet import Sheet

LARGEST = 256 * 1024  # bytes of a sheet's record once unpacked; a full one is a fiftieth of it
SEEDS = 1_000_000
BROKEN = (
    "The sheet in this link is incomplete or damaged: copy the whole link, or open the sheet from a file."
)


@dataclass(frozen=True)
class Linked:
    """What an address asks for. problem : None where it states none.  faults : a sentence for each thing in it that
    could not be used.  place : of the problem in a set, where it names one."""

    lesson: Lesson
    problem: Problem | None
    notation: Notation
    faults: tuple[str, ...]
    place: Place | None = None


NO_SETS = Shelf()


def read_link(query: Mapping[str, str], catalogue: Catalogue, sets: Shelf = NO_SETS) -> Linked:
    """The lesson, the problem and the notation in an address. sets : those that it may name."""
    place, wrong_place = read_place(query, sets)
    if place is not None:
        notation, wrong = notation_from(query, place.item.lesson.symbols)
        return Linked(place.item.lesson, place.problem, notation, (*wrong_place, *wrong.values()), place)
    linked = _read_problem_link(query, catalogue)
    return replace(linked, faults=(*wrong_place, *linked.faults))


def _read_problem_link(query: Mapping[str, str], catalogue: Catalogue) -> Linked:
    lesson, faults = catalogue.usual, []
    if named := query.get("lesson", "").strip():
        found = catalogue.find(named)
        lesson = found or lesson
        if found is None:
            known = ", ".join(one.key for one in catalogue)
            faults.append(f"Halfturn has no lesson {quoted(named)}; those that it has are {known}.")
    reading = read_problem(query, lesson)
    notation, wrong = notation_from(query, lesson.symbols)
    problem = reading.problem if any(key in query for key in required(lesson)[:1]) else None
    difficulty, unknown = read_difficulty(query)
    faults += [unknown] if unknown else []
    if problem is None and (seed := query.get("seed", "").strip()):
        if seed.isascii() and seed.isdecimal() and int(seed[:9]) < SEEDS:
            problem = random_problem(int(seed), lesson, difficulty=difficulty)
        else:
            faults.append(f"{quoted(seed)} draws no random problem; a whole number below {SEEDS:,} does.")
    sentences = (*faults, *reading.faults.values(), *wrong.values())
    return Linked(lesson, problem, notation, sentences)


def read_difficulty(texts: Mapping[str, str]) -> tuple[Difficulty, str]:
    """The difficulty that texts name, the usual one where they name none; and what is wrong with them, or nothing."""
    named = texts.get("difficulty", "").strip()
    found = difficulty_of(named)
    known = ", ".join(one.key for one in DIFFICULTIES)
    wrong = "" if found else f"There is no difficulty {quoted(named)}; those that there are: {known}."
    return found or ANY, wrong


def problem_texts(problem: Problem, catalogue: Catalogue) -> dict[str, str]:
    """The texts that name this problem among those of all lessons."""
    lesson = catalogue.find(problem.lesson) or catalogue.usual
    named = {} if lesson is catalogue.usual else {"lesson": lesson.key}
    return {**named, **write_problem(problem, lesson)}


def problem_query(problem: Problem, notation: Notation, catalogue: Catalogue) -> str:
    """The query that opens this problem, fresh, in this notation."""
    return urlencode({**problem_texts(problem, catalogue), **write_notation(notation)})


def sheet_link(sheet: Sheet) -> str:
    """The query that opens this whole sheet, with all that was entered."""
    plain = json.dumps(sheet_record(sheet), separators=(",", ":"), ensure_ascii=False).encode()
    return urlencode({"sheet": base64.urlsafe_b64encode(zlib.compress(plain, 9)).decode().rstrip("=")})


def sheet_from_link(packed: str, catalogue: Catalogue) -> Sheet:
    """The sheet that was packed into a link. Raises BadRecord with a sentence for anything else."""
    return sheet_from_record(_unpacked(packed), catalogue)


def _unpacked(packed: str) -> Any:
    try:
        squeezed = base64.b64decode(packed + "=" * (-len(packed) % 4), altchars="-_", validate=True)
        unpack = zlib.decompressobj()
        plain = unpack.decompress(squeezed, LARGEST)  # a small link can hold a very large nothing
        if unpack.unconsumed_tail or not unpack.eof:
            raise BadRecord(BROKEN)
        return json.loads(plain)
    except (binascii.Error, zlib.error, ValueError, RecursionError) as fault:
        raise BadRecord(BROKEN) from fault
