"""What goes wrong with the sum at the junction, with what comes back, and with the proportion."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from lessons.course import junction_steps
from lessons.course import which_values as values
from lessons.course.copper_slips import told
from lessons.course.which_slips import WHICH, Wrong
from lessons.course.which_values import designed, is_off
from lessons.grammar import slips as made
from lessons.grammar.branch import Branch
from lessons.grammar.lesson import Slip, Work
from lessons.grammar.side import reflection_of


def total_slips(branch: Branch) -> tuple[Slip, ...]:
    """Slips of the sum at the junction."""

    def value(work: Work) -> complex:
        return values.total(work, branch)

    def line(work: Work) -> complex:
        return complex(work.of("arriving", branch))

    def stub(work: Work) -> float:
        return float(work.of("shows", branch))

    def stub_designed(work: Work) -> complex | None:
        if not is_off(work.problem, "length"):
            return None
        return values.added(line(work), values.stub_of(work, designed(work.problem, branch, "length")))

    def line_designed(work: Work) -> complex | None:
        if not is_off(work.problem, "distance"):
            return None
        return values.added(values.walked(work, designed(work.problem, branch, "distance")), stub(work))

    return (
        junction_steps.stub_left_out("{part}", line),
        Slip(
            "subtracted",
            "subtracting what the stub adds",
            "Did you add, or subtract?",
            "Add it with the sign that it has.",
            lambda w: values.added(line(w), -stub(w)),
        ),
        Slip(
            "stub as designed",
            "adding what the stub of the design shows",
            WHICH,
            "Add what the stub shows as long as it acts now.",
            stub_designed,
        ),
        Slip(
            "line as designed",
            "adding to what the line of the design shows",
            WHICH,
            "Add to what the line shows as long as it acts now.",
            line_designed,
        ),
        junction_steps.part_alone(
            "real part lost",
            "{part}",
            "The {real} of the line is still there.",
            lambda w: complex(0, value(w).imag),
        ),
        Slip(
            "to the real part",
            "adding the {part} to the {real}",
            "To which part did you add it?",
            "What the stub shows is imaginary: add it to the {part}.",
            lambda w: made.unless_same(line(w) + stub(w), value(w)),
            usual=1,
        ),
        replace(
            junction_steps.taken_for_granted(
                "Add what you have found: with something off it is not 1.", value
            ),
            key="match taken for granted",
        ),
    )


def back_slips(branch: Branch) -> tuple[Slip, ...]:
    """Slips of the size of what comes back."""

    def value(work: Work) -> float:
        return values.back(work, branch)

    def total(work: Work) -> complex:
        return complex(work.of("total", branch))

    def slip(key: str, doing: str, question: str, remedy: str, wrong: Wrong, **more: Any) -> Slip:
        return told(value, key, doing, question, remedy, wrong, **more)

    return (
        slip(
            "ratio",
            "giving the standing-wave ratio",
            "Is that |Γ| or the standing-wave ratio?",
            "Give |Γ| itself, the distance from the centre.",
            lambda w: values.ratio_of(value(w)),
        ),
        slip(
            "power",
            "giving the share of the power",
            "Is that |Γ|, or its square?",
            "The share of the power is the square of |Γ|: do not square it.",
            lambda w: value(w) ** 2,
        ),
        slip(
            "not divided",
            "giving |{y} − 1|",
            "Did you divide by |{y} + 1|?",
            "|Γ| = |{y} − 1| / |{y} + 1|.",
            lambda w: abs(total(w) - 1),
        ),
        slip(
            "upside down",
            "dividing the wrong way round",
            "Can more come back than arrives?",
            "|{y} − 1| goes on top, |{y} + 1| below.",
            lambda w: 1 / value(w) if value(w) else None,
            usual=1,
        ),
        slip(
            "real part alone",
            "leaving the {part} out",
            "Where is the {part} of the total?",
            "Take the size of both complex numbers, with their imaginary parts.",
            lambda w: abs((total(w).real - 1) / (total(w).real + 1)),
        ),
        slip(
            "real part taken for 1",
            "reckoning as if the {real} were still 1",
            "Which {real} has the total?",
            "Take the total with both of its parts.",
            lambda w: abs(reflection_of(complex(1, total(w).imag))),
            usual=1,
        ),
        slip(
            "without the stub",
            "giving |Γ| of the line without the stub",
            "Is the stub in it?",
            "Take the total at the junction.",
            lambda w: abs(reflection_of(w.of("arriving", branch))),
        ),
    )


LIMIT = (
    told(
        values.limit,
        "less one",
        "giving the ratio less one",
        "By what did you divide?",
        "Divide by the ratio and one: (SWR − 1) / (SWR + 1).",
        lambda w: w["allowed"] - 1,
    ),
    told(
        values.limit,
        "by the ratio",
        "dividing by the ratio",
        "By what did you divide?",
        "Divide by the ratio and one, not by the ratio.",
        lambda w: (w["allowed"] - 1) / w["allowed"],
    ),
    told(
        values.limit,
        "upside down",
        "dividing the wrong way round",
        "Can more come back than arrives?",
        "SWR − 1 goes on top, SWR + 1 below.",
        lambda w: 1 / values.limit(w),
    ),
    told(
        values.limit,
        "power",
        "giving the share of the power",
        "Is that |Γ|, or its square?",
        "The share of the power is the square of |Γ|: do not square it.",
        lambda w: values.limit(w) ** 2,
    ),
)


def reach_slips(branch: Branch) -> tuple[Slip, ...]:
    """Slips of how far off it may be."""

    def value(work: Work) -> float:
        return values.reach(work, branch)

    def times(wanted: Callable[[Work, float], float]) -> Wrong:
        """A change of the factor |Γ| allowed over |Γ|."""
        return lambda w: abs(w["by"]) * wanted(w, w["limit"] / w.of("back", branch))

    def slip(key: str, doing: str, question: str, remedy: str, wrong: Wrong, **more: Any) -> Slip:
        return told(value, key, doing, question, remedy, wrong, of_method=True, **more)

    return (
        slip(
            "upside down",
            "dividing the wrong way round",
            "Which |Γ| is on top?",
            "What is allowed goes on top, what comes back below.",
            times(lambda w, part: 1 / part),
            usual=3,
        ),
        slip(
            "both ways",
            "counting both ways together",
            "Is that one way, or both together?",
            "Give how far off it may be one way.",
            times(lambda w, part: 2 * part),
        ),
        slip(
            "by ratios",
            "taking standing-wave ratios in place of |Γ|",
            "Is it the ratio that grows in proportion?",
            "It is |Γ| that grows in proportion: a match has a ratio of 1, not of 0.",
            times(lambda w, part: w["allowed"] / values.ratio_of(w.of("back", branch))),
        ),
        slip(
            "squared",
            "taking the share of the power in place of |Γ|",
            "Did you square |Γ|?",
            "It is |Γ| that grows in proportion, not its square.",
            times(lambda w, part: part**2),
            usual=1,
        ),
        slip(
            "factor alone",
            "giving how many times as far it may be off",
            "Is that in percent?",
            "Multiply by {by}.",
            lambda w: w["limit"] / w.of("back", branch),
        ),
        slip(
            "how much more",
            "giving how much farther off it may be",
            "From where did you count?",
            "Count from the design, where nothing is off.",
            lambda w: abs(value(w) - abs(w["by"])),
            usual=1,
        ),
    )
