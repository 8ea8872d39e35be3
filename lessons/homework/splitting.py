"""Splits a line of someone's own working where one thing ends and the next begins: at signs, commas, and words.

What stands in brackets is never split.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from lessons.grammar.numbers import LONGEST

MOST_CHARACTERS = 2 * LONGEST  # of one value; the field itself says that a longer one is too long
_SIGN = re.compile(r"[=:≈→]|->|\s(?:is|are|equals)\s")
_TO_ONE = re.compile(r"(\d)\s{0,4}:\s{0,4}1(?:\.0+)?(?![\d.]|\s*[=±+*/-])")  # a standing-wave ratio of 4.27:1
_AND = re.compile(r"\s(?:and|or|&)\s|(?<=[^\s,]),(?:\s|(?=[^\W\d])|(?=\d*\.\d)(?<=\d,))|\s,")
_UNIT_BEHIND = re.compile(r"-?[\d.,]+\s*([^\d.,+\s-][^\d.,+-]*)")  # "0.110 and 0.259 λ" has one unit for both
_PLUS_MINUS = re.compile(r"±|\+/-|\+-|∓|-\+|-/\+")
_MINUS_PLUS = ("∓", "-+", "-/+")
_ASIDE = re.compile(r"(.*[^\s*/+^(-])\s*\(([^()]*)\)")
_REMARK = re.compile(
    r"(.*?[\d)°λ]\s?(?:wavelengths?|mm|cm|m|λ|°|deg|degrees|rad|Ω|ohms?|m?S|dB|wl|[ij])?)\s+((?:from|by|using|read|"
    r"towards?|since|because|as|which|so|on|at|in|for|per|after|to|approx|approximately|here)\b.*)",
    re.IGNORECASE,
)
_HAS_DIGIT = re.compile(r"\d")
_IMAGINARY = re.compile(r"(?<![^\W\d])[ji](?![^\W\d])", re.IGNORECASE)


def masked(text: str) -> str:
    """A text of the same length with whatever stands in brackets made invisible to every pattern."""
    if "(" not in text or text.count("(") != text.count(")"):
        return text
    depth, kept = 0, []
    for letter in text:
        depth -= letter == ")"
        kept.append("\0" if depth > 0 else letter)
        depth += letter == "("
    return "".join(kept)


def cut(pattern: re.Pattern[str], text: str) -> tuple[list[str], list[str]]:
    """What stands between the matches of a pattern outside brackets, and the matches."""
    cells, signs, start = [], [], 0
    for found in pattern.finditer(masked(text)):
        cells.append(text[start : found.start()].strip())
        signs.append(found[0].strip())
        start = found.end()
    return [*cells, text[start:].strip()], signs


def at_signs(text: str) -> tuple[list[str], list[str]]:
    """The cells of a line, and the signs between them; 3.9:1 is a number."""
    return cut(_SIGN, _TO_ONE.sub(r"\1", text))


def at_commas(text: str) -> list[str]:
    """What stands between commas and between `and` and `or`; a decimal comma is none."""
    return [part for part in cut(_AND, text)[0] if part]


def from_commas(text: str) -> Iterator[tuple[str, str]]:
    """What stands before and after each comma, `and` or `or`."""
    for found in _AND.finditer(masked(text)):
        yield text[: found.start()].strip(" ,"), text[found.end() :].strip()


def both(value: str) -> tuple[str, ...]:
    """The two values of `1 ± j1.47`, or of `0.110 and 0.259 λ`; nothing where there is one."""
    if len(value) > MOST_CHARACTERS:
        return ()
    if sign := _PLUS_MINUS.search(value):
        before, after = value[: sign.start()], value[sign.end() :]
        if _HAS_DIGIT.search(before) and not _IMAGINARY.search(after):
            return ()  # 0.110 ± 0.005 is how well a length is known
        plus, minus = f"{before}+{after}".removeprefix("+").strip(), f"{before}-{after}".strip()
        return (minus, plus) if sign[0] in _MINUS_PLUS else (plus, minus)
    parts = at_commas(value)
    if len(parts) != 2 or not all(map(_HAS_DIGIT.search, parts)):
        return ()
    unit = _UNIT_BEHIND.fullmatch(parts[1])
    return (f"{parts[0]} {unit[1]}" if unit and parts[0][-1:].isdigit() else parts[0], parts[1])


def without_asides(value: str) -> tuple[str, tuple[str, ...]]:
    """A value without brackets around it, a full stop, and remarks behind it; and those remarks."""
    asides: list[str] = []
    plain = value.strip().rstrip(".,").strip()
    if len(plain) > MOST_CHARACTERS:
        return plain, ()
    for _ in range(3):
        if plain.startswith("(") and plain.endswith(")") and plain.count("(") == 1:
            return plain[1:-1].strip(), tuple(asides)
        found = _ASIDE.fullmatch(plain)
        if not found or not _ends_a_value(found[1]):
            found = _REMARK.fullmatch(plain)
        if not found:
            break
        asides.append(found[2].strip())
        plain = found[1].strip()
    return plain, tuple(asides)


def _ends_a_value(text: str) -> bool:
    """Whether a bracket behind this is a remark: behind a j, π or e^ it belongs to the number."""
    return not re.search(r"(?:(?<![\w.])[ji]|[π^∠]|exp)\s*$", text)
