"""Good inputs spoiled: texts and plain data, as a careless hand, a broken file or a stranger would send them."""

from __future__ import annotations

import random
from typing import Any

LONGEST = 30_000
ODD = (
    "", " ", "\0", "\ud83d", "\u202e", "−", "∠", "λ", "Ω", "½", "٣", "𝟗", "e", "1e999",
    "-1e-999", "nan", "inf", "j", "i",
    "0", "9" * 400, ".", ",", ";", "=", "(", "[[[[", "]]", "{", "{d}", "{{", "<script>", "'", '"', "\\",
    "\n", "\r\n", "\t",
    "#", "%ff", "&", "/", "//", "..", "^", "**", "sqrt(", "exp(", "°", "deg", "mm", "MHz", "λ/4", "not", "None", "true",
)  # fmt: skip
ODD_DATA: tuple[Any, ...] = (
    None, True, False, 0, -1, 2**60, 1.5, -0.0, 1e308, float("nan"), float("inf"), "", "a", "x" * 500, [], {}, [[]],
    {"": ""}, {"do": "enter"}, [1, 2], ["0", 0], {"version": 9},
)  # fmt: skip


def spoiled(dice: random.Random, text: str) -> str:
    """The text with one to four changes."""
    for _ in range(dice.randint(1, 4)):
        at, to = sorted(dice.randint(0, len(text)) for _ in range(2))
        match dice.randrange(7):
            case 0:
                text = text[:at] + text[to:]
            case 1 | 2:
                text = text[:at] + dice.choice(ODD) + text[at:]
            case 3:
                text = text[:at] + text[at:to] * dice.choice((2, 3, 40)) + text[to:]
            case 4:
                text = (
                    text[:at]
                    + chr(dice.choice((dice.randrange(128), dice.randrange(0xD7FF))))
                    + text[at + 1 :]
                )
            case 5:
                text = text[to:] + text[at:to] + text[:at]
            case 6:
                text = text[:at] + dice.choice(ODD) + text[to:]
    if dice.random() < 0.002:
        text = (text or "7") * (LONGEST // max(1, len(text)))
    return text[:LONGEST]


def spoiled_data(dice: random.Random, data: Any) -> Any:
    """Plain data with one of its parts changed, left out, or made deep."""
    if isinstance(data, dict) and data and dice.random() < 0.85:
        key = dice.choice(list(data))
        rest = {name: value for name, value in data.items() if name != key}
        match dice.randrange(8):
            case 0:
                return rest
            case 1:
                return {**rest, spoiled(dice, str(key)): data[key]}
            case _:
                return {**data, key: spoiled_data(dice, data[key])}
    if isinstance(data, list) and data and dice.random() < 0.85:
        at = dice.randrange(len(data))
        match dice.randrange(8):
            case 0:
                return data[:at] + data[at + 1 :]
            case 1:
                return data * dice.choice((2, 50))
            case _:
                return [*data[:at], spoiled_data(dice, data[at]), *data[at + 1 :]]
    if isinstance(data, str) and dice.random() < 0.7:
        return spoiled(dice, data)
    if dice.random() < 0.02:
        return nested(dice.choice((40, 400)))
    return dice.choice(ODD_DATA)


def nested(depth: int) -> list[Any]:
    """A list in a list, and so on."""
    inner: list[Any] = []
    for _ in range(depth):
        inner = [inner]
    return inner
