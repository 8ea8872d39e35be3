"""The scales around the rim for paper: as fine as a sharp pencil, with a free lane to write readings in.

From the rim outward: ticks and readings toward the generator; the lane; readings toward the load, with their ticks
inside a second circle; the same circle's ticks of the angle outside of it, and its readings. So each scale has an edge
of its own, and only two circles bear all three. Radii are in radii of the chart, as in core.scales.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from core import scales
from core.scales import Label, Layout, Tick


@dataclass(frozen=True)
class PrintLayout(Layout):
    """Radii of everything outside the rim of a chart on paper, from the height of a line of its numbers."""

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


def generator_ticks(layout: PrintLayout = PRINT) -> tuple[Tick, ...]:
    """Marks on the rim every 0.01 and 0.002 wavelength, of the scale toward the generator.

    layout : the radii to use."""
    return tuple(tick for tick in scales.wavelength_ticks(layout) if tick.weight != "fine")


def load_ticks(layout: PrintLayout = PRINT) -> tuple[Tick, ...]:
    """Marks inside the outer circle every 0.01 and 0.002 wavelength, of the scale toward the load.

    They stand at the angles of those toward the generator, since half a turn is a whole number of both.
    layout : the radii to use."""
    edge = layout.angle_circle
    return tuple(replace(tick, inner=edge, outer=edge - (tick.outer - 1)) for tick in generator_ticks(layout))


def angle_ticks(layout: PrintLayout = PRINT) -> tuple[Tick, ...]:
    """Marks outside the outer circle every 10, 2 and 1 degree.

    layout : the radii to use."""
    return scales.angle_ticks(layout)


def generator_labels(layout: PrintLayout = PRINT) -> tuple[Label, ...]:
    """Readings toward the generator, every 0.01 wavelength.

    layout : the radii to use."""
    return _with_room(scales.generator_labels(layout))


def load_labels(layout: PrintLayout = PRINT) -> tuple[Label, ...]:
    """Readings toward the load, every 0.01 wavelength.

    layout : the radii to use."""
    return _with_room(scales.load_labels(layout))


def angle_labels(layout: PrintLayout = PRINT) -> tuple[Label, ...]:
    """Readings of the angle of reflection, every 10 degrees.

    layout : the radii to use."""
    return _with_room(scales.angle_labels(layout))


def _with_room(labels: tuple[Label, ...]) -> tuple[Label, ...]:
    return tuple(label for label in labels if label.weight != "fine")
