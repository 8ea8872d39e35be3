"""A million spoiled inputs, and a hundred thousand messages: answered or refused, soon, and in little room."""

from __future__ import annotations

import resource
import sys
from collections.abc import Mapping

from tests.app import fuzz

READ, HEARD, PARTS, SEED = 1_000_000, 100_000, 20, 11
MOST_GROWN = 100  # megabytes, once the caches are filled


def main() -> Mapping[str, int]:
    """Count what went wrong and what took long, and how much room it took."""
    wrong, slow, grown = 0, 0, 0
    for what, ask, count in (("inputs", fuzz.read_all, READ), ("messages", fuzz.hear_all, HEARD)):
        filled = 0
        for part in range(PARTS):
            told = ask(count // PARTS, SEED + part)
            wrong, slow = wrong + told.failed.total(), slow + told.slow.total()
            for fault, times in [*told.failed.most_common(5), *(+told.slow).most_common(5)]:
                sys.stdout.write(f"  {times:>6}  {fault}\n")
            filled = filled or megabytes()
        grown = max(grown, megabytes() - filled)
        longest = sorted(told.slowest.items(), key=lambda one: -one[1])[:5]
        shown = ", ".join(f"{name} {1000 * seconds:.0f} ms" for name, seconds in longest)
        sys.stdout.write(f"  {count} {what}; longest of the last part: {shown}\n")
    return {
        "inputs": READ,
        "messages": HEARD,
        "failed": wrong,
        "failed to be soon": slow,
        "megabytes grown": grown,
        "failed to stay small": int(grown > MOST_GROWN),
    }


def megabytes() -> int:
    """The most room that the process has taken so far."""
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return most // (1 << 20 if sys.platform == "darwin" else 1 << 10)
