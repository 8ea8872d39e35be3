"""Habits of books that match with a stub in series: 100 + j80 on 50 ohm at 2 GHz, and 30 - j40 on 75 ohm."""

from tests.lessons.homework.corpus import Habit

PATCH = {"load": 100 + 80j, "line": 50.0, "end": "open", "frequency": 2e9}
PROBE = {"load": 30 - 40j, "line": 75.0}

REACTANCES = Habit(
    "capital X over Z_0, open stubs, solutions 1 and 2",
    "series-stub",
    PATCH,
    """
Z_0 = 50 Ω, Z_L = 100 + j80 Ω || normalise 2+1.6j
z_L = 2 + j1.6 || normalise 2+1.6j
Z_L/Z_0 = 2 + j1.6 || normalise 2+1.6j
SWR = 3.49 || mismatch 3.49
Γ_L = 0.555 ∠ 29.9° || place 0.555@29.9
z_1 = 1 - j1.33, z_2 = 1 + j1.33 || crossing.near 1-1.33j, crossing.far 1+1.33j
d_1 = 0.328λ - 0.208λ = 0.120λ || distance.near 0.120
d_2 = (0.5 - 0.208 + 0.172)λ = 0.464λ || distance.far 0.464
X_s1/Z_0 = 1.33, X_s2/Z_0 = -1.33 || needed.near 1.33j, needed.far -1.33j
l_1 = 0.397λ, l_2 = 0.103λ || length.near 0.397, length.far 0.103
====
Z_1 = 50 - j66.7 Ω || crossing.near 1-1.334j
Z_2 = 50 + j66.7 Ω || crossing.far 1+1.334j
X_s1 = 66.7 Ω || needed.near 1.334j
X_s2 = -66.7 Ω || needed.far -1.334j
d_1 = 0.120λ (= 18.0 mm) || distance.near 0.120, distance.near 18.0 mm
d_2 = 69.4 mm || distance.far 69.4 mm
l_1 = 59.6 mm, l_2 = 15.3 mm || length.near 59.6 mm, length.far 15.3 mm
jX_s1 = j1.33 || needed.near 1.33j
""",
)

TEX = Habit(
    "source of a typesetter, solutions by words in the subscript",
    "series-stub",
    PATCH,
    r"""
$z_L = \frac{100 + j80}{50}$ || normalise 2+1.6j
$|\Gamma| = 0.555$ || mismatch 3.494
$\mathrm{VSWR} = 3.5:1$ || mismatch 3.5
$z_{\text{near}} = 1 - j1.33$ || crossing.near 1-1.33j
$z_{\text{far}} = 1 + j1.33$ || crossing.far 1+1.33j
$d_{\text{near}} = 0.120\lambda$ || distance.near 0.120
$d_{\text{far}} = 0.463\lambda$ || distance.far 0.463
$x_{s,\text{near}} = 1.33$ || needed.near 1.33j
$x_{s,\text{far}} = -1.33$ || needed.far -1.33j
$\ell_{\text{near}} = 0.397\lambda$ || length.near 0.397
$\ell_{\text{far}} = 0.103\lambda$ || length.far 0.103
====
$z_{1,2} = 1 \mp j1.33$ || crossing.near 1-1.33j, crossing.far 1+1.33j
$\beta d_1 = 43.1^\circ$ || distance.near 0.11972
$\beta d_2 = 166.8^\circ$ || distance.far 0.46333
$\beta\ell_1 = \pi - 0.643$ || length.near 0.39766
$\beta\ell_2 = 0.643$ || length.far 0.10234
""",
)

PRIMES = Habit(
    "primes for the second solution, angles of line",
    "series-stub",
    PROBE,
    """
z = 0.4 - j0.533 || normalise 0.4-0.533j
SWR = 3.31 || mismatch 3.31
Γ = 0.536∠−117.5° || place 0.536@-117.5
circle: r = 1 || unit_circle unit resistance
zd = 1 + j1.27 || crossing.near 1+1.27j
zd' = 1 - j1.27 || crossing.far 1-1.27j
d = 0.257, d' = 0.417 || distance.near 0.257, distance.far 0.417
x near = 1.27 || reactance.near 1.27j
x far = -1.27 || reactance.far -1.27j
xs near = -1.27 || needed.near -1.27j
xs' = 1.27 || needed.far 1.27j
l near = 128.2° || length.near 0.35611
l' = 51.8° || length.far 0.14389
start: the short point || start.point short
direction: clockwise || start.sense clockwise
""",
)

WITH_I = Habit(
    "i and decimal commas, a heading by letter over each solution",
    "series-stub",
    PROBE,
    """
z_L = (30 - i40)/75 = 0,4 - i0,533 || normalise 0.4-0.533j
SWR = 3,31 || mismatch 3.31
Solution A (near) || -
z = 1 + i1,27; x = 1,27 || crossing.near 1+1.27j, reactance.near 1.27j
d = 0,257λ; l = 0,356λ || distance.near 0.257, length.near 0.356
Solution B (far) || -
z = 1 - i1,27; x = -1,27 || crossing.far 1-1.27j, reactance.far -1.27j
d = 0,417λ; l = 0,144λ || distance.far 0.417, length.far 0.144
====
Solution 1: d = 0,257, l = 0,356 || distance.near 0.257, length.near 0.356
Solution 2: d = 0,417, l = 0,144 || distance.far 0.417, length.far 0.144
====
x_s = -1,27 (near), 1,27 (far) || needed.near -1.27j, needed.far 1.27j
X_s1 = -95,2 Ω, X_s2 = 95,2 Ω || needed.near -1.2693j, needed.far 1.2693j
d far = 0,417 λ at the far crossing || distance.far 0.417
z total near = 1 || total.near 1
z = 0,4 - 0,533 || ? where the j
""",
    {"imaginary": "i"},
)

SPOKEN = Habit(
    "short sentences, the value behind the verb",
    "series-stub",
    PROBE,
    """
The normalised load is 0.4 - j0.533 || normalise 0.4-0.533j
The SWR is 3.31. || mismatch 3.31
The near distance is 0.257 λ || distance.near 0.257
The far distance is 0.417 λ || distance.far 0.417
Near: d is 0.257 λ and l is 0.356 λ || distance.near 0.257, length.near 0.356
Far: d is 0.417 λ and l is 0.144 λ || distance.far 0.417, length.far 0.144
The stub reactance near is -1.27 || needed.near -1.27j
The stub reactance far is 1.27 || needed.far 1.27j
I would build: the far one || choose.which far
because: its stub is shorter || choose.why shorter stub
The line continues to the transmitter. || -
""",
)

HABITS = (REACTANCES, TEX, PRIMES, WITH_I, SPOKEN)
