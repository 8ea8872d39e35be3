"""Points: a small table in a set's file, applied to a marked sheet and nothing more."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

MOST_POINTS = 1000.0


@dataclass(frozen=True)
class Points:
    """What a step is worth.

    step : each step that is right.  of : steps that are worth something else, by their keys.
    hint : taken off for each hint, down to nothing.  follow_through : whether what is right for a student's own earlier
    values counts."""

    step: float = 1.0
    hint: float = 0.0
    follow_through: bool = True
    of: Mapping[str, float] = field(default_factory=dict, hash=False)

    def full(self, step: str) -> float:
        """What a step is worth at most."""
        return self.of.get(step, self.step)

    def earned(self, step: str, right: bool, hints: int, revealed: bool, follows: bool) -> float:
        """What a step has earned. right : whether all that it asks for is right, or right for earlier values.

        follows : whether some of it is right for the student's earlier values only."""
        if not right or revealed or (follows and not self.follow_through):
            return 0.0
        return max(0.0, round(self.full(step) - hints * self.hint, 6))


def read_points(table: object, steps: Mapping[str, str]) -> tuple[Points | None, dict[str, str]]:
    """The points of a set's table, None where it has none; and a sentence for each key that is wrong.

    steps : keys of the steps that the set's problems ask for, also by the former keys of each. A step that was several
    is worth what they were together."""
    if table is None:
        return None, {}
    if not isinstance(table, dict):
        return None, {"points": "Points are a table: [points], then step, hint, follow_through and of."}
    faults = {
        f"points.{key}": "There is no such field; a table of points has step, hint, follow_through and of."
        for key in table
        if key not in ("step", "hint", "follow_through", "of")
    }
    for key in ("step", "hint"):
        if key in table and not _is_worth(table[key]):
            faults[f"points.{key}"] = f"This must be a number from 0 to {MOST_POINTS:g}."
    if not isinstance(table.get("follow_through", True), bool):
        faults["points.follow_through"] = "This must be true or false."
    of = table.get("of", {})
    if not isinstance(of, dict):
        faults["points.of"] = "This must be a table of steps and what they are worth: of = { choose = 2 }."
    else:
        faults |= _faults_of_steps(of, steps)
    if faults:
        return None, faults
    numbers = {key: float(table[key]) for key in ("step", "hint") if key in table}
    worth: dict[str, float] = {}
    for key, value in of.items():
        worth[steps[key]] = worth.get(steps[key], 0.0) + float(value)
    return Points(**numbers, follow_through=table.get("follow_through", True), of=worth), {}


def _faults_of_steps(of: Mapping[str, object], steps: Mapping[str, str]) -> dict[str, str]:
    known = ", ".join(sorted({*steps.values()}))
    unknown = {
        f"points.of.{key}": f"No problem of this set asks for such a step; those asked are {known}."
        for key in of
        if key not in steps
    }
    wrong = {
        f"points.of.{key}": f"This must be a number from 0 to {MOST_POINTS:g}."
        for key, value in of.items()
        if key in steps and not _is_worth(value)
    }
    return unknown | wrong


def _is_worth(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool) and 0 <= value <= MOST_POINTS
