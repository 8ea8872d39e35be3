"""Comma-separated values (RFC 4180, from memory) that no spreadsheet takes for formulas."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Sequence

FORMULA = ("=", "+", "-", "@", "\t", "\r")
SIGNED = re.compile(r"[-+][\d.,\sjieλ°∠<+−-]*")


def separated(rows: Iterable[Sequence[str]], signed: bool = False) -> str:
    """Rows of texts; what begins like a formula gets an apostrophe.

    signed : whether a number with its sign stays as it is."""

    def safe(cell: str) -> str:
        harmless = signed and SIGNED.fullmatch(cell)
        return f"'{cell}" if cell.startswith(FORMULA) and not harmless else cell

    written = io.StringIO(newline="")
    csv.writer(written).writerows([safe(cell) for cell in row] for row in rows)
    return written.getvalue()
