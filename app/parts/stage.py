"""The stage: the printed chart with the ink on top, where strokes are drawn and answers are given by hand.

Python says what is drawn and what is asked; the browser draws, zooms, drags and reads off, and hands an answer to the
column of its page ("halfturn:drawn") when it is given. `plotting.drawn_answer` reads it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import asdict
from typing import Any, ClassVar

import param

from app.parts.component import Scripted, static_texts
from app.parts.plotting import Group, Told, plotted_gesture, plotted_groups, points_table
from lessons.grammar.notation import Notation
from lessons.grammar.strokes import Gesture

Moves = dict[str, str | int | None]


class Stage(Scripted):
    """The live chart."""

    strokes = param.List(default=[], doc="What is drawn: groups of strokes in plotted coordinates.")
    points = param.List(default=[], doc="Rows of the table of points, as written by the notation.")
    gesture = param.Dict(default=None, allow_None=True, doc="What may be drawn as an answer, or nothing.")
    notation = param.Dict(default={}, doc="How the course writes.")
    label = param.String(default="Reflection chart", doc="Accessible name of the chart.")

    module = "parts/stage/stage.js"
    _stylesheets: ClassVar[list[Any]] = static_texts("parts/stage/stage.css")

    def __init__(self, notation: Notation | None = None, **params: Any) -> None:
        self._writes = notation or Notation()
        self._groups: tuple[Group, ...] = ()
        self._told: Told = lambda reflection, what: True
        self._asked: tuple[str, Gesture, str, Moves | None] | None = None
        self._turn = 0
        params.setdefault("sizing_mode", "stretch_width")
        super().__init__(notation=asdict(self._writes), **params)

    def draw(self, groups: Iterable[Group], animate: bool = False, told: Told | None = None) -> None:
        """Draw these groups in place of what is there; with `animate`, whatever is new is drawn as a hand would.

        told : what the table of points may tell, if not all; it holds until it is said otherwise."""
        self._groups = tuple(groups)
        self._told = told or self._told
        drawn = plotted_groups(self._groups, self._writes.admittance)
        if animate:
            self._send_msg({"type": "draw", "strokes": drawn, "animate": True})
        self.param.update(strokes=drawn, points=points_table(self._groups, self._writes, self._told))

    def ask(self, field: str, gesture: Gesture | None, prompt: str = "", moves: Moves | None = None) -> None:
        """Let the student draw the answer to a field; with no gesture the chart is only looked at.

        prompt : what is asked, said to those who do not see the chart.  moves : the element whose length is walked,
        `{"branch": key or None, "element": index in its network}`; the line drawing moves along."""
        self._asked = None if gesture is None else (field, gesture, prompt, moves)
        self._show_gesture()

    def write(self, notation: Notation) -> None:
        """Write and plot in another notation from now on; what is drawn and asked moves along."""
        self._writes = notation
        self.notation = asdict(notation)
        self.draw(self._groups)
        self._show_gesture()

    def _show_gesture(self) -> None:
        if self._asked is None:
            self.gesture = None
            return
        field, gesture, prompt, moves = self._asked
        self._turn += 1  # the same gesture asked again starts afresh
        task = plotted_gesture(gesture, self._writes.admittance)
        self.gesture = {"field": field, "prompt": prompt, "turn": self._turn, "moves": moves, **task}
