"""The picture handed to the browser: plain data for any network, and the same said in sentences."""

import json
import re
from math import inf, nan
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.parts.line_drawing import OPEN_END, LineDrawing, picture
from app.parts.line_drawing.board import limits
from app.parts.template import STATIC
from core import single_stub
from core.board import guide_wavelength_m
from core.cables import usual_cable
from core.lossy_parts import LossyPart
from core.lumped import LumpedPart, l_network
from core.network import ENDS, PLACEMENTS, Element, MatchingNetwork, Reactance, Section, Stub
from core.real_line import LossyLine
from core.real_pieces import RealSection, RealStub
from core.source import ConjugateMatch
from core.tapers import exponential_taper
from lessons.grammar.branch import Branch
from lessons.grammar.notation import Notation
from lessons.grammar.plan import Plan

NEAR, FAR = Branch("near", "near", "first"), Branch("far", "far", "second")
DEGREES = Notation({"d": "s", "l": "t"}, length="degrees", imaginary="i")
BOTH = tuple(
    Plan(branch, one, ("d", "l"))
    for branch, one in zip((NEAR, FAR), single_stub(60 - 80j, 50.0), strict=True)
)


def network(*elements: Element, load: complex = 60 - 80j, line: float = 50.0) -> MatchingNetwork:
    """A network of these elements on a line of 50 ohm."""
    return MatchingNetwork(load, line, elements)


def alone(*elements: Element, symbols: tuple[str, ...] = (), **more: Any) -> list[Plan]:
    """The one solution that has these elements."""
    return [Plan(None, network(*elements, **more), symbols)]


def drawn(*elements: Element, **more: Any) -> dict:
    """The picture of one network of these elements."""
    return picture(alone(*elements, **more), None, Notation())


def elements_drawn(*elements: Element) -> list[dict]:
    """What the browser gets of each element."""
    return drawn(*elements)["plans"][0]["elements"]


ohms = st.sampled_from([50.0, 1.0, 1000.0]) | st.floats(1.0, 1000.0)
lengths = st.sampled_from([0.0, nan, 0.25, 0.5, 1e-9, 7.3, 1e6]) | st.floats(0.0, 3.0)
reactances = st.sampled_from([0.0, nan, 1e140]) | st.floats(-1e4, 1e4)
lines = st.builds(Section, lengths, ohms) | st.builds(
    Section, st.just(nan) | st.floats(0.0, 3.0), ohms, st.just(0.1)
)
stubs = st.builds(Stub, lengths, ohms, st.sampled_from(PLACEMENTS), st.sampled_from(ENDS))
across = reactances.filter(bool) | st.just(inf)  # a shunt part of 0 ohm is refused: nothing comes past it
hertz = st.sampled_from([None, 434e6])
parts = (
    st.builds(Reactance, reactances, st.sampled_from(PLACEMENTS))
    | st.builds(LumpedPart, reactances, st.just("series"), hertz)
    | st.builds(LumpedPart, across, st.just("shunt"), hertz)
    | st.builds(LossyPart, across, st.just("shunt"), hertz, st.sampled_from([inf, 80.0]))
)
cables = st.sampled_from([usual_cable("RG-58"), LossyLine(75.0, 0.66, 0.3)])
metres = st.just(nan) | st.floats(0.0, 1.0)
pieces = st.builds(RealSection, metres, cables, st.just(434e6)) | st.builds(
    RealStub, metres, cables, st.just(434e6), placement=st.sampled_from(PLACEMENTS), end=st.sampled_from(ENDS)
)
loads = st.sampled_from([0.0, inf, complex(inf, 0), -40j]) | st.builds(
    complex, st.floats(0, 1e4), st.floats(-1e4, 1e4)
)
rows = st.lists(lines | stubs | parts | pieces, max_size=6).map(tuple)
sources = st.builds(complex, st.floats(1.0, 1e3), st.floats(-1e3, 1e3))
networks = st.builds(MatchingNetwork, loads, ohms, rows) | st.builds(
    ConjugateMatch, loads, ohms, rows, sources
)


class TestAnyNetwork:
    @settings(max_examples=200, deadline=None)
    @given(
        st.lists(networks, min_size=1, max_size=4),
        st.sampled_from([None, "near", "far"]),
        st.sampled_from([None, 455.9, 0.7]),
    )
    def test_plain_data(self, several: list[MatchingNetwork], current: str | None, wave: float | None):
        """Whatever network the solver accepts has a picture, which is JSON without a not-a-number, with a sentence."""
        branches = [NEAR, FAR, Branch("c", "c", "third"), None]
        plans = [Plan(branch, one, ("d",)) for branch, one in zip(branches, several, strict=False)]
        made = picture(plans, current, DEGREES, wave, waves=True)

        assert made == json.loads(json.dumps(made, allow_nan=False))
        assert made["spoken"].endswith(".")
        assert made["caption"].endswith(".")
        assert not re.search(r"\b(nan|inf)\b", made["spoken"])

    @settings(max_examples=200, deadline=None)
    @given(networks)
    def test_what_is_asked_is_not_written(self, one: MatchingNetwork):
        """A length that is not known has none in the picture, and every one that is known has its own."""
        shown = picture([Plan(None, one)], None, Notation())["plans"][0]["elements"]
        there = [None if np.isnan(e.length) else e.length for e in one.elements if hasattr(e, "length")]

        assert there == [element["length"] for element in shown if "length" in element]

    @settings(max_examples=200, deadline=None)
    @given(networks)
    def test_caution(self, one: MatchingNetwork):
        """The caution about high voltage and radiation stands where an end is open, and only there."""
        opened = any(getattr(element, "end", "") == "open" for element in one.elements)

        assert (OPEN_END if opened else "") == picture([Plan(None, one)], None, Notation())["note"]

    def test_array(self):
        """An array of networks is refused, for one drawing shows one of them."""
        with pytest.raises(ValueError, match="Only one network can be drawn at a time"):
            drawn(Section(np.array([0.1, 0.2]), 50.0))

    def test_no_plan(self):
        """Where there is no network there is nothing to draw."""
        assert {} == picture([], None, Notation())


class TestElements:
    def test_both_solutions(self):
        """Both solutions stand in the picture with the lengths of their elements, to the last digit."""
        shown = picture(BOTH, "near", Notation())["plans"]

        for plan, one in zip(BOTH, shown, strict=True):
            assert [getattr(e, "length", None) for e in plan.network.elements] == [
                e["length"] for e in one["elements"]
            ]
            assert ["d", "l"] == [e["symbol"] for e in one["elements"]]

    def test_stub(self):
        """Impedance, end and placement are those of the stub in the network."""
        (stub,) = elements_drawn(Stub(0.1, 75.0, "series", "open"))

        assert {"ohms": 75.0, "text": "75 Ω", "placement": "series", "end": "open"}.items() <= stub.items()

    @pytest.mark.parametrize(
        ("reactance", "part", "text"),
        [
            (42.345678, "inductor", "j42.35 Ω"),
            (-50.0, "capacitor", "−j50 Ω"),
            (nan, "unknown", "?"),
            (0.0, "wire", ""),
        ],
    )
    def test_part(self, reactance: float, part: str, text: str):
        """A lumped part is a coil above zero and a capacitor below it, with its reactance; at the ends it is none."""
        (one,) = elements_drawn(Reactance(reactance, "shunt"))

        assert {"part": part, "text": text, "placement": "shunt"}.items() <= one.items()

    def test_part_with_a_frequency(self):
        """200 - j100 ohm is matched to 100 ohm at 500 MHz by 0.92 pF across and 38.8 nH in the line (Pozar, Microwave
        Engineering, 4th ed., example 5.1, from memory; rounded there on the way): written with the units' prefixes."""
        shown = picture([Plan(None, l_network(200 - 100j, 100.0, 500e6)[0])], None, Notation())
        parts = shown["plans"][0]["elements"]

        assert ["0.9228 pF", "38.98 nH"] == [part["text"] for part in parts]
        assert "a capacitor of 0.9228 picofarad across the line" in shown["spoken"]
        assert "an inductor of 38.98 nanohenry in the line" in shown["spoken"]

    def test_cut_from_a_cable(self):
        """A piece of a real line has its length at the design frequency and is written with its impedance as a number:
        what loss adds in quadrature is 0.2 % of RG-58's 50 ohm."""
        section, stub = elements_drawn(
            RealSection(0.1, usual_cable("RG-58"), 434e6),
            RealStub(0.05, usual_cable("RG-58"), 434e6, "series", "open"),
        )

        assert ("section", "50.121 Ω") == (section["kind"], section["text"])
        assert pytest.approx(0.1 * 434e6 / (0.66 * 299_792_458), rel=0.01) == section["length"]
        assert ("stub", "series", "open") == (stub["kind"], stub["placement"], stub["end"])

    def test_part_with_loss(self):
        """A part's quality factor is said with its value."""
        said = drawn(LossyPart(50.0, "series", None, 80.0))["spoken"]

        assert "an inductor of j50 ohm in the line, of quality factor 80." in said

    def test_source(self):
        """A network matched to what the generator has inside says what that is; any other says nothing of it."""
        to_source = ConjugateMatch(60 - 80j, 50.0, (Section(0.1, 50.0),), 30 + 10j)
        made = picture([Plan(None, to_source)], None, Notation())

        assert "30 + j10 Ω" == made["source"]
        assert "The generator has 30 + j10 ohm inside." in made["spoken"]
        assert "" == drawn(Section(0.1, 50.0))["source"]

    def test_long_row(self):
        """A taper of many steps is one row: with its whole length, its number of sections and the impedances at its
        ends; a row of a few sections is written section by section."""
        taper = exponential_taper(100.0, 50.0, 1.0, steps=40)[0]
        made = picture([Plan(None, taper)], None, Notation())
        (row,) = made["plans"][0]["rows"]
        first, last = (f"{section.impedance:.4g}" for section in (taper.sections[0], taper.sections[-1]))

        assert {"first": 0, "last": 39, "text": f"40 sections, {first} Ω (load) to {last} Ω"} == row
        assert f"1.000 wavelength of line in 40 sections, {first} ohm (load) to {last} ohm." in made["spoken"]
        assert [1] == [one["first"] for one in drawn(Section(0.1, 50.0), *taper.elements)["plans"][0]["rows"]]
        assert [] == drawn(*(Section(0.1, 60.0),) * 6)["plans"][0]["rows"]

    def test_impedance_of_a_design(self):
        """A designed impedance is written to five digits: the quarter-wave section from 100 to 50 ohm has the root of
        their product, 70.711 ohm (Pozar, 4th ed., eq. 2.63, from memory)."""
        (section,) = elements_drawn(Section(0.25, np.sqrt(100.0 * 50.0)))

        assert "70.711 Ω" == section["text"]


class TestCurrent:
    @pytest.mark.parametrize(("key", "index"), [(None, 0), ("near", 0), ("far", 1)])
    def test_by_key(self, key: str | None, index: int):
        """The solution asked for is the one at full strength, else the first."""
        assert index == picture(BOTH, key, Notation())["current"]

    def test_not_known_yet(self):
        """Where nothing is known of the solution in hand, the line with its load is drawn, the others faintly on it."""
        made = picture(BOTH[1:], "near", Notation())
        plain, far = made["plans"]

        assert (0, None, []) == (made["current"], plain["branch"], plain["elements"])
        assert ("far", True) == (far["branch"]["key"], far["faint"])

    @pytest.mark.parametrize(
        ("other", "faint"),
        [
            pytest.param(network(Section(0.2, 50.0), Stub(0.3, 75.0)), True, id="stubs on the same line"),
            pytest.param(network(Section(0.2, 75.0), Stub(0.3, 75.0)), False, id="another line"),
            pytest.param(network(Reactance(50.0)), False, id="lumped parts"),
        ],
    )
    def test_faint(self, other: MatchingNetwork, faint: bool):
        """Another solution is drawn faintly over the same line, and not at all where its line is another; the sentence
        says which."""
        made = picture([BOTH[0], Plan(FAR, other)], "near", Notation())

        assert faint == made["plans"][1]["faint"]
        assert ("drawn faintly:" if faint else "not drawn here:") in made["spoken"]


class TestBoard:
    @pytest.mark.parametrize(
        ("elements", "form"),
        [
            ((Section(0.1, 50.0), Stub(0.1, 50.0)), "trace"),
            ((Section(0.1, 50.0), Stub(0.1, 50.0, "series")), "strips"),
            ((Stub(0.1, 50.0, "series"), Section(0.1, 50.0), Stub(0.1, 50.0)), ""),
            ((Reactance(50.0), Reactance(-50.0, "shunt")), "trace"),
            ((Section(0.1, 400.0),), ""),
            ((Section(0.1, 1.0),), ""),
            ((Stub(0.1, 400.0, "series"),), ""),
        ],
    )
    def test_form(self, elements: tuple[Element, ...], form: str):
        """Stubs across the line are branches of a trace, stubs in it of two strips; both at once, or impedances that no
        copper has, are not drawn, and a sentence says why."""
        made = drawn(*elements)

        assert form == made["plans"][0]["form"]
        assert (form == "") == made["caption"].endswith("only the line is drawn.")

    def test_limits(self):
        """A trace of 3.06 mm on this board has 50 ohm and lies inside the limits; the narrowest and the broadest are
        those of Hammerstad and Jensen's formulas, near 171 and 8 ohm (the solver's own microstrip, tested there)."""
        low, high = limits()

        assert 7.5 < low < 8.5
        assert 165 < high < 175
        assert "even one of 0.1 mm has only 171 Ω" in drawn(line=400.0)["caption"]

    @pytest.mark.parametrize(
        ("stub", "says"),
        [
            (
                Stub(0.1, 50.0),
                "plated hole joins its end to the ground plane: the branch's current is largest",
            ),
            (Stub(0.1, 50.0, end="open"), "left open: the branch's voltage is largest"),
            (
                Stub(0.1, 50.0, "series"),
                "bridge joins the branch's strips at their end: the branch's current is largest",
            ),
            (
                Stub(0.1, 50.0, "series", "open"),
                "strips are left open at their end: the branch's voltage is largest",
            ),
        ],
    )
    def test_caption(self, stub: Stub, says: str):
        """The caption says what the copper is and where its current or its voltage is largest (at a short the
        voltage is zero and the current largest, at an open end the other way round: common practice, no source)."""
        assert says in drawn(Section(0.1, 50.0), stub)["caption"]

    def test_caption_of_several(self):
        """With more than one branch the caption promises of none that it alone cancels what is left over."""
        two = drawn(Stub(0.1, 50.0), Section(0.125, 75.0), Stub(0.2, 50.0, end="open"), Reactance(10.0))[
            "caption"
        ]

        assert "cancels" not in two
        for says in (
            "each acts as",
            "broader the impedance is lower",
            "At an open end",
            "across a gap in the trace",
        ):
            assert says in two


class TestWriting:
    @pytest.mark.parametrize(
        ("load", "lines"),
        [
            (60 - 80j, ["60", "− j80 Ω"]),
            (15 + 10j, ["15", "+ j10 Ω"]),
            (75 + 0j, ["75 Ω"]),
            (0j, ["0 Ω"]),
            (complex(inf), ["open", "circuit"]),
        ],
    )
    def test_load(self, load: complex, lines: list[str]):
        """The load's impedance is set in lines that fit into its box."""
        assert lines == drawn(load=load)["load"]

    @pytest.mark.parametrize("decimals", [2, 3, 4])
    @pytest.mark.parametrize("length", ["wavelengths", "degrees"])
    def test_as_the_notation_writes(self, length, decimals: int):
        """What the browser gets to write lengths with gives, for a length, what the notation writes."""
        notation = Notation(length=length, decimals=decimals)
        writing = picture(BOTH, None, notation)["writing"]
        number = 0.1234 * writing["in_a_wavelength"]

        assert notation.wavelengths(0.1234) == f"{number:.{writing['decimals']}f}{writing['unit']}"

    @pytest.mark.parametrize(("wave", "decimals"), [(455.9, 1), (45.0, 2), (4.5, 3), (12_000.0, 1)])
    def test_millimetres(self, wave: float, decimals: int):
        """The shorter the wave, the more decimals millimetres have: half a thousandth of it at most is lost."""
        assert decimals == picture(BOTH, None, Notation(), wave)["writing"]["mm_decimals"]
        assert picture(BOTH, None, Notation(), wave)["writing"]["wavelength_mm"] == wave

    @pytest.mark.parametrize("wave", [None, nan, inf, 0.0])
    def test_no_wavelength(self, wave: float | None):
        """Without a wavelength there are no millimetres."""
        assert picture(BOTH, None, Notation(), wave)["writing"]["wavelength_mm"] is None


class TestSpoken:
    def test_published_example(self):
        """60 - j80 ohm on 50 ohm is matched 0.110 wavelength from the load by a shorted stub of 0.095 wavelength, or
        else at 0.260 by one of 0.405 (Pozar, Microwave Engineering, 4th ed., example 5.2, from memory; 0.260 is
        printed for 0.2594)."""
        spoken = picture(BOTH, "near", Notation())["spoken"]

        assert spoken.startswith(
            "From the load, 60 − j80 ohm, toward the generator: d = 0.110 wavelength of line of 50 ohm; then a shorted "
            "stub of 50 ohm across the line, l = 0.095 wavelength long. A line of 50 ohm leads on to the generator. "
            "This is the near solution. The far solution, drawn faintly: d = 0.259 wavelength of line of 50 ohm; then "
            "a shorted stub of 50 ohm across the line, l = 0.405 wavelength long."
        )

    def test_not_known_yet(self):
        """What is not known yet is said to be so, with the letter it will have."""
        plans = [BOTH[0], Plan(FAR, network(Section(nan, 50.0), Stub(nan, 50.0)))]
        asked = picture(alone(Section(nan, 75.0), Stub(nan, 50.0), symbols=("d", "l")), None, Notation())[
            "spoken"
        ]

        assert "The far solution is not known yet." in picture(plans, "near", Notation())["spoken"]
        assert "a length not known yet (d) of line of 75 ohm; then a shorted stub" in asked
        assert "across the line, of a length not known yet (l)." in asked

    def test_nothing_in_the_line(self):
        """A line with nothing in it is said as one."""
        assert drawn()["spoken"].startswith(
            "A line of 50 ohm leads from the generator to the load, 60 − j80 ohm. "
        )

    def test_no_part(self):
        """A part of no reactance in the line is none, across it a short circuit."""
        spoken = drawn(Reactance(0.0), Reactance(0.0, "shunt"))["spoken"]

        assert "no part in the line; then a short circuit across the line" in spoken

    def test_units(self):
        """Degrees and millimetres are said in words where the course and the problem ask for them: 0.1104 of a wave of
        434 MHz on a cable of velocity factor 0.66 is 50.3 mm."""
        wave = 1e3 * guide_wavelength_m(434e6, 0.66)
        plans = [Plan(plan.branch, plan.network, ("s", "t")) for plan in BOTH]
        spoken = picture(plans, "near", DEGREES, wave)["spoken"]

        assert "s = 39.8 degrees (50.3 mm) of line" in spoken
        assert "60 − i80 ohm" in spoken
        assert not set("°λΩ") & set(spoken)


class TestComponent:
    def test_no_markup_from_data(self):
        """Nothing is put into the page as markup: texts go in as texts."""
        source = "".join(path.read_text("utf-8") for path in (STATIC / "parts/line_drawing").glob("*.js"))

        assert "innerHTML" not in source
        assert "insertAdjacentHTML" not in source

    def test_modules(self):
        """The component's modules are the files of its folder and the markers that it shares with the chart."""
        folder = STATIC / "parts/line_drawing"
        own = sorted(f"parts/line_drawing/{path.name}" for path in folder.glob("*.js"))

        assert [*own, "parts/markers.js"] == sorted(LineDrawing.modules())

    def test_knows_no_lesson(self):
        """No solution of any lesson is named in the drawing, in Python or in the browser."""
        files = [
            *(STATIC / "parts/line_drawing").iterdir(),
            *(STATIC.parent / "app/parts/line_drawing").glob("*.py"),
        ]
        words = [
            w
            for path in files
            for w in ('"near"', '"far"', "near:", "far:", "--near")
            if w in path.read_text("utf-8")
        ]

        assert [] == words

    def test_keeps_its_picture(self):
        """A drawing holds the picture it was given, and fills the width it gets."""
        made = picture(BOTH, "near", Notation())
        drawing = LineDrawing(picture=json.loads(json.dumps(made)))

        assert made == drawing.picture
        assert drawing.sizing_mode == "stretch_width"
