"""How the library's objects print and render: short, in the trade's words, and safe in a notebook."""

import dataclasses
import re

import numpy as np
import pytest

import core
from core import (
    Cable,
    ConstantLoad,
    Errors,
    LumpedPart,
    MatchingNetwork,
    Microstrip,
    ParallelLoad,
    Reactance,
    Section,
    SeriesLoad,
    Stripline,
    Stub,
    UnknownChoice,
    bandwidth,
    double_stub,
    frequency_response,
    l_network,
    lay_out,
    lossy_single_stub,
    monte_carlo,
    one_section_transformer,
    power_flow,
    quarter_wave,
    rank_solutions,
    single_stub,
    standing_waves,
    worst_case,
)
from core.chart import NotACircle
from core.readable import Readable, amount, percent

NEAR = single_stub(60 - 80j, 50)[0]
ARRAY = single_stub(np.array([60 - 80j, 50j]), 50)[0]
OBJECTS = [
    NEAR,
    ARRAY,
    Section(0.25, 70.7, attenuation=0.01),
    Stub(0.1, 50, "series", "open"),
    Reactance(-30, "shunt"),
    double_stub(60 - 80j, 50, 1 / 8)[0],
    quarter_wave(100, 50)[0],
    one_section_transformer(60 + 20j, 50)[0],
    l_network(200 - 100j, 100, 500e6)[0],
    lossy_single_stub(60 - 80j, 50, 0.05)[0],
    power_flow(NEAR),
    standing_waves(NEAR)[0],
    frequency_response(NEAR, [0.9, 1.1]),
    bandwidth(NEAR),
    bandwidth(ARRAY),
    rank_solutions(single_stub(60 - 80j, 50)),
    worst_case(NEAR, Errors(0.005)),
    monte_carlo(NEAR, Errors(0.005), trials=10),
    lay_out(NEAR, 434e6, Microstrip(4.4, 1.6)),
    Cable(0.66),
    Stripline(2.2, 3.2),
    ConstantLoad(np.inf),
    SeriesLoad(60, 0, 80),
    ParallelLoad(60, 20),
]


@pytest.mark.parametrize("thing", OBJECTS, ids=lambda thing: type(thing).__name__)
class TestEveryObject:
    def test_one_short_line(self, thing):
        """It prints as one line of plain ASCII with its own name, however large its arrays."""
        text = repr(thing)

        assert text.startswith(type(thing).__name__ + "(")
        assert text == str(thing)
        assert "\n" not in text
        assert text.isascii() or "µ" in text
        assert len(text) < 600

    def test_small_table(self, thing):
        """In a notebook it is a small table that says the same."""
        html = thing._repr_html_()

        assert html.startswith("<table><caption>" + type(thing).__name__)
        assert html.count("<tr>") == html.count("</tr>") == len(thing._rows())
        assert len(html) < 2500

    def test_frozen(self, thing):
        """It cannot be changed by accident."""
        field = dataclasses.fields(thing)[0].name

        with pytest.raises(dataclasses.FrozenInstanceError, match=field):
            setattr(thing, field, None)


def test_words_of_the_trade():
    """A network reads from the load toward the generator."""
    assert (
        "SingleStub(load: 60-80j ohm; line: 0.1104 wavelengths of 50 ohm; "
        "shunt stub, short end: 0.0950 wavelengths of 50 ohm; matched to: 50 ohm)"
    ) == repr(NEAR)


class TestSolutions:
    def test_both(self):
        """Solutions print one after the other, and in a notebook each has its table."""
        near, far = solutions = single_stub(60 - 80j, 50)

        assert f"Solutions({near!r}; {far!r})" == repr(solutions)
        assert near._repr_html_() + far._repr_html_() == solutions._repr_html_()

    def test_none(self):
        """Where there is none, the reason is what is shown."""
        solutions = single_stub(50j, 50)

        assert f"Solutions({solutions.reason})" == repr(solutions)
        assert solutions._repr_html_().startswith("<p>This load takes no power")


def test_nothing_runs_in_a_notebook():
    """Text that looks like markup stays text."""

    class Hostile(Readable):
        def _rows(self):
            return [("<script>", "<img src=x onerror=alert(1)> & more")]

    html = Hostile()._repr_html_()

    assert "<script>" not in html
    assert "<img" not in html
    assert "&lt;script&gt;" in html


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (50, "50 ohm"),
        (60 - 80j, "60-80j ohm"),
        (complex(np.inf, 0), "open circuit"),
        (25 + 0j, "25 ohm"),
        (np.array([1.0, 2.5]), "2 values, 1 to 2.5 ohm"),
        (np.array([50.0, 50.0]), "2 values, all 50 ohm"),
        (np.array([[np.nan]]), "1 x 1 values ohm"),
        (np.array([1j, 2]), "2 values ohm"),
    ],
)
def test_amount(value, text):
    """A number is told with its unit, an array by its shape and range."""
    assert text == amount(value, "ohm")


def test_every_network_class_prints_so():
    """No designer's network falls back to a wall of arrays."""
    classes = [thing for name in core.__all__ if isinstance(thing := getattr(core, name), type)]

    assert [] == [
        c.__name__ for c in classes if issubclass(c, MatchingNetwork) and c.__repr__ is not Readable.__repr__
    ]


class TestNoFalseWord:
    @pytest.mark.parametrize("load", [24.9999, 24.9999999, 20])
    def test_a_conductance_just_above_its_limit(self, load):
        """Figures that a sentence sets against each other are shown with the digits in which they differ."""
        said = double_stub(load, 50, 1 / 8).reason
        conductance, limit = re.findall(r"conductance of (\S+), above the limit of (\S+) for", said)[0]

        assert float(conductance) > float(limit) == 2
        assert "0.0000 wavelength" not in said

    def test_outside_both_circles(self):
        """A load just outside a unit circle is not said to have r = 1."""
        said = one_section_transformer(50 * (1 - 1e-7) + 20j, 50).reason

        assert "r = 0.9999999 and" in said

    @pytest.mark.parametrize(
        "part", [LumpedPart(np.inf, "shunt"), LumpedPart(0.0), LumpedPart(np.inf, "shunt", 1e6)]
    )
    def test_no_part(self, part):
        """What is no part is shown as none, not as a number of ohms."""
        assert f"LumpedPart({part.placement} part: none)" == repr(part)

    def test_open_circuit(self):
        """An infinite impedance is an open circuit, whatever type of number it is."""
        assert ["open circuit"] * 2 == [amount(np.inf, "ohm"), amount(complex(np.inf, 0), "ohm")]
        assert "inf" == amount(np.inf)

    def test_rounding_is_no_share(self):
        """A share of 3.3e-16 is nothing but rounding, and is shown as nothing."""
        assert ["0 %", "0 %", "1e-08 %"] == [percent(3.3e-16), percent(-1e-15), percent(1e-10)]

    @pytest.mark.parametrize(
        "ends", [np.array(["short", "open", "open"]), ["short"], np.zeros((3, 3))], ids=type
    )
    def test_no_array_in_a_sentence(self, ends):
        """A refusal shows an array by its shape, in one line."""
        with pytest.raises(UnknownChoice, match=r"^The ends must be two, [^\n]*$") as refusal:
            double_stub(60, 50, 1 / 8, ends=ends)

        assert "array(" not in str(refusal.value)


class TestEqual:
    def test_arrays(self):
        """Networks of arrays compare as a whole, value by value, and no solution is the same as no solution."""
        loads = np.array([60 - 80j, 50j])

        assert single_stub(loads, 50) == single_stub(loads, 50)
        assert single_stub(loads, 50)[0] != single_stub(loads, 50)[1]
        assert single_stub(loads, 50)[0] != single_stub(loads, 75)[0]

    def test_keys(self):
        """Networks of numbers that are equal are one key."""
        assert {single_stub(60 - 80j, 50)[0]: 1} == {single_stub(60 - 80j, 50.0)[0]: 1}

    def test_path_of_arrays(self):
        """The way over the chart is that of each network of an array."""
        loads = np.array([60 - 80j, 25 + 10j])
        ways = list(single_stub(loads, 50)[0].path(7))

        assert [(2, 7), (2, 7)] == [way.shape for way in ways]
        for index, load in enumerate(loads):
            for way, alone in zip(ways, single_stub(load, 50)[0].path(7), strict=True):
                assert pytest.approx(alone) == way[index]

    def test_circle_of_arrays(self):
        """A circle is drawn for one network; of an array it is refused in a sentence."""
        with pytest.raises(NotACircle, match="for one network, and one spacing, at a time"):
            _ = double_stub(np.array([60 - 80j, 50]), 50, 1 / 8)[0].forbidden_circle
