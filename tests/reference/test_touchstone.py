"""One-port files: the specification's own examples, and random files read by scikit-rf as well.

Source of the examples: Touchstone File Format Specification, Rev. 1.1 and Version 2.0, IBIS Open Forum (from
memory).
"""

import numpy as np
import pytest
import skrf

from core import parse_touchstone, read_touchstone

SINGLE_POINT = """\
!1-port S-parameter file, single frequency point
# MHz S MA R 50
!freq magS11 angS11
2.000 0.894 -12.136
"""
SEVERAL_POINTS = """\
!1-port Z-parameter file, multiple frequency points
# MHz Z MA R 75
!freq magZ11 angZ11
100 0.99 -4
200 0.80 -22
300 0.707 -45
400 0.40 -62
500 0.01 -89
"""
VERSION_2 = """\
!1-port Z-parameter file, multiple frequency points
[Version] 2.0
# MHz Z MA
[Number of Ports] 1
[Number of Frequencies] 5
[Reference] 20.0
[Network Data]
!freq magZ11 angZ11
100 74.25 -4
200 60 -22
300 53.025 -45
400 30 -62
500 0.75 -89
[End]
"""


class TestSpecification:
    def test_single_point(self):
        """A single S parameter at 2 MHz."""
        port = parse_touchstone(SINGLE_POINT)

        assert [2e6] == port.frequency.tolist()
        assert pytest.approx(0.894) == abs(port.reflection[0])
        assert pytest.approx(-12.136) == np.degrees(np.angle(port.reflection[0]))

    def test_relative_impedance(self):
        """In the older format impedances are relative to the reference: 0.99 of 75 ohm at 100 MHz."""
        port = parse_touchstone(SEVERAL_POINTS)

        assert pytest.approx([74.25, 60, 53.025, 30, 0.75]) == abs(port.impedance)
        assert pytest.approx([-4, -22, -45, -62, -89]) == np.degrees(np.angle(port.impedance))

    def test_both_versions_say_the_same(self):
        """The same measurement in version 2.0 is in ohms, whatever the reference."""
        old, new = parse_touchstone(SEVERAL_POINTS), parse_touchstone(VERSION_2)

        assert pytest.approx(old.impedance) == new.impedance
        assert (75.0, 20.0) == (old.reference_resistance, new.reference_resistance)


def random_rows(seed) -> str:
    """Eight lines of data."""
    first, second = np.random.default_rng(seed).uniform([[0], [-1]], 1, (2, 8))
    return "\n".join(f"{f} {a} {b}" for f, a, b in zip(range(1, 9), first, second, strict=True))


class TestAgainstScikitRf:
    @pytest.mark.parametrize("unit", ["Hz", "kHz", "MHz", "GHz"])
    @pytest.mark.parametrize("form", ["ri", "ma", "db"])
    @pytest.mark.parametrize("parameter", ["S", "Z"])
    def test_version_1(self, parameter, form, unit, tmp_path):
        """A random file in every combination of parameter, format and unit reads as the library reads it.

        Not compared: admittances of the older format, which the specification has relative to the reference's
        admittance, and the library relative to its resistance."""
        path = tmp_path / "gauge_hut.s1p"
        head = f"! patch on a gauge hut\n# {unit} {parameter} {form.upper()} R 75\n"
        path.write_text(head + random_rows(seed=[ord(parameter), len(unit), ord(form[0])]))
        ours, theirs = read_touchstone(path, largest_reflection=2), skrf.Network(str(path))

        assert pytest.approx(theirs.f) == ours.frequency
        assert pytest.approx(theirs.s[:, 0, 0], abs=1e-9) == ours.reflection

    @pytest.mark.parametrize("form", ["RI", "MA", "DB"])
    @pytest.mark.parametrize("parameter", ["S", "Z", "Y"])
    def test_version_2(self, parameter, form, tmp_path):
        """So does a random file of version 2.0, in ohms and siemens, with a reference of its own."""
        path = tmp_path / "gauge_hut.ts"
        head = (
            f"[Version] 2.0\n# MHz {parameter} {form} R 50\n[Number of Ports] 1\n[Number of Frequencies] 8\n"
        )
        body = f"[Reference] 20\n[Network Data]\n{random_rows(seed=[ord(parameter), ord(form[0])])}\n[End]\n"
        path.write_text(head + body)
        ours, theirs = read_touchstone(path, largest_reflection=2), skrf.Network(str(path))

        assert pytest.approx(theirs.f) == ours.frequency
        assert pytest.approx(theirs.s[:, 0, 0], abs=1e-9) == ours.reflection

    def test_written_by_the_library(self, tmp_path):
        """A file that the library writes is read back, and interpolated as the library does it."""
        frequency = skrf.Frequency(400, 470, 15, unit="MHz")
        rng = np.random.default_rng(4)
        s = rng.uniform(-0.6, 0.6, (15, 1, 1)) + 1j * rng.uniform(-0.6, 0.6, (15, 1, 1))
        network = skrf.Network(frequency=frequency, s=s, z0=50)
        network.write_touchstone("whip", dir=str(tmp_path))
        ours = read_touchstone(tmp_path / "whip.s1p", largest_reflection=2)
        between = np.linspace(400e6, 470e6, 101)
        theirs = network.interpolate(skrf.Frequency.from_f(between, unit="Hz"), coords="cart", kind="linear")

        assert pytest.approx(s[:, 0, 0], abs=1e-9) == ours.reflection
        assert pytest.approx(theirs.s[:, 0, 0], abs=1e-9) == ours.reflection_at(
            np.clip(between, *ours.frequency[[0, -1]])
        )
