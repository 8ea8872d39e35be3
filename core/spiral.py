"""The way of a reflection along a lossy line: about the centre of the chart and inward, as circular arcs."""

from __future__ import annotations

from math import ceil

import numpy as np

from core.arrays import ROUNDING
from core.chart import Arc, Circle, arc_between
from core.checks import single_complex
from core.line import toward_generator
from core.ranges import one_number

PIECE = 0.125
"""Wavelengths of line that one arc stands for at most: a quarter of a turn."""


def spiral(reflection: complex, distance: float, attenuation: float = 0.0) -> tuple[Arc, ...]:
    """The way along a lossy line from a reflection toward the generator, in pieces of at most a quarter turn.

    reflection : complex, a single number.  distance : wavelengths, 0 to 100.  attenuation : nepers per wavelength.
    Each arc goes through three points of the spiral: where the piece begins, its middle and its end.  None where
    there is nothing to walk along, or nothing comes back.  Raises OutOfRange, NotACircle.
    Source: the points are those of `toward_generator`; a circle through three points is elementary geometry."""
    length = one_number(distance, "distance", "in wavelengths", at_least=0, up_to=100)
    start = single_complex(reflection)
    if length == 0 or abs(start) <= ROUNDING:
        return ()
    count = ceil(length / PIECE)
    points = toward_generator(start, np.linspace(0.0, length, 2 * count + 1), attenuation)
    return tuple(_arc(*points[2 * n : 2 * n + 3]) for n in range(count))


def _arc(first: complex, middle: complex, last: complex) -> Arc:
    """The clockwise arc through three points."""
    ratio = (last - first) / (middle - first)
    center = first + (middle - first) * (ratio - abs(ratio) ** 2) / (2j * ratio.imag)
    return arc_between(Circle(complex(center), float(abs(first - center))), first, last, clockwise=True)
