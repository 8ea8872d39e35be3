"""The value in a line of someone's own working, brought into the form that the lesson's field asks for.

Each kind of answer knows how it may be written. Where a value can be meant in two ways, both are given, the likelier
first.
"""

from __future__ import annotations

from math import nan

from lessons.grammar.kinds import Reading, Said
from lessons.grammar.lesson import Work
from lessons.grammar.numbers import LONGEST, Unreadable
from lessons.homework.names import Meaning

_AS_MEANT = str.maketrans("JIº˚", "ji°°")  # signs that look alike, or are typed for want of the right one


def readings(meaning: Meaning, name: str, value: str, work: Work) -> tuple[Reading, ...]:
    """Every way to understand a value, likeliest first; a single one with a fault where there is none."""
    if len(value) > 2 * LONGEST:
        return (Reading(value),)  # the field itself says that this is too long
    kind = meaning.quantity.fields[0].kind(work)
    if not kind.names_a_choice:
        value = value.translate(_AS_MEANT)
    found, faults = [], []
    said = Said(name.strip(), value, work.notation, meaning.swapped, work.wavelength_mm)
    try:
        for reading in kind.understood(said):
            try:
                if reading.millimetres is None:  # a length in millimetres has been read already
                    kind.read(reading.text, work.notation)
                found.append(reading)
            except Unreadable as fault:
                faults.append(str(fault))
    except Unreadable as fault:
        faults.append(str(fault))
    metric = nan if kind.length_in == "millimetres" else None
    return tuple(found) or (Reading(value, millimetres=metric, fault=faults[0]),)
