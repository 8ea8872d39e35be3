"""The last steps of a stub lesson: which of the two solutions to build, and its lengths in millimetres."""

from __future__ import annotations

from collections.abc import Callable

from lessons.course import stub_values as values
from lessons.grammar.kinds import Choice, Millimetres
from lessons.grammar.lesson import SIDES, Field, Slip, Step, Work


def _untrue(key: str, words: str) -> Slip:
    return Slip(
        key=f"untrue {key}",
        doing=f"giving a reason that is not so: {words} only for the other solution",
        question="Does that hold for the solution you chose?",
        remedy="Compare the two solutions' lengths on your sheet.",
        predict=lambda w: None if key in values.true_reasons(w) else key,
    )


CHOOSE = Step(
    key="choose",
    title="Choose one",
    ask="Both solutions match. Which would you build, and why?",
    goal="There is no wrong choice here, but there are untrue reasons.",
    rule="Less line in all usually means less loss and a wider band; a longer stub may be easier to make.",
    numbers=lambda w: (
        f"Near: {w.write('distance.near')} and {w.write('length.near')}. "
        f"Far: {w.write('distance.far')} and {w.write('length.far')}."
    ),
    because="A short stub near the load is the usual choice, and a shorted one radiates less and is easily made.",
    fields=(
        Field(
            key="choose.which",
            label="I would build",
            names=("choice", "chosen", "build", "I would build"),
            kind=lambda w: Choice((("near", "the near one"), ("far", "the far one"))),
            value=lambda w: min(SIDES, key=lambda side: values.built(w, side).total_line),
            accepts=lambda w: SIDES,
        ),
        Field(
            key="choose.why",
            label="because",
            names=("because", "why", "reason"),
            kind=lambda w: Choice(tuple((key, words) for key, words, _ in values.REASONS)),
            value=lambda w: values.true_reasons(w)[0],
            slips=tuple(_untrue(key, words) for key, words, _ in values.REASONS),
            accepts=lambda w: values.true_reasons(w),
        ),
    ),
)


def _metric(what: str, label: str, names: tuple[str, ...]) -> Field:
    def value(work: Work) -> float:
        return values.in_millimetres(work, what)

    def slip(key: str, doing: str, question: str, remedy: str, factor: Callable[[float], float]) -> Slip:
        return Slip(
            key=key,
            doing=doing,
            question=question,
            remedy=remedy,
            predict=lambda w: (
                value(w) * factor(w.problem.velocity_factor) if w.problem.velocity_factor != 1 else None
            ),
        )

    return Field(
        key=f"millimetres.{what}",
        label=label,
        names=names,
        kind=lambda w: Millimetres(values.wavelength_mm(w)),
        value=value,
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
            Slip(
                key="branches mixed",
                doing="giving a length of the solution you did not choose",
                question="Which solution did you choose?",
                remedy="Keep to the solution you chose above.",
                predict=lambda w: w[f"{what}.{values.chosen_first(w)[1]}"] * values.wavelength_mm(w),
            ),
        ),
    )


MILLIMETRES = Step(
    key="millimetres",
    title="Give the lengths in millimetres",
    ask="Give both lengths of the solution you chose in millimetres; if you chose none, of the one with less line.",
    goal="The chart counts in wavelengths; a saw counts in millimetres.",
    rule="The wavelength on the line is the velocity factor times 299 792 458 m/s divided by the frequency.",
    numbers=lambda w: (
        f"The wavelength on the line is {w.notation.number(values.wavelength_mm(w), 1)} mm; the lengths are "
        f"{w.write('distance.' + w['choose.which'])} and {w.write('length.' + w['choose.which'])}."
    ),
    because="Cut a little long and trim: a real line ends where you measure that it does.",
    fields=(
        _metric("distance", "distance {d} in mm", ("{d} in mm", "{d} mm")),
        _metric("length", "stub length {l} in mm", ("{l} in mm", "{l} mm")),
    ),
    applies=lambda problem: problem.frequency is not None,
)
