"""The search for a browser: what is found first, and what is said when there is none."""

import subprocess
import sys
from pathlib import Path

import pytest

from tests import __main__ as runner
from tests import find_browser as search
from tests import find_engines
from tests.find_browser import VARIABLE, NoBrowser, find_browser, find_or_install_browser
from tests.find_engines import FIREFOX, WEBKIT, NoEngine, find_or_install


@pytest.fixture
def bare(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """A machine without browser, package manager or download; the folder is its whole PATH."""
    monkeypatch.setenv("PATH", str(tmp_path))
    monkeypatch.delenv(VARIABLE, raising=False)
    monkeypatch.setattr(search, "_usual_places", list)
    monkeypatch.setattr(search, "_downloaded", list)
    monkeypatch.setattr(search, "_as_root", list)
    monkeypatch.setattr(find_engines, "_as_root", list)
    monkeypatch.setattr(find_engines, "LIBRARIES", ())
    return tmp_path


def program(folder: Path, name: str, *lines: str) -> Path:
    """A program of that name, which does what the shell lines say."""
    path = folder / name
    path.write_text("\n".join(["#!/bin/sh", *lines, ""]))
    path.chmod(0o755)
    return path


@pytest.fixture
def no_download(monkeypatch: pytest.MonkeyPatch, bare: Path) -> None:
    """The download fails with a last line that says why."""
    python = program(bare, "python", "echo trying", "echo no way out >&2", "exit 3")
    monkeypatch.setattr(sys, "executable", str(python))


class TestFind:
    def test_named_one_first(self, bare: Path, monkeypatch: pytest.MonkeyPatch):
        """The browser that the variable names is taken before any other."""
        program(bare, "chromium")
        mine = program(bare, "mine")
        monkeypatch.setenv(VARIABLE, str(mine))

        assert str(mine) == find_browser()

    def test_named_one_missing(self, bare: Path, monkeypatch: pytest.MonkeyPatch):
        """A name that cannot be run is an error, even where another browser is installed."""
        program(bare, "chromium")
        monkeypatch.setenv(VARIABLE, "no-such-browser")

        with pytest.raises(NoBrowser, match="'no-such-browser', which cannot be run"):
            find_or_install_browser()

    @pytest.mark.parametrize("name", search.NAMES)
    def test_installed(self, bare: Path, name: str):
        """Each browser of the family is found by its usual name."""
        assert str(program(bare, name)) == find_browser()


class TestInstall:
    @pytest.mark.parametrize("has", search.DEBIAN_BROWSERS)
    def test_package_manager(self, bare: Path, has: str):
        """Where none is installed the package manager brings one: the lightest that it has."""
        brought = bare / has
        program(bare, "env", 'shift; exec "$@"')
        bring = f'case "$*" in *" {has} "*) ;; *) exit 100;; esac; : > {brought}; /bin/chmod +x {brought}'
        program(bare, "apt-get", f'[ "$1" = install ] || exit 0; {bring}')

        assert str(brought) == find_or_install_browser()

    @pytest.mark.usefixtures("no_download")
    def test_all_fail(self, bare: Path):
        """Where none can be had, every way tried is named with the reason it failed."""
        program(bare, "env", 'shift; exec "$@"')
        program(bare, "apt-get", "echo E: no such package >&2; exit 100")
        program(bare, "brew", "exit 0")

        with pytest.raises(NoBrowser) as nothing:  # noqa: PT011 - each of the lines is checked below
            find_or_install_browser()
        lines = str(nothing.value).splitlines()

        assert 5 == len(lines)
        assert "none of these is installed: chromium-headless-shell, chromium, " in lines[0]
        for line in lines[1:3]:
            assert line.endswith("apt-get update: ended with 100: E: no such package")
        assert lines[3].endswith("brew install --cask chromium: ended well, but no browser can be found.")
        assert lines[4].endswith("playwright install chromium: ended with 3: no way out")

    @pytest.mark.usefixtures("no_download")
    def test_command_fails_without_browser(
        self, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
    ):
        """Without a browser the test command runs nothing, says so and fails."""
        monkeypatch.setattr(runner.subprocess, "run", only_python(subprocess.run))

        assert 1 == runner.main([])
        assert "none could be had" in capsys.readouterr().out


class TestOtherFamilies:
    def test_installed(self, bare: Path):
        """The programs of a family are found by their names."""
        names = ("WebKitWebDriver", "MiniBrowser", "Xvfb")

        assert [str(program(bare, name)) for name in names] == find_or_install(WEBKIT)

    def test_package_manager(self, bare: Path):
        """Where a family is not installed the package manager brings it."""
        brought = bare / "firefox-esr"
        program(bare, "env", 'shift; exec "$@"')
        program(bare, "apt-get", f'[ "$1" = install ] || exit 0; : > {brought}; /bin/chmod +x {brought}')

        assert [str(brought)] == find_or_install(FIREFOX)

    def test_cannot_be_had(self, bare: Path):
        """Where it cannot be installed, which one is not tested is said, and why."""
        with pytest.raises(NoEngine, match=r"^Firefox is not tested: .* Nobody here may install it\.$"):
            find_or_install(FIREFOX)
        program(bare, "env", 'shift; exec "$@"')
        program(bare, "apt-get", "echo E: no such package >&2; exit 100")

        with pytest.raises(NoEngine, match=r"^Firefox is not tested: .* E: no such package$"):
            find_or_install(FIREFOX)

    def test_said(self, bare: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]):
        """The test command says it, and goes on: a missing family fails nothing and hides nothing."""
        monkeypatch.setattr(runner, "find_or_install_browser", lambda: "a browser")
        monkeypatch.setattr(
            runner.subprocess, "run", lambda command, **_: subprocess.CompletedProcess(command, 0)
        )

        assert 0 == runner.main([])
        said = capsys.readouterr().out
        assert "Firefox is not tested: " in said
        assert "WebKit is not tested: " in said


class TestCommand:
    def test_one_failure_fails_all(self, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]):
        """Every check runs, also after one has failed, and the failed one is named at the end."""
        ran = []

        def run(command, **options):
            name = command[2] if command[0] == sys.executable else f"deno {command[1]}"
            ran.append(name)
            return subprocess.CompletedProcess(command, returncode=int(name == "mypy"))

        monkeypatch.setattr(runner, "find_or_install_browser", lambda: "a browser")
        monkeypatch.setattr(runner, "FAMILIES", ())
        monkeypatch.setattr(runner.subprocess, "run", run)

        assert 1 == runner.main(["-k", "chart"])
        assert ["deno lint", "deno check", "deno test", "ruff", "ruff", "mypy", "pytest"] == ran
        assert "Failed: -m mypy" == capsys.readouterr().err.strip()

    def test_both_halves(self, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]):
        """Without arguments the tests run in two halves side by side; what either prints is shown."""
        (pages, others), ran = runner.HALVES, []

        def run(command, **options):
            ran.append(command[3:])
            failed = command[3:] == others
            return subprocess.CompletedProcess(
                command, int(failed), stdout="a failing test" if failed else None
            )

        monkeypatch.setattr(runner, "find_or_install_browser", lambda: "a browser")
        monkeypatch.setattr(runner, "FAMILIES", ())
        monkeypatch.setattr(runner.subprocess, "run", run)

        assert 1 == runner.main([])
        assert [1, 1] == [ran.count(half) for half in (pages, others)]
        told = capsys.readouterr()
        assert "a failing test" in told.out
        assert f"Failed: -m pytest {' '.join(others)}" == told.err.strip()

    def test_no_test_in_both_or_in_neither(self):
        """Each test in the browser belongs to one of the halves, and the others to the second."""
        (first, *left_out), others = runner.HALVES
        one, other = _in_the_browser(*left_out), _in_the_browser(*others)

        assert "tests/browser" == first
        assert all(option.startswith("--ignore-glob=tests/browser/") for option in others)
        assert set() == one & other
        assert _in_the_browser() == one | other


def _in_the_browser(*options: str) -> set[str]:
    """The files under tests/browser that pytest would take tests from."""
    command = [sys.executable, "-m", "pytest", "--collect-only", "-qq", "tests/browser", *options]
    told = subprocess.run(command, capture_output=True, text=True, check=True, cwd=runner.TOP).stdout
    return {line.rpartition(":")[0] for line in told.splitlines() if line.startswith("tests")}


def only_python(run):
    """`subprocess.run` for the download alone: any check that starts is a fault."""

    def guarded(command, **options):
        assert command[2] == "playwright"
        return run(command, **options)

    return guarded
