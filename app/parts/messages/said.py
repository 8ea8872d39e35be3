"""What the browser says was done, and whether a message is one of these."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Literal, NotRequired, get_args, get_origin

from lessons.grammar.difficulty import ANY, Difficulty, DifficultyKey, difficulty_of

Texts = dict[str, str]
MISSING = object()

# An answer drawn on the chart, and how admittance was plotted there; it is looked at where it is read.
DRAWN = {"value": object, "plotted": Literal["half turn", "overlay"]}
# Of what difficulty is what is drawn; a page that says nothing of it means any.
DRAWN_SO = {"difficulty": NotRequired[DifficultyKey]}
# Page by page, the parts that each message has beside `do`. A record is an object, as it is looked at where it is read.
SAID: dict[str, dict[str, dict[str, Any]]] = {
    "practise": {
        "enter": {"field": str, "text": str},
        "draw": {"field": str, **DRAWN},
        "check drawing": {"field": str, **DRAWN},
        "carry": {"field": str},
        "hint": {"step": str},
        "focus": {"field": str},
        "show next": {},
        "worked": {"how": Literal["all", "first", "none"]},
        "undo": {},
        "start over": {},
        "lesson": {"key": str},
        "open": {"key": str},
        "random": DRAWN_SO,
        "own problem": {"texts": Texts},
        "drill": {"step": str, **DRAWN_SO},
        "next load": {},
        "primer": {},
        "progress": {"record": object},
        "notation": {"texts": Texts},
        "open file": {"record": object},
        "export": {"what": Literal["chart", "sheet"], "kind": Literal["svg", "png"]},
        "restore": {"record": object},
    },
    "check": {
        "mark": {"text": str},
        "entries": {"text": str, "texts": Texts},
        "ask": {"key": str},
        "clear": {},
        "own problem": {"texts": Texts},
        "lesson": {"key": str},
        "open": {"key": str},
        "notation": {"texts": Texts},
        "restore": {"record": object},
    },
    "lecture": {
        "own problem": {"texts": Texts},
        "notation": {"texts": Texts},
        "lesson": {"key": str},
        "open": {"key": str},
        "random": DRAWN_SO,
        "of the set": {"by": int},
        "showing": {"showing": str},
        "restore": {"problem": object, "notation": object, "showing": object},
        "move": {"on": bool},
        "trace": {"at": object},
        "put": DRAWN,
    },
    "paper": {"make": {"texts": Texts}},
    "sets": {"name": {"text": str}},
    "course": {
        "look": {"sheets": object, "progress": object, "first": bool, "last": bool},
        "table": {"sheets": object, "first": bool, "last": bool},
        "primer": {"key": str},
    },
}


def understood(page: str, said: object) -> bool:
    """Whether this is a message that the page's own script sends: known, with all its parts, each of its kind."""
    if not isinstance(said, dict) or not isinstance(said.get("do"), str):
        return False
    parts = SAID[page].get(said["do"])
    return parts is not None and all(_fits(said.get(name, MISSING), kind) for name, kind in parts.items())


def difficulty_said(said: Mapping[str, object]) -> Difficulty:
    """The difficulty of what a message wants drawn."""
    return difficulty_of(said.get("difficulty")) or ANY


def _fits(value: object, kind: Any) -> bool:
    if get_origin(kind) is NotRequired:
        return value is MISSING or _fits(value, *get_args(kind))
    if value is MISSING:
        return False
    if get_origin(kind) is Literal:
        return isinstance(value, str) and value in get_args(kind)
    if kind == Texts:
        return isinstance(value, dict) and all(isinstance(one, str) for item in value.items() for one in item)
    return isinstance(value, kind)
