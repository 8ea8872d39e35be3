"""The steps of two reactances, for either arrangement: along its own circle, and then along the other grid's."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from core.chart import arc_between
from lessons.course import two_slips as slips
from lessons.course.two_values import Arrangement
from lessons.grammar.branch import Branch
from lessons.grammar.kinds import ImaginaryPart, Immittance
from lessons.grammar.lesson import Field, Step, Work, by_grid
from lessons.grammar.strokes import Curve, Point, Stroke, WalkCircle, Way

PLACES = {"shunt": "the part across the line", "series": "the part in the line"}
CIRCLES = {"shunt": "unit-conductance circle, g = 1", "series": "unit-resistance circle, r = 1"}


def _each(way: Arrangement, written: Callable[[Branch], str]) -> str:
    return "; ".join(f"{one.word}: {written(one)}" for one in way.pair.branches) + "."


def _target(way: Arrangement, branch: Branch) -> Iterable[Stroke]:
    """The circle that both walks of an arrangement lead to, drawn once."""
    if branch is way.pair.branches[0]:
        spoken = f"The {CIRCLES[way.far.placement]}, for {way.near.symbol}."
        yield Curve(way.far.unit_circle, "unit", way.near.immittance, f"{way.far.real_symbol} = 1", spoken)


def _along(work: Work, way: Arrangement, branch: Branch) -> Iterable[Stroke]:
    """The near part's walk along its circle, and the crossing."""
    start, end, there = way.start(work), way.at(work, "meet", branch), way.meet_reflection(work, branch)
    yield Way(
        arc_between(way.circle(work), way.start_reflection(work), there, clockwise=end.imag > start.imag),
        branch.role,
        way.near.immittance,
        "",
        f"Along the circle of constant {way.near.real_symbol} to the {branch.word} crossing.",
    )
    written = work.write_of(f"{way.key}_meet", branch)
    yield Point(
        there,
        branch.role,
        way.near.immittance,
        f"{way.near.symbol}_{way.name(branch)}",
        f"Behind the first part, {branch.word}: {written}.",
        work.notation.rectangular(end, 2),
    )


def _home(work: Work, way: Arrangement, branch: Branch) -> Iterable[Stroke]:
    """The far part's walk along its unit circle to the centre."""
    yield Way(
        arc_between(
            way.far.unit_circle,
            way.far.reflection_at(complex(1, way.at(work, "turn", branch).imag)),
            0j,
            clockwise=way.at(work, "far", branch).real > 0,
        ),
        branch.role,
        way.far.immittance,
        "",
        f"Along the {CIRCLES[way.far.placement]}, to the centre, {branch.word}.",
    )


def meet(way: Arrangement) -> Step:
    near, other = way.near, CIRCLES[way.far.placement]
    g, y, r = near.real_symbol, near.symbol, way.far.real_symbol
    both_serve = (
        f"Two circles meet in two points, and both serve. At both {g} is the load's own; in numbers, "
        f"{near.part_symbol} there is plus or minus the root of {g} less its square."
    )
    mirrored = f"For {y} the circle {r} = 1 stands at the left, from the centre to the end of the axis. "
    return Step(
        key=f"{way.key}_meet",
        title=f"Go along {g} to the other unit circle",
        ask=f"Let {PLACES[near.placement]} stand nearer the load. It changes {near.part_symbol} alone: which {y} "
        f"stands where the load's circle of constant {g} meets the {other}? The high crossing has the greater "
        f"{near.part_symbol}.",
        goal="The first part must lead to where the second one alone can finish.",
        rule=by_grid(mirrored + both_serve, both_serve),
        numbers=lambda w: f"Follow {g} = {w.notation.number(way.start(w).real)} to the {other}, both ways.",
        because=f"On the {other}, what is left is {way.far.part_symbol} alone.",
        fields=way.pair.fields(
            quantity=f"{way.key}_meet",
            label=f"{y} behind {PLACES[near.placement]}",
            kind=lambda w: Immittance(near.immittance, w["line"], "0.40 + {j}0.30"),
            value=way.meet,
            slips=lambda branch: slips.meet_slips(way, branch),
            strokes=lambda w, branch: (
                *_target(way, branch),
                *_along(w, way, branch),
            ),
            gesture=lambda w, branch: WalkCircle(way.circle(w), way.start_reflection(w), near.immittance),
            names=(f"{y} behind {near.placement}", f"{y} at the crossing", f"{y} between"),
        ),
        applies=way.exists,
    )


def near_part(way: Arrangement) -> Step:
    b, place = way.near.part_symbol, PLACES[way.near.placement]
    return Step(
        key=f"{way.key}_near",
        title=f"Take what {place} adds",
        ask=f"How much {way.near.part} must {place} add, to go from the load to either crossing?",
        goal="A part adds what is missing, no more.",
        rule=f"Subtract: {b} at the crossing less {b} of the load.",
        numbers=lambda w: (
            f"The load has {b} = {w.notation.number(way.start(w).imag)}; at the crossings it is, "
            + _each(way, lambda one: w.notation.number(way.at(w, "meet", one).imag))
        ),
        because={
            "shunt": "Across the line a positive b is a capacitor, a negative one a coil.",
            "series": "In the line a positive x is a coil, a negative one a capacitor.",
        }[way.key],
        fields=way.pair.fields(
            quantity=f"{way.key}_near",
            element=0,
            label=f"{b} to add",
            kind=lambda w: ImaginaryPart(way.near.immittance, w["line"], arithmetic=True),
            value=way.near_part,
            unmixed_by=(f"{way.key}_meet",),
            slips=lambda branch: slips.near_slips(way, branch),
            names=(f"{b} nearer the load", f"{b} near", f"{b} of {place}"),
        ),
        applies=way.exists,
    )


def finish(way: Arrangement) -> Step:
    y, z, x, place = way.near.symbol, way.far.symbol, way.far.part_symbol, PLACES[way.far.placement]
    turn, far = _turn_fields(way), _far_fields(way)
    return Step(
        key=f"{way.key}_finish",
        title=f"Read {z}, and cancel its {x}",
        ask=f"What follows stands {way.far.where} the line. Which {z} does each crossing show, and which "
        f"{way.far.part} must {place} add?",
        goal=f"What stands {way.far.where} the line adds to {z}. It is to lead along the unit circle to the centre.",
        rule=by_grid(
            f"Cross the centre to the other side and read {z} there. In numbers, {z} = 1 / {y}. The part adds the {x} "
            "that is there with the other sign.",
            f"Stay at the point and read {z} on the other one of the overlaid grids. In numbers, {z} = 1 / {y}. The "
            f"part adds the {x} that is there with the other sign.",
        ),
        numbers=lambda w: (
            f"{y} is, "
            + _each(way, lambda one: w.write_of(f"{way.key}_meet", one))
            + f" Take 1 / {y}, then its {x} with the other sign."
        ),
        because=f"The real part of {z} is 1 there, and with {x} cancelled nothing else is left: nothing comes back.",
        fields=tuple(one for pair in zip(turn, far, strict=True) for one in pair),
        applies=way.exists,
        formerly=(f"{way.key}_turn", f"{way.key}_far"),
    )


def _turn_fields(way: Arrangement) -> tuple[Field, ...]:
    z = way.far.symbol
    return way.pair.fields(
        quantity=f"{way.key}_turn",
        label=f"{z} there",
        kind=lambda w: Immittance(way.far.immittance, w["line"], "1.00 + {j}0.40"),
        value=way.turned,
        unmixed_by=(f"{way.key}_meet",),
        slips=lambda branch: slips.turn_slips(way, branch),
        strokes=lambda w, branch: (
            Point(
                way.far.reflection_at(way.at(w, "turn", branch)),
                branch.role,
                way.far.immittance,
                f"{z}_{way.name(branch)}",
                f"The same point read as {z}, {branch.word}: {w.write_of(f'{way.key}_turn', branch)}.",
                w.notation.rectangular(way.at(w, "turn", branch), 2),
            ),
        ),
        names=(f"{z} before {way.far.placement}", f"{z} there", f"{z} before {PLACES[way.far.placement]}"),
    )


def _far_fields(way: Arrangement) -> tuple[Field, ...]:
    x = way.far.part_symbol
    return way.pair.fields(
        quantity=f"{way.key}_far",
        element=1,
        label=f"{x} to add",
        kind=lambda w: ImaginaryPart(way.far.immittance, w["line"], arithmetic=True),
        value=way.far_part,
        unmixed_by=(f"{way.key}_turn", f"{way.key}_meet"),
        slips=lambda branch: slips.far_slips(way, branch),
        strokes=lambda w, branch: _home(w, way, branch),
        names=(f"{x} farther from the load", f"{x} far", f"{x} of {PLACES[way.far.placement]}"),
    )


def steps_of(way: Arrangement) -> tuple[Step, ...]:
    """All that is asked of an arrangement, in order."""
    return meet(way), near_part(way), finish(way)
