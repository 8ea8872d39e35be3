"""The last steps of a matching lesson: which of its solutions to build, and what to cut in millimetres."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache

import numpy as np

from core.network import MatchingNetwork
from lessons.course.givens import wavelength_mm
from lessons.course.metric_slips import metric_slips
from lessons.course.pairs import Pair
from lessons.grammar import slips as made
from lessons.grammar.branch import Branch
from lessons.grammar.kinds import Choice, Millimetres
from lessons.grammar.lesson import Field, Lesson, Slip, Step, Work
from lessons.grammar.notation import Symbol


@dataclass(frozen=True)
class Reason:
    """What can speak for a solution: that its cost is the least. words : complete "because".

    cost : of what is built.  quantity : of the sheet, where that is the cost."""

    key: str
    words: str
    cost: Callable[[MatchingNetwork], float] = lambda network: 0.0
    quantity: str = ""

    def of(self, work: Work, branch: Branch, network: MatchingNetwork) -> float:
        """The cost of a solution that is built so. Raises Impossible."""
        return float(work.of(self.quantity, branch)) if self.quantity else self.cost(network)


def length_of(index: int) -> Callable[[MatchingNetwork], float]:
    """The length of one element, counted from the load."""
    return lambda network: float(getattr(network.elements[index], "length", 0.0))


NEARER = Reason("shorter distance", "it stands nearer the load", length_of(0))
MORE_ROOM = Reason(
    "more room",
    "it stands farther from the load, where there may be more room",
    lambda network: -length_of(0)(network),
)
SHORTER_STUB = Reason("shorter stub", "its stub is shorter", length_of(1))
LONGER_STUB = Reason(
    "longer stub",
    "its stub is longer, and easier to cut to length",
    lambda network: -length_of(1)(network),
)
LESS_LINE = Reason("less line", "it takes less line in all", lambda network: float(network.total_line))
ANYWAY = Reason("any would do", "all of them match, and any would do")
"""A reason that is always true, where there may be no other."""
WIDER_BAND = Reason(
    "wider band",
    "it reflects less when the frequency is off by 5 %",
    lambda network: float(np.max(np.abs(network.input_reflection(np.array([0.95, 1.05]))))),
)


def choose(
    reasons: tuple[Reason, ...],
    rule: str,
    because: str,
    told: Callable[[Work, Branch], str],
    ask: str = "Both solutions match. Which would you build, and why?",
    others: str = "only for the other solution",
    least: Callable[[Work, Branch], float] = lambda work, branch: float(_built(work, branch).total_line),
) -> Step:
    """told : what is said of a solution for them to be compared.  others : where else an untrue reason may hold.

    least : what the one has least of that the worked example takes."""

    def untrue(reason: Reason) -> Slip:
        return Slip(
            key=f"untrue {reason.key}",
            doing=f"giving a reason that is not so: {reason.words} {others}",
            question="Does that hold for the solution you chose?",
            remedy="Compare the solutions on your sheet.",
            predict=lambda w: None if reason.key in true_reasons(w) else reason.key,
        )

    def true_reasons(work: Work) -> tuple[str, ...]:
        """What speaks for the chosen solution."""
        chosen = _chosen(work)
        there = {one: _built(work, one) for one in _there(work)}
        return tuple(
            one.key
            for one in reasons
            if one.of(work, chosen, there[chosen]) <= min(one.of(work, *built) for built in there.items())
        )

    return Step(
        key="choose",
        title="Choose one",
        ask=ask,
        goal="There is no wrong choice here, but there are untrue reasons.",
        rule=rule,
        numbers=lambda w: " ".join(f"{one.word.capitalize()}: {told(w, one)}." for one in _there(w)),
        because=because,
        fields=(
            Field(
                quantity="choose.which",
                label="I would build",
                names=("choice", "chosen", "build", "I would build"),
                kind=lambda w: Choice(tuple((one.key, f"the {one.named('one')}") for one in _there(w))),
                value=lambda w: min(_there(w), key=lambda one: least(w, one)).key,
                accepts=lambda w: tuple(one.key for one in _there(w)),
                picks_branch=True,
            ),
            Field(
                quantity="choose.why",
                label="because",
                names=("because", "why", "reason"),
                kind=lambda w: Choice(tuple((one.key, one.words) for one in reasons)),
                value=lambda w: true_reasons(w)[0],
                slips=tuple(untrue(one) for one in reasons if one is not ANYWAY),
                accepts=true_reasons,
            ),
        ),
    )


def _built(work: Work, branch: Branch) -> MatchingNetwork:
    """A solution with all that is known in this work up to the choice."""
    network = work.lesson.network(work, branch, _before_the_choice(work.lesson))
    assert network is not None
    return network


@cache
def _before_the_choice(lesson: Lesson) -> frozenset[str]:
    """Keys of the fields that stand before it: what follows from it cannot speak for it."""
    keys = list(lesson.fields)
    return frozenset(keys[: keys.index(lesson.picking_field.key)] if lesson.picking_field else keys)


def _chosen(work: Work) -> Branch:
    return work.chosen or _there(work)[0]


def _there(work: Work) -> tuple[Branch, ...]:
    """The solutions that the problem has."""
    return work.lesson.branches_of(work.problem)


@dataclass(frozen=True)
class Cut:
    """A length to be cut.

    waves : in wavelengths, in a solution.  same_as : the quantity that it gives, if it gives one.
    differs : whether the two solutions have different ones."""

    key: str
    label: str
    names: tuple[str, ...]
    waves: Callable[[Work, Branch], float]
    same_as: str = ""
    differs: bool = True


def asked_before(quantity: str, label: str, symbol: Symbol) -> Cut:
    """A length that an earlier step gives in wavelengths."""
    return Cut(
        quantity,
        f"{label} {{{symbol.key}}}",
        (f"{{{symbol.key}}} in mm", f"{{{symbol.key}}} mm"),
        lambda work, branch: float(work.of(quantity, branch)),
        quantity,
    )


def millimetres(pair: Pair, first: Cut, second: Cut, exchanged: tuple[str, str, str]) -> Step:
    """exchanged : what is said to whoever gives one for the other: what is done, the question, the remedy."""
    method = (f"millimetres.{first.key}",)
    return Step(
        key="millimetres",
        title="Give the lengths in millimetres",
        ask=lambda w: (
            "Give both lengths in millimetres."
            if w.problem.solution
            else "Give both lengths of the solution you chose in millimetres; if you chose none, of the one with less "
            "line."
        ),
        goal="The chart counts in wavelengths; a saw counts in millimetres.",
        rule="The wavelength on the line is the velocity factor times 299 792 458 m/s divided by the frequency.",
        numbers=lambda w: (
            f"The wavelength on the line is {w.notation.number(w.wavelength_mm or 0.0, 1)} mm; the lengths are "
            + " and ".join(w.notation.wavelengths(one.waves(w, _chosen(w))) for one in (first, second))
            + "."
        ),
        because="Cut a little long and trim: a real line ends where you measure that it does.",
        fields=(
            _metric(pair, first, second, exchanged, ()),
            _metric(pair, second, first, exchanged, method),
        ),
        applies=lambda problem: wavelength_mm(problem) is not None,
    )


def _metric(
    pair: Pair, cut: Cut, beside: Cut, exchanged: tuple[str, str, str], method: tuple[str, ...]
) -> Field:
    """method : keys of fields that, answered rightly, show that wavelengths are turned into millimetres rightly."""

    def in_mm(waves: float, work: Work) -> float:
        return waves * (work.wavelength_mm or float("nan"))

    def value(work: Work) -> float:
        return in_mm(cut.waves(work, _chosen(work)), work)

    mixed = Slip(
        key="branches mixed",
        doing="giving a length of the solution you did not choose",
        question="Which solution did you choose?",
        remedy="Keep to the solution you chose above.",
        predict=lambda w: in_mm(cut.waves(w, pair.other(_chosen(w))), w),
    )
    return Field(
        quantity=f"millimetres.{cut.key}",
        label=f"{cut.label} in mm",
        names=cut.names,
        kind=lambda w: Millimetres(w.wavelength_mm or float("nan")),
        value=value,
        same_as=cut.same_as,
        slips=(
            *metric_slips(
                value, "The lengths are parts of the whole wavelength: multiply by all of it.", method
            ),
            made.other_quantity(
                "lengths exchanged",
                *exchanged,
                lambda w: in_mm(beside.waves(w, _chosen(w)), w),
                value,
            ),
            *((mixed,) if cut.differs else ()),
        ),
    )
