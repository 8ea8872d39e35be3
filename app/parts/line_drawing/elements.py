"""A network's elements as plain data for the browser, and as phrases for those who do not see it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby, zip_longest
from typing import Any

import numpy as np

from core.lumped import LumpedPart, engineering
from core.network import MatchingNetwork, Reactance, Section, Stub
from core.real_pieces import RealSection, RealStub
from lessons.grammar.kinds import Millimetres
from lessons.grammar.notation import Notation

SectionOfLine = Section | RealSection
StubOfLine = Stub | RealStub
NO_LENGTH_YET = "a length not known yet"
LONG = 6
"""Sections in a row, of which each is written; a longer row is written as a whole."""
UNITS = {"H": "henry", "F": "farad"}
PREFIXES = {"p": "pico", "n": "nano", "µ": "micro", "m": "milli"}


@dataclass(frozen=True)
class Writer:
    """Writes a network's quantities as the course does, and says them with their units in words."""

    notation: Notation
    wavelength_mm: float | None = None

    def ohms(self, impedance: Any) -> str:
        """An impedance as it was given, of a design rounded to five digits; "?" where it is not known yet."""
        value = complex(impedance)
        if np.isnan(value):
            return "?"
        rounded = complex(float(f"{value.real:.5g}"), float(f"{value.imag:.5g}"))
        return self.notation.ohms(rounded if np.isfinite(value) else value)

    def line_ohms(self, impedance: Any) -> str:
        """The impedance of a line: a number, where what its loss adds in quadrature is less than a hundredth of it."""
        value = complex(impedance)
        return self.ohms(value.real if abs(value.imag) < 0.01 * value.real else value)

    def roughly(self, impedance: Any) -> str:
        """The impedance of one of many pieces of line, to four digits."""
        return f"{complex(impedance).real:.4g} Ω"

    def reactance(self, ohms: float) -> str:
        return f"{'−' if ohms < 0 else ''}{self.notation.imaginary}{abs(ohms):.4g} Ω"

    def said(self, text: str) -> str:
        return text.replace("Ω", "ohm").replace(" λ", " wavelength").replace("°", " degrees")

    def length(self, wavelengths: float) -> str:
        """A length in words, in millimetres too where the wavelength is known."""
        text = self.said(self.notation.wavelengths(wavelengths))
        if self.wavelength_mm is None:
            return text
        return f"{text} ({Millimetres(self.wavelength_mm).write(wavelengths * self.wavelength_mm, self.notation)})"


def known(value: Any) -> float | None:
    """A number as plain data; nan means that it is not known yet, or that there is none."""
    return None if np.isnan(value) else float(value)


def as_data(element: Any, symbol: str, write: Writer) -> dict[str, Any]:
    """What the browser needs to draw one element."""
    match element:
        case Section() | Stub() | RealSection() | RealStub():
            ohms, text = complex(element.impedance).real, write.line_ohms(element.impedance)
            line = {"length": known(element.length), "ohms": ohms, "text": text, "symbol": symbol}
            if isinstance(element, SectionOfLine):
                return {"kind": "section", **line}
            return {"kind": "stub", **line, "placement": element.placement, "end": element.end}
        case Reactance():
            look = {"kind": "part", "part": part_of(element), "placement": element.placement}
            return {**look, "text": _value(element, write), "symbol": symbol}
    return {"kind": "box", "text": type(element).__name__, "symbol": symbol}


@dataclass(frozen=True)
class Row:
    """A long row of sections, from the first to the last, of which nothing is asked."""

    first: int
    last: int
    length: float
    text: str

    def phrase(self, write: Writer) -> str:
        """The row in words."""
        return f"{write.length(self.length)} of line in {write.said(self.text)}"


def rows_of(network: MatchingNetwork, symbols: Sequence[str], write: Writer) -> list[Row]:
    """The long rows of sections of other impedances than the line's: each is drawn, and they are written as one."""
    found, at, elements = [], 0, network.elements
    plain = [
        not symbol and _is_other_line(one, network)
        for one, symbol in zip_longest(elements, symbols, fillvalue="")
    ]
    for is_plain, group in groupby(plain):
        count = len(list(group))
        if is_plain and count > LONG:
            row: Sequence[Any] = elements[at : at + count]
            ends = " (load) to ".join(write.roughly(row[end].impedance) for end in (0, -1))
            length = sum(float(one.length) for one in row)
            found.append(Row(at, at + count - 1, length, f"{count} sections, {ends}"))
        at += count
    return found


def _is_other_line(element: Any, network: MatchingNetwork) -> bool:
    """Whether this is a section of known length that is not of the line itself."""
    is_known = isinstance(element, SectionOfLine) and known(element.length) is not None
    return is_known and element.impedance != network.line_impedance


def part_of(element: Reactance) -> str:
    """What a lumped part is: inductor, capacitor, unknown, or what it comes to at zero and infinite reactance."""
    reactance = float(element.reactance)
    if np.isnan(reactance):
        return "unknown"
    if np.isinf(reactance):
        return "gap"
    return "wire" if reactance == 0 else "inductor" if reactance > 0 else "capacitor"


def _value(element: Reactance, write: Writer) -> str:
    """A part's value: in henry or farad where its frequency is known, else in ohms; of no part, nothing."""
    kind = part_of(element)
    if kind == "unknown":
        return "?"
    if kind in ("wire", "gap"):
        return ""
    if isinstance(element, LumpedPart) and element.frequency is not None:
        with np.errstate(all="ignore"):  # next to nothing is a capacitor of no size that can be written
            size = element.inductance if kind == "inductor" else element.capacitance
        if size is not None and np.isfinite(size):
            return engineering(size, "H" if kind == "inductor" else "F")
    return write.reactance(float(element.reactance))


# --- in words -----------------------------------------------------------------------------------------------------


def phrase(element: Any, symbol: str, write: Writer) -> str:
    """One element in words, such as "0.110 wavelength of line of 50 ohm"."""
    match element:
        case Section() | RealSection():
            ohms = write.said(write.line_ohms(element.impedance))
            return f"{_size(element.length, symbol, write)} of line of {ohms}"
        case Stub() | RealStub():
            what = {"short": "a shorted stub", "open": "an open stub"}[element.end]
            where = {"shunt": "across the line", "series": "in series with the line"}[element.placement]
            size = _size(element.length, symbol, write)
            size = f"of {size}" if known(element.length) is None else f"{size} long"
            return f"{what} of {write.said(write.line_ohms(element.impedance))} {where}, {size}"
        case Reactance():
            return _part_phrase(element, symbol, write)
    return f"an element of another kind ({type(element).__name__})"


def _size(length: Any, symbol: str, write: Writer) -> str:
    if known(length) is None:
        return NO_LENGTH_YET + f" ({symbol})" * bool(symbol)
    return f"{symbol} = " * bool(symbol) + write.length(float(length))


def _part_phrase(element: Reactance, symbol: str, write: Writer) -> str:
    where, kind = {"shunt": "across the line", "series": "in the line"}[element.placement], part_of(element)
    if kind in ("wire", "gap"):
        nothing = {("wire", "series"), ("gap", "shunt")}
        return f"{'no part' if (kind, element.placement) in nothing else _EXTREMES[kind]} {where}"
    if kind == "unknown":
        return "a reactance not known yet" + f" ({symbol})" * bool(symbol) + f" {where}"
    article = "an inductor" if kind == "inductor" else "a capacitor"
    return f"{article} of {spelled(_value(element, write))} {where}{_quality(element)}"


def _quality(element: Reactance) -> str:
    """What a part with loss is said to have, too."""
    quality = getattr(element, "quality", np.inf)
    return f", of quality factor {float(quality):.4g}" if np.isfinite(quality) else ""


_EXTREMES = {"wire": "a short circuit", "gap": "an open circuit"}


def spelled(value: str) -> str:
    """A part's value with its unit in words: 12 picofarad."""
    number, _, unit = value.rpartition(" ")
    if unit[-1:] not in UNITS:
        return value.replace("Ω", "ohm")
    return f"{number} {PREFIXES.get(unit[:-1], '')}{UNITS[unit[-1]]}"
