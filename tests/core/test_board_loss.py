"""Strips on boards as they are: loss, dispersion, and where their formulas hold."""

from dataclasses import replace

import numpy as np
import pytest

from core import (
    Microstrip,
    MicrostripLine,
    OutOfRange,
    Stripline,
    StriplineLine,
    skin_depth_m,
    strip_line,
    surface_resistance,
)
from core.board import SPEED_OF_LIGHT
from core.microstrip import FREE_SPACE_IMPEDANCE

SWEEP = np.geomspace(100e6, 8e9, 41)
BOARD = Microstrip(4.4, 1.6, 0.035)
ON_AIR = Microstrip(1.0, 1.6, 0.035)
LINE = MicrostripLine(BOARD, 3.0, 0.02)
TEXTBOOK = MicrostripLine(Microstrip(4.4, 1.6, formulas="textbook"), 3.0, 0.02)
STRIPLINE = StriplineLine(Stripline(2.2, 3.2), 2.65, 0.001)
both_sets = pytest.mark.parametrize("line", [LINE, TEXTBOOK], ids=["hammerstad-jensen", "textbook"])


class TestDispersion:
    @both_sets
    def test_rises_toward_the_laminate(self, line):
        """The permittivity that a wave meets rises with frequency, from the static one toward the laminate's."""
        met = line.effective_permittivity(SWEEP)

        assert np.all(np.diff(met) > 0)
        assert line.board.effective_permittivity(3.0) < met[0] < met[-1] < 4.4
        assert pytest.approx(line.board.effective_permittivity(3.0), rel=1e-3) == met[0]

    def test_on_air(self):
        """A strip on air has no dispersion, and loses nothing in a dielectric that is not there."""
        line = MicrostripLine(ON_AIR, 3.0)

        assert pytest.approx(np.ones(41)) == line.effective_permittivity(SWEEP)
        assert pytest.approx(ON_AIR.impedance(3.0), rel=0.01) == line.characteristic_impedance(1e9).real

    def test_laminate_like_air(self):
        """Where the laminate fills everything the dielectric takes half of k tan(delta), as in any such wave."""
        lossy, clean = MicrostripLine(ON_AIR, 3.0, 0.01), MicrostripLine(ON_AIR, 3.0)
        taken = lossy.propagation_constant(1e9).real - clean.propagation_constant(1e9).real

        assert pytest.approx(np.pi * 1e9 / SPEED_OF_LIGHT * 0.01) == taken


class TestConductorLoss:
    @pytest.mark.parametrize(
        ("permittivity", "width", "height", "thickness"),
        [(4.4, 3.0, 1.6, 0.035), (9.9, 0.483, 0.5, 0.01), (2.2, 5.0, 1.6, 0.035), (9.9, 0.1, 0.5, 0.005)],
    )
    def test_incremental_inductance(self, permittivity, width, height, thickness):
        """It is within 10 % of the rule of incremental inductance: what the impedance on air gains as every surface
        of the copper recedes by a skin depth (H. A. Wheeler, 1942, from memory)."""
        line = MicrostripLine(Microstrip(permittivity, height, thickness), width)
        step = 1e-6
        receded = Microstrip(1.0, height + 2 * step, thickness - 2 * step).impedance(width - 2 * step)
        gain = (receded - Microstrip(1.0, height, thickness).impedance(width)) / (step / 1e3)
        resistance = surface_resistance(2e9) * gain / FREE_SPACE_IMPEDANCE

        assert (
            pytest.approx(resistance / 2 / line.board.impedance(width), rel=0.10)
            == line.propagation_constant(2e9).real
        )

    def test_stripline_incremental_inductance(self):
        """So is that of a stripline, by the closed form of its own impedance with a thick strip (S. B. Cohn, 1955, from
        memory: a strip acts wider by its fringing capacitance)."""

        def on_air(width, spacing, thickness):
            x = 1 / (1 - thickness / spacing)
            fringe = (2 * x * np.log(x + 1) - (x - 1) * np.log(x**2 - 1)) / np.pi
            return FREE_SPACE_IMPEDANCE / 4 / (width / (spacing - thickness) + fringe)

        width, spacing, thickness, step = 2.65, 3.2, 0.035, 1e-6
        receded = on_air(width - 2 * step, spacing + 2 * step, thickness - 2 * step)
        gain = (receded - on_air(width, spacing, thickness)) / (step / 1e3)
        clean = replace(STRIPLINE, loss_tangent=0.0)
        thick = on_air(width, spacing, thickness) / 2.2**0.5
        expected = surface_resistance(2e9) * gain / FREE_SPACE_IMPEDANCE / 2 / thick

        assert pytest.approx(expected, rel=0.05) == clean.propagation_constant(2e9).real

    def test_narrow_stripline_joins_the_wide(self):
        """The two formulas for a stripline's loss meet within 10 % where one hands over to the other."""
        board = Stripline(2.2, 3.2, "textbook")
        edge = 120 / 2.2**0.5
        wide, narrow = (strip_line(board, edge * x, thickness_mm=0.01) for x in (1 - 1e-9, 1 + 1e-9))

        assert pytest.approx(wide.attenuation(2e9), rel=0.1) == narrow.attenuation(2e9)

    @pytest.mark.parametrize("line", [LINE, STRIPLINE], ids=["microstrip", "stripline"])
    def test_rough_copper(self, line):
        """Copper much rougher than its skin is deep loses twice as much, and a little rough hardly more."""
        clean = replace(line, loss_tangent=0.0)
        depth = 1e3 * skin_depth_m(2e9)
        ratios = [
            replace(clean, roughness_mm=rough).attenuation_db_per_m(2e9) / clean.attenuation_db_per_m(2e9)
            for rough in (0.05 * depth, 50 * depth)
        ]

        assert pytest.approx([1, 2], abs=0.01) == ratios

    def test_thin_copper_loses_more(self):
        """Copper that conducts a quarter as well loses twice as much."""
        good = replace(LINE, loss_tangent=0.0)

        assert pytest.approx(2 * good.attenuation_db_per_m(2e9)) == replace(
            good, conductivity=5.8e7 / 4
        ).attenuation_db_per_m(2e9)


class TestStripLine:
    def test_kinds(self):
        """A board gets the strip of the impedance asked for, with the material's values."""
        micro = strip_line(BOARD, 50, loss_tangent=0.02)
        strip = strip_line(Stripline(2.2, 3.2), 50, thickness_mm=0.02)

        assert isinstance(micro, MicrostripLine)
        assert isinstance(strip, StriplineLine)
        assert pytest.approx(50) == BOARD.impedance(micro.width_mm)
        assert (0.02, 0.02) == (micro.loss_tangent, strip.thickness_mm)


class TestRange:
    def test_microstrip(self):
        """It holds from two skin depths in the copper to a height of 0.13 wavelengths in vacuum."""
        first, last = LINE.frequency_range

        assert pytest.approx(0.035e-3 / 2) == skin_depth_m(first)
        assert pytest.approx(0.13 * SPEED_OF_LIGHT / 1.6e-3) == last
        assert 0 == TEXTBOOK.frequency_range[0]

    def test_stripline(self):
        """It holds up to where the spacing of the planes is half a wave."""
        assert pytest.approx(3.2e-3) == SPEED_OF_LIGHT / 2.2**0.5 / STRIPLINE.frequency_range[1] / 2

    @pytest.mark.parametrize(
        ("make", "fault"),
        [
            (lambda: LINE.attenuation(1e6), "where this line's model holds"),
            (lambda: LINE.effective_permittivity(1e12), "where this line's model holds"),
            (lambda: MicrostripLine(Stripline(2.2, 3.2), 1.0), "must be a Microstrip"),
            (lambda: StriplineLine(BOARD, 1.0), "must be a Stripline"),
            (lambda: MicrostripLine(Microstrip(30, 1), 1.0), "relative permittivity"),
            (lambda: MicrostripLine(BOARD, 0.1), "width"),
            (lambda: MicrostripLine(BOARD, 1000), "width"),
            (lambda: MicrostripLine(BOARD, 3.0, -0.1), "loss tangent"),
            (lambda: MicrostripLine(BOARD, 3.0, 0.1, 0.0), "conductivity"),
            (lambda: MicrostripLine(BOARD, 3.0, roughness_mm=-1), "roughness"),
            (lambda: StriplineLine(Stripline(2.2, 3.2), 2.65, thickness_mm=1.0), "thickness"),
            (lambda: StriplineLine(Stripline(2.2, 3.2), 2.65, thickness_mm=0.0), "thickness"),
        ],
    )
    def test_refused(self, make, fault):
        """Outside their range the formulas say nothing, and name what is out of it."""
        with pytest.raises(OutOfRange, match=fault):
            make()
