"""Reading what students write. The forms are those of textbooks and notebooks: common practice, no source."""

import re
from cmath import isclose, rect
from math import radians

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lessons.grammar.numbers import LARGEST, LONGEST, Unreadable, read_complex, read_length, read_real

ALPHABET = "0123456789+-−–.,eEijnf∞∠<@°λ *·⋅Ωohmrdeglaw\t\n"
BAD = [
    "abc",
    "1e999",
    "nan",
    "9" * 10_000,
    "<script>alert(1)</script>",
    "",
    "   ",
    "1..2",
    "--5",
    "5-",
    "0x10",
]
EVIL = ["__import__('os')", "2**99", "1;2", "1_000", "[1]", "f()", "1e", "e5", "+", "j j", "1+2+3", "1j2j"]
READERS = [read_real, read_complex, read_length]

every_reader = pytest.mark.parametrize("read", READERS, ids=lambda read: read.__name__)
junk = st.text() | st.text(ALPHABET, max_size=LONGEST + 5)
sizes = st.floats(1e-9, 1e9) | st.just(0.0)
signed = st.builds(lambda size, sign: size * sign, sizes, st.sampled_from((-1, 1)))


def sentences(text: str) -> int:
    """How many sentences a text has."""
    return len(re.findall(r"[.!?…](?=\s|$)", text))


class TestReadReal:
    @pytest.mark.parametrize(
        ("text", "value"),
        [
            ("0.5", 0.5),
            (".5", 0.5),
            ("5.", 5.0),
            ("-3", -3.0),
            ("+3", 3.0),
            ("1e-3", 1e-3),
            ("1E3", 1e3),
            ("0,5", 0.5),
            ("−1.47", -1.47),
            ("–1.47", -1.47),
            ("  75 ", 75.0),
            ("75 ohm", 75.0),
            ("75 ohms", 75.0),
            ("75 \N{GREEK CAPITAL LETTER OMEGA}", 75.0),
            ("75\N{OHM SIGN}", 75.0),
        ],
    )
    def test_forms(self, text, value):
        """A real number is read in any form that people write."""
        assert value == read_real(text)

    @given(signed)
    def test_reads_what_python_writes(self, value):
        """Every ordinary number comes back exactly from Python's own shortest form."""
        assert value == read_real(repr(value))

    def test_the_sentence_shows_the_example_wanted(self):
        """Who asks for ohms can show an example in ohms."""
        with pytest.raises(Unreadable, match="“fifty” is not a number; write one such as 50"):
            read_real("fifty", "50")


class TestReadComplex:
    @pytest.mark.parametrize(
        ("text", "value"),
        [
            ("25-40j", 25 - 40j),
            ("25 - j40", 25 - 40j),
            ("25 − j 40 Ω", 25 - 40j),
            ("0.5+1.2i", 0.5 + 1.2j),
            ("j2", 2j),
            ("-i", -1j),
            ("+j", 1j),
            ("-40j+25", 25 - 40j),
            ("j*40", 40j),
            ("40·j", 40j),
            ("1 + j(1.472)", 1 + 1.472j),
            ("1 - j (1.472)", 1 - 1.472j),
            ("0,5 - j0,25", 0.5 - 0.25j),
            ("1e2-1e1j", 100 - 10j),
            ("0.5", 0.5 + 0j),
            ("short", 0j),
        ],
    )
    def test_rectangular_forms(self, text, value):
        """A complex number is read with j or i, before or after its number, in either order."""
        assert value == read_complex(text)

    @pytest.mark.parametrize("text", ["inf", "∞", "open", "Open circuit", "INF"])
    def test_open_circuit(self, text):
        """An open circuit is an infinite number, whatever it is called."""
        assert complex(float("inf"), 0) == read_complex(text)

    @pytest.mark.parametrize("text", ["0.62∠-83", "0.62 ∠ −83°", "0.62 < -83 deg", "0.62@-83degrees"])
    def test_polar_forms(self, text):
        """A number is read as size and angle, in degrees where nothing else is said."""
        assert isclose(rect(0.62, radians(-83)), read_complex(text), rel_tol=1e-15)

    @pytest.mark.parametrize("text", ["0.62 ∠ -1.449 rad", "0.62 < -1.449"])
    def test_radians(self, text):
        """In a course of radians an angle without a unit is one in radians."""
        assert isclose(rect(0.62, -1.449), read_complex(text, "radians"), rel_tol=1e-15)

    def test_a_unit_beats_the_course(self):
        """Who writes degrees means degrees."""
        assert isclose(rect(1, radians(90)), read_complex("1 ∠ 90°", "radians"), rel_tol=1e-15)

    @given(st.builds(complex, signed, signed))
    def test_reads_what_python_writes(self, value):
        """Every ordinary complex number comes back exactly from Python's own form of it."""
        assert value == read_complex(str(value).strip("()"))

    @pytest.mark.parametrize(
        ("text", "match"),
        [
            ("1j+2j", "more than one imaginary part"),
            ("1+2", "more than one real part"),
            ("1.2 - 1.6", "say where the j is, as in 1.2 - j1.6"),
            ("25 - 40k", "“25 - 40k” is not a number; write one such as 25 - j40"),
            ("1e999", "too large to be meant; write inf"),
            ("1e200-1e200j", "too large to be meant"),
            ("1∠1e300", "too large to be meant"),
        ],
    )
    def test_refusals(self, text, match):
        """What cannot be meant is refused with the reason."""
        with pytest.raises(Unreadable, match=match):
            read_complex(text)


class TestReadLength:
    @pytest.mark.parametrize(
        ("text", "value", "unit"),
        [
            ("0.172", 0.172, "wavelengths"),
            ("0.172 λ", 0.172, "wavelengths"),
            ("0.172wl", 0.172, "wavelengths"),
            ("0,172 lambda", 0.172, "wavelengths"),
            ("61.9°", 61.9, "degrees"),
            ("61.9 deg", 61.9, "degrees"),
            ("14.3 mm", 14.3, "millimetres"),
            ("1.43 cm", 1.43, "centimetres"),
            ("-0.062", -0.062, "wavelengths"),
        ],
    )
    def test_units(self, text, value, unit):
        """A length is read with its unit, in wavelengths where none stands."""
        assert (value, unit) == read_length(text)

    @pytest.mark.parametrize("text", ["0.172 furlongs", "λ", "0.1mm2x"])
    def test_refusals(self, text):
        """A length in a unit nobody measures lines in is refused, with two that would do."""
        with pytest.raises(Unreadable, match="is not a length; write wavelengths such as"):
            read_length(text)


@every_reader
class TestWhateverComes:
    @pytest.mark.parametrize("text", BAD + EVIL, ids=lambda text: repr(text[:16]))
    def test_what_is_no_number_gets_one_sentence(self, read, text):
        """Nothing that is not a number gets through, and the reason is one short sentence on one line."""
        with pytest.raises(Unreadable, match=r"^[^\n]{10,160}\.$") as refusal:
            read(text)

        assert 1 == sentences(str(refusal.value))

    @given(text=junk)
    def test_only_ever_unreadable(self, read, text):
        """Whatever is typed, it is read or refused, and what is read can be reckoned with."""
        try:
            value = read(text)
        except Unreadable:
            return
        size = abs(value[0] if isinstance(value, tuple) else value)

        assert size <= 2 * LARGEST or size == float("inf")

    @pytest.mark.parametrize(
        "text", ["60 80", "0.52 110", "1 000", "0, 25", "6. 5", "60\N{NO-BREAK SPACE}80", "6 0 mm"]
    )
    def test_a_space_parts_two_numbers(self, read, text):
        """Digits on both sides of a space are no number: 60 80 is not 6080."""
        with pytest.raises(Unreadable, match="holds more than one number, as a space parts its digits"):
            read(text)

    def test_the_length_limit_is_told(self, read):
        """A text that is too long is refused by its length, before anything else is done with it."""
        with pytest.raises(Unreadable, match=f"That is {LONGEST + 1} characters long; .* at most {LONGEST}"):
            read("1" * (LONGEST + 1))
