"""What the browser reads off the chart, beside its twins in core."""

from collections.abc import Callable

import numpy as np
import pytest

from core.chart import rim_position
from core.line import admittance_from_reflection, impedance_from_reflection, swr, toward_generator
from lessons.grammar.notation import Notation
from tests.browser.stage.board import Board


class TestReadings:
    """readings.js beside its twins in core."""

    POINTS = np.random.default_rng(7).uniform(-0.7, 0.7, (200, 2)).tolist()

    @pytest.fixture
    def read(self, board: Board) -> Callable[[str], list]:
        board.open()

        def evaluate(expression: str) -> list:
            return board.page.evaluate(
                f"async points => {{ const r = await import('/static/parts/stage/readings.js'); "
                f"return points.map(([u, v]) => {expression}) }}",
                self.POINTS,
            )

        return evaluate

    def gammas(self) -> np.ndarray:
        return np.array([complex(u, v) for u, v in self.POINTS])

    def test_impedance(self, read):
        """r and x are those of core to 1e-12."""
        assert np.array(read("r.impedance(u, v)")) @ [1, 1j] == pytest.approx(
            impedance_from_reflection(self.gammas()), rel=1e-12
        )

    def test_admittance(self, read):
        """g and b are those of core to 1e-12."""
        assert np.array(read("r.admittance(u, v)")) @ [1, 1j] == pytest.approx(
            admittance_from_reflection(self.gammas()), rel=1e-12
        )

    def test_standing_wave_ratio(self, read):
        """The standing-wave ratio is that of core to 1e-12."""
        assert read("r.standingWaveRatio(Math.hypot(u, v))") == pytest.approx(swr(self.gammas()), rel=1e-12)

    def test_rim_position(self, read):
        """The reading toward the generator is that of core to 1e-12."""
        assert read("r.rimPosition(u, v)") == pytest.approx(rim_position(self.gammas()), abs=1e-12)

    def test_walk(self, read):
        """A walk leads where core says to 1e-12, and its turn is read as its length."""
        found = np.array(read("r.walkedFrom(u, v, 0.137)")) @ [1, 1j]
        lengths = read(
            "r.wavelengthsOfTurn(r.turnBetween(Math.atan2(v, u), Math.atan2(...r.walkedFrom(u, v, 0.137).reverse())))"
        )

        assert found == pytest.approx(toward_generator(self.gammas(), 0.137), abs=1e-12)
        assert lengths == pytest.approx([0.137] * len(self.POINTS), abs=1e-12)

    def test_ends_of_the_chart(self, read):
        """At the open point impedance is infinite, at the short point admittance; all power returns from the rim."""
        assert read("[...r.impedance(1, 0), ...r.admittance(-1, 0), r.standingWaveRatio(1)].map(String)")[0] == [
            "Infinity", "0", "Infinity", "0", "Infinity"
        ]  # fmt: skip

    @pytest.mark.parametrize("notation", [
        Notation(), Notation(decimals=4, angle="radians"), Notation(length="degrees"),
        Notation(decimals=2), Notation(decimals=2, length="degrees"),
    ], ids=["wavelengths", "radians", "degrees of line", "two decimals", "two decimals, degrees"])  # fmt: skip
    def test_writing(self, board: Board, notation: Notation):
        """Numbers, lengths and angles are written as the notation of the course writes them."""
        board.open()
        values = [0.0, -0.0, 0.12345, -0.4999, 1e-9, -1e-9, 12.5]
        written = board.page.evaluate(
            "async ([values, n]) => { const r = await import('/static/parts/stage/readings.js'); "
            "return values.map(v => "
            "[r.written(v, n.decimals), r.writtenLength(v, n), r.writtenAngle(v, n)]) }",
            [values, vars(notation)],
        )

        assert written == [
            [notation.number(v), notation.wavelengths(v), notation.angle_of(v)] for v in values
        ]
