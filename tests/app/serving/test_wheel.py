"""The program as it is installed: a wheel outside the clone serves every page with all that it needs."""

import os
import re
import subprocess
import sys
from pathlib import Path
from urllib.request import urlopen

import pytest

TOP = Path(__file__).resolve().parents[3]
PAGES = ("", "check", "lecture", "lecture/notes", "paper")


@pytest.fixture(scope="module")
def installed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder that holds what the wheel installs, and nothing of the clone."""
    made, folder = tmp_path_factory.mktemp("wheel"), tmp_path_factory.mktemp("installed")
    pip = [sys.executable, "-m", "pip", "--disable-pip-version-check", "--quiet"]
    clone = made / "source"
    names = subprocess.run(
        ["git", "-C", TOP, "ls-files", "-co", "--exclude-standard"],
        capture_output=True,
        text=True,
        check=True,
    )
    for name in names.stdout.splitlines():
        if (TOP / name).is_file() and not name.startswith("tests/"):
            (clone / name).parent.mkdir(parents=True, exist_ok=True)
            (clone / name).write_bytes((TOP / name).read_bytes())
    subprocess.run([*pip, "wheel", "--no-deps", "--wheel-dir", made, clone], check=True, timeout=300)
    (wheel,) = made.glob("*.whl")
    subprocess.run([*pip, "install", "--no-deps", "--target", folder, wheel], check=True, timeout=300)
    return folder


@pytest.fixture(scope="module")
def address(installed: Path, tmp_path_factory: pytest.TempPathFactory):
    """The installed program, serving; its working folder is elsewhere."""
    environment = {**os.environ, "PYTHONPATH": str(installed), "PYTHONSAFEPATH": "1", "PYTHONUNBUFFERED": "1"}
    with subprocess.Popen(
        [sys.executable, "-m", "app", "--port", "0", "--no-browser"],
        cwd=tmp_path_factory.mktemp("elsewhere"),
        env=environment,
        stdout=subprocess.PIPE,
        text=True,
    ) as server:
        assert server.stdout is not None
        found = re.search(r"http://\S+", server.stdout.readline())
        assert found is not None
        yield found[0]
        server.terminate()


def test_no_file_is_missing(installed: Path):
    """Everything that the rooms hold for being served or read is in the wheel."""
    kinds = {".py", ".js", ".css", ".html", ".json", ".toml", ".svg"}
    rooms = [path for room in ("app", "core", "lessons", "static") for path in (TOP / room).rglob("*")]
    wanted = {path.relative_to(TOP) for path in rooms if path.suffix in kinds}

    assert set() == {path for path in wanted if not (installed / path).is_file()}


@pytest.mark.parametrize("page", PAGES)
def test_every_page_is_served(address: str, page: str):
    """Each page answers, and so does every file of ours that it names."""
    html = urlopen(f"{address}{page}", timeout=60).read().decode()
    files = set(re.findall(r"/static/[\w./-]+\.(?:js|css)\?v=\w+", html))

    assert files
    for file in sorted(files):
        assert 200 == urlopen(f"{address.rstrip('/')}{file}", timeout=60).status
