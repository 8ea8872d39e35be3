"""Habits of books that match with a shunt stub, by their units, names and order: 60 - j80 on 50 ohm, mostly."""

from tests.lessons.homework.corpus import Habit

FEEDER = {"load": 60 - 80j, "line": 50.0, "frequency": 868e6, "velocity": 0.66}
LOOP = {"load": 40 + 30j, "line": 100.0}
THICK = {"load": 25 - 50j, "line": 50.0, "stub": 75.0, "end": "open"}

UNITS = Habit(
    "nothing normalised: ohms, millisiemens and millimetres",
    "shunt-stub",
    FEEDER,
    """
Z = 60 - 80j ohm; SWR = 3.91:1 || normalise 1.2-1.6j, mismatch 3.91
Y_L = 6+j8 mS || admittance 0.3+0.4j
Y_L = 1/(60 - j80) S || admittance 0.3+0.4j
Near solution: || -
Y = 20 + j29.4 mS || crossing.near 1+1.47j
d = 0.110λ (= 25.2 mm) || distance.near 0.110, distance.near 25.2 mm
Bs = -29.4 mS || needed.near -1.47j
l = 0.095λ = 21.6 mm || length.near 0.095, length.near 21.6 mm
Far solution: || -
Y = 20 - j29.4 mS || crossing.far 1-1.47j
d = 59.2 mm || distance.far 59.2 mm
Bs = 0.0294 S || needed.far 1.47j
l = 9.23 cm || length.far 92.3 mm
====
f = 868 MHz, λ = 228 mm || -
Z1 = 15.79 - j23.24 ohm || crossing.near 1+1.472j
d1 = 25.2 mm, d2 = 59.2 mm || distance.near 25.2 mm, distance.far 59.2 mm
l1 = 21.6 mm (0.095 wavelengths) || length.near 21.6 mm, length.near 0.095
B_stub 1 = −29.4 mS (inductive), B_stub 2 = 29.4 mS (capacitive) || needed.near -1.47j, needed.far 1.47j
Y_L = 0.006 + j0.008 S || admittance 0.3+0.4j
ZL = 100∠-53.13° Ω || normalise 1.2-1.6j
""",
)

PLANES = Habit(
    "planes named by letters, the stub at B, chains of equals with the place behind",
    "shunt-stub",
    FEEDER,
    """
z_L = Z_L/Z_0 = (60 - j80)/50 = 1.2 - j1.6 || normalise 1.2-1.6j
y_L = 1/z_L = 0.3 + j0.4 || admittance 0.3+0.4j
y_{B1} = 1 + j1.47 || crossing.near 1+1.47j
y_{B2} = 1 - j1.47 || crossing.far 1-1.47j
d_1 = 0.176 - 0.065 || distance.near 0.111
d_2 = 0.324 - 0.065 || distance.far 0.259
y_{s1} = -j1.47 || needed.near -1.47j
y_{s2} = j1.47 || needed.far 1.47j
ell_1 = 0.345 - 0.25 || length.near 0.095
ell_2 = 0.25 + 0.155 || length.far 0.405
====
d_A = 0.110λ || distance.near 0.110
d_B = 0.260λ || distance.far 0.260
y_s = -j1.47 at A || needed.near -1.47j
y_s = +j1.47 at B || needed.far 1.47j
ell_s = 0.095 at A || length.near 0.095
ell_s = 0.405 at B || length.far 0.405
1 + j1.47 || ? name
====
y_A = 1 + j1.47, y_B = 1 - j1.47 || crossing.near 1+1.47j, crossing.far 1-1.47j
d_I = 0.110, d_II = 0.260 || distance.near 0.110, distance.far 0.260
y_L = 0.3 + j(0.4) || admittance 0.3+0.4j
Y = 1 + j(1.472) at A || crossing.near 1+1.472j
y_total = (1 + j1.47) + (-j1.47) = 1 at A || total.near 1
""",
)

EXCHANGED = Habit(
    "l for the distance and d for the stub, solutions A and B, the far one first",
    "shunt-stub",
    LOOP,
    """
z_L = 0.4 + j0.3 || normalise 0.4+0.3j
y_L = 1.6 - j1.2 || admittance 1.6-1.2j
y = 1 + j1.04 || crossing.far 1+1.04j
y = 1 - j1.04 || crossing.near 1-1.04j
l_A = 0.36λ || distance.far 0.36
l_B = 0.032λ || distance.near 0.032
d_A = 0.1222λ || length.far 0.1222
d_B = 0.3778λ || length.near 0.3778
====
y_A = 1 + j1.06, y_B = 1 - j1.06 || crossing.far 1+1.06j, crossing.near 1-1.06j
l_A = 0.36λ, d_A = 0.12λ || distance.far 0.36, length.far 0.12
l_B = 0.033λ, d_B = 0.38λ || distance.near 0.033, length.near 0.38
====
near: l = 0.033, d = 0.38 || distance.near 0.033, length.near 0.38
far: l = 0.36, d = 0.12 || distance.far 0.36, length.far 0.12
SWR = 2.76:1 || mismatch 2.76
Γ_L = 0.469 ∠ 141.3° || place 0.469@141.3
""",
)

PROSE = Habit(
    "names in words, remarks behind the values",
    "shunt-stub",
    FEEDER,
    """
Normalised load impedance: 1.2 - j1.6 || normalise 1.2-1.6j
Reflection coefficient: 0.593 at an angle of -46.8° || place 0.593@-46.8
The standing wave ratio is 3.91 || mismatch 3.91
Load admittance = 0.3 + j0.4 (half a turn further) || admittance 0.3+0.4j
unit circle: g = 1 || unit_circle unit conductance
Distance to the stub, near = 0.110 wavelengths || distance.near 0.110
Distance to the stub, far = 0.260 wavelengths || distance.far 0.260
Stub susceptance near: -1.47 || needed.near -1.47j
Stub susceptance far: +1.47 || needed.far 1.47j
starts at: the short point || start.point short
clockwise || start.sense clockwise
Stub length near = 0.095 wavelengths from the short || length.near 0.095
Stub length far = 0.405 wavelengths from the short || length.far 0.405
I would build: the near one || choose.which near
====
Step 3: SWR = 3.91 from the chart || mismatch 3.91
(a) z = 1.2 - j1.6 || normalise 1.2-1.6j
(b) y = 0.3 + j0.4 || admittance 0.3+0.4j
The first solution: d = 0.110 λ and l = 0.095 λ. || distance.near 0.110, length.near 0.095
The second solution: d = 0.260 λ and l = 0.405 λ. || distance.far 0.260, length.far 0.405
z is 1.2 - 1.6 || ? where the j
My favourite number = 7 || ? called
distance near = 60 80 || ? as a space parts
""",
)

NOTEBOOK = Habit(
    "a notebook: short names, often no sign, list numbers, arrows",
    "shunt-stub",
    FEEDER,
    """
1) z 1.2-1.6j || normalise 1.2-1.6j
2) gamma .593<-46.8 || place 0.593@-46.8
3) swr 3.91 || mismatch 3.91
4) y .3+.4j || admittance 0.3+0.4j
5) y near 1+1.47j || crossing.near 1+1.47j
6) y far 1-1.47j || crossing.far 1-1.47j
7) d near .110 || distance.near 0.110
8) d far .260 || distance.far 0.260
9) bs near -1.47 || needed.near -1.47j
10) l near .095 || length.near 0.095
11) l far .405 || length.far 0.405
====
z -> 1.2-1.6j || normalise 1.2-1.6j
z = 1.2-1.6j => y = .3+.4j || normalise 1.2-1.6j, admittance 0.3+0.4j
d near .110, l near .095 || distance.near 0.110, length.near 0.095
- d far ~ .260 || distance.far 0.260
* l far = 0.25+0.155 = 0.405 || length.far 0.405
rho = .406-.433j || place 0.406-0.433j
d' = .110, d'' = .260 || distance.near 0.110, distance.far 0.260
z = 1.2 - 1.6 || ? where the j
l far = 0.4 05 || ? as a space parts
""",
)

OWN_STUB = Habit(
    "a stub of another impedance, normalised twice, ended open",
    "shunt-stub",
    THICK,
    """
zL = 0.5 - j1.0 || normalise 0.5-1j
SWR = 4.27 || mismatch 4.27
yL = 0.4 + j0.8 || admittance 0.4+0.8j
y1 = 1 + j1.58; y2 = 1 - j1.58 || crossing.near 1+1.58j, crossing.far 1-1.58j
b1 = 1.58; b2 = -1.58 || susceptance.near 1.58j, susceptance.far -1.58j
d1 = 0.178 - 0.115; d2 = 0.322 - 0.115 || distance.near 0.063, distance.far 0.207
b stub 1 = -1.58 || needed.near -1.58j
b own 1 = -1.58 × 75/50 = -2.37 || own.near -2.37j
b own 2 = 2.37 || own.far 2.37j
l1 = 0.314; l2 = 0.186 || length.near 0.314, length.far 0.186
starts at: the open point || start.point open
total y near = 1 + j0.00 || total.near 1
total y far = 1 - j0.00 || total.far 1
====
d near = 22.7° || distance.near 0.06306
d far = 74.5° || distance.far 0.20694
l near = λ/4 + 0.064λ || length.near 0.314
l far = 0.186λ (open) || length.far 0.186
""",
)

HABITS = (UNITS, PLANES, EXCHANGED, PROSE, NOTEBOOK, OWN_STUB)
