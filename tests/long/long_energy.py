"""100,000 networks, with edge loads: energy balances in each to 1e-12."""

from collections.abc import Mapping

from tests.core import energy

NETWORKS = 100_000


def main() -> Mapping[str, int]:
    """Count those that do not balance."""
    return energy.unbalanced(NETWORKS, seed=111)
