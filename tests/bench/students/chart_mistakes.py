"""What students of every lesson get wrong on the chart; where the key is "" the lesson is not told of it."""

from __future__ import annotations

from cmath import phase, rect
from collections.abc import Callable, Iterator
from math import copysign, log10, sqrt
from typing import Any

from tests.bench.students.arithmetic import normalised, ratio, reflection
from tests.bench.students.on_chart import ChartStudent
from tests.bench.students.people import Eye, Mistake

HABIT = 50.0


def always(value: Any) -> Callable[[Eye], Any]:
    """What no eye is needed for."""
    return lambda eye: value


def normalise(s: ChartStudent) -> Iterator[Mistake]:
    """What goes wrong in dividing."""
    z = s.load / s.line
    yield Mistake("not normalised", always(s.load))
    yield Mistake("upside down", always(1 / z))
    yield Mistake("sign of the reactance lost", always(z.conjugate()))
    yield Mistake("50 ohm by habit", always(s.load / HABIT))
    yield Mistake("one part divided", always(complex(z.real, s.load.imag)))
    yield Mistake("one part divided", always(complex(s.load.real, z.imag)))
    if z.imag > 0:
        yield Mistake("parts exchanged", always(complex(z.imag, z.real)))
    yield Mistake("", always(z * 2))
    yield Mistake("", always(z / abs(z)))


def place(s: ChartStudent) -> Iterator[Mistake]:
    """What goes wrong in placing the point."""
    z = s.at("normalise")
    at = reflection(z)

    def turned(factor: float) -> Callable[[Eye], complex]:
        return lambda eye: rect(abs(seen := eye.point(at)), factor * phase(seen))

    yield Mistake("sign of the reactance lost", lambda eye: eye.point(at.conjugate()))
    yield Mistake("admittance place", lambda eye: eye.point(-at))
    yield Mistake("angle doubled", turned(2))
    yield Mistake("angle halved", turned(0.5))
    if abs(z) <= 1:
        yield Mistake("ruler", lambda eye: eye.point(z))
    if z.imag:
        exchanged = reflection(complex(abs(z.imag), z.real if z.imag > 0 else -z.real))
        yield Mistake("parts exchanged", lambda eye: eye.point(exchanged))
    yield Mistake("", lambda eye: eye.point(at * abs(at)))


def mismatch(s: ChartStudent) -> Iterator[Mistake]:
    """What goes wrong in reading the circle."""
    at, z = abs(s.at("place")), s.at("normalise")
    yield Mistake("left side", lambda eye: 1 / ratio(eye.size(at)))
    yield Mistake("size of reflection", lambda eye: eye.size(at))
    yield Mistake("constant r", always(z.real))
    yield Mistake("size of impedance", always(abs(z)))
    yield Mistake("less one", lambda eye: ratio(eye.size(at)) - 1)
    yield Mistake("numerator", lambda eye: 1 + eye.size(at))
    yield Mistake("decibels", lambda eye: 20 * log10(ratio(eye.size(at))))
    yield Mistake("return loss", lambda eye: -20 * log10(max(1e-3, eye.size(at))))
    yield Mistake("", lambda eye: ratio(eye.size(at)) ** 2)


def admittance(s: ChartStudent) -> Iterator[Mistake]:
    """What goes wrong in going over to admittance."""
    z = s.at("normalise")
    y = 1 / z
    yield Mistake("impedance kept", always(z))
    yield Mistake(
        "sign of the susceptance lost", lambda eye: normalised(eye.point(reflection(y))).conjugate()
    )
    yield Mistake("mirrored", lambda eye: normalised(eye.point(reflection(z.conjugate()))))
    yield Mistake("divided by the size", always(z.conjugate() / abs(z)))
    yield Mistake("not normalised", always(1 / s.load))
    if z.real and z.imag:
        yield Mistake("parts inverted", always(complex(1 / z.real, 1 / z.imag)))
        yield Mistake("parts inverted", always(complex(1 / z.real, -1 / z.imag)))
    if not s.overlay:
        yield Mistake("quarter turn", lambda eye: normalised(eye.point(1j * reflection(z))))
        yield Mistake("quarter turn", lambda eye: normalised(eye.point(-1j * reflection(z))))
    yield Mistake("", always(2 * y))


def denormalised(z: complex, line: float) -> Iterator[Mistake]:
    """What goes wrong in turning z into ohms."""
    right = z * line
    yield Mistake("not denormalised", always(z))
    yield Mistake("divided again", always(z / line))
    if line != HABIT:
        yield Mistake("50 ohm by habit", always(z * HABIT))
    yield Mistake("one part multiplied", always(complex(z.real, right.imag)))
    yield Mistake("one part multiplied", always(complex(right.real, z.imag)))
    yield Mistake("sign of the reactance lost", always(right.conjugate()))


def misread(point: complex) -> Iterator[Mistake]:
    """What goes wrong in reading z at a point, wherever it stands."""
    right = normalised(point)
    yield Mistake(
        "on the rim", lambda eye: complex(0, normalised(eye.point(point) / abs(point) * 0.999999).imag)
    )
    exchanged = reflection(complex(abs(right.imag), copysign(right.real, right.imag)))
    yield Mistake("parts exchanged", lambda eye: normalised(eye.point(exchanged)))


def metric(s: ChartStudent, right: float, against: tuple[str, ...]) -> Iterator[Mistake]:
    """What goes wrong in turning wavelengths into millimetres."""
    for power in (-3, -2, -1, 1, 2, 3):
        yield Mistake("metres", always(right * 10.0**power), against)
    yield Mistake("halved", always(right / 2), against)
    if s.velocity != 1:
        yield Mistake("velocity ignored", always(right / s.velocity), against)
        yield Mistake("velocity inverted", always(right / s.velocity**2), against)
        yield Mistake("root of the velocity factor", always(right / sqrt(s.velocity)), against)
