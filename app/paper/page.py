"""The paper view: worksheets and keys as they will be printed, saved as vector or as pixels, or sent as a link.

Pages are made one sheet after another, so that a class of sixty keeps nobody waiting. They reach the browser as data
and are shown as pictures; no markup of theirs becomes part of the page.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from html import unescape
from typing import Any, ClassVar

import panel as pn
import param

from app.paper.setting import KEYS, LARGEST_SEED, MOST_SHEETS, Setting, link, read_setting, write_setting
from app.parts.component import Column, address_texts, static_texts
from app.parts.template import page
from app.parts.worksheet import DRAWINGS, SIZES, answer_key, worksheet
from lessons.grammar.notation import STANDARD
from lessons.problems.seeds import shipped_problems
from lessons.saved.records import NOTATION_KEYS

Wire = dict[str, Any]
MOST_TEXTS, LONGEST_TEXT = 40, 200
PRINTED = re.compile(r'<g class="printed">.*?(?=<g class="lines">)', re.DOTALL)


class PaperView(Column):
    """The form, the preview, and what saves and prints it."""

    form = param.Dict(default={}, doc="What the form offers, and the texts that it begins with.")

    _esm = "\n".join(static_texts("common.js", "save.js", "paper.js"))
    _stylesheets: ClassVar[list[Any]] = static_texts("sheet.css", "paper.css")


class Press:
    """Makes what is asked for, sheet by sheet; a new wish ends the work on the one before.

    tell : takes each message for the browser.  later : calls a function when other visitors have had their turn."""

    def __init__(self, tell: Callable[[Wire], None], later: Callable[[Callable[[], None]], object]) -> None:
        self._tell, self._later = tell, later
        self._run = 0

    def do(self, said: Wire) -> None:
        """Carry out what the page asks. A message that no page of ours sends is ignored."""
        if said.get("do") == "make" and _are_texts(said.get("texts")):
            self.make(said["texts"])

    def make(self, texts: Mapping[str, str]) -> None:
        """Print what these texts ask for; or say what is wrong with them, and leave the last pages in sight."""
        setting, faults = read_setting(texts)
        if faults:
            self._tell({"faults": faults})
            return
        self._run += 1
        self._tell({"start": _start(setting, self._run)})
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
        self._tell({"sheet": {"run": run, "index": index, **_sheet(setting, seed, shared)}})
        self._later(lambda: self._go_on(run, setting, seeds, shared))


def form(setting: Setting, faults: Mapping[str, str]) -> Wire:
    """What the form offers, and how it is filled in at first."""
    return {
        "texts": write_setting(setting),
        "usual": {key: str(getattr(STANDARD, name)) for key, (name, _) in NOTATION_KEYS.items()},
        "faults": dict(faults),
        "choices": [[problem.key, problem.title] for problem in shipped_problems()],
        "sizes": list(SIZES),
        "drawings": list(DRAWINGS),
        "keys": list(KEYS),
        "most": {"seed": LARGEST_SEED, "count": MOST_SHEETS},
    }


def paper() -> pn.Template:
    """The page for one visitor, with the setting that its address may hold."""
    query = address_texts()
    setting, faults = read_setting(query)
    document = pn.state.curdoc
    view = PaperView(on_do=lambda said: press.do(said), form=form(setting, faults))
    press = Press(view.tell, document.add_next_tick_callback)
    return page("Halfturn", here="/paper", needs=("paper",), sheet=view)


def _start(setting: Setting, run: int) -> Wire:
    """What the browser must know before the first sheet."""
    return {
        "run": run,
        "sheets": len(setting.seeds),
        "size": setting.size,
        "millimetres": list(SIZES[setting.size]),
        "link": link(setting),
    }


def _sheet(setting: Setting, seed: int | None, shared: dict[str, int]) -> Wire:
    """The pages of one sheet and of its key. What most pages have in common travels once, as one of the `parts`."""
    problem, number = setting.problem_of(seed), "" if seed is None else f"-{seed}"
    made = {
        "worksheet": lambda: worksheet(
            problem, setting.notation, size=setting.size, drawn=setting.drawn, seed=seed
        ),
        "key": lambda: answer_key(problem, setting.notation, size=setting.size, seed=seed),
    }
    wanted = {"with": ("worksheet", "key"), "without": ("worksheet",), "only": ("key",)}[setting.key]
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


def _are_texts(value: Any) -> bool:
    return (
        isinstance(value, dict)
        and len(value) <= MOST_TEXTS
        and all(
            isinstance(part, str) and len(part) <= LONGEST_TEXT for item in value.items() for part in item
        )
    )
