"""A class list: a text file with a name or a number a line."""

from __future__ import annotations

from pathlib import Path

from app.commands.readers import shown
from lessons.classes.hand_in import visible
from lessons.problems.variants import LONGEST_NAME, folded


def read_class_list(path: Path) -> tuple[str, ...]:
    """The names in a file, one a line; empty lines and what follows a # at a line's beginning are left out.

    Raises ValueError with a sentence where it is no such list."""
    try:
        text = path.read_text("utf-8-sig")
    except UnicodeDecodeError as fault:
        raise ValueError(
            f"{shown(str(path))} is no text file in UTF-8: a class list is one name a line."
        ) from fault
    except OSError as fault:
        raise ValueError(f"{shown(str(path))} cannot be read: {fault.strerror}.") from fault
    lines = [(number, visible(line)) for number, line in enumerate(text.splitlines(), 1)]
    named = [(number, name) for number, name in lines if name and not name.startswith("#")]
    seen: dict[str, tuple[int, str]] = {}
    for number, name in named:
        if len(name) > LONGEST_NAME or not folded(name):
            raise ValueError(
                f"{path.name}, line {number}: a name has a letter or a digit, and at most {LONGEST_NAME} characters."
            )
        if (earlier := seen.setdefault(folded(name), (number, name))) != (number, name):
            raise ValueError(
                f"{path.name}, line {number}: {name} is in line {earlier[0]} already, written {earlier[1]}; "
                "both would have one variant, so add a first name or a number."
            )
    if not named:
        raise ValueError(f"{path.name} holds no name: a class list is one name or number a line.")
    return tuple(name for _, name in named)
