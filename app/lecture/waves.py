"""Voltage and current along the line in a lecture: for each frame what of them may be seen before it is revealed, and
what after. Most frames share a picture, so pictures stand apart and frames have their places."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from typing import Any

from app.parts.line_drawing import wave_picture
from core.network import MatchingNetwork
from lessons.grammar.branch import Branch
from lessons.grammar.lesson import Work
from lessons.grammar.plan import Plan, is_known
from lessons.working.construction import element_symbols
from lessons.working.walkthrough import Frame
from lessons.working.withheld import waves_give_nothing_away

Picture = dict[str, Any]
NONE = -1
Places = tuple[int, int]


class Waves:
    """The pictures of one problem, each made once."""

    def __init__(self, work: Work, showing: str, frames: Sequence[Frame]) -> None:
        self.work = work
        self.pictures: list[Picture] = []
        branches = work.lesson.branches_of(work.problem) or (None,)
        self._usual = next((one for one in branches if one and one.key == showing), branches[0])
        self._asked = [key for frame in frames for key in frame.fields]
        self._places: dict[str, int] = {}

    def of_frames(self, frames: Sequence[Frame]) -> Iterator[Places]:
        """Of each frame the picture before it is revealed, and after; NONE where there is none to be seen."""
        found: list[str] = []
        for frame in frames:
            before = self._place(frame.branch, found)
            found.extend(frame.fields)
            yield before, self._place(frame.branch, found)

    def when_all_is_found(self, branch: Branch | None) -> Places:
        """The picture of a solution, for a frame that asks nothing more."""
        place = self._place(branch, self._asked)
        return place, place

    def _place(self, branch: Branch | None, found: Collection[str]) -> int:
        still = {*self._asked}.difference(found)
        if not waves_give_nothing_away(self.work.lesson, still):
            return NONE
        plan = self._plan(branch or self._usual, {*self.work.lesson.fields} - still)
        if plan is None:
            return NONE
        key = repr(plan)
        if key not in self._places:
            self._places[key] = len(self.pictures)
            self.pictures.append(wave_picture(plan, self.work.notation))
        return self._places[key]

    def _plan(self, branch: Branch | None, settled: Collection[str]) -> Plan | None:
        """What is known of a solution's network; the load on its line where that is all."""
        lesson, problem = self.work.lesson, self.work.problem
        network = None if lesson.refuses(problem) else lesson.network(self.work, branch, settled)
        if network is not None and all(map(is_known, network.elements[:1])):
            return Plan(branch, network, element_symbols(lesson, branch, self.work.notation))
        if network is not None:  # nothing is known of where its first element stands, or what it is
            return Plan(None, MatchingNetwork(network.load_impedance, network.line_impedance, ()))
        return Plan(None, lesson.bare(problem)) if lesson.bare is not None else None
