"""What the core gives back is known by its type: a designer's solutions are of a kind, and nothing is `Any`."""

import inspect
import re
import types
import typing
from collections.abc import Callable, Iterator
from typing import Any

import numpy as np
import pytest

import core
from core import MatchingNetwork, Solutions

LOAD, OTHER = 60 - 80j, 35 + 20j
DESIGNERS: dict[str, tuple[Any, ...]] = {
    "binomial_transformer": (LOAD, 50, 3),
    "chebyshev_transformer": (LOAD, 50, 3, 1.2),
    "conjugate_l_network": (LOAD, OTHER),
    "conjugate_quarter_wave": (LOAD, OTHER, 50),
    "conjugate_section": (100 + 10j, OTHER),
    "conjugate_single_stub": (LOAD, OTHER, 50),
    "double_stub": (LOAD, 50, 0.125),
    "exponential_taper": (LOAD, 50),
    "l_network": (LOAD, 50),
    "lossy_double_stub": (LOAD, 50, 0.125, 0.02),
    "lossy_l_network": (LOAD, 50, 30, 200),
    "lossy_single_stub": (LOAD, 50, 0.02),
    "one_section_transformer": (100 + 10j, 50),
    "optimum_taper": (LOAD, 50, 0.05),
    "pi_network": (LOAD, 50, 4),
    "quarter_wave": (LOAD, 50),
    "series_double_stub": (LOAD, 50, 0.125),
    "single_stub": (LOAD, 50),
    "stub_and_section": (LOAD, 50),
    "t_network": (LOAD, 50, 4),
    "triangular_taper": (LOAD, 50),
    "triple_stub": (LOAD, 50, (0.125, 0.125), 0.1),
    "two_equal_stubs": (LOAD, 50),
}
"""Every designer, with arguments that it finds a match for."""
FUNCTIONS = [name for name in core.__all__ if inspect.isfunction(getattr(core, name))]


def returned(function: Callable[..., Any]) -> Any:
    """The type that a function says it returns."""
    return typing.get_type_hints(function).get("return")


def asked(kind: type) -> Iterator[tuple[str, Callable[..., Any]]]:
    """What a class of the core can be asked for: its public methods and properties, inherited ones too."""
    for name, thing in inspect.getmembers(kind):
        found = (
            thing.fget if isinstance(thing, property) else inspect.unwrap(getattr(thing, "__func__", thing))
        )
        if name[0] != "_" and inspect.isfunction(found) and found.__module__.startswith("core"):
            yield f"{kind.__name__}.{name}", found


def named(annotation: Any) -> Iterator[type]:
    """Classes of the core that a type is made of."""
    if inspect.isclass(annotation) and annotation.__module__.startswith("core"):
        yield annotation
    for part in typing.get_args(annotation):
        yield from named(part)


def answers() -> dict[str, Callable[..., Any]]:
    """All that can be asked of the core: its functions, and what it offers or they give back, to the end."""
    found = {name: getattr(core, name) for name in FUNCTIONS}
    kinds = [getattr(core, name) for name in core.__all__ if inspect.isclass(getattr(core, name))]
    kinds += [kind for function in found.values() for kind in named(returned(function))]
    seen: set[type] = set()
    while kinds:
        kind = kinds.pop()
        if kind in seen:
            continue
        seen.add(kind)
        for name, function in asked(kind):
            found[name] = function
            kinds += named(returned(function))
    return found


ANSWERS = answers()


def test_every_designer_is_known():
    """The designers are those functions that return solutions, all of them."""
    assert sorted(DESIGNERS) == [
        name for name in FUNCTIONS if typing.get_origin(returned(getattr(core, name))) is Solutions
    ]


@pytest.mark.parametrize("name", DESIGNERS)
def test_solutions_are_of_the_kind_said(name: str):
    """A designer says which kind of network it returns, a kind of its own, and does return it."""
    (kind,) = typing.get_args(returned(getattr(core, name)))
    found = getattr(core, name)(*DESIGNERS[name])

    assert issubclass(kind, MatchingNetwork)
    assert kind is not MatchingNetwork
    assert len(found) >= 1
    assert {kind} == {type(network) for network in found}


@pytest.mark.parametrize("name", DESIGNERS)
def test_solutions_match(name: str):
    """What is returned matches by the one evaluator; a row of sections or a taper is as near as its band asks."""
    roomy = "taper" in name or name == "chebyshev_transformer"
    found = getattr(core, name)(*DESIGNERS[name])
    missed = [
        np.abs(one.power_reflection() if hasattr(one, "power_reflection") else one.input_reflection())
        for one in found
    ]

    assert max(missed) <= (0.35 if roomy else 1e-9)


def fits(value: Any, said: Any) -> bool:
    """Whether a value is what its type says; an array holds what the number beside it in the type would be."""
    kinds = typing.get_args(said) if isinstance(said, types.UnionType) else (said,)
    if typing.get_origin(said) is tuple:
        inner = [kind for kind in typing.get_args(said) if kind is not ...]
        return all(fits(one, inner[min(at, len(inner) - 1)]) for at, one in enumerate(value))
    allowed = [typing.get_origin(kind) or kind for kind in kinds]
    if isinstance(value, np.ndarray):
        single = {float: "f", complex: "cf", str: "U", bool: "b"}
        return np.ndarray in allowed and any(value.dtype.kind in single.get(kind, "") for kind in allowed)
    return isinstance(value, tuple(allowed)) or (complex in allowed and isinstance(value, float))


@pytest.mark.parametrize("name", DESIGNERS)
@pytest.mark.parametrize("several", [False, True], ids=["one load", "loads"])
def test_answers_are_of_the_type_said(name: str, several: bool):
    """What a solution is asked for is of the type it says: a number for one load, an array for an array of them."""
    load, *others = DESIGNERS[name]
    found = getattr(core, name)(np.array([load, 20.0 + 5j]) if several else load, *others)
    for network in found:
        for property_name, thing in inspect.getmembers(
            type(network), lambda thing: isinstance(thing, property)
        ):
            said = returned(thing.fget)
            if not several or "circle" not in property_name:  # circles are drawn for one network
                assert fits(getattr(network, property_name), said), property_name


@pytest.mark.parametrize("name", ANSWERS)
def test_nothing_is_untyped(name: str):
    """Whatever the core is asked, the type of the answer is said, and it is not `Any`."""
    said = ANSWERS[name].__annotations__.get("return")

    assert said is not None or returned(ANSWERS[name]) is type(None)
    assert "Any" not in re.findall(r"\w+", str(said))


def test_answers_are_found():
    """Among what is looked at are functions, and properties of results that only functions lead to."""
    assert {"swr", "SingleStub.distance", "Bandwidth.fraction", "Layout.swr"} <= set(ANSWERS)
    assert len(ANSWERS) > 300
