"""Reads someone's own working, line by line: which quantity each line names, and what it says of it.

    zL = 0.5-j1                  a name, a sign, a value
    d = 0.172 lambda; l: 62°     several on a line
    y = 1 ± j1.47                both solutions at once, as in d = 0.110 and 0.259
    z = (60-80j)/50 = 1.2-1.6j   the last of several equals counts
    Near:                        a heading, for the lines below it

Nothing is refused: what cannot be read gets a sentence that names its line.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from lessons.grammar.kinds import Choice
from lessons.grammar.lesson import Work
from lessons.grammar.numbers import LONGEST, quoted
from lessons.homework.names import Mark, Meaning, Names, Quantity, simplified, without_mark
from lessons.homework.values import Reading, begun, readings

MOST_LINES, LONGEST_NAME = 200, 6
_LIST_SIGN = re.compile(r"\s*(?:\(?\d{1,2}[.)]\s+|\(?[a-z]\)\s+|[-–*•]\s+)")
_SIGN = re.compile(r"[=:≈]|->|→")
_TO_ONE = re.compile(r"(\d\s*):\s*1\s*$")  # a standing-wave ratio of 4.27:1
_AND = re.compile(r"\s+(?:and|or|&)\s+|,\s+|\s+,")
_UNIT_BEHIND = re.compile(r"-?[\d.,]+\s*([^\d.,+-]+)")  # of a length: "0.110 and 0.259 λ" has one for both
_PLUS_MINUS = re.compile(r"±|\+/-|\+-|∓|-\+|-/\+")
_MINUS_PLUS = ("∓", "-+", "-/+")
_HEADING_WORDS = re.compile(r"\b(solution|crossing|one|the|case)\b", re.IGNORECASE)
_HAS_LETTER, _HAS_DIGIT = re.compile(r"[^\W\d]"), re.compile(r"\d")
_ASIDE = re.compile(r"(.*\S)\s*\([^()]*\)")
_GIVEN = {
    simplified(n)
    for n in ("Z0", "Z line", "f", "frequency", "VF", "velocity factor", "wavelength", "λ", "λg")
}


@dataclass(frozen=True)
class Option:
    """One way to understand a statement: what its name means, the quantity it is about, and its value.

    They differ for a name that asks for millimetres, which is about the length in wavelengths."""

    meaning: Meaning
    quantity: Quantity
    reading: Reading


@dataclass(frozen=True)
class Statement:
    """A quantity and its value, as they stand in a line.

    line : number of the line, from 1.  written : the statement as it stands there.  alone : it is the whole line.
    mark : which solution is said to be meant.  options : what it can mean, likeliest first."""

    line: int
    written: str
    alone: bool
    mark: Mark
    value: str
    options: tuple[Option, ...]


@dataclass(frozen=True)
class Unread:
    """Something that says nothing of the lesson, with a sentence that names its line."""

    line: int
    written: str
    reason: str

    @property
    def sentence(self) -> str:
        """The reason with the line it is about."""
        return f"Line {self.line}, {quoted(self.written)}: {self.reason}"


@dataclass(frozen=True)
class _Named:
    """A name as it stands, what it may mean, the mark with it, and what stands behind it."""

    name: str
    meanings: tuple[Meaning, ...]
    mark: Mark
    value: str

    def chooses(self, work: Work) -> bool:
        """Whether it names a question with answers to choose from, so that the value is words."""
        return isinstance(self.meanings[0].quantity.fields[0].kind(work), Choice)


class Lines:
    """Reads lines in the names of one problem's lesson."""

    def __init__(self, names: Names) -> None:
        self.names, self.work = names, names.work
        self._heading: Mark = ""

    def read(self, text: str) -> tuple[Statement | Unread, ...]:
        """All that a text says, in its order."""
        self._heading = ""
        return tuple(
            said
            for number, line in enumerate(text.splitlines(), 1)
            if line.strip()
            for said in self._line(number, line)
        )

    def _line(self, number: int, line: str) -> Iterator[Statement | Unread]:
        if number > MOST_LINES:
            if number == MOST_LINES + 1:
                yield Unread(number, line, f"only the first {MOST_LINES} lines are read.")
            return
        parts = [part for part in line.split(";") if part.strip()]
        for part in parts:
            yield from self._statements(number, part.strip(), alone=len(parts) == 1)

    def _statements(self, number: int, written: str, *, alone: bool) -> Iterator[Statement | Unread]:
        plain = _LIST_SIGN.sub("", written, count=1) if _LIST_SIGN.match(written) else written
        rest, heading = without_mark(plain)
        if heading and not simplified(_HEADING_WORDS.sub("", rest)):
            self._heading = heading
            return
        named = self._with_sign(plain) or self._without_sign(plain) or self._choice(plain)
        if named is None:
            yield Unread(number, written, self._why_not(plain))
            return
        if self._heading and not named.mark:  # under it, what has two solutions is meant before what has one
            under = self.names.find(f"{named.name} near")[0]
            named = replace(named, meanings=tuple(dict.fromkeys((*under, *named.meanings))))
        sided = tuple(m for m in named.meanings if m.quantity.sided)
        both = _both(named.value) if sided and not (named.mark or self._heading) else None
        if both:
            named = replace(named, meanings=sided)
        for value in both or (named.value,):
            yield self._statement(number, written, alone and both is None, replace(named, value=value))

    def _statement(self, number: int, written: str, alone: bool, named: _Named) -> Statement:
        value, mark = without_mark(named.value)
        if named.chooses(self.work) or not _HAS_DIGIT.search(value):
            value, mark = named.value, ""
        plain = _trimmed(value)
        options = tuple(
            Option(meaning, self.names.twin(meaning.quantity), reading)
            for meaning in named.meanings
            for reading in readings(meaning, named.name, plain, self.work)
        )
        return Statement(number, written, alone, named.mark or mark or self._heading, value.strip(), options)

    # --- names ---

    def _with_sign(self, plain: str) -> _Named | None:
        """`z = (60-80j)/50 = 1.2-1.6j`, or `Near: d = 0.110`: the first part that is a name, and the last one."""
        parts = [part.strip() for part in _SIGN.split(_TO_ONE.sub(r"\1", plain))]
        for index, name in enumerate(parts[:-1]):
            meanings, mark = self.names.find(name)
            if meanings:
                before = without_mark(" ".join(parts[:index]))[1]
                named = _Named(without_mark(name)[0], meanings, mark or before, parts[-1])
                return (
                    replace(named, value=" = ".join(parts[index + 1 :]))
                    if named.chooses(self.work)
                    else named
                )
        return None

    def _without_sign(self, plain: str) -> _Named | None:
        """`SWR 4.27` or `d far 0.26 λ`: the longest beginning that is a name, where a number follows."""
        words = plain.split(maxsplit=LONGEST_NAME)
        for count in range(len(words) - 1, 0, -1):
            name, value = " ".join(words[:count]), " ".join(words[count:])
            if _HAS_LETTER.search(words[count - 1]) and _HAS_DIGIT.search(value):
                meanings, mark = self.names.find(name)
                if meanings:
                    return _Named(without_mark(name)[0], meanings, mark, value)
        return None

    def _choice(self, plain: str) -> _Named | None:
        """A line that says one of the answers to a question, such as `g = 1`."""
        for quantity in self.names.quantities:
            kind = quantity.fields[0].kind(self.work)
            if isinstance(kind, Choice) and begun(kind, plain):
                return _Named("", (Meaning(quantity),), "", plain)
        return None

    def _why_not(self, plain: str) -> str:
        parts = _SIGN.split(plain)
        if len(parts) < 2 or not parts[0].strip():
            return "no name of a quantity stands before a value here; write one such as d = 0.172."
        if simplified(parts[0]) in _GIVEN:
            return "this belongs to the problem, which stands above, and is not marked."
        known = ", ".join(
            dict.fromkeys(self.work.say(q.fields[0].names[0]) for q in self.names.quantities[:10])
        )
        return f"nothing in this lesson is called {quoted(parts[0])}; the names it knows begin with {known}."


def _both(value: str) -> tuple[str, str] | None:
    """The two values of `1 ± j1.47`, or of `0.110 and 0.259 λ`; None where there is one."""
    if len(value) > 2 * LONGEST:
        return None  # the field itself says that this is too long
    if sign := _PLUS_MINUS.search(value):
        before, after = value[: sign.start()], value[sign.end() :]
        plus, minus = f"{before}+{after}".removeprefix("+").strip(), f"{before}-{after}".strip()
        return (minus, plus) if sign[0] in _MINUS_PLUS else (plus, minus)
    parts = _AND.split(value)
    if len(parts) != 2 or not all(parts):
        return None
    unit = _UNIT_BEHIND.fullmatch(parts[1])
    return (f"{parts[0]} {unit[1]}" if unit and parts[0][-1:].isdigit() else parts[0], parts[1])


def _trimmed(value: str) -> str:
    """A value without brackets around it, a remark in brackets after it, or a full stop."""
    plain = value.strip().rstrip(".").strip()
    if plain.startswith("(") and plain.endswith(")") and plain.count("(") == 1:
        return plain[1:-1].strip()
    found = _ASIDE.fullmatch(plain) if len(plain) <= 2 * LONGEST else None
    return found[1] if found else plain
