"""From wavelengths to copper: laws every board keeps, lengths cut to a step, and what is refused.

A law with no source beside it is common practice, no source.
"""

import numpy as np
import pytest

from core import (
    Cable,
    Errors,
    MatchingNetwork,
    Microstrip,
    NotAnImpedance,
    OutOfRange,
    Reactance,
    Section,
    Stripline,
    Stub,
    UnknownChoice,
    double_stub,
    guide_wavelength_m,
    lay_out,
    single_stub,
    worst_case,
)

BOARDS = [
    Microstrip(4.4, 1.6),
    Microstrip(4.4, 1.6, thickness_mm=0.035),
    Microstrip(9.9, 0.635, formulas="textbook"),
    Stripline(2.2, 3.2),
    Stripline(2.2, 3.2, formulas="textbook"),
]
IMPEDANCES = np.array([30.0, 50, 75, 100])
every_board = pytest.mark.parametrize("board", BOARDS, ids=lambda b: f"{type(b).__name__} {b.formulas}")


class TestGuideWavelength:
    def test_in_vacuum(self):
        """At 299.792458 MHz a wave in vacuum is one metre long (SI Brochure, 9th ed.: the metre)."""
        assert 1.0 == guide_wavelength_m(299.792458e6)

    def test_velocity_factor(self):
        """On a line it is shorter by the velocity factor, for any shapes."""
        waves = guide_wavelength_m(np.array([169e6, 434e6]), np.array([[0.66], [0.83], [1.0]]))

        assert (3, 2) == waves.shape
        assert pytest.approx(waves[2] * 0.66) == waves[0]

    @pytest.mark.parametrize("frequency", [0, -1, np.nan, np.inf, "abc", 1j])
    def test_impossible_frequency(self, frequency):
        """A frequency is a number of hertz above zero."""
        with pytest.raises(OutOfRange, match=r"frequency must be a number above 0 \(in hertz\)"):
            guide_wavelength_m(frequency)

    @pytest.mark.parametrize("factor", [0, 1.01, -0.66, np.nan])
    def test_impossible_velocity(self, factor):
        """No wave on a line is faster than light."""
        with pytest.raises(OutOfRange, match="velocity factor must be a number above 0 and at most 1"):
            guide_wavelength_m(434e6, factor)

    def test_error_holds_the_value(self):
        """The error keeps what was given."""
        with pytest.raises(OutOfRange, match="not -3") as raised:
            guide_wavelength_m(-3)

        assert raised.value.value == -3


@every_board
class TestEveryBoard:
    def test_width_and_impedance(self, board):
        """The strip of the width for an impedance has that impedance: exactly, or within 1 % by the
        textbook."""
        digits = 0.01 if board.formulas == "textbook" else 1e-12

        assert pytest.approx(IMPEDANCES, rel=digits) == board.impedance(board.width_mm(IMPEDANCES))

    def test_wider_is_lower(self, board):
        """A wider strip has a lower impedance."""
        narrow, wide = board.widths_mm()
        impedances = board.impedance(np.geomspace(narrow, wide, 300))

        assert np.all(np.diff(impedances) < 0)

    def test_permittivity_lies_between(self, board):
        """A wave meets something between air and the dielectric."""
        narrow, wide = board.widths_mm()
        effective = board.effective_permittivity(np.geomspace(narrow, wide, 100))

        assert np.all((effective >= 1) & (effective <= board.relative_permittivity))

    def test_guide_wavelength(self, board):
        """The wavelength on a strip is that in vacuum over the root of the permittivity that it meets."""
        effective = board.effective_permittivity(board.width_mm(50))

        assert pytest.approx(299_792_458.0 / 2.4e9 / np.sqrt(effective)) == board.guide_wavelength_m(
            2.4e9, 50
        )

    def test_scale(self, board):
        """A board twice as large has strips twice as wide, and open ends twice as long."""
        thick = {"thickness_mm": 2 * board.thickness_mm} if isinstance(board, Microstrip) else {}
        height = board.height_mm if isinstance(board, Microstrip) else board.spacing_mm
        larger = type(board)(board.relative_permittivity, 2 * height, **thick, formulas=board.formulas)

        assert pytest.approx(2 * board.width_mm(50)) == larger.width_mm(50)
        assert pytest.approx(2 * board.open_end_mm(50)) == larger.open_end_mm(50)

    def test_open_end_is_short(self, board):
        """An open end adds a fraction of the board's height, more than a tenth and less than its all."""
        height = board.height_mm if isinstance(board, Microstrip) else board.spacing_mm

        assert np.all(
            (0.1 * height < board.open_end_mm(IMPEDANCES)) & (board.open_end_mm(IMPEDANCES) < height)
        )

    @pytest.mark.parametrize("impedance", [0.5, 800])
    def test_impossible_strip(self, board, impedance):
        """An impedance that no strip of the board has is refused, and the possible ones are told."""
        with pytest.raises(OutOfRange, match=r"strip on this board must be a number at least .* and at most"):
            board.width_mm(impedance)

    def test_no_impedance(self, board):
        """An impedance is a positive number."""
        with pytest.raises(NotAnImpedance, match="positive number of ohms"):
            board.width_mm(-50)

    def test_beyond_the_formulas(self, board):
        """A width for which the formulas were not made is refused."""
        with pytest.raises(OutOfRange, match="width of the strip must be a number at least"):
            board.impedance(board.widths_mm()[1] * 1.01)


class TestMicrostrip:
    @pytest.mark.parametrize("permittivity", [2.2, 4.4, 10.2])
    def test_the_two_sets_agree(self, permittivity):
        """Widths for 25 to 100 ohm agree within 2 %, open ends of strips of 0.4 to 2 heights within 6 %."""
        accurate, textbook = (
            Microstrip(permittivity, 1.0, formulas=f) for f in ("hammerstad-jensen", "textbook")
        )
        impedances = accurate.impedance(np.linspace(0.4, 2, 20))

        assert pytest.approx(accurate.width_mm(IMPEDANCES), rel=0.02) == textbook.width_mm(IMPEDANCES)
        assert pytest.approx(accurate.open_end_mm(impedances), rel=0.06) == textbook.open_end_mm(impedances)

    def test_air(self):
        """Without dielectric the wave is as fast as light."""
        assert pytest.approx(1) == Microstrip(1, 1).velocity_factor(100)

    def test_thick_copper(self):
        """Thick copper lowers the impedance a little, and less the thinner it is."""
        none, thin, thick = (Microstrip(4.4, 1.6, t).impedance(3.0) for t in (0, 0.018, 0.07))

        assert none > thin > thick > 0.97 * none

    @pytest.mark.parametrize(
        ("arguments", "fault"),
        [
            ((0.9, 1), "relative permittivity must be a number at least 1 and at most 128"),
            ((4.4, 0), "height must be a number above 0"),
            ((4.4, 1, -1), "thickness must be a number at least 0"),
            ((20, 1, 0, "textbook"), "at most 16"),
            ((4.4, 1, 0.035, "textbook"), "textbook formulas are for a strip without thickness"),
        ],
    )
    def test_impossible_board(self, arguments, fault):
        """A board that cannot be, or for which no formula was made, is refused."""
        with pytest.raises(OutOfRange, match=fault):
            Microstrip(*arguments)

    @pytest.mark.parametrize("board", [Microstrip, Stripline])
    def test_other_formulas(self, board):
        """Only the sets of formulas named are known."""
        with pytest.raises(UnknownChoice, match="set of formulas must be"):
            board(4.4, 1.6, formulas="guess")


class TestStripline:
    def test_the_two_sets_agree(self):
        """The textbook is within 1.5 % of the exact impedance at all usual widths."""
        widths = np.geomspace(0.3, 10, 50)
        exact, textbook = (Stripline(2.2, 3.2, f).impedance(widths) for f in ("exact", "textbook"))

        assert pytest.approx(exact, rel=0.015) == textbook

    def test_open_end_between_its_limits(self):
        """The end of a wide strip adds ln 2 / pi of the spacing, by conformal mapping, and of a narrow one a
        quarter.

        Source: H. M. Altschuler and A. A. Oliner, 1960 (from memory)."""
        board = Stripline(2.2, 1.0)
        narrow, wide = board.open_end_mm(board.impedance(board.widths_mm()))

        assert pytest.approx(np.log(2) / np.pi, rel=0.02) == wide
        assert pytest.approx(np.log(2) / np.pi / 4, rel=0.08) == narrow

    def test_one_wave_for_all(self):
        """In one dielectric all strips have the same wavelength."""
        waves = Stripline(2.2, 3.2).guide_wavelength_m(10e9, IMPEDANCES)

        assert pytest.approx(299_792_458.0 / 10e9 / np.sqrt(2.2)) == waves


class TestLayOut:
    NEAR = single_stub(60 - 80j, 50)[0]

    def test_exact_lengths(self):
        """Without a step the pieces have their wavelengths in millimetres, and the match stays."""
        layout = lay_out(self.NEAR, 434e6, Cable(0.66), step_mm=0)
        wave_mm = 1e3 * guide_wavelength_m(434e6, 0.66)

        assert pytest.approx([self.NEAR.distance * wave_mm, self.NEAR.stub_length * wave_mm]) == [
            piece.cut_mm for piece in layout.pieces
        ]
        assert abs(layout.reflection) < 1e-14

    @pytest.mark.parametrize("step", [0.05, 0.1, 0.5, 1.0, 5.0])
    def test_whole_steps(self, step):
        """Every piece is a whole number of steps, and within half a step of what is wanted."""
        for piece in lay_out(self.NEAR, 868e6, Cable(0.8), step).pieces:
            assert pytest.approx(round(piece.cut_mm / step)) == piece.cut_mm / step
            assert abs(piece.cut_mm - piece.exact_mm) <= step / 2 + 1e-12

    def test_what_rounding_does(self):
        """The match of the rounded pieces is that of their lengths, and no worse than the worst of half a
        step."""
        layout = lay_out(self.NEAR, 868e6, Cable(0.8), 1.0)
        wave_mm = 1e3 * guide_wavelength_m(868e6, 0.8)
        section, stub = (piece.cut_mm / wave_mm for piece in layout.pieces)
        made = MatchingNetwork(60 - 80j, 50, (Section(section, 50), Stub(stub, 50)))

        assert pytest.approx(made.input_reflection()) == layout.reflection
        assert 0 < abs(layout.reflection) <= worst_case(self.NEAR, Errors(length=0.5 / wave_mm)).reflection
        assert pytest.approx((1 + abs(layout.reflection)) / (1 - abs(layout.reflection))) == layout.swr

    def test_finer_is_better(self):
        """Over many loads a finer step leaves less reflection, in proportion."""
        networks = single_stub(np.random.default_rng(2).uniform(10, 200, 500) - 30j, 50)[0]
        coarse, fine = (np.mean(np.abs(lay_out(networks, 868e6, Cable(), s).reflection)) for s in (1.0, 0.1))

        assert pytest.approx(10, rel=0.2) == coarse / fine

    def test_widths(self):
        """Each piece has the width of its own impedance, and a cable has none."""
        network = MatchingNetwork(100, 50, (Section(0.25, 70.71), Stub(0.25, 40)))
        board = Microstrip(4.4, 1.6)

        assert pytest.approx(board.width_mm([70.71, 40])) == [
            p.width_mm for p in lay_out(network, 434e6, board).pieces
        ]
        assert np.isnan(lay_out(network, 434e6, Cable()).pieces[0].width_mm)

    def test_open_end(self):
        """With the correction an open stub is cut shorter by what its end adds, and the match is the same."""
        board = Microstrip(4.4, 1.6)
        network = single_stub(60 - 80j, 50, end="open")[0]
        plain, corrected = (lay_out(network, 2.4e9, board, 0, option) for option in (False, True))

        assert pytest.approx(board.open_end_mm(50)) == plain.pieces[1].cut_mm - corrected.pieces[1].cut_mm
        assert plain.pieces[0].cut_mm == corrected.pieces[0].cut_mm
        assert abs(corrected.reflection) < 1e-14

    def test_open_end_of_a_short_stub(self):
        """A stub shorter than its own end effect is made half a wave longer."""
        board = Microstrip(4.4, 1.6)
        network = MatchingNetwork(50, 50, (Stub(0.001, 50, end="open"),))
        piece = lay_out(network, 2.4e9, board, 0, open_end_correction=True).pieces[0]

        assert (
            pytest.approx(0.501 * 1e3 * board.guide_wavelength_m(2.4e9, 50) - board.open_end_mm(50))
            == piece.cut_mm
        )

    def test_shorted_stubs_have_no_open_end(self):
        """The correction leaves shorted stubs alone."""
        board = Microstrip(4.4, 1.6)
        plain, corrected = (lay_out(self.NEAR, 2.4e9, board, 0, option) for option in (False, True))

        assert [p.cut_mm for p in plain.pieces] == [p.cut_mm for p in corrected.pieces]

    def test_lumped_parts_stay(self):
        """Lumped parts are no pieces of line, and stay in the network."""
        network = MatchingNetwork(50, 50, (Section(0.1, 50), Reactance(30), Stub(0.2, 50)))
        layout = lay_out(network, 434e6, Cable())

        assert 2 == len(layout.pieces)
        assert network.elements[1] == layout.network.elements[1]

    def test_every_piece_of_a_double_stub(self):
        """All four pieces of a double stub are laid out, load first, the empty one as well."""
        layout = lay_out(double_stub(60 - 80j, 50, 1 / 8)[0], 868e6, Microstrip(4.4, 1.6), 0.1)

        assert 4 == len(layout.pieces)
        assert 0 == layout.pieces[0].cut_mm

    def test_arrays(self):
        """Networks and frequencies of one shape are laid out together."""
        networks = single_stub([60 - 80j, 20], 50)[0]
        layout = lay_out(networks, [434e6, 868e6], Cable(0.66))

        assert (2,) == layout.pieces[0].cut_mm.shape == layout.reflection.shape
        assert pytest.approx(lay_out(single_stub(20, 50)[0], 868e6, Cable(0.66)).swr) == layout.swr[1]

    def test_impossible_step(self):
        """A step is a length."""
        with pytest.raises(OutOfRange, match="step must be a number at least 0"):
            lay_out(self.NEAR, 434e6, Cable(), -1)

    def test_impossible_cable(self):
        """A cable is no faster than light."""
        with pytest.raises(OutOfRange, match="velocity factor must be"):
            Cable(1.2)


class TestAllSolutions:
    def test_as_the_designer_returns_them(self):
        """All solutions of a designer are laid out at once, in their order."""
        solutions = single_stub(60 - 80j, 50)

        assert tuple(lay_out(one, 868e6, Cable(0.66)) for one in solutions) == lay_out(
            solutions, 868e6, Cable(0.66)
        )
        assert () == lay_out(single_stub(50j, 50), 868e6, Cable(0.66))

    def test_a_cable_has_no_width(self):
        """Of a cable no width is told, of a strip it is."""
        near = single_stub(60 - 80j, 50)[0]

        assert "width" not in repr(lay_out(near, 868e6, Cable(0.66)))
        assert "width: " in repr(lay_out(near, 868e6, Microstrip(4.4, 1.6)))
