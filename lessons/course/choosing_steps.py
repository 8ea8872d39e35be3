"""The last steps of a stub lesson: which of the two solutions to build, and its lengths in millimetres."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from lessons.course.givens import wavelength_mm
from lessons.course.near_and_far import BOTH, FAR, NEAR, other
from lessons.course.stub_values import REASONS, StubValues
from lessons.grammar import slips as made
from lessons.grammar.branch import Branch
from lessons.grammar.kinds import Choice, Millimetres
from lessons.grammar.lesson import Field, Slip, Step, Work
from lessons.grammar.notation import Symbol


def choose(values: StubValues) -> Step:
    def untrue(key: str, words: str) -> Slip:
        return Slip(
            key=f"untrue {key}",
            doing=f"giving a reason that is not so: {words} only for the other solution",
            question="Does that hold for the solution you chose?",
            remedy="Compare the two solutions' lengths on your sheet.",
            predict=lambda w: None if key in values.true_reasons(w) else key,
        )

    def lengths(work: Work, branch: Branch) -> str:
        written = (work.write_of(quantity, branch) for quantity in ("distance", "length"))
        return f"{branch.word.capitalize()}: {' and '.join(written)}."

    return Step(
        key="choose",
        title="Choose one",
        ask="Both solutions match. Which would you build, and why?",
        goal="There is no wrong choice here, but there are untrue reasons.",
        rule="Less line in all usually means less loss and a wider band; a longer stub may be easier to make.",
        numbers=lambda w: f"{lengths(w, NEAR)} {lengths(w, FAR)}",
        because="Less line in all is the usual choice; a shorted end radiates less than an open one and is easy to "
        "make.",
        fields=(
            Field(
                quantity="choose.which",
                label="I would build",
                names=("choice", "chosen", "build", "I would build"),
                kind=lambda w: Choice(tuple((one.key, f"the {one.word} one") for one in BOTH)),
                value=lambda w: min(BOTH, key=lambda one: values.built(w, one).total_line).key,
                accepts=lambda w: tuple(one.key for one in BOTH),
                picks_branch=True,
            ),
            Field(
                quantity="choose.why",
                label="because",
                names=("because", "why", "reason"),
                kind=lambda w: Choice(tuple((key, words) for key, words, _ in REASONS)),
                value=lambda w: values.true_reasons(w)[0],
                slips=tuple(untrue(key, words) for key, words, _ in REASONS),
                accepts=lambda w: values.true_reasons(w),
            ),
        ),
    )


EXCHANGED = {"distance": "length", "length": "distance"}


def _chosen(work: Work) -> Branch:
    return work.chosen or NEAR


def _metric(quantity: str, label: str, symbol: Symbol) -> Field:
    def value(work: Work) -> float:
        return work.of(quantity, _chosen(work)) * (work.wavelength_mm or float("nan"))

    method = () if quantity == "distance" else ("millimetres.distance",)

    def slip(key: str, doing: str, question: str, remedy: str, factor: Callable[[float], float]) -> Slip:
        return Slip(
            key=key,
            doing=doing,
            question=question,
            remedy=remedy,
            predict=lambda w: value(w) * factor(w["velocity"]) if w["velocity"] != 1 else None,
            ruled_out_by=method,
        )

    return Field(
        quantity=f"millimetres.{quantity}",
        label=f"{label} in mm",
        names=(f"{{{symbol.key}}} in mm", f"{{{symbol.key}}} mm"),
        kind=lambda w: Millimetres(w.wavelength_mm or float("nan")),
        value=value,
        same_as=quantity,
        slips=(
            slip(
                "velocity ignored",
                "using the wavelength of free space",
                "Did you use the velocity factor?",
                "On the line waves are slower and wavelengths shorter: multiply by the velocity factor.",
                lambda v: 1 / v,
            ),
            slip(
                "velocity inverted",
                "dividing by the velocity factor",
                "Is a wave on the line longer or shorter?",
                "Multiply by the velocity factor.",
                lambda v: 1 / v**2,
            ),
            *(replace(one, ruled_out_by=method) for one in _metric_slips(value)),
            made.other_quantity(
                "lengths exchanged",
                "exchanging the distance and the stub's length",
                "Is this the distance, or the stub's length?",
                "The distance is the line between load and stub; the stub hangs on its end.",
                lambda w: w.of(EXCHANGED[quantity], _chosen(w)) * (w.wavelength_mm or float("nan")),
                value,
            ),
            Slip(
                key="branches mixed",
                doing="giving a length of the solution you did not choose",
                question="Which solution did you choose?",
                remedy="Keep to the solution you chose above.",
                predict=lambda w: w.of(quantity, other(_chosen(w))) * (w.wavelength_mm or float("nan")),
            ),
        ),
    )


def _metric_slips(value: Callable[[Work], float]) -> tuple[Slip, ...]:
    """Powers of ten, halves, and the root of the velocity factor."""

    def times(factor: float) -> Callable[[Work], float]:
        return lambda w: factor * value(w)

    return (
        Slip(
            key="metres",
            doing="slipping by powers of ten between millimetres and metres",
            question="In which unit is this?",
            remedy="A metre has 1000 mm, a centimetre 10.",
            predict=lambda w: tuple(times(10.0**power)(w) for power in (1, -1, 3, -3, 2, -2)),
        ),
        Slip(
            key="halved",
            doing="taking half of the wavelength for the whole",
            question="Is that a half of it?",
            remedy="The lengths are parts of the whole wavelength: multiply by all of it.",
            predict=times(0.5),
            usual=1,
        ),
        Slip(
            key="root of the velocity factor",
            doing="using the square root of the velocity factor",
            question="Did you take a root?",
            remedy="The velocity factor is one over the root of the permittivity already: multiply by it as it is.",
            predict=lambda w: value(w) * w["velocity"] ** -0.5 if w["velocity"] != 1 else None,
            usual=1,
        ),
    )


def millimetres(distance: Symbol, length: Symbol) -> Step:
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
            f"{w.write_of('distance', _chosen(w))} and {w.write_of('length', _chosen(w))}."
        ),
        because="Cut a little long and trim: a real line ends where you measure that it does.",
        fields=(
            _metric("distance", f"distance {{{distance.key}}}", distance),
            _metric("length", f"stub length {{{length.key}}}", length),
        ),
        applies=lambda problem: wavelength_mm(problem) is not None,
    )
