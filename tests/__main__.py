"""Everything that must hold before a change is good: lint, format, types and all tests, of both languages.

The tests of whole pages in the browser and the others run side by side; further arguments go to pytest, which then
runs once. A browser is looked for first and installed if there is none, because a run without the browser tests would
say little.
Browsers of other families are installed where they can be; where not, it is said, and their tests are skipped.
"""

import os
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from deno import find_deno_bin

from tests.find_browser import VARIABLE, NoBrowser, find_or_install_browser
from tests.find_engines import FAMILIES, Family, NoEngine, find_or_install

TOP = Path(__file__).resolve().parent.parent
CHECKS = (
    ["ruff", "check"],
    ["ruff", "format", "--check"],
    ["mypy"],
)
SETTINGS = "--config=static/deno.json"
BROWSER_CODE = (
    ["lint", SETTINGS, "static", "tests/static"],
    ["check", SETTINGS, "static"],
    ["test", SETTINGS, "--no-remote", "tests/static"],
)

PARTS = ("tests/browser/stage", "tests/browser/engines")
HALVES = (["tests/browser", *(f"--ignore={part}" for part in PARTS)], ["--ignore-glob=tests/browser/test_*"])
"""All tests in two runs that take about the same time."""


def main(arguments: list[str]) -> int:
    """Run every check, even after one has failed; 0 if all went well."""
    try:
        browser = find_or_install_browser()
    except NoBrowser as nothing:
        print(f"The browser tests need a Chromium-family browser, and none could be had.\n{nothing}")
        return 1
    print(f"Browser: {browser}")
    for family in FAMILIES:
        print(_had(family))
    environment = {**os.environ, VARIABLE: browser, "DENO_NO_UPDATE_CHECK": "1"}
    commands = [
        *([find_deno_bin(), *check] for check in BROWSER_CODE),
        *([sys.executable, "-m", *check] for check in CHECKS),
    ]
    failed = [" ".join(command[1:]) for command in commands if not _passes(command, environment)]
    tests = [[sys.executable, "-m", "pytest", *half] for half in ([arguments] if arguments else HALVES)]
    failed += [" ".join(command[1:]) for command in _failing_of(tests, environment)]
    if failed:
        print(f"Failed: {', '.join(failed)}", file=sys.stderr)
    return 1 if failed else 0


def _had(family: Family) -> str:
    """Which programs a family's tests will drive, or why they will be skipped."""
    try:
        return f"{family.name}: {', '.join(find_or_install(family))}"
    except NoEngine as nothing:
        return str(nothing)


def _failing_of(commands: list[list[str]], environment: dict[str, str]) -> list[list[str]]:
    """Those that fail of some that run side by side; the first prints as it goes, the others once it has ended."""
    first, *others = commands
    with ThreadPoolExecutor() as beside:
        waiting = [
            beside.submit(
                subprocess.run, command, cwd=TOP, env=environment, text=True,
                stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
            )
            for command in others
        ]  # fmt: skip
        failing = [] if _passes(first, environment) else [first]
        for command, result in zip(others, (one.result() for one in waiting), strict=True):
            print(f"$ {' '.join(command)}\n{result.stdout or ''}", flush=True)
            failing += [command] if result.returncode else []
    return failing


def _passes(command: list[str], environment: dict[str, str]) -> bool:
    print(f"$ {' '.join(command)}", flush=True)
    return subprocess.run(command, cwd=TOP, env=environment).returncode == 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
