"""The derivation from the solution chosen to the parts that are bought for it: each value from the ones before it."""

from __future__ import annotations

from collections.abc import Collection
from math import copysign

from core.line import swr
from core.lumped import LumpedPart
from core.network import MatchingNetwork
from core.preferred import SERIES, nearest_preferred, preferred_beside
from lessons.course.two_values import PARTS, Arrangement, arrangement_of, reactance_of
from lessons.grammar.branch import Branch
from lessons.grammar.kinds.base import RELATIVE_TOLERANCE
from lessons.grammar.lesson import Impossible, Work


def chosen(work: Work) -> Branch:
    """The solution that is built."""
    branch = work.chosen
    assert branch is not None  # a lesson that asks for a choice has one
    return branch


def way(work: Work) -> Arrangement:
    """Its arrangement."""
    return arrangement_of(chosen(work))


def shelf(work: Work) -> str:
    """The series that the parts come in, by its name in core."""
    return str(work["e_series"]).upper()


def other_shelf(work: Work) -> str:
    """The one that they do not come in."""
    return next(one for one in SERIES if one != shelf(work))


def value(work: Work, which: str) -> float:
    """Nanohenries of a part, or minus picofarads. Raises Impossible."""
    return way(work).value(work, which, chosen(work))


def beside(work: Work, which: str, series: str) -> tuple[float, float]:
    """The values of a series on either side of a part's: the smaller and the larger part."""
    exact = float(work[f"value.{which}"])
    below, above = preferred_beside(abs(exact), series)
    return copysign(float(below), exact), copysign(float(above), exact)


def nearest(exact: float, series: str) -> float:
    """The value of a series that is nearest by ratio."""
    return copysign(float(nearest_preferred(abs(exact), series)), exact)


def preferred(work: Work, which: str) -> float:
    """What is bought for a part. Raises Impossible."""
    return nearest(float(work[f"value.{which}"]), shelf(work))


def as_near(work: Work, which: str) -> tuple[float, ...]:
    """Every value of the series that may be called nearest: by ratio or by difference, and half a percent either way.

    Between two values of a series the two ways part for some values near the middle, and the trade goes both."""
    exact = float(work[f"value.{which}"])
    found: dict[float, None] = {}
    for off in (1.0, 1 - RELATIVE_TOLERANCE, 1 + RELATIVE_TOLERANCE):
        below, above = (float(one) for one in preferred_beside(abs(exact) * off, shelf(work)))
        by_difference = below if abs(exact) * off - below <= above - abs(exact) * off else above
        found |= dict.fromkeys((nearest(exact * off, shelf(work)), copysign(by_difference, exact)))
    return tuple(found)


def passed_over(work: Work, which: str) -> float | None:
    """The value of the series on the other side of the part's; None where that is right as well."""
    right = as_near(work, which)
    return next((one for one in beside(work, which, shelf(work)) if one not in right), None)


# --- what is built of them ---


def built(work: Work, near: float, far: float) -> MatchingNetwork:
    """The problem's load with parts of these values, in the solution that is chosen."""
    arrangement, hertz = way(work), work["frequency"]
    parts = tuple(
        LumpedPart(reactance_of(one, hertz), arrangement.side_of(which).placement, hertz)
        for which, one in zip(PARTS, (near, far), strict=True)
    )
    return MatchingNetwork(work["load"], work["line"], parts)


def ratio_with(work: Work, as_bought: Collection[str]) -> float:
    """The standing-wave ratio that the line sees with these parts as bought, the others as calculated."""
    values = (work[f"{'preferred' if which in as_bought else 'value'}.{which}"] for which in PARTS)
    return float(swr(built(work, *map(float, values)).input_reflection()))


def cost(work: Work) -> float:
    """The same with both as bought. Raises Impossible."""
    return ratio_with(work, PARTS)


def added(work: Work, which: str) -> float:
    """What a part as bought adds: x in the line, b across it."""
    side = way(work).side_of(which)
    ohms = reactance_of(float(work[f"preferred.{which}"]), work["frequency"])
    return ohms / work["line"] if side.immittance == "impedance" else -work["line"] / ohms


def told(work: Work) -> str:
    """What the parts leave as they are bought, where that is asked at all; nothing where it cannot be told."""
    asked = {step.key for step in work.lesson.steps_of(work.problem)}
    if not {"preferred", "cost"} & asked:
        return ""
    try:
        left = work.notation.number(ratio_with(work, PARTS), 3)
        near, far = (work.write(f"preferred.{which}") for which in PARTS)
    except Impossible:
        return ""
    one = chosen(work).named("one")
    return f"Bought as {near} and {far}, the parts of the {one} leave a standing-wave ratio of {left}."
