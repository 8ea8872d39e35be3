"""Every later designer against a search, in full: sources, Pi and T, losses, rows of sections, stubs.

`main` prints what each missed and what it gave that is none; the usual tests run a sample of the same searches.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from functools import partial
from typing import Any

import core
from tests.core import brute_force, searches, searches_of_lines
from tests.core.searches import Counts

Search = Callable[[int, int], Counts]
PLACEMENTS, ENDS = ("shunt", "series"), ("short", "open")
BOTH: list[dict[str, Any]] = [
    {"placement": placement, "end": end} for placement in PLACEMENTS for end in ENDS
]

SEARCHES: list[Search] = [
    *(partial(searches.conjugate_single_stub, **choice) for choice in BOTH),
    searches.conjugate_quarter_wave,
    *(partial(searches.conjugate_quarter_wave_beside_stub, end=end) for end in ENDS),
    searches.conjugate_section,
    *(partial(searches.conjugate_l_network, placement=placement) for placement in PLACEMENTS),
    *(partial(searches.lossy_l_network, placement=placement) for placement in PLACEMENTS),
    partial(searches.three_parts, designer=core.pi_network, placement="shunt"),
    partial(searches.three_parts, designer=core.t_network, placement="series"),
    *(partial(searches_of_lines.series_double_stub, ends=ends) for ends in brute_force.ENDINGS),
    *(partial(searches_of_lines.triple_stub, ends=(*ends, "short")) for ends in brute_force.ENDINGS),
    searches_of_lines.first_of_three,
    *(partial(searches_of_lines.two_equal_stubs, end=end) for end in ENDS),
    *(partial(searches_of_lines.stub_and_section, **choice) for choice in BOTH),
    *(partial(searches_of_lines.stub_and_quarter_wave, **choice) for choice in BOTH),
    searches_of_lines.two_sections,
    searches_of_lines.equal_ripples,
]
CASES = 2_000


def main(cases: int = CASES) -> Mapping[str, int]:
    """Run every search on this many problems each and tell its counts; returns their sums."""
    whole: Counter[str] = Counter()
    for seed, search in enumerate(SEARCHES):
        counts = search(cases, 100 + seed)
        whole.update(
            {
                "problems": counts.cases,
                "matches": counts.found,
                "missed": counts.missed,
                "false": counts.invented,
                "failed": counts.off,
            }
        )
        print(
            f"  {counts.designer}: {counts.cases} problems, {counts.found} matches, {counts.missed} missed, "
            f"{counts.invented} false, apart {counts.apart:.1e}, left over {counts.left_over:.1e}",
            flush=True,
        )
    return whole
