"""The page of sets: which there are, what is in one, a student's variant by name, and handing it in.

The sheets are in the student's browser, so what is done of a set is known there alone, and so is the hand-in.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, ClassVar
from urllib.parse import urlencode

import param

from app.parts.component import Column, address_texts, static_texts
from app.parts.messages.said import understood
from app.parts.messages.showing import SetProblemWords, SetsPage, SetWords
from app.parts.template import FilledPage, at, page
from app.parts.words import only_words
from lessons.classes.hand_in import visible
from lessons.grammar.catalogue import Catalogue
from lessons.grammar.lesson import Work
from lessons.grammar.numbers import quoted
from lessons.problems.places import Place
from lessons.problems.problem_sets import ProblemSet
from lessons.problems.sets import Shelf
from lessons.problems.variants import LONGEST_NAME, code_of
from lessons.saved.links import problem_texts

LONGEST_SAID = 400
NO_LETTER = "Write a name or a number: letters or digits, by which your teacher knows you."
TOO_LONG = f"A name has at most {LONGEST_NAME} characters."
GUIDE = (
    (
        "Write a set",
        "A text file in TOML, as README shows; halfturn sets check FILE says by line and key what is wrong with it.",
    ),
    (
        "Serve it, and give out its link",
        "halfturn --sets DIR --address 0.0.0.0, then the address of the set's page.",
    ),
    (
        "Teach and print from it",
        "The lecture of the set, on its page; halfturn print FILE --class LIST for worksheets with names, and the key.",
    ),
    (
        "Have it handed in",
        "Students type their name on the set's page, solve, and save one file, which they send you.",
    ),
    (
        "Mark it",
        "halfturn mark DIR, the folder with the files: a report, a table, feedback for each student.",
    ),
)
"""From writing a set to the report, in five steps, each with its command or place; README tells more."""


class SetsView(Column):
    """The set in the browser, which knows what is done of it on this device."""

    page = param.Dict(default={}, doc="What to show: see `sets_words`.")

    module = "sets/sets.js"
    _stylesheets: ClassVar[list[Any]] = static_texts("parts/sheet.css", "sets/sets.css")


class Counter:
    """Where a set is fetched and handed in: wires one visitor's set to the page."""

    def __init__(self, query: Mapping[str, str], catalogue: Catalogue, sets: Shelf) -> None:
        self._catalogue, self._sets = catalogue, sets
        wanted = query.get("set", "").strip()
        self._set = sets.find(wanted)
        known = ", ".join(one.key for one in sets)
        unknown = f"There is no set {quoted(wanted)} here; those that there are: {known}."
        self._notices = [unknown] if wanted and self._set is None else []
        self.view = SetsView(self.do, page=self.words())

    def do(self, said: dict[str, Any]) -> None:
        """Show the variant of a name. A message that no page of ours sends is ignored."""
        if understood("sets", said) and len(said["text"]) <= LONGEST_SAID and self._set is not None:
            self.view.tell({"page": self.words(said["text"])})

    def words(self, name: str = "") -> SetsPage:
        """All that the page shows, for a name."""
        return {
            "sets": [
                {"title": one.title, "address": _page(one), "count": len(one.items)} for one in self._sets
            ],
            "set": set_words(self._set, name, self._catalogue) if self._set else None,
            "notices": self._notices,
            "guide": list(GUIDE),
        }


def set_words(one: ProblemSet, name: str, catalogue: Catalogue) -> SetWords:
    """A set in the variant of a name; as it stands in the file where there is no name."""
    shown = visible(name)
    fault = TOO_LONG if len(shown) > LONGEST_NAME else NO_LETTER if shown and not code_of("", shown) else ""
    code = "" if fault else code_of(one.key, shown)
    return {
        "key": one.key,
        "title": one.title,
        "version": one.version,
        "varies": one.varies,
        "name": "" if fault else shown,
        "code": code,
        "fault": fault,
        "problems": [
            _problem(Place(one, index, code if one.varies else ""), catalogue)
            for index in range(len(one.items))
        ],
        "lecture": at(f"/lecture?{urlencode({'set': one.key})}"),
    }


def _problem(place: Place, catalogue: Catalogue) -> SetProblemWords:
    problem, lesson = place.problem, place.item.lesson
    work = Work(lesson, problem)
    return {
        "key": problem.key,
        "title": problem.title,
        "lesson": lesson.title,
        "given": f"{work.say(lesson.brief)}.{only_words(work)}",
        "address": at(f"/?{urlencode(place.texts())}"),
        "entries": problem_texts(problem, catalogue),
    }


def _page(one: ProblemSet) -> str:
    return at(f"/sets?{urlencode({'set': one.key})}")


def sets_page(catalogue: Catalogue, sets: Shelf) -> FilledPage:
    """The page for one visitor, with the set that its address may name."""
    counter = Counter(address_texts(), catalogue, sets)
    return page("Halfturn", here="/sets", needs=("sets",), sheet=counter.view)
