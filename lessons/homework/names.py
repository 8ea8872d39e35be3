"""What students call things: from a name as it stands in someone's own working to the quantity it means.

The names themselves stand with the fields of a lesson. Here they are compared without regard to case, spaces,
subscripts and brackets, and a mark of one of the solutions is taken off them: a branch's own word, or 1, 2, a, b.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from lessons.grammar.branch import Branch
from lessons.grammar.kinds import simplified
from lessons.grammar.lesson import Field, Work

Mark = Branch | int | None
"""What says which solution is meant: its word, its place in the student's own order (0 is the first), or nothing."""
LABELS = {"1": 0, "2": 1, "3": 2, "4": 3, "a": 0, "b": 1, "c": 2, "'": 1, "''": 1, "i": 0, "ii": 1}
BOTH_LABELS = ("12", "ab")  # y_{1,2}: both solutions, whose values follow
_ENDINGS = sorted((*BOTH_LABELS, *LABELS), key=len, reverse=True)
_BEHIND = r"(?:\s+(?:solution|one|crossing)\b)?"
_PLACES = r"([1a]|i)|([2b]|ii)|([3c]|iii)|([4d]|iv)"
_ORDER_WORD = re.compile(
    rf"\b(?:(?:(first|1st)|(second|2nd)|(third|3rd)|(fourth|4th))\b{_BEHIND}"
    rf"|(?:solution|case|option|position|crossing)\s+(?:{_PLACES})(?![\w.,]*\w)"
    rf"|(?:at|for)\s+(?:(?:point|plane)\s+(?:{_PLACES})|(?-i:(A)|(B)|(C)|(D)))(?![\w.,]*\w))",
    re.IGNORECASE,
)
_LEADING = re.compile(
    r"\A\s*(?:(?:the|an?|my|our|so|thus|hence|then|therefore|with|and|this|gives|we|get|for|is|stub's)\s+)+",
    re.I,
)
NORMALISED = re.compile(r"(?<=[\w)'])\s*/\s*\(?(?:[ZzYyRr]_?[0oc]|λg?)\)?\s*$")
_NO_NAME = re.compile(r"[^\w\s(){}\[\]'′|.,:;/&#\"\\-]|\s-|-\s|-\d|\A\s*-|/\s*\d|\d\s*/|[²³¹⁰⁴-⁹]")
"""What makes something reckoned of a name: 2d, d², y/2 and -d are none of d and y."""
_WHERE = re.compile(r"\s+(?:to|from)\s+(?:the\s+)?(?:stub|load|junction)\b", re.I)
_SYMBOL_BEHIND = re.compile(r"\s*(?:\{\w+\}|\b[a-zA-ZΓ])$")
_FILLING = {"to", "the", "of", "at", "from", "a", "an", "in", "normalised", "its", "value", "is"}
_SYMBOL = re.compile(r"\W?[^\W\d]{1,2}_?\(?\w{0,4}\)?'{0,2}")
_OTHER_LETTER = {"z": "y", "y": "z", "x": "y", "b": "z"}


@dataclass(frozen=True)
class Quantity:
    """What a name stands for: one field, or the fields of all branches that have the quantity."""

    key: str
    fields: tuple[Field, ...]

    @property
    def sided(self) -> bool:
        """Whether each of several solutions has its own."""
        return self.fields[0].branch is not None

    @property
    def label(self) -> str:
        """Its label without the word for a solution."""
        return self.fields[0].label

    def at(self, branch: Branch | None) -> Field:
        """The field of a solution; the only one where all share it."""
        return next((one for one in self.fields if one.branch == branch), self.fields[0])


@dataclass(frozen=True)
class Meaning:
    """A quantity that a name may mean. swapped : the name is of its inverse, as z where y is asked."""

    quantity: Quantity
    swapped: bool = False


class Marks:
    """Takes the word for a solution off a text."""

    def __init__(self, branches: Sequence[Branch]) -> None:
        self._branches = {word.casefold(): branch for branch in branches for word in branch.words}
        words = "|".join(map(re.escape, sorted(self._branches, key=len, reverse=True))) or r"(?!)"
        self._word = re.compile(rf"[\[(]?(?<![^\W_])({words})(?![^\W_])[\])]?{_BEHIND}", re.IGNORECASE)

    def without(self, text: str) -> tuple[str, Mark]:
        """A text without the word that says which solution it is of, and what that word says."""
        if found := self._word.search(text):
            return _cut(text, found), self._branches[found[1].casefold()]
        if self._branches and (found := _ORDER_WORD.search(text)):
            return _cut(text, found), next(i % 4 for i, part in enumerate(found.groups()) if part)
        return text, None

    def at_end(self, plain: str) -> tuple[str, Branch] | None:
        """A simplified name that ends in a branch's word, such as "dfar": what is before it, and the branch."""
        for word, branch in self._branches.items():
            if plain.endswith(word) and plain != word:
                return plain.removesuffix(word), branch
        return None


def _bare(name: str) -> str:
    """A name without articles before it, and simplified."""
    return simplified(_LEADING.sub("", name))


def _ends_in(plain: str, ending: str) -> bool:
    return len(plain) > len(ending) and plain.endswith(ending)


def _cut(text: str, found: re.Match[str]) -> str:
    return f"{text[: found.start()]} {text[found.end() :]}".strip()


def quantities(work: Work) -> tuple[Quantity, ...]:
    """All that the lesson asks of this problem, the fields of several solutions as one."""
    grouped: dict[str, list[Field]] = {}
    for step in work.lesson.steps_of(work.problem):
        for one in step.fields:
            grouped.setdefault(one.quantity, []).append(one)
    return tuple(Quantity(key, tuple(fields)) for key, fields in grouped.items())


class Names:
    """Every name that the lesson's fields go by, in this course's symbols."""

    def __init__(self, work: Work) -> None:
        self.work = work
        self.marks = Marks(work.lesson.branches_of(work.problem))
        self.quantities = quantities(work)
        self._table: dict[str, list[Quantity]] = {}
        self._found: dict[str, tuple[tuple[Meaning, ...], Mark]] = {}
        own = {f"{{{symbol.key}}}" for symbol in work.lesson.symbols}
        owned = {simplified(work.say(symbol)) for symbol in own}
        for quantity in self.quantities:
            for name in (*quantity.fields[0].names, quantity.label, _SYMBOL_BEHIND.sub("", quantity.label)):
                plain = simplified(work.say(name))
                if plain and (plain not in owned or name in own):  # the course's own symbols go first
                    self._add(plain, quantity)

    def _add(self, plain: str, quantity: Quantity) -> None:
        known = self._table.setdefault(plain, [])
        if quantity not in known:
            known.append(quantity)

    def find(self, name: str) -> tuple[tuple[Meaning, ...], Mark]:
        """What a name may mean, likeliest first (nothing for an unknown one), and the mark of a solution in it."""
        name = _WHERE.sub("", name)
        meanings, mark = self.exactly(name)
        words = _LEADING.sub("", NORMALISED.sub("", self.marks.without(name)[0])).split()
        if meanings or len(words) < 2:
            return meanings, mark
        if words[0].casefold() in ("normalised", "normalized"):
            meanings, own = self.find(" ".join(words[1:]))
        elif _SYMBOL.fullmatch(words[-1]):  # "distance to the stub d1", "total y"
            meanings, own = self.exactly(" ".join((words[-1], *words[:-1])))
            if not meanings:
                meanings, own = self.exactly(words[-1])
                meanings = tuple(m for m in meanings if self._is_about(m, words[:-1]))
        else:
            return (), mark
        return meanings, own if mark is None else mark

    def _is_about(self, meaning: Meaning, words: Sequence[str]) -> bool:
        """Whether words before a symbol are of the quantity's own: what else they may say is not known."""
        one = meaning.quantity.fields[0]
        own = {simplified(w) for text in (one.label, *one.names) for w in self.work.say(text).split()}
        return all(simplified(word) in own | _FILLING for word in words)

    def exactly(self, name: str) -> tuple[tuple[Meaning, ...], Mark]:
        """As `find`, for a name with nothing else around it."""
        if name not in self._found:
            self._found[name] = self._read(name)
        return self._found[name]

    def _read(self, name: str) -> tuple[tuple[Meaning, ...], Mark]:
        if _NO_NAME.search(NORMALISED.sub("", name)):
            return (), self.marks.without(name)[1]
        rest, mark = self.marks.without(NORMALISED.sub("", name))
        if mark is not None:  # "the near y_1"
            rest = self.marks.without(rest)[0]
        plain = _bare(rest)
        meanings = self._unlabelled(plain, mark is not None)
        if not meanings and mark is None and (ended := self.marks.at_end(plain)):
            plain, mark = ended
            meanings = self._unlabelled(plain, marked=True)
        if not meanings and (ending := next((e for e in _ENDINGS if _ends_in(plain, e)), "")):
            meanings = tuple(self._labelled(plain.removesuffix(ending)))
            mark = LABELS.get(ending) if mark is None and meanings else mark
        if not meanings and (inner := self._inner(plain)):
            found, own = self._of_inner(inner, plain, mark)
            meanings, mark = found, own if mark is None else mark
        return meanings, mark

    def _inner(self, plain: str) -> str:
        """What a name says without j or β before it, or without the letter of the place of the stub, as in y_B1."""
        if plain[:1] == "j" or plain.startswith("beta"):
            return plain.removeprefix("beta").removeprefix("j")
        return f"{plain[0]}{plain[2:]}" if re.fullmatch(r"[^\W\d][a-d]\d", plain) else ""

    def _of_inner(self, inner: str, plain: str, mark: Mark) -> tuple[tuple[Meaning, ...], Mark]:
        word = mark.word if isinstance(mark, Branch) else ""
        meanings, own = self.exactly(f"{inner} {word}")
        if plain.startswith("beta"):
            return tuple(m for m in meanings if self._is_length(m)), own
        if plain[0] == "j":  # the jB of a stub, in a book whose b has no subscript
            stub, last = inner.rstrip("12'"), inner[len(inner.rstrip("12'")) :]
            meanings = tuple(dict.fromkeys((*meanings, *self.exactly(f"{stub}s{last} {word}")[0])))
        return meanings, own

    def _is_length(self, meaning: Meaning) -> bool:
        return bool(meaning.quantity.fields[0].kind(self.work).length_in)

    def _unlabelled(self, plain: str, marked: bool) -> tuple[Meaning, ...]:
        """What is meant by a whole name; with a mark, what has several solutions is."""
        direct = [Meaning(q) for q in self._table.get(plain, ())]
        swapped = list(self._swapped(plain)) if marked or not direct else []
        of_several = [m for m in (*direct, *swapped) if marked and m.quantity.sided]
        return tuple(of_several or sorted(direct or swapped, key=lambda m: m.quantity.sided))

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
            if quantity.fields[0].kind(self.work).is_inverse_named(plain[0]):
                yield Meaning(quantity, swapped=True)

    def name_for(self, quantity: Quantity, branch: Branch | None) -> str:
        """A name that means this quantity and no other, under any heading, with the branch where it has several."""
        names = [self.work.say(name) for name in quantity.fields[0].names]
        alone = (Meaning(quantity),)
        heading = branch or next(iter(self.work.lesson.branches), None)
        sure = (
            n
            for n in names
            if (heading is None or self.find(f"{n} {heading.word}")[0] == alone)
            and (branch or self.find(n)[0] == alone)
        )
        name = next(sure, names[0] if names else quantity.label)
        return f"{name} {branch.word}" if branch else name

    def glossary(self) -> list[tuple[str, str]]:
        """Each quantity in words with the names it goes by, for a student who wonders what can be written."""
        rows = []
        for quantity in self.quantities:
            names = dict.fromkeys(self.work.say(name) for name in quantity.fields[0].names)
            rows.append((self.work.say(quantity.label), ", ".join(names)))
        return rows

    @cached_property
    def examples(self) -> tuple[str, ...]:
        """The first name of each of the first quantities."""
        firsts = (self.work.say(q.fields[0].names[0]) for q in self.quantities[:10] if q.fields[0].names)
        return tuple(dict.fromkeys(firsts))

    def lines_to_imitate(self) -> tuple[str, ...]:
        """A few lines as a student may write them: of the first quantity, and of one with several solutions."""
        found = []
        sided = [q for q in self.quantities if q.sided]
        for quantity in (self.quantities[0], *sided[-3:-1]):
            one = quantity.fields[0]
            kind = one.kind(self.work)
            if kind.example:
                found.append(f"{self.name_for(quantity, one.branch)} = {self.work.say(kind.example)}")
        return tuple(found)

    def twin(self, quantity: Quantity) -> Quantity:
        """The quantity that this one gives in another unit; any other quantity itself."""
        same = quantity.fields[0].same_as
        return next((q for q in self.quantities if same and q.key == same), quantity)
