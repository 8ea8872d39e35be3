"""Every public function of the core says what goes in, with unit and shape, what is refused, and where it is from."""

import inspect
import re
from collections.abc import Callable
from typing import Any

import pytest

import core

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
