"""A hundred thousand calls of everything public in the core: nothing but answers and its own refusals."""

from __future__ import annotations

from collections.abc import Mapping

from tests.core import fuzz

CALLS, SEED = 100_000, 2


def main() -> Mapping[str, int]:
    """Count what went wrong and tell the first of it, and the names that never answered."""
    wrong, answered = fuzz.faults(CALLS, SEED)
    for fault, times in wrong.most_common(20):
        print(f"  {times:>6}  {fault}")
    names = [name for name, _ in fuzz.targets()]
    return {
        "names": len(names),
        "calls": CALLS,
        "of them answered": answered.total(),
        "failed calls": wrong.total(),
        "missed names": sum(not answered[name] for name in names),
    }
