"""What the size of a reflection is written as: the return loss in decibels, the share of the power that comes back."""

from __future__ import annotations

from collections.abc import Callable
from math import log, sqrt

from core.line import return_loss_db
from lessons.course.chart_mistakes import decibels
from lessons.grammar.kinds import OfSize
from lessons.grammar.kinds.base import REFLECTION_TOLERANCE, RELATIVE_TOLERANCE
from lessons.grammar.lesson import Field, Slip, Step, Text, Work
from lessons.grammar.side import reflection_of

FEWEST, MOST = -100.0, 400.0  # decibels that are read at all
IN_DECIBELS = OfSize(
    "dB",
    "9.5",
    least=FEWEST,
    most=MOST,
    impossible="No line has a return loss of so many decibels: check it.",
    size=lambda loss: float(10 ** (-loss / 20)),
)
IN_PERCENT = OfSize(
    "%",
    "11.1",
    decimals=1,
    least=0.0,
    most=100.0,
    impossible="Between nothing and all of the power comes back: write 0 to 100 %.",
    size=lambda share: sqrt(share / 100),
)


def size(work: Work) -> float:
    """|Γ| of the point that the student has placed."""
    return float(abs(work["place"]))


def size_on_circle(work: Work) -> float:
    """|Γ| by the standing-wave ratio that the student has read."""
    return abs(reflection_of(work["mismatch"]))


def loss_of(size: float) -> float:
    """The return loss in decibels of a reflection of this size, on the chart."""
    return float(return_loss_db(min(size, 1.0)))


def share_of(size: float) -> float:
    """The share of the power that a reflection of this size takes back, in percent."""
    return 100 * min(size, 1.0) ** 2


def _slip(
    kind: OfSize, key: str, doing: Text, question: Text, remedy: Text, change: Callable[[float], float],
    usual: int = 2,
) -> Slip:  # fmt: skip
    """A slip that makes something else of |Γ|; a reading error goes through it as through the right way."""

    def spread(work: Work) -> float:
        right, accuracy = size(work), work.problem.accuracy
        off = REFLECTION_TOLERANCE if accuracy == "chart" else RELATIVE_TOLERANCE * right
        read = (change(min(max(right + by, 1e-3), 1 - 1e-3)) for by in (-off, off))
        return max(1.0, *(kind.off_as_written(one, change(right), accuracy) for one in read))

    return Slip(
        key, doing, question, remedy, lambda w: change(size(w)) if size(w) > 0 else None, usual, spread
    )


LOSS = Step(
    key="loss",
    title="Read the return loss",
    ask="By how many decibels is the wave that comes back weaker than the one that arrives?",
    goal="The return loss says in decibels what |Γ| says as a number: the less comes back, the larger it is.",
    rule="Carry the distance from the centre down to the scale of return loss under a printed chart, or work it out: "
    "the return loss is −20 log |Γ|, with the logarithm to the base 10.",
    numbers=lambda w: f"−20 log {w.notation.number(size(w))}",
    because="Decibels of losses add up, where sizes must be multiplied.",
    fields=(
        Field(
            quantity="loss",
            label="Return loss",
            names=("return loss", "RL", "return loss in dB", "RL in dB"),
            kind=lambda w: IN_DECIBELS,
            value=lambda w: loss_of(size(w)),
            routes=(lambda w: loss_of(size_on_circle(w)),),
            slips=(
                _slip(
                    IN_DECIBELS,
                    "ten times",
                    "taking 10 times the logarithm of |Γ|",
                    "Did you take 10 or 20 times the logarithm?",
                    "|Γ| is a ratio of voltages, so it is 20; with 10 goes |Γ| squared, the ratio of powers.",
                    lambda size: loss_of(size) / 2,
                    usual=3,
                ),
                _slip(
                    IN_DECIBELS,
                    "sign",
                    "giving it with a minus sign",
                    "Which sign has a loss?",
                    "A loss is above zero where less comes back than arrives: leave the minus sign away.",
                    lambda size: -loss_of(size),
                ),
                _slip(
                    IN_DECIBELS,
                    "squared twice",
                    "taking 20 times the logarithm of |Γ| squared",
                    "Did you square |Γ| before the logarithm?",
                    "Take 20 times the logarithm of |Γ|, or 10 times that of |Γ| squared.",
                    lambda size: 2 * loss_of(size),
                    usual=1,
                ),
                _slip(
                    IN_DECIBELS,
                    "standing-wave ratio",
                    "giving the standing-wave ratio in decibels",
                    "Of which ratio did you take the logarithm?",
                    "Take that of |Γ|, not that of the standing-wave ratio.",
                    lambda size: decibels((1 + size) / (1 - size)) if size < 1 else MOST,
                ),
                _slip(
                    IN_DECIBELS,
                    "power that goes in",
                    "giving by how much the power that goes into the load is less than what arrives",
                    "Is that about the wave that comes back, or about what goes into the load?",
                    "The return loss is of the wave that comes back: take the logarithm of |Γ| itself.",
                    lambda size: -decibels(1 - size**2) / 2 if size < 1 else MOST,
                ),
                _slip(
                    IN_DECIBELS,
                    "natural logarithm",
                    "taking the natural logarithm",
                    "To which base did you take the logarithm?",
                    "Decibels go with the logarithm to the base 10.",
                    lambda size: -20 * log(size),
                    usual=1,
                ),
                _slip(
                    IN_DECIBELS,
                    "size of reflection",
                    "giving |Γ| itself",
                    "Is that |Γ|, or decibels?",
                    "Take −20 times the logarithm of it.",
                    lambda size: size,
                    usual=1,
                ),
            ),
        ),
    ),
)

SHARE = Step(
    key="share",
    title="Find the share of the power that comes back",
    ask="How much of the power that arrives at the {known} comes back, in percent?",
    goal="|Γ| is a ratio of voltages; the power goes with the square of the voltage.",
    rule="The share that comes back is |Γ| squared. The rest goes into the {known}.",
    numbers=lambda w: f"{w.notation.number(size(w))} times itself, times 100 %.",
    because="Where half of the voltage comes back, three quarters of the power still go in.",
    fields=(
        Field(
            quantity="share",
            label="Power that comes back",
            names=("reflected power", "power reflected", "share reflected", "power that comes back"),
            kind=lambda w: IN_PERCENT,
            value=lambda w: share_of(size(w)),
            routes=(
                lambda w: share_of(size_on_circle(w)),
                lambda w: share_of(IN_DECIBELS.size(w["loss"])),
            ),
            slips=(
                _slip(
                    IN_PERCENT,
                    "not squared",
                    "giving |Γ| in percent",
                    "Is that a share of the voltage, or of the power?",
                    "Square |Γ| first.",
                    lambda size: 100 * size,
                    usual=3,
                ),
                _slip(
                    IN_PERCENT,
                    "what goes in",
                    "giving the share that goes into the {known}",
                    "Is that what comes back, or what goes in?",
                    "What comes back is asked: |Γ| squared.",
                    lambda size: 100 - share_of(size),
                ),
                _slip(
                    IN_PERCENT,
                    "what goes in, not squared",
                    "taking |Γ| from one",
                    "What is one less |Γ|?",
                    "It is no share of anything. Square |Γ|: that comes back.",
                    lambda size: 100 * (1 - size),
                    usual=1,
                ),
                _slip(
                    IN_PERCENT,
                    "part of one",
                    "giving a part of one where percent are asked",
                    "Is that in percent?",
                    "One is 100 %: multiply by 100.",
                    lambda size: size**2,
                ),
                _slip(
                    IN_PERCENT,
                    "root",
                    "taking the root of |Γ|",
                    "Did you square |Γ|, or take its root?",
                    "Power goes with the square of the voltage: square |Γ|.",
                    lambda size: 100 * sqrt(size),
                    usual=1,
                ),
                _slip(
                    IN_PERCENT,
                    "halved",
                    "taking half of |Γ| squared",
                    "Where does the half come from?",
                    "Both waves have the half that goes with crest volts, so it drops out: the share is |Γ| squared.",
                    lambda size: share_of(size) / 2,
                    usual=1,
                ),
            ),
        ),
    ),
)
