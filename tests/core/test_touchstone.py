"""The reader of one-port files: what it accepts, and each fault with its line.

The rules are those of the Touchstone File Format Specification, revisions 1.1 and 2.0 (from memory).
"""

import numpy as np
import pytest

from core import NotATouchstoneFile, OnePort, OutOfRange, parse_touchstone, read_touchstone

VERSION_2 = """\
! a wire loop in a culvert
[Version] 2.0
# MHz S RI R 50
[Number of Ports] 1
[Number of Frequencies] 2
[Reference] 75
[Network Data]
433 0.5 -0.5 ! first
435 0 -0.25
[End]
"""


def edited(old: str, new: str) -> str:
    """The file of version 2.0 with one thing changed."""
    assert old in VERSION_2
    return VERSION_2.replace(old, new)


class TestVersion1:
    def test_defaults(self):
        """A bare option line means gigahertz, S parameters, magnitude and angle, 50 ohm."""
        port = parse_touchstone("#\n1 0.5 90")

        assert (1e9, 50.0) == (port.frequency[0], port.reference_resistance)
        assert pytest.approx(0.5j) == port.reflection[0]

    @pytest.mark.parametrize(("unit", "hertz"), [("Hz", 1), ("kHz", 1e3), ("MHZ", 1e6), ("ghz", 1e9)])
    def test_units(self, unit, hertz):
        """Frequencies are in hertz up to gigahertz, in any case of letters."""
        assert (
            pytest.approx(2.5 * hertz, rel=1e-15)
            == parse_touchstone(f"# {unit} S RI R 50\n2.5 0 0").frequency[0]
        )

    @pytest.mark.parametrize(
        ("form", "pair"),
        [
            ("RI", "0.3 0.4"),
            ("MA", "0.5 53.13010235415598"),
            ("DB", "-6.020599913279624 53.13010235415598"),
        ],
    )
    def test_formats(self, form, pair):
        """The same reflection as real and imaginary part, as magnitude and angle, and as decibels and
        angle."""
        assert pytest.approx(0.3 + 0.4j, abs=1e-15) == parse_touchstone(f"# S {form}\n1 {pair}").reflection[0]

    def test_impedance_is_relative(self):
        """Z and Y parameters are relative to the reference resistance in version 1.1."""
        impedance = parse_touchstone("# MHz Z RI R 75\n1 2 1").impedance
        admittance = parse_touchstone("# MHz Y RI R 75\n1 2 1").impedance

        assert pytest.approx([150 + 75j]) == impedance
        assert pytest.approx([75 / (2 + 1j)]) == admittance

    def test_any_order_and_case(self):
        """Options stand in any order and case."""
        port = parse_touchstone("# r 75 ri MHz s\n1 0.1 0.2")

        assert (75.0, 1e6, 0.1 + 0.2j) == (port.reference_resistance, port.frequency[0], port.reflection[0])

    def test_comments_and_blank_lines(self):
        """What follows an exclamation mark is not read, nor are blank lines."""
        port = parse_touchstone("! made by hand\n\n# Hz S RI ! options\n\t1 0 0 ! sample\n\n2 .5 -1e-1\n")

        assert [0, 0.5 - 0.1j] == port.reflection.tolist()

    def test_later_option_lines(self):
        """Only the first option line counts."""
        assert 1.0 == parse_touchstone("# Hz S RI\n# GHz Z MA\n1 0 0").frequency[0]

    def test_open_circuit(self):
        """A reflection of one is an open circuit."""
        assert [np.inf] == parse_touchstone("# Hz S RI\n1 1 0").impedance.real.tolist()

    @pytest.mark.parametrize(
        ("text", "line", "fault"),
        [
            ("", 1, "holds no data"),
            ("! nothing\n", 1, "holds no data"),
            ("# Hz S RI\n", 1, "ends without any data"),
            ("1 0 0\n# Hz S RI\n", 1, "before the option line"),
            ("# Hz S RI\n1 0 0 0 0 0 0 0 0\n", 2, "three numbers in a line, .* not 9"),
            ("# Hz S RI\n1 0\n", 2, "three numbers in a line, .* not 2"),
            ("# Hz S RI\n\n1 0 zero\n", 3, "'zero' is not a number"),
            ("# Hz S RI\n1 0 nan\n", 2, "'nan' is not a number"),
            ("# Hz S RI\n1 0 1e999\n", 2, "'1e999' is not a number"),
            ("# Hz S RI\n1 0 1_0\n", 2, "'1_0' is not a number"),
            ("# Hz S RI\n2 0 0\n1 0 0\n", 3, "must rise"),
            ("# Hz S RI\n1 0 0\n1 0 0\n", 3, "must rise"),
            ("# Hz S RI\n-1 0 0\n", 2, "from zero upward"),
            ("# Hz S MA\n1 -0.5 0\n", 2, "magnitude cannot be below zero"),
            ("# Hz S DB\n1 9000 0\n", 2, "9000 dB is beyond"),
            ("# Hz Z RI\n1 -1 0\n", 2, "minus the reference"),
            ("# Hz Y RI R 50\n1 1e308 1e308\n", 2, "too large"),
            ("# Hz H RI\n1 0 0\n", 1, "H parameters describe two ports"),
            ("# Hz Q RI\n1 0 0\n", 1, "does not know 'Q'"),
            ("# Hz THz S\n1 0 0\n", 1, "does not know 'THZ'"),
            ("# Hz MHz S\n1 0 0\n", 1, "gives the unit twice"),
            ("# S Z\n1 0 0\n", 1, "gives the parameter twice"),
            ("# S R\n1 0 0\n", 1, "ohms above zero"),
            ("# S R -50\n1 0 0\n", 1, "ohms above zero"),
            ("# S R fifty\n1 0 0\n", 1, "'FIFTY' is not a number"),
            ("# Hz S RI\n[End]\n", 2, "needs \\[Version\\] 2.0"),
        ],
    )
    def test_fault(self, text, line, fault):
        """Each fault is told in a sentence that starts with its line, and the error holds line and text."""
        with pytest.raises(NotATouchstoneFile, match=f"^Line {line}: .*{fault}") as raised:
            parse_touchstone(text)

        assert line == raised.value.line
        assert raised.value.value in text


class TestVersion2:
    def test_reference(self):
        """The reference keyword overrides the option line."""
        port = parse_touchstone(VERSION_2)

        assert (75.0, [433e6, 435e6]) == (port.reference_resistance, port.frequency.tolist())

    def test_without_reference(self):
        """Without the keyword the option line's resistance holds."""
        assert 50.0 == parse_touchstone(edited("[Reference] 75\n", "")).reference_resistance

    def test_reference_in_next_line(self):
        """The resistance may stand in the line after its keyword."""
        assert 75.0 == parse_touchstone(edited("[Reference] 75", "[Reference]\n75")).reference_resistance

    def test_ohms_and_siemens(self):
        """Z parameters are ohms, and Y parameters siemens, whatever the reference."""
        ohms = parse_touchstone(edited("S RI", "Z RI")).impedance
        siemens = parse_touchstone(edited("S RI", "Y RI")).impedance

        assert pytest.approx([0.5 - 0.5j, -0.25j]) == ohms
        assert pytest.approx([1 / (0.5 - 0.5j), 4j]) == siemens

    def test_free_text(self):
        """What stands in an information block is not read, whatever it is, and keywords come in any case."""
        block = "[begin information]\nGauge hut\n[Network Data]\n# no option\n[END INFORMATION]\n"

        assert 2 == parse_touchstone(edited("[Network Data]", block + "[NETWORK  data]")).frequency.size

    @pytest.mark.parametrize("form", ["Full", "lower", "Upper"])
    def test_matrix_format(self, form):
        """A one-port matrix is the same in each matrix format."""
        text = edited("[Network Data]", f"[Matrix Format] {form}\n[Network Data]")

        assert 2 == parse_touchstone(text).frequency.size

    @pytest.mark.parametrize(
        ("old", "new", "line", "fault"),
        [
            ("[Version] 2.0", "[Version] 3.0", 2, "first line must be \\[Version\\] 2.0"),
            ("[Version] 2.0", "[Number of Frequencies] 2", 5, "came before, in line 2"),
            ("[Version] 2.0\n", "[Reference] 50\n[Version] 2.0\n", 7, "came before, in line 2"),
            ("# MHz S RI R 50\n", "", 9, "option line is missing"),
            ("[Number of Ports] 1", "[Number of Ports] 2", 4, "takes one port"),
            ("[Number of Ports] 1", "[Number of Ports] one", 4, "whole number"),
            ("[Number of Ports] 1", "[Number of Ports] 0", 4, "whole number"),
            ("[Number of Ports] 1\n", "", 9, "keyword \\[Number Of Ports\\] is missing"),
            ("[Number of Frequencies] 2", "[Number of Frequencies] 3", 10, "announces 3 .* holds 2"),
            ("[Reference] 75", "[Two-Port Data Order] 12_21", 6, "two or more ports"),
            ("[Reference] 75", "[Mixed-Mode Order] D1,2", 6, "two or more ports"),
            ("[Reference] 75", "[Colour] blue", 6, "not known"),
            ("[Reference] 75", "[Reference] 75 75", 6, "one resistance for one port, not 2"),
            ("[Reference] 75", "[Reference]", 6, "one resistance for one port, not 0"),
            ("[Reference] 75", "[Reference] 0", 6, "ohms above zero"),
            ("[Reference] 75", "[Matrix Format] Square", 6, "Full, Lower or Upper"),
            ("[Reference] 75", "75", 6, "only a keyword can follow"),
            ("[End]\n", "", 9, "keyword \\[End\\] is missing"),
            ("[End]\n", "[End]\n436 0 0\n", 11, "only a keyword can follow \\[End\\]"),
            ("[End]\n", "[End]\n[Matrix Format] Full\n", 11, "must close with"),
            ("435 0 -0.25", "435 0", 9, "three numbers"),
            ("435 0 -0.25", "432 0 0", 9, "must rise"),
        ],
    )
    def test_fault(self, old, new, line, fault):
        """Each departure from the standard is told with its line."""
        with pytest.raises(NotATouchstoneFile, match=fault) as raised:
            parse_touchstone(edited(old, new))

        assert line == raised.value.line


class TestWrapped:
    @pytest.mark.parametrize("wrapped", ["433\n0.5 -0.5", "433 0.5\n-0.5", "433 ! first\n0.5\n\n-0.5"])
    def test_is_read(self, wrapped):
        """In version 2.0 the numbers of one frequency may stand in several lines."""
        assert [0.5 - 0.5j, -0.25j] == parse_touchstone(edited("433 0.5 -0.5", wrapped)).reflection.tolist()

    @pytest.mark.parametrize(
        ("old", "new", "line"), [("433 0.5 -0.5", "433", 8), ("435 0 -0.25", "435\n0", 9)]
    )
    def test_what_is_missing(self, old, new, line):
        """A frequency that stays short of its pair is blamed itself, not the end of the file."""
        with pytest.raises(NotATouchstoneFile, match=rf"^Line {line}: one port has three numbers"):
            parse_touchstone(edited(old, new))

    @pytest.mark.parametrize("text", ["[Version 2.0\n# Hz S RI\n1 0 0", "[", "[Version] 2.0\n[Reference\n50"])
    def test_open_bracket(self, text):
        """A bracket that is not closed is blamed, with the line that it is in."""
        with pytest.raises(
            NotATouchstoneFile, match=rf"^Line {1 + text.count('] 2')}: .*here one is not closed"
        ):
            parse_touchstone(text)


class TestOnePort:
    PORT = parse_touchstone(VERSION_2)

    def test_interpolation(self):
        """Between two samples the reflection lies on the straight line between them, in their plane."""
        assert pytest.approx([0.5 - 0.5j, 0.25 - 0.375j, 0.125 - 0.3125j]) == self.PORT.reflection_at(
            [433e6, 434e6, 434.5e6]
        )

    def test_impedance(self):
        """The impedance is that of the interpolated reflection, with respect to the file's resistance."""
        gamma = 0.25 - 0.375j

        assert pytest.approx(75 * (1 + gamma) / (1 - gamma)) == self.PORT.impedance_at(434e6)

    @pytest.mark.parametrize("frequency", [432.9e6, 435.1e6, -1, np.nan])
    def test_outside(self, frequency):
        """Nothing is said about frequencies outside the file."""
        with pytest.raises(
            OutOfRange, match=r"frequency must be .* at least 4.33e\+08 and at most 4.35e\+08"
        ):
            self.PORT.impedance_at(frequency)

    def test_as_load(self):
        """As a load over frequency it says the same at ratios to the design frequency."""
        load = self.PORT.as_load(434e6)

        assert pytest.approx(self.PORT.impedance_at([433.5e6, 434e6])) == load.at([433.5 / 434, 1.0])

    def test_a_little_above_one(self):
        """An error of measurement is kept, named by its frequency, and as a load has no resistance."""
        port = parse_touchstone("# MHz S RI\n433 0 1.0003\n434 0.5 0\n435 -1 0")

        assert 1.0003j == port.reflection[0]
        assert [433e6] == port.above_one.tolist()
        assert "counted as 1 where above: 433000000 Hz" in repr(port)
        assert pytest.approx(50j, rel=1e-12) == port.as_load(434e6).at(433 / 434)
        assert 0 == port.impedance[0].real

    @pytest.mark.parametrize(("largest", "line"), [(1.01, 3), (1.2, 4)])
    def test_active_port_is_refused(self, largest, line):
        """A port that gives back more than an error of measurement is refused with its line and frequency."""
        with pytest.raises(NotATouchstoneFile, match=rf"^Line {line}: at ") as refusal:
            parse_touchstone("# MHz S RI\n1 0 1.01\n2 1.15 0\n3 0 1.21", largest_reflection=largest)

        assert f"at {line - 1}000000 Hz the reflection is " in str(refusal.value)

    @pytest.mark.parametrize("mark", ["\f", "\v", "\x1c", "\u2028", "\x85"], ids=repr)
    def test_odd_letters_in_comments(self, mark):
        """A comment may hold any sign; only a line's end ends it."""
        port = parse_touchstone(f"# Hz S RI ! made{mark}by hand\r\n1 0 0.5 ! here{mark}too\r2 0 0.25\n")

        assert [0.5j, 0.25j] == port.reflection.tolist()

    def test_from_disk(self, tmp_path):
        """A file is read as its text is, with or without a byte-order mark, odd letters in comments
        included."""
        path = tmp_path / "culvert.s1p"
        path.write_bytes(b"\xef\xbb\xbf" + VERSION_2.replace("wire", "w\xefre").encode("latin-1"))

        assert self.PORT.reflection.tolist() == read_touchstone(path).reflection.tolist()

    def test_prints(self):
        """It says in a line what it holds."""
        assert "OnePort(samples: 2; range: 4.33e+08 to 4.35e+08 Hz; reference: 75 ohm)" == repr(self.PORT)


class TestMadeByHand:
    @pytest.mark.parametrize(
        ("arguments", "fault"),
        [
            (([2e9, 1e9], [0, 0], 50), "frequencies must rise"),
            ((1e9, 0.5, 50), "be one at least"),
            (([1e9], [0, 0], 50), "one reflection at each"),
            (([1e9], [np.nan], 50), "one reflection at each"),
            (([1e9], [0.1], [50, 75]), "single number"),
            (([1e9], ["a"], 50), "reflection must be"),
        ],
    )
    def test_what_is_no_measurement(self, arguments, fault):
        """A measurement made by hand is checked as one from a file is."""
        with pytest.raises(OutOfRange, match=fault):
            OnePort(*arguments)
