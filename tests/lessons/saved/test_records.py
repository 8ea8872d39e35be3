"""What is kept of a sheet comes back whole, and whatever else comes back is refused in a sentence."""

import json
from copy import deepcopy
from dataclasses import replace
from random import Random
from typing import Any

import pytest
from hypothesis import given as for_all
from hypothesis import strategies as st

from lessons.grammar.notation import STANDARD, Notation
from lessons.saved.notations import DECIMALS, HABITS, write_notation
from lessons.saved.records import (
    LONGEST_ENTRY,
    MOST_PARTS,
    MOST_SLIPS,
    VERSION,
    BadRecord,
    sheet_record,
)
from lessons.working.attempts import MOST_ATTEMPTS
from lessons.working.sheet import Sheet
from tests.lessons.grammar.test_numbers import sentences
from tests.lessons.solving import (
    NOTATIONS,
    blank,
    fields_of,
    notation_from,
    random_problem,
    sheet_from_record,
    shipped,
    shipped_problems,
    solved,
)

NOTATION_KEYS = ("d", "l", *(habit.key for habit in (*HABITS, DECIMALS)))
COURSE = Notation({"d": "D", "l": "ℓ₂"}, "overlay", "i", "radians", "degrees", 4)

PARTS = ["version", "lesson", "problem", "problem/load", "problem/line", "problem/stub", "notation/d", "entries",
         "entries/mismatch", "entries/crossing.near", "hints", "hints/distance", "shown", "attempts"]  # fmt: skip

json_values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=20),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=12), inner, max_size=6),
    max_leaves=20,
)


def busy() -> Sheet:
    """A sheet on which everything that can happen has happened."""
    sheet = replace(blank(shipped("loop-75-stub-50"), COURSE), shown=2)
    sheet = sheet.enter("mismatch", "0.248").enter("mismatch", "40").carry("mismatch")
    for _ in range(4):
        sheet = sheet.hint("admittance")
    return sheet.enter("crossing.near", "<b>1+j</b>").enter("start.point", "short").hint("distance")


def through_json(sheet: Sheet) -> Any:
    """The record as it comes back from a file."""
    return json.loads(json.dumps(sheet_record(sheet), allow_nan=False))


def changed(path: str, value: Any) -> Any:
    """The busy sheet's record with one part, given by its path, replaced."""
    record = through_json(busy())
    place = record
    *ways, last = path.split("/")
    for way in ways:
        place = place[way]
    place[last] = value
    return record


class TestRoundTrip:
    @pytest.mark.parametrize(
        "notation", NOTATIONS[::3], ids=lambda n: f"{n.admittance}, {n.imaginary}, {n.length}"
    )
    @pytest.mark.parametrize("given", [*shipped_problems(), random_problem(3)], ids=lambda p: p.key)
    def test_solved_sheets(self, given, notation):
        """A finished sheet of any problem in any notation comes back from its record as it was."""
        sheet = solved(given, notation)

        assert sheet == sheet_from_record(through_json(sheet))

    def test_everything_that_can_happen(self):
        """Entries, slips, what was carried or shown, hints and worked steps all come back, and so do the verdicts."""
        back = sheet_from_record(through_json(busy()))

        assert busy() == back
        assert busy().verdicts == back.verdicts
        assert ("left side",) == back.entries["mismatch"].slips

    def test_blank(self):
        """A clean sheet's record is small and comes back clean."""
        sheet = blank(random_problem(1))

        assert sheet == sheet_from_record(through_json(sheet))
        assert len(json.dumps(sheet_record(sheet))) < 500

    def test_a_record_says_what_it_is(self):
        """A record carries its version and its lesson, so that later programs can read it."""
        assert (VERSION, "shunt-stub") == (sheet_record(busy())["version"], sheet_record(busy())["lesson"])

    def test_far_too_long_an_entry(self):
        """Ten thousand characters in a box do not keep the rest from coming back; that entry is cut."""
        sheet = solved(shipped("whip-434")).enter("total.far", "9" * 10_000)
        back = sheet_from_record(through_json(sheet))

        assert "9" * LONGEST_ENTRY == back.entries["total.far"].text
        assert "unreadable" == back.verdicts["total.far"].judgement
        assert {k: v for k, v in sheet.verdicts.items() if k != "total.far"} == {
            k: v for k, v in back.verdicts.items() if k != "total.far"
        }

    @pytest.mark.parametrize("seed", range(30))
    def test_random_workings(self, seed):
        """Whatever was typed, the record gives it back."""
        dice = Random(seed)
        sheet = blank(random_problem(seed), dice.choice(NOTATIONS))
        for one in fields_of(sheet):
            text = "".join(chr(dice.randrange(32, 0x2FFF)) for _ in range(dice.randrange(12)))
            sheet = sheet.enter(one.key, text)

        assert sheet == sheet_from_record(through_json(sheet))


class TestUnknownParts:
    @pytest.mark.parametrize("part", ["entries", "hints"])
    def test_fields_and_steps_of_another_day(self, part):
        """A field or step that the lesson does not know is left out; the rest is kept."""
        known = {"entries": {"text": "1"}, "hints": 2}[part]
        record = changed(f"{part}/nonsense", known)

        assert busy() == sheet_from_record(record)

    def test_fields_that_the_problem_does_not_ask_for(self):
        """A field of a step that this problem leaves out is left out with it."""
        record = through_json(blank(shipped("whip-over-float")))
        record["entries"]["millimetres.distance"] = {"text": "12"}

        assert {} == sheet_from_record(record).entries

    @pytest.mark.parametrize("name", ["colour", "_", "__class__"])
    def test_more_parts(self, name):
        """Parts that a later program may add within a version do no harm."""
        assert busy() == sheet_from_record(changed(name, {"x": 1}))


class TestAttempts:
    def test_in_order(self):
        """The record keeps what was entered, drawn, carried on, hinted at, shown and begun anew, in order, as short as
        can be."""
        sheet = blank(shipped("whip-434")).enter("normalise", "40-45j").enter("normalise", "0.8-0.9j")
        sheet = sheet.draw("place", 0.5).carry("place").hint("mismatch").reveal("mismatch").start_over()

        assert [
            ["enter", "normalise", "40-45j"], ["enter", "normalise", "0.8-0.9j"], ["draw", "place", "0.500 ∠ 0.0°"],
            ["carry", "place"], ["hint", "mismatch"], ["reveal", "mismatch"], ["start over", "", "0"],
        ] == sheet_record(sheet)["attempts"]  # fmt: skip

    def test_they_come_back(self):
        """From a file they come back, and what was done last can still be undone."""
        back = sheet_from_record(through_json(busy()))

        assert busy().attempts == back.attempts
        assert len(back.attempts) > 8
        assert busy().undone == back.undone
        assert back.undone is not None

    def test_bounded(self):
        """However long a student works, the record is of a size that a browser keeps: the last attempts are in it."""
        sheet = blank(shipped("whip-434"))
        for number in range(MOST_ATTEMPTS + 5):
            sheet = sheet.enter("mismatch", f"{number}")
        record = through_json(sheet)

        assert MOST_ATTEMPTS == len(record["attempts"])
        assert ["enter", "mismatch", f"{MOST_ATTEMPTS + 4}"] == record["attempts"][-1]
        assert sheet == sheet_from_record(record)

    @pytest.mark.parametrize("attempt", [["hint", "distance.near"], ["enter", "distance", "1"], ["reveal", "place."],
                                         ["enter", "", "1"], ["start over", "place"]], ids=str)  # fmt: skip
    def test_done_to_what_there_is_not(self, attempt):
        """What was done to no field or step of the lesson is left out, and undoing does not trip over it."""
        record = through_json(blank(shipped("whip-434")).enter("mismatch", "2.6"))
        record["attempts"].insert(0, attempt)
        sheet = sheet_from_record(record)

        assert ["enter"] == [one.doing for one in sheet.attempts]
        assert sheet.undone is not None
        assert blank(sheet.problem).is_like(sheet.undone)

    def test_saved_by_the_first_version(self):
        """A record without attempts opens with its entries, and nothing of them is undone by guess."""
        record = through_json(solved(shipped("whip-434"))) | {"version": 1}
        del record["attempts"]
        sheet = sheet_from_record(record).hint("place")

        assert sheet.finished
        assert sheet.undone is None


class TestBadRecords:
    @pytest.mark.parametrize(
        ("path", "value", "match"),
        [
            ("version", VERSION + 1, "saved by a newer Halfturn"),
            ("version", 0, "has no version"),
            ("version", None, "has no version"),
            ("version", True, "has no version"),
            ("version", "1", "has no version"),
            ("version", 1.5, "has no version"),
            ("lesson", "knitting", "a lesson that this Halfturn does not have"),
            ("lesson", ["shunt_stub"], "a lesson that this Halfturn does not have"),
            ("problem", [], "the part “problem” is not a list of names and values"),
            ("problem/load", 25, "the problem's load is not a text"),
            ("problem/load", "abc", "The sheet's problem cannot be used: “abc” is not a number"),
            ("problem/load", "-5", "cannot be used: The load impedance has a resistance of -5 ohm"),
            ("problem/load", "50j", "cannot be used: This load takes no power"),
            ("problem/load", "75", "cannot be used: This load is matched already"),
            ("problem/line", "1" * 201, "the problem's line is longer than 200 characters"),
            ("problem/story", "x" * 601, "the problem's story is longer than 600 characters"),
            ("problem/title", None, "the problem's title is not a text"),
            ("notation", 3, "the part “notation” is not a list"),
            ("notation/decimals", "99", "notation cannot be used: Decimals are a whole number from 2 to 6"),
            ("notation/d", "<b>", "notation cannot be used: A symbol is 1 to 8 characters"),
            ("notation/d", 5, "the notation's d is not a text"),
            ("entries", [], "the part “entries” is not a list"),
            (
                "entries",
                {f"f{i}": {"text": ""} for i in range(MOST_PARTS + 1)},
                f"more than {MOST_PARTS} parts",
            ),
            ("entries/mismatch", "3.3", "an entry is not a list"),
            ("entries/mismatch", {"text": 3.3}, "an entry is not a text"),
            ("entries/mismatch", {"text": "9" * 201}, "an entry is longer than 200 characters"),
            ("entries/mismatch", {"carried": 1}, "neither true nor false"),
            ("entries/mismatch", {"revealed": "yes"}, "neither true nor false"),
            ("entries/mismatch", {"slips": "left side"}, f"no list of at most {MOST_SLIPS}"),
            ("entries/mismatch", {"slips": ["x"] * (MOST_SLIPS + 1)}, f"no list of at most {MOST_SLIPS}"),
            ("entries/mismatch", {"slips": [1]}, "a slip is not a text"),
            ("entries/mismatch", {"slips": ["x" * 101]}, "a slip is longer than 100"),
            ("hints", 2, "the part “hints” is not a list"),
            ("hints/distance", 5, "“hints” is not a whole number from 0 to 4"),
            ("hints/distance", -1, "“hints” is not a whole number"),
            ("hints/distance", True, "“hints” is not a whole number"),
            ("hints/distance", 2.0, "“hints” is not a whole number"),
            ("shown", 99, "“shown” is not a whole number from 0 to 15"),
            ("shown", None, "“shown” is not a whole number"),
            ("attempts", {}, f"its attempts are no list of at most {MOST_ATTEMPTS}"),
            ("attempts", [["carry", "place"]] * (MOST_ATTEMPTS + 1), f"no list of at most {MOST_ATTEMPTS}"),
            ("attempts", ["carry"], "an attempt is no list of what was done, to what, and a text"),
            ("attempts", [[]], "an attempt is no list"),
            ("attempts", [["enter", "place", "1", "2"]], "an attempt is no list"),
            ("attempts", [["enter", "place", 1]], "an attempt is not a text"),
            ("attempts", [["enter", "place", "9" * 201]], "an attempt is longer than 200"),
            ("attempts", [["burn", "place"]], "an attempt is none that this Halfturn knows"),
        ],
    )
    def test_a_part_that_cannot_be(self, path, value, match):
        """A part of the wrong kind, size or version is refused with a sentence that names it."""
        with pytest.raises(BadRecord, match=match) as refusal:
            sheet_from_record(changed(path, value))

        assert sentences(str(refusal.value)) <= 2
        assert len(str(refusal.value)) < 300

    @pytest.mark.parametrize("record", [None, 1, "sheet", [], {}, [{}], {1: 2}, float("nan")], ids=repr)
    def test_no_record_at_all(self, record):
        """What is no record is refused, whatever it is."""
        with pytest.raises(BadRecord, match="This is not a sheet that Halfturn saved"):
            sheet_from_record(record)

    @pytest.mark.parametrize("name", ["problem", "notation", "entries", "hints", "shown", "attempts"])
    def test_a_part_that_is_missing(self, name):
        """A missing part is an empty one: an old or shortened record still opens."""
        record = through_json(busy())
        del record[name]

        assert isinstance(sheet_from_record(record), Sheet)

    @for_all(json_values)
    def test_anything(self, record):
        """No plain data whatever raises anything but the refusal."""
        with pytest.raises(BadRecord, match=r"\.$"):
            sheet_from_record(record)

    @for_all(st.data())
    def test_anything_anywhere(self, data):
        """Whatever stands in one part of a good record, the sheet opens and can be judged, or is refused."""
        record = changed(data.draw(st.sampled_from(PARTS)), data.draw(json_values))
        before = deepcopy(record)
        try:
            sheet = sheet_from_record(record)
        except BadRecord:
            return

        assert all(verdict.sentence for verdict in sheet.verdicts.values())
        assert repr(before) == repr(record)


class TestNotation:
    @pytest.mark.parametrize("notation", [*NOTATIONS, COURSE, STANDARD], ids=repr)
    def test_round_trip(self, notation):
        """Every notation comes back from its texts."""
        assert (notation, {}) == notation_from(write_notation(notation))

    def test_only_what_is_not_usual(self):
        """The usual notation needs no word in a link."""
        assert {} == write_notation(STANDARD)
        assert {"d": "D", "l": "ℓ₂", "admittance": "overlay", "imaginary": "i", "angle": "radians", "length": "degrees",
                "decimals": "4"} == write_notation(COURSE)  # fmt: skip

    @pytest.mark.parametrize("key", NOTATION_KEYS)
    @pytest.mark.parametrize("text", ["<script>", "{0}", "123456789", "a\u202eb", "\x00"], ids=ascii)
    def test_bad_texts(self, key, text):
        """A bad text gets one sentence under its key and leaves the usual notation."""
        notation, faults = notation_from({key: text})

        assert (STANDARD, [key]) == (notation, list(faults))
        assert 1 == sentences(faults[key])

    @pytest.mark.parametrize("symbol", ["d", "d₁", "ℓ", "d'", "s/λ", "12345678", "Länge"])
    def test_symbols(self, symbol):
        """A symbol is whatever a course writes, in up to eight characters."""
        assert (Notation({"d": "x", "l": symbol}), {}) == notation_from({"d": "x", "l": symbol})

    def test_two_things_of_one_symbol(self):
        """Distance and stub length cannot share a symbol."""
        notation, faults = notation_from({"d": "l", "imaginary": "i"})

        assert (Notation(imaginary="i"), ["l"]) == (notation, list(faults))

    def test_swapped_symbols(self):
        """A course may use our two symbols the other way round."""
        assert (Notation({"d": "l", "l": "d"}), {}) == notation_from({"d": "l", "l": "d"})

    @pytest.mark.parametrize("text", ["1", "7", "3.0", "-3", "³", "many"])
    def test_decimals(self, text):
        """Decimals are a small whole number."""
        assert ["decimals"] == list(notation_from({"decimals": text})[1])

    def test_keys_of_others(self):
        """A link's other texts are none of the notation's business."""
        assert (STANDARD, {}) == notation_from({"load": "25", "d": "", "x": "y"})
