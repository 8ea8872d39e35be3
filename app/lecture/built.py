"""The frames of what a lesson designs: each solution as a line to scale, and as copper on a board."""

from __future__ import annotations

from collections.abc import Iterator

from app.parts.line_drawing import picture
from app.parts.messages.showing import FrameWords
from app.parts.words import branch_wire
from lessons.grammar.branch import Branch
from lessons.grammar.lesson import Work
from lessons.grammar.plan import Plan
from lessons.working.construction import element_symbols
from lessons.working.walkthrough import IN_TURN, SIDE_BY_SIDE

LINE, COPPER = "line", "board"
TITLES = {LINE: "The design as a line", COPPER: "The design in copper"}


def built_frames(work: Work, showing: str) -> Iterator[FrameWords]:
    """What is built of each solution that is shown, first as a line, then on a board; nothing without a network."""
    plans = [] if work.lesson.refuses(work.problem) else _plans(work)
    for plan in plans:
        branch = plan.branch
        if branch is None or showing in (SIDE_BY_SIDE, IN_TURN, branch.key):
            drawn = picture(plans, branch.key if branch else None, work.notation, work.wavelength_mm)
            carried = drawn["plans"][drawn["current"]]["form"]
            yield _frame(LINE, branch, drawn)
            if carried:
                yield _frame(COPPER, branch, drawn)


def _frame(kind: str, branch: Branch | None, drawn: dict) -> FrameWords:
    """A frame with nothing but a drawing; what the copper does is said, and a caution stands where one is due."""
    title = TITLES[kind]
    return {
        "key": f"{kind}.{branch.key}" if branch else kind,
        "step": kind,
        "number": 0,
        "title": title,
        "branch": branch_wire(branch),
        "ask": "",
        "rule": "",
        "numbers": "",
        "because": drawn["note"] if kind == COPPER else "",
        "outcomes": [],
        "strokes": [],
        "slips": [],
        "spoken": f"{title}. {drawn['caption'] if kind == COPPER else drawn['spoken']}",
        "spoken_values": "",
        "picture": {**drawn, "only": kind},
    }


def _plans(work: Work) -> list[Plan]:
    """The whole network of each branch, as the solver has it."""
    lesson, settled = work.lesson, set(work.lesson.fields)
    found = []
    for branch in lesson.branches_of(work.problem) or (None,):
        network = lesson.network(work, branch, settled)
        if network is not None and network.elements:
            found.append(Plan(branch, network, element_symbols(lesson, branch, work.notation)))
    return found
