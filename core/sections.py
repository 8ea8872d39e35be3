"""Impedances of quarter-wave sections in a row that lead from one resistance to another.

By the theory of small reflections, and by exact synthesis. Both are of the same two families: maximally flat
(binomial) and equal-ripple (Chebyshev). Impedances are normalised to the line; the first of them is the
section at the line, the last the one at the load. All is scalar: the load's resistance r over that of the
line, and a number of sections N.
"""

from __future__ import annotations

import numpy as np

from core.checks import Array


def small_reflections(ratio: float, weights: Array) -> Array:
    """Impedances of N sections whose N + 1 junctions share the logarithm of the ratio by these weights.

    Source: Pozar, 4th ed., eq. 5.53 and 5.57: ln Z(n+1) - ln Z(n) = 2 Gamma(n) (from memory)."""
    return np.exp(np.log(ratio) * np.cumsum(weights)[:-1] / np.sum(weights))


def binomial_weights(sections: int) -> Array:
    """The binomial coefficients: of (1 + exp(-2j theta))^N.  Source: Pozar, 4th ed., section 5.6 (from
    memory)."""
    row = np.ones(1)
    for _ in range(sections):
        row = np.convolve(row, [0.5, 0.5])
    return row


def chebyshev_weights(sections: int, secant: float) -> Array:
    """The coefficients of T_N(secant cos theta) as a sum over exp(-2j n theta), up to a factor.

    Read from N + 1 equally spaced angles, which determine them.
    Source: Pozar, 4th ed., eq. 5.61 and 5.62 (from memory)."""
    angle = np.pi * np.arange(sections + 1) / (sections + 1)
    polynomial = np.cosh(sections * np.arccosh(secant * np.cos(angle) + 0j)).real
    weights = np.fft.ifft(polynomial * np.exp(-1j * sections * angle)).real
    return (weights + weights[::-1]) / 2


def exact_binomial(ratio: float, sections: int) -> Array:
    """Impedances for the power ratio k² cos^2N: |Gamma|² / (1 - |Gamma|²), maximally flat.

    Source: R. E. Collin, Foundations for Microwave Engineering, 2nd ed., section 5.10 (from memory); the
    sections from the reflection as in `_peeled`."""
    if ratio == 1:
        return np.ones(sections)
    angles = np.pi * (2 * np.arange(sections) + 1) / (2 * sections)
    cosines = (1 / _edge(ratio)) ** (1 / sections) * np.exp(1j * angles)
    return _peeled(ratio, np.full(sections, -1.0 + 0j), cosines)


def exact_chebyshev(ratio: float, sections: int, secant: float) -> Array:
    """Impedances for the power ratio k² T_N²(secant cos theta), of equal ripples.

    Source: as for `exact_binomial`; the roots of T_N(x) = +-j/k from x = cos(w), Nw = arccos of that."""
    if ratio == 1:
        return np.ones(sections)
    angles = np.pi * (2 * np.arange(sections) + 1) / (2 * sections)
    zeros = np.cos(angles) / secant
    ripple = _edge(ratio) / np.cosh(sections * np.arccosh(secant))
    cosines = np.cos(angles + 1j * np.arcsinh(1 / ripple) / sections) / secant
    return _peeled(ratio, np.exp(-2j * np.arccos(zeros)), cosines)


def secant_of_reflection(ratio: float, sections: int, largest: float, exact: bool) -> float:
    """1 / cos of the band's edge for this largest |reflection| in the band.

    Source: Pozar, 4th ed., eq. 5.63 with 1/2 ln r for the reflection (from memory), or k and the ripple of the
    power ratio for the exact theory."""
    if exact:
        ripple = largest / np.sqrt((1 - largest) * (1 + largest))
        return float(np.cosh(np.arccosh(_edge(ratio) / ripple) / sections))
    return float(np.cosh(np.arccosh(abs(np.log(ratio)) / (2 * largest)) / sections))


def _edge(ratio: float) -> float:
    """k: |reflection| / sqrt(1 - |reflection|²) of the load on its line, |r - 1| / (2 sqrt r)."""
    return abs(ratio - 1) / (2 * np.sqrt(ratio))


def _peeled(ratio: float, zeros: Array, cosines: Array) -> Array:
    """The sections of a reflection N(z) / D(z), with z = exp(-2j theta), taken off one by one from the line.

    zeros : of N.  cosines : where D vanishes, as values of cos theta; of each pair of z the one outside the
    unit circle counts. With no delay only the first junction reflects, at z = 0: its reflection is
    N(0) / D(0); what is behind it follows by the rule of the bilinear transformation, and a delay z less.
    Source: the layer-peeling (Schur) recursion, as for example in S. J. Orfanidis, Electromagnetic Waves and
    Antennas, section 6.6 (from memory)."""
    z = np.exp(-2j * np.arccos(cosines))
    poles = np.where(np.abs(z) >= 1, z, 1 / z)
    top, bottom = _coefficients(zeros), _coefficients(poles)
    top = top * (ratio - 1) / (ratio + 1) * np.sum(bottom) / np.sum(top)
    top, bottom = top / bottom[0], bottom / bottom[0]
    impedances, here = [], 1.0
    for _ in zeros:
        junction = top[0] / bottom[0]
        here = here * (1 + junction) / (1 - junction)
        impedances.append(here)
        top, bottom = (top - junction * bottom)[1:], (bottom - junction * top)[:-1]
    return np.array(impedances)


def _coefficients(roots: Array) -> Array:
    """Of the polynomial with these roots (in conjugate pairs), lowest power first, up to a real factor.

    From its values on the unit circle, near which the roots are: multiplying out loses digits with every
    root, this does not."""
    circle = np.exp(-2j * np.pi * np.arange(len(roots) + 1) / (len(roots) + 1))
    values = np.prod((circle[:, None] - roots) / (1 + np.abs(roots)), axis=1)
    return np.fft.ifft(values).real
