"""Matching a load with a single series stub: all of it on the impedance grid."""

from __future__ import annotations

from lessons.course import primers
from lessons.course.single_stub import single_stub
from lessons.grammar.side import SERIES

LESSON = single_stub(
    SERIES,
    key="series-stub",
    title="Matching with a single series stub",
    purpose="A piece of line set into the main one cancels what the load leaves there: find its place and length.",
    task="Match {load} to a line of {line} with a stub of {stub} in series, ending in {an_end} circuit.",
    primer=primers.SERIES_STUB,
    needs=("shunt-stub",),
)
