"""The values that parts are sold in, against the rule from which their series were made."""

import numpy as np
import pytest

from core import OutOfRange, UnknownChoice, nearest_preferred, preferred_beside
from core.preferred import E12, E24


class TestSeries:
    def test_rule(self):
        """Each value is 10^(k/24) to two digits, but for the historical ones from 27 to 47 and 82.

        Source: IEC 60063:2015, Annex A on the rule and its exceptions (from memory)."""
        rounded = [round(10 * 10 ** (k / 24)) for k in range(24)]
        exceptions = {rule: value for rule, value in zip(rounded, E24, strict=True) if rule != value}

        assert {26: 27, 29: 30, 32: 33, 35: 36, 38: 39, 42: 43, 46: 47, 83: 82} == exceptions

    def test_coarser_is_part_of_finer(self):
        """Every E12 value is an E24 value; the series have 12 and 24."""
        assert set(E12) < set(E24)
        assert (12, 24) == (len(E12), len(E24))


class TestNearestPreferred:
    @pytest.mark.parametrize("series", ["E12", "E24"])
    def test_a_preferred_value_stays(self, series):
        """Every preferred value of fifteen decades is its own nearest, to the last bit of its decimal."""
        digits = {"E12": E12, "E24": E24}[series]
        values = np.array([float(f"{d}e{k}") for d in digits for k in range(-15, 8)])

        assert np.array_equal(values, nearest_preferred(values, series))

    @pytest.mark.parametrize("series", ["E12", "E24"])
    def test_nearest_by_ratio(self, series):
        """No preferred value of any decade is nearer by ratio, for 20,000 random values."""
        digits = {"E12": E12, "E24": E24}[series]
        every = np.array([float(f"{d}e{k}") for d in digits for k in range(-15, 5)])
        values = 10 ** np.random.default_rng(41).uniform(-13, 5, 20_000)
        best = np.abs(np.log(every[:, None] / values)).min(axis=0)

        assert best == pytest.approx(np.abs(np.log(nearest_preferred(values, series) / values)), abs=1e-12)

    def test_no_part(self):
        """Zero, infinity and nan, which mean no part, stay what they are."""
        got = nearest_preferred([0.0, np.inf, np.nan, 4.6])

        assert [0.0, np.inf, 4.7] == got[[0, 1, 3]].tolist()
        assert np.isnan(got[2])

    def test_scalar(self):
        """A single number gives a plain number."""
        assert 1e-9 == nearest_preferred(9.6e-10, "E12")
        assert isinstance(nearest_preferred(1), float)

    def test_shape(self):
        """The result has the shape of the values."""
        assert (2, 3) == nearest_preferred(np.full((2, 3), 3.1)).shape

    def test_negative(self):
        """A negative value is refused."""
        with pytest.raises(OutOfRange, match="The value must be a number at least 0"):
            nearest_preferred(-1.0)

    def test_unknown_series(self):
        """Only the series on offer are taken."""
        with pytest.raises(UnknownChoice, match="The series must be E12 or E24"):
            nearest_preferred(1.0, "E6")


class TestPreferredBeside:
    @pytest.mark.parametrize(("series", "digits"), [("E12", E12), ("E24", E24)])
    def test_no_value_of_the_series_is_between(self, series, digits):
        """For 20,000 random values, one of any decade is the last below and one the first above."""
        every = np.sort([float(f"{d}e{k}") for d in digits for k in range(-15, 5)])
        values = 10 ** np.random.default_rng(43).uniform(-13, 5, 20_000)
        above = np.searchsorted(every, values)
        found = preferred_beside(values, series)

        assert np.array_equal(every[above - 1], found[0])
        assert np.array_equal(every[above], found[1])

    @pytest.mark.parametrize("off", [1 - 1e-14, 1.0, 1 + 1e-14])
    def test_of_a_preferred_value(self, off):
        """A preferred value, but for rounding, is on both sides itself, in fifteen decades."""
        values = np.array([float(f"{d}e{k}") for d in E24 for k in range(-15, 8)])
        below, above = preferred_beside(values * off)

        assert np.array_equal(values, below)
        assert np.array_equal(values, above)

    def test_nearest_is_one_of_them(self):
        """The nearest by ratio is always one of the two."""
        values = 10 ** np.random.default_rng(44).uniform(-13, 5, 20_000)
        nearest, (below, above) = nearest_preferred(values, "E12"), preferred_beside(values, "E12")

        assert np.all((nearest == below) | (nearest == above))

    def test_no_part(self):
        """Zero and infinity stay what they are; a single number gives plain ones."""
        assert (0.0, 0.0) == preferred_beside(0.0)
        assert (np.inf, np.inf) == preferred_beside(np.inf)
        assert (3.3e-12, 3.9e-12) == preferred_beside(3.41e-12, "E12")

    def test_refused(self):
        """Negative values and other series are refused in a sentence."""
        with pytest.raises(OutOfRange, match="The value must be a number at least 0"):
            preferred_beside(-1.0)
        with pytest.raises(UnknownChoice, match="The series must be E12 or E24"):
            preferred_beside(1.0, "E6")
