"""The picture handed to the browser: plain data, read from the networks, and said in sentences."""

import copy
import json
from math import nan

import pytest

from app.parts.line_drawing import OPEN_END, SCRIPTS, LineDrawing, picture
from app.parts.template import STATIC
from core import single_stub
from core.network import MatchingNetwork, Reactance, Section, Stub
from lessons.grammar.kinds import Millimetres
from lessons.grammar.lesson import Problem, Side
from lessons.grammar.notation import Notation

SHORTED = Problem(60 - 80j)
NEAR, FAR = single_stub(60 - 80j, 50.0)
BOTH: dict[Side, MatchingNetwork] = {"near": NEAR, "far": FAR}
DEGREES = Notation("s", "t", length="degrees", imaginary="i")


def network(*elements: object, load: complex = 60 - 80j) -> MatchingNetwork:
    """A network of these elements on a line of 50 ohm."""
    return MatchingNetwork(load, 50.0, elements)  # type: ignore[arg-type]


class TestLengths:
    def test_both(self):
        """Both solutions stand in the picture with the lengths of their elements, to the last digit."""
        sides = picture(SHORTED, Notation(), BOTH)["sides"]

        assert {"distance": NEAR.elements[0].length, "length": NEAR.elements[1].length} == sides["near"]
        assert {"distance": FAR.elements[0].length, "length": FAR.elements[1].length} == sides["far"]

    def test_from_the_elements(self):
        """Whatever the problem would need, the lengths drawn are those of the network, a student's own included."""
        wrong: dict[Side, MatchingNetwork] = {"near": network(Section(0.2, 50.0), Stub(0.3, 50.0))}

        assert {"distance": 0.2, "length": 0.3} == picture(SHORTED, Notation(), wrong)["sides"]["near"]

    @pytest.mark.parametrize(
        ("networks", "near"),
        [
            pytest.param({}, (None, None), id="nothing known"),
            pytest.param({"near": None}, (None, None), id="no network yet"),
            pytest.param({"near": network()}, (None, None), id="no element yet"),
            pytest.param({"near": network(Section(0.11, 50.0))}, (0.11, None), id="distance alone"),
            pytest.param(
                {"near": network(Section(0.11, 50.0), Stub(nan, 50.0))}, (0.11, None), id="no length"
            ),
            pytest.param({"near": network(Section(nan, 50.0), Stub(nan, 50.0))}, (None, None), id="no match"),
        ],
    )
    def test_partly_known(self, networks, near):
        """What is not known, or does not exist, is None."""
        drawn = picture(SHORTED, Notation(), networks)["sides"]

        assert {"distance": near[0], "length": near[1]} == drawn["near"]
        assert {"distance": None, "length": None} == drawn["far"]

    def test_plain_data(self):
        """The picture is JSON, comes back from JSON as it was, and holds no not-a-number."""
        made = picture(
            SHORTED, Notation(), {"near": network(Section(nan, 50.0), Stub(nan, 50.0)), "far": FAR}
        )

        assert made == json.loads(json.dumps(made, allow_nan=False))

    @pytest.mark.parametrize(
        "elements",
        [
            pytest.param((Stub(0.1, 50.0),), id="stub at the load"),
            pytest.param(
                (Section(0.1, 50.0), Stub(0.1, 50.0), Section(0.1, 50.0)), id="line behind the stub"
            ),
            pytest.param((Section(0.1, 50.0), Reactance(-50.0, "shunt")), id="lumped"),
        ],
    )
    def test_another_kind_of_network(self, elements):
        """A network that the drawing cannot show is refused with the names of its elements, not drawn in part."""
        names = ", ".join(type(element).__name__.lower() for element in elements)
        with pytest.raises(ValueError, match=f"one stub, but this network has: {names}"):
            picture(SHORTED, Notation(), {"near": network(*elements)})

    def test_unknown_side(self):
        """A solution that is neither near nor far is refused by its name."""
        with pytest.raises(ValueError, match="near or far, not 'middle'"):
            picture(SHORTED, Notation(), {"middle": NEAR})  # type: ignore[dict-item]
        with pytest.raises(ValueError, match="near or far, not 'left'"):
            picture(SHORTED, Notation(), {}, "left")  # type: ignore[arg-type]


class TestStub:
    def test_from_the_network(self):
        """Impedance, end and placement are those of the stub in the network."""
        stub = Stub(0.1, 75.0, "series", "open")
        drawn = picture(SHORTED, Notation(), {"far": network(Section(0.1, 50.0), stub)})["stub"]

        assert {"ohms": 75.0, "text": "75 Ω", "placement": "series", "end": "open"} == drawn

    def test_before_it_is_known(self):
        """Until a network has a stub, the problem says what kind is to come, and the lesson where it goes."""
        problem = Problem(60 - 80j, stub_impedance=100.0, end="open")
        drawn = picture(problem, Notation(), {}, placement="series")["stub"]

        assert {"ohms": 100.0, "text": "100 Ω", "placement": "series", "end": "open"} == drawn

    @pytest.mark.parametrize(("end", "note"), [("open", OPEN_END), ("short", "")])
    def test_caution(self, end, note):
        """The caution about high voltage and radiation stands where the end is open, and only there."""
        assert note == picture(Problem(60 - 80j, end=end), Notation(), {})["note"]

    @pytest.mark.parametrize(
        ("placement", "end", "says"),
        [
            (
                "shunt",
                "short",
                "plated hole joins its end to the ground plane: the branch's current is largest",
            ),
            ("shunt", "open", "left open: the branch's voltage is largest"),
            (
                "series",
                "short",
                "bridge joins the branch's strips at their end: the branch's current is largest",
            ),
            ("series", "open", "strips are left open at their end: the branch's voltage is largest"),
        ],
    )
    def test_caption(self, placement, end, says):
        """The caption says what the copper is and where its current or its voltage is largest (at a short the
        voltage is zero and the current largest, at an open end the other way round: common practice, no source)."""
        assert says in picture(Problem(60 - 80j, end=end), Notation(), {}, placement=placement)["caption"]


class TestWriting:
    @pytest.mark.parametrize(
        ("load", "lines"),
        [
            (60 - 80j, ["60", "− j80 Ω"]),
            (15 + 10j, ["15", "+ j10 Ω"]),
            (75 + 0j, ["75 Ω"]),
            (complex(float("inf")), ["open", "circuit"]),
        ],
    )
    def test_load(self, load, lines):
        """The load's impedance is set in lines that fit into its box."""
        assert lines == picture(Problem(load), Notation(), {})["load"]

    @pytest.mark.parametrize("decimals", [2, 3, 4])
    @pytest.mark.parametrize("length", ["wavelengths", "degrees"])
    def test_as_the_notation_writes(self, length, decimals):
        """What the browser gets to write lengths with gives, for a length, what the notation writes."""
        notation = Notation(length=length, decimals=decimals)
        writing = picture(SHORTED, notation, {})["writing"]
        number = 0.1234 * writing["in_a_wavelength"]

        assert notation.wavelengths(0.1234) == f"{number:.{writing['decimals']}f}{writing['unit']}"

    def test_symbols(self):
        """The symbols are those of the course."""
        assert {"distance": "s", "length": "t"} == picture(SHORTED, DEGREES, {})["symbols"]

    def test_millimetres(self):
        """A wave of 434 MHz on a cable of velocity factor 0.66 is 455.9 mm long: 299 792 458 m/s times 0.66 over
        434 MHz (speed of light by the definition of the metre, SI Brochure, 9th ed.)."""
        with_frequency = Problem(60 - 80j, frequency=434e6, velocity_factor=0.66)

        assert picture(SHORTED, Notation(), {})["writing"]["wavelength_mm"] is None
        assert (
            pytest.approx(455.9056, abs=5e-5)
            == picture(with_frequency, Notation(), {})["writing"]["wavelength_mm"]
        )


class TestSpoken:
    def test_published_example(self):
        """60 - j80 ohm on 50 ohm is matched 0.110 wavelength from the load by a shorted stub of 0.095 wavelength, or
        else at 0.260 by one of 0.405 (Pozar, Microwave Engineering, 4th ed., example 5.2, from memory; 0.260 is
        printed for 0.2594)."""
        spoken = picture(SHORTED, Notation(), BOTH)["spoken"]

        assert spoken.startswith(
            "From the load of 60 − j80 ohm, 0.110 wavelength toward the generator, a shorted stub of 0.095 wavelength "
            "hangs across the line. This is the near solution. The far solution, drawn faintly, has its stub at 0.259 "
            "wavelength, 0.405 wavelength long."
        )

    def test_current_first(self):
        """The sentences begin with the solution that is drawn at full strength."""
        spoken = picture(SHORTED, Notation(), BOTH, "far")["spoken"]

        assert "0.259 wavelength toward the generator, a shorted stub of 0.405 wavelength hangs" in spoken
        assert "This is the far solution. The near solution, drawn faintly" in spoken

    def test_series_stub_of_other_impedance(self):
        """A series stub is set into the line, and an impedance that is not the line's is said."""
        near = network(Section(0.12, 50.0), Stub(0.397, 75.0, "series", "open"), load=100 + 80j)
        spoken = picture(Problem(100 + 80j, stub_impedance=75.0, end="open"), Notation(), {"near": near})[
            "spoken"
        ]

        assert "an open stub of 75 ohm and 0.397 wavelength is set into the line." in spoken

    def test_not_known_yet(self):
        """What is not known yet is said to be so."""
        nothing = picture(SHORTED, Notation(), {})["spoken"]
        distance = picture(SHORTED, Notation(), {"near": network(Section(0.11, 50.0))})["spoken"]
        other = picture(SHORTED, Notation(), {"far": network(Section(0.26, 50.0))})["spoken"]

        assert nothing.startswith(
            "A line of 50 ohm leads from the generator to the load, 60 − j80 ohm; where the stub"
        )
        assert "a shorted stub hangs across the line; its length is not known yet." in distance
        assert other.startswith(
            "The far solution, drawn faintly, has its stub at 0.260 wavelength, of a length not known"
        )

    def test_units(self):
        """Degrees and millimetres are said in words where the course and the problem ask for them."""
        problem = Problem(60 - 80j, frequency=434e6, velocity_factor=0.66)
        millimetres = Millimetres(455.9056).write(0.1104232 * 455.9056, DEGREES)
        spoken = picture(problem, DEGREES, {"near": NEAR})["spoken"]

        assert f"39.8 degrees ({millimetres}) toward the generator" in spoken
        assert "60 − i80 ohm" in spoken
        assert "°" not in spoken
        assert "λ" not in picture(SHORTED, Notation(), BOTH)["spoken"]


class TestComponent:
    def test_scripts(self):
        """The component's script is its files, each once and whole."""
        assert [(STATIC / name).read_text("utf-8") in LineDrawing._esm for name in SCRIPTS] == [True] * len(
            SCRIPTS
        )
        assert set(SCRIPTS) == {path.name for path in STATIC.glob("line_drawing*.js")}

    def test_no_markup_from_data(self):
        """Nothing is put into the page as markup: texts go in as texts."""
        assert "innerHTML" not in LineDrawing._esm
        assert "insertAdjacentHTML" not in LineDrawing._esm

    def test_keeps_its_picture(self):
        """A drawing holds the picture it was given, and fills the width it gets."""
        made = picture(SHORTED, Notation(), BOTH)
        drawing = LineDrawing(picture=copy.deepcopy(made))

        assert made == drawing.picture
        assert drawing.sizing_mode == "stretch_width"
