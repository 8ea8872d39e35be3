"""Every text of every lesson is true in every notation: what a course does not do or have is not spoken of."""

import re
from itertools import product

import pytest

from lessons.course.catalogue import CATALOGUE
from lessons.grammar.kinds import Reflection
from lessons.grammar.lesson import Lesson
from lessons.grammar.notation import Notation
from lessons.problems.seeds import random_problem
from lessons.working.marking import mark, predicted_all
from tests.lessons.course.test_shunt_stub import texts
from tests.lessons.solving import CHOICES, blank, fields_of, typed, unit_of

UNTRUE: dict[tuple[str, str], str] = {
    # with both grids on the chart an admittance is read where the impedance stands: nobody crosses over or turns
    (
        "admittance",
        "overlay",
    ): r"cross(ing|ed)? the centre|through the centre(?! of the chart)|half a turn|half turn"
    r"|quarter of the chart|other side|from the impedance where|where its admittance stands|quarter turn",
    # with one grid there is no other one, and no point has two readings
    ("admittance", "half turn"): r"dotted|overlaid|second grid|both grids|the admittance grid",
    # the scales at the rim are in degrees of line
    ("length", "degrees"): r"λ|(?<![\d.])0\.5(?!\d)|wavelengths (on|of) the (outer )?scale|0\.25(?!\d)",
    ("length", "wavelengths"): r"180°|degrees of line",
    ("angle", "radians"): r"scale of degrees|in degrees|∠ [^ ]*°",
    ("imaginary", "i"): r"\bj(?:b\b|x\b|\d|\b)",
    ("imaginary", "j"): r"[+−] i\d|\bi(?:b|x)\b",
}
"""Words that are untrue in a notation, by what is set in it."""
KEPT_SYMBOLS = {"d": "D", "l": "ℓ"}
NOTATIONS = [
    Notation(KEPT_SYMBOLS, **dict(zip(CHOICES, words, strict=True)))  # type: ignore[arg-type]
    for words in product(*CHOICES.values())
]
PROBLEMS = [random_problem(seed, lesson) for lesson in CATALOGUE for seed in (1, 4, 7, 12)]


def untrue(text: str, notation: Notation) -> list[str]:
    """The words of a text that are untrue in a notation."""
    return [
        found[0]
        for (setting, choice), words in UNTRUE.items()
        if getattr(notation, setting) == choice and (found := re.search(words, text, re.IGNORECASE))
    ]


@pytest.mark.parametrize(
    "notation", NOTATIONS, ids=lambda n: f"{n.admittance}, {n.imaginary}, {n.angle}, {n.length}"
)
@pytest.mark.parametrize("given", PROBLEMS, ids=lambda p: f"{p.lesson}, {p.key}")
class TestTrue:
    def test_texts(self, given, notation):
        """No text of a lesson, its hints, slips and strokes, speaks of what is not there in this notation."""
        found = {place: (text, untrue(text, notation)) for place, text in texts(given, notation).items()}

        assert {} == {place: what for place, what in found.items() if what[1]}

    def test_verdicts(self, given, notation):
        """No verdict does either: on any mistake, on any number, or on a difference left negative."""
        sheet, said = blank(given, notation), {}
        for one in fields_of(sheet):
            kind, work = one.kind(sheet.truth), sheet.truth
            values = [value for slip in one.slips for value in predicted_all(slip, work)]
            entries = [typed(kind, value) + unit_of(kind) for value in values]
            entries += ["-0.1", "0.123", "0.31 wl", "60 deg", "?"] if not kind.names_a_choice else []
            for text in entries:
                sentence = mark(one, text, work, work).sentence
                if not sentence.startswith("“"):
                    said[one.key, text] = sentence

        assert {} == {place: text for place, text in said.items() if untrue(text, notation)}


@pytest.mark.parametrize("lesson", CATALOGUE, ids=lambda lesson: lesson.key)
def test_the_search_finds_what_is_untrue(lesson: Lesson):
    """The same search finds texts of one notation untrue in another: it looks at words that stand there."""
    given = random_problem(4, lesson)
    here = texts(given, Notation())
    words = " ".join(here.values())

    kinds = [one.kind(blank(given).truth) for one in fields_of(blank(given))]
    if any(kind.length_in for kind in kinds):
        assert untrue(words, Notation(length="degrees"))
    assert untrue(words, Notation(imaginary="i"))
    if any(isinstance(kind, Reflection) for kind in kinds):
        assert untrue(words, Notation(angle="radians"))
