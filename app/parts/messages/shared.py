"""What several pages are told."""

from typing import NotRequired, TypedDict

Texts = dict[str, str]
Option = tuple[str, str]  # its value, and its words


class Branch(TypedDict):
    """One of a lesson's solutions: how it is called, and the part that it plays in drawings."""

    key: str
    word: str
    role: str


class Entry(TypedDict):
    """An entry of a form: a box for a text, or a choice where it has options, or a whole number between two.

    meanings : of the options, each in a sentence that is said when it is chosen."""

    key: str
    label: str
    example: str
    text: str
    options: list[Option]
    least: NotRequired[int]
    most: NotRequired[int]
    meanings: NotRequired[Texts]


class Forms(TypedDict):
    """The entries of the two forms that most pages have, and of how hard random problems are."""

    own: list[Entry]
    notation: list[Entry]
    difficulty: Entry


class Faults(TypedDict):
    """What is wrong with the entries of a form, by their keys."""

    form: str
    faults: Texts


class ProblemWords(TypedDict):
    """A problem in words."""

    key: str
    title: str
    story: str
    given: str


class Choice(TypedDict):
    """A problem that can be chosen."""

    key: str
    title: str


class ProblemChoice(Choice):
    """A problem that can be chosen, with what it gives; `entries` are those by which its sheet is kept."""

    given: str
    entries: Texts


class TermWords(TypedDict):
    """A term of the trade: the words that stand for it, and what it means."""

    words: list[str]
    meaning: str


class Mark(TypedDict):
    """A judgement: its kind, its sign and word, and a sentence."""

    judgement: str
    sign: str
    word: str
    sentence: str


class VerdictWords(Mark):
    """A judgement of an entry, and what may be done about it."""

    canCarry: bool
    carried: bool
    backTo: str


class SetPlace(TypedDict):
    """Where in a set a problem stands, and the addresses of the set's page and of the next problem, "" for none."""

    title: str
    number: int
    count: int
    address: str
    next: str


class Limit(TypedDict):
    """A limit of the standing-wave ratio, and which design has the wider band within it, in a sentence."""

    limit: float
    why: str


class Curve(TypedDict):
    """One design over frequency: its standing-wave ratios, its band within each limit, and how much line it takes."""

    branch: Branch | None
    swr: list[float]
    bands: list[str]
    line: str


class ResponseWords(TypedDict):
    """The designs over frequency. `table` has a row for some frequencies, with the ratio of each design."""

    lowest: float
    highest: float
    megahertz: float | None
    limits: list[Limit]
    limit: float
    curves: list[Curve]
    table: list[list[str]]
    note: str
