"""Habits of books that match with a shunt stub, by their signs: 60 - j80 on 50 ohm at 868 MHz."""

from tests.lessons.homework.corpus import Habit

FEEDER = {"load": 60 - 80j, "line": 50.0, "frequency": 868e6, "velocity": 0.66}

CAPITALS = Habit(
    "capitals over Y_0 or Z_0, λ behind every length, solutions 1 and 2",
    "shunt-stub",
    FEEDER,
    """
Z_0 = 50 Ω || -
Z_L/Z_0 = 1.2 − j1.6 || normalise 1.2-1.6j
Γ_L = 0.593∠−46.8° || place 0.593@-46.8
S = 3.91 || mismatch 3.91
Y_L/Y_0 = 0.3 + j0.4 || admittance 0.3+0.4j
Y_1/Y_0 = 1 + j1.47 || crossing.near 1+1.47j
Y_2/Y_0 = 1 − j1.47 || crossing.far 1-1.47j
d_1 = 0.176λ − 0.065λ = 0.111λ || distance.near 0.111
d_2 = 0.324λ − 0.065λ = 0.259λ || distance.far 0.259
B_s1/Y_0 = −1.47 || needed.near -1.47j
B_s2/Y_0 = +1.47 || needed.far 1.47j
l_1 = 0.345λ − 0.250λ = 0.095λ || length.near 0.095
l_2 = 0.155λ + 0.250λ = 0.405λ || length.far 0.405
====
Solution 1: || -
jB = −j1.47 || needed.near -1.47j
d = 0.110λ, l = 0.095λ || distance.near 0.110, length.near 0.095
Solution 2: || -
jB_s = j1.47 || needed.far 1.47j
d = 0.260λ, l = 0.405λ || distance.far 0.260, length.far 0.405
====
VSWR = 3.9:1, |Γ| = 0.593 || mismatch 3.9, mismatch 3.914
Y_L = (6 + j8) mS || admittance 0.3+0.4j
Y_1 = (20 + j29.4) mS, Y_2 = (20 − j29.4) mS || crossing.near 1+1.47j, crossing.far 1-1.47j
""",
)

TEX = Habit(
    "source of a typesetter: dollars, fractions, commands for letters and signs",
    "shunt-stub",
    FEEDER,
    r"""
$Z_0 = 50\,\Omega$ || -
$z_L = \frac{60 - j80}{50} = 1.2 - j1.6$ || normalise 1.2-1.6j
$\Gamma_L = 0.593\angle -46.8^\circ$ || place 0.593@-46.8
$\Gamma_L = 0.593\,e^{-j46.8^{\circ}}$ || place 0.593@-46.8
$\mathrm{SWR} = 3.91$ || mismatch 3.91
$y_L = \frac{1}{z_L} = 0.3 + j0.4$ || admittance 0.3+0.4j
$y_{1} = 1 + j\,1.47$ || crossing.near 1+1.47j
$y_{2} = 1 - j\,1.47$ || crossing.far 1-1.47j
$d_{1} = 0.110\lambda$ || distance.near 0.110
$d_{2} = 0.260\,\lambda$ || distance.far 0.260
$b_{s,1} = -1.47$, $b_{s,2} = 1.47$ || needed.near -1.47j, needed.far 1.47j
$\ell_{1} = 0.095\lambda$ || length.near 0.095
$\ell_{2} = 0.405\lambda$ || length.far 0.405
====
\[ z_L = \frac{Z_L}{Z_0} = \dfrac{60-j80}{50} \] || normalise 1.2-1.6j
$y = 1 \pm j1.47$ || crossing.near 1+1.47j, crossing.far 1-1.47j
$d_\mathrm{near} = 0.176\lambda - 0.065\lambda$ || distance.near 0.111
$d_\text{far} = \left(0.324 - 0.065\right)\lambda$ || distance.far 0.259
$\beta \ell_1 = 34.2^\circ$, \quad $\beta \ell_2 = 145.8^\circ$ || length.near 0.095, length.far 0.405
====
\begin{align*} || -
z_{\mathrm{L}} &= 1.2 - \mathrm{j}\,1.6 \\ || normalise 1.2-1.6j
\mathrm{VSWR} &\approx 3{,}91 \\ || mismatch 3.91
\underline{y}_{\mathrm{L}} &= 0{,}3 + \mathrm{j}\,0{,}4 || admittance 0.3+0.4j
\end{align*} || -
$d_1 \simeq 25.2\,\text{mm}$ || distance.near 25.2 mm
$B_{s1} = -29.4 \times 10^{-3}~\mathrm{S}$ || needed.near -1.47j
""",
)

COPIED = Habit(
    "text copied from a printed page: mathematical italics, invisible signs, typographic marks",
    "shunt-stub",
    FEEDER,
    """
𝑧𝐿 = 1.2 − 𝑗1.6 || normalise 1.2-1.6j
𝛤𝐿 = 0.593∠−46.8◦ || place 0.593@-46.8
SWR\u200b = 3.91 || mismatch 3.91
𝑦𝐿 = 0.3 + 𝑗0.4 || admittance 0.3+0.4j
𝑦₁ = 1 + ȷ1.47 || crossing.near 1+1.47j
𝑦₂ = 1 − ȷ1.47 || crossing.far 1-1.47j
𝑑₁ = 0.110𝜆 || distance.near 0.110
𝑑₂ = 0.260\u2009𝜆 || distance.far 0.260
𝑏ₛ₁ = −1.47 || needed.near -1.47j
𝑏ₛ₂ = +1.47 || needed.far 1.47j
ℓ₁ = 0.095𝜆 || length.near 0.095
ℓ₂ = 0.405𝜆 || length.far 0.405
====
standing\u00adwave ratio = 3.91 || mismatch 3.91
re\ufb02ection coe\ufb03cient = 0.593∠−46.8∘ || place 0.593@-46.8
\ufeff𝐲𝐋 = 𝟎.𝟑 + 𝐣𝟎.𝟒 || admittance 0.3+0.4j
\u2022 distance to the stub, near = 0.110\u00a0λ || distance.near 0.110
\u2022 distance to the stub, far = 0.260\u00a0λ || distance.far 0.260
𝛽𝑙₁ = 34.2° and 𝛽𝑙₂ = 145.8° || length.near 0.095, length.far 0.405
𝑌₁ = 20 + 𝑗29.4 mS || crossing.near 1+1.47j
𝐵ₛ₁ = −2.94 × 10⁻² S || needed.near -1.47j
""",
)

DEGREES = Habit(
    "electrical degrees: βd and βl, angles for every length",
    "shunt-stub",
    FEEDER,
    """
z_L = 1.2 - j1.6 || normalise 1.2-1.6j
Γ = 0.593 e^{-j46.8°} || place 0.593@-46.8
ρ = 0.593 exp(-j46.8°) || place 0.593@-46.8
SWR = 11.84 dB || mismatch 3.91
y_L = 0.3 + j0.4 || admittance 0.3+0.4j
βd_1 = 39.7° || distance.near 0.11028
βd_2 = 93.5° || distance.far 0.25972
βl_1 = 34.2° || length.near 0.095
βl_2 = 145.8° || length.far 0.405
====
β d_1 = 0.693 rad || distance.near 0.1103
β d_2 = 1.632 rad || distance.far 0.2597
βℓ_1 = 0.597 || length.near 0.095
βℓ_2 = 2.545 || length.far 0.40505
====
θ = βd = 39.7° near || distance.near 0.11028
θ = βd = 93.5° far || distance.far 0.25972
beta l near = 34.2 deg || length.near 0.095
beta l far = 180° - 34.2° = 145.8° || length.far 0.405
jb_s near = -j1.47 || needed.near -1.47j
jb_s far = j1.47 || needed.far 1.47j
====
d = 39.7° and 93.5° || distance.near 0.11028, distance.far 0.25972
l = 34.2° or 180° - 34.2° || length.near 0.095, length.far 0.405
2βd = 2 * 39.7° || ? 2βd
βd_1 = 2π(0.110) || distance.near 0.110
""",
    {"length": "degrees"},
)

COMMAS = Habit(
    "decimal commas, i for the imaginary unit, headings over the solutions",
    "shunt-stub",
    FEEDER,
    """
z_L = 1,2 − i1,6 || normalise 1.2-1.6j
z_L = (60 − i80)/50 = 1,2 − i1,6 || normalise 1.2-1.6j
Γ_L = 0,593 ∠ −46,8° || place 0.593@-46.8
VSWR: 3,91 || mismatch 3.91
y_L = 0,3 + i0,4 || admittance 0.3+0.4j
Near: || -
y = 1 + i1,47 || crossing.near 1+1.47j
b = 1,47; d = 0,110λ || susceptance.near 1.47j, distance.near 0.110
b_s = −1,47, l = 0,095λ || needed.near -1.47j, length.near 0.095
Far: || -
y = 1 − i1,47 || crossing.far 1-1.47j
b = −1,47, d = 0,260λ || susceptance.far -1.47j, distance.far 0.260
b_s = 1,47; l = 0,405λ || needed.far 1.47j, length.far 0.405
====
d = 0,110, 0,260 || distance.near 0.110, distance.far 0.260
l = 0,095 λ und 0,405 λ || ? und
y1 = 1+i1,47, y2 = 1-i1,47 || crossing.near 1+1.47j, crossing.far 1-1.47j
near: l = 0,095λ || length.near 0.095
far: l = 0,405λ || length.far 0.405
d near = 0 110 || ? as a space parts
|Γ| = 0,593 || mismatch 3.914
""",
    {"imaginary": "i"},
)

TOGETHER = Habit(
    "both solutions on one line: plus-minus, and, or, paired subscripts",
    "shunt-stub",
    FEEDER,
    """
y_1 = 1+j1.47, y_2 = 1-j1.47 || crossing.near 1+1.47j, crossing.far 1-1.47j
d_1 = 0.110λ, d_2 = 0.260λ || distance.near 0.110, distance.far 0.260
b_s1 = -1.47 and b_s2 = 1.47 || needed.near -1.47j, needed.far 1.47j
l_1 = 0.095λ, l_2 = 0.405λ || length.near 0.095, length.far 0.405
====
near: d = 0.110, l = 0.095 || distance.near 0.110, length.near 0.095
far: d = 0.260, l = 0.405 || distance.far 0.260, length.far 0.405
====
z = 1.2 - j1.6, y = 0.3 + j0.4, SWR = 3.91 || normalise 1.2-1.6j, admittance 0.3+0.4j, mismatch 3.91
y = 1 ± j1.47 || crossing.near 1+1.47j, crossing.far 1-1.47j
d = 0.110 and 0.260 λ || distance.near 0.110, distance.far 0.260
b_s = ∓1.47 || needed.near -1.47j, needed.far 1.47j
l = 0.095 or 0.405 || length.near 0.095, length.far 0.405
====
y_{1,2} = 1 ± j1.47 || crossing.near 1+1.47j, crossing.far 1-1.47j
d_{1,2} = 0.110λ, 0.260λ || distance.near 0.110, distance.far 0.260
l1, l2 = 0.095, 0.405 || length.near 0.095, length.far 0.405
====
d = 0.110λ (near), 0.260λ (far) || distance.near 0.110, distance.far 0.260
d near = 0.110 l near = 0.095 || distance.near 0.110, length.near 0.095
d: near = 0.110, far = 0.260 || distance.near 0.110, distance.far 0.260
far stub length = 0.405 λ (shorted), SWR = 3.91 || length.far 0.405, mismatch 3.91
====
Solution 1: d = 0.110λ; Solution 2: d = 0.260λ || distance.near 0.110, distance.far 0.260
""",
)

TYPED = Habit(
    "typed into a plain editor: values in tables, angles drawn with a slash, the number in place of Z_0",
    "shunt-stub",
    FEEDER,
    """
Z_L/50 = 1.2 - j1.6 || normalise 1.2-1.6j
z = Z_L / 50 Ω = 1.2 - j1.6 || normalise 1.2-1.6j
Z_L/75 = 0.8 - j1.07 || ? nothing in this lesson is called
Γ = 0.593/_-46.8 || place 0.593@-46.8
Γ = 0.593 angle -46.8 || place 0.593@-46.8
Γ_L = 0.593, -46.8 deg || place 0.593@-46.8
gamma = 0.593, -46.8° || place 0.593@-46.8
Γ = 0.593 /_ -46.8° || place 0.593@-46.8
Γ = 0.593∟-46.8° || place 0.593@-46.8
====
| solution | d | l | || -
|---|---|---| || -
| near | 0.110 | 0.095 | || distance.near 0.110, length.near 0.095
| far | 0.259 λ | 0.405 | || distance.far 0.259, length.far 0.405
====
quantity | near | far || -
d (mm) | 25.1 | 59.1 || distance.near 25.1 mm, distance.far 59.1 mm
y | 1 + j1.47 | 1 - j1.47 || crossing.near 1+1.47j, crossing.far 1-1.47j
====
no. | l/λ || -
1 | 0.095 || length.near 0.095
2 | 0.405 || length.far 0.405
====
near | 0.110 | 0.095 || ? “near” says which solution: name each value
====
d | weather || ? no name of a quantity
0.110 | 21 || ? no name of a quantity
""",
)

HABITS = (CAPITALS, TEX, COPIED, DEGREES, COMMAS, TOGETHER, TYPED)
