"""What the pages for one student are told: the sheet of practice, and the self-check."""

from typing import Any, NotRequired, TypedDict

from app.parts.messages.shared import (
    Choice,
    Forms,
    Mark,
    Option,
    ProblemChoice,
    ProblemWords,
    ResponseWords,
    SetPlace,
    TermWords,
    Texts,
    VerdictWords,
)


class SettledValue(TypedDict):
    """A settled field in one line."""

    which: str
    text: str
    judgement: str
    sign: str
    carried: str


class SheetField(TypedDict):
    """What the sheet asks in one box or one choice."""

    key: str
    label: str
    options: list[Option]
    value: str
    example: str
    unit: str
    text: str
    drawable: bool
    settled: bool
    verdict: VerdictWords | None


class SheetStep(TypedDict):
    """A step on the sheet."""

    key: str
    title: str
    done: bool
    ask: str
    because: str
    values: list[SettledValue]
    said: str
    fields: list[SheetField]
    hints: list[str]
    worked: list[str]
    nextHint: str
    drill: bool


class WorkedChoice(TypedDict):
    """How much of the problem the tutor works, and what may be chosen."""

    chosen: str
    options: list[Option]


class SheetLinks(TypedDict):
    """Queries of the addresses that bring the problem, or the whole sheet."""

    problem: str
    sheet: str


class Outcome(TypedDict):
    """What a finished sheet comes to. `backTo` is the step that went wrong, if one did."""

    title: str
    solved: bool
    sentences: list[str]
    backTo: str
    power: list[str]
    response: ResponseWords | None


class DrillWords(TypedDict):
    """A step that is drilled alone: which of how many loads, how it went so far, and where it was begun from.

    difficulty : what is said of it after all else, "" for the usual one."""

    title: str
    number: int
    loads: int
    difficulty: str
    went: list[bool]
    back: Texts


class SheetPage(TypedDict):
    """All that the sheet shows. `fresh` says that another problem was chosen, `brought` that a link or file came,
    `restored` that this is what a record held, `damaged` that none could be read, `newer` that a later version of the
    program made it.

    `drill` stands where one step is drilled; `step.drill` where that is offered.  `primer` names the lesson's primer in
    this notation, "" without one.  `asked` says that a link chose the lesson."""

    lesson: str
    lessonKey: str
    problem: ProblemWords
    notices: list[str]
    refusal: str
    guided: bool
    drill: DrillWords | None
    primer: str
    worked: WorkedChoice
    undo: str
    steps: list[SheetStep]
    count: int
    outcome: Outcome | None
    focus: str
    shown: int
    lessons: list[Choice]
    choices: list[ProblemChoice]
    terms: list[TermWords]
    entries: Texts
    forms: Forms
    links: SheetLinks
    caution: str
    record: dict[str, Any]
    set: SetPlace | None
    fresh: NotRequired[bool]
    linked: NotRequired[bool]
    asked: NotRequired[bool]
    brought: NotRequired[bool]
    restored: NotRequired[bool]
    damaged: NotRequired[bool]
    newer: NotRequired[bool]


class Draft(TypedDict):
    """An answer drawn on the chart, for its box. `value` is what was handed in, which tells it from others."""

    field: str
    value: Any
    text: str


class Drawings(TypedDict):
    """Drawings to save as files."""

    name: str
    drawings: list[str]
    kind: str


class CheckField(TypedDict):
    """An entry for one value of a working."""

    key: str
    label: str
    options: list[Option]
    example: str
    text: str
    fault: str


class LineWords(TypedDict):
    """A line of the working, and what is said of it."""

    key: str
    field: str
    label: str
    written: str
    verdict: VerdictWords
    notes: list[str]
    solver: str


class CheckStep(TypedDict):
    """A step of the lesson with the lines that belong to it."""

    key: str
    number: int
    title: str
    ask: str
    goal: list[str]
    fields: list[CheckField]
    lines: list[LineWords]


class Design(TypedDict):
    """A finished design and what it achieves."""

    key: str
    title: str
    lengths: str
    verdict: Mark
    mayAsk: bool
    offs: list[str]


class Writing(TypedDict):
    """How lines are written: some examples, the names of each value, and a word on units and solutions."""

    examples: list[str]
    glossary: list[Option]
    note: str


class SymbolsOffer(TypedDict):
    """Symbols that may be taken for the page, in words, and the notation that has them."""

    words: str
    texts: Texts


class MarkedWorking(TypedDict):
    """All that is said of a working."""

    lesson: str
    lessonKey: str
    problem: ProblemWords
    refusal: str
    text: str
    summary: str
    remarks: list[str]
    offer: SymbolsOffer | None
    unread: list[str]
    steps: list[CheckStep]
    designs: list[Design]
    writing: Writing
    lessons: list[Choice]
    choices: list[ProblemChoice]
    entries: Texts
    forms: Forms
    caution: str


class CheckPage(MarkedWorking):
    """All that the self-check shows. `fresh` says that another problem was chosen, `restored` that this is what a
    record held, `damaged` that none could be read, `newer` that a later version of the program made it."""

    notices: list[str]
    chosen: bool
    record: dict[str, Any]
    fresh: NotRequired[bool]
    linked: NotRequired[bool]
    restored: NotRequired[bool]
    damaged: NotRequired[bool]
    newer: NotRequired[bool]
