"""Loss of a line in its usual units, and a lossless design cut from lossy line.

A piece of line is given nepers per wavelength at the design frequency; tables give decibels per metre.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Real, broadcast, plain
from core.elements import Section, Stub
from core.network import MatchingNetwork, one_network
from core.ranges import real_in_range

DECIBELS_PER_NEPER = 20 / np.log(10)


def attenuation_from_db(db_per_wavelength: ArrayLike) -> Real:
    """Nepers per wavelength from decibels per wavelength: 1 Np = 20 / ln 10 = 8.686 dB.

    db_per_wavelength : >= 0, any shape.  Returns that shape.  Raises OutOfRange.
    Source: by definition; Pozar, 4th ed., section 2.7 (from memory).

    >>> round(attenuation_from_db(8.686), 4)
    1.0
    """
    loss = real_in_range(db_per_wavelength, "attenuation", "decibels per wavelength", at_least=0)
    return plain(loss / DECIBELS_PER_NEPER)


def attenuation_in_db(attenuation: ArrayLike) -> Real:
    """Decibels per wavelength from nepers per wavelength, the inverse of `attenuation_from_db`.

    attenuation : >= 0, any shape.  Returns that shape.  Raises OutOfRange."""
    loss = real_in_range(attenuation, "attenuation", "nepers per wavelength", at_least=0)
    return plain(loss * DECIBELS_PER_NEPER)


def attenuation_from_db_per_m(db_per_m: ArrayLike, wavelength_m: ArrayLike) -> Real:
    """Nepers per wavelength from decibels per metre; cable tables give decibels per 100 m: divide by 100.

    db_per_m : >= 0.  wavelength_m : length of one wave on the line, metres > 0.  They broadcast.
    Raises OutOfRange, ShapesDiffer.  Source: by definition, as `attenuation_from_db`.

    >>> round(attenuation_from_db_per_m(0.2, 0.456), 5)
    0.0105
    """
    wavelength = real_in_range(wavelength_m, "wavelength", "in metres", above=0)
    loss = real_in_range(db_per_m, "attenuation", "decibels per metre", at_least=0)
    wavelength, loss = broadcast(wavelength, loss)
    return plain(loss * wavelength / DECIBELS_PER_NEPER)


def attenuation_in_db_per_m(attenuation: ArrayLike, wavelength_m: ArrayLike) -> Real:
    """Decibels per metre from nepers per wavelength, the inverse of `attenuation_from_db_per_m`.

    attenuation : >= 0.  wavelength_m : metres > 0 on the line.  They broadcast.  Raises OutOfRange."""
    wavelength = real_in_range(wavelength_m, "wavelength", "in metres", above=0)
    wavelength, loss = broadcast(wavelength, attenuation_in_db(attenuation))
    return plain(loss / wavelength)


def with_attenuation(
    network: MatchingNetwork, attenuation: ArrayLike, stub_attenuation: ArrayLike | None = None
) -> MatchingNetwork:
    """The same lengths cut from lossy line: what loss does to a design that was made without it.

    network : any.  attenuation, stub_attenuation : nepers per wavelength >= 0 on the sections and on the
    stubs, which by default have that of the sections; each broadcasts with the network's shape.  Raises
    OutOfRange, NotANetwork, ShapesDiffer. Source: none needed, only the loss of each piece is set."""
    network = one_network(network)
    loss = {Section: attenuation, Stub: attenuation if stub_attenuation is None else stub_attenuation}
    elements = tuple(
        replace(e, attenuation=loss[type(e)]) if isinstance(e, Section | Stub) else e
        for e in network.elements
    )
    return replace(network, elements=elements)
