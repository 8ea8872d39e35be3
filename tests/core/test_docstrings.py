"""Every public function of the core says what goes in, with unit and shape, what is refused, and where it is from."""

import inspect
import re
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

import core
from tests.core import fuzz

FUNCTIONS = [getattr(core, name) for name in core.__all__ if inspect.isfunction(getattr(core, name))]
UNIT = re.compile(
    r"ohm|siemens|wavelength|hertz|neper|decibel|metre|watt|radian|farad|relative|over that of|over the line"
    r"|over design|complex|numbers|ratio|whole|limit|points|text|circle|path :|name : a key|>= |> 0"
)
SHAPE = re.compile(
    r"shape|broadcast|single|scalar|any\b|one circle|circles|one number|name : a key|a `OnePort`|text :|path :"
    r"|as a designer returns|Arguments .*as `"
)
REFUSED = re.compile(r"Raises [A-Z]\w+|Arguments and errors as `")
SOURCE = re.compile(r"Source: \S|inverse of `\w+`|of which it is the inverse")


def told(function: Callable[..., Any]) -> str:
    """The docstring without the lines' ends, and that of the function whose arguments it shares."""
    text = " ".join((inspect.getdoc(function) or "").split())
    shared = re.search(r"(?:[Aa]rguments (?:and errors )?as (?:for |in )?|: as in )`(\w+)`", text)
    return f"{text} {told(getattr(core, shared[1]))}" if shared and hasattr(core, shared[1]) else text


def arguments_of(function: Callable[..., Any]) -> str:
    """What is told of the arguments, here and where a docstring says that they are as another function's."""
    text = told(function)
    others = [name for name in re.findall(r"\bas (?:in |for )?`(\w+)`", text) if name in core.__all__]
    return " ".join([text, *(arguments_of(getattr(core, name)) for name in others)])


def refusals(count: int, seed: int) -> dict[str, set[str]]:
    """By function the errors with which it refused some of so many calls with arguments of every kind."""
    found: dict[str, set[str]] = {name: set() for name in core.__all__}
    with np.errstate(all="ignore"):
        for name, target, arguments in fuzz.calls(count, seed):
            try:
                target(**arguments)
            except core.CoreError as refusal:
                found.get(name, set()).add(type(refusal).__name__)
    return found


REFUSALS = refusals(6_000, 7)


def test_there_is_something_to_read():
    """The functions are found, nearly all refuse something, and a docstring that says nothing would not do."""
    assert len(FUNCTIONS) >= 95
    assert sum(bool(REFUSALS[function.__name__]) for function in FUNCTIONS) >= 85
    for what in (UNIT, SHAPE, REFUSED, SOURCE):
        assert not what.search("Gives back the thing that goes with the other, as is usual in the field.")


@pytest.mark.parametrize("function", FUNCTIONS, ids=lambda function: function.__name__)
class TestDocstring:
    @pytest.mark.parametrize("what", [UNIT, SHAPE], ids=["units", "shapes"])
    def test_arguments(self, function, what):
        """Units and shapes of what goes in are there, or it is said whose they are."""
        assert what.search(arguments_of(function))

    @pytest.mark.parametrize("what", [REFUSED, SOURCE], ids=["errors", "source"])
    def test_says(self, function, what):
        """What is refused and the source are there."""
        assert what.search(told(function))

    def test_errors_are_of_the_tree(self, function):
        """What is said to be raised is what the core has; of others only the disk's."""
        named = re.findall(
            r"\b[A-Z][a-z]\w*(?:[A-Z]\w+)\b|OSError", " ".join(re.findall(r"Raises [^.]*", told(function)))
        )

        assert [] == [name for name in named if not hasattr(core, name) and name != "OSError"]

    def test_every_error_is_said(self, function):
        """What a function refuses with, in some of many calls, its docstring names: that error or one above it."""
        said = arguments_of(function)
        above = {
            name: [kind.__name__ for kind in getattr(core, name).__mro__]
            for name in REFUSALS[function.__name__]
        }

        assert [] == [name for name, kinds in above.items() if not any(kind in said for kind in kinds[:-4])]
