"""Bars that are read at a glance: one for each step, divided by how it came out, and one for each slip.

Nothing by colour alone: each part has its own hatching, and a key. Drawn twice, broad and narrow, as words in a drawing
do not wrap.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from html import escape

from app.parts.vector import element, shortened, text, words

ROW, BAR, SIZE, UNDER = 34.0, 18.0, 15.0, 12.5
BROAD, NARROW = (960.0, 380.0), (360.0, 0.0)
"""Width of a drawing, and of the labels beside its bars; without that they stand above them."""
COUNT = 84.0  # room behind the bars for numbers
PARTS: Mapping[str, tuple[str, str]] = {
    "first": ("right at the first try", "right"),
    "later": ("right after a wrong try", "close"),
    "helped": ("with hints or shown", "mismatch"),
    "carried": ("wrong, or right only for a wrong value", "slip"),
    "open": ("not done", ""),
}
HATCHING = {
    "first": "",
    "later": '<path d="M0 8L8 0" stroke-width="2.2"/>',
    "helped": '<circle cx="4" cy="4" r="1.7"/>',
    "carried": '<path d="M0 0L8 8M0 8L8 0" stroke-width="1.8"/>',
}


@dataclass(frozen=True)
class Bar:
    """A bar: its label, its parts by their keys, the number behind it, and what stands small under the label."""

    label: str
    parts: Mapping[str, float]
    number: str
    under: str = ""


def bars(name: str, bars_: Sequence[Bar], most: int, described: str, keyed: bool) -> str:
    """The bars, broad and narrow. most : the count that fills the width.  keyed : whether a key stands under them."""
    return "".join(
        _drawing(f"{name}-{which}", which, bars_, most, described, keyed, *size)
        for which, size in (("broad", BROAD), ("narrow", NARROW))
    )


def _drawing(
    name: str,
    which: str,
    rows: Sequence[Bar],
    most: int,
    described: str,
    keyed: bool,
    width: float,
    beside: float,
) -> str:
    y, drawn = 0.0, []
    for row in rows:
        height, markup = _row(name, row, y, most, width, beside)
        drawn.append(markup)
        y += height
    key, key_height = _key(name, width, y + 10) if keyed else ("", 0.0)
    return element(
        "svg",
        element("title", words(described)),
        element("defs", *(_pattern(name, part) for part in HATCHING)),
        *drawn,
        key,
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {width:g} {y + key_height + 4:g}",
        role="img",
        class_=f"bars {which}",
        style=f"max-width:{width:g}px",
    )


def _row(name: str, row: Bar, top: float, most: int, width: float, beside: float) -> tuple[float, str]:
    """The height that a bar takes with its label, and its markup."""
    label, height = _label(row, top, beside or width, bool(beside))
    left, at = (beside + 12, top) if beside else (0.0, top + height + 4)
    scale = (width - left - COUNT) / max(most, 1)
    parts, x = [], left
    for part, count in row.parts.items():
        if count:
            parts.append(_part(name, part, x, at, count * scale))
            x += count * scale
    number = text(x + 8, at + 0.78 * BAR, row.number, SIZE, class_="quiet")
    return max(height, at + BAR - top) + ROW - BAR, label + "".join(parts) + number


def _label(row: Bar, top: float, width: float, at_its_end: bool) -> tuple[str, float]:
    """A label in up to two lines, and what stands under it; and how high that is."""
    anchor, x = ("end", width) if at_its_end else (None, 0.0)
    lines: list[tuple[str, float, str | None]]
    lines = [(line, SIZE, None) for line in shortened(row.label, SIZE, width, 2)]
    lines += [(line, UNDER, "quiet") for line in shortened(row.under, UNDER, width)] if row.under else []
    parts, y = [], top - 0.04 * SIZE
    for line, size, kind in lines:
        y += 1.22 * size
        parts.append(text(x, y - 0.2 * size, line, size, text_anchor=anchor, class_=kind))
    return "".join(parts), y - top


def _part(name: str, part: str, x: float, y: float, width: float) -> str:
    colour = PARTS[part][1]
    fill = f"var(--{colour})" if part == "first" else f"url(#{name}-{part})" if part in HATCHING else "none"
    edge = f"var(--{colour})" if colour else "var(--quiet)"
    dash = None if colour else "3 3"
    return element(
        "rect",
        x=x + 0.75,
        y=y + 0.75,
        width=max(width - 1.5, 0.5),
        height=BAR - 1.5,
        style=f"fill:{fill};stroke:{edge};stroke-width:1.5",
        stroke_dasharray=dash,
    )


def _pattern(name: str, part: str) -> str:
    colour = f"var(--{PARTS[part][1]})"
    content = HATCHING[part]
    style = f"stroke:{colour};fill:{colour if 'circle' in content else 'none'}"
    return (
        f'<pattern id="{escape(name)}-{part}" width="8" height="8" patternUnits="userSpaceOnUse">'
        f'<g style="{style}">{content}</g></pattern>'
    )


def _key(name: str, width: float, top: float) -> tuple[str, float]:
    """What each hatching means, in as many rows as it takes; and how high that is."""
    parts, x, y = [], 0.0, top
    for part, (said, _) in PARTS.items():
        needed = 34 + 0.56 * SIZE * len(said) + 18
        if x and x + needed > width:
            x, y = 0.0, y + 26
        parts.append(_part(name, part, x, y, 26))
        parts.append(text(x + 34, y + 0.78 * BAR, said, SIZE, class_="quiet"))
        x += needed
    return "".join(parts), y + 26 - top + 14
