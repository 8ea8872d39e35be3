"""What a lecture's page is told: its frames, those of what is built, and the one that a link opens."""

from dataclasses import replace

import pytest

from app.lecture.script import opened_at, script
from lessons.working.walkthrough import SIDE_BY_SIDE
from tests.app.shunt import CATALOGUE, opened

TOPIC, _ = opened({"load": "60-80j", "line": "50"})


def keys(showing: str = SIDE_BY_SIDE, **texts: str) -> list[str]:
    """Keys of the frames of a lecture."""
    topic, _ = opened(texts) if texts else (TOPIC, [])
    return [one["key"] for one in script(replace(topic, showing=showing), CATALOGUE)["frames"]]


class TestBuilt:
    @pytest.mark.parametrize(
        ("showing", "built"),
        [
            (SIDE_BY_SIDE, ["line.near", "board.near", "line.far", "board.far"]),
            ("far", ["line.far", "board.far"]),
        ],
    )
    def test_before_the_end(self, showing: str, built: list[str]):
        """Each solution that is shown is built as a line, then in copper, before the lecture comes to its end."""
        assert [*built, "closing"] == keys(showing)[-len(built) - 1 :]

    def test_no_copper(self):
        """Where no board carries the line, only the line has its frame."""
        built = [key for key in keys(load="600-800j", line="400") if key.split(".")[0] in ("line", "board")]

        assert ["line.near", "line.far"] == built

    @pytest.mark.parametrize("load", ["50j", "50", "inf"])
    def test_nothing_to_build(self, load: str):
        """A load that cannot be matched, or is matched already, has its lecture, in which nothing is built."""
        found = keys(load=load, line="50")

        assert found
        assert [] == [key for key in found if key.split(".")[0] in ("line", "board")]


class TestOpenedAt:
    @pytest.mark.parametrize(
        ("wanted", "key"), [("distance", "distance"), ("8", "distance"), ("board", "board.near"), ("", "")]
    )
    def test_named(self, wanted: str, key: str):
        """A frame is named by its key, its step or its number."""
        assert (key, "") == opened_at(wanted, script(TOPIC, CATALOGUE)["frames"])

    def test_unknown(self):
        """A step that is not there gets a sentence with those that are."""
        key, sentence = opened_at("<b>", script(TOPIC, CATALOGUE)["frames"])

        assert "" == key
        assert sentence.startswith("This lecture has no step “<b>”; its steps are opening, normalise, place")
