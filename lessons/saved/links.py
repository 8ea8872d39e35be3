"""Links: a problem and a notation in words, or a whole sheet packed small enough for an address."""

from __future__ import annotations

import base64
import binascii
import json
import zlib
from collections.abc import Mapping
from typing import Any
from urllib.parse import urlencode

from lessons.grammar.lesson import Lesson, Problem
from lessons.grammar.notation import Notation
from lessons.problems.texts import read_problem, write_problem
from lessons.saved.records import BadRecord, notation_from, sheet_from_record, sheet_record, write_notation
from lessons.working.sheet import Sheet

LARGEST = 256 * 1024  # bytes of a sheet's record once unpacked; a full one is a fiftieth of it
BROKEN = (
    "The sheet in this link is incomplete or damaged: copy the whole link, or open the sheet from a file."
)


def read_link(query: Mapping[str, str], otherwise: Problem) -> tuple[Problem, Notation, list[str]]:
    """The problem and the notation in an address, and a sentence for each thing in it that could not be used.

    otherwise : the problem where the address holds no load."""
    reading = read_problem(query)
    notation, faults = notation_from(query)
    problem = reading.problem if "load" in query else otherwise
    return problem, notation, [*reading.faults.values(), *faults.values()]


def problem_link(sheet: Sheet) -> str:
    """The query that opens this sheet's problem, fresh, in this notation."""
    return urlencode({**write_problem(sheet.problem), **write_notation(sheet.notation)})


def sheet_link(sheet: Sheet) -> str:
    """The query that opens this whole sheet, with all that was entered."""
    plain = json.dumps(sheet_record(sheet), separators=(",", ":"), ensure_ascii=False).encode()
    return urlencode({"sheet": base64.urlsafe_b64encode(zlib.compress(plain, 9)).decode().rstrip("=")})


def sheet_from_link(packed: str, lessons: Mapping[str, Lesson]) -> Sheet:
    """The sheet that was packed into a link. Raises BadRecord with a sentence for anything else."""
    return sheet_from_record(_unpacked(packed), lessons)


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
