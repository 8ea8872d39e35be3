"""What goes wrong with a standing-wave ratio, wherever it is asked: each slip of the right size of the reflection."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from lessons.grammar.lesson import Slip, Work

SizeOf = Callable[[Work], float]


def left_side(ratio: SizeOf, **more: Any) -> Slip:
    return Slip(
        key="left side",
        doing="reading the circle on the left of the centre",
        question="On which side of the centre did you read?",
        remedy="The ratio is 1 or more: read r where the circle cuts the axis at the right.",
        predict=lambda w: 1 / ratio(w),
        **more,
    )


def size_given(size: SizeOf) -> Slip:
    return Slip(
        key="size of reflection",
        doing="giving |Γ| itself",
        question="Is that |Γ| or the standing-wave ratio?",
        remedy="Turn it into the ratio (1 + |Γ|) / (1 − |Γ|).",
        predict=size,
    )


def not_divided(size: SizeOf) -> Slip:
    return Slip(
        key="numerator",
        doing="giving 1 + |Γ| without dividing",
        question="Did you divide by 1 − |Γ|?",
        remedy="The ratio is (1 + |Γ|) / (1 − |Γ|).",
        predict=lambda w: 1 + size(w),
        usual=1,
    )
