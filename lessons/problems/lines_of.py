"""Where in a set's file a key stands, so that what is wrong with it can be said by its line."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

_TABLE = re.compile(r"\s*\[+\s*([^\]]*?)\s*\]+")
_PART = r"""(?:"[^"]*"|'[^']*'|[\w-]+)"""
_KEY = re.compile(rf"\s*({_PART}(?:\s*\.\s*{_PART})*)\s*=")
_QUOTES = ('"""', "'''")


@dataclass
class Lines:
    """Lines of a file by what stands there: the problem's number, 0 before all, and a path such as vary.load."""

    found: dict[tuple[int, str], int] = field(default_factory=dict)

    def of(self, problem: int, path: str) -> int:
        """The line of a path, else of what it lies in, else of the problem; 0 where nothing of it was found."""
        while path and (problem, path) not in self.found:
            path = path.rpartition(".")[0]
        return self.found.get((problem, path), 0)


def lines_of(text: str) -> Lines:
    """The line of every key and every problem of a set, as far as they stand at the beginning of a line."""
    lines, problem, table, inside = Lines(), 0, "", ""
    for number, line in enumerate(text.splitlines(), 1):
        if inside:  # a text over several lines
            inside = "" if line.count(inside) % 2 else inside
            continue
        inside = next((quote for quote in _QUOTES if line.count(quote) % 2), "")
        if header := _TABLE.match(line):
            first, _, table = _path(header[1]).partition(".")
            if first == "problem":
                problem += line.lstrip().startswith("[[") and not table
            else:
                problem, table = 0, f"{first}.{table}".rstrip(".")
            lines.found.setdefault((problem, table), number)
        elif key := _KEY.match(line):
            parts = [*filter(None, table.split(".")), *_path(key[1]).split(".")]
            for end in range(1, len(parts) + 1):
                lines.found.setdefault((problem, ".".join(parts[:end])), number)
    return lines


def _path(written: str) -> str:
    return ".".join(part.strip(" \"'") for part in written.split("."))
