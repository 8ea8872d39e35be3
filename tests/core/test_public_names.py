"""The core's public face: exactly the names it promises, and docstrings that say what goes in and where it is from."""

import inspect
import re
from collections.abc import Callable
from typing import Any

import pytest

import core
from core import chart, line, stubs

PROMISED = (
    "single_stub",
    "MatchingNetwork",
    "Section",
    "Stub",
    "Reactance",
    "CoreError",
    "reflection_coefficient",
)


def functions_of(*modules: Any) -> list[Callable[..., Any]]:
    """Public functions that the modules define, or that the package exports."""
    return [
        thing
        for module in modules
        for name, thing in vars(module).items()
        if inspect.isfunction(thing)
        and name[0] != "_"
        and (module is core or thing.__module__ == module.__name__)
    ]


def described(function: Callable[..., Any]) -> set[str]:
    """Names before a colon in the docstring, and those of the function that it refers to."""
    text = inspect.getdoc(function) or ""
    names = {name.strip() for group in re.findall(r"(\w[\w, ]*) : ", text) for name in group.split(",")}
    referred = re.search(r"[Aa]rguments (?:and errors )?as (?:for )?`(\w+)`", text)
    within = {**vars(core), **vars(inspect.getmodule(function))}
    return names | described(within[referred[1]]) if referred else names


def test_exactly_the_public_names():
    """Nothing leaks from the core and nothing promised is missing."""
    public = {name for name, thing in vars(core).items() if name[0] != "_" and not inspect.ismodule(thing)}

    assert sorted(public) == core.__all__
    assert set(PROMISED) <= public


def test_all_names_are_imported_by_a_star():
    """What the core offers is what a star import brings."""
    namespace: dict[str, Any] = {}
    exec("from core import *", namespace)

    assert set(core.__all__) == set(namespace) - {"__builtins__"}


@pytest.mark.parametrize("function", functions_of(core, line, stubs), ids=lambda function: function.__name__)
class TestDocstrings:
    def test_every_argument_is_described(self, function):
        """No argument goes without a line that says what it is."""
        assert [] == [
            name for name in inspect.signature(function).parameters if name not in described(function)
        ]

    def test_source(self, function):
        """A formula has its source beside it, or says whose inverse it is."""
        text = inspect.getdoc(function) or ""

        assert re.search(r"Source: \S|inverse of `\w+`|of which it is the inverse", text)


@pytest.mark.parametrize("function", functions_of(chart), ids=lambda function: function.__name__)
def test_chart_functions_are_described(function):
    """The chart's functions are plain geometry: each speaks of all its arguments, the module of the circles' source."""
    words = re.findall(r"\w+", inspect.getdoc(function) or "")

    assert [] == [name for name in inspect.signature(function).parameters if name not in words]
    assert "Source of the circles: Pozar" in (chart.__doc__ or "")


@pytest.mark.parametrize("name", [name for name in core.__all__ if inspect.isclass(getattr(core, name))])
def test_every_class_is_described(name):
    """Every public class says what it is, in its own words."""
    assert re.match(r"[A-Z].*\w.*\.", vars(getattr(core, name)).get("__doc__") or "")
