"""A sample of the full counts: every designer gives all solutions, only solutions, and the right reason."""

import numpy as np
import pytest

import core
from core import Solutions, single_stub
from tests.core import completeness, energy


@pytest.mark.parametrize("designer", completeness.SUITES)
def test_none_missed_none_false(designer):
    """Of 300 loads, half of them on the chart's edges and circles, each has as many matches as it must."""
    counts = completeness.SUITES[designer](300, 51)

    assert counts["cases"] > 250
    assert (0, 0, 0) == (counts["missed"], counts["false"], counts["wrong reasons"])


@pytest.mark.parametrize(
    ("fault", "solutions"),
    [
        ("missed", lambda right: Solutions(right[1:], right.reason)),
        ("false", lambda right: Solutions((*right, single_stub(12 + 5j, 50)[0]), right.reason)),
        ("wrong reasons", lambda right: Solutions(tuple(right), "Because.")),
    ],
)
def test_faults_are_counted(monkeypatch, fault, solutions):
    """A designer that drops a solution, adds one that is none, or gives another reason is found out."""
    monkeypatch.setattr(completeness, "single_stub", lambda *given: solutions(single_stub(*given)))

    assert completeness.single_stubs(40, 52)[fault] > 20


def test_energy_balances():
    """In 1,000 networks of any parts, between any loads, all power is accounted for to 1e-12."""
    counts = energy.unbalanced(1_000, seed=53)

    assert counts["networks"] >= 1_000
    assert counts["failed to balance"] == 0


def test_every_kind_of_element_is_in_the_balance():
    """The networks that are weighed have every kind of element that the core has."""
    rng = np.random.default_rng(54)
    public = [getattr(core, name) for name in core.__all__]
    kinds = {kind for kind in public if isinstance(kind, type) and hasattr(kind, "heat")}

    assert kinds == {type(make(rng)) for make in energy.KINDS}
