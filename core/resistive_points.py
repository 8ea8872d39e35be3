"""Transformers of many sections: where on a load's line they may start, and the networks that they make.

A transformer goes from one resistance to another. A load with reactance shows a resistance at the voltage
maximum and minimum of its line, and where a stub beside it cancels its susceptance.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any, TypeVar

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Real, plain, quotient
from core.checks import Array, whole_number
from core.designs import normalised_load
from core.errors import NotANetwork
from core.network import ENDS, Section, Stub, is_made_of
from core.solutions import TAKES_NO_POWER, Solutions, as_solutions, sentences
from core.transformers import Preceded, after_line, beside_stub

MATCHED_ALREADY = "This load is matched already; the sections shown add nothing."
REAL_LOAD = (
    "This load is real, so the sections start at it, with neither line nor stub before them; those of the second "
    "solution start a quarter wave further on."
)
MOST_SECTIONS = 500


@dataclass(frozen=True)
class Stepped(Preceded):
    """A row of sections of line, and before it nothing, a section of the line, or a shunt stub at the load.

    count : how many sections there are in the row."""

    count: int

    def __post_init__(self) -> None:
        super().__post_init__()
        section_count(self.count)
        kinds = ((Section,) * self.count, (Section,) * (self.count + 1), (Stub, *(Section,) * self.count))
        if not any(is_made_of(self.elements, kind) for kind in kinds):
            raise NotANetwork(
                f"A {type(self).__name__} of {self.count} sections is made of these, with one more section or a stub "
                "before them at most.",
                value=self.elements,
            )

    @property
    def row(self) -> int:
        """How many sections there are in the row."""
        return self.count

    @property
    def sections(self) -> tuple[Section, ...]:
        """The row itself, from the load toward the generator."""
        return self.elements[-self.count :]  # type: ignore[return-value]

    @property
    def section_impedances(self) -> tuple[Real, ...]:
        """Characteristic impedances of the row, ohms, from the load toward the generator; nan where there is
        no solution."""
        return tuple(
            plain(np.where(np.isnan(section.length), np.nan, section.impedance)) for section in self.sections
        )


Kind = TypeVar("Kind", bound=Stepped)


def section_count(sections: Any) -> int:
    """The number of sections: whole, from 1 to 500.  Raises OutOfRange."""
    return whole_number(sections, "number of sections", at_least=1, up_to=MOST_SECTIONS)


Row = Callable[[float], tuple[float, Array] | None]


@np.errstate(all="ignore")  # the absurdly large or small runs to nan: no solution
def from_each_resistance(
    kind: type[Kind],
    load_impedance: ArrayLike,
    line_impedance: ArrayLike,
    count: int,
    row_of: Row,
    no_row: str = "",
) -> Solutions[Kind]:
    """A row of equal lengths behind each place where the load is real: at most four, in the order of
    `quarter_wave`.

    row_of : of a resistance over the line's the length of each section, wavelengths, and their impedances over
    the line's, line first; None, for the reason `no_row`, where there is none."""
    load, line, z = normalised_load(load_impedance, line_impedance)
    points = [*after_line(z, line)]
    points += [beside_stub(quotient(np.ones_like(z), z), line, end) for end in ENDS]
    networks, there = [], []
    for before, quarter in points:
        length, *found = _rows_of((quarter / line) ** 2, count, row_of)
        exists = ~np.isnan(length)
        row = tuple(
            Section(plain(length), plain(line * np.where(exists, value, 1.0))) for value in found[::-1]
        )
        networks.append(kind(plain(load), plain(line), (before, *row), count))
        there.append(exists)
    beside = ~there[2] & (z.imag != 0)
    missing = sentences([(TAKES_NO_POWER, np.isnan(z)), (no_row, ~np.isnan(z) & (~there[0] | beside))])
    if z.ndim:
        return as_solutions(networks, there, missing)
    if z.imag == 0:
        networks[0] = replace(networks[0], elements=networks[0].elements[1:])
    there = [there[0], there[1] & (z != 1), there[2] & (z.imag != 0), there[3] & (z.imag != 0)]
    alike = (MATCHED_ALREADY, there[0] & (z == 1)), (REAL_LOAD, there[0] & (z.imag == 0) & (z != 1))
    return as_solutions(networks, there, " ".join(filter(None, [missing, sentences(alike)])))


def _rows_of(ratios: Array, count: int, row_of: Row) -> Array:
    """Length and impedances of the sections for each resistance, shape (1 + count,) + S; nan where none."""
    found = np.full((1 + count, ratios.size), np.nan)
    for place, ratio in enumerate(np.ravel(ratios)):
        if not np.isnan(ratio) and (row := row_of(float(ratio))) is not None:
            found[:, place] = row[0], *row[1]
    return found.reshape((1 + count, *ratios.shape))
