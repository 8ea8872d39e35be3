"""What is printed beside curves: a tick, a number, and how heavy each is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

Weight = Literal["major", "medium", "fine"]
Align = Literal["start", "middle", "end"]


@dataclass(frozen=True)
class Tick:
    """A radial mark from one radius to another."""

    angle: float
    inner: float
    outer: float
    weight: Weight


@dataclass(frozen=True)
class Label:
    """A number at a place; `rotation` is that of its baseline, `align` the part of it that stands at the place."""

    angle: float
    radius: float
    text: str
    rotation: float
    weight: Weight
    align: Align = "middle"

    @property
    def at(self) -> complex:
        """The place as a point of the plane."""
        return complex(self.radius * np.exp(1j * self.angle))


def digits(value: float) -> str:
    """A number in plain digits, with a true minus sign."""
    return f"{value:g}".replace("-", "−")


def is_multiple(value: float, step: float) -> bool:
    """Whether a value stands on a step, but for rounding."""
    return abs(value / step - round(value / step)) < 1e-9
