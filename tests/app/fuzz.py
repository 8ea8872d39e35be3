"""Spoiled inputs for every reader, and spoiled messages for every page: answered or refused in a sentence, and soon.

A reader may answer, or refuse with an error of its own kind; whatever else comes out is counted. Time is what the
thread itself has worked, so that a busy machine is no fault of the reader.
"""

from __future__ import annotations

import argparse
import json
import random
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from functools import partial
from math import isfinite, isnan
from time import thread_time
from typing import Any

from app.check.page import CheckDesk, Checking
from app.commands import readers
from app.lecture.page import Lectern
from app.paper.setting import read_setting
from app.parts.messages.said import understood
from app.parts.plotting import drawn_answer
from app.practise.page import Desk
from app.practise.sitting import Sitting
from app.serving.messages import NotAllowed, heard
from app.serving.tokens import Tokens
from core import CoreError
from core.touchstone import parse_touchstone
from core.two_port_file import parse_two_port
from lessons.course.catalogue import CATALOGUE
from lessons.grammar.notation import STANDARD
from lessons.grammar.numbers import Unreadable
from lessons.grammar.strokes import DragRadius, PickPoint, PlacePoint
from lessons.homework.working import TooLong, Working
from lessons.problems.sets import BadSet, read_set
from lessons.problems.texts import read_problem
from lessons.saved.links import read_link, sheet_from_link, sheet_link
from lessons.saved.notations import notation_from
from lessons.saved.records import BadRecord, sheet_from_record, sheet_record
from lessons.working.sheet import Sheet
from tests.app.mutations import spoiled, spoiled_data
from tests.lessons.homework.examples import HOMEWORKS
from tests.lessons.solving import answers

SLOW = 0.050  # seconds of work
SLOW_WORKING = 0.500  # seconds; a whole working of as many lines as are read at all is marked at once
REFUSALS = (BadRecord, BadSet, CoreError, NotAllowed, TooLong, Unreadable, argparse.ArgumentTypeError)
Give = Callable[[random.Random], object]

SHEETS = [Sheet(lesson, lesson.problem()) for lesson in CATALOGUE]
ENTRIES = [(sheet, key, text) for sheet in SHEETS for key, text in answers(sheet.truth, sheet).items()]
WORKED = SHEETS[0].enter("normalise", "7").enter("normalise", "1.2-1.6j").hint("place")
QUERY = {
    "load": "60-80j",
    "line": "50",
    "frequency": "868 MHz",
    "velocity": "0.66",
    "end": "open",
    "without": "total",
}
PRINTED = {**QUERY, "seed": "3", "count": "2", "size": "A4", "key": "with", "drawn": "whole"}
SET = '[[problem]]\nlesson = "series-stub"\nkey = "a"\ntitle = "A mast"\nload = "150 + j120"\nline = 100\n'
ONE_PORT = "! loop\n# MHz S RI R 50\n430 0.1 -0.4\n434 0.2 -0.3\n438 0.3 -0.2\n"
TWO_PORT = "# MHz S MA R 50\n430 0.1 10 0.9 -20 0.9 -20 0.1 30\n434 0.1 12 0.9 -22 0.9 -22 0.1 33\n"
GESTURES = (PlacePoint("admittance"), DragRadius(), PickPoint((("short", -1 + 0j),), "admittance"))
TOKENS = Tokens(b"k" * 32)
TOKEN = TOKENS.fresh("/", {"load": [b"25"]}).token


@dataclass
class Told:
    """What came of it. slowest : the longest that one input of each reader took, in seconds of work."""

    asked: Counter[str] = field(default_factory=Counter)
    failed: Counter[str] = field(default_factory=Counter)
    slow: Counter[str] = field(default_factory=Counter)
    slowest: dict[str, float] = field(default_factory=dict)

    def ask(self, name: str, act: Callable[[], object], again: Callable[[], object] = lambda: None) -> None:
        """Do it, and note what was wrong with that. What took long is done `again`, as something else may have come
        between; the shorter time counts."""
        limit = SLOW_WORKING if name.startswith("check") else SLOW
        took = self._timed(name, act)
        if took > limit:
            again()
            took = min(took, self._timed(name, act))
        self.asked[name] += 1
        self.slow[name] += took > limit
        self.slowest[name] = max(took, self.slowest.get(name, 0.0))

    def _timed(self, name: str, act: Callable[[], object]) -> float:
        begun = thread_time()
        try:
            act()
        except REFUSALS as refusal:
            if not str(refusal):
                self.failed[f"{name}: refused without a word"] += 1
        except Exception as fault:  # noqa: BLE001  every fault is what is looked for
            self.failed[f"{name}: {type(fault).__name__}: {str(fault)[:80]}"] += 1
        return thread_time() - begun


def texts(dice: random.Random, good: dict[str, str]) -> dict[str, str]:
    """Texts by name, some of them spoiled."""
    return {key: spoiled(dice, text) if dice.random() < 0.4 else text for key, text in good.items()}


def notation(dice: random.Random) -> object:
    """How a course writes is read."""
    return notation_from(texts(dice, {"d": "s", "imaginary": "i", "decimals": "2"}), CATALOGUE.usual.symbols)


def understood_parts(dice: random.Random) -> object:
    """A message's parts are held against what there is."""
    return understood("practise", spoiled_data(dice, {"do": "enter", "field": "a", "text": "b"}))


def entry(dice: random.Random) -> object:
    """An answer to a field is read."""
    sheet, key, text = dice.choice(ENTRIES)
    return sheet.lesson.field(key).kind(sheet.truth).read(spoiled(dice, text), STANDARD)


def marked(dice: random.Random) -> object:
    """An answer is judged, slips and all."""
    sheet, key, text = dice.choice(ENTRIES)
    return sheet.enter(key, spoiled(dice, text)).verdicts


def lines(dice: random.Random) -> object:
    """Lines of one's own are read and marked."""
    text, _ = dice.choice(list(HOMEWORKS.values()))
    some = dice.sample(text.splitlines(), 2)
    sheet = SHEETS[0]
    working = Working(sheet.lesson, sheet.problem, sheet.notation).written(spoiled(dice, "\n".join(some)))
    return working.lines, working.unread


def said(dice: random.Random) -> object:
    """A message over the socket is let in or refused."""
    event = {
        "kind": "MessageSent",
        "msg_type": "bokeh_event",
        "msg_data": spoken({"do": "hint", "step": "place"}),
    }
    parts: list[Any] = [{"msgid": "1", "msgtype": "PATCH-DOC"}, {}, {"events": [event]}]
    at = dice.randrange(3)
    parts[at] = spoiled_data(dice, parts[at])
    written = [json.dumps(part) for part in parts]
    return heard([spoiled(dice, part) if dice.random() < 0.2 else part for part in written])


def in_header(text: str) -> str:
    """A text as a header brings it: bytes, taken for Latin-1."""
    return text.encode("utf-8", "replace").decode("latin-1")


def spoken(data: Any) -> dict[str, Any]:
    """What a component says, as the library in the browser puts it."""
    return {
        "type": "event",
        "name": "data_event",
        "values": {"type": "map", "entries": [["model", {"id": "p1"}], ["data", written(data)]]},
    }


def written(data: Any) -> Any:
    """Plain data as the library in the browser writes it."""
    if isinstance(data, dict):
        return {"type": "map", "entries": [[key, written(value)] for key, value in data.items()]}
    if isinstance(data, list):
        return [written(one) for one in data]
    if isinstance(data, float) and not isfinite(data):
        return {"type": "number", "value": "nan" if isnan(data) else "+inf"}
    return data


def read_back(data: Any) -> Any:
    """The same, as a component gets it."""
    if isinstance(data, dict) and data["type"] == "number":
        return float(data["value"])
    if isinstance(data, dict):
        return {key: read_back(value) for key, value in data["entries"]}
    return [read_back(one) for one in data] if isinstance(data, list) else data


def over_the_socket(message: dict[str, Any]) -> Any:
    """A message as it comes in: written by the browser, and let in or refused (NotAllowed)."""
    event = {"kind": "MessageSent", "msg_type": "bokeh_event", "msg_data": spoken(message)}
    whole: tuple[Any, ...] = ({"msgid": "1", "msgtype": "PATCH-DOC"}, {}, {"events": [event]})
    let_in = heard([json.dumps(part) for part in whole]).events
    assert let_in is not None
    return read_back(let_in[0]["msg_data"]["values"]["entries"][1][1])


READERS: dict[str, Give] = {
    "entry": entry,
    "given": lambda dice: read_problem(texts(dice, QUERY), dice.choice(SHEETS).lesson),
    "notation": notation,
    "address": lambda dice: read_link(texts(dice, {"lesson": "series-stub", **QUERY}), CATALOGUE),
    "sheet link": lambda dice: sheet_from_link(spoiled(dice, sheet_link(WORKED)), CATALOGUE),
    "record": lambda dice: sheet_from_record(spoiled_data(dice, sheet_record(WORKED)), CATALOGUE),
    "set": lambda dice: read_set(spoiled(dice, SET), "a.toml", CATALOGUE),
    "print": lambda dice: read_setting(texts(dice, PRINTED), CATALOGUE),
    "one-port file": lambda dice: parse_touchstone(spoiled(dice, ONE_PORT)),
    "two-port file": lambda dice: parse_two_port(spoiled(dice, TWO_PORT)),
    "host": lambda dice: readers.host_name(spoiled(dice, "tutor.example")),
    "prefix": lambda dice: readers.path_prefix(spoiled(dice, "/halfturn")),
    "place": lambda dice: readers.listening_place(spoiled(dice, "127.0.0.1:5006")),
    "token": lambda dice: TOKENS.admit("/", in_header(spoiled(dice, TOKEN))),
    "drawing": lambda dice: drawn_answer(spoiled_data(dice, [0.1, 0.2]), dice.choice(GESTURES), "overlay"),
    "message": said,
    "message's parts": understood_parts,
    "lines": lines,
    "marking": marked,
}
RARE = {"lines": 0.01, "marking": 0.05, "print": 0.3, "set": 0.3}
"""Readers that work longer are asked less often."""


def read_all(count: int, seed: int) -> Told:
    """Ask the readers `count` times in all."""
    dice, told = random.Random(seed), Told()
    weights = [RARE.get(name, 1.0) for name in READERS]
    for name in dice.choices(list(READERS), weights, k=count):
        told.ask(name, partial(READERS[name], dice), partial(dice.setstate, dice.getstate()))
    return told


SAID: dict[str, list[dict[str, Any]]] = {
    "practise": [
        {"do": "enter", "field": "normalise", "text": "1.2-1.6j"},
        {"do": "enter", "field": "place", "text": "0.593 < -46.8"},
        {"do": "draw", "field": "place", "value": [0.4, -0.4], "plotted": "half turn"},
        {"do": "check drawing", "field": "mismatch", "value": 0.593, "plotted": "overlay"},
        {"do": "carry", "field": "normalise"},
        {"do": "hint", "step": "normalise"},
        {"do": "focus", "field": "place"},
        {"do": "worked", "how": "none"},
        {"do": "undo"},
        {"do": "start over"},
        {"do": "own problem", "texts": QUERY},
        {"do": "notation", "texts": {"imaginary": "i", "decimals": "2", "d": "s"}},
        {"do": "open file", "record": sheet_record(WORKED)},
        {"do": "restore", "record": {"sheet": sheet_record(WORKED), "guided": False, "progress": {}}},
    ],
    "check": [
        {"do": "mark", "text": "z = 1.2-1.6j\ny = 7"},
        {"do": "entries", "text": "z = 1", "texts": {"normalise": "1.2-1.6j"}},
        {"do": "ask", "key": "place"},
        {"do": "clear"},
        {"do": "own problem", "texts": QUERY},
        {
            "do": "restore",
            "record": {"version": 1, "sheet": sheet_record(WORKED), "text": "z = 1", "asked": []},
        },
    ],
    "lecture": [
        {"do": "move", "on": True},
        {"do": "trace", "at": [0.1, 0.2]},
        {"do": "put", "value": [0.1, 0.2], "plotted": "half turn"},
        {"do": "showing", "showing": "in turn"},
        {"do": "own problem", "texts": QUERY},
        {"do": "restore", "problem": QUERY, "notation": {}, "showing": "side by side"},
    ],
}


KINDS = [one["do"] for all_of_page in SAID.values() for one in all_of_page]


def desks() -> dict[str, Any]:
    """A page of each kind, whose component hears what its browser says."""
    checking = Checking(CATALOGUE)
    return {
        "practise": Desk(Sitting(CATALOGUE)).sheet,
        "check": CheckDesk(checking).view,
        "lecture": Lectern({}, CATALOGUE).words,
    }


def messages(count: int, seed: int) -> Iterator[tuple[str, dict[str, Any]]]:
    """Spoiled messages, each for a page."""
    dice = random.Random(seed)
    for number in range(count):
        page = dice.choices(list(SAID), (20, 4, 1))[0]
        yield page, {**dict_or_none(spoiled_data(dice, dice.choice(SAID[page]))), "number": number}


def dict_or_none(data: Any) -> dict[str, Any]:
    """The message, or an empty one where it was spoiled altogether: a component is only told what is one."""
    return data if isinstance(data, dict) else {"do": data}


def tell(component: Any, message: dict[str, Any]) -> None:
    """Say something to a component, as its browser would."""
    component._handle_msg(over_the_socket(message))


def hear_all(count: int, seed: int) -> Told:
    """Tell the pages `count` messages in all, as their components hear them; a page is opened anew now and then."""
    told, there = Told(), desks()
    for number, (page, message) in enumerate(messages(count, seed)):
        if number % 2_000 == 1_999:
            there = desks()
        kind = message.get("do") if message.get("do") in KINDS else "no such thing"
        told.ask(f"{page}: {kind}", partial(tell, there[page], message))
    return told
