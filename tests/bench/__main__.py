"""`python -m tests.bench` prints every measurement, one after the other."""

import importlib
import pkgutil

from tests import bench

for module in sorted(m.name for m in pkgutil.iter_modules(bench.__path__) if m.name.startswith("bench_")):
    print(f"--- {module.removeprefix('bench_')} ---", flush=True)
    importlib.import_module(f"tests.bench.{module}").main()
