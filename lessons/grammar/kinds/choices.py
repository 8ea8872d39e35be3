"""A choice among a few named answers."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from lessons.grammar.kinds.base import Accuracy, Kind, Reading, Said
from lessons.grammar.notation import Notation
from lessons.grammar.numbers import Unreadable

_GREEK = str.maketrans({"γ": "gamma", "ρ": "rho", "λ": "lambda", "β": "beta", "’": "'", "′": "'"})


def simplified(text: str) -> str:
    """A name without whatever people write differently: case, spaces, subscripts, brackets, Greek."""
    plain = (
        unicodedata.normalize("NFKC", text).casefold().translate(_GREEK).replace("normalized", "normalised")
    )
    return re.sub(r"[^\w|']|_", "", plain)


@dataclass(frozen=True)
class Choice(Kind):
    """One of a few named options, each with the words that stand on it."""

    among: tuple[tuple[str, str], ...]
    names_a_choice = True
    comes_by_chance = False

    @property
    def options(self) -> Sequence[tuple[str, str]]:
        return self.among

    def read(self, text: str, notation: Notation) -> str:
        wanted = text.strip().lower()
        for key, words in self.among:
            if wanted in (key, words.lower()):
                return key
        raise Unreadable("Choose one of the answers shown.")

    def write(self, value: str, notation: Notation) -> str:
        return dict(self.among)[value]

    def off_by(self, value: str, other: str, accuracy: Accuracy) -> float:
        return 0.0 if value == other else float("inf")

    def drawn(self, answer: Any, read_as: str) -> str:
        return str(answer)

    def understood(self, said: Said) -> Iterator[Reading]:
        yield Reading(self.meant(said.value))

    def meant(self, value: str) -> str:
        """The key of the option that these words mean, the value itself where they mean none or several."""
        wanted = _bare(value)
        said = [key for key, words in self.among if wanted and wanted in _bare(words)]
        named = [key for key, _ in self.among if _bare(key) in wanted]
        return self.begun(value) or next((found[0] for found in (said, named) if len(found) == 1), value)

    def begun(self, value: str) -> str:
        """The key of the option that is named so or begins so, such as `g = 1`; "" where none is, or several."""
        wanted = _bare(value)
        exact = [key for key, _ in self.among if wanted == _bare(key)]
        begins = [key for key, words in self.among if len(wanted) > 1 and _bare(words).startswith(wanted)]
        return next((found[0] for found in (exact, begins) if len(found) == 1), "")


def _bare(words: str) -> str:
    """Words without articles, spaces and signs."""
    return simplified(re.sub(r"\b(the|a|an)\b", " ", words, flags=re.IGNORECASE))
