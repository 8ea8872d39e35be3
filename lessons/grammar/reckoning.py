"""Reckons what students write as a sum or a quotient: a small grammar with limits, never an evaluation.

sum      product {(+|-) product}
product  factor {[*|/] factor}      nothing between two of them multiplies, as in j(1.47), 2π(0.11), 3λ/8
factor   [+|-] number | j | π | unit | ( sum ) | e^( sum ) | exp( sum ) | factor ∠ angle

Every value has at most one unit, and only what has the same unit is added; a unit beside one term of a sum is meant for
all of it, as in 0.176 - 0.065 λ.
"""

from __future__ import annotations

import re
from cmath import exp, rect
from collections.abc import Mapping
from dataclasses import dataclass, field
from math import pi, radians, tau

from lessons.grammar.numbers import LARGEST, LENGTH_UNITS, NUMBER, Unreadable, quoted, tidied

DEEPEST, LONGEST_SUM = 8, 160  # brackets within brackets; characters
_TOKEN = re.compile(
    rf"\s*(?:(?P<number>{NUMBER})|(?P<word>wavelengths?|lambda|degrees?|deg|radians?|rad|exp|mm|cm|wl|pi|λ|π|°"
    r"|e(?=\^)|[jimλ])|(?P<sign>[-+*/^()∠<@\[\]]))"
)
_ANGLES = {"°": "degrees", "deg": "degrees", "degree": "degrees", "degrees": "degrees"} | dict.fromkeys(
    ("rad", "radian", "radians"), "radians"
)
_LENGTHS = {word: unit for word, unit in LENGTH_UNITS.items() if word} | _ANGLES


@dataclass(frozen=True)
class Reckoned:
    """A value with its unit, "" where it has none. terms : how many real numbers without j were added up in it."""

    value: complex
    unit: str = ""
    terms: int = 1


def reckon_real(text: str) -> tuple[float, str]:
    """A real number as a sum or a quotient, and its unit of length ("" where none stands). Raises Unreadable."""
    found = _Reckoning(text, _LENGTHS).result()
    if found.value.imag:
        raise Unreadable(f"{quoted(text)} has a j in it; write a real number, such as 0.172.")
    return found.value.real, found.unit


def reckon_complex(text: str, angle: str = "degrees") -> complex:
    """A complex number as a sum or a quotient. Raises Unreadable, also where two real numbers are added with no j.

    angle : unit of an angle behind ∠ that stands without one, "degrees" or "radians"."""
    found = _Reckoning(text, {}, angle).result()
    if found.terms > 1:
        raise Unreadable(f"{quoted(text)} has more than one real part; say where the j is, as in 1.2 - j1.6.")
    return found.value


@dataclass
class _Reckoning:
    """One text on its way from left to right."""

    text: str
    units: Mapping[str, str]
    angle: str = "degrees"
    depth: int = 0
    at: int = 0
    tokens: list[tuple[str, str]] = field(default_factory=list)

    def result(self) -> Reckoned:
        """The value of the whole text. Raises Unreadable."""
        if len(self.text) > LONGEST_SUM:
            raise Unreadable(f"That is {len(self.text)} characters long; write one number.")
        self.tokens = self._read()
        found = self._sum()
        if self.at < len(self.tokens):
            raise self._no_number()
        return found

    def _read(self) -> list[tuple[str, str]]:
        plain, position, tokens = tidied(self.text).strip(), 0, []
        while position < len(plain):
            found = _TOKEN.match(plain, position)
            if not found:
                raise self._no_number()
            kind = str(found.lastgroup)
            tokens.append((kind, found[kind]))
            position = found.end()
        return tokens

    # --- the grammar ---

    def _sum(self) -> Reckoned:
        total = self._product()
        while self._next in (("sign", "+"), ("sign", "-")):
            sign = 1 if self._take()[1] == "+" else -1
            total = self._added(total, self._product(), sign)
        return total

    def _added(self, one: Reckoned, other: Reckoned, sign: int) -> Reckoned:
        if one.unit and other.unit and one.unit != other.unit:
            raise Unreadable(f"{quoted(self.text)} adds two units; write both in one.")
        terms = sum(part.terms for part in (one, other) if part.value.imag == 0)
        return self._checked(one.value + sign * other.value, one.unit or other.unit, terms)

    def _product(self) -> Reckoned:
        found, divided = self._factor(), False
        while self.at < len(self.tokens) and self._next not in (("sign", "+"), ("sign", "-"), ("sign", ")")):
            kind, text = self._next
            if (kind, text) in (("sign", "*"), ("sign", "/")):
                self._take()
                divided = text == "/"
                found = self._multiplied(found, self._factor(), divided=divided)
                continue
            if (kind == "number" and self.tokens[self.at - 1][0] != "word") or (
                divided and text not in self.units
            ):  # 1/2π may be meant in two ways
                raise self._no_number()
            found = self._multiplied(found, self._factor(), divided=False)
        return found

    def _multiplied(self, one: Reckoned, other: Reckoned, *, divided: bool) -> Reckoned:
        if other.unit and (divided or one.unit):
            raise self._no_number()
        if divided and other.value == 0:
            raise Unreadable(f"{quoted(self.text)} divides by zero; check what stands below the line.")
        value = one.value / other.value if divided else one.value * other.value
        return self._checked(value, one.unit or other.unit, max(one.terms, other.terms))

    def _factor(self) -> Reckoned:
        kind, text = self._take()
        if (kind, text) in (("sign", "+"), ("sign", "-")):
            found = self._factor()
            return Reckoned(found.value if text == "+" else -found.value, found.unit)
        found = self._number(kind, text)
        if self._next[1] in ("∠", "<", "@"):
            self._take()
            return Reckoned(rect(found.value.real, self._angle(self._signed())), found.unit)
        return found

    def _number(self, kind: str, text: str) -> Reckoned:
        if kind == "number":
            return self._checked(complex(float(text)), "", 1)
        if (kind, text) == ("sign", "("):
            return self._bracket()
        if text in self.units:
            scale = {"cm": 10.0, "m": 1000.0}.get(text, 1.0)
            unit = self.units[text]
            return Reckoned(complex(scale), "millimetres" if unit in ("centimetres", "metres") else unit)
        if text in ("j", "i", "π", "pi"):
            return Reckoned(1j if text in "ji" else complex(pi))
        if text in ("e", "exp"):
            return self._turned(text)
        raise self._no_number()

    def _bracket(self) -> Reckoned:
        self.depth += 1
        if self.depth > DEEPEST:
            raise Unreadable(f"{quoted(self.text)} has too many brackets; write one number.")
        found = self._sum()
        if self._take() != ("sign", ")"):
            raise self._no_number()
        self.depth -= 1
        return found

    def _turned(self, text: str) -> Reckoned:
        """e^(-j46.8°): a size of one, turned."""
        if text == "e" and self._take() != ("sign", "^"):
            raise self._no_number()
        before, self.units = self.units, _ANGLES
        found = self._signed() if self._next != ("sign", "(") else self._number(*self._take())
        self.units = before
        if found.value.real:
            raise self._no_number()
        size = found.value.imag
        unit = found.unit or ("radians" if abs(size) <= tau else "degrees")
        return Reckoned(exp(1j * (size if unit == "radians" else radians(size))))

    def _signed(self) -> Reckoned:
        """An angle: numbers and its unit, up to the next sign."""
        before, self.units = self.units, _ANGLES
        sign = -1.0 if self._next == ("sign", "-") else 1.0
        if self._next[1] in ("+", "-"):
            self._take()
        found = self._product()
        self.units = before
        return Reckoned(sign * found.value, found.unit)

    def _angle(self, found: Reckoned) -> float:
        if found.value.imag:
            raise self._no_number()
        value = found.value.real
        return value if (found.unit or self.angle) == "radians" else radians(value)

    # --- tokens ---

    @property
    def _next(self) -> tuple[str, str]:
        return self.tokens[self.at] if self.at < len(self.tokens) else ("", "")

    def _take(self) -> tuple[str, str]:
        taken = self._next
        if not taken[0]:
            raise self._no_number()
        self.at += 1
        return taken

    def _checked(self, value: complex, unit: str, terms: int) -> Reckoned:
        if not abs(value) <= LARGEST:
            raise Unreadable(f"{quoted(self.text)} is too large to be meant; write inf for an open circuit.")
        return Reckoned(value, unit, terms)

    def _no_number(self) -> Unreadable:
        return Unreadable(f"{quoted(self.text)} is not a number; write one such as 0.172 or 25 - j40.")


def in_wavelengths(value: float, unit: str) -> float:
    """A length of line in degrees or radians, in wavelengths. Raises KeyError for another unit."""
    return value * {"wavelengths": 1.0, "degrees": 1 / 360, "radians": 1 / tau}[unit]
