"""What a student does to a sheet, and what it leaves in a field."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

UNNAMED = "one of several"
MOST_ATTEMPTS = 400
Doing = Literal["enter", "draw", "carry", "hint", "reveal", "start over", "undo"]


@dataclass(frozen=True)
class Attempt:
    """One thing that a student did. at : key of the field or the step that it was done to.

    text : what was entered; where a sheet was begun anew or something taken back, how many steps the tutor had worked
    on the sheet before, "" where not all that led to that one is known."""

    doing: Doing
    at: str = ""
    text: str = ""


@dataclass(frozen=True)
class Entry:
    """What stands in one field. carried : wrong, but taken along.  revealed : shown by the tutor.

    slips : keys of the slips met here on earlier tries, each once; UNNAMED where several gave the number."""

    text: str = ""
    carried: bool = False
    revealed: bool = False
    slips: tuple[str, ...] = ()
