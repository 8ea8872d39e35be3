"""What students call things: from a name as it stands in someone's own working to the quantity it means.

The names themselves stand with the fields of a lesson. Here they are compared without regard to case, spaces,
subscripts and brackets, and a mark of one of the two solutions is taken off them: near, far, 1, 2, a, b.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from lessons.grammar.kinds import Immittance, Millimetres, Susceptance
from lessons.grammar.lesson import SIDES, Field, Side, Work

Mark = Literal["near", "far", "first", "second", ""]
LABELS: dict[str, Mark] = {"1": "first", "2": "second", "a": "first", "b": "second", "'": "second"}
_SIDE_WORD = re.compile(
    r"[\[(]?(?<![^\W_])(near|far)(?:er|est|ther)?(?![^\W_])[\])]?(?:\s+(?:solution|one|crossing)\b)?",
    re.IGNORECASE,
)
_ORDER_WORD = re.compile(
    r"\b(?:(?:(first|1st)|(second|2nd))\b(?:\s+(?:solution|one|crossing)\b)?|solution\s+(?:([1a])|([2b]))\b)",
    re.IGNORECASE,
)
_GREEK = str.maketrans({"γ": "gamma", "ρ": "rho", "λ": "lambda", "β": "beta", "’": "'", "′": "'"})
_OTHER_LETTER = {"z": "y", "y": "z", "x": "y", "b": "z"}
_SYMBOLS = ("{d}", "{l}")


@dataclass(frozen=True)
class Quantity:
    """What a name stands for: one field, or the near and the far field of a step."""

    key: str
    fields: tuple[Field, ...]

    @property
    def sided(self) -> bool:
        """Whether each of the two solutions has its own."""
        return len(self.fields) == len(SIDES)

    @property
    def label(self) -> str:
        """Its label without the word for a solution."""
        label = self.fields[0].label
        return label.partition(": ")[2] if self.sided else label

    def at(self, side: Side) -> Field:
        """The field of a solution; the only one where both share it."""
        return self.fields[SIDES.index(side)] if self.sided else self.fields[0]


@dataclass(frozen=True)
class Meaning:
    """A quantity that a name may mean. swapped : the name is of its inverse, as z where y is asked."""

    quantity: Quantity
    swapped: bool = False


def simplified(text: str) -> str:
    """A name without whatever people write differently: case, spaces, subscripts, brackets, Greek."""
    plain = (
        unicodedata.normalize("NFKC", text).casefold().translate(_GREEK).replace("normalized", "normalised")
    )
    return re.sub(r"[^\w|']|_", "", plain)


def without_mark(text: str) -> tuple[str, Mark]:
    """A text without the word that says which solution it is of, and what that word says."""
    if found := _SIDE_WORD.search(text):
        mark: Mark = "near" if found[1].lower() == "near" else "far"
        return _cut(text, found), mark
    if found := _ORDER_WORD.search(text):
        return _cut(text, found), "first" if found[1] or found[3] else "second"
    return text, ""


def _cut(text: str, found: re.Match[str]) -> str:
    return f"{text[: found.start()]} {text[found.end() :]}".strip()


def quantities(work: Work) -> tuple[Quantity, ...]:
    """All that the lesson asks of this problem, the two fields of a step with two solutions as one."""
    grouped: dict[str, list[Field]] = {}
    for step in work.lesson.steps_of(work.problem):
        for one in step.fields:
            stem, _, side = one.key.rpartition(".")
            grouped.setdefault(stem if side in SIDES else one.key, []).append(one)
    return tuple(Quantity(key, tuple(fields)) for key, fields in grouped.items())


class Names:
    """Every name that the lesson's fields go by, in this course's symbols."""

    def __init__(self, work: Work) -> None:
        self.work = work
        self.quantities = quantities(work)
        self._table: dict[str, list[Quantity]] = {}
        owned = {simplified(work.say(symbol)) for symbol in _SYMBOLS}
        for quantity in self.quantities:
            for name in (*quantity.fields[0].names, quantity.label):
                plain = simplified(work.say(name))
                if plain and (plain not in owned or name in _SYMBOLS):  # the course's own symbols go first
                    self._add(plain, quantity)

    def _add(self, plain: str, quantity: Quantity) -> None:
        known = self._table.setdefault(plain, [])
        if quantity not in known:
            known.append(quantity)

    def find(self, name: str) -> tuple[tuple[Meaning, ...], Mark]:
        """What a name may mean, likeliest first (nothing for an unknown one), and the mark of a solution in it."""
        rest, mark = without_mark(name)
        plain = simplified(rest)
        meanings = self._unlabelled(plain, mark)
        if not meanings and plain.endswith(SIDES) and not mark:  # "dfar"
            mark = "near" if plain.endswith("near") else "far"
            meanings = self._unlabelled(plain.removesuffix(mark), mark)
        if not meanings and plain[-1:] in LABELS:
            meanings = tuple(self._labelled(plain[:-1]))
            mark = mark or LABELS[plain[-1]]
        if not meanings and len(words := rest.split()) > 1:  # "distance to the stub d1"
            meanings, own = self.find(words[-1])
            mark = mark or own
        return meanings, mark

    def _unlabelled(self, plain: str, mark: Mark) -> tuple[Meaning, ...]:
        """What is meant by a whole name; with a mark, what has two solutions is."""
        direct = [Meaning(q) for q in self._table.get(plain, ())]
        swapped = list(self._swapped(plain)) if mark or not direct else []
        marked = [m for m in (*direct, *swapped) if mark and m.quantity.sided]
        return tuple(marked or sorted(direct or swapped, key=lambda m: m.quantity.sided))

    def _labelled(self, stem: str) -> Iterator[Meaning]:
        """What is meant by y in y1: the crossing's, or else the load's, of a student who counts everything."""
        direct = [Meaning(q) for q in self._table.get(stem, ())]
        yield from (m for m in direct if m.quantity.sided)
        yield from (m for m in self._swapped(stem) if m.quantity.sided)
        yield from (m for m in direct if not m.quantity.sided)

    def _swapped(self, plain: str) -> Iterator[Meaning]:
        """z for y and y for z; for a stub, which has nothing else, also x for b and b for x."""
        other = _OTHER_LETTER.get(plain[:1], "")
        for quantity in self._table.get(other + plain[1:], ()) if other else ():
            kind = quantity.fields[0].kind(self.work)
            if isinstance(kind, Susceptance) or (isinstance(kind, Immittance) and plain[0] in "zy"):
                yield Meaning(quantity, swapped=True)

    def name_for(self, quantity: Quantity, side: Side | None) -> str:
        """A name that means this quantity and no other, under any heading, with the side where it has two."""
        names = [self.work.say(name) for name in quantity.fields[0].names]
        alone = (Meaning(quantity),)
        sure = (
            n
            for n in names
            if self.find(f"{n} {side or 'near'}")[0] == alone and (side or self.find(n)[0] == alone)
        )
        name = next(sure, names[0])
        return f"{name} {side}" if side else name

    def glossary(self) -> list[tuple[str, str]]:
        """Each quantity in words with the names it goes by, for a student who wonders what can be written."""
        rows = []
        for quantity in self.quantities:
            names = dict.fromkeys(self.work.say(name) for name in quantity.fields[0].names)
            rows.append((self.work.say(quantity.label), ", ".join(names)))
        return rows

    def twin(self, quantity: Quantity) -> Quantity:
        """The length in wavelengths whose millimetres this is; any other quantity itself."""
        if not isinstance(quantity.fields[0].kind(self.work), Millimetres):
            return quantity
        stem = quantity.key.rpartition(".")[2]
        return next((q for q in self.quantities if q.key == stem), quantity)
