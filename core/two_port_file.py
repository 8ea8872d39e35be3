"""Two-port measurements from a file in the open Touchstone format, versions 1.1 and 2.0.

As strict as the reader of one-ports, whose grammar it shares: what the standard does not allow is named with its
line. Source of the rules: Touchstone File Format Specification, Rev. 1.1 (2002) and Version 2.0 (2009), IBIS Open
Forum (from memory). A noise table is checked and kept, and used for nothing here.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np

from core.arrays import Array
from core.errors import NotATouchstoneFile, OutOfRange
from core.readable import shown
from core.touchstone_grammar import (
    KEYWORD,
    Block,
    Line,
    Options,
    blocks_of,
    count_of,
    lines_of,
    number_of,
    options_of,
    resistance_of,
    value_of,
)
from core.two_port import LARGEST, TwoPort
from core.two_port_parts import scattering_from, units_of

PARAMETERS = ("S", "Y", "Z", "H", "G")
REQUIRED = ("number of ports", "two-port data order", "number of frequencies", "network data", "end")
OPTIONAL = (
    "version",
    "reference",
    "matrix format",
    "begin information",
    "number of noise frequencies",
    "noise data",
)
ORDERS = {"12_21": ((0, 0), (0, 1), (1, 0), (1, 1)), "21_12": ((0, 0), (1, 0), (0, 1), (1, 1))}
HALVES = {"lower": ((0, 0), (1, 0), (1, 1)), "upper": ((0, 0), (0, 1), (1, 1))}
Places = tuple[tuple[int, int], ...]
Group = list[tuple[Line, str]]
"""The words of one frequency, each with its line."""


def parse_two_port(text: str) -> TwoPort:
    """The measurement in the text of a two-port file.

    text : S, Z, Y, H or G parameters as MA, DB or RI, hertz to gigahertz, comments, noise; in version 2.0 the
    keywords that apply to two ports. In version 1.1 all but S are relative to the reference resistance, in 2.0 in
    ohms and siemens, and each port may have a reference of its own. Raises NotATouchstoneFile: its message and
    `.line` name the line, its `.value` is the line's text. Source: the format's specification, as named at the top
    of the module.

    >>> pad = parse_two_port("! a pad on a gauge hut\\n# MHz S MA R 50\\n434 0.1 0  0.5 -30  0.5 -30  0.2 0")
    >>> pad
    TwoPort(frequencies: 1; range: 4.34e+08 to 4.34e+08 Hz; reference: 50 ohm)
    >>> pad.insertion_loss_db.round(2).tolist()
    [6.02]
    """
    if not isinstance(text, str):
        raise NotATouchstoneFile(f"this is no text: {shown(text)}.", line=1, value=text)
    lines = list(lines_of(text))
    if not lines:
        Line(1, "").fault("the file holds no data.")
    return _version_2(lines) if lines[0].text.startswith("[") else _version_1(lines)


def read_two_port(path: str | Path) -> TwoPort:
    """The measurement in a two-port file.

    path : of the file.  Raises OSError, NotATouchstoneFile.  Source: as `parse_two_port`."""
    return parse_two_port(Path(path).read_bytes().decode("utf-8-sig", errors="replace"))


def _version_1(lines: list[Line]) -> TwoPort:
    """One option line, then nine numbers a line; then, where frequency falls back, five numbers a line of noise."""
    options, data = None, []
    for line in lines:
        if line.text.startswith("#"):
            options = options or options_of(line, PARAMETERS)
        elif line.text.startswith("["):
            line.fault("a keyword in brackets needs [Version] 2.0 in the first line.")
        elif options is None:
            line.fault("data came before the option line, such as # MHz S RI R 50.")
        else:
            data.append([(line, word) for word in line.text.split()])
    if options is None or not data:
        lines[-1].fault("the file ends without any data.")
    first_noise = next((i for i, words in enumerate(data) if i and _is_noise(words, data[i - 1])), len(data))
    hertz, matrices = _samples(data[:first_noise], options, ORDERS["21_12"])
    noise = _noise(data[first_noise:], options)
    # In this version all parameters but S are stored relative to the reference resistance.
    return TwoPort(hertz, _scattering(data, options, matrices), options.resistance, noise)


def _is_noise(words: Group, before: Group) -> bool:
    """Five numbers, at a frequency not above that of the nine before."""
    line, first = words[0]
    return len(words) == 5 and len(before) == 9 and number_of(line, first) <= number_of(*before[0])


def _version_2(lines: list[Line]) -> TwoPort:
    if not KEYWORD.fullmatch(lines[0].text):
        lines[0].fault("the first line must be [Version] 2.0; a file of version 1.1 has no such line.")
    options, blocks = blocks_of(lines, PARAMETERS)
    named = _checked(blocks)
    reference = _references(named["reference"]) if "reference" in named else np.full(2, options.resistance)
    places = _places(named)
    data = _groups(named["network data"], 1 + 2 * len(places), count_of(named["number of frequencies"]))
    hertz, matrices = _samples(data, options, places)
    noise = None
    if "noise data" in named:
        announced = count_of(named["number of noise frequencies"])
        noise = _noise(_groups(named["noise data"], 5, announced), options)
    relative = matrices if options.parameter == "S" else matrices / units_of(options.parameter, reference)
    return TwoPort(hertz, _scattering(data, options, relative), reference, noise)


def _checked(blocks: list[Block]) -> dict[str, Block]:
    """The keywords by name: known ones, once each, none missing, the samples last, and for two ports."""
    named: dict[str, Block] = {}
    for block in blocks:
        _check_keyword(block, named)
        named[block.name] = block
    if blocks[0].name != "version" or blocks[0].argument != "2.0":
        blocks[0].line.fault("the first line must be [Version] 2.0; a file of version 1.1 has no such line.")
    if "number of ports" in named and count_of(named["number of ports"]) != 2:
        named["number of ports"].line.fault("this reader takes two ports.")
    noisy = "number of noise frequencies" in named or "noise data" in named
    closing = ["network data", *(["noise data"] if noisy else []), "end"]
    needed = [*REQUIRED, *(["number of noise frequencies", "noise data"] if noisy else [])]
    missing = [name for name in needed if name not in named]
    if missing:
        last = [blocks[-1].line, *blocks[-1].body][-1]
        last.fault(f"the file ends and the keyword [{missing[0].title()}] is missing.")
    if [block.name for block in blocks[-len(closing) :]] != closing:
        blocks[-1].line.fault(
            "the file must close with [Network Data], [Noise Data] if there is any, and [End]."
        )
    return named


def _check_keyword(block: Block, named: dict[str, Block]) -> None:
    if block.name == "mixed-mode order":
        block.line.fault("mixed-mode parameters are not those of single ports, which this reader takes.")
    if block.name not in (*REQUIRED, *OPTIONAL):
        block.line.fault("this keyword is not known in version 2.0.")
    if block.name in named:
        block.line.fault(f"this keyword came before, in line {named[block.name].line.number}.")
    if block.body and block.name not in ("network data", "noise data", "reference"):
        block.body[0].fault(f"only a keyword can follow [{block.name.title()}] here.")


def _places(named: dict[str, Block]) -> Places:
    """Which parameter each pair of numbers is, after the frequency."""
    order = named["two-port data order"]
    if order.argument not in ORDERS:
        order.line.fault("the two-port data order is 12_21 or 21_12.")
    form = named.get("matrix format")
    if form is None or form.argument.lower() == "full":
        return ORDERS[order.argument]
    if form.argument.lower() not in HALVES:
        form.line.fault("the matrix format is Full, Lower or Upper.")
    return HALVES[form.argument.lower()]


def _references(block: Block) -> Array:
    """The resistances stand behind the keyword or in the next lines."""
    words = [(block.line, word) for word in block.argument.split()]
    words += [(line, word) for line in block.body for word in line.text.split()]
    if len(words) != 2:
        block.line.fault(f"[Reference] needs two resistances for two ports, not {len(words)}.")
    return np.array([resistance_of(line, word) for line, word in words])


def _groups(block: Block, size: int, announced: int) -> list[Group]:
    """The numbers of each frequency, which begins a line and may go on in the next ones."""
    groups: list[Group] = []
    for line in block.body:
        words = [(line, word) for word in line.text.split()]
        if groups and len(groups[-1]) < size:
            groups[-1].extend(words)
        else:
            groups.append(words)
        if len(groups[-1]) > size:
            line.fault(f"here a frequency has {size} numbers with its own, not {len(groups[-1])}.")
    last = block.body[-1] if block.body else block.line
    if len(groups) != announced:
        last.fault(f"the file announces {announced} frequencies and holds {len(groups)}.")
    if len(groups[-1]) < size:
        last.fault(f"the last frequency has {len(groups[-1])} numbers with its own, not {size}.")
    return groups


def _samples(data: list[Group], options: Options, places: Places) -> tuple[Array, Array]:
    """Frequency in hertz, rising, and the matrix of each, in the units of the file."""
    hertz, matrices = np.empty(len(data)), np.empty((len(data), 2, 2), dtype=complex)
    size = 1 + 2 * len(places)
    for number, words in enumerate(data):
        line = words[0][0]
        if len(words) != size:
            line.fault(f"two ports have {size} numbers in a line, a frequency and pairs, not {len(words)}.")
        hertz[number] = _frequency(words[0], options, hertz[number - 1] if number else None)
        for place, first, second in zip(places, words[1::2], words[2::2], strict=True):
            pair = number_of(*first), number_of(*second)
            value = value_of(first[0], options.format, *pair)
            matrices[number][place] = value
            if len(places) == 3:
                matrices[number][place[::-1]] = value
    return hertz, matrices


def _frequency(word: tuple[Line, str], options: Options, before: float | None) -> float:
    line, value = word[0], number_of(*word) * options.unit
    if value < 0 or (before is not None and value <= before):
        line.fault("frequencies must rise from line to line, from zero upward.")
    if value == np.inf:
        line.fault("this frequency is beyond all numbers.")
    return value


def _noise(data: list[Group], options: Options) -> Array | None:
    """Hertz, and the four numbers as they are."""
    table: list[list[float]] = []
    for words in data:
        if len(words) != 5:
            words[0][0].fault(f"a line of noise has five numbers, not {len(words)}.")
        frequency = _frequency(words[0], options, table[-1][0] if table else None)
        table.append([frequency, *(number_of(*word) for word in words[1:])])
    return np.array(table) if table else None


def _scattering(data: list[Group], options: Options, relative: Array) -> Array:
    """S as it is; the other kinds through what they say of the ports. Names the line that says too much."""
    kind = options.parameter
    for words, matrix in zip(data, relative, strict=False):
        try:
            scattering = matrix if kind == "S" else scattering_from(kind, matrix)
        except OutOfRange as fault:
            words[0][0].fault(str(fault))
        if np.any(np.abs(scattering) > LARGEST):
            words[0][0].fault(
                f"these numbers mean scattering parameters above {LARGEST:g}, which no two-port has."
            )
    return relative if kind == "S" else scattering_from(kind, relative)
