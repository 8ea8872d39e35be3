"""Matching with two lumped parts: every L network, its values, and what parts off the shelf do to it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import ROUNDING, Complex, Real, Text, broadcast, plain, quotient, spread, store
from core.checks import Array
from core.designs import cut_admittances, normalised_load
from core.elements import reactance_at
from core.errors import OutOfRange
from core.line import swr
from core.network import MatchingNetwork, Reactance
from core.preferred import nearest_preferred
from core.ranges import real_in_range
from core.readable import Rows, amount
from core.solutions import TAKES_NO_POWER, Solutions, sentences

MATCHED_ALREADY = "This load is matched already: no part is needed."
INSIDE_RESISTANCE = (
    "This load is inside the unit-resistance circle (r above 1): the shunt part must be nearer the load."
)
INSIDE_CONDUCTANCE = (
    "This load is inside the unit-conductance circle (g above 1): the series part must be nearer the load."
)
ON_A_CIRCLE = "This load is on a unit circle: in one of the networks a single part does."
ON_IT = 4 * ROUNDING  # of r or g: a load this near a unit circle is on it
PREFIXES = {"p": 1e-12, "n": 1e-9, "µ": 1e-6, "m": 1e-3, "": 1.0}


@dataclass(frozen=True)
class LumpedPart(Reactance):
    """An inductor or a capacitor, or no part: zero reactance in the line, infinite reactance across it.

    reactance : ohms at the design frequency.  frequency : that frequency, hertz; None where it was not
    given; the two broadcast.  Raises OutOfRange, UnknownChoice, ShapesDiffer."""

    frequency: Any = None

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.frequency is not None:
            hertz = real_in_range(self.frequency, "frequency", "in hertz", above=0)
            broadcast(self.reactance, hertz)
            store(self, frequency=hertz)

    def _checked(self, reactance: Any) -> Array:
        ohms = real_in_range(
            reactance, "reactance", "in ohms", infinite=self.placement == "shunt", missing=True
        )
        if self.placement == "shunt" and np.any(ohms == 0):
            raise OutOfRange(
                "A shunt part of 0 ohm is a short circuit: nothing comes past it.", value=reactance
            )
        return ohms

    @property
    def kind(self) -> Text:
        """What it is: "inductor", "capacitor" or "none"; "none" also where there is no solution."""
        reactance = np.asarray(self.reactance, dtype=float)
        none = np.isnan(reactance) | (np.isinf(reactance) if self.placement == "shunt" else reactance == 0)
        return plain(np.where(none, "none", np.where(reactance > 0, "inductor", "capacitor")))

    @property
    def inductance(self) -> Real | None:
        """Henry; nan where the part is not an inductor, None without a frequency."""
        return None if self.frequency is None else self._inductance()

    @property
    def capacitance(self) -> Real | None:
        """Farad; nan where the part is not a capacitor, None without a frequency."""
        return None if self.frequency is None else self._capacitance()

    def preferred(self, series: str = "E24") -> LumpedPart:
        """The part with the nearest preferred value; no part stays no part.

        series : "E12" or "E24".  Raises UnknownChoice, and OutOfRange without a frequency."""
        if self.frequency is None:
            raise OutOfRange(
                "A part's value is known only with a frequency: give l_network one, in hertz.", value=None
            )
        speed = 2 * np.pi * np.asarray(self.frequency, dtype=float)
        inductor, capacitor = np.equal(self.kind, "inductor"), np.equal(self.kind, "capacitor")
        inductive = speed * nearest_preferred(np.where(inductor, self._inductance(), 1.0), series)
        capacitive = -1 / (speed * nearest_preferred(np.where(capacitor, self._capacitance(), 1.0), series))
        reactance = np.select([inductor, capacitor], [inductive, capacitive], self.reactance)
        return replace(self, reactance=plain(reactance))

    def impedance_fraction(self, ratio: Array) -> tuple[Array, Array]:
        reactance = np.asarray(self.reactance, dtype=float)
        gap = np.isinf(reactance)
        numerator, denominator = Reactance(np.where(gap, 1.0, reactance)).impedance_fraction(ratio)
        gap = gap.reshape(gap.shape + (1,) * np.ndim(ratio))
        return np.where(gap, 1.0, numerator), np.where(gap, 0.0, denominator)

    def detuned(self, ratio: ArrayLike) -> LumpedPart:
        reactance = reactance_at(self.reactance, ratio)
        hertz = None if self.frequency is None else np.asarray(self.frequency) * ratio
        return replace(self, reactance=reactance, frequency=hertz)

    def as_built(self, length_error: Array, impedance_error: Array, velocity_error: Array) -> LumpedPart:
        frequency = None if self.frequency is None else spread(self.frequency, impedance_error)
        reactance = spread(self.reactance, impedance_error) * (1 + impedance_error)
        return replace(self, reactance=reactance, frequency=frequency)

    def _inductance(self) -> Real:
        return self._value("inductor", lambda x, w: x / w)

    def _capacitance(self) -> Real:
        return self._value("capacitor", lambda x, w: -1 / (w * x))

    def _value(self, kind: str, formula: Any) -> Any:
        speed, there = 2 * np.pi * np.asarray(self.frequency, dtype=float), np.equal(self.kind, kind)
        return plain(np.where(there, formula(np.where(there, self.reactance, 1.0), speed), np.nan))

    def _rows(self) -> Rows:
        several = np.ndim(self.reactance) or np.ndim(self.frequency)
        if several or (self.frequency is None and self.kind != "none"):
            return super()._rows()
        values = {"inductor": (self._inductance, "H"), "capacitor": (self._capacitance, "F")}
        size, unit = values.get(self.kind, (None, ""))
        text = engineering(size(), unit) if size else "none"
        return [(f"{self.placement} {self.kind}" if self.kind in values else f"{self.placement} part", text)]


@dataclass(frozen=True)
class LNetwork(MatchingNetwork):
    """A shunt and a series part, in the order in which the load meets them.

    Admittances, impedances, susceptances and reactances are normalised to the line."""

    elements: tuple[LumpedPart, LumpedPart]
    made_of = ((LumpedPart, LumpedPart),)

    @property
    def topology(self) -> str:
        """Either "shunt nearer load" or "series nearer load"."""
        return f"{self.elements[0].placement} nearer load"

    @property
    def shunt(self) -> LumpedPart:
        """The part across the line."""
        return self.elements[0 if self.elements[0].placement == "shunt" else 1]

    @property
    def series(self) -> LumpedPart:
        """The part in the line."""
        return self.elements[0 if self.elements[0].placement == "series" else 1]

    @property
    def shunt_susceptance(self) -> Real:
        """Of the shunt part; above zero a capacitor."""
        return plain(0.0 - np.asarray(self.line_impedance) / np.asarray(self.shunt.reactance))

    @property
    def series_reactance(self) -> Real:
        """Of the series part; above zero an inductor."""
        return plain(np.asarray(self.series.reactance) / np.asarray(self.line_impedance))

    @property
    def load_admittance(self) -> Complex:
        """At the load."""
        return cut_admittances(self)[0]

    @property
    def admittance_between(self) -> Complex:
        """Between the parts: on the circle r = 1 where the shunt part is nearer the load, else on g = 1."""
        return cut_admittances(self)[1]

    @property
    def impedance_between(self) -> Complex:
        """The same point read as an impedance."""
        return plain(quotient(1.0, self.admittance_between))

    @property
    def quality_factor(self) -> Real:
        """Reactance over resistance between the parts: the higher, the narrower the match."""
        between = np.asarray(self.admittance_between)
        with np.errstate(divide="ignore", invalid="ignore"):  # beside a load that takes no power
            return plain(np.abs(between.imag) / between.real)

    @property
    def input_swr(self) -> Real:
        """SWR on the line at the design frequency: 1 as designed, more with preferred values."""
        return swr(self.input_reflection())

    def with_preferred(self, series: str = "E24") -> LNetwork:
        """The network with the nearest preferred values in it, no longer an exact match.

        series : "E12" or "E24".  Raises UnknownChoice, and OutOfRange without a frequency.

        >>> low_pass = l_network(200 - 100j, 100, 500e6)[0]
        >>> round(low_pass.with_preferred("E12").input_swr, 3)
        1.063
        """
        near, far = self.elements
        return replace(self, elements=(near.preferred(series), far.preferred(series)))


def l_network(
    load_impedance: ArrayLike, line_impedance: ArrayLike, frequency: ArrayLike | None = None
) -> Solutions[LNetwork]:
    """Every match of a load with one shunt and one series part, lossless.

    load_impedance : complex ohms, any shape; inf is an open circuit.  line_impedance : positive real ohms.
    frequency : hertz > 0, for the parts' values; all broadcast.

    Returns `Solutions` of `LNetwork`, in this order: shunt part nearer the load with a series inductor, the
    same with a series capacitor; series part nearer the load with a shunt capacitor, the same with a shunt
    inductor. Four for a load outside both unit circles; two inside one (only one of the topologies) or on one
    (where one of the two needs a single part, and the other part is of kind "none"); one, of no parts, for a
    matched load; none, with the reason in `.reason`, for a load that takes no power. For arrays always four,
    nan where there is none and repeated where two are the same.
    Raises NotAnImpedance, NegativeResistance, OutOfRange.
    Source: Pozar, 4th ed., section 5.1, eq. 5.3 and 5.6 (from memory), in the form of the crossings of the
    load's circle with the other unit circle: b = +-sqrt(g - g²) there, and x = +-sqrt(r - r²).

    >>> for network in l_network(200 - 100j, 100, 500e6):
    ...     print(*network.elements)
    LumpedPart(shunt capacitor: 0.9228 pF) LumpedPart(series inductor: 38.98 nH)
    LumpedPart(shunt inductor: 46.14 nH) LumpedPart(series capacitor: 2.599 pF)
    """
    load, line, z = normalised_load(load_impedance, line_impedance)
    if frequency is not None:
        frequency = real_in_range(frequency, "frequency", "in hertz", above=0.0)
        load, line, z, frequency = broadcast(load, line, z, frequency)
    y, networks = quotient(np.ones_like(z), z), []
    for placement, here, there in (("shunt", y, z), ("series", z, y)):
        for near, far in _crossings(here, there):
            pair = (near, far) if placement == "shunt" else (far, near)
            shunt, series = parts_of(*pair, line, frequency)
            elements = (shunt, series) if placement == "shunt" else (series, shunt)
            networks.append(LNetwork(plain(load), plain(line), elements))
    if z.ndim:
        return Solutions(tuple(networks), sentences([(TAKES_NO_POWER, np.isnan(z))]))
    return Solutions(tuple(_distinct(networks)), _reason(z, y))


def engineering(value: float, unit: str) -> str:
    """A value with the prefix that leaves 1 to 1000 before the unit, such as 38.98 nH."""
    fitting = [prefix for prefix, size in PREFIXES.items() if abs(value) >= 0.99995 * size]
    prefix = fitting[-1] if fitting else "p"
    return amount(value / PREFIXES[prefix], f"{prefix}{unit}")


def _crossings(here: Array, there: Array) -> list[tuple[Array, Array]]:
    """What the part nearer the load adds, and what the other adds, for both crossings, normalised.

    here : the load as the near part sees it (y for a shunt part, z for a series one).  there : one over it.
    The near part moves it along its circle to g +- j sqrt(g - g²); one over that is 1 -+ j sqrt(1/g - 1)."""
    on_circle, needless = np.abs(here.real - 1) <= ON_IT, np.abs(there.real - 1) <= ON_IT
    left = np.where(on_circle, 0.0, 1 - here.real)
    root = np.where(left >= 0, np.sqrt(here.real) * np.sqrt(np.maximum(left, 0.0)), np.nan)
    found = []
    for total in (root, -root):
        arrived = needless & (np.sign(total) == np.sign(here.imag))  # the load itself is this crossing
        near = np.where(arrived, 0.0, total - here.imag)
        found.append((near, np.where(arrived, -there.imag, total / here.real)))
    return found


def parts_of(
    susceptance: Array, reactance: Array, line: Array, frequency: Any
) -> tuple[LumpedPart, LumpedPart]:
    across = np.where(susceptance == 0, np.inf, -line / np.where(susceptance == 0, 1.0, susceptance))
    hertz = None if frequency is None else plain(frequency)
    shunt = LumpedPart(plain(across), "shunt", hertz)
    return shunt, LumpedPart(plain(line * reactance + 0.0), "series", hertz)


def _distinct(networks: list[LNetwork]) -> list[LNetwork]:
    """Those that exist, each once: two are the same where they have the same parts."""
    kept: dict[tuple[tuple[str, float], ...], LNetwork] = {}
    for network in networks:
        parts = tuple((part.placement, part.reactance) for part in network.elements if part.kind != "none")
        if not np.isnan(network.shunt.reactance):
            kept.setdefault(parts, network)
    return list(kept.values())


def _reason(z: Array, y: Array) -> str:
    """Why there are not four solutions."""
    if np.isnan(z):
        return TAKES_NO_POWER
    if z == 1:
        return MATCHED_ALREADY
    if min(abs(z.real - 1), abs(y.real - 1)) <= ON_IT:
        return ON_A_CIRCLE
    return sentences([(INSIDE_RESISTANCE, z.real > 1), (INSIDE_CONDUCTANCE, y.real > 1)])
