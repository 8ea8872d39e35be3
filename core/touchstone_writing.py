"""Measurements and designs written as one-port and two-port files in the open Touchstone format, 1.1 and 2.0.

Numbers are written so that reading gives them back: exactly as RI, to rounding as MA and DB. Source of the rules:
Touchstone File Format Specification, Rev. 1.1 (2002) and Version 2.0 (2009), IBIS Open Forum (from memory).
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np

from core.arrays import Array
from core.checks import choice, of_kind
from core.errors import OutOfRange
from core.touchstone import OnePort
from core.touchstone_grammar import FORMATS, UNITS
from core.two_port import TwoPort
from core.two_port_file import ORDERS, PARAMETERS
from core.two_port_parts import matrix_of, units_of

VERSIONS = ("1.1", "2.0")
UNIT_NAMES = ("Hz", "kHz", "MHz", "GHz")
ORDER = {"1.1": "21_12", "2.0": "12_21"}


def format_touchstone(
    port: OnePort | TwoPort,
    version: str = "1.1",
    parameter: str = "S",
    form: str = "RI",
    unit: str = "Hz",
    comment: str = "",
) -> str:
    """The text of a file that says what a one-port or a two-port is.

    port : a `OnePort`, or a `TwoPort` without further axes, of shape (n,) in frequency; its noise table is written
    as it is.
    version : "1.1" or "2.0"; the first has one reference resistance for all ports, and its Z, Y, H and G are
    relative to it.  parameter : "S", "Z" or "Y", for a two-port also "H" or "G".  form : "RI", "MA" or "DB".
    unit : "Hz", "kHz", "MHz" or "GHz".  comment : lines put before all else.
    Raises UnknownChoice; OutOfRange for what the version or the form cannot say, with what to choose instead.
    Source: the format's specification, as named at the top of the module.

    >>> print(format_touchstone(OnePort(np.array([434e6]), np.array([0.5 - 0.25j]), 50.0), unit="MHz"), end="")
    # MHz S RI R 50.0
    434.0 0.5 -0.25
    """
    of_kind(port, (OnePort, TwoPort), "port", "a OnePort or a TwoPort")
    of_kind(comment, str, "comment", "text")
    choice(version, VERSIONS, "version")
    choice(form, FORMATS, "form of the numbers")
    choice(unit, UNIT_NAMES, "unit of frequency")
    choice(parameter, PARAMETERS if isinstance(port, TwoPort) else ("S", "Y", "Z"), "parameter")
    scale = UNITS[unit.upper()]
    columns = _columns(port, parameter, version)
    rows = [
        " ".join([_number(hertz / scale), *(word for value in row for word in _pair(value, form, hertz))])
        for hertz, row in zip(port.frequency.tolist(), columns.tolist(), strict=True)
    ]
    head = f"# {unit} {parameter} {form} R {_number(_references(port)[0])}"
    noise = _noise(port, scale)
    body = [head, *rows, *noise] if version == "1.1" else _version_2(port, head, rows, noise)
    return "\n".join([*(f"! {line}".rstrip() for line in comment.splitlines()), *body]) + "\n"


def write_touchstone(port: OnePort | TwoPort, path: str | Path, **options: Any) -> None:
    """Write a one-port or a two-port to a file.

    port : as for `format_touchstone`.  path : of the file, which is replaced; its name usually ends in .s1p or
    .s2p. options : `version`, `parameter`, `form`, `unit` and `comment`, as for `format_touchstone`.
    Raises OSError, UnknownChoice, OutOfRange.  Source: as `format_touchstone`."""
    Path(path).write_text(format_touchstone(port, **options), encoding="utf-8")


def _version_2(port: OnePort | TwoPort, head: str, rows: list[str], noise: list[str]) -> list[str]:
    references = _references(port)
    order = [f"[Two-Port Data Order] {ORDER['2.0']}"] if isinstance(port, TwoPort) else []
    counted = [f"[Number of Noise Frequencies] {len(noise)}"] if noise else []
    return [
        "[Version] 2.0",
        head,
        f"[Number of Ports] {len(references)}",
        *order,
        f"[Number of Frequencies] {len(rows)}",
        *counted,
        f"[Reference] {' '.join(map(_number, references))}",
        "[Network Data]",
        *rows,
        *(["[Noise Data]", *noise] if noise else []),
        "[End]",
    ]


def _columns(port: OnePort | TwoPort, parameter: str, version: str) -> Array:
    """The values of each frequency in the order of the file, shape (n, 1) or (n, 4)."""
    two = _as_two_port(port) if isinstance(port, OnePort) else port
    if two.scattering.ndim != 3:
        raise OutOfRange(
            "A file holds one two-port; choose one of those in the array.", value=two.scattering.shape
        )
    if version == "1.1" and two.reference[0] != two.reference[1]:
        raise OutOfRange(
            "Version 1.1 has one reference for both ports: choose version 2.0, or renormalise the two-port.",
            value=two.reference,
        )
    matrix = two.scattering if parameter == "S" else matrix_of(parameter, two)
    if version == "2.0" and parameter != "S":
        matrix = matrix * units_of(parameter, two.reference)
    places = [(0, 0)] if isinstance(port, OnePort) else ORDERS[ORDER[version]]
    return np.stack([matrix[:, row, column] for row, column in places], axis=-1)


def _as_two_port(port: OnePort) -> TwoPort:
    """The one-port beside another that matches and has no part in it, so that one formula serves both."""
    scattering = np.zeros((port.frequency.size, 2, 2), dtype=complex)
    scattering[:, 0, 0] = port.reflection
    return TwoPort(port.frequency, scattering, port.reference_resistance)


def _references(port: OnePort | TwoPort) -> list[float]:
    return port.reference.tolist() if isinstance(port, TwoPort) else [float(port.reference_resistance)]


def _noise(port: OnePort | TwoPort, scale: float) -> list[str]:
    table = port.noise if isinstance(port, TwoPort) else None
    rows = [] if table is None else table.tolist()
    return [" ".join([_number(row[0] / scale), *map(_number, row[1:])]) for row in rows]


def _pair(value: complex, form: str, hertz: float) -> tuple[str, str]:
    """The two numbers that a value is written as; angles in degrees."""
    if form == "RI":
        return _number(value.real), _number(value.imag)
    size, angle = abs(value), float(np.degrees(np.angle(value)))
    if form == "MA":
        return _number(size), _number(angle)
    if size == 0:
        raise OutOfRange(
            f"At {hertz:g} Hz a parameter is zero, which has no decibels: choose RI or MA.", value=hertz
        )
    return _number(float(20 * np.log10(size))), _number(angle)


def _number(value: float) -> str:
    """The shortest decimal that is read back as the same number."""
    return repr(float(value) + 0.0)
