"""The walkthrough of a lesson: one construction after another, for whoever shows it to a room.

A frame is made from a step of the lesson and the solver's values for the problem. What the audience is to find out
(`numbers`, `because`, `outcomes`, and the values of the strokes) stands apart from what they may see at once.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace

from lessons.grammar.branch import Branch
from lessons.grammar.kinds import CLOSE
from lessons.grammar.lesson import Field, Lesson, Slip, Step, Work
from lessons.grammar.notation import STANDARD, Notation
from lessons.grammar.problem import Problem
from lessons.grammar.strokes import Curve, HalfTurn, Point, Ray, Stroke, Way
from lessons.working.achieved import closing
from lessons.working.marking import predicted_all
from lessons.working.refused import steps_before_the_end

SIDE_BY_SIDE, IN_TURN = "side by side", "in turn"
STROKE_NAMES: dict[type, str] = {
    Point: "point",
    Curve: "circle",
    Way: "walk",
    HalfTurn: "half turn",
    Ray: "line to the scale",
}


def showings(lesson: Lesson) -> tuple[tuple[str, str], ...]:
    """How a lesson's branches can be shown, each with its words: all in one frame, one after another, or one alone."""
    if len(lesson.branches) < 2:
        return ((SIDE_BY_SIDE, "All of it"),)
    words = [branch.word for branch in lesson.branches]
    together = f"{', '.join(words[:-1])} and {words[-1]}".capitalize()
    return (
        (SIDE_BY_SIDE, together),
        (IN_TURN, ", then ".join(words).capitalize()),
        *((branch.key, f"{branch.word.capitalize()} only") for branch in lesson.branches),
    )


@dataclass(frozen=True)
class Outcome:
    """A value that a frame leads to: what it is, of which solution, if of one, and how the course writes it."""

    label: str
    branch: Branch | None
    text: str


@dataclass(frozen=True)
class UsualSlip:
    """A mistake to warn of: "You are `doing`", what helps, and the values that somebody making it comes up with."""

    doing: str
    remedy: str
    gives: tuple[str, ...]


@dataclass(frozen=True)
class Frame:
    """One construction: what is asked and how it is done, what comes out, and what is drawn.

    key : of the step, with the branch where a frame shows but one.  step : that of the step alone.
    number : of the step, from 1; 0 for the opening.  fields : keys of what it asks.
    spoken, spoken_values : the frame in words, without and with what is to be found out."""

    key: str
    step: str
    number: int
    title: str
    branch: Branch | None = None
    ask: str = ""
    rule: str = ""
    numbers: str = ""
    because: str = ""
    outcomes: tuple[Outcome, ...] = ()
    strokes: tuple[Stroke, ...] = ()
    slips: tuple[UsualSlip, ...] = ()
    spoken: str = ""
    spoken_values: str = ""
    fields: tuple[str, ...] = ()

    @property
    def asks(self) -> bool:
        """Whether it is a step of the lesson: neither its opening nor its end."""
        return self.step not in ("opening", "closing")


def walkthrough(
    lesson: Lesson, problem: Problem, notation: Notation = STANDARD, showing: str = SIDE_BY_SIDE
) -> tuple[Frame, ...]:
    """The frames of a lesson for a problem, the opening first and what the design achieves last.

    Where the lesson refuses the problem, the frames up to where it ends, and then why.
    A stroke that an earlier frame has drawn is not drawn again."""
    work, refusal = Work(lesson, problem, notation), lesson.refuses(problem)
    steps = steps_before_the_end(lesson, problem) if refusal else lesson.steps_of(problem)
    frames = [
        _opening(work),
        *(
            _frame(work, step, number, branch, fields)
            for number, step in enumerate(steps, 1)
            for branch, fields in _parts(lesson, step, showing)
        ),
        _refused(refusal, len(steps)) if refusal else _closing(work),
    ]
    return tuple(_drawn_once(frames))


def without_value(stroke: Stroke, lesson: Lesson) -> str:
    """A stroke in words that keep its value back."""
    words = f"{STROKE_NAMES.get(type(stroke), 'region')} {stroke.label.replace('_', ' ')}".strip()
    branch = next((one for one in lesson.branches if one.role == stroke.role), None)
    return f"{words}, {branch.word}" if branch and branch.word not in words else words


def _opening(work: Work) -> Frame:
    problem, lesson = work.problem, work.lesson
    spoken = " ".join(part for part in (lesson.title + ".", problem.story, lesson.purpose) if part)
    return Frame("opening", "opening", 0, lesson.title, ask=problem.story, rule=lesson.purpose, spoken=spoken)


def _closing(work: Work) -> Frame:
    matches = work.lesson.ends_matched(work.problem)
    title, achieved = ("What it achieves" if matches else "What was found"), closing(work)
    question = "What does the line see now?" if matches else ""
    number = len(work.lesson.steps_of(work.problem)) + 1
    return Frame(
        "closing",
        "closing",
        number,
        title,
        ask=question,
        numbers=achieved,
        spoken=f"{title}. {question}".strip(),
        spoken_values=achieved,
    )


def _refused(refusal: str, steps: int) -> Frame:
    title = "Here it ends"
    return Frame(
        "closing",
        "closing",
        steps + 1,
        title,
        ask="Why does it not go on?",
        numbers=refusal,
        spoken=f"{title}.",
        spoken_values=refusal,
    )


def _parts(lesson: Lesson, step: Step, showing: str) -> Iterator[tuple[Branch | None, tuple[Field, ...]]]:
    """The fields of a step, frame by frame, each with the branch that its frame is about."""
    in_branches = [(one, tuple(f for f in step.fields if f.branch == one)) for one in lesson.branches]
    if showing == SIDE_BY_SIDE or not any(fields for _, fields in in_branches):
        yield None, step.fields
        return
    for branch, fields in in_branches:
        if fields and showing in (branch.key, IN_TURN):
            yield branch, fields


def _frame(work: Work, step: Step, number: int, branch: Branch | None, fields: tuple[Field, ...]) -> Frame:
    outcomes = tuple(_outcome(work, field) for field in fields)
    ask, rule, because = (work.say(text) for text in (step.ask, step.rule, step.because))
    about = f" ({branch.word})" if branch else ""
    values = " ".join(f"{_branch_word(o.branch)}{o.label}: {o.text}." for o in outcomes)
    return Frame(
        key=f"{step.key}.{branch.key}" if branch else step.key,
        step=step.key,
        number=number,
        title=step.title,
        branch=branch,
        ask=ask,
        rule=rule,
        numbers=step.numbers(work),
        because=because,
        outcomes=outcomes,
        strokes=tuple(dict.fromkeys(stroke for field in fields for stroke in field.strokes(work))),
        slips=_usual_slips(work, fields),
        spoken=f"Step {number}: {step.title}{about}. {ask} {rule}",
        spoken_values=f"{step.numbers(work)} {values} {because}",
        fields=tuple(field.key for field in fields),
    )


def _outcome(work: Work, field: Field) -> Outcome:
    return Outcome(work.say(field.label), field.branch, work.write(field.key))


def _branch_word(branch: Branch | None) -> str:
    return f"{branch.word.capitalize()} " if branch else ""


def _usual_slips(work: Work, fields: Collection[Field]) -> tuple[UsualSlip, ...]:
    """The slips that can be made here, those of near and far in one, each with the values that betray it."""
    found: dict[tuple[str, str], tuple[str, ...]] = {}
    for field in fields:
        for slip in field.slips:
            value = _betrayed_by(work, field, slip)
            if value is not None:
                told = (work.say(slip.doing), work.say(slip.remedy))
                word = field.branch.word if field.branch else ""
                beside = f"{word} {value}".strip() if len(fields) > 1 else value
                found[told] = (*found.get(told, ()), beside)
    return tuple(UsualSlip(doing, remedy, gives) for (doing, remedy), gives in found.items())


def _betrayed_by(work: Work, field: Field, slip: Slip) -> str | None:
    """What somebody making the slip writes; None where it cannot be made, or not be told from the right value."""
    kind = field.kind(work)
    for value in predicted_all(slip, work):
        if kind.off_by(value, work[field.key], work.problem.accuracy) > CLOSE:
            return kind.write(value, work.notation)
    return None


def _drawn_once(frames: list[Frame]) -> Iterator[Frame]:
    drawn: set[Stroke] = set()
    for frame in frames:
        yield replace(frame, strokes=tuple(stroke for stroke in frame.strokes if stroke not in drawn))
        drawn.update(frame.strokes)
