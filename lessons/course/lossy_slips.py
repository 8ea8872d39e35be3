"""What goes wrong on a lossy line: decibels counted once or twice, voltage for power, one end for the other."""

from __future__ import annotations

from math import exp

from lessons.course import ratio_slips
from lessons.course.lossy_values import decibels_lost, kept, load_size, mismatch_loss, share
from lessons.grammar import slips as made
from lessons.grammar.lesson import Slip, Work


def _ratio(size: float) -> float:
    return (1 + size) / (1 - size) if size < 1 else float("inf")


SIZE = (
    Slip(
        key="one way only",
        doing="taking the loss of one way",
        question="How often has the wave run along the line when it is back?",
        remedy="There and back: |Γ| shrinks by twice the decibels of the line.",
        predict=lambda w: load_size(w) * kept(w["loss"]) ** 0.5,
        usual=3,
    ),
    Slip(
        key="power for voltage",
        doing="shrinking |Γ| as if it were a ratio of powers",
        question="Is |Γ| a ratio of voltages, or of powers?",
        remedy="|Γ| is a ratio of voltages, and decibels of voltages go with 20: there and back that is loss / 10.",
        predict=lambda w: load_size(w) * kept(w["loss"]) ** 2,
    ),
    Slip(
        key="not shrunk",
        doing="giving |Γ| of the load",
        question="Is that |Γ| at the load, or at the input?",
        remedy="Loss leads inward: at the input |Γ| is smaller.",
        predict=load_size,
        usual=1,
    ),
    Slip(
        key="outward",
        doing="walking outward, as if toward the load",
        question="Does |Γ| grow or shrink toward the generator?",
        remedy="Toward the generator less comes back: multiply by the factor, do not divide by it.",
        predict=lambda w: load_size(w) / kept(w["loss"]),
        spread=lambda w: 1 / kept(w["loss"]),
    ),
    Slip(
        key="factor alone",
        doing="giving the factor by which |Γ| shrinks",
        question="Is that |Γ|, or by what it shrinks?",
        remedy="Multiply |Γ| of the load by the factor.",
        predict=lambda w: kept(w["loss"]),
        usual=1,
    ),
    Slip(
        key="nepers",
        doing="taking the decibels for nepers",
        question="Is the loss in decibels, or in nepers?",
        remedy="With decibels go powers of 10: 10 to the power of −loss / 10.",
        predict=lambda w: load_size(w) * exp(-2 * w["loss"]),
        usual=1,
    ),
)

RATIO = (
    made.other_quantity(
        "at the load",
        "giving the standing-wave ratio at the load",
        "Is that the ratio at the load, or at the input?",
        "Take |Γ| at the input.",
        lambda w: w["mismatch"],
        lambda w: _ratio(w["size"]),
    ),
    Slip(
        key="ratio shrunk",
        doing="shrinking the standing-wave ratio itself",
        question="What does the loss shrink, |Γ| or the standing-wave ratio?",
        remedy="It shrinks |Γ|. The ratio follows from it: (1 + |Γ|) / (1 − |Γ|).",
        predict=lambda w: w["mismatch"] * kept(w["loss"]),
        spread=lambda w: _spread_of_shrunk(w),
    ),
    ratio_slips.size_given(lambda w: w["size"]),
    ratio_slips.not_divided(lambda w: w["size"]),
    ratio_slips.left_side(lambda w: _ratio(w["size"])),
)


def _spread_of_shrunk(work: Work) -> float:
    """A ratio that is shrunk stands nearer to the centre, where a reading error counts for more."""
    part, ratio = kept(work["loss"]), work["mismatch"]
    return float(max(1.0, part * ((ratio + 1) / (ratio * part + 1)) ** 2))


SHARE = (
    Slip(
        key="as if matched",
        doing="counting the line's own loss alone",
        question="Is this load matched to the line?",
        remedy="That would arrive at a matched load. Here some of it turns round: mind 1 − |Γ|² at both ends.",
        predict=lambda w: 100 * kept(w["loss"]),
        usual=3,
    ),
    Slip(
        key="mismatch alone",
        doing="counting what turns round at the load alone",
        question="Did you mind the line's own loss?",
        remedy="The wave has shrunk before it arrives: multiply by 10 to the power of −loss / 10.",
        predict=lambda w: 100 * (1 - load_size(w) ** 2),
    ),
    Slip(
        key="not divided",
        doing="comparing with the wave that sets out, and not with the power that goes in",
        question="Which power do you compare with?",
        remedy="Some of the wave is back at the input and never went in: divide by 1 − |Γ|², with |Γ| at the input.",
        predict=lambda w: share(w) * (1 - w["size"] ** 2),
    ),
    Slip(
        key="multiplied",
        doing="multiplying by 1 − |Γ|² of the input in place of dividing",
        question="Do you multiply or divide by what goes in?",
        remedy="What goes in is the whole of which a share is asked: divide by it.",
        predict=lambda w: share(w) * (1 - w["size"] ** 2) ** 2,
        usual=1,
    ),
    Slip(
        key="what is lost",
        doing="giving the share that is lost",
        question="Is that what arrives, or what is lost?",
        remedy="What arrives is asked: take it from 100 %.",
        predict=lambda w: 100 - share(w),
        usual=1,
    ),
    Slip(
        key="part of one",
        doing="giving a part of one where percent are asked",
        question="Is that in percent?",
        remedy="One is 100 %: multiply by 100.",
        predict=lambda w: share(w) / 100,
    ),
)

TOTAL = (
    Slip(
        key="twenty times",
        doing="taking 20 times the logarithm of a share of power",
        question="Did you take 10 or 20 times the logarithm?",
        remedy="With power goes 10; 20 is for voltages.",
        predict=lambda w: 2 * decibels_lost(w["share"]),
    ),
    Slip(
        key="sign",
        doing="giving it with a minus sign",
        question="Which sign has a loss?",
        remedy="A loss is above zero where less arrives than goes in: leave the minus sign away.",
        predict=lambda w: -decibels_lost(w["share"]),
    ),
    Slip(
        key="of what is lost",
        doing="taking the logarithm of what is lost",
        question="Of which share did you take the logarithm?",
        remedy="Take that of the share that arrives.",
        predict=lambda w: decibels_lost(100 - w["share"]),
        usual=1,
    ),
)

EXTRA = (
    Slip(
        key="nothing taken off",
        doing="giving the whole loss",
        question="Did you take the line's own loss off?",
        remedy="Take {loss} off: that is lost behind a matched load as well.",
        predict=lambda w: w["total"],
    ),
    Slip(
        key="added",
        doing="adding the line's own loss once more",
        question="Did you add {loss}, or take it off?",
        remedy="The whole loss has {loss} in it already: take it off.",
        predict=lambda w: w["total"] + w["loss"],
        usual=1,
    ),
    Slip(
        key="turned round at the load",
        doing="giving what a reflection like the load's would cost by itself",
        question="Is what turns round at the load lost?",
        remedy="Most of it comes back to the input and never went in. Lost is what it leaves in the line on its way.",
        predict=lambda w: mismatch_loss(load_size(w)),
        spread=lambda w: 2.0,
    ),
    Slip(
        key="negative",
        doing="taking the whole loss from the line's own",
        question="Which one did you take from which?",
        remedy="The whole loss is the larger one: take {loss} from it.",
        predict=lambda w: w["loss"] - w["total"],
        usual=1,
    ),
)
