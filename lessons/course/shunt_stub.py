"""Matching a load with a single shunt stub."""

from __future__ import annotations

from lessons.course import primers
from lessons.course.single_stub import single_stub
from lessons.grammar.side import SHUNT

LESSON = single_stub(
    SHUNT,
    key="shunt-stub",
    title="Matching with a single shunt stub",
    purpose="A short piece of line across the main one cancels what the load sends back: find its place and length.",
    task="Match {load} to a line of {line} with a shunt stub of {stub}, ending in {an_end} circuit.",
    primer=primers.SHUNT_STUB,
    needs=("along-the-line", "impedance-and-admittance"),
    former_keys=("shunt_stub",),
)
