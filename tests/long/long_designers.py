"""At least 2,000 cases a designer, with edge loads, lossy ones included: none missed, none false, the right reasons."""

from collections import Counter
from collections.abc import Mapping

from tests.core import completeness, lossy_counts
from tests.core.lossy_search import DOUBLE, SINGLE

CASES = 4_000
LOSSY_CASES = 600
"""Planted lossy problems of each kind: a third or so cannot be a passive load, the rest is asked twice more."""


def main() -> Mapping[str, int]:
    """Count each designer and print its line."""
    whole: Counter[str] = Counter()
    for name, suite in completeness.SUITES.items():
        _tell(whole, name, suite(CASES, 101))
    for name, counted, kinds in (
        ("lossy single stub", lambda kind: lossy_counts.single_stubs(LOSSY_CASES, 102, *kind), SINGLE),
        ("lossy double stub", lambda kind: lossy_counts.double_stubs(LOSSY_CASES, 103, kind), DOUBLE),
    ):
        found: Counter[str] = Counter()
        for kind in kinds:
            found.update(counted(kind))
        _tell(whole, name, found)
    return whole


def _tell(whole: Counter[str], name: str, found: Counter[str]) -> None:
    assert found["cases"] >= 2_000, f"only {found['cases']} cases of {name}"
    print(f"  {name}: " + ", ".join(f"{count:,} {what}" for what, count in found.items()), flush=True)
    whole.update(found)
