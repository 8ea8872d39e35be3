"""How strokes look in ink on paper: each role's colour, width, dash and marker, so that black ink tells as much."""

from __future__ import annotations

import re
from functools import cache

from app.parts.template import STATIC
from app.parts.vector import Look, number, polyline

Spot = tuple[float, float]
INK_OF = {"construction": "quiet", "region": "quiet"}  # every other role has an ink of its own name
WIDTH = {"mismatch": 0.75, "construction": 0.28, "region": 0.18}
DASH = {"unit": "2.4 1.3", "second": "3.2 1 0.6 1", "third": "4.6 1.1", "fourth": "1.1 0.9"}
USUAL_WIDTH, RAY_WIDTH = 0.5, 0.3
MARKER = {
    "load": ((-1.15, -1.15), (1.15, -1.15), (1.15, 1.15), (-1.15, 1.15)),
    "first": ((0, -1.75), (1.6, 1.2), (-1.6, 1.2)),
    "second": ((0, -1.75), (1.75, 0), (0, 1.75), (-1.75, 0)),
    "third": ((0, 1.75), (1.6, -1.2), (-1.6, -1.2)),
    "fourth": tuple(
        (0.55 * right, 0.55 * down)
        for right, down in (
            *((-1, -3), (1, -3), (1, -1), (3, -1), (3, 1), (1, 1)),
            *((1, 3), (-1, 3), (-1, 1), (-3, 1), (-3, -1), (-1, -1)),
        )
    ),
    "slip": tuple(
        (right / 4, down / 4)
        for right, down in (
            *((-6, -4), (-4, -6), (0, -2), (4, -6), (6, -4), (2, 0)),
            *((6, 4), (4, 6), (0, 2), (-4, 6), (-6, 4), (-2, 0)),
        )
    ),
}
SIGNS = {"first": "▲", "second": "◆", "third": "▼", "fourth": "✚"}
"""The marker of a solution as a sign in a text, where two are named alike."""


@cache
def palette() -> dict[str, str]:
    """The page's colours by light, as its style sheet gives them."""
    first = re.search(r":root \{([^}]*)\}", (STATIC / "parts" / "page.css").read_text("utf-8"))
    return dict(re.findall(r"--([\w-]+): (#[0-9a-f]{6});", first[1] if first else ""))


def ink_of(role: str) -> str:
    """The colour of a role."""
    return palette()[INK_OF.get(role, role)]


def marker_path(role: str, at: Spot) -> str:
    """The piece of a path round a role's marker; a small circle where the role has none of its own."""
    if role not in MARKER:
        x, y = map(number, (at[0] - 1, at[1]))
        return f"M{x} {y}a1 1 0 1 1 2 0a1 1 0 1 1 -2 0Z"
    return polyline(*((at[0] + right, at[1] + down) for right, down in MARKER[role])) + "Z"


def line_look(role: str, kind: str = "") -> Look:
    """The attributes of a role's line."""
    width = RAY_WIDTH if kind == "ray" else WIDTH.get(role, USUAL_WIDTH)
    return {"fill": "none", "stroke": ink_of(role), "stroke_width": width, "stroke_dasharray": DASH.get(role)}
