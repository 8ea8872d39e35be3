"""Finds the clauses of a line: which names stand in it, and the values behind each of them."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace

from lessons.grammar.kinds import Choice, simplified
from lessons.grammar.lesson import Work
from lessons.homework.names import Mark, Meaning, Names
from lessons.homework.splitting import at_commas, at_signs, from_commas

MOST_WORDS, LONGEST_NAME, LONGEST_LINE = 6, 80, 1_000
_HEADING_WORDS = re.compile(r"\b(solutions?|crossing|one|the|case|option|for|at|of)\b", re.IGNORECASE)
_HAS_LETTER, _HAS_DIGIT = re.compile(r"[^\W\d]"), re.compile(r"\d")
_OPEN_END = re.compile(r"[-+*/^(∠<=±∓]\s*$")
_UNITS = re.compile(r"(?:S|mS|m|mm|cm|[ij]|λ|°|deg|rad|dB|Ω|ohms?|wl)")
_UNKNOWN_NAME = re.compile(r"(?![ij]\d)[^\W\d][^-+*/^=;,]*")


@dataclass(frozen=True)
class Clause:
    """A name, and what stands behind it up to the next one.

    written : the name as it stands, with whatever leads to it.  name : the same without the solution.
    meanings : nothing for an unknown name.  marks : one, or two for `y1, y2`.  around : the solution that the line
    speaks of.  values : the parts between the signs, the last one its value."""

    written: str
    name: str = ""
    meanings: tuple[Meaning, ...] = ()
    marks: tuple[Mark, ...] = (None,)
    around: Mark = None
    values: tuple[str, ...] = ()

    @property
    def text(self) -> str:
        """All of it, in one piece."""
        return " = ".join(part for part in (self.written, *self.values) if part)

    def chooses(self, work: Work) -> bool:
        """Whether it names a question with answers to choose from, so that the value is words."""
        return bool(self.meanings) and self.meanings[0].quantity.fields[0].kind(work).names_a_choice


@dataclass
class _Line:
    """What was found on a line so far. mark : the solution that is named for the rest of it."""

    done: list[Clause] = field(default_factory=list)
    open: Clause | None = None
    mark: Mark = None

    def close(self, *values: str) -> None:
        """End what is open, with a last value."""
        if self.open:
            self.add(replace(self.open, values=(*self.open.values, *values)))
        self.open = None

    def add(self, clause: Clause) -> None:
        self.done.append(replace(clause, around=self.mark))


class Clauses:
    """Finds clauses, in the names of one problem's lesson."""

    def __init__(self, names: Names) -> None:
        self.names, self.work = names, names.work

    def of(self, text: str) -> list[Clause]:
        """All clauses of a line in plain signs; what holds no known name is one of its own."""
        line = _Line()
        if (
            len(text) > LONGEST_LINE
        ):  # no working of anyone's: its first name has all of it, to say that it is too long
            cells, _ = at_signs(text[: 2 * LONGEST_NAME])
            named = self._named(cells[0]) if len(cells) > 1 else Clause(text)
            return [
                replace(named, values=(text[len(cells[0]) :].lstrip(" =:≈"),))
                if named.meanings
                else Clause(text)
            ]
        for part in text.split(";"):
            if part.strip(" ,"):
                self._part(part.strip(" ,"), line)
        return line.done

    def heading(self, text: str) -> Mark:
        """The solution that a text names and nothing else, as in `Far solution:`; None for any other."""
        if len(text) > LONGEST_NAME:
            return None
        rest, mark = self.names.marks.without(text)
        if mark is not None:
            rest, _ = self.names.marks.without(rest)
        return mark if not simplified(_HEADING_WORDS.sub("", rest)) else None

    def _part(self, part: str, line: _Line) -> None:
        cells, signs = at_signs(part)
        if len(cells) == 1:
            self._signless(part, line)
            return
        if not self._is_name(cells[0]) and (choice := self._choice(part)):
            line.add(choice)
            return
        for index, cell in enumerate(cells[:-1]):
            if (
                line.open
                and line.open.chooses(self.work)
                and self._begun(line.open, rest := " = ".join(cells[index:]))
            ):
                line.close(rest)
                return
            self._cell(cell, signs[index - 1] if index else "", line)
        self._last(cells[-1], line)

    # --- between two signs ---

    def _cell(self, cell: str, sign: str, line: _Line) -> None:
        before, name = self._divided(cell)
        if before and not line.open:  # "d near 0.110, l near = ..."; but 2 d = ... says nothing of d
            found = self._without_signs(before)
            before, name = ("", name) if found else ("", "")
            line.done += [replace(one, around=line.mark) for one in found]
        if not name and line.open:
            line.open = replace(line.open, values=(*line.open.values, cell))
        elif not name:
            line.open = Clause(cell)
        else:
            if before:
                line.close(before)
            self._begin(name, sign, line)

    def _begin(self, name: str, sign: str, line: _Line) -> None:
        """Open a clause, or say more exactly what the open one is about."""
        if line.open and line.open.values:
            line.close()
        before, mark = line.open, self.heading(name)
        if mark is not None:
            line.mark = mark
            same = before if before and before.meanings else next(reversed(line.done), None)
            written = f"{before.written}: {name}" if before else name
            line.open = replace(same, written=written, marks=(mark,), values=()) if same else Clause(written)
            return
        named = self._named(name)
        if before and before.meanings and sign != ":":  # z = Z_L/Z_0 = ...: the first is what it is about
            marks = (
                named.marks if before.marks == (None,) and named.meanings == before.meanings else before.marks
            )
            line.open = replace(before, written=f"{before.written} = {name}", marks=marks)
        elif before:
            marks = before.marks if named.marks == (None,) and before.meanings else named.marks
            line.open = replace(named, written=f"{before.written}: {name}", marks=marks)
        else:
            line.open = named

    def _divided(self, cell: str) -> tuple[str, str]:
        """The value that ends in a cell, and the name that begins there; "" where none does."""
        if self._is_name(cell):
            return "", cell
        pairs = [pair for pair in from_commas(cell) if _HAS_DIGIT.search(pair[0])]
        for before, after in pairs:
            if self._is_exact(after):
                return before, after
        if pairs and (self._is_name(pairs[-1][1]) or _UNKNOWN_NAME.fullmatch(pairs[-1][1])):
            return pairs[-1]
        words = cell.split()
        for count in range(min(MOST_WORDS, len(words) - 1), 0, -1):
            before, after = " ".join(words[:-count]), " ".join(words[-count:])
            if self._is_exact(after) and _HAS_DIGIT.search(before) and not _OPEN_END.search(before):
                return ("", "") if _UNITS.fullmatch(after) else (before, after)
        return "", ""

    def _last(self, cell: str, line: _Line) -> None:
        """The value at the end, and what may stand behind it without a sign."""
        parts = at_commas(cell)
        for count in range(1, len(parts)):
            if self._without_sign(parts[count]):
                line.close(", ".join(parts[:count]))
                self._signless(", ".join(parts[count:]), line)
                return
        line.close(cell)

    # --- without a sign ---

    def _signless(self, text: str, line: _Line) -> None:
        """`SWR 4.27, d far 0.26 λ`, or an answer to a question; what is neither is kept as it is."""
        for one in self._without_signs(text) or [self._choice(text) or Clause(text)]:
            line.add(one)

    def _without_signs(self, text: str) -> list[Clause]:
        """The clauses of a text without signs; none where not all of it is such."""
        named = [one for part in at_commas(text) if (one := self._without_sign(part))]
        if len(named) == len(at_commas(text)):
            return named
        whole = self._without_sign(text)
        return [whole] if whole else []

    def _without_sign(self, text: str) -> Clause | None:
        """The longest beginning that is a name, where a number follows."""
        words = text.split(maxsplit=MOST_WORDS)
        for count in range(len(words) - 1, 0, -1):
            name, value = " ".join(words[:count]), " ".join(words[count:])
            if _HAS_LETTER.search(words[count - 1]) and _HAS_DIGIT.search(value) and self._is_known(name):
                return replace(self._named(name), values=(value,))
        return None

    def _choice(self, text: str) -> Clause | None:
        """A line that says one of the answers to a question, such as `g = 1`."""
        for quantity in self.names.quantities:
            kind = quantity.fields[0].kind(self.work)
            if isinstance(kind, Choice) and kind.begun(text):
                return Clause("", "", (Meaning(quantity),), values=(text,))
        return None

    def _begun(self, clause: Clause, text: str) -> bool:
        kind = clause.meanings[0].quantity.fields[0].kind(self.work)
        return isinstance(kind, Choice) and bool(kind.begun(text))

    # --- names ---

    def is_named(self, text: str) -> bool:
        """Whether a text is the name of a quantity and nothing else."""
        short = 0 < len(text) <= LONGEST_NAME and self.heading(text) is None
        return short and bool(self.names.exactly(text)[0])

    def _is_name(self, text: str) -> bool:
        """Whether a text is a name, also with words before it, or a solution alone."""
        return self.heading(text) is not None or self._is_known(text) or len(self._named(text).marks) > 1

    def _is_known(self, text: str) -> bool:
        if len(text) > LONGEST_NAME:
            return False
        leading = text.split()[:-1]
        return self._is_exact(text) or (
            not any(map(_HAS_DIGIT.search, leading)) and bool(self.names.find(text)[0])
        )

    def _is_exact(self, text: str) -> bool:
        if len(text) > LONGEST_NAME:
            return False
        return self.heading(text) is not None or bool(self.names.exactly(text)[0])

    def _named(self, name: str) -> Clause:
        """A name with what it means; two names for two solutions of the same are one."""
        if len(name) > LONGEST_NAME:
            return Clause(name)
        parts = at_commas(name)
        if len(parts) == 2:
            (first, one), (second, other) = map(self.names.exactly, parts)
            if first and first == second and one != other:
                return Clause(name, self.names.marks.without(parts[0])[0], first, (one, other))
        meanings, mark = self.names.find(name)
        return Clause(name, self.names.marks.without(name)[0], meanings, (mark,))
