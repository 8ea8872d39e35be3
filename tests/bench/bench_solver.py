"""How fast the single stub is: loads per second on arrays, as ratios to root-finders called load by load, in one run.

Run with `python -m tests.bench.bench_solver`. Both root-finders are scipy's and know nothing of the closed form:
`fsolve` looks for distance and length at once in the full equation (reflection zero), from a few starts until it has
both solutions; `brentq` is given more help: a scan brackets the distances where the line shows g = 1, it closes in on
them, and the stub's length follows from its cotangent. All loads are off the rim (SWR below 10), to be fair to both.
"""

import cmath
import os
import resource
import subprocess
import sys
from collections.abc import Callable
from functools import partial
from math import atan2, pi
from tempfile import TemporaryDirectory
from time import process_time
from typing import Any

import numpy as np
from scipy.optimize import brentq, fsolve

from core import lossy_double_stub, lossy_single_stub, single_stub
from tests.reference import loads

LINE = 50.0
ON_ARRAYS, ONE_BY_ONE = 100_000, 300
STARTS = [(distance, length) for distance in (0.05, 0.2, 0.3, 0.45) for length in (0.1, 0.4)]
SCAN = np.linspace(0, 0.5, 65)
Pair = tuple[float, float]
LOSSY: dict[str, Callable[[Any], Any]] = {
    "lossy single stub": lambda loads: lossy_single_stub(loads, LINE, 0.02),
    "lossy, the stub losing more": lambda loads: lossy_single_stub(loads, LINE, 0.02, 0.05),
    "lossy double stub": lambda loads: lossy_double_stub(loads, LINE, 1 / 8, 0.02),
}


def main() -> None:
    """Measure, and print one line for each way."""
    rng = loads.random(70)
    ratio = loads.decades(rng, 0.1, 1, ON_ARRAYS)
    many = LINE * loads.of_reflection((ratio - 1) / (ratio + 1) * loads.directions(rng, ON_ARRAYS))
    few = many[:ONE_BY_ONE].tolist()
    fast = ON_ARRAYS / seconds(partial(single_stub, many, LINE))
    print("single stub, both solutions, loads a second; best of 5")
    print(f"arrays of {ON_ARRAYS:<14,}{fast:>12,.0f}")
    for name, finder in (("brentq, load by load", bracketed), ("fsolve, load by load", searched)):
        slow = ONE_BY_ONE / seconds(partial(one_by_one, finder, few))
        print(
            f"{name:<24}{slow:>12,.0f}   arrays are {fast / slow:,.0f} times as fast;", agreement(finder, few)
        )
    for name, design in LOSSY.items():
        lossy = ON_ARRAYS / seconds(partial(design, many))
        print(f"{name:<32}{lossy:>12,.0f}   (goal >= 300,000); without loss {fast / lossy:.0f} times as fast")
    alone = seconds(partial(one_by_one, partial(single_stub, line_impedance=LINE), few)) / ONE_BY_ONE
    plain_step = seconds(partial(one_by_one, bare, few)) / ONE_BY_ONE
    print(f"one load in one call: {1e6 * alone:.0f} microseconds (goal <= 60)")
    print(f"that is {alone / plain_step:.0f} times a call of one of numpy's functions")
    with TemporaryDirectory() as cache:
        ours, numpys = (
            seconds(partial(import_of, module, cache), of_children) for module in ("numpy, core", "numpy")
        )
    print(f"import of core: {1e3 * (ours - numpys):.0f} ms over numpy's own {1e3 * numpys:.0f} (goal <= 30)")


def bare(load: complex) -> Any:
    """The least that a function of numpy costs for one number."""
    return np.sqrt(load)


def import_of(modules: str, cache: str) -> None:
    """A fresh interpreter that imports these modules, compiled before, and ends."""
    settings = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    code = f"import {modules}"
    subprocess.run([sys.executable, "-c", code], check=True, env={**settings, "PYTHONPYCACHEPREFIX": cache})


def of_children() -> float:
    """Processor seconds of the interpreters that were started, and have ended."""
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def one_by_one(finder: Callable[[complex], Any], few: list[complex]) -> list[Any]:
    """All answers."""
    return [finder(load) for load in few]


def seconds(work: Callable[[], Any], clock: Callable[[], float] = process_time) -> float:
    """Shortest of five times; by default the processor's, so that others on the machine do not count."""
    times = []
    for _ in range(5):
        start = clock()
        work()
        times.append(clock() - start)
    return min(times)


def agreement(finder: Callable[[complex], list[Pair]], few: list[complex]) -> str:
    """How many loads the finder solved as the solver does."""
    same = 0
    for load in few:
        ours = [(solution.distance, solution.stub_length) for solution in single_stub(load, LINE)]
        theirs = finder(load)
        same += len(theirs) == len(ours) and np.allclose(theirs, ours, rtol=0, atol=1e-6)
    return f"same answer for {same} of {len(few)}"


def bracketed(load: complex) -> list[Pair]:
    """Both solutions: distances where a scan of the conductance changes sign, lengths by the cotangent."""
    tangent = np.tan(2 * pi * SCAN)
    excess = ((LINE + 1j * load * tangent) / (load + 1j * LINE * tangent)).real - 1
    found = []
    for cell in np.nonzero(np.diff(np.sign(excess)))[0]:
        distance = brentq(lambda d: admittance(load, d).real - 1, SCAN[cell], SCAN[cell + 1])
        found.append((distance, atan2(1, admittance(load, distance).imag) / (2 * pi)))
    return found


def searched(load: complex) -> list[Pair]:
    """Both solutions, from the starts in turn."""
    found: list[Pair] = []
    for start in STARTS:
        root, _, ended, _ = fsolve(partial(both, load), start, full_output=True)
        distance, length = (float(value) % 0.5 for value in root)
        if ended == 1 and all(abs(distance - other) > 1e-6 for other, _ in found):
            found.append((distance, length))
        if len(found) == 2:
            break
    return sorted(found)


def both(load: complex, lengths: Any) -> Pair:
    """Real and imaginary part of the reflection of line and shorted stub, without a pole."""
    distance, length = lengths
    seen, angle = admittance(load, distance), 2 * pi * length
    sine, cosine = cmath.sin(angle), cmath.cos(angle)
    reflection = ((1 - seen) * sine + 1j * cosine) / ((1 + seen) * sine - 1j * cosine)
    return reflection.real, reflection.imag


def admittance(load: complex, distance: float) -> complex:
    """What the line shows of the load, normalised."""
    tangent = cmath.tan(2 * pi * distance)
    return (LINE + 1j * load * tangent) / (load + 1j * LINE * tangent)


if __name__ == "__main__":
    main()
