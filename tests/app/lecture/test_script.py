"""What a lecture's page is told: its frames, those of what is built, and the one that a link opens."""

from dataclasses import replace

import pytest

from app.lecture.script import opened_at, script
from core import single_stub
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
            (SIDE_BY_SIDE, ["line.near", "board.near", "line.far", "board.far", "response"]),
            ("far", ["line.far", "board.far", "response"]),
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
        assert [] == [key for key in found if key.split(".")[0] in ("line", "board", "response")]


class TestOverFrequency:
    """What is built is shown over frequency: what it does, and over which band, in a drawing and in words."""

    def test_bands(self):
        """At the ends of the band told each solution reflects what the limit is, by its own network."""
        topic, _ = opened({"load": "60-80j", "line": "50"})
        frame = next(one for one in script(topic, CATALOGUE)["frames"] if one["key"] == "response")

        assert "2?" == frame["ask"][-2:]
        for outcome, design in zip(frame["outcomes"], single_stub(60 - 80j, 50.0), strict=True):
            ends = [
                float(end.replace("−", "-").removesuffix("\u00a0%")) / 100
                for end in outcome["text"].split(" to ")
            ]
            sizes = [abs(design.input_reflection(1 + end)) for end in ends]
            assert [
                pytest.approx(1 / 3, abs=0.004)
            ] * 2 == sizes  # SWR 2 is a reflection of 1/3, by definition
            assert outcome["text"] in frame["spoken_values"]

    def test_in_words(self):
        """Whoever listens hears each curve at several frequencies, in figures, without the bands that are asked for."""
        topic, _ = opened({"load": "60-80j", "line": "50"})
        frame = next(one for one in script(topic, CATALOGUE)["frames"] if one["key"] == "response")

        assert "Near: standing-wave ratio " in frame["spoken"]
        assert "1.00 at 0 %" in frame["spoken"]
        assert [] == [one["text"] for one in frame["outcomes"] if one["text"] in frame["spoken"]]

    def test_one_solution(self):
        """Where one solution is shown, its curve stands alone."""
        topic, _ = opened({"load": "60-80j", "line": "50"})
        frames = script(replace(topic, showing="far"), CATALOGUE)["frames"]
        response = next(one["response"] for one in frames if one["key"] == "response")

        assert response is not None
        assert ["far"] == [one["branch"]["key"] for one in response["curves"] if one["branch"]]


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
