"""The paper view: worksheets and keys as they will be printed, saved as vector or as pixels, or sent as a link.

Pages are made one sheet after another, so that a whole year keeps nobody waiting. They reach the browser as data
and are shown as pictures; no markup of theirs becomes part of the page.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from functools import partial
from html import unescape
from typing import Any, ClassVar

import panel as pn
import param

from app.paper.setting import (
    EVERY,
    LARGEST_SEED,
    MOST_SHEETS,
    Setting,
    alikes,
    link,
    rare,
    read_setting,
    refused,
    write_setting,
)
from app.parts.component import Column, address_texts, static_texts
from app.parts.forms import difficulty_entry, entry, notation_entries, problem_entries
from app.parts.messages.said import understood
from app.parts.messages.shared import Entry, Option
from app.parts.messages.showing import PaperForm, PaperStart
from app.parts.template import FilledPage, page
from app.parts.worksheet import SIZES, answer_key, worksheet
from lessons.grammar.catalogue import Catalogue
from lessons.grammar.problem import Given
from lessons.problems.seeds import TooRare
from lessons.problems.sets import problems_of
from lessons.problems.texts import read_problem, required, write_problem
from lessons.saved.notations import write_notation

Wire = dict[str, Any]
MOST_TEXTS, LONGEST_TEXT = 40, 200
PAPER: tuple[tuple[str, str, tuple[Option, ...]], ...] = (
    ("size", "Paper", tuple((size, size) for size in SIZES)),
    ("drawn", "Chart", (("blank", "blank"), ("half", "first half worked and drawn"))),
    ("key", "Key", (("with", "with the sheets"), ("without", "none"), ("only", "the key only"))),
)
ROUNDS = 16  # of the server's loop, between two sheets: whatever others have sent is read and answered
PRINTED = re.compile(r'<g class="printed">.*?(?=<g class="lines")', re.DOTALL)


class PaperView(Column):
    """The form, the preview, and what saves and prints it."""

    form = param.Dict(default={}, doc="What the form offers, and the texts that it begins with.")

    module = "paper/paper.js"
    _stylesheets: ClassVar[list[Any]] = static_texts("parts/sheet.css", "paper/paper.css")


class Press:
    """Makes what is asked for, sheet by sheet; a new wish ends the work on the one before.

    tell : takes each message for the browser.  later : calls a function when other visitors have had their turn."""

    def __init__(
        self,
        tell: Callable[[Wire], None],
        later: Callable[[Callable[[], None]], object],
        catalogue: Catalogue,
    ) -> None:
        self._tell, self._later, self._catalogue = tell, later, catalogue
        self._run = 0

    def do(self, said: Wire) -> None:
        """Carry out what the page asks. A message that no page of ours sends is ignored."""
        if understood("paper", said) and _is_short(said["texts"]):
            self.make(said["texts"])

    def make(self, texts: Mapping[str, str]) -> None:
        """Print what these texts ask for; or say what is wrong with them, and leave the last pages in sight."""
        setting, faults = read_setting(texts, self._catalogue)
        if faults:
            self._tell({"faults": faults})
            return
        self._run += 1
        self._tell({"start": _start(setting, self._run, self._catalogue)})
        self._go_on(self._run, setting, iter(enumerate(setting.seeds)), {})

    def _go_on(
        self, run: int, setting: Setting, seeds: Iterator[tuple[int, int | None]], shared: dict[str, int]
    ) -> None:
        if run != self._run:
            return
        following = next(seeds, None)
        if following is None:
            self._tell({"end": run})
            return
        index, seed = following
        try:
            sheet = _sheet(setting, seed, shared)
        except TooRare:
            self._tell({"faults": rare(setting)})
            return
        self._tell({"sheet": {"run": run, "index": index, **sheet}})
        self._later(lambda: self._go_on(run, setting, seeds, shared))


def form(
    setting: Setting, faults: Mapping[str, str], catalogue: Catalogue, asked: Mapping[str, str] | None = None
) -> PaperForm:
    """What the form offers, and how it is filled in at first.

    asked : the texts of a link; those of a problem that cannot be set stand in the form, to be put right."""
    texts = write_setting(setting, catalogue)
    if asked and setting.seed is None and any(key in asked for key in required(setting.lesson)[:1]):
        reading = read_problem(asked, setting.lesson)
        texts |= write_problem(reading.problem, setting.lesson) | {
            one.key: asked[one.key] for one in setting.lesson.givens if one.key in asked
        }
    choices = [(problem.key, problem.title) for problem in problems_of(setting.lesson, catalogue)]
    first = "" if setting.seed is None else str(setting.seed)
    return {
        "lessons": {
            **entry("lesson", "Lesson", "", tuple((one.key, one.title) for one in catalogue)),
            "text": setting.lesson.key,
        },
        "kind": "seed" if "seed" in texts else "own" if required(setting.lesson)[0] in texts else "problem",
        "kinds": [
            {
                "key": "problem",
                "words": "A problem of the set",
                "entries": [entry("problem", "Problem", "", tuple(choices), text=texts.get("problem", ""))],
            },
            {"key": "own", "words": "My own problem", "entries": problem_entries(setting.lesson, texts)},
            {
                "key": "seed",
                "words": "Random problems",
                "entries": [
                    {**entry("seed", "First sheet's number", text=first), "least": 0, "most": LARGEST_SEED},
                    {
                        **entry("count", f"Sheets, at most {MOST_SHEETS}", text=str(setting.count)),
                        "least": 1,
                        "most": MOST_SHEETS,
                    },
                    difficulty_entry(setting.difficulty),
                    *(_alike(one, texts) for one in alikes(setting.lesson)),
                ],
            },
        ],
        "paper": [entry(key, label, "", options, text=texts.get(key, "")) for key, label, options in PAPER],
        "notation": notation_entries(setting.lesson, write_notation(setting.notation)),
        "faults": dict(faults),
    }


def _alike(given: Given, texts: Mapping[str, str]) -> Entry:
    """The entry for what a given is on every sheet of random problems."""
    key, options = f"{EVERY}{given.key}", tuple(given.kind.options)
    choice = (("", "at random"), *options) if options else ()
    example = "" if options else "at random"
    return entry(key, f"{given.label}, on every sheet", example, choice, text=texts.get(key, ""))


def paper(catalogue: Catalogue) -> FilledPage:
    """The page for one visitor, with the setting that its address may hold."""
    query = address_texts()
    setting, faults = read_setting(query, catalogue)
    document = pn.state.curdoc
    view = PaperView(on_do=lambda said: press.do(said), form=form(setting, faults, catalogue, query))

    def later(call: Callable[[], None], rounds: int = ROUNDS) -> None:
        document.add_next_tick_callback(partial(later, call, rounds - 1) if rounds else call)

    press = Press(view.tell, later, catalogue)
    return page("Halfturn", here="/paper", needs=("paper",), sheet=view)


def _start(setting: Setting, run: int, catalogue: Catalogue) -> PaperStart:
    """What the browser must know before the first sheet."""
    return {
        "run": run,
        "sheets": len(setting.seeds),
        "size": setting.size,
        "millimetres": list(SIZES[setting.size]),
        "link": link(setting, catalogue),
        "faults": refused(setting),
    }


def _sheet(setting: Setting, seed: int | None, shared: dict[str, int]) -> Wire:
    """The pages of one sheet and of its key. What most pages have in common travels once, as one of the `parts`."""
    problem = setting.problem_of(seed)
    number = "" if seed is None else "-".join(("", str(seed), *setting.difficulty.texts.values()))
    made = {
        "worksheet": lambda: worksheet(
            setting.lesson, problem, setting.notation, size=setting.size, drawn=setting.drawn, seed=seed
        ),
        "key": lambda: answer_key(setting.lesson, problem, setting.notation, size=setting.size, seed=seed),
    }
    wanted = {"with": ("worksheet", "key"), "without": ("worksheet",), "only": ("key",)}[setting.key]
    wanted = wanted[:1] if refused(setting) else wanted  # there its key is the same
    known = len(shared)
    pages = [
        {"kind": kind, "name": f"{kind}{number}-page-{count}", **_packed(svg, shared)}
        for kind in wanted
        for count, svg in enumerate(made[kind](), 1)
    ]
    return {"pages": pages, "parts": [text for text, index in shared.items() if index >= known]}


def _packed(svg: str, shared: dict[str, int]) -> Wire:
    """A page as its own texts and the index of the printed chart between them; and what is read aloud of it."""
    said = re.search(r"<title>(.*?)</title><desc>(.*?)</desc>", svg, re.DOTALL)
    title, description = (unescape(part) for part in said.groups()) if said else ("", "")
    chart = PRINTED.search(svg)
    parts: list[str | int] = [svg]
    if chart:
        index = shared.setdefault(chart[0], len(shared))
        parts = [svg[: chart.start()], index, svg[chart.end() :]]
    return {"title": title, "description": description, "parts": parts}


def _is_short(texts: Mapping[str, str]) -> bool:
    return len(texts) <= MOST_TEXTS and all(
        len(part) <= LONGEST_TEXT for item in texts.items() for part in item
    )
