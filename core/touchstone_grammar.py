"""The grammar of a one-port Touchstone file: options, keywords and samples, each fault with its line.

The rules are those of the format's specification, revisions 1.1 and 2.0 (from memory); see `core.touchstone`.
"""

from __future__ import annotations

import cmath
import math
import re
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import NoReturn

import numpy as np

from core.checks import Array
from core.errors import NotATouchstoneFile

UNITS = {"HZ": 1.0, "KHZ": 1e3, "MHZ": 1e6, "GHZ": 1e9}
PARAMETERS = ("S", "Y", "Z")
FORMATS = ("MA", "DB", "RI")
NUMBER = re.compile(r"[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?", re.ASCII | re.IGNORECASE)
LINE_END = re.compile(r"\r\n|\r|\n")  # and no other: a comment may hold any sign
KEYWORD = re.compile(r"\[([^\]]*)\](.*)")
NUMBERS = 3  # of one port at one frequency: the frequency and one pair
REQUIRED = ("number of ports", "number of frequencies", "network data", "end")
ALLOWED = ("version", "reference", "matrix format", "begin information", *REQUIRED)
MANY_PORTS = ("two-port data order", "number of noise frequencies", "noise data", "mixed-mode order")


@dataclass(frozen=True)
class Line:
    """A line that says something: its number in the file, and its text without comment."""

    number: int
    text: str

    def fault(self, message: str) -> NoReturn:
        raise NotATouchstoneFile(message, line=self.number, value=self.text)


@dataclass(frozen=True)
class Options:
    """What the option line says; where it is silent, what the standard says."""

    unit: float = 1e9
    parameter: str = "S"
    format: str = "MA"
    resistance: float = 50.0


@dataclass(frozen=True)
class Block:
    """A keyword of version 2.0, the text after it, and the lines up to the next keyword."""

    name: str
    argument: str
    line: Line
    body: list[Line] = field(default_factory=list)


def parse(text: str, largest: float) -> tuple[Array, Array, float]:
    """Frequency in hertz, reflection, and the reference resistance in ohms.

    largest : magnitude up to which a reflection is taken for a measured one.  Raises NotATouchstoneFile."""
    lines = list(lines_of(text))
    if not lines:
        Line(1, "").fault("the file holds no data.")
    data, options, unit, reference = (_version_2 if lines[0].text.startswith("[") else _version_1)(lines)
    return *_samples(data, options, unit, largest), reference


def lines_of(text: str) -> Iterator[Line]:
    for number, whole in enumerate(LINE_END.split(text), start=1):
        said = whole.split("!", 1)[0].strip()
        if said:
            yield Line(number, said)


def _version_1(lines: list[Line]) -> tuple[list[Line], Options, float, float]:
    """One option line, then samples. Later option lines are ignored, as the standard says."""
    options, data = None, []
    for line in lines:
        if line.text.startswith("#"):
            options = options or options_of(line)
        elif line.text.startswith("["):
            line.fault("a keyword in brackets needs [Version] 2.0 in the first line.")
        elif options is None:
            line.fault("data came before the option line, such as # MHz S RI R 50.")
        else:
            data.append(line)
    if options is None or not data:
        lines[-1].fault("the file ends without any data.")
    # In this version Z and Y parameters are stored relative to the reference resistance.
    return data, options, 1.0, options.resistance


def _version_2(lines: list[Line]) -> tuple[list[Line], Options, float, float]:
    """As in version 1, but with keywords, and the numbers of one frequency may be wrapped over several lines."""
    options, blocks = blocks_of(lines)
    named = _checked(blocks)
    reference = _reference(named["reference"]) if "reference" in named else options.resistance
    data = list(_unwrapped(named["network data"].body))
    announced = named["number of frequencies"]
    if len(data) != count_of(announced) and all(len(line.text.split()) == NUMBERS for line in data):
        blocks[-1].line.fault(f"the file announces {count_of(announced)} frequencies and holds {len(data)}.")
    return data, options, reference, reference


def _unwrapped(data: list[Line]) -> Iterator[Line]:
    """One line for each frequency: lines too short for one are joined as far as they make one."""
    begun: Line | None = None
    for line in data:
        if begun and len(begun.text.split()) + len(line.text.split()) <= NUMBERS:
            begun = Line(begun.number, f"{begun.text} {line.text}")
        else:
            if begun:
                yield begun
            begun = line
    if begun:
        yield begun


def blocks_of(lines: list[Line], parameters: tuple[str, ...] = PARAMETERS) -> tuple[Options, list[Block]]:
    """The option line, and each keyword with the lines that belong to it."""
    options: Options | None = None
    blocks: list[Block] = []
    free_text = False
    for line in lines:
        keyword = KEYWORD.fullmatch(line.text)
        name = " ".join(keyword[1].lower().split()) if keyword else ""
        if free_text or name == "end information":
            free_text = name != "end information"
        elif keyword:
            blocks.append(Block(name, keyword[2].strip(), line))
            free_text = name == "begin information"
        elif line.text.startswith("#"):
            options = options or options_of(line, parameters)
        elif line.text.startswith("[") or not blocks:
            line.fault(
                "a keyword stands alone in its brackets, such as [Version] 2.0; here one is not closed."
            )
        else:
            blocks[-1].body.append(line)
    if options is None:
        blocks[-1].line.fault("the option line is missing, such as # MHz S RI R 50.")
    return options, blocks


def _checked(blocks: list[Block]) -> dict[str, Block]:
    """The keywords by name: known ones, once each, none missing, in order, and for one port."""
    named: dict[str, Block] = {}
    for block in blocks:
        _check_keyword(block, named)
        named[block.name] = block
    missing = [name for name in REQUIRED if name not in named]
    if missing:
        last = [blocks[-1].line, *blocks[-1].body][-1]
        last.fault(f"the file ends and the keyword [{missing[0].title()}] is missing.")
    if blocks[0].name != "version" or blocks[0].argument != "2.0":
        blocks[0].line.fault("the first line must be [Version] 2.0; a file of version 1.1 has no such line.")
    if [block.name for block in blocks[-2:]] != ["network data", "end"]:
        blocks[-1].line.fault("the file must close with [Network Data], its samples and [End].")
    if count_of(named["number of ports"]) != 1:
        named["number of ports"].line.fault("this reader takes one port; a load has one.")
    return named


def _check_keyword(block: Block, named: dict[str, Block]) -> None:
    if block.name in MANY_PORTS:
        block.line.fault("this keyword is for two or more ports; a load has one.")
    if block.name not in ALLOWED:
        block.line.fault("this keyword is not known in version 2.0.")
    if block.name in named:
        block.line.fault(f"this keyword came before, in line {named[block.name].line.number}.")
    if block.name == "matrix format" and block.argument.lower() not in ("full", "lower", "upper"):
        block.line.fault("the matrix format is Full, Lower or Upper.")
    if block.body and block.name not in ("network data", "reference"):
        block.body[0].fault(f"only a keyword can follow [{block.name.title()}] here.")


def count_of(block: Block) -> int:
    if not re.fullmatch(r"0*[1-9]\d{0,8}", block.argument, re.ASCII):
        block.line.fault(f"[{block.name.title()}] needs a whole number above zero.")
    return int(block.argument)


def _reference(block: Block) -> float:
    """The resistance stands behind the keyword or in the next line."""
    words = [(block.line, word) for word in block.argument.split()]
    words += [(line, word) for line in block.body for word in line.text.split()]
    if len(words) != 1:
        block.line.fault(f"[Reference] needs one resistance for one port, not {len(words)}.")
    return resistance_of(*words[0])


def options_of(line: Line, parameters: tuple[str, ...] = PARAMETERS) -> Options:
    """Unit, parameter and format in any order, each at most once, and R with a resistance."""
    words = line.text[1:].upper().split()
    found: dict[str, str | float] = {}
    while words:
        word = words.pop(0)
        kind = _kind(line, word, parameters)
        if kind in found:
            line.fault(f"the option line gives the {kind} twice.")
        if kind == "unit":
            found[kind] = UNITS[word]
        elif kind == "resistance":
            found[kind] = resistance_of(line, words.pop(0) if words else "")
        else:
            found[kind] = word
    return replace(Options(), **found)  # type: ignore[arg-type]


def _kind(line: Line, word: str, parameters: tuple[str, ...]) -> str:
    kinds = {"unit": UNITS, "parameter": parameters, "format": FORMATS, "resistance": ("R",)}
    kind = next((kind for kind, allowed in kinds.items() if word in allowed), "")
    if word in ("G", "H") and word not in parameters:
        line.fault(f"{word} parameters describe two ports; a load has S, Y or Z.")
    if not kind:
        units = ", ".join(UNITS)
        line.fault(
            f"the option line does not know {word[:20]!r}; it takes {units}, {', '.join(parameters)}, MA, DB, RI and R."
        )
    return kind


def resistance_of(line: Line, word: str) -> float:
    value = number_of(line, word) if word else 0.0
    if value <= 0:
        line.fault("the reference resistance must be a number of ohms above zero, such as R 50.")
    return value


def number_of(line: Line, word: str) -> float:
    if not NUMBER.fullmatch(word) or not math.isfinite(float(word)):
        line.fault(f"{word[:20]!r} is not a number.")
    return float(word)


def _samples(
    data: list[Line], options: Options, unit_impedance: float, largest: float
) -> tuple[Array, Array]:
    """Frequency in hertz and reflection of each line of data, frequencies rising."""
    frequencies: list[float] = []
    reflections: list[complex] = []
    for line in data:
        words = line.text.split()
        if len(words) != NUMBERS:
            line.fault(f"one port has three numbers in a line, a frequency and one pair, not {len(words)}.")
        frequency, first, second = (number_of(line, word) for word in words)
        if frequency < 0 or (frequencies and frequency * options.unit <= frequencies[-1]):
            line.fault("frequencies must rise from line to line, from zero upward.")
        value = _reflection(line, value_of(line, options.format, first, second), options, unit_impedance)
        if abs(value) > largest:
            line.fault(
                f"at {frequency * options.unit:.9g} Hz the reflection is {abs(value):.5g}, above {largest:g}: "
                "no passive load, and more than the error of a measurement. Calibrate again, or allow more."
            )
        frequencies.append(frequency * options.unit)
        reflections.append(value)
    return np.array(frequencies), np.array(reflections)


def value_of(line: Line, form: str, first: float, second: float) -> complex:
    """The complex number that a pair stands for; angles in degrees."""
    if form == "RI":
        return complex(first, second)
    if form == "DB" and first > 6000:
        line.fault(f"{first:g} dB is beyond all numbers.")
    if form == "MA" and first < 0:
        line.fault("a magnitude cannot be below zero.")
    return cmath.rect(first if form == "MA" else 10 ** (first / 20), math.radians(second))


def _reflection(line: Line, value: complex, options: Options, unit_impedance: float) -> complex:
    """S as it is; Z and Y through the impedance that counts as one."""
    if options.parameter == "S":
        return value
    sign, ratio = (1, value / unit_impedance) if options.parameter == "Z" else (-1, value * unit_impedance)
    if ratio == -1:
        line.fault("a resistance of minus the reference has no reflection.")
    reflection = sign * (ratio - 1) / (ratio + 1)
    if not cmath.isfinite(reflection):
        line.fault("these numbers are too large to mean an impedance.")
    return reflection
