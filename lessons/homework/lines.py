"""Reads someone's own working, line by line: which quantity each line names, and what it says of it.

    zL = 0.5-j1                  a name, a sign, a value
    d = 0.172 λ, l = 62°         several on a line
    y = 1 ± j1.47                both solutions at once, as in d = 0.110 and 0.259
    z = (60-80j)/50 = 1.2-1.6j   the last of several equals counts
    near: d = 0.110, l = 0.095   a solution, for the rest of the line
    Near:                        a heading, for the lines below it
    near | 0.110 | 0.095         a row of a table (see tables.py)

Nothing is refused and nothing is dropped: what cannot be read gets a sentence that names its line, and what is read
along with a value stands beside it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from lessons.grammar.branch import Branch
from lessons.grammar.kinds import Reading, simplified
from lessons.grammar.numbers import quoted
from lessons.homework.clauses import Clause, Clauses
from lessons.homework.names import NORMALISED, Mark, Meaning, Names, Quantity
from lessons.homework.splitting import both, without_asides
from lessons.homework.tables import tables
from lessons.homework.typeset import plain
from lessons.homework.values import readings

MOST_LINES, MOST_STATEMENTS, MOST_LOOKED_AT = 200, 400, 20_000
_LIST_SIGN = re.compile(r"\s*(?:\(?\d{1,2}[.)]\s+|\(?[a-z]\)\s+|[-*•]\s+)")
_HAS_DIGIT = re.compile(r"\d")
_DOUBLE_PRIME = re.compile(r"\w(?:''|′′)")
_BY_NUMBER = re.compile(
    r"(?<![^\W_])([Zz]\w*)\s*/\s*(\d{1,6}(?:\.\d{1,6})?)(?:\s*(?:Ω|ohms?))?(?=\s*[=≈:])", re.IGNORECASE
)
_SUM = re.compile(r"\d\s*[-+*/]")
_GIVEN = {
    simplified(n)
    for n in (
        "Z0",
        "Zc",
        "R0",
        "Y0",
        "Z line",
        "f",
        "frequency",
        "VF",
        "velocity factor",
        "wavelength",
        "λ",
        "λg",
        "β",
    )
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
    mark : which solution is said to be meant.  options : what it can mean, likeliest first.
    name : what stands before the value.  beside : what was read along with it and says nothing that is marked."""

    line: int
    written: str
    alone: bool
    mark: Mark
    value: str
    options: tuple[Option, ...]
    name: str = ""
    beside: tuple[str, ...] = ()


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


Said = Statement | Unread


class Lines:
    """Reads lines in the names of one problem's lesson."""

    def __init__(self, names: Names) -> None:
        self.names, self.work = names, names.work
        self.clauses = Clauses(names)
        self._heading: Mark = None
        self._primes = False
        self._count = 0

    def read(self, text: str) -> tuple[Said, ...]:
        """All that a text says, in its order."""
        self._heading, self._count = None, 0
        self._primes = bool(_DOUBLE_PRIME.search(plain(text[:MOST_LOOKED_AT])))
        found: list[Said] = []
        lines = text.splitlines()
        rows = tables(lines[:MOST_LINES], self.clauses)
        for number, line in enumerate(lines, 1):
            if number > MOST_LINES or self._count > MOST_STATEMENTS:
                return (*found, Unread(number, line, f"only the first {number - 1} lines are read."))
            if number - 1 in rows:
                found += (said for one in rows[number - 1] for said in self._clauses(number, one, one))
            elif line.strip():
                found += self._line(number, line)
        return tuple(found)

    def _line(self, number: int, line: str) -> Iterator[Said]:
        written = plain(line)
        text = _LIST_SIGN.sub("", written, count=1) if _LIST_SIGN.match(written) else written
        if (heading := self.clauses.heading(text)) is not None:
            self._heading = heading
            return
        yield from self._clauses(number, text, line.strip())

    def _clauses(self, number: int, text: str, line: str) -> Iterator[Said]:
        clauses = self.clauses.of(self._normalising(text))
        for clause in clauses:
            alone = len(clauses) == 1
            for said in self._said(number, clause, line if alone else clause.text, alone=alone):
                self._count += 1
                yield said

    def _normalising(self, text: str) -> str:
        """A line in which what is divided by the number that values are normalised by is divided by its symbol."""
        return _BY_NUMBER.sub(
            lambda found: f"{found[1]}/Z0" if float(found[2]) in self._norms else found[0], text
        )

    @cached_property
    def _norms(self) -> set[float]:
        kinds = (one.kind(self.work) for one in self.work.lesson.fields.values())
        return {kind.per for kind in kinds if kind.per}

    def _said(self, number: int, clause: Clause, written: str, *, alone: bool) -> Iterator[Said]:
        if not clause.meanings:
            if _HAS_DIGIT.search(clause.text) or alone:
                yield Unread(number, written, self._why_not(clause))
            return
        clause = self._in_solution(clause)
        values = self._values(clause)
        if len(values) > 1:  # only what has several solutions has several values
            clause = replace(clause, meanings=tuple(m for m in clause.meanings if m.quantity.sided))
        for value, mark in values:
            one = replace(clause, marks=(mark,), values=(*clause.values[:-1], value))
            yield from self._statements(number, one, written, alone=alone and len(values) == 1)

    def _in_solution(self, clause: Clause) -> Clause:
        """Where the line is of one solution, what has several is meant first."""
        mark = clause.marks[0]
        if (
            self._primes
            and isinstance(mark, int)
            and (count := len(clause.name) - len(clause.name.rstrip("'")))
        ):
            clause = replace(clause, marks=(count - 1,))
        if clause.marks != (None,) or (clause.around is None and self._heading is None):
            return clause
        under = self.names.find(f"{clause.name} {self._a_branch}")[0]
        return replace(clause, meanings=tuple(dict.fromkeys((*under, *clause.meanings))))

    def _values(self, clause: Clause) -> list[tuple[str, Mark]]:
        """The value of a clause, or both of them, each with the solution that its name says."""
        value, marks = clause.values[-1] if clause.values else "", clause.marks
        sided = any(m.quantity.sided for m in clause.meanings)
        open_which = marks == (None,) and clause.around is None and self._heading is None
        pair = (
            both(value) if sided and (open_which or len(marks) > 1) and not clause.chooses(self.work) else ()
        )
        if not pair:
            return [(value, marks[0] if len(marks) == 1 else None)]
        return list(zip(pair, marks if len(marks) > 1 else (None, None), strict=True))

    # --- one statement ---

    def _statements(self, number: int, clause: Clause, written: str, *, alone: bool) -> Iterator[Statement]:
        """What a clause says of one solution: its value, and the same length in another unit beside it."""
        bare, asides, mark = self._apart(clause, clause.values[-1])
        mark = self._marked(clause, (clause.marks[0], mark, clause.around, self._heading))
        said = self._statement(number, written, alone, mark, clause, bare)
        others = [text.lstrip("=≈ ") for text in (*clause.values[:-1], *asides)]
        other = next((text for text in others if self._in_another_unit(said, clause, text)), None)
        yield replace(
            said, beside=tuple(text for text in others if text != other and _HAS_DIGIT.search(text))
        )
        if other:
            yield self._statement(number, written, False, mark, clause, other)

    @staticmethod
    def _marked(clause: Clause, marks: Sequence[Mark]) -> Mark:
        """The first mark that says something; of what has no solutions of its own, a number such as in L1 is a count
        of parts."""
        counts = any(meaning.quantity.sided for meaning in clause.meanings)
        return next((one for one in marks if isinstance(one, Branch) or (counts and one is not None)), None)

    def _apart(self, clause: Clause, value: str) -> tuple[str, tuple[str, ...], Mark]:
        """A value, the remarks behind it, and the solution that stands with it."""
        if clause.chooses(self.work) or not _HAS_DIGIT.search(value):
            return value, (), None
        bare, asides = without_asides(value)
        marks = [self.clauses.heading(aside) for aside in asides]
        bare, mark = self.names.marks.without(bare)
        mark = next((one for one in (mark, *marks) if one is not None), None)
        return bare, tuple(a for a, m in zip(asides, marks, strict=True) if m is None), mark

    def _statement(
        self, number: int, written: str, alone: bool, mark: Mark, clause: Clause, value: str
    ) -> Statement:
        understood = [
            [
                Option(meaning, self.names.twin(meaning.quantity), reading)
                for reading in readings(meaning, _name_said(clause), value, self.work)
            ]
            for meaning in clause.meanings
        ]
        understood.sort(key=_is_turned_into_another)  # what may be meant as it stands goes first
        options = tuple(option for options in understood for option in options)
        return Statement(number, written, alone, mark, value.strip(), options, clause.written)

    def _in_another_unit(self, said: Statement, clause: Clause, text: str) -> bool:
        """Whether this is the same length, in millimetres beside wavelengths or the other way round."""
        first = said.options[0]
        if (
            not first.meaning.quantity.fields[0].kind(self.work).length_in
            or _SUM.search(text)
            or first.reading.fault
        ):
            return False
        other = readings(first.meaning, _name_said(clause), text, self.work)[0]
        return not other.fault and (other.millimetres is None) != (first.reading.millimetres is None)

    @property
    def _a_branch(self) -> str:
        return next((branch.word for branch in self.work.lesson.branches_of(self.work.problem)), "")

    def _why_not(self, clause: Clause) -> str:
        if not clause.values or not clause.written:
            return "no name of a quantity stands before a value here; write one such as d = 0.172."
        if simplified(clause.written) in _GIVEN:
            return "this belongs to the problem, which stands above, and is not marked."
        if not self.names.marks.without(clause.written)[0].strip() and self._a_branch:
            like = self.names.lines_to_imitate()[-1]
            return f"{quoted(clause.written)} says which solution: name each value as well, as in {like}."
        known = ", ".join(self.names.examples)
        return f"nothing in this lesson is called {quoted(clause.written)}; the names it knows begin with {known}."


def _is_turned_into_another(options: Sequence[Option]) -> bool:
    """Whether a value of this meaning stands in another unit than the field's own."""
    return bool(options[0].reading.said) and not options[0].meaning.swapped


def _name_said(clause: Clause) -> str:
    """The name as its value has to be understood: Z/Z0 is normalised, so its capital says nothing of ohms."""
    return clause.name.lower() if NORMALISED.search(clause.name) else clause.name
