"""Vector drawings as text: elements, numbers, and words that fit a width whatever typeface there is.

Lengths are in millimetres from the upper left corner of a page. Every attribute and every word is escaped here, so
nobody above has to think of it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from html import escape

DIGITS = 7  # decimals of a millimetre, so that a drawing can be read back as it was computed
TYPEFACE = "system-ui, -apple-system, 'Segoe UI', Roboto, 'Noto Sans', sans-serif"
Look = dict[str, float | str | None]
LINE = 1.32  # from one baseline to the next, in letter sizes
_FORBIDDEN = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""Characters that XML 1.0 does not allow at all, section 2.2 (from memory)."""
_WIDE: tuple[tuple[float, str], ...] = (
    (0.36, " \u00a0',.:;/\\IJijl|’"),
    (0.42, "!()-[]frt₀²"),
    (0.56, '"*?_`csz°“”–'),
    (0.65, "$0123456789EFLPSTYabdeghknopquvxy{}λΓΣ"),
    (0.72, "ABCKNRUVXZ"),
    (0.87, "#&+<=>DGHOQ^w~Ω−∞×±✓✗≈"),
    (0.93, "M∠"),
    (1.02, "%@Wm½…—"),
)
_TOGETHER = re.compile(r" (?=[−+] )|(?<=[−+]) | (?=(?:Ω|λ|mm|MHz|%|wavelengths?)(?!\w))")
"""Spaces at which a line must not end: within a complex number, and between a number and its unit."""
_WIDTH = {letter: width for width, letters in _WIDE for letter in letters}
WIDEST, BOLD = 1.3, 1.14


def number(value: float) -> str:
    """A number with as many decimals as it needs, at most DIGITS."""
    text = f"{value:.{DIGITS}f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def words(text: str) -> str:
    """Text as it may stand in XML, between tags or in an attribute."""
    allowed = text if text.isprintable() else _FORBIDDEN.sub("\N{REPLACEMENT CHARACTER}", text)
    return escape(allowed)


def element(tag: str, *content: str, **attributes: float | str | None) -> str:
    """An element; `content` is markup already.  attributes : `_` stands for `-`; None leaves one out."""
    given = "".join(
        f' {name.strip("_").replace("_", "-")}="{words(value) if isinstance(value, str) else number(value)}"'
        for name, value in attributes.items()
        if value is not None
    )
    return f"<{tag}{given}>{''.join(content)}</{tag}>" if content else f"<{tag}{given}/>"


def text(x: float, y: float, said: str, size: float, **attributes: float | str | None) -> str:
    """Words with their baseline at a height, `size` millimetres high."""
    return element("text", words(said), x=x, y=y, font_size=size, **attributes)


def line(x0: float, y0: float, x1: float, y1: float, **attributes: float | str | None) -> str:
    """A straight line."""
    return element("line", x1=x0, y1=y0, x2=x1, y2=y1, **attributes)


def path(*pieces: str, **attributes: float | str | None) -> str:
    """A path of pieces, each of which begins with its own move."""
    return element("path", d="".join(pieces), **attributes) if any(pieces) else ""


def polyline(*points: tuple[float, float]) -> str:
    """The piece of a path that leads straight from point to point."""
    return "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points)


def document(width: float, height: float, title: str, description: str, *content: str) -> str:
    """A whole drawing of that size in millimetres, white, with what is read aloud of it."""
    return element(
        "svg",
        element("title", words(title)),
        element("desc", words(description)),
        element("rect", width=width, height=height, fill="#fff"),
        element("g", *content, font_family=TYPEFACE, style="font-variant-numeric:tabular-nums"),
        xmlns="http://www.w3.org/2000/svg",
        width=f"{number(width)}mm",
        height=f"{number(height)}mm",
        viewBox=f"0 0 {number(width)} {number(height)}",
        role="img",
    )


@lru_cache(maxsize=65536)  # a class's worksheets say mostly the same
def width_of(said: str, size: float, bold: bool = False) -> float:
    """Width that words take at most in the usual typefaces without serifs, in the unit of the size."""
    return sum([_WIDTH.get(letter, WIDEST) for letter in said]) * size * (BOLD if bold else 1.0)


def wrapped(said: str, size: float, width: float, bold: bool = False) -> list[str]:
    """The lines into which words fall so that none is wider than `width`; a word too long for a line is cut."""
    return list(_lines(said, size, width, bold))


@lru_cache(maxsize=16384)
def _lines(said: str, size: float, width: float, bold: bool) -> tuple[str, ...]:
    lines: list[str] = []
    for word in _pieces(said, size, width, bold):
        if lines and width_of(f"{lines[-1]} {word}", size, bold) <= width:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return tuple(one.replace("\u00a0", " ") for one in lines)


def shortened(said: str, size: float, width: float, most: int = 1, bold: bool = False) -> list[str]:
    """As `wrapped`, in at most so many lines; where something is left out, the last line ends in an ellipsis."""
    lines = wrapped(said, size, width, bold)
    if len(lines) <= most:
        return lines
    last = lines[most - 1]
    while last and width_of(f"{last}…", size, bold) > width:
        last = last[:-1]
    return [*lines[: most - 1], f"{last.rstrip()}…"]


def _pieces(said: str, size: float, width: float, bold: bool) -> Iterator[str]:
    for word in filter(None, _TOGETHER.sub("\u00a0", " ".join(said.split())).split(" ")):
        rest = word
        while width_of(rest, size, bold) > width and len(rest) > 1:
            kept = next(
                n for n in range(len(rest) - 1, 0, -1) if n == 1 or width_of(rest[:n], size, bold) <= width
            )
            yield rest[:kept]
            rest = rest[kept:]
        yield rest
