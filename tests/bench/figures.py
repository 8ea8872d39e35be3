"""Figures with their goals: printed as they are measured, and written into the README's table."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

README = Path(__file__).parents[2] / "README.md"
BEGIN, END = "<!-- measured -->", "<!-- end of measured -->"
HEAD = "| | measured | goal |\n|---|---|---|\n"


@dataclass(frozen=True)
class Figure:
    """What was measured. goal : the most it should be, None where it is only told.  why : what keeps it from that."""

    what: str
    value: float
    unit: str
    goal: float | None = None
    why: str = ""

    @property
    def met(self) -> bool:
        """Whether it is as good as it should be."""
        return self.goal is None or self.value <= self.goal

    def line(self) -> str:
        """One line to print."""
        text = f"{self.what:<64} {self._written(self.value):>12}"
        if self.goal is None:
            return text
        told = "met" if self.met else f"NOT MET{self.why and ': ' + self.why}"
        return f"{text}   (goal <= {self._written(self.goal)}: {told})"

    def row(self) -> str:
        """One row of the table."""
        goal = "" if self.goal is None else f"at most {self._written(self.goal)}"
        return f"| {self.what} | {self._written(self.value)} | {goal}{'' if self.met else ', not met'} |\n"

    def _written(self, value: float) -> str:
        digits = 0 if abs(value) >= 100 or value == int(value) else 1 if abs(value) >= 10 else 2
        return f"{value:.{digits}f}{self.unit and ' ' + self.unit}"


def show(figures: Iterable[Figure]) -> list[Figure]:
    """Print each as it comes; all of them."""
    shown = []
    for one in figures:
        print(one.line(), flush=True)
        shown.append(one)
    return shown


def tabled(readme: str, figures: Iterable[Figure]) -> str:
    """The README with these figures in its table. Raises ValueError if it has no place for one."""
    table = f"{BEGIN}\n{HEAD}{''.join(one.row() for one in figures)}{END}"
    text, count = re.subn(f"{BEGIN}.*?{END}", lambda found: table, readme, flags=re.DOTALL)
    if count != 1:
        raise ValueError(f"the README has {count} places for the table, not one")
    return text
