"""`python -m tests.bench` prints every measurement, one after the other, and writes the README's table of them."""

import importlib
import os
import pkgutil

from tests import bench
from tests.bench.figures import README, Figure, tabled

figures: list[Figure] = []
for module in sorted(m.name for m in pkgutil.iter_modules(bench.__path__) if m.name.startswith("bench_")):
    print(f"--- {module.removeprefix('bench_')} ---", flush=True)
    figures += importlib.import_module(f"tests.bench.{module}").main() or []
busy = Figure(
    "programs that wanted a processor of this machine meanwhile, ours and others", os.getloadavg()[2], ""
)
print(busy.line())
README.write_text(tabled(README.read_text("utf-8"), [*figures, busy]), "utf-8")
for missed in [one for one in figures if not one.met]:
    print(f"not met: {missed.line()}")
