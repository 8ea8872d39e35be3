"""What goes wrong where wavelengths are turned into millimetres: the velocity factor, powers of ten, halves."""

from __future__ import annotations

from collections.abc import Callable

from lessons.grammar.lesson import Slip, Work


def metric_slips(
    value: Callable[[Work], float], halved: str, ruled_out_by: tuple[str, ...] = ()
) -> tuple[Slip, ...]:
    """Slips of a value in millimetres that is a part of the wavelength on the line. halved : what mends a half of it.

    ruled_out_by : fields that, answered rightly, show that the method is known."""

    def times(factor: float) -> Callable[[Work], float]:
        return lambda w: factor * value(w)

    def by_velocity(power: float) -> Callable[[Work], float | None]:
        return lambda w: value(w) * w["velocity"] ** power if w["velocity"] != 1 else None

    return (
        Slip(
            key="velocity ignored",
            doing="using the wavelength of free space",
            question="Did you use the velocity factor?",
            remedy="On the line waves are slower and wavelengths shorter: multiply by the velocity factor.",
            predict=by_velocity(-1),
            ruled_out_by=ruled_out_by,
        ),
        Slip(
            key="velocity inverted",
            doing="dividing by the velocity factor",
            question="Is a wave on the line longer or shorter?",
            remedy="Multiply by the velocity factor.",
            predict=by_velocity(-2),
            ruled_out_by=ruled_out_by,
        ),
        powers_of_ten(value, ruled_out_by),
        Slip(
            key="halved",
            doing="taking half of the wavelength for the whole",
            question="Is that a half of it?",
            remedy=halved,
            predict=times(0.5),
            usual=1,
            ruled_out_by=ruled_out_by,
        ),
        Slip(
            key="root of the velocity factor",
            doing="using the square root of the velocity factor",
            question="Did you take a root?",
            remedy="The velocity factor is one over the root of the permittivity already: multiply by it as it is.",
            predict=by_velocity(-0.5),
            usual=1,
            ruled_out_by=ruled_out_by,
        ),
    )


def powers_of_ten(value: Callable[[Work], float], ruled_out_by: tuple[str, ...] = ()) -> Slip:
    """The slip of a value in millimetres that is given in another unit."""
    return Slip(
        key="metres",
        doing="slipping by powers of ten between millimetres and metres",
        question="In which unit is this?",
        remedy="A metre has 1000 mm, a centimetre 10.",
        predict=lambda w: tuple(10.0**power * value(w) for power in (1, -1, 3, -3, 2, -2)),
        ruled_out_by=ruled_out_by,
    )
