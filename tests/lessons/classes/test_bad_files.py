"""Forty kinds of bad files: each gets its sentence, and the good one beside them is marked all the same."""

import copy
import json
import os
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from lessons.classes.hand_in import LARGEST_FILE
from lessons.classes.marks import ClassMarks, mark_class
from lessons.course.catalogue import CATALOGUE
from tests.lessons.classes.simulated import write


def changed(**parts: Any) -> Callable[[dict], object]:
    """A hand-in with other parts; those that are None are left out."""
    return lambda good: {k: v for k, v in {**good, **parts}.items() if v is not None}


def with_sheet(**parts: Any) -> Callable[[dict], object]:
    """A hand-in whose first sheet has other parts."""

    def change(good: dict) -> dict:
        made = copy.deepcopy(good)
        made["sheets"][0]["sheet"].update(parts)
        return made

    return change


def raw(content: bytes | str) -> Callable[[dict], object]:
    """Something else in its place."""
    return lambda good: content


def cut(good: dict) -> str:
    """A file that was cut off on its way."""
    return json.dumps(good)[:2000]


def twice(good: dict) -> dict:
    """Two sheets of one problem."""
    return {**good, "name": "Twice", "sheets": [good["sheets"][0], good["sheets"][0]]}


# What is wrong with a file, what lies in it, and what is said: first of files that cannot be marked at all.
REFUSED: list[tuple[str, Callable[[dict], object], str]] = [
    ("empty", raw(b""), r"The file is empty\."),
    ("only spaces", raw(" \n"), r"The file is empty\."),
    ("cut off", cut, r"damaged or no hand-in: it is not whole JSON"),
    ("plain words", raw("I forgot to save it, sorry."), r"it is not whole JSON"),
    ("not text", raw(b"\x00\xff\xfe\x01"), r"it is no text in UTF-8"),
    ("another encoding", lambda good: json.dumps(good).encode("utf-16"), r"no text in UTF-8"),
    ("nested too deeply", raw("[" * 100_000), r"nested too deeply"),
    ("a huge number", raw('{"version": ' + "9" * 5000 + "}"), r"not whole JSON"),
    ("a list", raw("[1, 2]"), r"it is no list of names and values"),
    ("a number", raw("7"), r"it is no list of names and values"),
    ("other JSON", raw('{"a": 1}'), r"not a hand-in that Halfturn saved\.$"),
    ("one sheet", lambda good: good["sheets"][0]["sheet"], r"This is one sheet and not a hand-in"),
    ("an archive", raw(b"PK\x03\x04zip"), r"This is an archive: unpack it"),
    ("a PDF", raw(b"%PDF-1.7\n"), r"This is a PDF document"),
    ("a photograph", raw(b"\xff\xd8\xff\xe0jpg"), r"This is a picture"),
    ("much too large", raw(b" " * (LARGEST_FILE + 1)), r"larger than 8 MB"),
    ("of another kind", changed(halfturn="sheet"), r"not a hand-in that Halfturn saved\.$"),
    ("no version", changed(version=None), r"it has no version"),
    ("a version that is true", changed(version=True), r"it has no version"),
    ("from the future", changed(version=99), r"saved by a newer Halfturn"),
    ("no set", changed(set=None), r"does not say which set"),
    ("a set without a key", changed(set={"version": 2}), r"does not say which set"),
    ("a path for a key", changed(set={"key": "../../etc", "version": 2}), r"does not say which set"),
    ("a set without a version", changed(set={"key": "week-3"}), r"of which version of the set"),
    ("another set", changed(set={"key": "week-9", "version": 1}), r"of the set “week-9”, which is not at hand"),
    ("no name", changed(name=None), r"has no name or number"),
    ("a name that is a list", changed(name=["Ada"]), r"has no name or number"),
    ("an empty name", changed(name="  "), r"no letter and no digit"),
    ("a name of signs", changed(name="<>!\u202e"), r"no letter and no digit"),
    ("a very long name", changed(name="A" * 5000), r"longer than 80 characters"),
    ("no sheets", changed(sheets=[]), r"There is no sheet in this hand-in"),
    ("sheets that are a text", changed(sheets="all"), r"its sheets are no list"),
    ("a sheet that is a number", changed(sheets=[3]), r"its sheet 1 does not say which problem"),
    ("a very long problem", changed(sheets=[{"problem": "x" * 999}]), r"its sheet 1 names no problem"),
    ("very many sheets", changed(sheets=[{"problem": "x"}] * 401), r"no list of at most 400"),
]  # fmt: skip
# Then of files in which one sheet is bad, or which are to be looked at.
LOOKED_AT: list[tuple[str, Callable[[dict], object], str]] = [
    (
        "a sheet of no problem",
        changed(name="B1", sheets=[{"problem": "none", "sheet": {}}]),
        r"no problem “none”",
    ),
    (
        "a sheet that is nothing",
        changed(name="B2", sheets=[{"problem": "varied"}]),
        r"“A whip” is left out\. This is not a sheet",
    ),
    ("a sheet of a lesson that is not", with_sheet(lesson="x"), r"a lesson that this Halfturn does not have"),
    ("a sheet of another lesson", with_sheet(lesson="series-stub"), r"one of another lesson"),
    ("a sheet from the future", with_sheet(version=99), r"saved by a newer Halfturn"),
    (
        "attempts without end",
        with_sheet(attempts=[["enter", "normalise", "1"]] * 401),
        r"no list of at most 400",
    ),
    ("attempts of no kind", with_sheet(attempts=[["eval", "normalise", "1"]]), r"an attempt is none that"),
    ("an entry that is a table", with_sheet(entries={"normalise": {"text": {}}}), r"an entry is not a text"),
    (
        "a load that gives power",
        with_sheet(problem={"load": "-50", "line": "50"}),
        r"The sheet's problem cannot be used",
    ),
    (
        "numbers without end",
        with_sheet(entries={"mismatch": {"text": "1e999999999"}}, attempts=[]),
        r"first tries are not known",
    ),
    (
        "entries made up",
        with_sheet(attempts=[["enter", "normalise", "1"]]),
        r"does not follow from its attempts",
    ),
    ("two sheets of a problem", twice, r"There are two sheets of “A whip”"),
    ("no time", changed(name="B3", saved="yesterday"), r"does not say when it was saved"),
    (
        "an old version of the set",
        changed(name="B4", set={"key": "week-3", "version": 1}),
        r"version 1 of the set, not 2",
    ),
    ("another student's variant", changed(name="Ida"), r"“A whip” is the variant of Ada Löwe"),
    (
        "numbers of one's own",
        with_sheet(problem={"load": "60-80j", "line": "50"}),
        r"is not the variant of this name",
    ),
]


def marked(folder: Path, shelf: Any) -> tuple[ClassMarks, dict[str, str]]:
    """What comes of a folder, and what is said of each file in it."""
    files = [(path.name, path) for path in sorted(folder.iterdir())]
    (found,), refused = mark_class(files, shelf, CATALOGUE)
    said = {one.file: one.sentence for one in (*refused, *found.superseded)}
    return found, said | {one.file: " ".join(one.remarks) for one in found.students}


def good_one(found: ClassMarks) -> list[bool]:
    """Whether the good hand-in's sheets are solved."""
    (ada,) = [student for student in found.students if student.file == "ada.json"]
    return [sheet.replay.sheet.solved for sheet in ada.sheets]


def test_forty_kinds():
    """There are at least forty kinds of them."""
    assert len({name for name, _, _ in (*REFUSED, *LOOKED_AT)}) >= 40


@pytest.mark.parametrize(("make", "said"), [pytest.param(m, s, id=n) for n, m, s in REFUSED])
def test_refused(make, said, folder, shelf, ada):
    """A file that cannot be marked gets one sentence, and the good one beside it loses nothing."""
    write(folder, "bad.json", make(copy.deepcopy(ada)))
    found, sentences = marked(folder, shelf)

    assert re.search(said, sentences["bad.json"])
    assert sentences["bad.json"].endswith(".")
    assert [True, True] == good_one(found)
    assert ["ada.json"] == [student.file for student in found.students]


@pytest.mark.parametrize(("make", "said"), [pytest.param(m, s, id=n) for n, m, s in LOOKED_AT])
def test_looked_at(make, said, folder, shelf, ada):
    """A file in which something is wrong says so, and whatever else is in it is marked."""
    made = make(copy.deepcopy(ada))
    assert isinstance(made, dict)
    write(folder, "bad.json", made | ({"name": "Zoe"} if made["name"] == "Ada Löwe" else {}))
    found, sentences = marked(folder, shelf)

    assert re.search(said, sentences["bad.json"])
    assert [True, True] == good_one(found)
    if len(made["sheets"]) == 2 and said != LOOKED_AT[11][2]:
        (other,) = [student for student in found.students if student.file == "bad.json"]
        assert "fixed" in [sheet.item.problem.key for sheet in other.sheets]


def test_all_at_once(folder, shelf, ada):
    """All of them in one folder: each has its sentence, and the good one is marked."""
    for number, (_, make, _) in enumerate((*REFUSED, *LOOKED_AT)):
        made = make(copy.deepcopy(ada))
        if isinstance(made, dict) and made.get("name") == "Ada Löwe":
            made["name"] = f"Student {number}"
        write(folder, f"bad-{number:02d}.json", made)
    found, sentences = marked(folder, shelf)

    assert [] == [name for name, said in sentences.items() if name != "ada.json" and not said]
    assert len(sentences) == len(REFUSED) + len(LOOKED_AT) + 1
    assert [True, True] == good_one(found)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="This system has no pipes among its files.")
def test_no_ordinary_files(folder, shelf):
    """A pipe, a link that leads round and one that leads nowhere get their sentence, and nobody waits for them."""
    os.mkfifo(folder / "pipe.json")
    (folder / "round.json").symlink_to(folder / "round.json")
    (folder / "nowhere.json").symlink_to(folder / "gone.json")
    _, sentences = marked(folder, shelf)

    assert "This is no ordinary file." == sentences["pipe.json"]
    assert all("cannot be read" in sentences[name] for name in ("round.json", "nowhere.json"))


class TestDoubled:
    def test_newest_counts(self, folder, shelf, ada):
        """Of a student's files the newest counts, whatever it is called, and the others are named."""
        newer = {
            **ada,
            "name": "ADA  lowe",
            "saved": "2026-11-21T00:00:00+01:00",
            "sheets": ada["sheets"][:1],
        }
        write(folder, "a-newer.json", newer)
        found, sentences = marked(folder, shelf)

        assert ["a-newer.json"] == [student.file for student in found.students]
        assert (
            "A newer hand-in of the same student is in a-newer.json, which counts." == sentences["ada.json"]
        )

    def test_the_same_twice(self, folder, shelf, ada):
        """The same file twice is said to be the same."""
        write(folder, "copy.json", ada)
        _, sentences = marked(folder, shelf)

        assert "The same is in copy.json, which counts." == sentences["ada.json"]

    def test_another_version(self, folder, shelf, ada):
        """A hand-in on another version is marked by its own problems: its variant is none of the new one's business."""
        moved = copy.deepcopy({**ada, "name": "Ben", "set": {"key": "week-3", "version": 1}})
        write(folder, "ben.json", moved)
        found, sentences = marked(folder, shelf)
        (ben,) = [student for student in found.students if student.name == "Ben"]

        assert [True, True] == [sheet.replay.sheet.solved for sheet in ben.sheets]
        assert "variant" not in sentences["ben.json"]
