"""What the drawing needs, as plain data made from solutions as far as they are known."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from itertools import zip_longest
from typing import Any

import numpy as np

from app.parts.line_drawing.board import copper_of
from app.parts.line_drawing.elements import SectionOfLine, StubOfLine, Writer, as_data, known, phrase, rows_of
from app.parts.line_drawing.waves import said_waves, waves_of
from core.network import MatchingNetwork
from core.source import ConjugateMatch
from lessons.grammar.kinds import Millimetres
from lessons.grammar.notation import Notation
from lessons.grammar.plan import Plan

OPEN_END = (
    "An open end carries high voltage even at modest power, and it radiates: "
    "switch off before touching, and measure before you trust it."
)


def picture(
    plans: Sequence[Plan],
    current: str | None,
    notation: Notation,
    wavelength_mm: float | None = None,
    waves: bool = False,
) -> dict[str, Any]:
    """What the drawing needs, as plain data: JSON with lengths in wavelengths, None where one is not known yet.

    plans : networks of scalars; of none there is nothing to draw.  current : key of the branch drawn at full strength,
    None for the first plan; where nothing is known of it, it is the line with its load alone.
    wavelength_mm : where it is known, millimetres are written as well.  waves : whether the voltage and the current
    along the line are drawn, too.
    Raises ValueError where a network is an array of them."""
    if not plans:
        return {}
    plans, strong = _with_current(plans, current)
    for plan in plans:
        _refuse_arrays(plan.network)
    measured = wavelength_mm is not None and np.isfinite(wavelength_mm) and wavelength_mm > 0
    write = Writer(notation, float(wavelength_mm) if measured and wavelength_mm else None)
    shown = [plan for plan in plans if plan is strong or _over_the_same_line(plan, strong)]
    network, at = strong.network, [plan is strong for plan in plans].index(True)
    along = waves_of(plans, network) if waves else None
    said = [said_waves(along, at, network, notation)] if along else []
    return {
        "spoken": " ".join([*_sentences(plans, strong, shown, write), *said]),
        "waves": along,
        "caption": copper_of(network, write).words,
        "note": OPEN_END if any(_has_open_end(plan.network) for plan in plans) else "",
        "load": _load_lines(network.load_impedance, write),
        "line": {"ohms": _real(network.line_impedance), "text": write.ohms(network.line_impedance)},
        "source": _source(network, write),
        "writing": _writing(write),
        "current": at,
        "plans": [
            {
                "branch": plan.branch
                and {name: getattr(plan.branch, name) for name in ("key", "word", "role")},
                "form": copper_of(plan.network, write).form,
                "faint": plan in shown,
                "elements": [as_data(*named, write) for named in _named(plan)],
                "rows": [
                    {"first": row.first, "last": row.last, "text": row.text}
                    for row in rows_of(plan.network, plan.symbols, write)
                ],
            }
            for plan in plans
        ],
    }


def wave_picture(plan: Plan, notation: Notation) -> dict[str, Any]:
    """Voltage and current alone, of one plan: without it and with it; of the load alone if it is not complete."""
    drawn = picture([plan], None, notation, waves=True)
    said = said_waves(drawn["waves"], 0, plan.network, notation)
    name = f"This is the {plan.branch.named('solution')}. " if plan.branch and plan.complete else ""
    return {**drawn, "spoken": f"{name}{said}", "caption": "", "note": "", "only": "waves"}


def _with_current(plans: Sequence[Plan], key: str | None) -> tuple[Sequence[Plan], Plan]:
    """The plans, and that of the branch of this key among them."""
    found = [plan for plan in plans if key is None or (plan.branch is not None and plan.branch.key == key)]
    found = found or [plan for plan in plans if plan.branch is None]
    if found:
        return plans, found[0]
    bare = Plan(None, MatchingNetwork(plans[0].network.load_impedance, plans[0].network.line_impedance, ()))
    return (bare, *plans), bare


def _refuse_arrays(network: MatchingNetwork) -> None:
    values = [network.load_impedance, network.line_impedance]
    values += [
        value
        for element in network.elements
        for name in ("length", "impedance", "reactance")
        if (value := getattr(element, name, None)) is not None
    ]
    if any(np.ndim(value) for value in values):
        raise ValueError("Only one network can be drawn at a time, and this is an array of them: pick one.")


def _over_the_same_line(plan: Plan, strong: Plan) -> bool:
    """Whether a solution can be drawn over the one at full strength: both are stubs on one line of one impedance."""
    line = strong.network.line_impedance
    return plan.network.line_impedance == line and all(
        isinstance(e, StubOfLine) or (isinstance(e, SectionOfLine) and e.impedance == line)
        for e in (*plan.network.elements, *strong.network.elements)
    )


def _has_open_end(network: MatchingNetwork) -> bool:
    return any(isinstance(element, StubOfLine) and element.end == "open" for element in network.elements)


def _named(plan: Plan) -> Iterable[tuple[Any, str]]:
    """Each element with the symbol of its length."""
    count = len(plan.network.elements)
    return zip_longest(plan.network.elements, plan.symbols[:count], fillvalue="")


def _real(impedance: Any) -> float | None:
    value = complex(impedance).real
    return value if np.isfinite(value) else None


def _source(network: MatchingNetwork, write: Writer) -> str:
    """What the generator has inside, where the network is matched to that and not to its line; else ""."""
    return write.ohms(network.source_impedance) if isinstance(network, ConjugateMatch) else ""


def _load_lines(load: Any, write: Writer) -> list[str]:
    """The load's impedance in the lines in which it stands in its box, in all digits in which it was given."""
    value = complex(load)
    if np.isnan(value):
        return ["?"]
    text = write.notation.ohms(value)
    if np.isinf(value):
        return text.removeprefix("an ").split()
    return text.split(" ", 1) if value.imag else [text]


def _writing(write: Writer) -> dict[str, Any]:
    """How the browser writes a length while it is dragged, learnt from how the notation writes one."""
    notation, wave = write.notation, write.wavelength_mm
    number, unit = re.fullmatch(r"([\d.]+)(.*)", notation.wavelengths(0.0)).groups()  # type: ignore[union-attr]
    millimetres = "" if wave is None else Millimetres(wave).write(0.0, notation).removesuffix(" mm")
    return {
        "in_a_wavelength": 360 if notation.length == "degrees" else 1,
        "decimals": len(number.partition(".")[2]),
        "unit": unit,
        "wavelength_mm": wave,
        "mm_decimals": len(millimetres.partition(".")[2]),
    }


# --- in words -----------------------------------------------------------------------------------------------------


def _sentences(plans: Sequence[Plan], strong: Plan, shown: list[Plan], write: Writer) -> Iterable[str]:
    """The whole drawing, for those who do not see it."""
    network = strong.network
    inside = _source(network, write)
    load = "not known yet" if np.isnan(complex(network.load_impedance)) else _said_load(network, write)
    line = f"A line of {write.said(write.ohms(network.line_impedance))}"
    if network.elements:
        yield f"From the load, {load}, toward the generator: {_said_elements(strong, write)}."
        yield f"{line} leads on to the generator."
        if strong.branch is not None:
            yield f"This is the {strong.branch.named('solution')}."
    else:
        yield f"{line} leads from the generator to the load, {load}."
    if inside:
        yield f"The generator has {write.said(inside)} inside."
    for plan in plans:
        if plan is not strong and plan.network.elements:
            name = f"The {plan.branch.named('solution')}" if plan.branch else "Another solution"
            how = "drawn faintly" if plan in shown else "not drawn here"
            place = next(
                (known(e.length) for e in plan.network.elements if isinstance(e, SectionOfLine)), 0.0
            )
            if place is None:
                yield f"{name} is not known yet."
            else:
                yield f"{name}, {how}: {_said_elements(plan, write)}."
    copper = copper_of(network, write)
    yield "Beside it the same is sketched as copper on a board, from above." if copper.form else copper.words


def _said_load(network: MatchingNetwork, write: Writer) -> str:
    return write.said(write.notation.ohms(complex(network.load_impedance)))


def _said_elements(plan: Plan, write: Writer) -> str:
    rows = {row.first: row for row in rows_of(plan.network, plan.symbols, write)}
    inside = {index for row in rows.values() for index in range(row.first + 1, row.last + 1)}
    return "; then ".join(
        rows[index].phrase(write) if index in rows else phrase(element, symbol, write)
        for index, (element, symbol) in enumerate(_named(plan))
        if index not in inside
    )
