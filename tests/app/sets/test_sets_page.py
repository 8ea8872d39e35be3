"""The page of sets: what it tells of a set, whose variant it shows, and where its links lead."""

from urllib.parse import parse_qsl, urlsplit

import pytest

from app.lecture.page import Lectern
from app.practise.page import Desk
from app.practise.sitting import Sitting
from app.sets.page import Counter, set_words
from lessons.course.catalogue import CATALOGUE
from lessons.problems.places import read_place
from lessons.problems.set_files import read_set
from lessons.problems.sets import Shelf, shelf
from lessons.problems.variants import code_of
from lessons.saved.links import problem_texts, read_link
from tests.lessons.classes.conftest import TEXT

ONE = read_set(TEXT.replace("[points]", 'notes = "Say hello."\n[points]'), "week-3.toml", CATALOGUE)
SETS = Shelf((ONE, *shelf(CATALOGUE)))
LONG = "ADA" * 30


def counter(**query: str) -> Counter:
    return Counter(query, CATALOGUE, SETS)


def query_of(address: str) -> dict[str, str]:
    return dict(parse_qsl(urlsplit(address).query))


class TestPage:
    def test_all_sets(self):
        """Without a set in its address the page lists those at hand, a teacher's own first."""
        page = counter().words()

        assert page["set"] is None
        assert [one.title for one in SETS] == [one["title"] for one in page["sets"]]
        assert 5 == len(page["guide"])

    def test_unknown_set(self):
        """A set that is not at hand gets a sentence that names those that are."""
        (sentence,) = counter(set="<b>").view.page["notices"]

        assert "There is no set “<b>” here; those that there are: week-3," in sentence

    @pytest.mark.parametrize("name", ["Ada Löwe", "ada  LOWE"])
    def test_variant_of_a_name(self, name):
        """A name shows its own variant, however it is written; sheets are kept by the same entries as in practice."""
        words = set_words(ONE, name, CATALOGUE)
        code = code_of("week-3", "Ada Löwe")

        assert code == words["code"]
        for item, shown in zip(ONE.items, words["problems"], strict=True):
            assert problem_texts(ONE.variant(item, code), CATALOGUE) == shown["entries"]

    @pytest.mark.parametrize(("name", "said"), [("!!", "letters or digits"), (LONG, "at most 80")])
    def test_no_name(self, name, said):
        """What is no name gets a sentence, and nobody's variant is shown."""
        words = set_words(ONE, name, CATALOGUE)

        assert ("", "") == (words["name"], words["code"])
        assert said in words["fault"]

    def test_said_by_others(self):
        """A message that no page of ours sends changes nothing."""
        one = counter(set="week-3")
        heard: list[dict] = []
        one.view.tell = heard.append  # type: ignore[method-assign, assignment]
        for said in (
            {"do": "name"},
            {"do": "name", "text": 3},
            {"do": "name", "text": "x" * 500},
            {"do": "open"},
        ):
            one.do(said)
        assert [] == heard
        one.do({"do": "name", "text": "Ada"})
        assert "Ada" == heard[0]["page"]["set"]["name"]


class TestLinks:
    @pytest.mark.parametrize("name", ["", "Ada Löwe"])
    def test_a_problem_opens(self, name):
        """A problem's link opens it in its variant, fresh, and knows its place in the set."""
        for number, shown in enumerate(set_words(ONE, name, CATALOGUE)["problems"], 1):
            sitting = Sitting(CATALOGUE, SETS)
            sitting.open_link(query_of(shown["address"]))
            page = Desk(sitting).sheet.page

            assert shown["entries"] == page["entries"]
            assert (True, False, 0) == (page["linked"], page["guided"], page["shown"])
            assert (number, 2) == (page["set"]["number"], page["set"]["count"])
            assert page["problem"]["title"] == shown["title"]

    def test_on_to_the_next(self):
        """Each problem leads to the next in the same variant, and the last to none."""
        first = set_words(ONE, "Ada", CATALOGUE)["problems"][0]
        sitting = Sitting(CATALOGUE, SETS)
        sitting.open_link(query_of(first["address"]))
        following = Desk(sitting).sheet.page["set"]["next"]
        sitting.open_link(query_of(following))
        last = Desk(sitting).sheet.page

        assert set_words(ONE, "Ada", CATALOGUE)["problems"][1]["entries"] == last["entries"]
        assert "" == last["set"]["next"]

    def test_another_problem_is_none_of_the_set(self):
        """Once another problem is chosen, the sheet no longer says that it is the set's."""
        sitting = Sitting(CATALOGUE, SETS)
        sitting.open_link({"set": "week-3"})
        assert sitting.place is not None
        sitting.open_random()

        assert sitting.place is None

    def test_kept_sheet_stays_in_its_place(self):
        """A sheet that comes back from what was kept is still the set's."""
        sitting = Sitting(CATALOGUE, SETS)
        sitting.open_link({"set": "week-3", "problem": "fixed"})
        sitting.enter("normalise", "1.2-1.6j")
        again = Sitting(CATALOGUE, SETS)
        again.open_link({"set": "week-3", "problem": "fixed"})
        again.restore(sitting.record())

        assert again.place == sitting.place is not None
        assert "1.2-1.6j" == again.sheet.entries["normalise"].text

    @pytest.mark.parametrize(
        ("query", "said"),
        [
            ({"set": "none"}, "There is no set “none” here"),
            ({"set": "week-3", "problem": "none"}, "has no problem “none”; here is its first"),
            ({"set": "week-3", "variant": "0"}, "“0” is no variant"),
        ],
    )
    def test_bad_links(self, query, said):
        """What a link holds wrongly is said, and something opens all the same."""
        linked = read_link(query, CATALOGUE, SETS)

        assert said in linked.faults[0]
        assert "none" == query["set"] or linked.problem == ONE.problems[0]

    def test_links_of_old(self):
        """A link that names no set opens what it always opened."""
        assert (None, ()) == read_place({"load": "60-80j", "line": "50"}, SETS)


class TestLecture:
    def test_in_order(self):
        """A lecture of a set goes through its problems in order, and past its end nowhere."""
        lectern = Lectern({"set": "week-3"}, CATALOGUE, SETS)
        seen = [lectern.topic.problem.key]
        for _ in range(3):
            lectern.do({"do": "of the set", "by": 1})
            seen.append(lectern.topic.problem.key)
        lectern.do({"do": "of the set", "by": -1})

        assert ["varied", "fixed", "fixed", "fixed", "varied"] == [*seen, lectern.topic.problem.key]

    def test_at_a_problem_and_a_step(self):
        """A link opens at a problem and at a step."""
        lectern = Lectern({"set": "week-3", "problem": "fixed", "step": "place"}, CATALOGUE, SETS)
        shown = lectern.words.script

        assert ("fixed", "place") == (lectern.topic.problem.key, shown["at"])
        assert {"set": "week-3", "problem": "fixed"} == dict(parse_qsl(shown["query"])) == shown["entries"]

    def test_presenter_is_told(self):
        """The presenter is told of the set: where in it one is, its titles, and the notes for who teaches."""
        shown = Lectern({"set": "week-3"}, CATALOGUE, SETS).words.script["set"]

        assert (1, 2, ["A whip", "A loop"], ["Say hello."]) == (
            shown["number"], shown["count"], shown["titles"], shown["notes"],
        )  # fmt: skip

    def test_comes_back(self):
        """After a lost connection a lecture goes on in its set."""
        lectern = Lectern({}, CATALOGUE, SETS)
        kept = {"problem": {"set": "week-3", "problem": "fixed"}, "notation": {}, "showing": ""}
        lectern.do({"do": "restore", **kept})

        assert lectern.topic.place is not None
        assert 1 == lectern.topic.place.index

    def test_another_problem_leaves_it(self):
        """Another problem in between is none of the set's, and says so in its link."""
        lectern = Lectern({"set": "week-3"}, CATALOGUE, SETS)
        lectern.do({"do": "random"})

        assert lectern.topic.place is None
