"""What is asked of the paper view, and what it sends: settings, their links, and pages in parts."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any
from urllib.parse import parse_qsl, urlsplit

import pytest

from app.paper.page import MOST_TEXTS
from app.paper.setting import LARGEST_SEED, MOST_SHEETS, Setting
from app.parts.worksheet import SIZES
from lessons.grammar.difficulty import DIFFICULTIES, HARD, Difficulty
from lessons.grammar.notation import Notation
from tests.app.shunt import answer_key, form, link, press, read_setting, setting, worksheet, write_setting
from tests.lessons.solving import DEFAULT, changed, random_problem, shipped_problems

FIRST = shipped_problems()[0]
SETTINGS = [
    setting(FIRST),
    setting(shipped_problems()[-1], size="Letter", key="without"),
    setting(FIRST, seed=0),
    setting(FIRST, seed=LARGEST_SEED, count=MOST_SHEETS, drawn="half", key="only"),
    setting(changed(DEFAULT, load=60 - 80j, frequency=868e6, velocity=0.66, end="open")),
    setting(FIRST, seed=3, count=120, every={"stub": "usual", "frequency": "868 MHz", "end": "open"}),
    setting(FIRST, seed=7, difficulty=HARD, every={"line": "75"}),
    setting(FIRST, notation=Notation({"d": "l", "l": "d"}, "overlay", "i", "radians", "degrees", 4)),
]


def query(address: str) -> dict[str, str]:
    """The texts of a link."""
    return dict(parse_qsl(urlsplit(address).query, keep_blank_values=True))


class Browser:
    """Takes what is sent, and puts the pages together as the page does."""

    def __init__(self) -> None:
        self.heard: list[dict[str, Any]] = []
        self.waiting: list[Callable[[], None]] = []
        self.press = press(self.heard.append, self.waiting.append)

    def ask(self, **texts: str) -> None:
        """Ask for pages, and let everything be made."""
        self.press.do({"do": "make", "texts": texts})
        while self.waiting:
            self.waiting.pop(0)()

    def pages(self) -> dict[str, str]:
        """Each page by its name."""
        sheets = [message["sheet"] for message in self.heard if "sheet" in message]
        parts = [part for sheet in sheets for part in sheet["parts"]]
        return {
            page["name"]: "".join(parts[part] if isinstance(part, int) else part for part in page["parts"])
            for sheet in sheets
            for page in sheet["pages"]
        }


class TestSetting:
    @pytest.mark.parametrize("setting", SETTINGS, ids=link)
    def test_link_carries_everything(self, setting: Setting):
        """A link's texts give back the setting that it was made of, without a fault."""
        assert (setting, {}) == read_setting(query(link(setting)))

    @pytest.mark.parametrize("setting", SETTINGS[:3], ids=link)
    def test_link_says_only_what_is_not_usual(self, setting: Setting):
        """A link holds what is printed, and nothing that is as usual anyway."""
        assert not {"drawn", "decimals", "admittance"} & set(write_setting(setting))

    @pytest.mark.parametrize(("key", "text", "sentence"), [
        ("count", "241", "The number of sheets is a whole one from 1 to 240, not “241”."),
        ("count", "0", "from 1 to 240"),
        ("count", "1e1", "from 1 to 240"),
        ("seed", "-1", "The first number is a whole one from 0 to 999999, not “-1”."),
        ("seed", "٣", "from 0 to 999999"),
        ("seed", "9" * 5000, "not “" + "9" * 24 + "…”"),
        ("size", "A5", "The paper is A4 or Letter, not “A5”."),
        ("drawn", "full", "The chart is blank or half, not “full”."),
        ("key", "maybe", "The key is with, without or only, not “maybe”."),
        ("problem", "<b>", "Halfturn brings no problem “<b>”: choose one of the list."),
        ("load", "x", "is not a number"),
        ("decimals", "99", "Decimals are a whole number from 2 to 6."),
    ])  # fmt: skip
    def test_bad_text_gets_a_sentence(self, key: str, text: str, sentence: str):
        """What cannot be meant is said in one sentence beside its field, and the usual value takes its place."""
        texts = {"seed": "1"} if key == "count" else {}
        setting, faults = read_setting({**texts, key: text})

        assert [key] == list(faults)
        assert sentence in faults[key]
        assert (1, "A4", "blank", "with", Notation()) == (
            setting.count, setting.size, setting.drawn, setting.key, setting.notation,
        )  # fmt: skip

    def test_numbers_of_the_sheets(self):
        """Random problems are numbered on from the first; another problem has no number."""
        assert (7, 8, 9) == setting(FIRST, seed=7, count=3).seeds
        assert (None,) == setting(FIRST).seeds
        assert random_problem(8) == setting(FIRST, seed=7, count=3).problem_of(8)

    def test_form_offers_what_there_is(self):
        """The form offers every problem of the set, every size, and the usual notation."""
        offered = form(setting(FIRST), {})
        (problem,), size, notation = offered["kinds"][0]["entries"], offered["paper"][0], offered["notation"]

        assert [(one.key, one.title) for one in shipped_problems()] == problem["options"]
        assert [(one, one) for one in SIZES] == size["options"]
        usual = {"decimals": "3", "d": "d", "admittance": "half turn"}
        assert usual.items() <= {one["key"]: one["text"] for one in notation}.items()

    def test_form_is_filled_in(self):
        """The form begins with what its link asks for, in whichever kind of problem that is."""
        kinds = {form(read_setting(texts)[0], {})["kind"] for texts in ({}, {"load": "25"}, {"seed": "7"})}
        offered = form(read_setting({"seed": "7", "count": "3", "key": "only"})[0], {})

        assert {"problem", "own", "seed"} == kinds
        assert ["7", "3"] == [one["text"] for one in offered["kinds"][2]["entries"][:2]]
        assert ("key", "only") == (offered["paper"][2]["key"], offered["paper"][2]["text"])

    def test_what_the_form_offers_can_be_read(self):
        """Every option of the form is one that a setting takes: nothing is offered that would be refused."""
        offered = form(setting(FIRST), {})
        entries = [*offered["paper"], *offered["notation"], *offered["kinds"][0]["entries"]]

        assert [{}] * sum(len(one["options"]) for one in entries) == [
            read_setting({one["key"]: value})[1] for one in entries for value, _ in one["options"]
        ]

    @pytest.mark.parametrize(("load", "why"), [("j50", "nothing matches it"), ("50", "matched already")])
    def test_a_refused_problem_is_printed(self, load: str, why: str):
        """A load that nothing matches is not replaced by another problem: it is printed, with the reason beside it."""
        asked = {"load": load}
        one, faults = read_setting(asked)
        offered = form(one, faults, asked)
        entries = {entry["key"]: entry["text"] for entry in offered["kinds"][1]["entries"]}

        assert {} == faults
        assert ("own", load, "50") == (offered["kind"], entries["load"], entries["line"])
        browser = Browser()
        browser.ask(**asked)
        start, sheet, _ = browser.heard
        assert why in start["start"]["faults"]["load"]
        assert ["worksheet", "worksheet"] == [page["kind"] for page in sheet["sheet"]["pages"]]
        assert why in sheet["sheet"]["pages"][0]["description"]


class TestVariants:
    def test_alike_in_kind(self):
        """Variants can be made alike: the same end, the stub of the line's impedance, lengths in millimetres on all."""
        asked = {
            "seed": "1",
            "count": "12",
            "every.end": "open",
            "every.stub": "usual",
            "every.frequency": "868MHz",
        }
        one, faults = read_setting(asked)
        problems = [one.problem_of(seed) for seed in one.seeds]

        assert {} == faults
        assert {("open", 868e6)} == {(problem["end"], problem["frequency"]) for problem in problems}
        assert all(problem["stub"] == problem["line"] for problem in problems)
        assert len({problem["load"] for problem in problems}) > 8

    @pytest.mark.parametrize("difficulty", DIFFICULTIES, ids=lambda one: one.key)
    def test_of_one_difficulty(self, difficulty: Difficulty):
        """A number and a difficulty give one problem; the link carries both, the usual difficulty unsaid."""
        one, faults = read_setting({"seed": "8", "difficulty": difficulty.key})

        assert {} == faults
        assert random_problem(8, difficulty=difficulty) == one.problem_of(8)
        assert {"seed": "8", **difficulty.texts} == write_setting(one)
        assert one == read_setting(write_setting(one))[0]
        entries = {entry["key"]: entry for entry in form(one, {})["kinds"][2]["entries"]}
        assert difficulty.key == entries["difficulty"]["text"]
        assert difficulty.means == entries["difficulty"]["meanings"][difficulty.key]

    def test_left_to_chance(self):
        """Where nothing is set, a number gives the problem that it always gave."""
        assert random_problem(8) == read_setting({"seed": "8"})[0].problem_of(8)

    @pytest.mark.parametrize(
        ("key", "text", "sentence"),
        [
            ("every.stub", "x", "is not a number"),
            ("every.end", "ajar", "ajar"),
            ("every.stub", "1e6", "can be marked without doubt"),
            ("difficulty", "fiendish", "The difficulty is round, any or hard, not “fiendish”."),
        ],
    )
    def test_what_cannot_be_set(self, key: str, text: str, sentence: str):
        """What cannot be read, or leaves no problem to be set, is said beside its entry."""
        faults = read_setting({"seed": "1", key: text})[1]

        assert [key] == list(faults)
        assert sentence in faults[key]


class TestPress:
    def test_the_difficulty_stands_beside_the_number(self):
        """Sheet, key and files of a hard problem say so beside its number; those of any are as they were."""
        browser = Browser()
        browser.ask(seed="41", difficulty="hard")
        hard = random_problem(41, difficulty=HARD)

        assert {
            f"{kind}-41-hard-page-{number}": svg
            for kind, svgs in (("worksheet", worksheet(hard, seed=41)), ("key", answer_key(hard, seed=41)))
            for number, svg in enumerate(svgs, 1)
        } == browser.pages()
        assert "Worksheet 41, hard, page 1 of 2" in browser.pages()["worksheet-41-hard-page-1"]
        assert "Key to worksheet 41, hard, page 1" in browser.pages()["key-41-hard-page-1"]

    def test_pages_arrive_as_they_were_made(self):
        """Put together again, the parts are the very pages, sheets and keys by their number."""
        browser = Browser()
        browser.ask(seed="41", count="2", size="Letter", drawn="half", admittance="overlay")
        notation = Notation(admittance="overlay")
        expected = {
            f"{kind}-{seed}-page-{number}": svg
            for seed in (41, 42)
            for kind, svgs in (
                (
                    "worksheet",
                    worksheet(random_problem(seed), notation, size="Letter", drawn="half", seed=seed),
                ),
                ("key", answer_key(random_problem(seed), notation, size="Letter", seed=seed)),
            )
            for number, svg in enumerate(svgs, 1)
        }

        assert expected == browser.pages()

    def test_the_printed_chart_travels_once(self):
        """However many sheets there are, what they have in common is sent with the first of them."""
        browser = Browser()
        browser.ask(seed="1", count="4")
        sent = [len(message["sheet"]["parts"]) for message in browser.heard if "sheet" in message]

        assert [1, 0, 0, 0] == sent

    def test_tells_begin_and_end(self):
        """The browser hears what will come, how large a page is and what link gives it again, and when it is done."""
        browser = Browser()
        browser.ask(seed="5", count="2", key="only")
        first, *_, last = browser.heard

        assert {"run": 1, "sheets": 2, "size": "A4", "millimetres": [210, 297]}.items() <= first[
            "start"
        ].items()
        assert "/paper?seed=5&count=2&key=only" == first["start"]["link"]
        assert {"end": 1} == last
        assert all(name.startswith("key-") for name in browser.pages())

    def test_words_read_aloud(self):
        """Each page comes with its title and a description, in plain words."""
        browser = Browser()
        browser.ask(load="60-80j", line="50")
        page = browser.heard[1]["sheet"]["pages"][0]

        assert "Worksheet: Your own problem, page 1 of 2" == page["title"]
        assert page["description"].startswith("Match 60 − j80 Ω to a line of 50 Ω")

    def test_fault_leaves_the_pages(self):
        """A wish that cannot be fulfilled is answered with sentences only."""
        browser = Browser()
        browser.ask(seed="1", count="241")

        assert [["faults"]] == [list(message) for message in browser.heard]
        assert "from 1 to 240" in browser.heard[0]["faults"]["count"]

    def test_new_wish_ends_the_old_one(self):
        """Asked for something else, the press stops what it was at."""
        browser = Browser()
        browser.press.do({"do": "make", "texts": {"seed": "1", "count": "50"}})
        browser.ask(seed="7")
        made = [message["sheet"]["run"] for message in browser.heard if "sheet" in message]

        assert [1, 2] == made
        assert [{"end": 2}] == [message for message in browser.heard if "end" in message]

    @pytest.mark.parametrize("said", [
        {"do": "make"},
        {"do": "make", "texts": None},
        {"do": "make", "texts": {"seed": 1}},
        {"do": "make", "texts": {1: "seed"}},
        {"do": "make", "texts": {"load": "9" * 10_000}},
        {"do": "make", "texts": {f"key {index}": "" for index in range(MOST_TEXTS + 1)}},
        {"do": "burn", "texts": {}},
    ], ids=str)  # fmt: skip
    def test_ignores_what_no_page_of_ours_sends(self, said: dict[str, Any]):
        """A message that is not such a wish changes nothing."""
        browser = Browser()
        browser.press.do(said)

        assert [] == browser.heard == browser.waiting
