"""A drill: one step of a lesson alone, on five fresh loads, with the steps before it filled in."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any, TypeGuard

from lessons.grammar.difficulty import ANY, Difficulty, difficulty_of
from lessons.grammar.lesson import Lesson, Step
from lessons.working.attempts import UNNAMED
from lessons.working.sheet import Sheet

LOADS = 5
ALIKE = 2  # slips of one kind in a step, after which it is offered
MOST_TEXTS, LONGEST_TEXT = 20, 200


@dataclass(frozen=True)
class Drill:
    """step : its key.  went : of each load done, whether it went right at the first go, without help.

    difficulty : of all its loads.
    back : the problem that it was begun from, as the texts of a form; empty where it came from elsewhere."""

    step: str
    went: tuple[bool, ...] = ()
    back: Mapping[str, str] = field(default_factory=dict)
    difficulty: Difficulty = ANY

    @property
    def number(self) -> int:
        """Which load is on the desk, from 1."""
        return len(self.went) + 1

    def went_on(self, sheet: Sheet) -> tuple[bool, ...]:
        """How each load went, with the one on this sheet if it is done."""
        return (*self.went, sheet.clean(sheet.steps[-1])) if sheet.finished else self.went

    def after(self, sheet: Sheet) -> Drill | None:
        """The drill with the next load, None where this was the last one."""
        went = self.went_on(sheet)
        return replace(self, went=went) if len(went) < LOADS else None

    def record(self) -> dict[str, Any]:
        """As plain data."""
        return {
            "step": self.step,
            "went": list(self.went),
            "back": dict(self.back),
            **self.difficulty.texts,
        }

    @classmethod
    def from_record(cls, record: object, lesson: Lesson) -> Drill | None:
        """From plain data; None for whatever is no drill of the lesson."""
        step = drilled(lesson, record.get("step")) if isinstance(record, dict) else None
        if not isinstance(record, dict) or step is None:
            return None
        went, back = record.get("went"), record.get("back")
        if not isinstance(went, list) or len(went) >= LOADS or not all(isinstance(one, bool) for one in went):
            return None
        difficulty = difficulty_of(record.get("difficulty")) or ANY
        return cls(step.key, tuple(went), back if _are_texts(back) else {}, difficulty)


def drilled(lesson: Lesson, key: object) -> Step | None:
    """The step that has or had that key, where the lesson has it."""
    return next((step for step in lesson.steps if key in (step.key, *step.formerly)), None)


def is_offered(sheet: Sheet, step: Step) -> bool:
    """Whether two slips of one kind were made in a step."""
    met: Counter[str] = Counter()
    for one in step.fields:
        entry, verdict = sheet.entries.get(one.key), sheet.verdicts.get(one.key)
        met.update(entry.slips if entry else ())
        met.update([verdict.slip] if verdict and verdict.slip else [])
    del met[UNNAMED]  # several that gave one number are not of one kind
    return max(met.values(), default=0) >= ALIKE


def _are_texts(value: object) -> TypeGuard[dict[str, str]]:
    return (
        isinstance(value, dict)
        and len(value) <= MOST_TEXTS
        and all(isinstance(text, str) and len(text) <= LONGEST_TEXT for one in value.items() for text in one)
    )
