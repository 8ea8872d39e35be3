"""Simulated students, whose arithmetic is their own: a lesson's name, and who takes it."""

from collections.abc import Callable, Mapping
from typing import Any

from tests.bench.students.single_stub import StubStudent
from tests.bench.students.stub_mistakes import mistakes

Taker = Callable[[Mapping[str, Any], bool], StubStudent]


def _takes_stub(shunt: bool) -> Taker:
    def student(givens: Mapping[str, Any], overlay: bool) -> StubStudent:
        return StubStudent(**givens, shunt=shunt, overlay=overlay)

    return student


TAKERS: dict[str, Taker] = {"shunt-stub": _takes_stub(True), "series-stub": _takes_stub(False)}
"""Who takes which lesson; a lesson that stands not here is played by nobody, and the table says so."""

__all__ = ["TAKERS", "Taker", "mistakes"]
