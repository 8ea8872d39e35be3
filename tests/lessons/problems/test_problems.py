"""Problems from texts, from the shipped set, from a seed: read back exactly, never ambiguous, faults in sentences."""

import re
import subprocess
import sys
from dataclasses import replace
from math import inf

import pytest
from hypothesis import given as for_all
from hypothesis import strategies as st

from core import reflection_coefficient, swr
from lessons.course.shunt_stub import LESSON
from lessons.grammar.kinds import LengthOfLine
from lessons.grammar.notation import Notation
from lessons.grammar.problem import Problem
from lessons.grammar.strokes import scale_reading
from lessons.problems.problem_sets import BadSet
from lessons.problems.set_files import LONGEST_FILE, MOST_PROBLEMS
from tests.lessons.grammar.test_numbers import sentences
from tests.lessons.solving import (
    DEFAULT,
    HALF_TURN,
    KEYS,
    OVERLAY,
    ambiguities,
    blank,
    changed,
    problem,
    random_problem,
    read_problem,
    read_set,
    shipped_problems,
    write_problem,
)

STEPS = [step.key for step in LESSON.steps]
BAD = {
    "abc": "abc",
    "1e999": "1e999",
    "nan": "nan",
    "10,000 characters": "9" * 10_000,
    "script": "<script>x</script>",
}
SEEDS = range(300)

lines = st.floats(1e-3, 1e6)
parts = st.floats(1e-30, 1e6) | st.just(0.0)
signed = st.builds(lambda size, sign: size * sign, parts, st.sampled_from((-1, 1)))
problems = st.builds(
    problem,
    load=st.builds(complex, parts, signed) | st.just(complex(inf)),
    line=lines,
    stub=lines,
    end=st.sampled_from(("short", "open")),
    frequency=st.none() | st.floats(1e3, 1e12) | st.sampled_from((868e6, 2.4e9, 433.92e6, 137.5e3)),
    velocity=st.floats(1e-3, 1),
    accuracy=st.sampled_from(("chart", "calculated")),
    without=st.frozensets(st.sampled_from(STEPS), max_size=4),
)


class TestReadProblem:
    def test_every_text(self):
        """Each text sets its own part of the problem."""
        texts = {"load": "25 - j40", "line": "75 ohm", "stub": "50", "end": "Open", "frequency": "868 MHz",
                 "velocity": "0,66", "accuracy": "calculated", "without": "normalise, place"}  # fmt: skip
        expected = problem(
            25 - 40j,
            75.0,
            stub=50.0,
            end="open",
            frequency=868e6,
            velocity=0.66,
            accuracy="calculated",
            without=frozenset(("normalise", "place")),
        )

        assert (expected, {}) == (read_problem(texts).problem, read_problem(texts).faults)

    @pytest.mark.parametrize("texts", [{}, {"d": "D", "utm": "x"}], ids=["nothing", "keys of others"])
    def test_defaults(self, texts):
        """Where nothing is said a problem that can be worked stands; keys of others are passed over."""
        reading = read_problem(texts)

        assert (DEFAULT, {}) == (reading.problem, reading.faults)
        assert "" == LESSON.refuses(DEFAULT)
        assert () == ambiguities(DEFAULT)

    def test_stub_is_like_the_line(self):
        """A stub of which nothing is said is made of the line."""
        assert 75.0 == read_problem({"line": "75"}).problem["stub"]

    @pytest.mark.parametrize("key", ["stub", "end", "frequency", "velocity", "accuracy", "without"])
    def test_an_empty_text_is_the_default(self, key):
        """An empty box of a form means what is usual, wherever something is."""
        assert (DEFAULT, {}) == (read_problem({key: "  "}).problem, read_problem({key: ""}).faults)

    @pytest.mark.parametrize("key", ["load", "line"])
    def test_load_and_line_must_stand(self, key):
        """Nobody's load or line is guessed from an empty box."""
        assert [key] == list(read_problem({key: ""}).faults)

    @pytest.mark.parametrize(
        ("text", "hertz"),
        [("868 MHz", 868e6), ("868mhz", 868e6), ("2.4 GHz", 2.4e9), ("434e6", 434e6), ("434e6 Hz", 434e6),
         ("137,5 kHz", 137.5e3), ("1 THz", 1e12), ("", None)],
    )  # fmt: skip
    def test_frequency(self, text, hertz):
        """A frequency is read with its unit, in hertz where none stands, and may be left out."""
        reading = read_problem({"frequency": text})

        assert (hertz, {}) == (reading.problem["frequency"], reading.faults)

    @pytest.mark.parametrize("text", ["inf", "open", "∞"])
    def test_open_load(self, text):
        """An open circuit can be written; that nothing matches it is the lesson's to say."""
        reading = read_problem({"load": text})

        assert (complex(inf), {}) == (reading.problem["load"], reading.faults)
        assert LESSON.refuses(reading.problem)


class TestFaults:
    @pytest.mark.parametrize("text", BAD.values(), ids=BAD.keys())
    @pytest.mark.parametrize("key", KEYS)
    def test_one_sentence_and_the_default(self, key, text):
        """A bad text gets one sentence under its key, and the default stands in its place."""
        reading = read_problem({"load": "30-50j", "line": "75", key: text})

        assert [key] == list(reading.faults)
        assert 1 == sentences(reading.faults[key])
        assert 10 < len(reading.faults[key]) < 300
        assert read_problem(
            {k: v for k, v in {"load": "30-50j", "line": "75"}.items() if k != key}
        ).problem == (reading.problem)

    @pytest.mark.parametrize(
        ("key", "text", "match"),
        [
            ("load", "-50", r"a resistance of -50 ohm; a passive load has zero or more"),
            ("load", "2e6", r"at most 1,000,000 ohms in each part; write inf for an open circuit"),
            ("load", "1 + 2e6j", r"at most 1,000,000 ohms"),
            ("line", "-50", r"must be from 0.001 to 1,000,000 ohms, such as 50, not -50"),
            ("line", "0", r"such as 50, not 0"),
            ("line", "50j", r"“50j” is not a number; write one such as 50"),
            ("line", "inf", r"not a number"),
            ("stub", "1e7", r"The stub impedance must be from .*, not 1e\+07"),
            ("frequency", "868", r"from 1 kHz to 1 THz, such as 868 MHz, not 868 Hz"),
            ("frequency", "2 THz", r"not 2e\+12 Hz"),
            ("frequency", "-434 MHz", r"not -4.34e\+08 Hz"),
            ("frequency", "MHz", r"write a number, such as 868 MHz"),
            ("velocity", "0", r"above 0 and at most 1, such as 0.66, not 0"),
            ("velocity", "1.01", r"not 1.01"),
            ("end", "loaded", r"The stub's end must be short or open, not “loaded”"),
            ("accuracy", "exact", r"chart or calculated, not “exact”"),
            ("without", "place, foo", r"“foo” is no step of this lesson; .* normalise, place"),
            ("without", ",".join(STEPS), r"at least one step"),
        ],
    )
    def test_what_is_wrong_and_what_is_allowed(self, key, text, match):
        """Each sentence says what was wrong and what would do."""
        faults = read_problem({key: text}).faults

        assert [key] == list(faults)
        assert re.search(match, faults[key])

    def test_all_at_once(self):
        """Every fault of a link is told, and what is good in it is used."""
        reading = read_problem({key: "<b>" for key in KEYS if key != "line"} | {"line": "75"})

        assert set(KEYS) - {"line"} == set(reading.faults)
        assert changed(DEFAULT, line=75.0, stub=75.0) == reading.problem

    @for_all(
        st.dictionaries(
            st.sampled_from(KEYS), st.text() | st.text("0123456789+-jeE.,GMkHz inf∞", max_size=12)
        )
    )
    def test_nothing_is_ever_raised(self, texts):
        """Whatever a link holds, there is a problem to show, and a sentence for each text that was not used."""
        reading = read_problem(texts)

        assert isinstance(reading.problem, Problem)
        assert set(reading.faults) <= set(texts)
        assert isinstance(LESSON.refuses(reading.problem), str)


class TestWriteProblem:
    @for_all(problems)
    def test_round_trip(self, given):
        """Every problem that can be read comes back from its texts exactly, to the last bit."""
        reading = read_problem(write_problem(given))

        assert (given, {}) == (reading.problem, reading.faults)

    def test_only_what_is_not_usual(self):
        """A link holds load and line, and nothing that goes without saying."""
        assert {"load": "25-35j", "line": "50"} == write_problem(DEFAULT)

    def test_in_words_for_people(self):
        """What a link holds can be read by people."""
        given = problem(12.5 + 0.25j, 75.0, stub=50.0, frequency=2.4e9, velocity=0.7)

        assert {
            "load": "12.5+0.25j",
            "line": "75",
            "stub": "50",
            "frequency": "2.4 GHz",
            "velocity": "0.7",
        } == (write_problem(given))


class TestShippedProblems:
    PROBLEMS = shipped_problems()

    @pytest.mark.parametrize("given", PROBLEMS, ids=lambda p: p.key)
    def test_unambiguous(self, given):
        """No usual mistake gives an answer that a right one could be taken for, in either way to show admittance."""
        assert () == ambiguities(given)

    @pytest.mark.parametrize("given", PROBLEMS, ids=lambda p: p.key)
    def test_readable(self, given):
        """The standing-wave ratio can be read off a chart, and the story is one or two sentences."""
        assert 1.5 <= swr(reflection_coefficient(given["load"], given["line"])) <= 5
        assert sentences(given.story) in (1, 2)
        assert given.key == given.key.strip().lower() != ""
        assert given.title[0].isupper()
        assert given.title[-1] not in ".!"

    def test_enough_of_them(self):
        """There are problems for a term, each once."""
        assert len(self.PROBLEMS) >= 14
        assert (
            len({p.key for p in self.PROBLEMS}) == len({p.title for p in self.PROBLEMS}) == len(self.PROBLEMS)
        )
        assert len({(p["load"], p["line"]) for p in self.PROBLEMS}) == len(self.PROBLEMS)

    def test_they_climb(self):
        """The number of steps never falls, and calculation comes last."""
        climb = [(p.accuracy == "calculated", len(LESSON.steps_of(p))) for p in self.PROBLEMS]

        assert sorted(climb) == climb
        assert len(set(climb)) > 3

    def test_the_whole_scenario(self):
        """All frequencies, lines, ends and loads of the scenario are met."""
        everything = self.PROBLEMS

        assert {None, 169e6, 434e6, 868e6, 2.4e9} == {p["frequency"] for p in everything}
        assert {50.0, 75.0, 100.0} == {p["line"] for p in everything} == {p["stub"] for p in everything}
        assert {"short", "open"} == {p["end"] for p in everything}
        assert {True, False} == {p["stub"] == p["line"] for p in everything}
        for thing in ("whip", "loop", "patch", "receiver", "mast"):
            assert [p for p in everything if thing in p.title.lower()]


class TestRandomProblem:
    PROBLEMS = tuple(random_problem(seed) for seed in SEEDS)

    @pytest.mark.parametrize(
        ("seed", "texts"),
        [
            (0, {"load": "50-90j", "line": "75", "frequency": "868 MHz", "velocity": "0.66"}),
            (1, {"load": "140+85j", "line": "50", "stub": "100"}),
            (2, {"load": "30-25j", "line": "100", "frequency": "169 MHz", "velocity": "0.7"}),
            (2024, {"load": "75-130j", "line": "100", "frequency": "868 MHz", "velocity": "0.7"}),
            (-7, {"load": "30-20j", "line": "75", "frequency": "169 MHz", "velocity": "0.66"}),
        ],
    )
    def test_the_same_on_every_machine(self, seed, texts):
        """A seed gives one problem for ever, whatever the machine and the version of Python."""
        assert texts == write_problem(random_problem(seed))

    def test_the_same_in_another_process(self):
        """Nothing of the running program gets into a random problem."""
        code = (
            "from tests.lessons.solving import random_problem; print([random_problem(s) for s in range(5)])"
        )
        other = subprocess.run(
            [sys.executable, "-c", code], capture_output=True, text=True, check=True
        ).stdout

        assert str([random_problem(seed) for seed in range(5)]) == other.strip()

    def test_unambiguous(self):
        """None can be got right by a usual mistake."""
        assert [] == [p.key for p in self.PROBLEMS if ambiguities(p)]

    def test_standing_wave_ratio(self):
        """The standing-wave ratio lies between 1.5 and 5, and over the whole of that range."""
        ratios = sorted(swr(reflection_coefficient(p["load"], p["line"])) for p in self.PROBLEMS)

        assert ratios[0] >= 1.5 - 1e-12
        assert ratios[-1] <= 5 + 1e-12
        assert ratios[len(ratios) // 10] < 2.5
        assert ratios[-len(ratios) // 10] > 4

    def test_they_look_like_homework(self):
        """Loads are whole ohms, inductive and capacitive, below and above the line's impedance."""
        numbers = [x for p in self.PROBLEMS for x in (p["load"].real, p["load"].imag)]

        assert [] == [x for x in numbers if x % 5]
        assert {True, False} == {p["load"].imag > 0 for p in self.PROBLEMS}
        assert {True, False} == {p["load"].real > p["line"] for p in self.PROBLEMS}

    def test_mostly_the_usual_stub(self):
        """Most stubs are shorted and made of the line; some are neither."""
        usual = (
            [p["end"] == "short" for p in self.PROBLEMS],
            [p["stub"] == p["line"] for p in self.PROBLEMS],
        )

        assert [True, True] == [0.6 < sum(kind) / len(kind) < 0.95 for kind in usual]

    def test_they_differ(self):
        """Another seed is another problem, nearly always."""
        assert len({(p["load"], p["line"], p["frequency"]) for p in self.PROBLEMS}) > 250

    def test_they_survive_a_link(self):
        """A random problem is carried by a link like any other."""
        unnamed = [replace(p, key="", title="", story="") for p in self.PROBLEMS]

        assert unnamed == [read_problem(write_problem(p)).problem for p in self.PROBLEMS]


class TestAmbiguities:
    @pytest.mark.parametrize(
        ("load", "found"),
        [
            pytest.param(60 + 1j, "place: sign of the reactance lost", id="hardly any reactance"),
            pytest.param(100 + 5j, "mismatch: constant r", id="nearly real, so that r is the ratio"),
            pytest.param(25 - 26j, "distance.near: wrong way", id="hardly any distance"),
        ],
    )
    def test_found(self, load, found):
        """A load on which a usual mistake hardly shows is found out, and the mistake is named."""
        assert found in ambiguities(problem(load))

    @pytest.mark.parametrize(("load", "admittance"), [(150 + 5j, "half turn"), (20 + 1j, "overlay")])
    def test_both_ways_to_show_admittance_count(self, load, admittance):
        """A reading of the scale may be taken for the distance on one of the two charts only, and that is found."""
        given = problem(load)

        assert [admittance] == [
            n.admittance for n in (HALF_TURN, OVERLAY) if _is_reading_near_distance(given, n)
        ]
        assert "distance.near: end reading" in ambiguities(given)

    def test_exact_work_is_less_ambiguous(self):
        """What a chart cannot tell apart a calculation can."""
        on_chart, calculated = (
            ambiguities(problem(60 + 1j, accuracy=how)) for how in ("chart", "calculated")
        )

        assert set(calculated) < set(on_chart)

    def test_a_step_left_out_is_not_looked_at(self):
        """What is not asked cannot be mistaken."""
        given = problem(60 + 1j, without=frozenset({"normalise"}))

        assert [] == [name for name in ambiguities(given) if name.startswith("normalise:")]


def _is_reading_near_distance(given: Problem, notation: Notation) -> bool:
    """Whether the scale beside the near crossing shows nearly the distance itself, as where y is at the left."""
    work = blank(given, notation).truth
    y = work["crossing.near"]
    shown = scale_reading((1 - y) / (1 + y), "admittance", notation.admittance)
    return LengthOfLine().off_by(shown, work["distance.near"], "chart") <= 2


GOOD = """
[[problem]]
key = "a"
title = "A"
story = "One."
load = "25 - j40"
line = 50
"""


class TestReadSet:
    def test_good(self):
        """A set of a teacher's own is read like the shipped one; numbers may stand without quotes."""
        text = GOOD + 'stub = 75.0\nend = "open"\nfrequency = "868 MHz"\nvelocity = 0.66\nwithout = "place"\n'
        expected = problem(
            25 - 40j,
            stub=75.0,
            end="open",
            frequency=868e6,
            velocity=0.66,
            key="a",
            title="A",
            story="One.",
            without=frozenset({"place"}),
        )

        assert (expected,) == read_set(text, "mine.toml")

    @pytest.mark.parametrize(
        ("change", "field", "fault"),
        [
            (("line = 50", "line = -50"), "line", "The line impedance must be from 0.001 to 1,000,000 ohms"),
            (("line = 50", ""), "line", "This field is missing."),
            (("line = 50", "line = true"), "line", "must be a number of ordinary size, or a text"),
            (("line = 50", "line = [50]"), "line", "must be a number of ordinary size, or a text"),
            (("line = 50", "line = 0x" + "f" * 400), "line", "must be a number of ordinary size, or a text"),
            (("25 - j40", "j40"), "load", "This load takes no power"),
            (("25 - j40", "50"), "load", "matched already"),
            (("25 - j40", "inf"), "load", "This load takes no power"),
            (("25 - j40", "abc"), "load", "“abc” is not a number"),
            (('title = "A"', 'title = ""'), "title", "a text of 1 to 120 characters"),
            (('title = "A"', "title = 7"), "title", "a text of 1 to 120 characters"),
            (('"One."', '"' + "x" * 601 + '"'), "story", "a text of 1 to 600 characters"),
            (('story = "One."', ""), "story", "This field is missing."),
            (
                ("line = 50", 'line = 50\ncolour = "green"'),
                "colour",
                "There is no such field; the fields are key, title",
            ),
        ],
    )
    def test_a_fault_names_its_place(self, change, field, fault):
        """A fault names file, line, problem and key, then says what is wrong, in one line."""
        text = GOOD.replace(*change)
        with pytest.raises(BadSet, match=re.escape(fault)) as refusal:
            read_set(text, "mine.toml")
        where, _, said = str(refusal.value).partition(": ")
        line = int(where.split(", ")[1].removeprefix("line "))

        assert ("mine.toml", f"line {line}", "problem 1 (a)", field) == tuple(where.split(", "))
        assert text.splitlines()[line - 1].startswith(field if field in text else "[[problem]]")
        assert fault in said

    def test_every_fault_is_told(self):
        """All faults of a set are told at once, in their order, each with its line."""
        text = GOOD.replace("50", "0") + GOOD.replace('"a"', '"b"').replace("25", "-25") + GOOD
        with pytest.raises(BadSet, match="problem 1") as refusal:
            read_set(text, "mine.toml")
        places = re.findall(r"line (\d+), (problem .*?), (\w+):", str(refusal.value))

        assert [
            ("7", "problem 1 (a)", "line"),
            ("13", "problem 2 (b)", "load"),
            ("17", "problem 3 (a)", "key"),
        ] == places

    @pytest.mark.parametrize(
        ("text", "fault"),
        [
            ("", "this file has none"),
            ("x = 1" + GOOD, "mine.toml, line 1, x: There is no such field"),
            ("problem = 3", "this file has none"),
            ("problem = [3]", "this file has none"),
            ("[[problem]", "line 1: This is not TOML"),
            ("x = " + "1" * 5000, "This is not TOML"),
            ("x = " + "[" * 5000, "nested too deeply"),
            (GOOD * (MOST_PROBLEMS + 1), f"at most {MOST_PROBLEMS} problems, not {MOST_PROBLEMS + 1}"),
            ("#" * (LONGEST_FILE + 1), "The file is too long"),
        ],
        ids=["empty", "other keys", "no list", "no tables", "broken", "huge number", "deep", "many", "long"],
    )
    def test_not_a_set(self, text, fault):
        """What is no set at all is refused by its file."""
        with pytest.raises(BadSet, match=re.escape(fault)) as refusal:
            read_set(text, "mine.toml")

        assert str(refusal.value).startswith("mine.toml")
