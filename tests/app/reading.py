"""Reads a vector drawing back: points of its lines, by plain plane geometry, in the plane of reflection."""

from __future__ import annotations

import re
from dataclasses import dataclass
from xml.etree import ElementTree

import numpy as np

SVG = "{http://www.w3.org/2000/svg}"
NUMBER = re.compile(r"-?\d+(?:\.\d+)?")


@dataclass(frozen=True)
class Page:
    """A drawing with a chart on it, whose rim tells where the plane of reflection is."""

    root: ElementTree.Element

    @property
    def rim(self) -> tuple[float, float, float]:
        """Centre and radius of the rim in millimetres."""
        (found,) = self.find("circle", "rim")
        return float(found.attrib["cx"]), float(found.attrib["cy"]), float(found.attrib["r"])

    @property
    def size(self) -> tuple[float, float]:
        """Width and height in millimetres, the same as said in the attributes and in the view box."""
        width, height = (float(self.root.attrib[side].removesuffix("mm")) for side in ("width", "height"))
        assert (
            self.root.attrib["viewBox"]
            == f"0 0 {self.root.attrib['width'][:-2]} {self.root.attrib['height'][:-2]}"
        )
        return width, height

    def find(self, tag: str, *classes: str, within: str = "") -> list[ElementTree.Element]:
        """Elements of a tag that have all these classes, within elements that have one, if one is named."""
        roots = [self.root] if not within else [one for one in self.root.iter() if within in classes_of(one)]
        found = (one for root in roots for one in root.iter(SVG + tag))
        return [one for one in found if set(classes) <= set(classes_of(one))]

    def words(self) -> list[str]:
        """Every text, in the order of drawing."""
        return ["".join(one.itertext()) for one in self.root.iter(SVG + "text")]

    def reflection(self, x: float, y: float) -> complex:
        """The point of the plane of reflection at a place of the page."""
        centre_x, centre_y, radius = self.rim
        return complex(x - centre_x, centre_y - y) / radius


def read(svg: str) -> Page:
    """The page in a text; raises ParseError where it is no XML."""
    return Page(ElementTree.fromstring(svg))


def classes_of(one: ElementTree.Element) -> list[str]:
    """The classes of an element."""
    return one.attrib.get("class", "").split()


def pieces(path: ElementTree.Element, parts: int = 4) -> list[list[tuple[float, float]]]:
    """The strokes of a path that starts each with M and goes on with L and A: some places on each."""
    strokes: list[list[tuple[float, float]]] = []
    for letter, given in re.findall(r"([MLAZ])([^MLAZ]*)", path.attrib["d"]):
        values = [float(text) for text in NUMBER.findall(given)]
        if letter == "M":
            strokes.append([(values[0], values[1])])
        elif letter == "L":
            strokes[-1].append((values[0], values[1]))
        elif letter == "A":
            strokes[-1] += _on_arc(strokes[-1][-1], values, parts)
    return strokes


def _on_arc(start: tuple[float, float], given: list[float], parts: int) -> list[tuple[float, float]]:
    """Places on an arc told by its ends, radius and sense; the smaller of the two arcs that there are."""
    radius, _, _, large, sweep, x, y = given
    assert (given[0], large) == (given[1], 0)
    first, last = complex(*start), complex(x, y)
    half = abs(last - first) / 2
    up = 1j * (last - first) / abs(last - first) * np.sqrt(max(radius**2 - half**2, 0.0))
    centre = (first + last) / 2 + (up if sweep else -up)
    turn = np.angle((last - centre) / (first - centre))
    assert (turn > 0) == bool(sweep)
    points = centre + (first - centre) * np.exp(1j * turn * np.arange(1, parts + 1) / parts)
    return [(float(point.real), float(point.imag)) for point in points]
