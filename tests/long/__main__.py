"""The full counts: every suite of this folder, for minutes where the test command takes a sample for seconds.

A suite is a module `long_*.py` with a `main()` that returns a mapping of what was counted to how many there
were, or raises AssertionError where something failed; what it prints meanwhile is indented, and at its end there
is one line. Counts named "missed", "false", "wrong" or "failed" (or with such a word among them) must be zero.
Names given on the command line choose suites: `python -m tests.long designers`.
"""

import sys
from collections.abc import Mapping
from importlib import import_module
from pathlib import Path
from time import perf_counter

MUST_BE_ZERO = ("missed", "false", "wrong", "failed")


def main(chosen: list[str]) -> int:
    """Run the suites, each to its end; 1 if any of them found a fault."""
    names = sorted(path.stem for path in Path(__file__).parent.glob("long_*.py"))
    wanted = [name for name in names if not chosen or name.removeprefix("long_") in chosen]
    if not wanted:
        print(
            f"There is no such suite; there are: {', '.join(name.removeprefix('long_') for name in names)}."
        )
        return 1
    faulty = [name for name in wanted if not _passes(name)]
    print(f"Failed: {', '.join(faulty)}" if faulty else "All counts are as they should be.")
    return 1 if faulty else 0


def _passes(name: str) -> bool:
    begun = perf_counter()
    try:
        counts = import_module(f"tests.long.{name}").main() or {}
    except AssertionError as fault:
        print(f"{name}: FAILED after {perf_counter() - begun:.0f} s: {fault}", flush=True)
        return False
    told = "; ".join(f"{what}: {count}" for what, count in counts.items())
    passed = not faults(counts)
    print(f"{name}: {'passed' if passed else 'FAILED'} in {perf_counter() - begun:.0f} s; {told}", flush=True)
    return passed


def faults(counts: Mapping[str, int]) -> dict[str, int]:
    """Of the counts those that must be zero and are not."""
    return {
        what: count
        for what, count in counts.items()
        if count and any(word in MUST_BE_ZERO for word in what.split())
    }


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
