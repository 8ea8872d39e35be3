"""The core's public face: exactly the names it promises, and docstrings that say what goes in and where it is from."""

import ast
import inspect
import re
from collections.abc import Callable
from pathlib import Path
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
        for name in getattr(module, "__all__", vars(module))
        if inspect.isfunction(thing := getattr(module, name))
        and name[0] != "_"
        and (module is core or thing.__module__ == module.__name__)
    ]


def described(function: Callable[..., Any]) -> set[str]:
    """Names before a colon in the docstring, and those of the function that it refers to."""
    text = inspect.getdoc(function) or ""
    names = {name.strip() for group in re.findall(r"(\w[\w, ]*) : ", text) for name in group.split(",")}
    referred = re.search(r"[Aa]rguments (?:and errors )?as (?:for )?`(\w+)`", text)
    if not referred:
        return names
    home = inspect.getmodule(function)
    return names | described(getattr(home, referred[1], None) or getattr(core, referred[1]))


def test_exactly_the_public_names():
    """Nothing leaks from the core and nothing promised is missing."""
    public = [name for name in dir(core) if name[0] != "_" and not inspect.ismodule(getattr(core, name))]

    assert core.__all__ == sorted(public)
    assert set(PROMISED) <= set(public)


def test_names_are_where_they_are_said_to_be():
    """What a type checker reads and what a program gets are the same names from the same modules."""
    tree = ast.parse(Path(core.__file__).read_text("utf-8"))
    read = {
        alias.name: node.module
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and str(node.module).startswith("core.")
        for alias in node.names
    }

    assert sorted(read) == core.__all__
    assert read == {name: getattr(core, name).__module__ for name in core.__all__}


def core_trees() -> dict[str, ast.Module]:
    """The source of every module of the core, by its name."""
    paths = sorted(Path(core.__file__).parent.glob("*.py"))
    return {path.stem: ast.parse(path.read_text("utf-8")) for path in paths}


TREES = core_trees()


def test_no_module_is_shadowed():
    """No module has the name of something that the core offers: one of them would hide the other."""
    assert set() == set(TREES) & set(core.__all__)


@pytest.mark.parametrize("module", TREES)
def test_only_public_names_are_shared(module):
    """What one module takes from another is under a public name there."""
    imported = [
        alias.name
        for node in ast.walk(TREES[module])
        if isinstance(node, ast.ImportFrom) and str(node.module).startswith("core")
        for alias in node.names
    ]

    assert [] == [name for name in imported if name[0] == "_"]


@pytest.mark.parametrize(
    "name", ["ROUNDING", "ROUNDED", "OPEN_CIRCUIT", "INFINITE", "quotient", "plain", "broadcast"]
)
def test_one_home(name):
    """A constant and a helper that many share is made in one place only."""
    homes = [
        module
        for module, tree in TREES.items()
        for node in tree.body
        if (isinstance(node, ast.FunctionDef) and node.name == name)
        or (isinstance(node, ast.Assign) and any(name in names_of(target) for target in node.targets))
    ]

    assert 1 == len(homes)


def names_of(target: ast.expr) -> list[str]:
    """The names that an assignment gives."""
    return [node.id for node in ast.walk(target) if isinstance(node, ast.Name)]


def test_nothing_else_is_there():
    """A name that the core has not is missing as from any other module."""
    with pytest.raises(AttributeError, match="module 'core' has no attribute 'triple_section'"):
        _ = core.triple_section


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
