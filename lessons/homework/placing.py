"""Puts statements into their places on a sheet: the field that each answers, and the solution that it is of."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from lessons.grammar.asked import of_the_pick
from lessons.grammar.branch import Branch
from lessons.grammar.lesson import Field, Lesson
from lessons.homework.lines import Option, Statement
from lessons.homework.names import Quantity

Order = tuple[Branch, ...]


@dataclass(frozen=True)
class Arrangement:
    """One understanding of what was left open.

    picks : for each statement, which of its options.  ordinals : the branches of what is marked 1, 2 and so on.
    unmarked : the branches of what has no mark, one value after another; turned : the same for single quantities whose
    unmarked values stand in another order.  picked : the branch that is built, where no line says it."""

    picks: tuple[int, ...]
    ordinals: Order
    unmarked: Order
    picked: Branch | None = None
    turned: Mapping[str, Order] = field(default_factory=dict)


@dataclass(frozen=True)
class Placed:
    """A statement in its place: the field it answers, and the branch where it is of one solution.

    length : key of the same length in wavelengths, for one in millimetres that has a field of its own.
    unmarked : whether the branch is a guess from how well it fits."""

    statement: Statement
    option: Option
    field: Field
    branch: Branch | None = None
    length: str = ""
    unmarked: bool = False

    @property
    def key(self) -> str:
        """Names the field, and the branch too where one field serves all."""
        of_one = self.branch if self.field.branch is None else None
        return f"{self.field.key}.{of_one.key}" if of_one else self.field.key

    @property
    def readable(self) -> bool:
        """Whether its value could be read."""
        return not self.option.reading.fault


Slot = tuple[str, bool]
"""A quantity, and whether it is in millimetres: each has room for one value of each branch."""


def placed(lesson: Lesson, statements: Sequence[Statement], arrangement: Arrangement) -> tuple[Placed, ...]:
    """Every statement in its place, in one arrangement."""
    options = [s.options[pick] for s, pick in zip(statements, arrangement.picks, strict=True)]
    branches = _branches(statements, options, arrangement)
    for index, (statement, option) in enumerate(zip(statements, options, strict=True)):
        if option.quantity.fields[0].key in of_the_pick(lesson) and isinstance(statement.mark, Branch):
            branches[index] = statement.mark
    return tuple(_placed(lesson, *one) for one in zip(statements, options, branches, strict=True))


def picked(lesson: Lesson, here: Sequence[Placed], arrangement: Arrangement) -> Branch | None:
    """The branch that is built, where anything is about it: as a line says, else that of the last value marked as one
    of its parts, else as arranged."""
    picking, about = lesson.picking_field, [one for one in here if is_of_the_pick(lesson, one)]
    if picking is None or not about:
        return None
    said = [lesson.branch(one.option.reading.text) for one in here if one.field is picking]
    marked = [one.branch for one in about if one.branch]
    return next((one for one in (*reversed(said), *reversed(marked)) if one), arrangement.picked)


def is_of_the_pick(lesson: Lesson, one: Placed) -> bool:
    """Whether it is about the branch that is built, and none is known from a quantity of its own."""
    return one.field.key in of_the_pick(lesson) and not one.length


def counts_for(lesson: Lesson, one: Placed, pick: Branch | None) -> bool:
    """Whether it stands on the sheet of whoever builds this branch: not so where it is about another one."""
    return not is_of_the_pick(lesson, one) or one.branch in (None, pick)


def about_the_same(lesson: Lesson, here: Iterable[Placed], one: Placed) -> list[Placed]:
    """What else is said of the branch that a value marked as one of its parts is of."""
    return [p for p in here if p is not one and is_of_the_pick(lesson, p) and p.branch == one.branch]


def _branches(
    statements: Sequence[Statement], options: Sequence[Option], arrangement: Arrangement
) -> list[Branch | None]:
    """The branch of each statement: as marked, or else as arranged, in the place that is still free."""
    sided = [index for index, option in enumerate(options) if option.quantity.sided]
    free = [index for index in sided if statements[index].mark is None]
    found: list[Branch | None] = [None] * len(options)
    taken: set[tuple[Slot, Branch]] = set()
    for index in sided:
        if (branch := _marked(statements[index], options[index].quantity, arrangement)) is not None:
            found[index] = branch
            if not options[index].reading.fault:
                taken.add((_slot(options[index]), branch))
    counts = Counter(_slot(options[index]) for index in free)
    for index in free:
        slot = _slot(options[index])
        order = _having(options[index].quantity, arrangement.turned.get(slot[0], arrangement.unmarked))
        if counts[slot] >= len(order):  # a value for every solution stands there without a mark
            taken -= {(slot, branch) for branch in order}
            counts[slot] = 0
        found[index] = branch = next((one for one in order if (slot, one) not in taken), order[-1])
        taken.add((slot, branch))
    return found


def _slot(option: Option) -> Slot:
    return option.quantity.key, option.reading.millimetres is not None


def _marked(statement: Statement, quantity: Quantity, arrangement: Arrangement) -> Branch | None:
    if isinstance(statement.mark, int):
        ordinals = _having(quantity, arrangement.ordinals)
        return ordinals[min(statement.mark, len(ordinals) - 1)]
    return statement.mark


def _having(quantity: Quantity, order: Sequence[Branch]) -> list[Branch]:
    """Those branches that have a quantity, in this order."""
    return [branch for branch in order if any(one.branch == branch for one in quantity.fields)]


def _placed(lesson: Lesson, statement: Statement, option: Option, branch: Branch | None) -> Placed:
    one = option.quantity.at(branch)
    unmarked = branch is not None and statement.mark is None
    metric = _metric_field(lesson, option.quantity) if option.reading.millimetres is not None else None
    if metric is None:
        return Placed(statement, option, one, branch, unmarked=unmarked)
    return Placed(statement, option, metric, branch, length=one.key, unmarked=unmarked)


def _metric_field(lesson: Lesson, quantity: Quantity) -> Field | None:
    """The field that asks for this length in millimetres, where the lesson has one."""
    return next((one for one in lesson.fields.values() if one.same_as == quantity.key), None)
