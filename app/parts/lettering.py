"""Names as a course writes them: "y_L" is y with a subscript L, and a lone l is set so that it is no stroke and no 1.

The browser's twin is static/parts/stage/lettering.js."""

from __future__ import annotations

import re
from collections.abc import Iterator

from app.parts.vector import element, width_of, words

_MARKED = re.compile(r"_(?:\{([^}]*)\}|([^\W_]+))|(?<!\w)l(?!\w)")
SUB, DROP = 0.72, 0.22  # size of a subscript, and how far it hangs, in letter sizes
ELL = {"font_family": "Georgia, 'Times New Roman', 'Liberation Serif', serif", "font_style": "italic"}


def lettered(x: float, y: float, said: str, size: float, **attributes: float | str | None) -> str:
    """A label with its baseline at a height, `size` millimetres high."""
    return element("text", "".join(_spans(said, size)), x=x, y=y, font_size=size, **attributes)


def lettered_width(said: str, size: float, bold: bool = False) -> float:
    """Width that a label takes at most, in the unit of the size."""
    return sum(width_of(part, size * (SUB if look == "sub" else 1), bold) for part, look in _parts(said))


def _parts(said: str) -> Iterator[tuple[str, str]]:
    """The parts of a label, each with its look: "", "sub" or "ell"."""
    last = 0
    for found in _MARKED.finditer(said):
        yield said[last : found.start()], ""
        yield (found[1] or found[2] or "l", "sub" if found[0] != "l" else "ell")
        last = found.end()
    yield said[last:], ""


def _spans(said: str, size: float) -> Iterator[str]:
    lowered = False
    for part, look in _parts(said):
        if not part:
            continue
        hangs = look == "sub"
        shift = DROP * size * (hangs - lowered)
        lowered = hangs
        if not look and not shift:
            yield words(part)
            continue
        letters = SUB * size if hangs else None
        yield element(
            "tspan", words(part), dy=shift or None, font_size=letters, **(ELL if look == "ell" else {})
        )
