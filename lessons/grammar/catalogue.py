"""The ordered list of lessons, handed in wherever one has to be found."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from lessons.grammar.lesson import Lesson


@dataclass(frozen=True, eq=False)
class Catalogue(Sequence[Lesson]):
    """Lessons in the order of a course. unsaid : key of the lesson that is meant where none is named."""

    lessons: tuple[Lesson, ...]
    unsaid: str

    def __len__(self) -> int:
        return len(self.lessons)

    def __getitem__(self, index):
        return self.lessons[index]

    def __iter__(self) -> Iterator[Lesson]:
        return iter(self.lessons)

    def find(self, key: object) -> Lesson | None:
        """The lesson of that key, or that had it once."""
        return next((one for one in self.lessons if key == one.key or key in one.former_keys), None)

    @property
    def usual(self) -> Lesson:
        """The lesson that is meant where none is named."""
        found = self.find(self.unsaid)
        assert found is not None
        return found
