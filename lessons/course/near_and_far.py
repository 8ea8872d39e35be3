"""Near and far: the two crossings of a mismatch circle with a unit circle."""

from __future__ import annotations

from lessons.course.pairs import Pair
from lessons.grammar.branch import Branch

NEAR = Branch("near", "near", "first", also=("nearer", "nearest"))
FAR = Branch("far", "far", "second", also=("farther", "further"))
BOTH = (NEAR, FAR)
CROSSINGS = Pair(
    BOTH, "crossing", "The near crossing is the first one met when walking clockwise from the load."
)
near_and_far, other = CROSSINGS.fields, CROSSINGS.other
