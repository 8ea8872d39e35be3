"""A teacher's set: what it may hold, what varies in it, what it is worth, and what is said of a bad one."""

import re
import subprocess
import sys

import pytest

from lessons.course.catalogue import CATALOGUE
from lessons.problems.points import Points
from lessons.problems.problem_sets import BadSet
from lessons.problems.seeds import ambiguities
from lessons.problems.set_files import read_set, read_set_file
from lessons.problems.sets import shelf, shipped_sets
from lessons.problems.texts import read_problem, write_problem
from lessons.problems.variants import CODE_LENGTH, code_of, folded, is_code
from lessons.working.sheet import Sheet

LESSON = CATALOGUE.usual
FOUND = CATALOGUE.find("series-stub")
assert FOUND is not None
OTHER = FOUND
WHOLE = f'''key = "week-3"
title = "Stubs on the river"
version = 2
notes = "For the third week."
seed = 7

[points]
step = 2
hint = 0.5
follow_through = false
of = {{ choose = 3 }}

[[problem]]
key = "fixed"
title = "A whip"
story = "Match it."
notes = "Ask why the near one."
load = "25 - j40"
line = 50
accuracy = "calculated"
steps = ["normalise", "place", "mismatch", "crossing", "distance"]
solution = "near"

[[problem]]
lesson = "{OTHER.key}"
key = "varied"
title = "A loop"
story = """Two lines,
load = 3 among them."""
load = "40 + j30"
line = 50
[problem.vary]
load = {{ from = "20+20j", to = "80+60j", step = 5 }}
line = [50, 75]
'''


def read(text: str = WHOLE):
    return read_set(text, "mine.toml", CATALOGUE)


class TestWhatASetHolds:
    def test_of_the_set(self):
        """Key, title, version, notes, seed and points are those of the file."""
        one = read()

        assert ("week-3", "Stubs on the river", 2, "For the third week.", 7) == (
            one.key, one.title, one.version, one.notes, one.seed,
        )  # fmt: skip
        assert Points(2, 0.5, False, {"choose": 3}) == one.points

    def test_left_out(self):
        """A set that says nothing of itself is called like its file, in its first version, without points."""
        one = read_set(WHOLE[WHOLE.index("[[problem]]") :], "Week 3 Über.toml", CATALOGUE)

        assert ("week-3-ber", "Week 3 Über", 1, None) == (one.key, one.title, one.version, one.points)

    def test_steps_and_solution(self):
        """Steps asked leave out the others, and one solution asked leaves out the fields of the other."""
        problem = read().problems[0]
        asked = [one.key for step in LESSON.steps_of(problem) for one in step.fields]

        assert ["normalise", "place", "mismatch", "crossing.near", "distance.near"] == asked
        assert "calculated" == problem.accuracy
        assert problem.givens == read_problem(write_problem(problem, LESSON), LESSON).problem.givens
        assert "near" == read_problem(write_problem(problem, LESSON), LESSON).problem.solution

    @pytest.mark.parametrize("lesson", [LESSON, OTHER], ids=lambda lesson: lesson.key)
    def test_one_solution(self, lesson):
        """With one solution asked a sheet is finished and matched by it alone, and nothing is left to choose."""
        givens = {"load": "60-80j", "line": "50", "frequency": "868 MHz", "solution": "far"}
        sheet = Sheet(lesson, read_problem(givens, lesson).problem)
        for step in sheet.steps:
            for one in step.fields:
                sheet = sheet.enter(one.key, sheet.truth.write(one.key))

        assert (True, True, True) == (sheet.finished, sheet.matched, sheet.solved)
        assert {None, "far"} == {one.branch and one.branch.key for s in sheet.steps for one in s.fields}
        assert not any(one.picks_branch for step in sheet.steps for one in step.fields)
        assert sheet.truth["millimetres.distance"] == pytest.approx(
            sheet.truth["distance.far"] * sheet.truth.wavelength_mm
        )

    def test_teachers_notes(self):
        """Notes for the teacher stay out of what a student's record or link carries."""
        item = read().items[0]

        assert "Ask why the near one." == item.notes
        assert "Ask why" not in str(write_problem(item.problem, LESSON)) + item.problem.story

    def test_shipped_sets_are_such_files(self):
        """The sets that come with the program have a title and a version of their own, and nothing special."""
        for one in shipped_sets(CATALOGUE):
            assert one.title.startswith("The Aldermoor River Watch")
            assert one.version >= 1

    def test_from_windows(self, tmp_path):
        """A file with the marks of another system's editor is read alike."""
        file = tmp_path / "mine.toml"
        file.write_bytes(b"\xef\xbb\xbf" + WHOLE.replace("\n", "\r\n").encode())

        assert read().problems == read_set_file(file, CATALOGUE).problems


class TestVariants:
    @pytest.mark.parametrize(
        ("one", "other"),
        [
            ("Ada Löwe", "ada  lowe"),
            ("Zoë O'Hara", "zoe ohara"),
            ("Nuñez, Íñigo", "NUNEZ  inigo"),
            ("Strauß", "STRAUSS"),
            ("4711 ", "4711"),
            ("Ａｄａ", "ada"),
        ],
    )
    def test_written_otherwise(self, one, other):
        """Case, spaces, accents and signs do not change whose variant it is."""
        assert folded(one) == folded(other)
        assert code_of("week-3", one) == code_of("week-3", other)

    def test_others(self):
        """Other names, and other sets, have other codes, each one that is read as such."""
        codes = {code_of(key, f"student {n}") for key in ("a", "b") for n in range(2000)}

        assert 4000 == len(codes)
        assert all(map(is_code, codes))
        assert {CODE_LENGTH} == set(map(len, codes))

    def test_no_name(self):
        """A name without a letter or a digit is nobody's."""
        assert ["", "", ""] == [code_of("a", name) for name in ("", " ", "<>!")]

    def test_the_same_on_every_machine(self):
        """A name's variant is the same in every process and on every machine."""
        one = read()
        expected = {"load": "25+30j", "line": "75"}
        code = (
            "from tests.lessons.problems.test_set_files import *; one = read();"
            "print(write_problem(one.variant(one.items[1], code_of(one.key, 'ADA löwe')), OTHER))"
        )
        other = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

        assert expected == write_problem(one.variant(one.items[1], code_of(one.key, "Ada Lowe")), OTHER)
        assert str(expected) == other.stdout.strip()

    def test_within_bounds(self):
        """A variant lies within its bounds, in whole steps, and can be marked without doubt."""
        one = read()
        found = [one.variant(one.items[1], code_of(one.key, str(n))) for n in range(60)]

        assert {50.0, 75.0} == {problem["line"] for problem in found}
        assert all(20 <= p["load"].real <= 80 and 20 <= p["load"].imag <= 60 for p in found)
        assert {0.0} == {part % 5 for p in found for part in (p["load"].real, p["load"].imag)}
        assert [] == [p for p in found if ambiguities(p, OTHER)]
        assert len({p["load"] for p in found}) > 30

    def test_usual_values_follow(self):
        """What the set does not state is what is usual beside the values drawn: a stub made of the line."""
        one = read()
        found = [one.variant(one.items[1], code_of(one.key, str(n))) for n in range(20)]

        assert all(p["stub"] == p["line"] for p in found)

    def test_what_does_not_vary(self):
        """A problem in which nothing varies is the same for everybody, title and story of each its own."""
        one = read()
        code = code_of(one.key, "Ada")

        assert one.items[0].problem == one.variant(one.items[0], code)
        assert ("A loop", "varied") == (
            one.variant(one.items[1], code).title,
            one.variant(one.items[1], code).key,
        )

    def test_version_keeps_variants(self):
        """A new version of a set, with its bounds as they were, deals the same variants; a new seed deals others."""
        code = code_of("week-3", "Ada")
        before, after, dealt = (
            read(WHOLE.replace(*change))
            for change in (("", ""), ("version = 2", "version = 3"), ("seed = 7", "seed = 8"))
        )

        assert before.variant(before.items[1], code) == after.variant(after.items[1], code)
        assert any(
            before.variant(before.items[1], code_of("week-3", str(n)))
            != dealt.variant(dealt.items[1], code_of("week-3", str(n)))
            for n in range(3)
        )


class TestFaults:
    @pytest.mark.parametrize(
        ("change", "said"),
        [
            (
                ("version = 2", "version = 0"),
                "mine.toml, line 3, version: This must be a whole number from 1",
            ),
            (("version = 2", "version = true"), "mine.toml, line 3, version: This must be a whole number"),
            (("week-3", "Week 3"), "mine.toml, line 1, key: A set's key is small letters"),
            (('"Stubs on the river"', "7"), "mine.toml, line 2, title: This must be a text"),
            (("seed = 7", "sed = 7"), "mine.toml, line 5, sed: There is no such field"),
            (("seed = 7", "seed = -1"), "mine.toml, line 5, seed: This must be a whole number from 0"),
            (("step = 2", "stop = 2"), "mine.toml, line 8, points.stop: There is no such field"),
            (("hint = 0.5", "hint = -1"), "mine.toml, line 9, points.hint: This must be a number from 0"),
            (("= false", '= "no"'), "mine.toml, line 10, points.follow_through: This must be true or false"),
            (("choose = 3", "chose = 3"), "mine.toml, line 11, points.of.chose: No problem of this set asks"),
            (("choose = 3", "choose = -3"), "mine.toml, line 11, points.of.choose: This must be a number"),
            (('"place",', '"palce",'), "mine.toml, line 21, problem 1 (fixed), steps: “palce” is no step"),
            (("steps = [", "steps = 3 # ["), "line 21, problem 1 (fixed), steps: The steps asked are a list"),
            (
                ('solution = "near"', 'solution = "fra"'),
                "line 22, problem 1 (fixed), solution: The solution must be near or far",
            ),
            (('solution = "near"', 'without = "place"'), "line 22, problem 1 (fixed), without: Write steps"),
            (("line = [50, 75]", "line = [50]"), "line 34, problem 2 (varied), vary.line: A list of values"),
            (
                ("line = [50, 75]", 'line = [50, "x"]'),
                "line 34, problem 2 (varied), vary.line: “x” is not a number",
            ),
            (
                ("line = [50, 75]", "lien = [50, 75]"),
                "line 34, problem 2 (varied), vary.lien: The lesson has no such given",
            ),
            (
                ("step = 5 }", "step = 0 }"),
                "line 33, problem 2 (varied), vary.load: The step must be above zero",
            ),
            (
                ("step = 5 }", "step = 500 }"),
                "line 33, problem 2 (varied), vary.load: From, to and step must give 2",
            ),
            (('"80+60j"', '"10+60j"'), "line 33, problem 2 (varied), vary.load: Each part of “to”"),
            (
                ("line = [50, 75]", 'end = { from = "short", to = "open", step = 1 }'),
                "vary.end: The stub's end must be short or open, not “1”",
            ),
            (("from = ", "form = "), "vary.load: Write a list of values"),
            (('to = "80+60j", step = 5', 'to = "80+60j"'), "vary.load: Write a list of values"),
            (
                ('from = "20+20j", to = "80+60j"', 'from = "1000+1j", to = "1000+6j"'),
                "vary: Within these bounds no problem",
            ),
            (
                (WHOLE[WHOLE.index("[problem.vary]") :], "vary = 3\n"),
                "line 32, problem 2 (varied), vary: What varies is a table",
            ),
            (("[points]", "[[points]]"), "points: Points are a table"),
        ],
    )
    def test_line_and_key(self, change, said):
        """Each fault is one line that names file, line and key, and says what is allowed."""
        text = WHOLE.replace(*change)
        assert text != WHOLE

        with pytest.raises(BadSet, match=re.escape(said)) as refusal:
            read(text)
        line = next(one for one in str(refusal.value).splitlines() if said in one)
        assert line.endswith(".")

    def test_a_lesson_of_one_solution(self):
        """Of a lesson with one solution no solution can be asked for alone."""
        from tests.toys import ALONG

        reading = read_problem({"load": "60-80j", "line": "50", "along": "0.2", "solution": "near"}, ALONG)

        assert "one solution" in reading.faults["solution"]

    def test_unreadable_files(self, tmp_path):
        """A file that is no text, and one that is not there, are refused in a sentence."""
        file = tmp_path / "mine.toml"
        file.write_bytes(b"\xff\xfe\x00")

        with pytest.raises(BadSet, match=r"mine\.toml: This is not a text file in UTF-8\."):
            read_set_file(file, CATALOGUE)
        with pytest.raises(BadSet, match=r"gone\.toml: The file cannot be read"):
            read_set_file(tmp_path / "gone.toml", CATALOGUE)


class TestShelf:
    def test_own_sets_first(self, tmp_path):
        """A folder's sets stand before those that come with the program, and are found by their keys."""
        (tmp_path / "mine.toml").write_text(WHOLE, "utf-8")
        sets = shelf(CATALOGUE, [tmp_path])

        assert ("week-3", len(shipped_sets(CATALOGUE)) + 1) == (sets[0].key, len(sets))
        assert sets[0] is sets.find("week-3")
        assert sets.find("none") is None

    def test_one_key_twice(self, tmp_path):
        """Two sets of one key are refused, and every bad file is named."""
        for name in ("a.toml", "b.toml"):
            (tmp_path / name).write_text(WHOLE, "utf-8")
        (tmp_path / "c.toml").write_text("x", "utf-8")

        with pytest.raises(BadSet, match=r"b\.toml, key: Another set at hand has the key week-3") as refusal:
            shelf(CATALOGUE, [tmp_path])
        assert "c.toml: This is not TOML" in str(refusal.value)


class TestPoints:
    @pytest.mark.parametrize(
        ("points", "facts", "earned"),
        [
            (Points(), (True, 0, False, False), 1.0),
            (Points(), (False, 0, False, False), 0.0),
            (Points(), (True, 0, True, False), 0.0),
            (Points(), (True, 0, False, True), 1.0),
            (Points(follow_through=False), (True, 0, False, True), 0.0),
            (Points(2, 0.5), (True, 1, False, False), 1.5),
            (Points(2, 0.5), (True, 4, False, False), 0.0),
            (Points(of={"choose": 3}), (True, 0, False, False), 3.0),
        ],
    )
    def test_earned(self, points, facts, earned):
        """A step earns what the table says: less for hints, nothing for what was shown or is wrong."""
        assert earned == points.earned("choose", *facts)
