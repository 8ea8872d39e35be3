"""Finds a browser of the Chromium family for the tests, and installs one where there is none."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

VARIABLE = "HALFTURN_BROWSER"
NAMES = (
    "chromium-headless-shell",  # has no windows to draw, and takes two thirds of the time
    "chromium",
    "chromium-browser",
    "google-chrome",
    "google-chrome-stable",
    "microsoft-edge",
    "microsoft-edge-stable",
    "brave-browser",
    "brave",
)
MAC_PLACES = (
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
    "/Applications/Brave Browser.app/Contents/MacOS/Brave Browser",
)
WINDOWS_ROOTS = ("PROGRAMFILES", "PROGRAMFILES(X86)", "LOCALAPPDATA")
WINDOWS_PLACES = (
    "Chromium/Application/chrome.exe",
    "Google/Chrome/Application/chrome.exe",
    "Microsoft/Edge/Application/msedge.exe",
    "BraveSoftware/Brave-Browser/Application/brave.exe",
)
QUIET_FLAGS = (
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
DEBIAN_BROWSERS = ("chromium-headless-shell", "chromium")
# The browser alone has no fonts and, for a user who is not root, no sandbox.
DEBIAN_PACKAGES = ("chromium-sandbox", "fonts-dejavu-core")
MINUTES = 60


class NoBrowser(Exception):
    """No browser was found or could be installed; the message says what was tried."""


def find_browser() -> str:
    """Path of a Chromium-family browser on this machine.

    Raises NoBrowser with every place looked at, or if HALFTURN_BROWSER names something that cannot be run.
    """
    wished = os.environ.get(VARIABLE)
    if wished:
        path = shutil.which(wished)
        if path is None:
            raise NoBrowser(f"{VARIABLE} is {wished!r}, which cannot be run.")
        return path
    for candidate in (*NAMES, *_usual_places(), *_downloaded()):
        path = shutil.which(candidate)
        if path is not None:
            return path
    raise NoBrowser(f"{VARIABLE} is not set, and none of these is installed: {', '.join(NAMES)}.")


def find_or_install_browser() -> str:
    """Path of a browser, installed by the package manager or by playwright if none was here.

    Raises NoBrowser with what was tried and why each way failed.
    """
    try:
        return find_browser()
    except NoBrowser as nothing:
        if os.environ.get(VARIABLE):
            raise  # whoever names a browser wants that one
        failures = [str(nothing)]
    for commands in _ways_to_install():
        failure = _run_all(commands)
        if failure is None:
            try:
                return find_browser()
            except NoBrowser:
                failure = f"{_line(commands[-1])}: ended well, but no browser can be found."
        failures.append(failure)
    raise NoBrowser("\n".join(failures))


def launch_flags() -> list[str]:
    """Command-line flags that keep the browser off the network and let it start as root."""
    root = hasattr(os, "geteuid") and os.geteuid() == 0
    return [*QUIET_FLAGS, *(["--no-sandbox"] if root else [])]


def _usual_places() -> list[str]:
    if sys.platform == "darwin":
        return [*MAC_PLACES, *(str(Path.home()) + place for place in MAC_PLACES)]
    if sys.platform == "win32":
        roots = [os.environ[name] for name in WINDOWS_ROOTS if name in os.environ]
        return [str(Path(root, place)) for root in roots for place in WINDOWS_PLACES]
    return []


def _downloaded() -> list[str]:
    """Where playwright keeps its own browser, whether or not it is there."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        return [playwright.chromium.executable_path]


def _ways_to_install() -> list[list[list[str]]]:
    """Lists of commands, each of which may bring a browser, the likeliest first."""
    ways = []
    as_root = _as_root()
    if as_root is not None:
        if shutil.which("apt-get"):
            apt = [*as_root, "env", "DEBIAN_FRONTEND=noninteractive", "apt-get"]
            install = [*apt, "install", "-y", "--no-install-recommends"]
            ways += [[[*apt, "update"], [*install, name, *DEBIAN_PACKAGES]] for name in DEBIAN_BROWSERS]
        if shutil.which("dnf"):
            ways.append([[*as_root, "dnf", "install", "-y", "chromium"]])
        if shutil.which("pacman"):
            ways.append([[*as_root, "pacman", "-Sy", "--noconfirm", "chromium"]])
    if shutil.which("brew"):
        ways.append([["brew", "install", "--cask", "chromium"]])
    own = [sys.executable, "-m", "playwright", "install", "chromium"]
    ways.append([own])
    return ways


def _as_root() -> list[str] | None:
    """What to put before a command to run it as root; None if that would need a password."""
    if not hasattr(os, "geteuid"):
        return None
    if os.geteuid() == 0:
        return []
    sudo = ["sudo", "-n"]
    if shutil.which("sudo") and subprocess.run([*sudo, "true"], capture_output=True).returncode == 0:
        return sudo
    return None


def _run_all(commands: list[list[str]]) -> str | None:
    """Run the commands in turn; None if all ended well, else what failed and its last line."""
    for command in commands:
        sys.stdout.write(f"$ {_line(command)}\n")
        sys.stdout.flush()
        try:
            done = subprocess.run(
                command,
                capture_output=True,
                text=True,
                errors="replace",
                timeout=20 * MINUTES,
                stdin=subprocess.DEVNULL,
            )
        except (OSError, subprocess.TimeoutExpired) as error:
            return f"{_line(command)}: {error}"
        if done.returncode:
            said = (done.stderr.strip() or done.stdout.strip() or "no reason given").splitlines()
            return f"{_line(command)}: ended with {done.returncode}: {said[-1].strip()}"
    return None


def _line(command: list[str]) -> str:
    return " ".join(command)
