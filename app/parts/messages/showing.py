"""What the pages for a class are told: the lecture, and the paper."""

from typing import Any, NotRequired, TypedDict

from app.parts.messages.shared import (
    Branch,
    Choice,
    Entry,
    Forms,
    Option,
    ProblemChoice,
    ResponseWords,
    SetPlace,
    Texts,
)


class Outcome(TypedDict):
    """A value that a frame leads to."""

    label: str
    branch: Branch | None
    text: str


class UsualSlip(TypedDict):
    """A mistake to warn of."""

    doing: str
    remedy: str
    gives: list[str]


class FrameWords(TypedDict):
    """One construction, with its strokes as the stage draws them; each also has words that keep its value back.

    picture : the line drawing in place of a construction, else empty.  response : the designs over frequency in place
    of one.  waves : which of the script's pictures of voltage and current may be seen before the values are revealed,
    and which after; -1 for none."""

    key: str
    step: str
    number: int
    title: str
    branch: Branch | None
    ask: str
    rule: str
    numbers: str
    because: str
    outcomes: list[Outcome]
    strokes: list[dict[str, Any]]
    slips: list[UsualSlip]
    spoken: str
    spoken_values: str
    picture: dict[str, Any]
    response: ResponseWords | None
    waves: tuple[int, int]


class LectureSet(SetPlace):
    """The set that a lecture goes through: the titles of its problems, and notes for who teaches."""

    titles: list[str]
    notes: list[str]


class Script(TypedDict):
    """All frames of a lecture, and what the forms and links say of its problem."""

    lesson: str
    given: str
    brief: str
    refusal: str
    frames: list[FrameWords]
    waves: list[dict[str, Any]]
    showing: str
    showings: list[Option]
    movable: bool
    lessonKey: str
    entries: Texts
    notation: Texts
    forms: Forms
    query: str
    lessons: list[Choice]
    choices: list[ProblemChoice]
    ways: list[Option]
    caution: str
    set: LectureSet | None
    notices: NotRequired[list[str]]
    linked: NotRequired[bool]
    at: NotRequired[str]
    passing: NotRequired[bool]


class Kind(TypedDict):
    """One of the ways to say what is printed, with its entries."""

    key: str
    words: str
    entries: list[Entry]


class PaperForm(TypedDict):
    """What the paper view's form offers: the kinds of problem, the paper and the notation."""

    lessons: Entry
    kind: str
    kinds: list[Kind]
    paper: list[Entry]
    notation: list[Entry]
    faults: Texts


class PaperStart(TypedDict):
    """What is known before the first sheet comes. faults : why there is nothing to solve, by given."""

    run: int
    sheets: int
    size: str
    millimetres: list[float]
    link: str
    faults: Texts


class PaperPage(TypedDict):
    """A page to print: its own texts, and indices of texts that several pages share."""

    kind: str
    name: str
    title: str
    description: str
    parts: list[str | int]


class PaperSheet(TypedDict):
    """The pages of one sheet, and the shared texts that come with them."""

    run: int
    index: int
    pages: list[PaperPage]
    parts: list[str]


class SetChoice(TypedDict):
    """A set that can be chosen, and how many problems it has."""

    title: str
    address: str
    count: int


class SetProblemWords(TypedDict):
    """A problem of a set, in a student's variant where there is one. `entries` are those by which its sheet is kept."""

    key: str
    title: str
    lesson: str
    given: str
    address: str
    entries: Texts


class SetWords(TypedDict):
    """A set. `varies` says whether numbers follow from the name; `name` and `code` are empty where none was given."""

    key: str
    title: str
    version: int
    varies: bool
    name: str
    code: str
    fault: str
    problems: list[SetProblemWords]
    lecture: str


class SetsPage(TypedDict):
    """All that the page of sets shows. `guide` is for an instructor: what is done, and by which command or where."""

    sets: list[SetChoice]
    set: SetWords | None
    notices: list[str]
    guide: list[Option]
