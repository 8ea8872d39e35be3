"""A hand-in: the sheets of a set with a name or a number, in one file. Versioned JSON, made by the set's page.

A file comes back from anywhere, so everything in it is checked. What is wrong with the whole file refuses it with a
sentence; what is wrong with one sheet is told of that sheet, and the others are marked.
"""

from __future__ import annotations

import json
import os
import stat
import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from lessons.grammar.numbers import quoted
from lessons.problems.set_values import KEY, WORDS
from lessons.problems.variants import LONGEST_NAME, folded

KIND, VERSION = "hand-in", 1
LARGEST_FILE, MOST_SHEETS = 8_000_000, 400
NOT_ONE = "This is not a hand-in that Halfturn saved"
ALIEN_STARTS = {
    b"PK": "This is an archive: unpack it, and mark what is in it.",
    b"%PDF": "This is a PDF document, and only files that the set's page saved can be marked.",
    b"\x89PNG": "This is a picture, and only files that the set's page saved can be marked.",
    b"\xff\xd8": "This is a picture, and only files that the set's page saved can be marked.",
    b"\x1f\x8b": "This is an archive: unpack it, and mark what is in it.",
}


class BadHandIn(ValueError):
    """A file that cannot be marked; the message is the sentence for the instructor."""


@dataclass(frozen=True)
class HandIn:
    """What one file holds. name : as the student wrote it, without characters that cannot be seen.

    saved : when, None where it does not say.  sheets : the key of each problem, and its record as it came."""

    name: str
    set_key: str
    set_version: int
    saved: datetime | None
    sheets: tuple[tuple[str, Any], ...]

    @property
    def who(self) -> str:
        """The name without what people write differently."""
        return folded(self.name)


def hand_in_record(
    name: str, set_key: str, set_version: int, saved: datetime, sheets: Sequence[tuple[str, Any]]
) -> dict[str, Any]:
    """A hand-in as plain data for JSON, as the set's page makes it."""
    return {
        "halfturn": KIND,
        "version": VERSION,
        "set": {"key": set_key, "version": set_version},
        "name": name,
        "saved": saved.astimezone(UTC).isoformat(timespec="seconds").replace("+00:00", "Z"),
        "sheets": [{"problem": key, "sheet": record} for key, record in sheets],
    }


def read_file(path: Path) -> HandIn:
    """The hand-in in a file. Raises BadHandIn with a sentence for whatever cannot be one."""
    return read_hand_in(_bytes_of(path))


def read_hand_in(content: bytes) -> HandIn:
    """The hand-in that these bytes hold. Raises BadHandIn."""
    parts = _object(content)
    _check_kind(parts)
    about = parts.get("set")
    key, version = (about.get("key"), about.get("version")) if isinstance(about, dict) else (None, None)
    if not isinstance(key, str) or len(key) > WORDS["key"] or not KEY.fullmatch(key):
        raise BadHandIn(f"{NOT_ONE}: it does not say which set it is of.")
    if not isinstance(version, int) or isinstance(version, bool) or not 1 <= version < 10_000:
        raise BadHandIn(f"{NOT_ONE}: it does not say of which version of the set it is.")
    sheets = parts.get("sheets")
    if not isinstance(sheets, list) or len(sheets) > MOST_SHEETS:
        raise BadHandIn(f"{NOT_ONE}: its sheets are no list of at most {MOST_SHEETS}.")
    if not sheets:
        raise BadHandIn("There is no sheet in this hand-in.")
    return HandIn(_name(parts.get("name")), key, version, _time(parts.get("saved")), _sheets(sheets))


def visible(text: str) -> str:
    """A text without characters that cannot be seen or that turn the writing round, spaces between words single."""
    kept = (
        " " if (unicodedata.category(c)[0] in "ZC" and c in "\t\n\r\v\f") or c.isspace() else c for c in text
    )
    return " ".join("".join(c for c in kept if unicodedata.category(c)[0] != "C").split())


def _bytes_of(path: Path) -> bytes:
    try:
        if not stat.S_ISREG(os.stat(path).st_mode):
            raise BadHandIn("This is no ordinary file.")
        with path.open("rb") as file:
            content = file.read(LARGEST_FILE + 1)
    except OSError as fault:
        raise BadHandIn(f"The file cannot be read: {fault.strerror or fault}.") from fault
    if len(content) > LARGEST_FILE:
        raise BadHandIn(f"The file is larger than {LARGEST_FILE // 1_000_000} MB; no hand-in is.")
    return content


def _object(content: bytes) -> Mapping[str, Any]:
    for start, sentence in ALIEN_STARTS.items():
        if content.startswith(start):
            raise BadHandIn(sentence)
    if not content.strip():
        raise BadHandIn("The file is empty.")
    try:
        parts = json.loads(content.decode("utf-8-sig"))
    except UnicodeDecodeError as fault:
        raise BadHandIn(f"{NOT_ONE}: it is no text in UTF-8.") from fault
    except RecursionError as fault:
        raise BadHandIn(f"{NOT_ONE}: it is nested too deeply.") from fault
    except ValueError as fault:
        raise BadHandIn(
            "The file is damaged or no hand-in: it is not whole JSON. Ask for it again, as the set's page saved it."
        ) from fault
    if not isinstance(parts, dict):
        raise BadHandIn(f"{NOT_ONE}: it is no list of names and values.")
    return parts


def _check_kind(parts: Mapping[str, Any]) -> None:
    if parts.get("halfturn") != KIND:
        if "entries" in parts and "lesson" in parts:
            raise BadHandIn(
                "This is one sheet and not a hand-in: it has no name. Hand-ins are saved on the set's page."
            )
        raise BadHandIn(f"{NOT_ONE}.")
    version = parts.get("version")
    if not isinstance(version, int) or isinstance(version, bool) or version < 1:
        raise BadHandIn(f"{NOT_ONE}: it has no version.")
    if version > VERSION:
        raise BadHandIn("This hand-in was saved by a newer Halfturn than this one; mark it with that.")


def _name(name: object) -> str:
    if not isinstance(name, str):
        raise BadHandIn("This hand-in has no name or number.")
    if len(name) > LONGEST_NAME:
        raise BadHandIn(f"The name in this hand-in is longer than {LONGEST_NAME} characters.")
    if not folded(name):
        raise BadHandIn("The name in this hand-in has no letter and no digit, so it is nobody's.")
    return visible(name)


def _time(saved: object) -> datetime | None:
    if not isinstance(saved, str) or len(saved) > 40:
        return None
    try:
        found = datetime.fromisoformat(saved)
        return (found if found.tzinfo else found.replace(tzinfo=UTC)).astimezone(UTC)
    except (ValueError, OverflowError):
        return None


def _sheets(sheets: Sequence[Any]) -> tuple[tuple[str, Any], ...]:
    found = []
    for number, one in enumerate(sheets, 1):
        if not isinstance(one, dict) or not isinstance(one.get("problem"), str):
            raise BadHandIn(f"{NOT_ONE}: its sheet {number} does not say which problem it is of.")
        if len(one["problem"]) > WORDS["key"]:
            raise BadHandIn(f"{NOT_ONE}: its sheet {number} names no problem but {quoted(one['problem'])}.")
        found.append((one["problem"], one.get("sheet")))
    return tuple(found)
