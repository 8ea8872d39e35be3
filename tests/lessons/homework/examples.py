"""One homework of twelve lines as three courses would have it written: two slips, and one line that follows a slip.

The load is 60 - j80 ohm on 50 ohm, as in Pozar, Microwave Engineering, 4th ed., Ex 5.2 (from memory): d = 0.110 and
l = 0.095, or d = 0.260 and l = 0.405 wavelengths. The slips: the far distance is measured toward the load, 0.241 for
0.259; the near stub's susceptance has not changed its sign, and the stub is cut for that.
"""

TEXTS = {"load": "60-80j", "line": "50", "frequency": "868 MHz", "velocity": "0.66"}

WAVELENGTHS = """
zL = 1.2 - j1.6
Γ = 0.593 ∠ -46.8°
SWR = 3.91
y = 0.3 + j0.4
y near = 1 + j1.47
y far = 1 - j1.47
d near = 0.110 λ
d far = 0.241 lambda
bs near = 1.47
bs far = 1.47
l near = 0.405 wl
l far = 0.405
""".strip()

DEGREES = """
s_1 = 39,7°
s_2 = 86,8
t_1: 145,8 °
t_2: 145,8 deg
y_1 = 1 + i1,47
y_2 = 1 − i1,47
b_stub 1 = 1,47
b_stub 2 = 1,47
z_L = 1,2 − i1,6
Γ_L = 0,593 ∠ −46,8°
VSWR: 3,91
y_L = 0,3 + i0,4
""".strip()
DEGREES_NOTATION = {"d": "s", "l": "t", "imaginary": "i", "length": "degrees", "admittance": "overlay"}

OHMS = """
Z = 60-80j ohm; SWR = 3.91:1
ΓL = 0.406 - 0.433j
Y_L = 6+8J mS
Near solution:
  Y = 20 + 29.4j mS
  d = 25.2 mm
  Bs = 0.0294 S
  l = 92.4 mm
Far solution:
  Z = 15.8 + 23.3j ohm
  D = 54.9 mm
  Xs = -34 ohm
  L = 9.23 cm
""".strip()

HOMEWORKS = {
    "wavelengths, near and far": (WAVELENGTHS, {}),
    "degrees of line, 1 and 2, i and decimal commas": (DEGREES, DEGREES_NOTATION),
    "ohms, siemens and millimetres under headings": (OHMS, {}),
}

JUDGED = {
    "normalise": "right",
    "place": "right",
    "mismatch": "right",
    "admittance": "right",
    "crossing.near": "right",
    "crossing.far": "right",
    "distance.near": "right",
    "distance.far": "slip",
    "needed.near": "slip",
    "needed.far": "right",
    "length.near": "follows",
    "length.far": "right",
}
