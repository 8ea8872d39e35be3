"""What students get wrong where they say why they would build a solution."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import Any, Protocol

from tests.bench.students.chart_mistakes import always
from tests.bench.students.people import Mistake


class Chooser(Protocol):
    """A student of a lesson that ends with a choice."""

    def at(self, key: str) -> Any: ...

    def costs(self, side: str) -> Collection[str]:
        """Every reason that can be given."""

    def true_reasons(self, side: str) -> Collection[str]:
        """Those that hold for a solution."""


def choose(s: Chooser, what: str) -> Iterator[Mistake]:
    """Giving a reason that does not hold; no choice itself is wrong."""
    if what == "why":
        chosen = s.at("choose.which")
        for reason in s.costs(chosen):
            if reason not in s.true_reasons(chosen):
                yield Mistake(f"untrue {reason}", always(reason))
