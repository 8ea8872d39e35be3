"""Lines as typesetters and pages write them, in plain signs."""

import re
from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lessons.homework.typeset import plain

PIECES = (
    r"\frac{", "}", "{", r"\lambda", "$", "_{", "^{", r"\text{", "d", "y", "1", "2", "0.11", ",", r"\,", r"\\", "&",
    "~", "=>", "⇒", "×", "10", "⁻²", "𝑧", r"\circ", "e^{-j", " ",
)  # fmt: skip


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        (r"$d_{1} = 0.110\,\lambda$", "d_1 = 0.110 λ"), (r"$z_L = \frac{60 - j80}{50}$", "z_L = ((60 - j80)/(50))"),
        (r"$\Gamma = 0.593\,e^{-j46.8^\circ}$", "Γ = 0.593 e^(-j46.8°)"), (r"$\mathrm{SWR} = 3{,}91$", "SWR = 3,91"),
        (r"$d_{s,\text{near}} = 0.110$", "d_s_near = 0.110"), (r"$y_{1,2} = 1 \pm j1.47$", "y_12 = 1 ± j1.47"),
        ("𝑧𝐿 = 1.2 − 𝑗1.6", "zL = 1.2 - j1.6"), ("re\ufb02ec\u00adtion\u200b = 1", "reflection = 1"),
        ("B = −2.94 × 10⁻² S", "B = -2.94e-2 S"), ("ell_s = 0.095", "l_s = 0.095"), ("cell = 3", "cell = 3"),
        ("0.593 at an angle of -46.8°", "0.593 ∠ -46.8°"), ("z = 1 ⇒ y = 1", "z = 1  ;  y = 1"),
        (r"\frac{\frac{1}{2}}{3}", "((((1)/(2)))/(3))"), ("d = 0.172 λ", "d = 0.172 λ"),
    ],
)  # fmt: skip
def test_plain(line: str, expected: str):
    """Commands, letters of other shapes and invisible signs become what they stand for."""
    assert expected == plain(line)


@given(st.lists(st.sampled_from(PIECES)).map("".join) | st.text())
def test_every_digit_stays(line: str):
    """Whatever a line is made of, its plain digits stay; only the 10 of a power of ten becomes an e."""
    digits = Counter(re.sub(r"10", "", line))
    found = Counter(plain(line))

    assert all(found[digit] >= digits[digit] for digit in "23456789")
