"""Figures of primers on real lines: what loss does to a walk, and what a strip's width does to its impedance."""

from __future__ import annotations

import numpy as np

from core.attenuation import attenuation_from_db
from core.line import swr, toward_generator
from core.microstrip import Microstrip
from lessons.course.copper_values import FORMULAS
from lessons.course.figures import EXAMPLE, circle, places, points
from lessons.grammar.figure import CHART, Dot, Figure, Mark, Panel, Pose, Trace
from lessons.grammar.notation import Notation

LOSS_DB = 1.0
"""A wavelength of the line: much, so that it is seen."""
LONGEST = 3.0
RATIO = Panel("ratio", -3.3, 0.5, 0.2, 3.9, across="← toward the generator")


# --- what loss does to a walk ---------------------------------------------------------------------------------------


def _there(distance: np.ndarray | float) -> np.ndarray:
    return np.asarray(toward_generator(EXAMPLE, distance, attenuation_from_db(LOSS_DB)))


def _spiral(distance: float) -> Trace:
    many = 2 + int(48 * distance)
    return Trace("chart", points(_there(np.linspace(0.0, distance, many))), "first", ends="arrow")


def _along_with_loss(distance: float, notation: Notation) -> Pose:
    here, at_load = (float(swr(one)) for one in (complex(_there(distance)), EXAMPLE))
    lost = notation.number(LOSS_DB * distance, 2)
    said = (
        f"{notation.wavelengths(distance)} from the load the wave has lost {lost} dB on its way there, and {lost} dB "
        f"on its way back. SWR here {notation.number(here, 2)}, at the load still {notation.number(at_load, 2)}: the "
        "match is no better, the power has warmed the line."
    )
    if distance == 0:
        said = f"At the load nothing is lost yet: SWR {notation.number(at_load, 2)}."
    return Pose(
        Dot("ratio", complex(-distance, here), "first"),
        (_spiral(distance), Dot("chart", complex(_there(distance)), "first")),
        said,
    )


def _ratio_at_rest(notation: Notation) -> tuple[Mark, ...]:
    distance = np.linspace(0.0, LONGEST, 121)
    return (
        Trace("ratio", points(-distance + 1j * swr(_there(distance))), "mismatch", "SWR"),
        Trace("ratio", (-LONGEST + 1j, 1j), "construction", "SWR 1"),
        Dot("ratio", complex(0, float(swr(EXAMPLE))), "load", "load"),
        Trace("chart", tuple(1j * one for one in circle(-abs(EXAMPLE))), "construction", "without loss"),
        Dot("chart", EXAMPLE, "load", "load"),
    )


SPIRAL = Figure(
    title="Why a long line with loss looks matched",
    holds="Place on the line",
    panels=(RATIO, CHART),
    places=places(0.0, LONGEST, 61),
    pose=_along_with_loss,
    still=_ratio_at_rest,
    start=18,
)


# --- what a strip's width does to its impedance ---------------------------------------------------------------------

BOARD = Microstrip(3.0, 1.0, formulas=FORMULAS)
NARROWEST, WIDEST = 0.3, 4.8  # millimetres
THICK = 0.25  # as the copper is drawn
ACROSS = Panel("across", -2.8, 2.8, -3.0, 2.6)
OHMS = Panel("ohms", -0.3, 5.4, -0.8, 5.7, across="wider →")
OHMS_A_UNIT = 25.0
REFERENCE = 50.0


def _on_curve(width: np.ndarray | float) -> np.ndarray:
    return np.asarray(width + 1j * np.asarray(BOARD.impedance(width)) / OHMS_A_UNIT)


def _wider_strip(width: float, notation: Notation) -> Pose:
    impedance, met = float(BOARD.impedance(width)), float(BOARD.effective_permittivity(width))
    half = width / 2
    return Pose(
        Dot("across", complex(half, THICK), "first"),
        (
            Trace("across", (complex(-half, THICK), complex(half, THICK)), "first", "", "area"),
            Dot("ohms", complex(_on_curve(width)), "first"),
        ),
        f"{notation.number(width, 2)} mm wide on {notation.number(BOARD.height_mm, 0)} mm of board, permittivity "
        f"{notation.number(BOARD.relative_permittivity, 0)}: {notation.number(impedance, 1)} Ω. The wave is partly in "
        f"the air: it meets {notation.number(met, 2)}, and is {notation.number(met**-0.5, 3)} times as long as in air.",
    )


def _board_at_rest(notation: Notation) -> tuple[Mark, ...]:
    left, right, low = -2.7, 2.7, -BOARD.height_mm
    widths = np.geomspace(NARROWEST, WIDEST, 61)
    edges = (complex(left, 0), complex(right, 0), complex(right, low), complex(left, low), complex(left, 0))
    return (
        Trace("across", edges, "construction"),
        Trace(
            "across",
            (complex(left, low - THICK), complex(right, low - THICK)),
            "load",
            "ground plane",
            "area",
        ),
        Trace("ohms", points(_on_curve(widths)), "mismatch", "impedance"),
        Trace(
            "ohms",
            (1j * REFERENCE / OHMS_A_UNIT, WIDEST + 1j * REFERENCE / OHMS_A_UNIT),
            "construction",
            "50 Ω",
        ),
        Trace("ohms", (0j, WIDEST + 0j), "construction"),
    )


STRIP = Figure(
    title="The wider the strip, the lower its impedance",
    holds="Width of the strip",
    panels=(ACROSS, OHMS),
    places=places(NARROWEST, WIDEST, 46),
    pose=_wider_strip,
    still=_board_at_rest,
    start=22,
)
