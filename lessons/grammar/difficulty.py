"""How hard a random problem is: in round numbers, in any, or hard. A given's draw and its bounds follow from it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeVar

DifficultyKey = Literal["round", "any", "hard"]
What = TypeVar("What")


@dataclass(frozen=True)
class Difficulty:
    """key : in links and records.  name : where it is chosen.  means : the same in one sentence."""

    key: DifficultyKey
    name: str
    means: str

    def of(self, usual: What, *, if_round: What | None = None, if_hard: What | None = None) -> What:
        """What holds here: what is usual, unless something else is said for it."""
        said = {"round": if_round, "hard": if_hard}.get(self.key)
        return usual if said is None else said

    def after(self, name: object) -> str:
        """What is said after the name or the number of a problem of it: its own name, where it is not the usual one."""
        return f"{name}" if self is ANY else f"{name}, {self.name.lower()}"

    @property
    def texts(self) -> dict[str, str]:
        """The texts by which a link names it."""
        return {} if self is ANY else {"difficulty": self.key}


ROUND = Difficulty(
    "round",
    "Round numbers",
    "What is given is round where it can be: loads whose r and x have lines of their own on the chart, lengths in "
    "twentieths or eighths of a wave.",
)
ANY = Difficulty("any", "Any numbers", "Loads in steps of 5 Ω, at standing-wave ratios from 1.5 to 5.")
HARD = Difficulty(
    "hard",
    "Hard",
    "Awkward numbers, lines other than 50 Ω, standing-wave ratios from 4 to 15; stubs are often open, or of another "
    "impedance than their line.",
)
DIFFICULTIES = (ROUND, ANY, HARD)


def difficulty_of(key: object) -> Difficulty | None:
    """The difficulty of that key; the usual one for none. None where there is no such difficulty."""
    return next((one for one in DIFFICULTIES if one.key == (key or ANY.key)), None)
