"""Reading someone's own lines: whatever books and hands write for the same quantity and the same value."""

import pytest

from lessons.course.shunt_stub import LESSON
from lessons.grammar.lesson import Work
from lessons.grammar.notation import Notation
from lessons.homework.lines import MOST_LINES, Lines, Statement, Unread
from lessons.homework.names import Names
from tests.lessons.solving import HALF_TURN, problem

POZAR = problem(
    60 - 80j, frequency=868e6, velocity_factor=0.66
)  # 4th ed., Ex 5.2, from memory; the frequency is ours
OTHER_STUB = problem(60 - 80j, stub_impedance=75.0)


def read(text: str, given=POZAR, notation: Notation = HALF_TURN) -> tuple[Statement | Unread, ...]:
    """What a text says, in the names of a problem and a course."""
    return Lines(Names(Work(LESSON, given, notation))).read(text)


def one(text: str, **how) -> Statement:
    """The one statement of a line."""
    (said,) = read(text, **how)
    assert isinstance(said, Statement)
    return said


def likeliest(text: str, **how) -> tuple[str, str, str]:
    """Quantity, mark and value of a line, as it is understood at first."""
    said = one(text, **how)
    return said.options[0].quantity.key, said.mark, said.options[0].reading.text


class TestNames:
    @pytest.mark.parametrize(
        "name", ["z", "zL", "z_L", "z_{L}", "ZL", "z load", "Z_Load", "Normalised load impedance z"]
    )
    def test_load(self, name: str):
        """The load's impedance is known by its subscripted, spelled-out and capital names."""
        assert "normalise" == likeliest(f"{name} = 1.2-1.6j")[0]

    @pytest.mark.parametrize(
        "name", ["Γ", "ΓL", "Γ_L", "gamma", "GAMMA L", r"\Gamma_L", "rho", "ρ", "Reflection coefficient"]
    )
    def test_reflection(self, name: str):
        """The reflection coefficient is known by its letter in three alphabets."""
        assert "place" == likeliest(f"{name} = 0.593 < -46.8")[0]

    @pytest.mark.parametrize(
        "name", ["SWR", "swr", "VSWR", "S", "Standing-wave ratio", "standing wave ratio"]
    )
    def test_ratio(self, name: str):
        """The standing-wave ratio is known by its abbreviations."""
        assert ("mismatch", "", "3.91") == likeliest(f"{name} = 3.91")

    @pytest.mark.parametrize(
        ("name", "mark"),
        [
            ("d near", "near"), ("near d", "near"), ("d_near", "near"), ("dnear", "near"), ("d (near)", "near"),
            ("nearer d", "near"), ("d far", "far"), ("D FAR", "far"), ("distance, far", "far"), ("Far: d", "far"),
            ("d1", "first"), ("d_1", "first"), ("d_{1}", "first"), ("d₁", "first"), ("d(1)", "first"),
            ("da", "first"), ("d_a", "first"), ("first d", "first"), ("d2", "second"), ("d_b", "second"),
            ("d'", "second"), ("d′", "second"),
            ("d", ""), ("d/λ", ""), ("distance to the stub d", ""), ("1) d", ""), ("- d", ""),
        ],
    )  # fmt: skip
    def test_solution(self, name: str, mark: str):
        """A distance is marked near or far in words, 1 or 2, a or b, primed, or not at all."""
        assert ("distance", mark, "0.110") == likeliest(f"{name} = 0.110")

    @pytest.mark.parametrize(
        ("text", "key"),
        [
            ("y = 0.3+0.4j", "admittance"), ("y1 = 1+j1.47", "crossing"), ("y near = 1+j1.47", "crossing"),
            ("yd2 = 1-j1.47", "crossing"), ("b1 = 1.47", "susceptance"), ("bs1 = -1.47", "needed"),
            ("ys far = j1.47", "needed"), ("l = 0.095", "length"), ("ℓ₂ = 0.405", "length"),
            ("y total 1 = 1", "total"), ("yin = 1", "crossing"), ("because: shorter stub", "choose.why"),
            ("I would build: the near one", "choose.which"),
            ("start = short", "start.point"), ("direction: clockwise", "start.sense"),
        ],
    )  # fmt: skip
    def test_others(self, text: str, key: str):
        """Every quantity of the lesson has names, and y with a mark is that of a crossing."""
        assert key == likeliest(text)[0]

    def test_symbols_of_the_course(self):
        """The course's own symbols go before the names that other books would give the letter."""
        swapped = Notation(distance="l", stub_length="d")
        short = Notation(distance="s", stub_length="t")

        assert "distance" == likeliest("l1 = 0.110", notation=swapped)[0]
        assert "length" == likeliest("d1 = 0.095", notation=swapped)[0]
        assert "distance" == likeliest("S2 = 0.260", notation=short)[0]
        assert "distance" == likeliest("d = 0.110", notation=short)[0]

    def test_the_stubs_own_chart(self):
        """With a stub of another impedance, its susceptance may be meant on the line's chart or on its own."""
        keys = [option.quantity.key for option in one("bs1 = -1.47", given=OTHER_STUB).options]

        assert ["needed", "own"] == keys

    def test_a_name_for_each_quantity(self):
        """Each quantity has a name that means it alone, under any heading and in any course's symbols."""
        for given in (POZAR, OTHER_STUB):
            for notation in (HALF_TURN, Notation(distance="s", stub_length="t"), Notation("l", "d")):
                names = Names(Work(LESSON, given, notation))
                for quantity in names.quantities:
                    for side in ("near", "far") if quantity.sided else (None,):
                        name = names.name_for(quantity, side)
                        found, mark = names.find(name)
                        assert ([quantity], side or "") == ([m.quantity for m in found], mark), name


class TestValues:
    @pytest.mark.parametrize(
        ("text", "value"),
        [
            ("d = 0.172 lambda", "0.172 lambda"), ("d = 0.172λ", "0.172λ"), ("d=0.172 wl", "0.172 wl"),
            ("d: 0,172", "0,172"), ("d far 62°", "62°"), ("d = 62 deg", "62 deg"), ("d ≈ 0.172", "0.172"),
            ("d = 0.172 (from 0.065)", "0.172"), ("d = (0.172)", "0.172"), ("d = 0.237 - 0.065 = 0.172 λ", "0.172 λ"),
            ("d = 3λ/8", "0.375 wl"), ("d = lambda / 8", "0.125 wl"), ("d = 0.172 λg", "0.172 wl"),
            ("d = 0.172.", "0.172"), ("d = 0.172 λ near", "0.172 λ"), ("d = 62º", "62°"), ("D = 0.172 WL", "0.172 WL"),
        ],
    )  # fmt: skip
    def test_length(self, text: str, value: str):
        """A length is read in any writing of wavelengths or degrees, with a remark or a sum before it."""
        assert value == likeliest(text)[2]

    def test_radians(self):
        """Radians of line are a whole turn to the wavelength."""
        length = one("d = 0.6937 rad").options[0].reading

        assert pytest.approx(0.1104, abs=1e-4) == float(length.text.removesuffix(" wl"))
        assert "0.110 λ" in length.said

    def test_millimetres(self):
        """A metric length becomes wavelengths where the frequency is known: 0.66 c / 868 MHz = 227.95 mm."""
        for text in ("d = 25.2 mm", "d = 2.52 cm", "d = 0.0252 m", "d in mm = 25.2", "d [mm]: 25,2"):
            reading = one(text).options[0].reading
            assert pytest.approx(25.2) == reading.millimetres
            assert pytest.approx(25.2 / 227.945, rel=1e-4) == float(reading.text.removesuffix(" wl"))

    def test_millimetres_without_a_frequency(self):
        """Without a frequency millimetres say nothing, and the student is told what to do."""
        reading = one("d = 25.2 mm", given=problem(60 - 80j)).options[0].reading

        assert "frequency" in reading.fault

    def test_a_bare_number_too_large(self):
        """A number that no chart shows as wavelengths may be degrees or millimetres, and that is said."""
        degrees, millimetres = "Taken in degrees of line", "Taken in millimetres"
        said = [option.reading.said.partition(",")[0] for option in one("d = 5.2").options]

        assert ["", degrees, millimetres] == said
        assert [degrees, millimetres] == [o.reading.said.partition(",")[0] for o in one("d = 39.7").options]

    @pytest.mark.parametrize(
        ("text", "value"),
        [
            ("Z = 60-80j ohm", 1.2 - 1.6j), ("z = 60 − j80 Ω", 1.2 - 1.6j), ("ZL = 60 Ω - j80 Ω", 1.2 - 1.6j),
            ("ZL = 100∠-53.13° ohm", 1.2 - 1.6j), ("Y = 0.006+0.008j S", 0.3 + 0.4j), ("y = 6+8J mS", 0.3 + 0.4j),
            ("z1 = 0.3158 - 0.4648j", 1 + 1.472j), ("Z1 = 15.79 - j23.24 ohm", 1 + 1.472j),
            ("bs1 = -29.44 mS", -1.472j), ("BS1 = -0.02944 s", -1.472j), ("xs1 = 0.6793", -1.472j),
            ("Zs1 = j33.97 Ω", -1.472j),
        ],
    )  # fmt: skip
    def test_ohms_and_siemens(self, text: str, value: complex):
        """Ohms and siemens are normalised by 50 ohm, and what is given inverted is turned over."""
        assert pytest.approx(value, abs=1e-3) == complex(likeliest(text)[2])

    def test_is_said(self):
        """What was done to a value is said."""
        said = one("Z1 = 15.79 - j23.24 ohm").options[0].reading.said

        assert "Taken in ohms: normalised it is 0.316 − j0.465." in said
        assert "Given as an impedance: as an admittance it is 1.000 + j1.472." in said

    def test_a_capital_without_a_unit(self):
        """A capital Z may be in ohms or normalised."""
        values = [complex(option.reading.text) for option in one("Z = 60-80j").options]

        assert [1.2 - 1.6j, 60 - 80j] == pytest.approx(values)

    def test_by_the_stubs_impedance(self):
        """On the stub's own chart siemens are normalised by the stub's impedance."""
        texts = [option.reading.text for option in one("Bs1 = -0.02 S", given=OTHER_STUB).options]

        assert [-1j, -1.5j] == pytest.approx([complex(text) for text in texts])

    def test_ratio(self):
        """A standing-wave ratio may be written :1, in decibels, or by the size of the reflection."""
        assert "3.91" == likeliest("SWR = 3.91 : 1")[2]
        assert pytest.approx(3.91, abs=5e-3) == float(likeliest("SWR = 11.85 dB")[2])
        assert pytest.approx(3.91, abs=5e-3) == float(likeliest("|Γ| = 0.5928")[2])

    @pytest.mark.parametrize(
        ("text", "values"),
        [
            ("y = 1 ± j1.47", ["1 + j1.47", "1 - j1.47"]), ("bs = ∓1.47", ["-1.47j", "1.47j"]),
            ("b = +/-1.47", ["1.47j", "-1.47j"]), ("d = 0.110 and 0.260 λ", ["0.110 λ", "0.260 λ"]),
            ("d = 0,110, 0,260", ["0,110", "0,260"]), ("l = 34° or 146°", ["34°", "146°"]),
        ],
    )  # fmt: skip
    def test_both_solutions_at_once(self, text: str, values: list[str]):
        """Two values on a line are one for each solution."""
        said = [s for s in read(text) if isinstance(s, Statement)]

        assert values == [s.options[0].reading.text for s in said]
        assert not any(s.alone for s in said)

    @pytest.mark.parametrize(
        ("text", "key"),
        [
            ("g = 1", "unit conductance"), ("circle: g=1", "unit conductance"), ("circle = r = 1", "unit resistance"),
            ("unit circle: unit conductance", "unit conductance"), ("start: the short point", "short"),
            ("start = short-circuit", "short"), ("clockwise", "clockwise"),
            ("way: counter-clockwise", "counter-clockwise"),
        ],
    )  # fmt: skip
    def test_choices(self, text: str, key: str):
        """An answer to a question is known by its words, or by the beginning of them."""
        assert key == likeliest(text)[2]


class TestLines:
    def test_several_on_a_line(self):
        """A semicolon separates what stands on one line."""
        said = read("z = 1.2-1.6j; SWR = 3.91;")

        assert ["normalise", "mismatch"] == [
            s.options[0].quantity.key for s in said if isinstance(s, Statement)
        ]

    @pytest.mark.parametrize("heading", ["Far:", "Far solution", "the far crossing:", "FAR"])
    def test_heading(self, heading: str):
        """A heading says for the lines below it which solution they are of."""
        said = read(f"Near:\nd = 0.11\n{heading}\nd = 0.26\ny = 1-j1.47\nd near = 0.11")
        marks = [s.mark for s in said if isinstance(s, Statement)]

        assert ["near", "far", "far", "near"] == marks

    def test_numbered_heading(self):
        """Solution 1 and solution 2 may stand above, too."""
        said = read("Solution 1:\nd = 0.26\nSolution 2:\nd = 0.11")

        assert ["first", "second"] == [s.mark for s in said if isinstance(s, Statement)]

    @pytest.mark.parametrize(
        ("text", "reason"),
        [
            ("foo = 3", "nothing in this lesson is called “foo”"), ("hello there", "no name of a quantity"),
            ("0.172", "no name of a quantity"), ("= 0.172", "no name of a quantity"),
            ("Z0 = 50", "belongs to the problem"), ("f: 868 MHz", "belongs to the problem"),
            ("<script>alert(1)</script>", "no name of a quantity"),
        ],
    )  # fmt: skip
    def test_unread(self, text: str, reason: str):
        """A line without a known name gets one sentence that names the line."""
        (said,) = read(f"\n{text}")

        assert isinstance(said, Unread)
        assert said.sentence.startswith("Line 2, “")
        assert reason in said.sentence
        assert said.sentence.endswith(".")

    @pytest.mark.parametrize("value", ["abc", "1e999", "nan", "", "<script>", "x" * 10_000, "--", "0.1.2"])
    def test_bad_value(self, value: str):
        """A value that cannot be read leaves a sentence with its statement, whatever the quantity."""
        for name in ("z", "Γ", "SWR", "y near", "b1", "d", "l far", "d in mm"):
            said = read(f"{name} = {value}")
            faults = [
                o.reading.fault or o.reading.text for s in said if isinstance(s, Statement) for o in s.options
            ]
            assert faults or isinstance(said[0], Unread)
            assert all(fault.endswith(".") or fault == value for fault in faults), (name, faults)

    def test_too_many(self):
        """Beyond the most lines that are read there is one sentence, not one a line."""
        said = read("d = 0.1\n" * (MOST_LINES + 50))

        assert MOST_LINES + 1 == len(said)
        assert "only the first" in said[-1].sentence  # type: ignore[union-attr]

    @pytest.mark.parametrize(
        "text",
        [
            "x" * 10_000, "d = " + "1 " * 5_000, "z = " + "(" * 10_000, "± " * 5_000, "near " * 2_000 + "= 3",
            " " * 5_000 + "d = " + " " * 5_000 + "3", "d = 0.1" + " " * 5_000 + "and" + " " * 5_000, "1: " * 3_000,
        ],
    )  # fmt: skip
    def test_hostile_lengths(self, text: str):
        """A text of ten thousand characters is read to its end like any other: no pattern runs away on it."""
        assert 1 == len(read(text))
