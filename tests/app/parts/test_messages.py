"""What the program and the browser say to each other: one description, held to on both sides."""

import re
from typing import Any

import pytest

from app.check.page import ACTIONS as CHECK
from app.parts.messages.said import SAID, understood
from app.parts.messages.typescript import FILE, typescript
from app.parts.template import STATIC
from app.practise.page import ACTIONS as PRACTISE


def test_browser_has_the_same_description():
    """The types that the browser's code is checked with are made from this very description."""
    assert FILE.read_text("utf-8") == typescript(), "Run `python -m app.parts.messages.typescript`."


@pytest.mark.parametrize("page", SAID)
def test_everything_described_is_said(page: str):
    """Each message of a page stands in its script or in the forms that it shares with others."""
    scripts = "".join(
        path.read_text("utf-8") for folder in (page, "parts") for path in (STATIC / folder).glob("*.js")
    )
    sent = set(re.findall(r'\bdo: "([^"]+)"', scripts)) | set(re.findall(r'\bdoes: "([^"]+)"', scripts))

    assert set() == set(SAID[page]) - sent


@pytest.mark.parametrize(
    ("page", "actions"),
    [("practise", [*PRACTISE, "export", "draw", "check drawing", "primer"]), ("check", [*CHECK])],
    ids=["practise", "check"],
)
def test_everything_said_is_done(page: str, actions: list[str]):
    """There is an action for each message, and a message for each action."""
    assert set(actions) == set(SAID[page])


@pytest.mark.parametrize(
    "said",
    [
        {"do": "enter", "field": "place", "text": "1"},
        {"do": "draw", "field": "place", "value": [0, 0], "plotted": "overlay"},
        {"do": "random"},
        {"do": "random", "difficulty": "hard"},
        {"do": "drill", "step": "place", "difficulty": "round"},
        {"do": "own problem", "texts": {"load": "25"}},
        {"do": "export", "what": "chart", "kind": "svg"},
        {"do": "restore", "record": None},
        {"do": "random", "from": "a later page, which says more"},
    ],
)
def test_understood(said: Any):
    """A message with all its parts is taken, whatever it has beside them."""
    assert understood("practise", said)


@pytest.mark.parametrize(
    "said",
    [
        None,
        [],
        "enter",
        {},
        {"do": 3},
        {"do": ["enter"]},
        {"do": "nothing"},
        {"do": "mark", "text": "of another page"},
        {"do": "enter", "field": "place"},
        {"do": "enter", "field": "place", "text": 3},
        {"do": "own problem", "texts": "load"},
        {"do": "own problem", "texts": {"load": 25}},
        {"do": "own problem", "texts": {25: "load"}},
        {"do": "export", "what": "chart", "kind": "pdf"},
        {"do": "export", "what": ["chart"], "kind": "svg"},
        {"do": "restore"},
        {"do": "random", "difficulty": "fiendish"},
        {"do": "random", "difficulty": None},
    ],
)
def test_not_understood(said: Any):
    """A message without one of its parts, or with one of another kind, is none of ours."""
    assert not understood("practise", said)
