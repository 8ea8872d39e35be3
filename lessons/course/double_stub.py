"""Matching with two stubs a fixed spacing apart, the first of them at the load."""

from __future__ import annotations

from dataclasses import replace

from core.network import MatchingNetwork
from lessons.course import double_stub_values as values
from lessons.course import primers
from lessons.course.admittance_step import ADMITTANCE
from lessons.course.chart_steps import MISMATCH, NORMALISE, PLACE
from lessons.course.choosing_steps import LESS_LINE, WIDER_BAND, Reason, choose
from lessons.course.double_stub_lengths import FIRST_LENGTH, SECOND_LENGTH
from lessons.course.double_stub_parts import FIRST_PART, SECOND_PART
from lessons.course.double_stub_region import REGION, ROTATED, WAY_OUT
from lessons.course.double_stub_steps import AFTER, ARRIVING
from lessons.course.double_stub_values import BOTH, HIGHER, each
from lessons.course.givens import END, LINE, LOAD, PLACES, STUB, is_instructive
from lessons.course.glossary import DOUBLE_STUB_TERMS
from lessons.course.stub_values import bare
from lessons.grammar import slips as made
from lessons.grammar.given_kinds import LineOhms, Word
from lessons.grammar.given_lengths import LineLength
from lessons.grammar.kinds import Immittance
from lessons.grammar.lesson import Lesson, Problem, Slip, Step, Work
from lessons.grammar.problem import Given
from lessons.grammar.side import SHUNT
from lessons.grammar.strokes import Point

SPACING = Given(
    key="spacing",
    label="Spacing of the stubs, λ",
    kind=LineLength("spacing"),
    usual=lambda given: 0.125,
    example="0.125",
    draw=lambda dice, given: dice.pick(
        (0.125, 0.125, 0.375, 0.1, 0.15, 0.2), if_round=(0.125, 0.375, 0.15), if_hard=(0.1, 0.15, 0.35, 0.4)
    ),
)


def _stub(which: str) -> Given:
    return replace(
        STUB, key=f"{which}_stub", label=f"Impedance of the {which} stub, Ω", kind=LineOhms("stub impedance")
    )


def _end(which: str) -> Given:
    kind = Word(f"end of the {which} stub", tuple(END.kind.options))
    return replace(END, key=f"{which}_end", label=f"End of the {which} stub", kind=kind)


def _not_at_the_boundary(problem: Problem) -> bool:
    """Whether its load is easy to tell from the boundary of the forbidden region."""
    work = Work(LESSON, problem)
    return abs(work["admittance"].real / work["limit"] - 1) > 0.1


def _less_line(network: MatchingNetwork) -> float:
    return -float(network.total_line)


# --- the end ---

TOTAL = Step(
    key="total",
    title="Check the second stub's place",
    ask="Take your own two lengths: which y does the line from the generator see?",
    goal="If all is well the line from the generator sees its own admittance, and nothing comes back.",
    rule="Add y arriving at the second stub and {j} times what that stub shows.",
    numbers=lambda w: (
        f"Higher: {w.write_of('arriving', HIGHER)} and {w.notation.imaginary}({w.write_of('second_part', HIGHER)})."
    ),
    because="A total of 1 is the centre of the chart: there nothing comes back.",
    fields=each(
        quantity="total",
        label="total admittance y",
        kind=lambda w: Immittance("admittance", w["line"], "1.00 + {j}0.40"),
        value=values.total,
        routes=lambda branch: (lambda w: values.total_as_needed(w, branch),),
        own_only=True,
        mixable=False,
        slips=lambda branch: (
            Slip(
                key="stub left out",
                doing="leaving the second stub out",
                question="Did you add the second stub?",
                remedy="Add the second stub's b.",
                predict=lambda w: w.of("arriving", branch),
            ),
            Slip(
                key="conductance lost",
                doing="giving the susceptance alone",
                question="What is the real part?",
                remedy="The conductance is still there.",
                predict=lambda w: (complex(0, values.total(w, branch).imag), 0j),
            ),
            Slip(
                key="total taken for granted",
                doing="writing down the match that should come out",
                question="Did you add your own values?",
                remedy="Add what arrives and what your own stub shows: with these lengths it is not 1.",
                predict=lambda w: made.unless_same(1 + 0j, values.total(w, branch)),
                usual=1,
            ),
        ),
        strokes=lambda w, branch: (
            Point(
                SHUNT.reflection_at(w.of("total", branch)),
                branch.role,
                "admittance",
                "y_total",
                f"The total, {branch.word}: {w.write_of('total', branch)}.",
            ),
        ),
        names=("y total", "yt", "y in", "total", "total admittance"),
    ),
    applies=values.is_matchable,
)

CHOOSE = replace(
    choose(
        (
            LESS_LINE,
            WIDER_BAND,
            Reason("more line", "its stubs are longer in all, and easier to cut", _less_line),
        ),
        "Less line in the stubs usually means less loss and a wider band; a longer stub may be easier to make.",
        "Less line in all is the usual choice.",
        lambda w, branch: " and ".join(w.write_of(f"{which}_length", branch) for which in values.STUBS),
    ),
    applies=values.is_matchable,
)

LESSON = Lesson(
    key="double-stub",
    title="Matching with two stubs",
    purpose="Two stubs at fixed places match without moving either: find both lengths, or see that they cannot.",
    task="Match {load} to a line of {line} with two shunt stubs {spacing} apart, the first at the load. The first is a "
    "line of {first_stub} that ends in {an_first_end} circuit, the second one of {second_stub} that ends in "
    "{an_second_end} circuit.",
    brief="Load {load} on {line}, stubs {spacing} apart, {first_end} and {second_end}",
    givens=(LOAD, LINE, SPACING, _stub("first"), _end("first"), _stub("second"), _end("second")),
    branches=BOTH,
    steps=(
        NORMALISE,
        PLACE,
        MISMATCH,
        ADMITTANCE,
        REGION,
        WAY_OUT,
        ROTATED,
        AFTER,
        FIRST_PART,
        ARRIVING,
        SECOND_PART,
        FIRST_LENGTH,
        SECOND_LENGTH,
        TOTAL,
        CHOOSE,
    ),
    refuses=values.refuses,
    network=values.network,
    bare=bare,
    matches=True,
    stops_short=values.is_forbidden,
    closing=lambda w: (
        f"Two stubs cannot match this load where it is; {w.write('way_out')} of line before the first one leads out of "
        "the forbidden region, and a little more gives two solutions."
    ),
    instructive=lambda problem: is_instructive(problem) and _not_at_the_boundary(problem),
    places=tuple(f"{place} Two stubs are built in; only their lengths can be set." for place in PLACES),
    terms=DOUBLE_STUB_TERMS,
    needs=("shunt-stub",),
    primer=primers.DOUBLE_STUB,
)
