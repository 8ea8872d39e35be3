"""Reads what a student writes as a number: a small grammar with limits, never an evaluation.

real      0.5   .5   -3   1e-3   0,5        (a true minus sign and a decimal comma are read too)
complex   25-40j   25 - j40   0.5+1.2i   1 + j(1.47)   j2   -i   0.5
polar     0.62 ∠ -83°   0.62 < -1.449 rad   (degrees where no unit stands)
infinite  inf   ∞   open                     (`short` is zero ohms)
length    0.172   0.172 λ   0.172 wl   61.9°   14.3 mm

A space between digits parts two numbers: `60 80` is neither 6080 nor a number.
"""

from __future__ import annotations

import re
from cmath import rect
from math import radians

LONGEST = 80
LARGEST, SMALLEST = 1e30, 1e-30  # beyond these nothing is meant, and squares and quotients would overflow
NUMBER = r"(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d{1,3})?"
_REAL = re.compile(rf"[+-]?{NUMBER}")
_TERM = re.compile(rf"([+-]?)(?:({NUMBER})\*?([ij])?|([ij])\*?({NUMBER})?)")
_POLAR = re.compile(rf"({NUMBER})(?:∠|<|@)([+-]?{NUMBER})(°|deg|degrees|rad)?")
_WITH_UNIT = re.compile(rf"([+-]?{NUMBER})(.*)")
_BRACKETED = re.compile(rf"([ij])\*?\(({NUMBER})\)")
_TWO_NUMBERS = re.compile(r"[\d.,]\s+[.,]?\d")
_PLAIN_SIGNS = str.maketrans({"−": "-", "–": "-", "·": "*", "⋅": "*"})
_OPEN = {"inf", "+inf", "infinity", "infinite", "∞", "open", "opencircuit"}
_SHORT = {"short", "shortcircuit"}
LENGTH_UNITS = {
    "": "wavelengths",
    "λ": "wavelengths",
    "wl": "wavelengths",
    "lambda": "wavelengths",
    "lam": "wavelengths",
    "wavelength": "wavelengths",
    "wavelengths": "wavelengths",
    "°": "degrees",
    "deg": "degrees",
    "degrees": "degrees",
    "mm": "millimetres",
    "cm": "centimetres",
    "m": "metres",
}
METRIC = {"millimetres": 1.0, "centimetres": 10.0, "metres": 1000.0}
"""Metric units of length, in millimetres."""


class Unreadable(ValueError):
    """Text that is not the number asked for; the message is the sentence for the student."""


def read_real(text: str, example: str = "0.172") -> float:
    """One real number. Raises Unreadable with the reason; the sentence shows the example."""
    plain = _tidy(text, f"a number, such as {example}")
    if not _REAL.fullmatch(plain):
        raise Unreadable(f"{quoted(text)} is not a number; write one such as {example}.")
    return _finite(float(plain), text)


def read_complex(text: str, angle: str = "degrees") -> complex:
    """A complex number, rectangular or polar; open and inf give an infinite one. Raises Unreadable.

    angle : unit of an angle that stands without one, "degrees" or "radians"."""
    plain = _tidy(text, "a number, such as 0.5 - j1.2")
    if plain.lower() in _OPEN:
        return complex(float("inf"), 0.0)
    if plain.lower() in _SHORT:
        return 0j
    polar = _POLAR.fullmatch(plain)
    if polar:
        return _read_polar(polar, text, angle)
    return _read_rectangular(_BRACKETED.sub(r"\1\2", plain), text)


def read_length(text: str) -> tuple[float, str]:
    """A length and its unit: "wavelengths" where none stands, "degrees" of line, or a metric one. Raises Unreadable."""
    plain = _tidy(text, "a length, such as 0.172")
    match = _WITH_UNIT.fullmatch(plain)
    unit = LENGTH_UNITS.get(match[2].lower()) if match else None
    if not match or unit is None:
        raise Unreadable(
            f"{quoted(text)} is not a length; write wavelengths such as 0.172, or degrees such as 61.9°."
        )
    return _finite(float(match[1]), text), unit


def _tidy(text: str, wanted: str) -> str:
    if len(text) > LONGEST:
        raise Unreadable(f"That is {len(text)} characters long; write {wanted}, in at most {LONGEST}.")
    plain = (
        re.sub(r"\s+", "", tidied(text))
        .removesuffix("\N{GREEK CAPITAL LETTER OMEGA}")
        .removesuffix("\N{OHM SIGN}")
        .removesuffix("ohms")
        .removesuffix("ohm")
    )
    if not plain:
        raise Unreadable(f"The box is empty; write {wanted}.")
    return plain


def tidied(text: str) -> str:
    """A text with plain signs and decimal points. Raises Unreadable where a space stands inside a number."""
    plain = text.translate(_PLAIN_SIGNS)
    if _TWO_NUMBERS.search(plain):
        raise Unreadable(
            f"{quoted(text)} holds more than one number, as a space parts its digits; write one number here."
        )
    return re.sub(r"(?<=\d),(?=\d)", ".", plain) if "." not in plain else plain


def _read_polar(match: re.Match[str], text: str, unit: str) -> complex:
    in_radians = match[3] == "rad" or (match[3] is None and unit == "radians")
    angle = float(match[2]) if in_radians else radians(float(match[2]))
    return rect(_finite(float(match[1]), text), _finite(angle, text))


def _read_rectangular(plain: str, text: str) -> complex:
    """One real and one imaginary term at most, in either order."""
    parts: dict[bool, list[float]] = {False: [], True: []}
    position = 0
    while position < len(plain):
        term = _TERM.match(plain, position)
        if not term or (position and not term[1]):
            raise Unreadable(f"{quoted(text)} is not a number; write one such as 25 - j40.")
        size = float(term[2] or term[5] or 1.0)
        parts[bool(term[3] or term[4])].append(_finite(-size if term[1] == "-" else size, text))
        position = term.end()
    for imaginary, found in parts.items():
        if len(found) > 1:
            if not imaginary:
                raise Unreadable(
                    f"{quoted(text)} has more than one real part; say where the j is, as in 1.2 - j1.6."
                )
            raise Unreadable(f"{quoted(text)} has more than one imaginary part; write one of each.")
    return complex(sum(parts[False]), sum(parts[True]))


def _finite(value: float, text: str) -> float:
    if not abs(value) <= LARGEST:
        raise Unreadable(f"{quoted(text)} is too large to be meant; write inf for an open circuit.")
    return value if abs(value) >= SMALLEST else 0.0


def quoted(text: str) -> str:
    """What was written, in quotation marks and short enough for a sentence."""
    short = text.strip()
    return f"“{short[:24]}…”" if len(short) > 25 else f"“{short}”"
