"""Two-ports by their scattering parameters: in cascade, taken away from what was measured, loaded.

Frequencies in hertz, rising, shape (n,). Scattering parameters have the shape S + (n, 2, 2): row and column say
where a wave comes out and where it went in. Each port has a real reference resistance of its own, in ohms.
Nothing is turned into chain parameters on the way, so that a two-port that lets nothing through is one like
others. Source of the definitions: D. M. Pozar, Microwave Engineering, 4th ed., sections 4.3 and 4.4 (from
memory); K. Kurokawa, IEEE Trans. MTT 13, 1965 (from memory), for references that differ.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Array, Complex, Real, common_shape, plain
from core.checks import of_kind, passive_impedance, real_impedance
from core.errors import OutOfRange
from core.line import impedance_from_reflection
from core.ranges import real_in_range
from core.readable import Readable, Rows, amount

AGREED = 1e-12
"""Relative difference up to which two measured or computed two-ports are alike."""
LARGEST = 1e12
"""Size up to which a parameter or a reflection is one: no two-port amplifies a million million times."""
UNBOUND = "what is behind the two-port reflects without bound"


@dataclass(frozen=True, eq=False)
class TwoPort(Readable):
    """A two-port at some frequencies; port 1 is at the left, port 2 at the right, and `a @ b` joins a's 2 to b's 1.

    frequency : hertz >= 0, rising, shape (n,).  scattering : complex, shape S + (n, 2, 2), finite.
    reference : ohms > 0, one number for both ports or one for each.
    noise : a file's noise table, kept for writing, shape (m, 5): hertz and four numbers as the file has them; what
    is computed from a two-port has none.  Raises OutOfRange, NotAnImpedance.

    >>> pad = TwoPort([1e9], [[[0, 0.5], [0.5, 0]]])
    >>> (pad @ pad).insertion_loss_db.round(2).tolist()
    [12.04]
    """

    frequency: Any
    scattering: Any
    reference: Any = 50.0
    noise: Any = None

    def __post_init__(self) -> None:
        hertz = real_in_range(self.frequency, "frequency", "in hertz", at_least=0)
        if hertz.ndim != 1 or not hertz.size or np.any(np.diff(hertz) <= 0):
            raise OutOfRange(
                "The frequencies must rise from one to the next, and be one at least.", value=hertz
            )
        scattering = complex_numbers(self.scattering, "scattering parameters")
        if scattering.shape[-3:] != (hertz.size, 2, 2):
            raise OutOfRange(
                f"The scattering parameters must be one 2 by 2 matrix for each of {hertz.size} frequencies, not of "
                f"shape {scattering.shape}.",
                value=self.scattering,
            )

        if self.noise is not None and real_in_range(self.noise, "noise", "a table of numbers").shape[1:] != (
            5,
        ):
            raise OutOfRange(
                "The noise table has five numbers for each of its frequencies.", value=self.noise
            )
        both = references(self.reference)
        for name, value in (("frequency", hertz), ("scattering", scattering), ("reference", both)):
            object.__setattr__(self, name, value)

    def __matmul__(self, other: TwoPort) -> TwoPort:
        """The cascade, this one at the left.  Raises OutOfRange where frequencies differ, or where a wave between
        the two comes back as it was and there is no steady state."""
        if not isinstance(other, TwoPort):
            return NotImplemented
        _same_frequencies(self, other)
        left, right = self, other.renormalised((self.reference[1], other.reference[1]))
        (a11, a12), (a21, a22) = parameters_of(left.scattering)
        (b11, b12), (b21, b22) = parameters_of(right.scattering)
        between = self._nonzero(1 - a22 * b11, "a wave between the two-ports returns undiminished")
        s11, s22 = a11 + a12 * b11 * a21 / between, b22 + b21 * a22 * b12 / between
        joined = matrices(s11, a12 * b12 / between, b21 * a21 / between, s22)
        return TwoPort(self.frequency, joined, (left.reference[0], right.reference[1]))

    @property
    def flipped(self) -> TwoPort:
        """The same two-port seen from the other side."""
        return TwoPort(self.frequency, self.scattering[..., ::-1, ::-1], self.reference[::-1])

    def after(self, left: TwoPort) -> TwoPort:
        """What is behind `left`, where this is the cascade of both: `left @ whole.after(left)` is the whole.

        left : at the same frequencies, with something passing both ways.  Raises OutOfRange, naming where."""
        _same_frequencies(self, left)
        (w11, w12), (w21, w22) = parameters_of(
            self.renormalised((left.reference[0], self.reference[1])).scattering
        )
        (a11, a12), (a21, a22) = parameters_of(left.scattering)
        nothing = "the piece lets nothing through, and what is behind it cannot be known"
        a12, a21 = self._nonzero(a12, nothing), self._nonzero(a21, nothing)
        seen = w11 - a11
        b11 = _bounded(seen, self._nonzero(a12 * a21 + a22 * seen, UNBOUND))
        b21, b12 = _bounded(w21 * (1 - a22 * b11), a21), _bounded(w12 * (1 - a22 * b11), a12)
        b22 = w22 - _bounded(w21 * a22 * b12, a21)
        return TwoPort(self.frequency, matrices(b11, b12, b21, b22), (left.reference[1], self.reference[1]))

    def before(self, right: TwoPort) -> TwoPort:
        """What is in front of `right`, where this is the cascade of both.  As `after`, from the other side."""
        _same_frequencies(self, right)
        return self.flipped.after(right.flipped).flipped

    def renormalised(self, reference: ArrayLike) -> TwoPort:
        """The same two-port with other reference resistances, in ohms > 0: one for both ports or one for each.

        Raises NotAnImpedance, OutOfRange."""
        wanted = references(reference)
        if np.array_equal(wanted, self.reference):
            return self
        step = (wanted - self.reference) / (wanted + self.reference)
        grown = (wanted + self.reference) / np.sqrt(wanted * self.reference)  # the waves' amplitudes, twice
        moved = (self.scattering - np.diag(step)) @ _inverse(
            np.eye(2) - step[:, None] * self.scattering, self
        )
        return TwoPort(self.frequency, moved * grown[:, None] / grown, wanted)

    def input_reflection(self, load_impedance: ArrayLike) -> Complex:
        """Reflection at port 1, with respect to its reference, with a load at port 2.

        load_impedance : complex ohms, resistance >= 0, of shape (n,) or one that broadcasts; inf allowed.
        Raises NotAnImpedance, NegativeResistance; OutOfRange where there is no steady state."""
        (s11, s12), (s21, s22) = parameters_of(self.scattering)
        load, resistance = passive_impedance(load_impedance), self.reference[1]
        common_shape(load.shape, s11.shape)
        gap = np.isinf(load.real)
        known = np.where(gap, 0.0, load)
        reflection = np.where(gap, 1.0, (known - resistance) / (known + resistance))
        between = self._nonzero(
            1 - s22 * reflection, "a wave between port 2 and the load returns undiminished"
        )
        return plain(s11 + s12 * s21 * reflection / between)

    def load_reflection(self, input_reflection: ArrayLike) -> Complex:
        """Reflection of what is at port 2, with respect to its reference, from what is seen at port 1.

        input_reflection : complex, with respect to the reference of port 1; of shape (n,) or one that broadcasts.
        The inverse of `input_reflection`: a load measured through a cable, brought to the cable's end.
        Raises OutOfRange where the two-port lets nothing through."""
        (s11, s12), (s21, s22) = parameters_of(self.scattering)
        seen = complex_numbers(input_reflection, "reflection")
        common_shape(seen.shape, s11.shape)
        seen = seen - s11
        through = self._nonzero(s12 * s21, "the two-port lets nothing through, and its load cannot be known")
        return plain(_bounded(seen, self._nonzero(through + s22 * seen, UNBOUND)))

    def load_impedance(self, input_reflection: ArrayLike) -> Complex:
        """Impedance in ohms of what is at port 2, from what is seen at port 1: that of `load_reflection`."""
        return impedance_from_reflection(self.load_reflection(input_reflection), self.reference[1])

    @property
    def insertion_loss_db(self) -> Real:
        """-20 log10 |S21| in decibels, shape S + (n,); inf where nothing passes."""
        with np.errstate(divide="ignore"):
            return -20 * np.log10(np.abs(self.scattering[..., 1, 0])) + 0.0

    @property
    def reciprocal(self) -> bool:
        """Whether as much passes one way as the other, to 1e-12."""
        s12, s21 = self.scattering[..., 0, 1], self.scattering[..., 1, 0]
        return bool(np.all(np.abs(s12 - s21) <= AGREED * np.maximum(1, np.abs(s12))))

    @property
    def power_gain(self) -> Real:
        """Most power that comes out for what goes in, whatever goes in where: at most 1 if passive.  Shape S + (n,).

        Source: the largest singular value of S, squared; Pozar, 4th ed., eq. 4.51 (from memory), its bound."""
        return np.linalg.norm(self.scattering, ord=2, axis=(-2, -1)) ** 2

    @property
    def passive(self) -> bool:
        """Whether no more power comes out than goes in, to 1e-12."""
        return bool(np.all(self.power_gain <= 1 + AGREED))

    def at(self, frequency: ArrayLike) -> TwoPort:
        """At other frequencies in hertz, rising, within those known; parameters on straight lines between samples.

        Raises OutOfRange."""
        first, last = self.frequency[0], self.frequency[-1]
        wanted = real_in_range(frequency, "frequency", "hertz, within the known", at_least=first, up_to=last)
        right = np.clip(
            np.searchsorted(self.frequency, wanted, side="right"), 1, max(1, self.frequency.size - 1)
        )
        if self.frequency.size == 1:
            return TwoPort(wanted, self.scattering, self.reference)
        low, high = self.frequency[right - 1], self.frequency[right]
        share = ((wanted - low) / (high - low))[..., None, None]
        before, beyond = self.scattering[..., right - 1, :, :], self.scattering[..., right, :, :]
        return TwoPort(wanted, before * (1 - share) + beyond * share, self.reference)

    def _nonzero(self, value: Array, meaning: str) -> Array:
        """The divisor; raises OutOfRange, with the frequency, where it is zero."""
        zero = np.atleast_1d(value) == 0
        if np.any(zero):
            place = np.nonzero(zero)[-1][0]
            where = self.frequency[min(place, self.frequency.size - 1)]
            raise OutOfRange(f"At {where:g} Hz {meaning}.", value=where)
        return value

    def _rows(self) -> Rows:
        ends = f"{amount(self.frequency[0])} to {amount(self.frequency[-1], 'Hz')}"
        reference = " and ".join(amount(ohms, "ohm") for ohms in dict.fromkeys(self.reference.tolist()))
        return [("frequencies", str(self.frequency.size)), ("range", ends), ("reference", reference)]


def references(reference: ArrayLike) -> Array:
    """The reference resistances of both ports in ohms, shape (2,).  Raises NotAnImpedance, OutOfRange."""
    ohms = np.asarray(real_impedance(reference, "reference resistance"))
    if ohms.shape not in ((), (2,)):
        raise OutOfRange("A two-port has one reference resistance, or two.", value=reference)
    return np.broadcast_to(
        real_in_range(ohms, "reference resistance", "ohms", at_least=1e-9, up_to=1e9), 2
    ).copy()


def parameters_of(scattering: Array) -> tuple[tuple[Array, Array], tuple[Array, Array]]:
    (s11, s12), (s21, s22) = np.moveaxis(scattering, (-2, -1), (0, 1))
    return (s11, s12), (s21, s22)


def matrices(s11: Array, s12: Array, s21: Array, s22: Array) -> Array:
    s11, s12, s21, s22 = np.broadcast_arrays(s11, s12, s21, s22)
    return np.stack([np.stack([s11, s12], -1), np.stack([s21, s22], -1)], -2)


def _inverse(matrix: Array, of: TwoPort) -> Array:
    (a, b), (c, d) = parameters_of(matrix)
    meaning = "these reference resistances have no scattering parameters: it reflects without bound"
    return matrices(d, -b, -c, a) / of._nonzero(a * d - b * c, meaning)[..., None, None]


def complex_numbers(value: ArrayLike, name: str, largest: float = LARGEST) -> Array:
    try:
        given = np.asarray(value, dtype=complex)
    except (OverflowError, TypeError, ValueError) as fault:
        raise OutOfRange(f"The {name} must be an array of numbers.", value=value) from fault
    if not np.all(np.isfinite(given)):
        raise OutOfRange(f"The {name} must be finite numbers.", value=value)
    if np.any(np.maximum(np.abs(given.real), np.abs(given.imag)) > largest):
        raise OutOfRange(f"The {name} must be numbers smaller than {largest:g}.", value=value)
    return given


def _bounded(above: Array, below: Array) -> Array:
    """A quotient that is a parameter or a reflection.  Raises OutOfRange where it is too large for one."""
    with np.errstate(all="ignore"):
        value = np.asarray(above / below)
    if not np.all(np.abs(value) <= LARGEST):
        raise OutOfRange(
            "Nearly nothing passes the two-port: what is behind it cannot be known.", value=value
        )
    return value


def _same_frequencies(first: TwoPort, second: TwoPort) -> None:
    of_kind(second, TwoPort, "other two-port", "a TwoPort")
    one, other = first.frequency, second.frequency
    if one.shape != other.shape or not np.allclose(one, other, rtol=AGREED, atol=0):
        raise OutOfRange(
            "The two-ports are not known at the same frequencies; bring one to the other's with `at`.",
            value=other,
        )
    common_shape(first.scattering.shape, second.scattering.shape)
