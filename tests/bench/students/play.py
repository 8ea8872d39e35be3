"""Has students take a lesson through its public names, and keeps what was said of each.

A class is one problem: everybody works rightly, with readings as good as a chart's, up to some field, and makes one
mistake there. Half of the classes write every field, the others only some, so that the sheet knows less of them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from math import inf
from random import Random
from typing import Any

from lessons import open_sheet
from lessons.grammar.lesson import Lesson
from lessons.problems.seeds import random_problem
from lessons.working.marking import Verdict
from lessons.working.sheet import Sheet
from tests.bench.students import TAKERS
from tests.bench.students.on_chart import EXACT, ChartStudent
from tests.bench.students.people import CHOICE, WAVELENGTHS, Eye, Mistake, Reader, Worst, as_written
from tests.bench.students.said import Answer, opening, outcome

CLOSE = 2.0  # tolerances; what is off by less may be gone on from
LOOKS = 8  # at the chart, to learn how far a mistake can carry a reading


@dataclass(frozen=True)
class Candidate:
    """A mistake with what it comes to when all is read exactly, and how far from that it may be, in tolerances."""

    mistake: Mistake
    exact: Any
    window: float


def play(lesson: Lesson, number: int) -> list[Answer]:
    """The answers of one class; its number is the seed of all that is left to chance."""
    return list(Class(lesson, Random(number)).answers())


class Class:
    """One problem, and those who work on it."""

    def __init__(self, lesson: Lesson, chance: Random) -> None:
        self.lesson, self.chance = lesson, chance
        taker = TAKERS[lesson.key]
        givens = self._givens(taker.problem)
        overlay = chance.random() < 0.5
        texts = {
            one.key: one.kind.write(givens[one.key]) for one in lesson.givens if givens[one.key] is not None
        }
        self.sheet: Sheet = open_sheet(lesson, texts, {"admittance": "overlay" if overlay else "half turn"})
        self.student, self.mistakes = taker.student(givens, overlay), taker.mistakes
        self.writes_all = chance.random() < 0.5
        self.decimals = chance.choice((3, 3, 2))
        self.answered: set[str] = set()

    def _givens(self, problem: Callable[[Random, Mapping[str, Any]], Mapping[str, Any]]) -> dict[str, Any]:
        """A random problem of the lesson's, or any other one that is no trouble to read."""
        chance = self.chance
        if chance.random() < 0.5:
            return dict(random_problem(chance.randrange(10**6), self.lesson).givens)
        line = chance.choice((50.0, 50.0, 75.0, 100.0))
        load = complex(line)
        while not 1.3 < _swr(load, line) < 9:
            load = complex(chance.randint(3, 400), chance.randint(-300, 300))
        usual = {
            "load": load, "line": line, "stub": chance.choice((line, line, 50.0, 75.0, 100.0, 93.0)),
            "end": chance.choice(("short", "open")), "frequency": chance.choice((None, 144e6, 868e6, 2.4e9)),
            "velocity": chance.choice((1.0, 0.66, 0.82)),
        }  # fmt: skip
        givens = problem(chance, usual)
        return {one.key: givens[one.key] for one in self.lesson.givens}

    def answers(self) -> Iterator[Answer]:
        """Everybody's, field by field; then of those whose first mistake is carried along."""
        for key in self.student.fields:
            yield from self._at(key)
            if self.writes_all or key in ("normalise", "admittance") or self.chance.random() < 0.5:
                yield self._goes_on(key)
        yield from self._carried_along()

    # --- at one field ---

    def _at(self, key: str) -> Iterator[Answer]:
        listed = self.candidates(key)
        yield self._right(key)
        for mistake in self.mistakes(self.student, key):
            yield from self._slips(key, mistake, listed)
        if self.student.metric(key) is not CHOICE:
            yield from self._wrong(key, "number", listed)
            yield from self._wrong(key, "misread", listed)

    def _slips(
        self, key: str, mistake: Mistake, listed: list[Candidate], sheet: Sheet | None = None
    ) -> Iterator[Answer]:
        value = mistake.value(Reader(self.chance))
        verdict = self._verdict(key, value, sheet)
        kind = self.told_apart(key, mistake, listed)
        covered = not mistake.key and self._covered(key, value, listed)
        yield Answer(
            "slip" if mistake.key else "unlisted", key, mistake.key, kind, outcome(verdict, mistake.key), verdict.slip,
            opening(verdict), covered,
        )  # fmt: skip

    def _wrong(self, key: str, doing: str, listed: list[Candidate]) -> Iterator[Answer]:
        """A number out of the blue, or a reading off by three to eight tolerances."""
        metric, right = self.student.metric(key), self.student.right(key, EXACT)
        value = (
            metric.anywhere(self.chance, right)
            if doing == "number"
            else self.student.right(key, Misreader(self.chance))
        )
        value = self.written(key, value)[1]
        if not CLOSE * 1.1 < metric.distance(value, right):
            return
        verdict = self._verdict(key, value)
        if verdict.judgement in ("unreadable", "impossible", "right", "close"):
            return
        covered = self._covered(key, value, listed)
        yield Answer(doing, key, "", "", outcome(verdict, ""), verdict.slip, opening(verdict), covered)

    def _right(self, key: str) -> Answer:
        verdict = self._verdict(key, self._rightly(self.student, key))
        return Answer(
            "right", key, outcome="accepted" if verdict.accepted else verdict.judgement, named=verdict.slip
        )

    def _goes_on(self, key: str) -> Answer:
        """Everybody has this field right, with one error of reading that they share."""
        text, value = self.written(key, self._rightly(self.student, key))
        self.sheet = self.sheet.enter(key, text)
        verdict = self.sheet.verdicts[key]
        self.student.own[key] = value
        self.answered.add(key)
        return Answer(
            "right", key, outcome="accepted" if verdict.accepted else verdict.judgement, named=verdict.slip
        )

    def _rightly(self, student: ChartStudent, key: str) -> Any:
        """What somebody without a mistake writes; which solution to build is a matter of taste."""
        return (
            self.chance.choice(student.sides)
            if key == "choose.which"
            else student.right(key, Reader(self.chance))
        )

    # --- what can be told apart ---

    def candidates(self, key: str) -> list[Candidate]:
        """The listed mistakes that can be made in a field."""
        found = []
        metric = self.student.metric(key)
        for one in self.mistakes(self.student, key):
            if one.key:
                exact = one.value(EXACT)
                seen = (one.value(Worst(self.chance)) for _ in range(LOOKS))
                off = (metric.distance(self.written(key, value)[1], exact) for value in seen)
                found.append(Candidate(one, exact, 1.0 if metric is CHOICE else max(1.0, *off)))
        return found

    def told_apart(self, key: str, mistake: Mistake, listed: list[Candidate]) -> str:
        """Whether a mistake can be told from the others and from the right answer."""
        if not mistake.key:
            return ""
        if self._ruled_out(key, mistake):
            return "ruled out"
        metric, me = self.student.metric(key), next(one for one in listed if one.mistake.key == mistake.key)
        exact = mistake.value(EXACT)
        if metric.distance(exact, self.student.right(key, EXACT)) <= CLOSE + me.window:
            return "hidden"
        rivals = (
            one for one in listed if one.mistake.key != mistake.key and not self._ruled_out(key, one.mistake)
        )
        tied = any(metric.distance(one.exact, exact) <= me.window + one.window for one in rivals)
        return "tied" if tied else "alone"

    def _ruled_out(self, key: str, mistake: Mistake) -> bool:
        """Whether this student has shown not to make it."""
        neighbours = {one for one in self.answered if one.split(".")[0] in mistake.against and one != key}
        return bool(neighbours or self.answered & set(mistake.against))

    def _covered(self, key: str, value: Any, listed: list[Candidate]) -> bool:
        distance = self.student.metric(key).distance
        return any(distance(value, one.exact) <= one.window for one in listed)

    # --- one mistake, carried along ---

    def _carried_along(self) -> Iterator[Answer]:
        yield from self._follows("typed", self.student.fields)
        yield from self._follows("drawn", list(self.student.drawn))
        yield from self._twice()

    def _begun(self, draws: bool) -> tuple[ChartStudent, Sheet]:
        return replace(self.student, draws=draws, own={}), self.sheet.start_over()

    def _follows(self, doing: str, where: list[str]) -> Iterator[Answer]:
        """One mistake, gone on from; everything after it done rightly from there."""
        student, sheet = self._begun(doing == "drawn")
        at = self.chance.choice(where)
        made = self.mistakes(student, at)
        if not made:
            return
        mistake = self.chance.choice(made)
        for key in student.fields:
            value = mistake.value(Reader(self.chance)) if key == at else self._rightly(student, key)
            if not _possible(student, key, value):
                return
            sheet, value = self._put(student, sheet, key, value, doing)
            verdict = sheet.verdicts[key]
            if key == at:
                if verdict.value is None:
                    return
                sheet = sheet.carry(key)
            elif verdict.judgement == "impossible":
                return
            else:
                yield Answer(
                    doing,
                    key,
                    mistake.key,
                    at,
                    "accepted" if verdict.accepted else verdict.judgement,
                    verdict.slip,
                )
            student.own[key] = value

    def _put(
        self, student: ChartStudent, sheet: Sheet, key: str, value: Any, doing: str
    ) -> tuple[Sheet, Any]:
        answer = student.drawing(key, value) if doing == "drawn" else None
        if answer is None:
            text, value = self.written(key, value)
            return sheet.enter(key, text), value
        drawn = sheet.draw(key, answer)
        stands = drawn.verdicts[key].value  # the box rounds what was drawn, and later sums are done with that
        return drawn, value if stands is None else stands

    def _twice(self) -> Iterator[Answer]:
        """A mistake gone on from, and another one later on."""
        student, sheet = self._begun(False)
        keys = student.fields
        first, second = sorted(self.chance.sample(range(len(keys)), 2))
        made = [one for one in self.mistakes(student, keys[first]) if one.key]
        if not made:
            return
        mistake = self.chance.choice(made)
        before, self.student, self.answered = (self.student, self.answered), student, set()
        try:
            for key in keys[:second]:
                value = mistake.value(EXACT) if key == keys[first] else student.right(key, EXACT)
                if not _possible(student, key, value):
                    return
                text, student.own[key] = self.written(key, value)
                sheet = sheet.enter(key, text)
                if key == keys[first]:
                    sheet = sheet.carry(key)
                elif sheet.verdicts[key].accepted:
                    self.answered.add(key)
                if sheet.verdicts[key].value is None:
                    return
            again = [one for one in self.mistakes(student, keys[second]) if one.key]
            if again and _possible(student, keys[second], student.right(keys[second], EXACT)):
                listed = self.candidates(keys[second])
                yield from self._slips(keys[second], self.chance.choice(again), listed, sheet)
        finally:
            self.student, self.answered = before

    # --- writing ---

    def written(self, key: str, value: Any) -> tuple[str, Any]:
        """What a student writes, and the value that then stands there."""
        metric = self.student.metric(key)
        text = metric.write(value, self.decimals)
        return text, as_written(text, metric)

    def _verdict(self, key: str, value: Any, sheet: Sheet | None = None) -> Verdict:
        return (sheet or self.sheet).enter(key, self.written(key, value)[0]).verdicts[key]


class Misreader(Eye):
    """Somebody whose readings are off by three to eight tolerances."""

    def __init__(self, chance: Random) -> None:
        self.chance = chance

    def off(self) -> float:
        return self.chance.choice((-1, 1)) * self.chance.uniform(3, 8)


def _possible(student: ChartStudent, key: str, value: Any) -> bool:
    """Whether there is such a value on a chart, and something can follow from it."""
    if isinstance(value, str):
        return True
    if key == "place":
        return 0.01 < abs(value) < 0.99
    if student.metric(key) is WAVELENGTHS:
        return bool(abs(value) < 10)  # longer ones are not read
    if isinstance(value, complex):
        return key.startswith(("total", "crossing")) or value.real > 0.001
    return {"mismatch": value > 1.02, "reach": value < inf}.get(key.split(".")[0], True)


def _swr(load: complex, line: float) -> float:
    size = abs((load - line) / (load + line))
    return (1 + size) / (1 - size) if size < 1 else float("inf")
