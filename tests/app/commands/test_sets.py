"""`halfturn sets check` and `--sets`: what a teacher reads at the terminal."""

import re

import pytest

from app.__main__ import main
from app.commands import sets
from lessons.problems.sets import SHIPPED
from tests.lessons.problems.test_set_files import WHOLE


class TestCheck:
    def test_good(self, tmp_path, capsys):
        """A good set is told in a line each: what is given, how many steps, and what varies."""
        file = tmp_path / "mine.toml"
        file.write_text(WHOLE, "utf-8")

        assert 0 == sets.main(["check", str(file)])
        said = capsys.readouterr().out
        assert "Stubs on the river (week-3, version 2): 2 problems." in said
        assert "5 steps, near alone. The same for all." in said
        assert re.search(r"Varies in load, line: 40 names get (3\d|40) different variants\.", said)

    def test_bad(self, tmp_path, capsys):
        """A bad set ends the command with 1, every fault a line; a good one beside it is told all the same."""
        good, bad = tmp_path / "good.toml", tmp_path / "bad.toml"
        good.write_text(WHOLE, "utf-8")
        bad.write_text(
            WHOLE.replace("version = 2", "version = 0").replace("line = 50", "line = -50", 1), "utf-8"
        )

        assert 1 == main(["sets", "check", str(bad), str(good)])
        heard = capsys.readouterr()
        assert 2 == len(heard.err.splitlines())
        assert "bad.toml, line 3, version:" in heard.err
        assert "Stubs on the river" in heard.out

    def test_doubt(self, tmp_path, capsys):
        """A load at which a slip cannot be told from the right answer gets a word of caution."""
        file = tmp_path / "mine.toml"
        file.write_text(
            '[[problem]]\nkey = "a"\ntitle = "A"\nstory = "B"\nload = "60+1j"\nline = 50\n', "utf-8"
        )

        sets.main(["check", str(file)])
        assert "Caution: in place the slip “sign of the reactance lost”" in capsys.readouterr().out

    def test_shipped(self):
        """The sets that come with the program pass."""
        assert 0 == sets.main(["check", *map(str, SHIPPED.glob("*.toml"))])


class TestServing:
    @pytest.mark.parametrize(
        ("text", "said"), [("x", "mine.toml: This is not TOML"), (None, "is no folder: --sets names one")]
    )
    def test_bad_folder(self, text, said, tmp_path, capsys):
        """A folder that is none, or holds a bad set, keeps the server from starting, with the sentence why."""
        if text is not None:
            (tmp_path / "mine.toml").write_text(text, "utf-8")
        folder = tmp_path if text is not None else tmp_path / "gone"

        assert 1 == main(["--no-browser", "--port", "0", "--sets", str(folder)])
        assert said in capsys.readouterr().err
