"""Several processes that one watches: whenever the word to end comes, each of them hears it once."""

import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager

import pytest

from tests.app.serving.wire import children

SLOW_TO_BEGIN = """
    print("begun", flush=True)
    time.sleep(600)
"""
ONE_ENDS_LATER = """
    told = []
    signal.signal(signal.SIGTERM, lambda number, frame: told.append(number))
    print("begun", flush=True)
    while not told:
        time.sleep(0.01)
    try:
        os.read(once, 1)
    except BlockingIOError:
        time.sleep(0.5)
    print("told", len(told), flush=True)
"""


@contextmanager
def two_processes(work: str) -> Iterator[subprocess.Popen[str]]:
    """A program with two processes that do this work, both begun."""
    start = f"""import os, signal, time
from app.serving.processes import run_all

once, other_end = os.pipe()
os.set_blocking(once, False)
os.write(other_end, b"1")

def work():
{work}

run_all(2, work)
"""
    command = [sys.executable, "-c", start]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, start_new_session=True) as process:
        assert process.stdout is not None
        try:
            assert ["begun\n"] * 2 == [process.stdout.readline() for _ in range(2)]
            yield process
        finally:
            process.kill()


def last_words(process: subprocess.Popen[str]) -> str:
    """What a program says until it ends, as it should."""
    rest, _ = process.communicate(timeout=20)
    assert 0 == process.returncode
    return rest


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGINT])
def test_while_they_begin(number: signal.Signals):
    """A process that is still being built when the program is ended ends too, and none is put in its place."""
    with two_processes(SLOW_TO_BEGIN) as process:
        process.send_signal(number)

        assert "" == last_words(process)


def test_between_death_and_replacement():
    """One that died as soon as it had begun is not started again once the program has been told to end."""
    with two_processes(SLOW_TO_BEGIN) as process:
        os.kill(children(process)[0], signal.SIGKILL)
        process.send_signal(signal.SIGTERM)

        assert "" == last_words(process)


def test_each_is_told_once():
    """One that is still ending is not told again when another has ended: a second word would cut it short."""
    with two_processes(ONE_ENDS_LATER) as process:
        process.send_signal(signal.SIGTERM)

        assert "told 1\n" * 2 == last_words(process)
