"""Two-ports from what they are made of, lines and matching networks, and from the other kinds of parameters.

Z, Y, H and G parameters share one formula: each makes two of the ports' voltages and currents from the other
two. With every voltage over the root of its reference and every current times it, those made are a + s b and
those given are a - s b, in waves a inward and b outward, where s is 1 for a voltage made and -1 for a current;
so S = s (K + 1)^-1 (K - 1). Source: the definitions; D. M. Pozar, 4th ed., tables 4.1 and 4.2 (from memory).
"""

from __future__ import annotations

from functools import reduce

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Array
from core.checks import choice, of_kind
from core.elements import Element
from core.errors import OutOfRange
from core.network import MatchingNetwork
from core.ranges import frequency_ratios, one_number
from core.real_line import LineModel, any_frequency, length_in_metres, one_frequency
from core.two_port import TwoPort, complex_numbers, matrices, parameters_of, references

MADE = {"Z": (1, 1), "Y": (-1, -1), "H": (1, -1), "G": (-1, 1)}
"""Of each kind, whether it makes the port's voltage (1) or its current (-1)."""
KINDS = ("S", *MADE, "ABCD")
Chain = tuple[Array, Array, Array, Array, Array]
"""A, B, C and D of a chain matrix, and what all four are multiplied by."""


def two_port_from(kind: str, frequency: ArrayLike, matrix: ArrayLike, reference: ArrayLike = 50.0) -> TwoPort:
    """A two-port from parameters of another kind.

    kind : "Z" in ohms, "Y" in siemens, "H" or "G" (hybrid), "ABCD" (chain, the current of port 2 flowing out) or
    "S". frequency : hertz, rising, shape (n,).  matrix : complex, shape S + (n, 2, 2).  reference : ohms > 0 of
    the scattering parameters, one or one for each port.
    Raises UnknownChoice, OutOfRange, NotAnImpedance; OutOfRange for one that reflects without bound.
    Source: the top of the module.

    >>> series = two_port_from("ABCD", [1e9], [[[1, 100], [0, 1]]])
    >>> series.scattering[0].real.tolist()
    [[0.5, 0.5], [0.5, 0.5]]
    """
    choice(kind, KINDS, "kind of parameters")
    given = complex_numbers(matrix, "parameters", 1e60)
    if given.shape[-2:] != (2, 2):
        raise OutOfRange("The parameters of a two-port are 2 by 2 matrices.", value=matrix)
    ohms = references(reference)
    if kind == "ABCD":
        (a, b), (c, d) = parameters_of(given)
        return TwoPort(frequency, _from_chain((a, b, c, d, np.ones_like(a)), ohms, a * d - b * c), ohms)
    return TwoPort(
        frequency, given if kind == "S" else scattering_from(kind, given / units_of(kind, ohms)), ohms
    )


def two_port_parameters(two_port: TwoPort, kind: str) -> Array:
    """Parameters of another kind of a two-port: complex, shape S + (n, 2, 2).

    two_port : any.  kind : as for `two_port_from`, of which it is the inverse.
    Raises UnknownChoice; OutOfRange, with the frequency, where it has none: a series element alone has no Z, and
    what lets nothing through has no ABCD."""
    of_kind(two_port, TwoPort, "two-port", "a TwoPort")
    choice(kind, KINDS, "kind of parameters")
    if kind == "S":
        return two_port.scattering
    if kind == "ABCD":
        return _chain_of(two_port)
    return matrix_of(kind, two_port) * units_of(kind, two_port.reference)


def line_two_port(
    line: LineModel, length_m: float, frequency: ArrayLike, reference: ArrayLike = 50.0
) -> TwoPort:
    """A length of line as it is, between two ports.

    line : a model, of single numbers.  length_m : metres >= 0, one number.  frequency : hertz > 0, rising, shape
    (n,). reference : ohms > 0, one or one for each port.  Raises OutOfRange, NotAnImpedance.
    Source: the chain matrix of a line; Pozar, 4th ed., table 4.1 (from memory).

    >>> from core.cables import usual_cable
    >>> round(line_two_port(usual_cable("RG-213"), 25, [434e6]).insertion_loss_db.item(), 1)
    3.8
    """
    of_kind(line, LineModel, "line", "a model of one, such as usual_cable('RG-58')")
    length = one_number(length_in_metres(length_m), "length of the line", "in metres")
    hertz = line._within(frequency)
    constant, impedance = line._constants(hertz)
    once = np.exp(-constant * length)
    lost = -np.expm1(-2 * constant * length)  # the chain matrix times twice this: no overflow in a long line
    chain = 2 - lost, impedance * lost, lost / impedance, 2 - lost, 2 * once
    ohms = references(reference)
    return TwoPort(hertz, _from_chain(chain, ohms), ohms)


def network_two_port(
    network: MatchingNetwork,
    frequency: ArrayLike,
    design_frequency: float,
    reference: ArrayLike | None = None,
) -> TwoPort:
    """The elements of a matching network between two ports: port 1 toward the generator, port 2 at the load.

    network : any, of shape S.  frequency : hertz > 0, rising, shape (n,).  design_frequency : hertz.
    reference : ohms > 0, one or one for each port; by default the network's line impedance, if it is one number.
    Returns scattering parameters of the shape S + (n, 2, 2).  Raises OutOfRange, NotAnImpedance.
    Source: the chain of the elements, each as the evaluator has it.

    >>> from core.stubs import single_stub
    >>> near, far = single_stub(60 - 80j, 50)
    >>> abs(network_two_port(near, [434e6], 434e6).input_reflection(60 - 80j)).round(12).tolist()
    [0.0]
    """
    of_kind(network, MatchingNetwork, "network", "a MatchingNetwork")
    hertz = any_frequency(frequency)
    ratio = np.asarray(frequency_ratios(hertz / one_frequency(design_frequency, "design frequency")))
    ohms = references(network.line_impedance if reference is None else reference)
    one, none = np.ones_like(ratio, dtype=complex), np.zeros_like(ratio, dtype=complex)
    chain = reduce(_joined, (_chain(e, ratio) for e in network.elements), (one, none, none, one, one))
    if any(np.any(np.isnan(part)) for part in chain):
        raise OutOfRange("Some of these networks are no solutions (nan); leave them out.", value=network)
    return TwoPort(hertz, _from_chain(chain, ohms), ohms)


def scattering_from(kind: str, normalised: Array) -> Array:
    """Scattering parameters of Z, Y, H or G parameters that are relative to the references, as old files have
    them.  Raises OutOfRange for what reflects without bound, or is too large for numbers."""
    sign, one = np.array(MADE[kind])[:, None], np.eye(2)
    with np.errstate(all="ignore"):
        found = np.asarray(sign * (_divided(normalised + one) @ (normalised - one)))
    if not np.all(np.isfinite(found)):
        raise OutOfRange("These numbers are too large to mean a two-port.", value=normalised)
    return found


def matrix_of(kind: str, two_port: TwoPort) -> Array:
    """The inverse of `scattering_from`, relative to the references.  Raises OutOfRange where there are none."""
    turned, one = np.array(MADE[kind])[:, None] * two_port.scattering, np.eye(2)
    (a, b), (c, d) = parameters_of(one - turned)
    two_port._nonzero(a * d - b * c, f"the two-port has no {kind} parameters")
    return np.asarray((one + turned) @ _divided(one - turned))


def units_of(kind: str, reference: Array) -> Array:
    """What the parameters of a kind are relative to, from the references of both ports."""
    power = np.asarray(reference) ** np.array(MADE[kind], dtype=float)
    return np.sqrt(power[:, None] * power)


def _divided(matrix: Array) -> Array:
    """The inverse matrices."""
    (a, b), (c, d) = parameters_of(matrix)
    determinant = a * d - b * c
    if np.any(determinant == 0):
        raise OutOfRange("These parameters describe a two-port that reflects without bound.", value=matrix)
    return matrices(d, -b, -c, a) / determinant[..., None, None]


def _from_chain(chain: Chain, reference: Array, determinant: ArrayLike = 1.0) -> Array:
    """Scattering parameters of a chain matrix with this determinant, times a factor that may be zero."""
    a, b, c, d, factor = chain
    first, second = reference
    voltage, across, along = a * second, c * first * second, d * first
    total = voltage + b + across + along
    if np.any(total == 0):
        raise OutOfRange("This chain describes a two-port that reflects without bound.", value=total)
    through = 2 * np.sqrt(first * second) * factor / total
    s11, s22 = (voltage + b - across - along) / total, (along + b - across - voltage) / total
    return matrices(s11, through * determinant, through, s22)


def _chain_of(two_port: TwoPort) -> Array:
    (s11, s12), (s21, s22) = parameters_of(two_port.scattering)
    first, second = two_port.reference
    twice = 2 * two_port._nonzero(s21, "the two-port lets nothing through, and has no chain matrix")
    crossed = s12 * s21
    a, d = (1 + s11) * (1 - s22) + crossed, (1 - s11) * (1 + s22) + crossed
    b, c = (1 + s11) * (1 + s22) - crossed, (1 - s11) * (1 - s22) - crossed
    root = np.sqrt(first * second)
    return matrices(a * first / root / twice, b * root / twice, c / root / twice, d * second / root / twice)


def _chain(element: Element, ratio: Array) -> Chain:
    """The chain matrix of an element, times a factor so that a short or an open circuit is one like others."""
    branch = getattr(element, "impedance_fraction", None)
    if branch:
        above, below = branch(ratio)
        none = np.zeros_like(above)
        if getattr(element, "placement", "") == "shunt":
            return above, none, below, above, above
        return below, above, none, below, below
    one, none = np.ones_like(ratio, dtype=complex), np.zeros_like(ratio, dtype=complex)
    (a, c), (b, d) = element.act((one, none), ratio), element.act((none, one), ratio)
    return a, b, c, d, np.asarray(element.factor(ratio))


def _joined(behind: Chain, element: Chain) -> Chain:
    """An element in front of what is nearer the load."""
    a, b, c, d, factor = element
    e, f, g, h, other = behind
    return a * e + b * g, a * f + b * h, c * e + d * g, c * f + d * h, factor * other
