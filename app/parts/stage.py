"""The stage: the printed chart with the ink on top, where strokes are drawn and answers are given by hand.

Python says what is drawn and what is asked; the browser draws, zooms, drags and reads off, and sends back an answer
only when it is given. What comes from the browser is checked before anyone sees it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import asdict
from typing import Any, ClassVar

import param

from app.parts.component import Scripted, static_texts
from app.parts.plotting import Group, Told, plotted_gesture, plotted_groups, points_table, unplotted
from lessons.grammar.notation import Notation
from lessons.grammar.strokes import (
    DragAlong,
    DragRadius,
    Gesture,
    PickPoint,
    PlacePoint,
    PointOnCircle,
    WalkCircle,
)

Answer = complex | float | str
Moves = dict[str, str | int | None]


class Stage(Scripted):
    """The live chart.

    on_answer : called with the field asked for and the answer drawn: the reflection on the line (a complex number) for
    a point, |reflection| for a radius, wavelengths walked (above zero toward the generator) for a way, the key of a
    point picked.
    """

    strokes = param.List(default=[], doc="What is drawn: groups of strokes in plotted coordinates.")
    points = param.List(default=[], doc="Rows of the table of points, as written by the notation.")
    gesture = param.Dict(default=None, allow_None=True, doc="What may be drawn as an answer, or nothing.")
    notation = param.Dict(default={}, doc="How the course writes.")
    label = param.String(default="Reflection chart", doc="Accessible name of the chart.")

    module = "parts/stage/stage.js"
    _stylesheets: ClassVar[list[Any]] = static_texts("parts/stage/stage.css")

    def __init__(
        self,
        on_answer: Callable[[str, Answer], object] | None = None,
        notation: Notation | None = None,
        **params: Any,
    ) -> None:
        self._on_answer = on_answer
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

    def _handle_msg(self, msg: Any) -> None:
        """Pass on an answer to the field that is asked for; anything else is ignored."""
        if self._asked is None or self._on_answer is None or not isinstance(msg, dict):
            return
        field, gesture, *_ = self._asked
        if msg.get("type") != "answer" or msg.get("field") != field or msg.get("turn") != self._turn:
            return
        answer = _checked(msg.get("value"), gesture, self._writes.admittance)
        if answer is not None:
            self._on_answer(field, answer)


def _checked(value: Any, gesture: Gesture, admittance: str) -> Answer | None:
    """The answer in a message, or None where it is not one that this gesture can give."""
    match gesture:
        case PlacePoint() | PointOnCircle() | WalkCircle():
            if isinstance(value, list) and len(value) == 2 and all(_is_number(part, 1.0) for part in value):
                point = complex(*value)
                return unplotted(point / max(abs(point), 1.0), gesture.read_as, admittance)
        case DragRadius():
            return float(value) if _is_number(value, 1.0) and value >= 0 else None
        case DragAlong():
            return float(value) if _is_number(value, 0.5) else None
        case PickPoint():
            return value if isinstance(value, str) and value in dict(gesture.points) else None
    return None


def _is_number(value: Any, size: float) -> bool:
    """Whether a number of at most this size came; nan is not at most anything."""
    return isinstance(value, int | float) and not isinstance(value, bool) and abs(value) <= size + 1e-9
