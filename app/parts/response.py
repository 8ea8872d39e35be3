"""What is built, over frequency, as plain data and in words."""

from __future__ import annotations

import numpy as np

from app.parts.messages.shared import Curve, ResponseWords
from app.parts.words import branch_wire
from core.response import Bandwidth
from lessons.grammar.lesson import Work
from lessons.grammar.notation import Notation
from lessons.working.response import HIGHEST, LIMITS, LOWEST, BranchResponse, why

USUAL = 2.0  # a limit that many receivers are specified for: common practice, no source
TOLD = (0.8, 0.9, 0.95, 1.0, 1.05, 1.1, 1.2)
MOST_SHOWN = 99.0


def response_words(found: tuple[BranchResponse, ...], work: Work) -> ResponseWords | None:
    """Responses of what a derivation builds, or None where it builds nothing."""
    if not found:
        return None
    notation, frequency = work.notation, work.problem.givens.get("frequency")
    return {
        "lowest": LOWEST,
        "highest": HIGHEST,
        "megahertz": frequency / 1e6 if isinstance(frequency, float | int) else None,
        "limits": [{"limit": limit, "why": why(found, limit, notation)} for limit in LIMITS],
        "limit": USUAL,
        "curves": [_curve(one, notation) for one in found],
        "table": [
            [f"{_off(ratio)}", *(notation.number(_swr_at(one, ratio), 2) for one in found)] for ratio in TOLD
        ],
        "note": "The load is taken to be the same at every frequency, and the line to have no loss.",
    }


def _curve(one: BranchResponse, notation: Notation) -> Curve:
    return {
        "branch": branch_wire(one.branch),
        "swr": [round(min(value, MOST_SHOWN), 4) for value in one.swr],
        "bands": [_band(band) for band in one.bands],
        "line": f"{notation.wavelengths(one.total_line)} of line in all" if one.total_line else "",
    }


def span(band: Bandwidth) -> str:
    """A band's ends, in percent of the design frequency."""
    lower, upper = float(band.lower), float(band.upper)
    if np.isnan(lower):
        return "no band: it is above that at the design frequency"
    low = "far below" if lower == 0 else f"{100 * (lower - 1):.1f}\u00a0%".replace("-", "−")
    high = "far above" if np.isinf(upper) else f"+{100 * (upper - 1):.1f}\u00a0%"
    return f"{low} to {high}"


def _band(band: Bandwidth) -> str:
    """A band in words, with its width where it has one."""
    width = float(band.upper) - float(band.lower)
    return f"{span(band)}, {100 * width:.1f}\u00a0% wide" if np.isfinite(width) else span(band)


def _off(ratio: float) -> str:
    """How far a frequency is from the design frequency."""
    percent = 100 * (ratio - 1)
    text = f"{abs(percent):.1f}".removesuffix(".0")
    return "0 %" if text == "0" else f"{'−' if percent < 0 else '+'}{text} %"


def _swr_at(one: BranchResponse, ratio: float) -> float:
    return float(np.interp(ratio, one.ratios, one.swr))
