"""How many one machine holds: `python -m tests.bench.bench_crowd` prints what opening costs and how long a class waits.

The program runs in a process of its own, whose processor time is read from the system; the visitors are bare sockets in
others, and their processor time is told apart.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from statistics import mean, quantiles
from typing import Any

from tests.app.serving.wire import free_port, program
from tests.bench.figures import Figure, show

ALONE, CLASS, STUDENTS = 40, 300, 4
PAUSE, WARM = 0.1, 5
TICKS = os.sysconf("SC_CLK_TCK")
Wish = tuple[str, dict[str, Any]]


def main() -> list[Figure]:
    """Measure everything and print it."""
    figures = show(with_program(costs))
    figures += show(with_program(crowd))
    figures += show(with_program(crowd, "--processes", "2"))
    return figures + show(with_program(paper))


def with_program(measure: Any, *options: str) -> Iterator[Figure]:
    """Measure on a fresh program."""
    port = free_port()
    with program(port, *options) as running:
        yield from measure(f"http://127.0.0.1:{port}/", running.pid, *options)


def costs(url: str, process: int) -> Iterator[Figure]:
    """What one opening takes of the processor, one after the other."""
    for files, what in ((False, "whose browser has the files"), (True, "who fetches all files")):
        with visiting([("open", opened(url, files, 0.0))] * WARM):
            pass
        before = processor(process)
        came = [visit([("open", opened(url, files, 0.0))])["came"][0] for _ in range(ALONE // 4)]
        came += visit([("open", opened(url, files, 0.05 * k)) for k in range(ALONE)])["came"]
        spent = 1e3 * (processor(process) - before) / len(came)
        yield Figure(f"server's processor time for an opening, by one {what}", spent, "ms", 30)


def crowd(url: str, process: int, *options: str) -> Iterator[Figure]:
    """A class opens the page within one second, while some are at work already."""
    visit([("open", opened(url, True, 0.0))] * WARM)
    with visiting([("work", {"url": url, "pause": PAUSE, "seconds": 12})] * STUDENTS) as at_work:
        watch = Watch(process)
        came = visit([("open", {**opened(url, True, 1 + k / CLASS), "stay": True}) for k in range(CLASS)])
        watch.stop()
    many = f" ({options[1]} processes)" if options else ""
    failed = [one["failed"] for one in came["came"] if "failed" in one]
    last = max(one["seconds"] + k / CLASS for k, one in enumerate(came["came"]) if "seconds" in one)
    checks = [one for student in at_work()["came"] for one in student.get("milliseconds", [])]
    yield Figure(f"{CLASS} openings within one second{many}: not opened", len(failed), "", 0, str(failed[:1]))
    yield Figure(
        f"{CLASS} openings within one second{many}: the last ready after", last, "s", 12, watch.why()
    )
    yield Figure(f"checks meanwhile{many}, 95 of 100 within", percentile(checks), "ms", 250, watch.why())
    yield Figure(f"server's processor time{many}", watch.spent, "s")
    yield Figure(f"the visitors' own processor time{many}", came["processor"], "s")


def paper(url: str, process: int) -> Iterator[Figure]:
    """Worksheets, alone and while some are at work."""
    watch = Watch(process)
    made = visit([("print", {"url": url, "count": 120})])["came"][0]
    watch.stop()
    yield Figure("120 worksheets with their keys", made["seconds"], "s", 10, watch.why())
    yield Figure("server's processor time for these", watch.spent, "s")
    watch = Watch(process)
    with visiting([("print", {"url": url, "count": 60, "at": 1.0})]) as printed:
        worked = visit([("work", {"url": url, "pause": PAUSE, "seconds": 6})] * STUDENTS)["came"]
    watch.stop()
    checks = [one for student in worked for one in student["milliseconds"]]
    what = "checks while 60 worksheets are made, 95 of 100 within"
    yield Figure(what, percentile(checks), "ms", 250, watch.why())
    assert "seconds" in printed()["came"][0]


class Watch:
    """What a process takes of the processor while something is measured."""

    def __init__(self, process: int) -> None:
        self._process, self._since, self._begun = process, processor(process), time.monotonic()
        self.spent = self.lasted = 0.0

    def stop(self) -> None:
        """The end of what is measured."""
        self.spent = processor(self._process) - self._since
        self.lasted = time.monotonic() - self._begun

    def why(self) -> str:
        """What kept the program from being quicker, for a process that could have gone on all the time."""
        others = os.getloadavg()[0]
        return (
            f"the server worked {self.spent:.1f} of {self.lasted:.0f} s; on average {others:.0f} programs "
            f"wanted one of the machine's {os.cpu_count()} processors"
        )


def opened(url: str, files: bool, at: float) -> dict[str, Any]:
    """The wish to open the first page."""
    return {"url": url, "path": "/", "files": files, "at": at}


@contextmanager
def visiting(wishes: list[Wish]) -> Iterator[Any]:
    """Visitors in a process of their own while something else is done; called afterwards, it gives what came of it."""
    command = [sys.executable, "-m", "tests.bench.visitor"]
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdin is not None
        process.stdin.write(json.dumps(wishes))
        process.stdin.close()
        came: list[Any] = []
        yield lambda: came[0]
        assert process.stdout is not None
        came.append(json.loads(process.stdout.read()))


def visit(wishes: list[Wish]) -> Any:
    """Visitors in a process of their own, waited for."""
    with visiting(wishes) as came:
        pass
    return came()


def processor(process: int) -> float:
    """Seconds of processor time that a process has taken so far, and those that it started."""
    found = [process]
    for one in found:
        found += map(int, Path(f"/proc/{one}/task/{one}/children").read_text().split())
    fields = [Path(f"/proc/{one}/stat").read_text().rpartition(")")[2].split() for one in found]
    return sum(int(one[11]) + int(one[12]) for one in fields) / TICKS


def percentile(values: list[float]) -> float:
    """What 95 of 100 do not exceed."""
    return quantiles(values, n=20)[-1] if len(values) > 1 else mean(values)


if __name__ == "__main__":
    main()
