"""A hundred thousand calls of everything public in the core: nothing but answers and its own refusals."""

from __future__ import annotations

from tests.core import fuzz

CALLS, SEED = 100_000, 2


def main() -> int:
    """Print the counts and the first of what went wrong; the number of failures."""
    wrong, answered = fuzz.faults(CALLS, SEED)
    print(
        f"{CALLS:,} calls of {len(fuzz.targets())} names: {answered.total():,} answered, {wrong.total()} faults"
    )
    for fault, times in wrong.most_common(20):
        print(f"{times:>6}  {fault}")
    return wrong.total()


if __name__ == "__main__":
    raise SystemExit(main() != 0)
