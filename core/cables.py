"""What usual coaxial cables lose: typical figures of the trade, for planning, not those of any maker's reel.

The designations are those of the old open military standard, which makers follow more or less: loss differs by
ten per cent and more between makers, and rises with heat, bending and water. Measure the cable that matters.
"""

from __future__ import annotations

from types import MappingProxyType
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from core.checks import choice
from core.errors import OutOfRange
from core.real_line import LossyLine, any_frequency, one_frequency, per_metre

TABLE_FREQUENCIES = (10e6, 50e6, 100e6, 400e6, 1000e6)
"""Hertz of the columns below."""


class CableLoss(NamedTuple):
    """A line of the table: ohms, velocity factor, decibels per 100 m at `TABLE_FREQUENCIES`, and what it is."""

    impedance: float
    velocity_factor: float
    db_per_100_m: tuple[float, ...]
    remark: str


# Common practice, no source: typical values as printed in many handbooks, to about 10 %.
CABLE_LOSSES = MappingProxyType(
    {
        "RG-6": CableLoss(75, 0.82, (2.0, 4.6, 6.6, 13.5, 21.5), "foam, television"),
        "RG-11": CableLoss(75, 0.66, (2.2, 5.0, 7.2, 15.5, 26.0), "solid polyethylene, 10 mm"),
        "RG-58": CableLoss(50, 0.66, (4.6, 10.5, 15.5, 34.0, 60.0), "solid polyethylene, 5 mm"),
        "RG-59": CableLoss(75, 0.66, (3.6, 7.9, 11.2, 23.0, 39.0), "solid polyethylene, 6 mm"),
        "RG-62": CableLoss(93, 0.84, (2.8, 6.2, 8.9, 17.5, 28.5), "air-spaced polyethylene, 6 mm"),
        "RG-142": CableLoss(50, 0.695, (3.9, 8.9, 12.8, 27.0, 44.0), "solid PTFE, double screen"),
        "RG-174": CableLoss(50, 0.66, (10.0, 21.0, 29.0, 62.0, 105.0), "solid polyethylene, 2.8 mm"),
        "RG-213": CableLoss(50, 0.66, (2.0, 4.6, 6.6, 14.5, 25.0), "solid polyethylene, 10 mm"),
        "RG-223": CableLoss(50, 0.66, (4.1, 9.5, 13.5, 29.0, 50.0), "solid polyethylene, double screen"),
        "RG-316": CableLoss(50, 0.695, (8.5, 19.0, 27.0, 56.0, 92.0), "solid PTFE, 2.5 mm"),
        "RG-402": CableLoss(50, 0.695, (3.7, 8.4, 12.0, 24.5, 39.5), "semi-rigid, 3.6 mm"),
        "RG-405": CableLoss(50, 0.695, (6.9, 15.5, 22.0, 45.0, 72.0), "semi-rigid, 2.2 mm"),
    }
)


def usual_cable(name: str) -> LossyLine:
    """A usual coaxial cable as a line, its loss drawn through the table of typical values.

    name : a key of `CABLE_LOSSES`, such as "RG-58".  Returns a line of single numbers (ohms, decibels a metre),
    known from 10 MHz to 1 GHz, which is within 6 % of each value of the table. Raises UnknownChoice.
    Source: none; common practice, typical values to about 10 %.

    >>> round(100 * usual_cable("RG-58").attenuation_db_per_m(434e6))
    36
    """
    row = CABLE_LOSSES[choice(name, tuple(CABLE_LOSSES), "cable")]
    losses = fit_attenuation(TABLE_FREQUENCIES, [loss / 100 for loss in row.db_per_100_m])
    limits = TABLE_FREQUENCIES[0], TABLE_FREQUENCIES[-1]
    return LossyLine(row.impedance, row.velocity_factor, *losses, limits=limits)


def fit_attenuation(
    frequency: ArrayLike, db_per_m: ArrayLike, at_frequency: float = 1e9
) -> tuple[float, float]:
    """What conductor and dielectric take, from a table of loss over frequency: its best k1 sqrt(f) + k2 f.

    frequency : hertz > 0, shape (n,), two at least.  db_per_m : decibels per metre > 0, shape (n,).
    at_frequency : hertz.
    Returns the two in decibels per metre at that frequency, neither below zero, for `LossyLine`.
    Best is the least sum of squares of relative errors: a table's numbers are as good at every frequency.
    Raises OutOfRange.  Source: least squares with two unknowns not below zero, where the best lies inside or on
    an edge.

    >>> [round(loss, 3) for loss in fit_attenuation([100e6, 400e6, 1e9], [0.2, 0.41, 0.66])]
    [0.621, 0.04]
    """
    hertz = any_frequency(frequency)
    loss = per_metre(db_per_m, "loss", "decibels")
    if hertz.ndim != 1 or hertz.shape != loss.shape:
        raise OutOfRange(
            "The table must have one loss for each frequency, one after the other.", value=db_per_m
        )
    if np.unique(hertz).size < 2:
        raise OutOfRange(
            "The table must have two frequencies or more: one cannot tell two losses.", value=db_per_m
        )
    share = hertz / one_frequency(at_frequency, "frequency of the losses")
    columns = np.stack([np.sqrt(share), share], axis=-1) / loss[:, None]
    both = np.linalg.lstsq(columns, np.ones(hertz.size), rcond=None)[0]
    alone = columns.sum(axis=0) / (columns**2).sum(axis=0)
    edges = [np.array([alone[0], 0.0]), np.array([0.0, alone[1]])]
    allowed = [both] if np.all(both >= 0) else edges
    conductor, dielectric = min(allowed, key=lambda found: float(((columns @ found - 1) ** 2).sum()))
    return float(conductor), float(dielectric)
