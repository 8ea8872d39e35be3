"""What goes wrong between a reactance and the part that is bought for it."""

from __future__ import annotations

from collections.abc import Iterator
from math import copysign, floor, log10, pi

from lessons.course import two_bought as bought
from lessons.course import two_values
from lessons.course.copper_slips import ValueOf, told
from lessons.course.two_values import PARTS, in_ohms, value_of
from lessons.grammar.lesson import Slip, Work
from lessons.grammar.side import SERIES, SHUNT, Side

SAME = 1e-9  # relative
TENS = (-3, 3, -1, 1, -6, 6)
OTHER = dict(zip(PARTS, reversed(PARTS), strict=True))


def _exchanged(which: str, of_step: str, usual: int = 2) -> Slip:
    """One part given for the other."""
    return told(
        lambda w: w.following(f"{of_step}.{which}"),
        "parts exchanged",
        "giving one part for the other",
        "Which of the two parts is this?",
        "The part nearer the load is the one that the load meets first.",
        lambda w: w[f"{of_step}.{OTHER[which]}"],
        usual=usual,
    )


def _by_tens(which: str, of_step: str, usual: int = 2) -> Slip:
    return Slip(
        key="power of ten",
        doing="slipping by powers of ten",
        question="Which prefix belongs there?",
        remedy="A nanohenry is 10⁻⁹ henry, a picofarad 10⁻¹² farad.",
        predict=lambda w: tuple(w.following(f"{of_step}.{which}") * 10.0**power for power in TENS),
        usual=usual,
    )


# --- values ---


def value_slips(which: str) -> tuple[Slip, ...]:
    """Slips of a part's value."""

    def value(work: Work) -> float:
        return bought.value(work, which)

    def side(work: Work) -> Side:
        return bought.way(work).side_of(which)

    def part(work: Work) -> float:
        return float(bought.way(work).at(work, which, bought.chosen(work)).real)

    def sized(work: Work, ohms: float) -> float:
        """A part of the right kind with another size of reactance."""
        return value_of(copysign(ohms, value(work)), work["frequency"])

    def of_others(work: Work) -> tuple[float, ...]:
        """The same part in the solutions that were not chosen."""
        there = (one for one in work.lesson.branches_of(work.problem) if one is not bought.chosen(work))
        return tuple(two_values.arrangement_of(one).value(work, which, one) for one in there)

    return (
        told(
            value,
            "two pi forgotten",
            "leaving the 2π out",
            "Did you multiply the frequency by 2π?",
            "A reactance goes with 2π times the frequency.",
            lambda w: value(w) * 2 * pi,
            usual=3,
        ),
        told(
            value,
            "coil and capacitor exchanged",
            "taking a coil for a capacitor, or the other way round",
            "Which part has this sign?",
            "In the line a positive x is a coil; across it a positive b is a capacitor.",
            lambda w: value_of(-in_ohms(part(w), side(w), w["line"]), w["frequency"]),
        ),
        told(
            value,
            "other side",
            "treating a susceptance as a reactance, or the other way round",
            "Does the part stand in the line, or across it?",
            lambda w: (
                "This part stands in the line: x = X / Z₀."
                if side(w) is SERIES
                else "This part stands across the line: b = −Z₀ / X."
            ),
            lambda w: sized(w, in_ohms(part(w), SHUNT if side(w) is SERIES else SERIES, w["line"])),
        ),
        told(
            value,
            "not denormalised",
            "leaving the line's impedance out",
            "Is that reactance in ohms?",
            "Go back to ohms with {line} first.",
            lambda w: sized(w, in_ohms(part(w), side(w), 1.0)),
        ),
        _by_tens(which, "value"),
        _exchanged(which, "value"),
        Slip(
            key="branches mixed",
            doing="giving a part of a solution that is not built",
            question="Which solution is it that you build?",
            remedy="Keep to the solution you chose above.",
            predict=of_others,
        ),
    )


# --- preferred values ---


def _rounded(exact: float) -> Iterator[float]:
    """A value to one digit and to two, where nothing is sold of that value."""
    for digits in (1, 2):
        step = 10.0 ** (floor(log10(abs(exact))) + 1 - digits)
        found = copysign(round(abs(exact) / step) * step, exact)
        if all(abs(found / one - 1) > SAME for one in (bought.nearest(found, "E24"), exact)):
            yield found


def preferred_slips(which: str) -> tuple[Slip, ...]:
    """Slips of what is bought for a part."""

    def value(work: Work) -> float:
        return bought.preferred(work, which)

    def exact(work: Work) -> float:
        return float(work[f"value.{which}"])

    def unless_right(work: Work, found: float) -> float | None:
        return None if found in bought.as_near(work, which) else found

    def round_numbers(work: Work) -> tuple[float, ...]:
        return tuple(_rounded(exact(work)))

    return (
        told(
            value,
            "wrong way",
            "rounding the wrong way",
            "Is that the nearest value of the series?",
            "Look at the values on either side: one of them is nearer.",
            lambda w: bought.passed_over(w, which),
            usual=1,
        ),
        told(
            value,
            "wrong series",
            lambda w: f"looking in {bought.other_shelf(w)}",
            "Which series do the parts come in?",
            "Here the parts come in {shelf}.",
            lambda w: unless_right(w, bought.nearest(exact(w), bought.other_shelf(w))),
            usual=1,
        ),
        told(
            value,
            "not rounded",
            "giving the value that was calculated",
            "Can you buy that?",
            "Parts come in the values of {shelf} alone: take the nearest.",
            exact,
            usual=1,
        ),
        Slip(
            key="round number",
            doing="rounding to a round number",
            question="Is that a value of the series?",
            remedy="The values of {shelf} are alike in ratio, and most of them are no round numbers.",
            predict=round_numbers,
            usual=1,
        ),
        _by_tens(which, "preferred", 1),
        _exchanged(which, "preferred", 1),
    )


# --- what they cost ---


def _with_one(which: str) -> ValueOf:
    return lambda w: bought.ratio_with(w, (which,))


COST = (
    Slip(
        key="match taken for granted",
        doing="writing down the match of the exact values",
        question="Did you reckon with the parts as bought?",
        remedy="The match is that of the exact values. Reckon again with those that are bought.",
        predict=lambda w: (1.0, bought.ratio_with(w, ())),
        usual=1,
    ),
    *(
        told(
            bought.cost,
            f"{which} part alone",
            f"taking the {words} alone as bought",
            "Are both parts as bought?",
            "Both parts are bought: take neither of them as calculated.",
            _with_one(which),
            usual=1,
        )
        for which, words in (("near", "part nearer the load"), ("far", "other part"))
    ),
    told(
        bought.cost,
        "size of reflection",
        "giving the size of the reflection",
        "Is that the SWR, or |Γ|?",
        "The SWR is (1 + |Γ|) / (1 − |Γ|).",
        lambda w: (bought.cost(w) - 1) / (bought.cost(w) + 1),
        usual=1,
    ),
)
