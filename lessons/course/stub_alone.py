"""A stub by itself: what a piece of line with a short or an open end shows, and how long it must be to show it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from lessons.course import alone_length, alone_shown, alone_steps, primers
from lessons.course import alone_values as values
from lessons.course.givens import END, LINE, ROUND_TENTHS, VELOCITY, wavelength_mm, with_frequency
from lessons.course.glossary import STUB_ALONE_TERMS
from lessons.course.walk_givens import OFTEN_NONE, draw_length
from lessons.grammar.dice import Dice
from lessons.grammar.difficulty import ROUND
from lessons.grammar.given_kinds import LineOhms, WantedReactance
from lessons.grammar.given_lengths import Stated, StatedLength
from lessons.grammar.kinds import CLOSE
from lessons.grammar.lesson import Lesson, Work
from lessons.grammar.problem import Given, Problem

SMALLEST_PART, LARGEST_PART = 0.15, 6.0  # normalised: what can be read well on the rim
EASILY_READ = (0.4, 2.0)  # where the lines of the rim stand neither close nor far apart
SHORTEST = 0.02  # wavelengths, also from a whole half
Values = Mapping[str, Any]


def _draw_wanted(dice: Dice, given: Values) -> float | None:
    """In every other problem the length is asked."""
    if dice.pick((True, False)):
        return None
    line = int(given["line"])
    draw = dice.difficulty.of(dice.multiple, if_hard=dice.between)
    size = dice.pick(ROUND_TENTHS) * line / 10 if dice.difficulty is ROUND else draw(5, 4 * line)
    return float(size * dice.pick((1, -1)))


def _draw_length(dice: Dice, given: Values) -> Stated | None:
    return None if given["wanted"] is not None else draw_length(dice, given, longest=48, coarse_mm=1)


STUB_LINE = replace(LINE, label="Stub's impedance, Ω", kind=LineOhms("stub's impedance"))
WANTED = Given(
    key="wanted",
    label="Reactance wanted, Ω",
    kind=WantedReactance(),
    usual=lambda given: None,
    example="none: it is asked",
    draw=_draw_wanted,
)
LENGTH = Given(
    key="along",
    label="Length of the stub",
    kind=StatedLength("length of the stub"),
    usual=lambda given: Stated(0.15, "wavelengths") if given.get("wanted") is None else None,
    example="0.15, 54° or, with a frequency, 86 mm; or none: it is asked",
    draw=_draw_length,
)
FREQUENCY = replace(OFTEN_NONE, example="868 MHz, if millimetres are wanted")


def _is_instructive(problem: Problem) -> bool:
    """Whether the reactance can be read well, as cut and when cut too long, and the stub is long enough to be seen."""
    part = values.true_part(problem)
    longer = values.part_at(values.reading_of(part) + values.TOO_LONG)
    walked = (values.reading_of(part) - (0.0 if problem["end"] == "short" else 0.25)) % 0.5
    readable = all(SMALLEST_PART <= abs(one) <= LARGEST_PART for one in (part, longer))
    readable &= not problem.difficulty.of(False, if_hard=EASILY_READ[0] <= abs(part) <= EASILY_READ[1])
    return readable and SHORTEST <= walked <= 0.5 - SHORTEST


def _task(work: Work) -> str:
    stub = "A stub of {line} ends in {an_end} circuit"
    if values.is_length_asked(work.problem):
        return with_frequency(work, stub + ". How long must it be to show a reactance of {wanted}?")
    return with_frequency(work, stub + " and is {along} long. What does it show at its input?")


def _brief(work: Work) -> str:
    kind = {"short": "Shorted", "open": "Open"}[work["end"]]
    asked = "for {wanted}" if values.is_length_asked(work.problem) else "of {along}"
    return f"{kind} stub {asked}, {{line}}"


def _closing(work: Work) -> str:
    """What was found; of a wrong value no more than that it stands on the sheet."""
    asked = values.is_length_asked(work.problem)
    key = "length" if asked else "ohms"
    true = Work(work.lesson, work.problem, work.notation)
    off = work.lesson.field(key).kind(work).off_by(work[key], true[key], work.problem.accuracy)
    found = (
        f"a stub of {work.write(key)} shows a reactance of {{wanted}}"
        if asked
        else f"the stub shows a reactance of {work.write(key)}"
    )
    if off > CLOSE:
        return f"By this sheet {found}."
    part = {values.COIL: "a coil", values.CAPACITOR: "a capacitor"}[values.is_part(true)]
    return f"{found[0].upper()}{found[1:]}: at this one frequency it is like {part}."


LESSON = Lesson(
    key="stub-alone",
    title="A stub alone",
    purpose="A piece of line that ends in nothing can stand for a coil or a capacitor: find what it shows, or how long "
    "it must be.",
    task=_task,
    brief=_brief,
    givens=(WANTED, STUB_LINE, LENGTH, END, FREQUENCY, VELOCITY),
    steps=(
        alone_length.NEEDED,
        alone_steps.WAVES,
        alone_steps.BEGIN,
        alone_steps.START,
        alone_steps.REACHED,
        alone_steps.REACTANCE,
        alone_length.RIM,
        alone_length.LENGTH,
        alone_shown.SUSCEPTANCE,
        alone_shown.OHMS,
        alone_shown.PART,
        alone_shown.LONGER,
        alone_shown.MILLIMETRES,
    ),
    refuses=values.refuses,
    network=values.network,
    closing=_closing,
    wavelength_mm=wavelength_mm,
    words=values.words,
    instructive=_is_instructive,
    places=(
        "In the radio at {place} a piece of cable has to stand for a part that is not in the box.",
        "On the board for the gauge at {place} a trace takes the place of a part.",
        "At {place} somebody has left a piece of line hanging on the feeder: what does it do there?",
        "The volunteers at {place} cut a stub from the end of the reel.",
    ),
    terms=STUB_ALONE_TERMS,
    primer=primers.STUB_ALONE,
    needs=("along-the-line",),
)
