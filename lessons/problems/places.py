"""A place in a set: which of its problems, in whose variant; and how a link names it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from lessons.grammar.numbers import quoted
from lessons.grammar.problem import Problem
from lessons.problems.problem_sets import ProblemSet, SetProblem
from lessons.problems.seeds import TooRare
from lessons.problems.sets import Shelf
from lessons.problems.variants import is_code


@dataclass(frozen=True)
class Place:
    """A problem of a set. code : of the variant, "" for the problem as it stands in the file."""

    set: ProblemSet
    index: int
    code: str = ""

    @property
    def item(self) -> SetProblem:
        """The problem as the set has it."""
        return self.set.items[self.index]

    @property
    def problem(self) -> Problem:
        """The problem in this variant; as it stands in the file where the bounds leave none for it."""
        try:
            return self.set.variant(self.item, self.code)
        except TooRare:
            return self.item.problem

    def moved(self, by: int) -> Place | None:
        """The place so many problems on, in the same variant; None past an end of the set."""
        to = self.index + by
        return replace(self, index=to) if 0 <= to < len(self.set.items) else None

    def texts(self) -> dict[str, str]:
        """The texts by which a link names it."""
        texts = {"set": self.set.key, "problem": self.item.problem.key}
        return texts | ({"variant": self.code} if self.code else {})


def read_place(query: Mapping[str, str], sets: Shelf) -> tuple[Place | None, tuple[str, ...]]:
    """The place that a link names, None where it names none, and a sentence for each thing that could not be used."""
    wanted = query.get("set", "").strip()
    if not wanted:
        return None, ()
    one = sets.find(wanted)
    if one is None:
        known = ", ".join(each.key for each in sets)
        return None, (f"There is no set {quoted(wanted)} here; those that there are: {known}.",)
    faults = []
    key, code = query.get("problem", "").strip(), query.get("variant", "").strip().upper()
    item = one.find(key) if key else one.items[0]
    if item is None:
        faults.append(f"The set {quoted(one.title)} has no problem {quoted(key)}; here is its first.")
        item = one.items[0]
    if code and not is_code(code):
        faults.append(
            f"{quoted(code)} is no variant: copy the whole link, or type your name on the set's page."
        )
        code = ""
    return Place(one, one.items.index(item), code), tuple(faults)
