"""The gates that all arguments pass, and the sentences of what they turn away."""

import numpy as np
import pytest

from core import CoreError, NegativeResistance, NotALength, NotAnImpedance, OutOfRange, UnknownChoice, errors
from core.checks import OPEN_CIRCUIT, choice, finite_length, passive_impedance, real_impedance

HUGE = 10**400  # more than a float can hold


class TestPassiveImpedance:
    @pytest.mark.parametrize(
        "given", [25 - 50j, 25, 0, -0.0, "25-50j", np.float32(25), [1, 2j], np.array(3)], ids=repr
    )
    def test_what_passes(self, given):
        """Every number with no negative resistance passes as it is, in the shape that it had."""
        passed = passive_impedance(given)

        assert (np.asarray(given, dtype=complex) == passed).all()
        assert np.shape(given) == passed.shape
        assert complex == passed.dtype

    @pytest.mark.parametrize(
        "given",
        [
            np.inf,
            1j * np.inf,
            -1j * np.inf,
            complex(np.nan, np.inf),
            complex(-5, np.inf),
            complex(50, -np.inf),
            1e300,
            1e200j,
        ],
        ids=repr,
    )
    def test_open_circuit(self, given):
        """Whatever is infinite, or as good as, is one and the same open circuit."""
        assert complex(np.inf, 0) == passive_impedance(given)

    def test_largest_load(self):
        """Below the bound of an open circuit a load keeps its value, at the bound it is one."""
        below = OPEN_CIRCUIT * (1 - 1e-15)

        assert [below, np.inf] == passive_impedance([below, OPEN_CIRCUIT]).tolist()

    @pytest.mark.parametrize(
        ("given", "worst"),
        [
            (-5, "-5"),
            (-0.25 + 50j, "-0.25"),
            ([10, -3, -7, 2], "-7"),
            (-np.inf, "-inf"),
            (complex(-np.inf, np.inf), "-inf"),
            ([complex(np.nan, np.inf), -3], "-3"),
            ([np.inf, -3], "-3"),
        ],
        ids=repr,
    )
    def test_negative_resistance(self, given, worst):
        """A negative resistance is refused with the worst of them, and with what to look at."""
        sentence = (
            rf"^The load impedance has a resistance of {worst} ohm; .* Check the sign of its real part\.$"
        )
        with pytest.raises(NegativeResistance, match=sentence) as refusal:
            passive_impedance(given)

        assert refusal.value.value is given

    @pytest.mark.parametrize("given", [np.nan, complex(0, np.nan), [50, np.nan], None], ids=repr)
    def test_nan(self, given):
        """What is not a number is refused with an example of one."""
        with pytest.raises(
            NotAnImpedance, match=r"^The mast must be a number, such as 25-50j; nan is not one\.$"
        ):
            passive_impedance(given, "mast")

    @pytest.mark.parametrize(
        "given", ["fifty", "", {}, [1, [2, 3]], object, [1, "x"], HUGE], ids=lambda v: str(v)[:9]
    )
    def test_not_a_number(self, given):
        """What is no number at all is refused in the same way, and shown no longer than a line."""
        with pytest.raises(
            NotAnImpedance, match=r"^The load impedance must be a number or an array of them, not .*\.$"
        ) as refusal:
            passive_impedance(given)

        assert refusal.value.value is given
        assert len(str(refusal.value)) < 120


class TestRealImpedance:
    @pytest.mark.parametrize("given", [50, 0.1, 50 + 0j, "75", [50, 75], np.array([[50.0]])], ids=repr)
    def test_what_passes(self, given):
        """Every positive number passes, also one that is complex in type only."""
        passed = real_impedance(given)

        assert (np.asarray(given, dtype=complex) == passed).all()
        assert float == passed.dtype

    @pytest.mark.parametrize(
        ("given", "first"),
        [
            (0, "0"),
            (-50, "-50"),
            (np.inf, "inf"),
            (np.nan, "nan"),
            (None, "nan"),
            ([50, 0, -1], "0"),
            (-50 + 0j, "-50"),
        ],
        ids=repr,
    )
    def test_not_positive(self, given, first):
        """Zero, negative, infinite and missing values are refused; of many the first bad one is named."""
        sentence = rf"^The line impedance must be a positive number of ohms, such as 50, not {first}\.$"
        with pytest.raises(NotAnImpedance, match=sentence) as refusal:
            real_impedance(given)

        assert refusal.value.value is given

    @pytest.mark.parametrize("given", [50 + 1j, [50, 50 + 1j], complex(50, np.nan)], ids=repr)
    def test_complex(self, given):
        """The impedance of a lossless line has no imaginary part."""
        with pytest.raises(NotAnImpedance, match=r"^The stub impedance must be real, not 50\+(1|nan)j\.$"):
            real_impedance(given, "stub impedance")

    @pytest.mark.parametrize("given", ["fifty", [[1, 2], [3]], HUGE, {}], ids=lambda v: str(v)[:9])
    def test_not_a_number(self, given):
        """What is no number is refused with a sentence."""
        with pytest.raises(
            NotAnImpedance, match=r"^The line impedance must be a number or an array of them, not "
        ):
            real_impedance(given)


class TestFiniteLength:
    @pytest.mark.parametrize("given", [0, 0.25, 1e6, [0.1, 0.2], 0.1 + 0j], ids=repr)
    def test_what_passes(self, given):
        """Every length from nothing upward passes."""
        assert (np.asarray(given) == finite_length(given)).all()

    @pytest.mark.parametrize(
        ("given", "first"),
        [(-0.1, r"-0\.1"), (np.inf, "inf"), (np.nan, "nan"), ([0.1, -2, -3], "-2")],
        ids=repr,
    )
    def test_no_such_length(self, given, first):
        """A length below zero, or none, is refused; of many the first bad one is named."""
        with pytest.raises(
            NotALength, match=rf"^The distance must be zero or more wavelengths, not {first}\.$"
        ) as refusal:
            finite_length(given, "distance")

        assert refusal.value.value is given

    @pytest.mark.parametrize("given", [0.1j, np.array([0.1 + 0.1j]), "long", [[1, 2], [3]]], ids=str)
    def test_not_a_length(self, given):
        """A complex length and a word are refused with a sentence."""
        with pytest.raises(
            NotALength, match=r"^The length must be (real|a number or an array of them), not "
        ):
            finite_length(given)


class TestChoice:
    def test_what_passes(self):
        """A word on offer passes."""
        assert "open" == choice("open", ("short", "open"), "end")

    @pytest.mark.parametrize("given", ["Open", "", None, 3, ["open"], np.array(["open", "short"])], ids=repr)
    def test_unknown(self, given):
        """Any other word, and what is no word, is refused with the words on offer."""
        with pytest.raises(UnknownChoice, match=r"^The end must be short or open, not .*\.$") as refusal:
            choice(given, ("short", "open"), "end")

        assert refusal.value.value is given


class TestErrors:
    def test_tree(self):
        """One root under ValueError, so that old habits catch it, and the tree that the module draws on top."""
        assert issubclass(CoreError, ValueError)
        assert issubclass(NegativeResistance, NotAnImpedance)
        for error in (NotAnImpedance, NotALength, UnknownChoice, errors.NotACircle, OutOfRange):
            assert (CoreError,) == error.__bases__

    def test_all_in_the_picture(self):
        """Every error of the core stands in that drawing."""
        named = [name for name, thing in vars(errors).items() if isinstance(thing, type)]

        assert [] == [name for name in named if f" {name} " not in (errors.__doc__ or "")]
