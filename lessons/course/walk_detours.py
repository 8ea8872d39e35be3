"""Ways to walk along a line wrongly: each ends at another reading, and at another impedance."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from lessons.course.walk_values import end_after, end_reading, impedance_at, in_wavelengths, wavelength
from lessons.grammar import slips as made
from lessons.grammar.lesson import Slip, Text, Work


def is_slowed_metric(work: Work) -> bool:
    """Whether the length is in millimetres of a line on which waves are slower than in free space."""
    return bool(work["along"].unit == "millimetres" and work["velocity"] != 1)


IN_FREE_SPACE = "On the line waves are slower and wavelengths shorter: divide by the wavelength on the line."


@dataclass(frozen=True)
class Detour:
    """A way to walk wrongly: the start and the length of the walk that is made in place of the right one."""

    key: str
    doing: Text
    question: Text
    remedy: Text
    walk: Callable[[Work], tuple[float, float] | None]
    usual: int = 2
    ruled_out_by: tuple[str, ...] = ()

    def end(self, work: Work) -> float | None:
        """Where it ends, None where nobody can make it or nothing is changed by it."""
        walked = self.walk(work)
        return None if walked is None else made.unless_same(end_after(*walked), end_reading(work))

    def there(self, work: Work) -> complex | None:
        """What stands there."""
        end = self.end(work)
        return None if end is None else impedance_at(work, end)

    def slip(self, predict: Callable[[Work], float | complex | None], *ruled_out_by: str) -> Slip:
        return Slip(
            self.key, self.doing, self.question, self.remedy, predict, self.usual,
            ruled_out_by=(*self.ruled_out_by, *ruled_out_by),
        )  # fmt: skip


def _half_walked(work: Work) -> str:
    if work["along"].unit == "degrees":
        return "turning the point by {along}, as if line and chart turned alike"
    return "counting one turn of the chart as a whole wavelength"


DETOURS = (
    Detour(
        "wrong way",
        "walking toward the {back}",
        "Which way did you walk?",
        "The {asked} is asked: walk toward the {way}, {sense}.",
        lambda w: (w["start"], -w["waves"]),
        usual=3,
    ),
    Detour(
        "from zero",
        "starting at the zero of the scale",
        "From which reading did you start?",
        "The walk begins at the {known}: add the length to the reading there.",
        lambda w: (0.0, w["waves"]),
        usual=3,
    ),
    Detour(
        "half the length",
        _half_walked,
        "How many wavelengths is one full turn of the chart?",
        made.ONE_TURN,
        lambda w: (w["start"], w["waves"] / 2),
    ),
    Detour(
        "double the length",
        "counting one turn of the chart as a quarter wavelength",
        "Did you double the length?",
        made.ONE_TURN,
        lambda w: (w["start"], 2 * w["waves"]),
    ),
    Detour(
        "other scale",
        "starting at a reading of the scale toward the {back}",
        "On which of the two scales did you read?",
        "Stay on one scale: start and end are read on the one toward the {way}.",
        lambda w: (-w["start"], w["waves"]),
        ruled_out_by=("start",),
    ),
    Detour(
        "velocity ignored",
        "walking a length in wavelengths of free space",
        "In which wavelengths did you count?",
        IN_FREE_SPACE,
        lambda w: (
            (w["start"], in_wavelengths(w, wavelength(w) / w["velocity"])) if is_slowed_metric(w) else None
        ),
        ruled_out_by=("wave", "waves"),
    ),
)
