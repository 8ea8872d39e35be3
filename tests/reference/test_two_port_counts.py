"""A seeded sample of the full counts of two-ports, lines, files and faults, which `python -m tests.long` makes."""

import pytest

from tests.long import long_two_ports


@pytest.mark.parametrize(
    ("count", "cases"),
    [
        (long_two_ports.cascades, 1),
        (long_two_ports.lines, 3),
        (long_two_ports.networks, 20),
        (long_two_ports.files, 60),
        (long_two_ports.broken, 300),
        (long_two_ports.faults, 6),
    ],
    ids=lambda value: getattr(value, "__name__", str(value)),
)
def test_nothing_fails(count, cases):
    """Of a sample none fails, none is missed and none is false."""
    counts = count(cases)

    assert {} == {
        name: found
        for name, found in counts.items()
        if name.split()[0] in ("failed", "missed", "false") and found
    }
    assert all(
        found for name, found in counts.items() if name.split()[0] not in ("failed", "missed", "false", "of")
    )
