"""Two-port files: what is read, what is refused with its line, and what is written."""

from contextlib import suppress

import numpy as np
import pytest

from core import (
    NotATouchstoneFile,
    OutOfRange,
    TwoPort,
    UnknownChoice,
    format_touchstone,
    parse_touchstone,
    parse_two_port,
    read_touchstone,
    read_two_port,
    two_port_parameters,
    write_touchstone,
)
from tests.core.two_ports import SWEEP, random_scattering, random_two_port

ROW = "434 0.1 0.2 0.3 0.4 0.5 0.6 0.7 0.8"
VERSION_2 = f"""\
[Version] 2.0
# MHz S RI R 50
[Number of Ports] 2
[Two-Port Data Order] 12_21
[Number of Frequencies] 1
[Network Data]
{ROW}
[End]
"""
NOISY = VERSION_2.replace("[Network", "[Number of Noise Frequencies] 1\n[Network").replace(
    "[End]", "[Noise Data]\n434 0.7 0.64 69 0.38\n[End]"
)


def changed(old: str, new: str, text: str = VERSION_2) -> str:
    """The file with one piece changed, which must be there."""
    assert old in text
    return text.replace(old, new)


class TestOrder:
    def test_version_1(self):
        """The older format lists S11, S21, S12, S22."""
        assert [[0.1 + 0.2j, 0.5 + 0.6j], [0.3 + 0.4j, 0.7 + 0.8j]] == parse_two_port(
            f"# MHz S RI\n{ROW}"
        ).scattering[0].tolist()

    @pytest.mark.parametrize(("order", "place"), [("12_21", (0, 1)), ("21_12", (1, 0))])
    def test_version_2(self, order, place):
        """The newer format says which of S12 and S21 is first."""
        port = parse_two_port(changed("12_21", order))

        assert 0.3 + 0.4j == port.scattering[0][place]

    @pytest.mark.parametrize("form", ["Lower", "upper"])
    def test_half_a_matrix(self, form):
        """Half of a symmetrical matrix has three pairs, the second for both ways."""
        text = changed("[Network", f"[Matrix Format] {form}\n[Network").replace(" 0.7 0.8", "")
        s = parse_two_port(text).scattering[0]

        assert s[0, 1] == s[1, 0] == 0.3 + 0.4j
        assert 0.5 + 0.6j == s[1, 1]

    def test_wrapped_lines(self):
        """A frequency of the newer format may go on in the next lines."""
        assert (
            parse_two_port(changed(" 0.5 0.6 ", "\n0.5\n0.6 ")).scattering.tolist()
            == parse_two_port(VERSION_2).scattering.tolist()
        )


class TestReference:
    def test_of_each_port(self):
        """In the newer format each port may have a resistance of its own, on one line or more."""
        port = parse_two_port(changed("[Network", "[Reference] 30\n75\n[Network"))

        assert [30, 75] == port.reference.tolist()

    def test_relative_parameters(self):
        """In the older format impedances are relative to the reference, in the newer in ohms."""
        old = parse_two_port("# MHz Z RI R 75\n434 1 0 0.5 0 0.5 0 2 0")
        new = parse_two_port(changed(ROW, "434 75 0 37.5 0 37.5 0 150 0").replace(" S ", " Z "))

        assert pytest.approx(np.array([[75, 37.5], [37.5, 150]])) == two_port_parameters(old, "Z")[0]
        assert pytest.approx(two_port_parameters(old, "Z")) == two_port_parameters(new, "Z")

    def test_hybrid_parameters(self):
        """Of relative hybrid parameters h11 is times the reference, h22 over it, the others are plain numbers."""
        port = parse_two_port("# MHz H RI R 50\n434 2 0 100 0 0.01 0 0.5 0")

        assert pytest.approx(np.array([[100, 0.01], [100, 0.01]])) == two_port_parameters(port, "H")[0]


class TestNoise:
    def test_version_1(self):
        """Where frequency falls back, lines of five numbers are noise, kept as they are in hertz."""
        port = parse_two_port(f"# MHz S RI\n{ROW}\n400 0.7 0.64 69 0.38\n434 0.8 0.6 70 0.4")

        assert [[400e6, 0.7, 0.64, 69, 0.38], [434e6, 0.8, 0.6, 70, 0.4]] == port.noise.tolist()
        assert 1 == port.frequency.size

    def test_version_2(self):
        """The newer format announces them."""
        assert [[434e6, 0.7, 0.64, 69, 0.38]] == parse_two_port(NOISY).noise.tolist()

    def test_none(self):
        """A file without noise has none."""
        assert parse_two_port(VERSION_2).noise is None


REFUSED = {
    "nothing": ("", 1, "holds no data"),
    "only comments": ("! whip\n", 1, "holds no data"),
    "no samples": ("# MHz S RI\n", 1, "without any data"),
    "data first": (f"{ROW}\n# MHz S RI", 1, "before the option line"),
    "keyword in version 1": (f"# MHz S RI\n[Reference] 50\n{ROW}", 2, r"needs \[Version\] 2.0"),
    "one port": ("# MHz S RI\n434 0.1 0.2", 2, "9 numbers in a line"),
    "falling": (f"# MHz S RI\n{ROW}\n{ROW}", 3, "frequencies must rise"),
    "no number": (f"# MHz S RI\n{ROW.replace('0.8', 'x')}", 2, "'x' is not a number"),
    "noise of four": (f"# MHz S RI\n{ROW}\n400 1 2 3 4\n420 1 2 3", 4, "five numbers, not 4"),
    "noise falls": (f"# MHz S RI\n{ROW}\n400 1 2 3 4\n390 1 2 3 4", 4, "frequencies must rise"),
    "no two-port": ("# MHz Z RI\n433 1 0 0 0 0 0 1 0\n434 -1 0 0 0 0 0 -1 0", 3, "reflects without bound"),
    "too large": ("# MHz Z RI\n434 1e300 0 1e300 0 1e300 0 1e300 0", 2, "without bound|too large"),
    "no parameter": (f"# MHz S RI\n{ROW.replace('0.4', '1e13')}", 2, "which no two-port has"),
    "frequency too large": (f"# GHz S RI\n{ROW.replace('434', '1e308')}", 2, "beyond all numbers"),
    "unknown option": (f"# MHz T RI\n{ROW}", 1, "S, Y, Z, H, G, MA"),
    "no bracket": (changed("[Version] 2.0", "[Version 2.0"), 1, r"must be \[Version\] 2.0"),
    "version 3": (changed("2.0", "3.0"), 1, r"must be \[Version\] 2.0"),
    "one port announced": (changed("Ports] 2", "Ports] 1"), 3, "takes two ports"),
    "no order": (changed("[Two-Port Data Order] 12_21\n", ""), 7, r"\[Two-Port Data Order\] is missing"),
    "order": (changed("12_21", "11_22"), 4, "12_21 or 21_12"),
    "matrix format": (changed("[Network", "[Matrix Format] Round\n[Network"), 6, "Full, Lower or Upper"),
    "mixed mode": (changed("[Network", "[Mixed-Mode Order] D1,2 C1,2\n[Network"), 6, "mixed-mode"),
    "unknown keyword": (changed("[Network", "[Colour] blue\n[Network"), 6, "not known"),
    "twice": (changed("[Network", "[Number of Ports] 2\n[Network"), 6, "came before, in line 3"),
    "one reference": (changed("[Network", "[Reference] 50\n[Network"), 6, "two resistances for two ports, not 1"),
    "too few": (changed("Frequencies] 1", "Frequencies] 2"), 7, "announces 2 frequencies and holds 1"),
    "short": (changed(" 0.8", ""), 7, "has 8 numbers with its own, not 9"),
    "long": (changed("0.8", "0.8 0.9"), 7, "has 9 numbers with its own, not 10"),
    "no samples in version 2": (changed(f"{ROW}\n", ""), 6, "holds 0"),
    "text behind a keyword": (changed("[Number of F", "433\n[Number of F"), 5, "only a keyword can follow"),
    "text after the end": (VERSION_2 + "x", 9, r"only a keyword can follow \[End\]"),
    "keyword after the end": (VERSION_2 + "[Reference] 50 50", 9, "must close with"),
    "noise not announced": (changed("[Number of Noise Frequencies] 1\n", "", NOISY), 10, "Noise Frequencies"),
    "noise announced only": (changed("[Net", "[Number of Noise Frequencies] 1\n[Net"), 9, "Noise Data"),
    "too few noise": (changed("Noise Frequencies] 1", "Noise Frequencies] 2", NOISY), 10, "holds 1"),
}  # fmt: skip


class TestRefused:
    @pytest.mark.parametrize(("text", "line", "fault"), REFUSED.values(), ids=REFUSED)
    def test_fault_and_line(self, text, line, fault):
        """What the standard does not allow is named, with its line and that line's text."""
        with pytest.raises(NotATouchstoneFile, match=fault) as caught:
            parse_two_port(text)

        assert line == caught.value.line
        assert caught.value.value in ("", *(text.splitlines() or [""])[line - 1].partition("!")[::2])

    def test_one_ports_still_have_no_hybrid_parameters(self):
        """A load has no H parameters, in the reader of one-ports."""
        with pytest.raises(NotATouchstoneFile, match="H parameters describe two ports"):
            parse_touchstone("# MHz H RI\n434 1 0")

    @pytest.mark.parametrize("seed", range(200))
    def test_broken_files(self, seed):
        """A file with pieces lost, doubled or swapped is read or refused in words: nothing else happens."""
        rng = np.random.default_rng(seed)
        words = list(f"# MHz Z DB R 75\n{ROW}\n400 0.7 0.64 69 0.38\n" if seed % 2 else NOISY)
        for _ in range(rng.integers(1, 6)):
            place = int(rng.integers(len(words)))
            new = [[], [words[place]] * 2, [str(rng.choice(list("[]#!\n 0-e.9\f\u2028")))]][rng.integers(3)]
            words[place : place + 1] = new
        with suppress(NotATouchstoneFile):
            assert (2, 2) == parse_two_port("".join(words)).scattering.shape[1:]


class TestWritten:
    @pytest.mark.parametrize("unit", ["Hz", "kHz", "MHz", "GHz"])
    @pytest.mark.parametrize("form", ["RI", "MA", "DB"])
    @pytest.mark.parametrize("parameter", ["S", "Z", "Y", "H", "G"])
    @pytest.mark.parametrize(("version", "reference"), [("1.1", 75.0), ("2.0", (30.0, 75.0))])
    def test_read_again(self, version, reference, parameter, form, unit):
        """What is written is read again as it was, in either version, any parameters, form and unit."""
        port = TwoPort(SWEEP, random_scattering(5), reference, np.array([[4e8, 0.7, 0.64, 69, 0.38]]))
        again = parse_two_port(format_touchstone(port, version, parameter, form, unit, "gauge hut\nlink"))

        assert pytest.approx(port.frequency, rel=1e-15) == again.frequency
        assert pytest.approx(port.scattering, abs=1e-12) == again.scattering
        assert port.reference.tolist() == again.reference.tolist()
        assert pytest.approx(port.noise) == again.noise

    @pytest.mark.parametrize("version", ["1.1", "2.0"])
    def test_exact(self, version):
        """Scattering parameters as real and imaginary parts in hertz come back to the last bit."""
        again = parse_two_port(format_touchstone(random_two_port(6), version))

        assert random_two_port(6).scattering.tolist() == again.scattering.tolist()
        assert SWEEP.tolist() == again.frequency.tolist()

    @pytest.mark.parametrize("form", ["RI", "MA", "DB"])
    @pytest.mark.parametrize("parameter", ["S", "Z", "Y"])
    @pytest.mark.parametrize("version", ["1.1", "2.0"])
    def test_one_port(self, version, parameter, form, tmp_path):
        """A one-port is written and read again too."""
        whip = parse_touchstone("# MHz S RI R 75\n433 0.5 -0.5\n435 0.1 -0.25")
        write_touchstone(whip, tmp_path / "whip.s1p", version=version, parameter=parameter, form=form)
        again = read_touchstone(tmp_path / "whip.s1p")

        assert pytest.approx(whip.reflection, abs=1e-14) == again.reflection
        assert (75, whip.frequency.tolist()) == (again.reference_resistance, again.frequency.tolist())

    def test_to_a_file(self, tmp_path):
        """A file is written and read by name."""
        write_touchstone(random_two_port(7), tmp_path / "link.s2p", unit="MHz", comment="from the hut")

        assert (tmp_path / "link.s2p").read_text().startswith("! from the hut\n# MHz S RI R 50.0\n400.0 ")
        assert pytest.approx(random_two_port(7).scattering) == read_two_port(tmp_path / "link.s2p").scattering

    @pytest.mark.parametrize(
        ("options", "fault"),
        [
            ({"version": "3.0"}, "version must be 1.1 or 2.0"),
            ({"form": "RX"}, "form of the numbers must be"),
            ({"unit": "THz"}, "unit of frequency must be"),
            ({"parameter": "T"}, "parameter must be"),
        ],
    )
    def test_unknown_words(self, options, fault):
        """What the standard does not know is not written."""
        with pytest.raises(UnknownChoice, match=fault):
            format_touchstone(random_two_port(1), **options)

    @pytest.mark.parametrize(
        ("port", "options", "fault"),
        [
            (random_two_port(1, (30, 75)), {}, "choose version 2.0, or renormalise"),
            (TwoPort([1e9], [[[0, 1], [1, 0]]]), {"form": "DB"}, r"At 1e\+09 Hz a parameter is zero"),
            (TwoPort([1e9], [[[0, 1], [1, 0]]]), {"parameter": "Z"}, "has no Z parameters"),
            (TwoPort([1e9], np.zeros((3, 1, 2, 2))), {}, "holds one two-port"),
        ],
    )
    def test_cannot_be_said(self, port, options, fault):
        """What a version or form cannot say is refused, with what to choose."""
        with pytest.raises(OutOfRange, match=fault):
            format_touchstone(port, **options)
