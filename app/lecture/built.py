"""The frames of what a lesson designs: each solution as a line to scale and as copper, and all over frequency."""

from __future__ import annotations

from collections.abc import Iterator

from app.lecture.waves import NONE, Waves
from app.parts.line_drawing import picture
from app.parts.messages.shared import Branch as BranchWords
from app.parts.messages.shared import ResponseWords
from app.parts.messages.showing import FrameWords
from app.parts.response import response_words, span
from app.parts.words import branch_wire
from lessons.grammar.branch import Branch
from lessons.grammar.lesson import Work
from lessons.grammar.plan import Plan
from lessons.working.construction import element_symbols
from lessons.working.response import LIMITS, BranchResponse, responses_of
from lessons.working.walkthrough import IN_TURN, SIDE_BY_SIDE

LINE, COPPER, RESPONSE = "line", "board", "response"
TITLES = {LINE: "The design as a line", COPPER: "The design in copper", RESPONSE: "The design over frequency"}


def built_frames(work: Work, showing: str, waves: Waves) -> Iterator[FrameWords]:
    """What is built of each solution that is shown, first as a line, then on a board; all of them over frequency in
    the end. Nothing without a network."""
    plans = [] if work.lesson.refuses(work.problem) else _plans(work)
    for plan in plans:
        branch = plan.branch
        if _is_shown(branch, showing):
            drawn = picture(plans, branch.key if branch else None, work.notation, work.wavelength_mm)
            carried = drawn["plans"][drawn["current"]]["form"]
            seen = waves.when_all_is_found(branch)
            yield {**_drawn_frame(LINE, branch, drawn), "waves": seen}
            if carried:
                yield {**_drawn_frame(COPPER, branch, drawn), "waves": seen}
    found = tuple(one for one in responses_of(work) if _is_shown(one.branch, showing))
    if response := response_words(found, work):
        yield _response_frame(found, response, work)


def _is_shown(branch: Branch | None, showing: str) -> bool:
    return branch is None or showing in (SIDE_BY_SIDE, IN_TURN, branch.key)


def _frame(kind: str, branch: Branch | None = None) -> FrameWords:
    """A frame with nothing but its title."""
    return {
        "key": f"{kind}.{branch.key}" if branch else kind,
        "step": kind,
        "number": 0,
        "title": TITLES[kind],
        "branch": branch_wire(branch),
        "ask": "",
        "rule": "",
        "numbers": "",
        "because": "",
        "outcomes": [],
        "strokes": [],
        "slips": [],
        "spoken": TITLES[kind],
        "spoken_values": "",
        "picture": {},
        "response": None,
        "waves": (NONE, NONE),
    }


def _drawn_frame(kind: str, branch: Branch | None, drawn: dict) -> FrameWords:
    """A frame with nothing but a drawing; what the copper does is said, and a caution stands where one is due."""
    return {
        **_frame(kind, branch),
        "because": drawn["note"] if kind == COPPER else "",
        "spoken": f"{TITLES[kind]}. {drawn['caption'] if kind == COPPER else drawn['spoken']}",
        "picture": {**drawn, "only": kind},
    }


def _response_frame(found: tuple[BranchResponse, ...], response: ResponseWords, work: Work) -> FrameWords:
    """The designs over frequency: their curves at once, their bands and which is the wider once they are revealed."""
    at, limit = LIMITS.index(response["limit"]), work.notation.number(response["limit"], 0)
    label, why = f"Band within a standing-wave ratio of {limit}", response["limits"][at]["why"]
    spans = [(branch_wire(one.branch), span(one.bands[at])) for one in found]
    curves = " ".join(_told(response, index) for index in range(len(found)))
    return {
        **_frame(RESPONSE),
        "ask": "With the same load at every frequency: how far may the frequency go before the standing-wave ratio "
        f"is above {limit}?",
        "because": why,
        "outcomes": [{"label": label, "branch": branch, "text": text} for branch, text in spans],
        "spoken": f"{TITLES[RESPONSE]}. {curves}",
        "spoken_values": " ".join(
            [f"{label}:", *(f"{_name(branch)}{text}." for branch, text in spans), why]
        ).strip(),
        "response": response,
    }


def _told(response: ResponseWords, index: int) -> str:
    """A curve in words."""
    values = ", ".join(f"{row[index + 1]} at {row[0]}" for row in response["table"])
    return f"{_name(response['curves'][index]['branch'])}standing-wave ratio {values}."


def _name(branch: BranchWords | None) -> str:
    return f"{branch['word'].capitalize()}: " if branch else ""


def _plans(work: Work) -> list[Plan]:
    """The whole network of each branch, as the solver has it."""
    lesson, settled = work.lesson, set(work.lesson.fields)
    found = []
    for branch in lesson.branches_of(work.problem) or (None,):
        network = lesson.network(work, branch, settled)
        if network is not None and network.elements:
            found.append(Plan(branch, network, element_symbols(lesson, branch, work.notation)))
    return found
