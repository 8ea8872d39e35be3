"""How far from the centre everything outside the rim stands, worked out from the height of a line of text.

On the screen, from the rim outward: ticks in wavelengths, readings toward the generator, a line for the names of these
two scales, readings toward the load; then a circle with ticks in degrees and the readings of the angle. On paper, as
fine as a sharp pencil: ticks and readings toward the generator; a free lane to write readings in; readings toward the
load, with their ticks inside a second circle; the same circle's ticks of the angle outside of it, and its readings.
So each scale has an edge of its own, and only two circles bear all three.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Layout:
    """Radii of everything outside the rim on the screen; `text` is a line's height, in radii of the chart."""

    text: float

    @property
    def tick(self) -> float:
        """Length of the longest tick."""
        return 0.5 * self.text

    @property
    def generator(self) -> float:
        """Radius at which readings toward the generator are centred."""
        return 1 + self.tick + 0.65 * self.text

    @property
    def names(self) -> float:
        """Radius at which the names of the two scales of wavelengths are centred."""
        return self.generator + 0.95 * self.text

    @property
    def load(self) -> float:
        """Radius at which readings toward the load are centred."""
        return self.names + 0.95 * self.text

    @property
    def angle_circle(self) -> float:
        """Radius of the circle that bears the ticks of the angle."""
        return self.load + 0.7 * self.text

    @property
    def angle(self) -> float:
        """Radius at which readings of the angle are centred."""
        return self.angle_circle + self.tick + 0.65 * self.text

    @property
    def extent(self) -> float:
        """Radius outside of which nothing is printed."""
        return self.angle + 0.65 * self.text


REGULAR, COMPACT = Layout(text=0.044), Layout(text=0.072)


@dataclass(frozen=True)
class PrintLayout(Layout):
    """Radii of everything outside the rim of a chart on paper."""

    @property
    def tick(self) -> float:
        """Length of the longest tick."""
        return 0.8 * self.text

    @property
    def names(self) -> float:
        """Radius of the middle of the free lane."""
        return self.generator + 0.55 * self.text + self.lane / 2

    @property
    def lane(self) -> float:
        """Width of the free lane."""
        return 2.9 * self.text

    @property
    def load(self) -> float:
        """Radius at which readings toward the load are centred."""
        return self.names + self.lane / 2 + 0.55 * self.text

    @property
    def angle_circle(self) -> float:
        """Radius of the circle that bears the ticks toward the load inside and those of the angle outside."""
        return self.load + 0.6 * self.text + self.tick


PRINT = PrintLayout(text=0.028)
"""On a chart of 75 mm radius: numbers of 2.1 mm, ticks toward the generator 1.9 mm apart."""
