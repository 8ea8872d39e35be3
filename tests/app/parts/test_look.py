"""The style sheet: one palette in two lights, readable in both."""

import re

import numpy as np
import pytest

from app.parts.template import STATIC
from app.parts.vector_looks import MARKER, SIGNS

CSS = (STATIC / "parts" / "page.css").read_text("utf-8")
TEXT = ("ink", "quiet", "right", "close", "slip")
STROKES = ("load", "mismatch", "unit", "first", "second", "third", "fourth")


def palettes() -> list[dict[str, str]]:
    """Every block of the sheet that sets the paper: light, dark by the system, dark by the reader's wish."""
    blocks = re.findall(r"\{([^{}]*--paper:[^{}]*)\}", CSS)
    return [dict(re.findall(r"--([\w-]+):\s*(#[0-9a-f]{6})", block)) for block in blocks]


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours, 1 to 21.

    Source: WCAG 2.2, definitions of contrast ratio and relative luminance (from memory)."""
    dark, light = sorted(map(luminance, (one, other)))
    return (light + 0.05) / (dark + 0.05)


def luminance(colour: str) -> float:
    """Relative luminance of an sRGB colour '#rrggbb', 0 to 1."""
    channels = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def test_contrast_of_black_on_white():
    """The measure itself gives 21 for black on white (WCAG 2.2) and 1 for a colour on itself."""
    assert pytest.approx(21) == contrast("#000000", "#ffffff")
    assert pytest.approx(1) == contrast("#875500", "#875500")


def test_dark_stands_twice_alike():
    """Whoever wishes the dark page gets the same as whoever's system is dark, and no role is forgotten."""
    light, by_system, by_wish = palettes()

    assert by_system == by_wish
    assert list(light) == list(by_system)


@pytest.mark.parametrize("palette", palettes()[:2], ids=["light", "dark"])
@pytest.mark.parametrize("role", [*TEXT, *STROKES])
def test_roles_can_be_seen(palette: dict[str, str], role: str):
    """Text stands out 4.5 to 1 from the paper (WCAG 2.2, 1.4.3), and so do strokes: their labels have their ink."""
    assert 4.5 <= contrast(palette[role], palette["paper"])


def test_one_marker_a_role():
    """A role has one outline wherever it is marked: on the chart, in the line drawing, and on paper."""
    script = (STATIC / "parts/markers.js").read_text("utf-8")
    corners = {
        role: [
            tuple(float(part) for part in pair.split(","))
            for pair in re.findall(r"\[(-?[\d., -]+)\]", outline)
        ]
        for role, outline in re.findall(r"^  (\w+): \[(.*)\],$", script, re.MULTILINE)
    }

    signs = dict(re.findall(r'(\w+): "(.)"', script))

    assert SIGNS == signs
    assert set(MARKER) == set(corners)
    for role, outline in MARKER.items():
        on_paper = np.array(outline) * 4
        assert pytest.approx(on_paper, abs=0.5) == np.array(corners[role])
