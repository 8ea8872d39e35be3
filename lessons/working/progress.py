"""How far a student has come in a lesson: the worked example fades, three clean problems in a row master it."""

from __future__ import annotations

from dataclasses import asdict, dataclass, fields, replace
from datetime import date, timedelta
from itertools import pairwise
from typing import Literal

from lessons.grammar.catalogue import Catalogue
from lessons.working.sheet import Sheet

FADING = 4
MASTERY = 3
REVIEWS = (timedelta(days=2), timedelta(days=7))
MOST = 99  # more steps than any lesson has
Worked = Literal["all", "first", "none"]
"""How much of a problem the tutor works: every step, a press each; the first steps; nothing."""


@dataclass(frozen=True)
class Progress:
    """What is known of a student.

    worked : worked examples seen.  own : last steps that are the student's to do; all of them once it reaches the
    lesson's length.  run : problems in a row that were solved without hint or reveal.  mastered : day, ISO form, or "".
    reviews : reviews done since."""

    worked: int = 0
    own: int = 0
    run: int = 0
    mastered: str = ""
    reviews: int = 0

    def leading(self, steps: int) -> int:
        """How many leading steps the tutor works in the next problem: all at first, then fewer and fewer."""
        return steps if self.worked == 0 and self.own == 0 else max(steps - self.own, 0)

    def first_steps(self, steps: int) -> int:
        """How many steps are worked where the student wants the first ones: what is due, else all but the last few."""
        due = self.leading(steps)
        return due if 0 < due < steps else max(steps - FADING, 1)

    def choosing(self, worked: Worked, steps: int) -> Progress:
        """The student said how much is to be worked in a lesson of so many steps, and this holds from here on."""
        if worked == "all":
            return replace(self, worked=0, own=0)
        own = MOST if worked == "none" else steps - self.first_steps(steps)
        return replace(self, worked=max(self.worked, 1), own=own)

    def alone(self) -> Progress:
        """The student asked to solve it: nothing is worked from here on."""
        return self.choosing("none", MOST)

    def after(self, sheet: Sheet) -> Progress:
        """The progress when a sheet is finished."""
        steps = sheet.steps
        if sheet.shown >= len(steps):
            return replace(self, worked=self.worked + 1, own=max(self.own, FADING))
        clean = [sheet.clean(step) for step in steps[sheet.shown :]]
        fades = any(first and second for first, second in pairwise(clean))
        own = max(self.own, len(clean))  # what was the student's to do stays so
        own = min(own + FADING, MOST) if fades else own
        carried = any(entry.carried for entry in sheet.entries.values())
        alone = sheet.shown == 0 and sheet.solved and not carried and all(map(sheet.unaided, steps))
        run = self.run + 1 if alone else 0
        done = replace(self, own=own, run=run)
        if self.mastered:
            return replace(done, reviews=self.reviews + 1) if self.review_is_due() else done
        return replace(done, mastered=date.today().isoformat()) if run >= MASTERY else done

    @property
    def review_day(self) -> date | None:
        """When the next mixed review is due, two and seven days after mastering; None before and after."""
        if not self.mastered or self.reviews >= len(REVIEWS):
            return None
        return date.fromisoformat(self.mastered) + REVIEWS[self.reviews]

    def review_is_due(self, today: date | None = None) -> bool:
        """Whether a mixed review is due."""
        return self.review_day is not None and (today or date.today()) >= self.review_day

    def record(self) -> dict[str, object]:
        """As plain data."""
        return asdict(self)

    @classmethod
    def from_record(cls, record: object) -> Progress:
        """From plain data; whatever cannot be read counts as a fresh start."""
        if not isinstance(record, dict):
            return cls()
        known = {f.name: record.get(f.name, f.default) for f in fields(cls)}
        try:
            date.fromisoformat(str(known["mastered"] or "2000-01-01"))
            counts = {
                name: min(max(int(known[name]), 0), MOST) for name in ("worked", "own", "run", "reviews")
            }
        except (TypeError, ValueError, OverflowError):
            return cls()
        return cls(**counts, mastered=str(known["mastered"]))


def progress_by_lesson(record: object, catalogue: Catalogue) -> dict[str, Progress]:
    """What was kept of each lesson, by its key. A record made when there was one lesson is that lesson's."""
    if not isinstance(record, dict):
        return {}
    if not all(isinstance(part, dict) for part in record.values()):
        return {catalogue.usual.key: Progress.from_record(record)}
    known = {key: catalogue.find(key) for key in record}
    return {lesson.key: Progress.from_record(record[key]) for key, lesson in known.items() if lesson}
