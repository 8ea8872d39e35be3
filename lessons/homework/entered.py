"""A sheet that draws what was entered and nothing else: no value of the solver's shows in its strokes."""

from __future__ import annotations

from lessons.grammar.kinds import Reflection
from lessons.grammar.lesson import Impossible, Work
from lessons.working.sheet import Sheet


class AsEntered(Sheet):
    """A sheet that draws what was entered and nothing else: no value of the solver's shows in its strokes."""

    @property
    def work(self) -> Work:
        """The derivation from the entries, which knows nothing beyond them."""
        given = super().work
        return _Entered(given.lesson, given.problem, given.notation, given.given)

    def settled(self, key: str) -> bool:
        """Whether a field may draw: a wrong choice would be drawn as the right one, so it is not."""
        kind = self.lesson.field(key).kind(self.truth)
        verdict = self.verdicts.get(key)
        if kind.names_a_choice:
            return verdict is not None and verdict.accepted
        return super().settled(key) or (verdict is None and isinstance(kind, Reflection))


class _Entered(Work):
    """A derivation that follows nothing up, but where an entered value stands and what the problem does not ask."""

    def __getitem__(self, key: str) -> object:
        if key in self.given or key in self.problem.givens:
            return super().__getitem__(key)
        one = self.lesson.field(key)
        is_asked = any(one in step.fields for step in self.lesson.steps_of(self.problem))
        if is_asked and not isinstance(one.kind(self), Reflection):
            raise Impossible(f"Nothing was entered for {key}.", key)
        return one.value(self)
