"""The README tells the truth."""

import doctest
import re
import textwrap
from pathlib import Path

from app.__main__ import COMMANDS
from lessons.course.catalogue import CATALOGUE
from lessons.problems.set_files import read_set

ROOT = Path(__file__).parent.parent
README = ROOT / "README.md"


def test_snippets_print_what_they_say():
    """Every snippet prints what stands under it."""
    failed, tried = doctest.testfile(str(README), module_relative=False)

    assert failed == 0
    assert tried >= 10


def test_eight_questions():
    """The solver's section asks the eight questions that it promises, and answers each."""
    section = README.read_text("utf-8").partition("## If you want only the solver")[2].partition("\n## ")[0]

    assert "The eight questions asked most" in section
    assert 8 == len(re.findall(r"^\*.*\?\*.*\n\n```python\n>>> ", section, re.MULTILINE))


def test_the_test_command_is_the_one_that_runs():
    """The command that continuous integration calls is the README's own."""
    commands = re.findall(r"^python3 -m venv .*$", README.read_text("utf-8"), re.MULTILINE)

    assert len(commands) == 2
    assert commands[1] in (ROOT / ".ci" / "run").read_text("utf-8")


def test_the_set_that_it_shows():
    """The set that it shows to teachers can be used as it stands, and has all that it speaks of."""
    block = re.search(r"```toml\n(.*?)```", README.read_text("utf-8"), re.DOTALL)
    assert block is not None
    one = read_set(textwrap.dedent("   " + block[1].lstrip()), "week-3.toml", CATALOGUE)

    assert ("week-3", 2, True) == (one.key, len(one.items), one.varies)
    assert one.points is not None
    assert "near" == one.problems[1].solution


def test_commands_that_it_names():
    """Every command that it names is one."""
    named = set(re.findall(r"`halfturn ([a-z]+)", README.read_text("utf-8")))

    assert {"deploy", "mark", "print", "quiz", "sets"} == named == set(COMMANDS)


def test_links_lead_somewhere():
    """Every file that the README names is there."""
    names = re.findall(r"\]\(([^)#]+)\)", README.read_text("utf-8"))

    assert [] == [name for name in names if not (ROOT / name).exists()]
