"""The values of a walk along a lossy line: what its loss leaves of the reflection, and of the power."""

from __future__ import annotations

from math import inf, log10

from core.attenuation import DECIBELS_PER_NEPER
from lessons.grammar.kinds.base import REFLECTION_TOLERANCE
from lessons.grammar.lesson import Impossible, Work
from lessons.grammar.side import reflection_of


def kept(loss_db: float) -> float:
    """What a line of this matched loss leaves of the power of one wave that runs along it once, as a part of one."""
    return float(10 ** (-loss_db / 10))


def load_size(work: Work) -> float:
    """|Γ| of the load, at the student's own point."""
    return float(abs(work["place"]))


def drawn_load_size(work: Work) -> float:
    """The same by the standing-wave ratio that the student has read."""
    return abs(reflection_of(work["mismatch"]))


def input_size(work: Work) -> float:
    """|Γ| at the input: the wave has lost the line's decibels on its way there, and once more on its way back."""
    return load_size(work) * kept(work["loss"])


def input_ratio(work: Work) -> float:
    """The standing-wave ratio there. Raises Impossible where more comes back than goes in."""
    size = work["size"]
    if size >= 1:
        raise Impossible("With that size more would come back than goes in: go back to it.", "inward")
    return float((1 + size) / (1 - size))


def share_of(load: float, at_input: float, part: float) -> float:
    """Of the power that goes into a line, the percentage that reaches the load. Source: Pozar, 4th ed., eq. 2.92 to
    2.94 (from memory).

    load, at_input : |Γ| there.  part : what the line leaves of one wave's power."""
    return 100 * part * (1 - min(load, 1.0) ** 2) / (1 - at_input**2)


def share(work: Work) -> float:
    """The same from the student's own sizes. Raises Impossible where more would arrive than goes in."""
    size = work["size"]
    found = share_of(load_size(work), size, kept(work["loss"])) if size < 1 else inf
    if found > 100:
        raise Impossible(
            "With that size at the input more would arrive at the load than goes in: go back to it.", "inward"
        )
    return found


def share_by_ratios(work: Work) -> float:
    """The same by both standing-wave ratios that the student has read."""
    return share_of(drawn_load_size(work), abs(reflection_of(work["ratio"])), kept(work["loss"]))


def share_off(work: Work) -> float:
    """How far off the share may be, in percent, where the load's |Γ| is read as exactly as a chart allows."""
    part, size = kept(work["loss"]), load_size(work)
    ends = (min(max(size + by, 0.0), 0.999) for by in (-REFLECTION_TOLERANCE, REFLECTION_TOLERANCE))
    low, high = (share_of(end, end * part, part) for end in ends)
    return abs(high - low) / 2


def decibels_lost(share: float) -> float:
    """A share in percent as a loss in decibels."""
    return -10 * log10(share / 100) if share > 0 else inf


def decibels_off(work: Work) -> float:
    """How far off the loss may be, in decibels."""
    return DECIBELS_PER_NEPER / 2 * share_off(work) / max(work["share"], 1e-6)


def mismatch_loss(size: float) -> float:
    """The decibels by which a reflection of this size lessens the power that goes on."""
    return decibels_lost(100 * (1 - min(size, 1.0) ** 2))
