"""The worksheet column: what the sheet says, as plain data, and the component that shows it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, ClassVar

import param

from app.parts.component import Column, static_texts
from app.parts.forms import forms
from app.parts.messages.working import (
    Draft,
    DrillWords,
    Outcome,
    SettledValue,
    SheetField,
    SheetPage,
    SheetStep,
    WorkedChoice,
)
from app.parts.primers import primer_key, primer_words
from app.parts.response import response_words
from app.parts.words import (
    CAUTION,
    judged,
    lesson_choices,
    outcome_title,
    problem_choices,
    problem_words,
    set_place,
    term_words,
    verdict_words,
)
from app.practise.ending import power_sentences
from app.practise.sitting import Sitting
from lessons.grammar.branch import Branch
from lessons.grammar.lesson import Field, Step
from lessons.saved.links import problem_query, problem_texts, sheet_link
from lessons.working.achieved import closing
from lessons.working.construction import gesture_for
from lessons.working.drill import LOADS, Drill, is_offered
from lessons.working.refused import worked_to_the_end
from lessons.working.response import responses
from lessons.working.sheet import RUNGS, Sheet
from lessons.working.withheld import example_for

DONE = {
    "enter": "the entry of",
    "draw": "the drawing of",
    "carry": "going on with",
    "hint": "the hint",
    "reveal": "showing",
    "start over": "starting over",
}
"""What each thing that a student can do is called where it can be taken back."""


class SheetView(Column):
    """The sheet in the browser. It keeps the record there, and sends what the student does to `on_do`."""

    page = param.Dict(default={}, doc="What to show: see `sheet_page`.")

    module = "practise/sheet.js"
    _stylesheets: ClassVar[list[Any]] = static_texts(
        "parts/sheet.css", "parts/primer.css", "parts/response.css", "practise/practise.css"
    )

    def show(self, page: SheetPage) -> None:
        """Show another page, by the quick way."""
        self.tell({"page": page})

    def draft(self, draft: Draft) -> None:
        """Put a drawn answer into its box, for the student to check."""
        self.tell({"draft": draft})

    def explain(self, sheet: Sheet) -> None:
        """Show the primer of the sheet's lesson, if it has one."""
        self.tell({"primer": primer_words(sheet.lesson, sheet.notation)})

    def save(self, name: str, drawings: list[str], kind: str) -> None:
        """Have the browser save drawings (SVG texts) as files: as they are ("svg"), or in pixels ("png")."""
        self.tell({"save": {"name": name, "drawings": drawings, "kind": kind}})


def sheet_page(sitting: Sitting) -> SheetPage:
    """All that the sheet shows, in the order of reading."""
    sheet = worked_to_the_end(sitting.sheet)
    refusal = sheet.lesson.refuses(sheet.problem)
    reached = sheet.steps[: sheet.shown] if refusal else _reached(sheet)
    return {
        "lesson": sheet.lesson.title,
        "lessonKey": sheet.lesson.key,
        "problem": problem_words(sheet.truth),
        "notices": sitting.notices,
        "refusal": refusal,
        "guided": sitting.guided,
        "drill": _drill(sitting),
        "primer": primer_key(sheet.lesson, sheet.notation),
        "worked": _worked(sitting),
        "undo": _undo(sitting),
        "steps": [_step(sheet, step, sitting) for step in reached],
        "count": len(sheet.steps),
        "outcome": _outcome(sitting) if sheet.finished and not refusal else None,
        "focus": sitting.focus,
        "shown": sheet.shown,
        "lessons": lesson_choices(sitting.catalogue),
        "choices": problem_choices(sheet.lesson, sitting.catalogue, sheet.notation),
        "terms": term_words(sheet.truth),
        "entries": problem_texts(sheet.problem, sitting.catalogue),
        "forms": forms(sheet.lesson, sheet.problem, sheet.notation),
        "links": {
            "problem": problem_query(sheet.problem, sheet.notation, sitting.catalogue),
            "sheet": sheet_link(sheet),
        },
        "caution": CAUTION,
        "record": sitting.record(),
        "set": set_place(sitting.place, "/"),
    }


def _reached(sheet: Sheet) -> tuple[Step, ...]:
    """The steps up to the one that is open."""
    return sheet.steps if sheet.current is None else sheet.steps[: sheet.steps.index(sheet.current) + 1]


def _drill(sitting: Sitting) -> DrillWords | None:
    """The drill on the desk, if it is one."""
    drill = sitting.drill
    if drill is None:
        return None
    return {
        "title": sitting.sheet.steps[-1].title,
        "number": drill.number,
        "loads": LOADS,
        "difficulty": drill.difficulty.after(""),
        "went": list(drill.went_on(sitting.sheet)),
        "back": dict(drill.back),
    }


def _worked(sitting: Sitting) -> WorkedChoice:
    """How much is worked; said is what there would be, on this sheet."""
    sheet = sitting.sheet
    first = sheet.shown if sitting.worked == "first" else sitting.progress.first_steps(len(sheet.steps))
    return {
        "chosen": sitting.worked,
        "options": [
            ("all", "all, a step a press"),
            ("first", "the first step" if first == 1 else f"the first {first} steps"),
            ("none", "nothing"),
        ],
    }


def _undo(sitting: Sitting) -> str:
    """What would be taken back, in a few words; "" where nothing can be."""
    sheet = sitting.sheet
    last = sheet.last_done if sitting.can_undo else None
    if last is None:
        return ""
    if one := sheet.lesson.fields.get(last.at):
        return f"{DONE[last.doing]} {sheet.work.say(one.full_label)}"
    return DONE[last.doing]


def _step(sheet: Sheet, step: Step, sitting: Sitting) -> SheetStep:
    work = sheet.work
    done = sheet.done(step)
    rung = sheet.hints.get(step.key, 0)
    return {
        "key": step.key,
        "title": step.title,
        "done": done,
        "ask": work.say(step.ask),
        "because": work.say(step.because) if done else "",
        "values": list(_settled(sheet, step)) if done else [],
        "said": _said(sheet, step) if done and not sitting.guided else "",
        "fields": [_field(sheet, one) for one in step.fields],
        "hints": list(sheet.hints_shown(step)),
        "worked": [work.say(step.goal), work.say(step.rule), step.numbers(work)]
        if _just_shown(sheet, step, sitting)
        else [],
        "nextHint": ""
        if done or rung == RUNGS
        else ["the goal", "the rule", "the numbers", "the answer"][rung],
        "drill": sitting.drill is None and is_offered(sheet, step),
    }


def _settled(sheet: Sheet, step: Step) -> Iterator[SettledValue]:
    """Settled fields in one line: each solution once, its values as the course writes them, how they were judged."""
    before: Branch | None = None
    for one in step.fields:
        verdict = sheet.verdicts[one.key]
        yield {
            "which": one.branch.word.capitalize() if one.branch and one.branch is not before else "",
            "text": sheet.work.write(one.key),
            "judgement": verdict.judgement,
            "sign": judged(verdict)[0],
            "carried": "" if verdict.accepted else "carried",
        }
        before = one.branch


def _said(sheet: Sheet, step: Step) -> str:
    """What is said of a step when it is done: anything beyond a plain "right", and why the step matters."""
    verdicts = [sheet.verdicts[one.key] for one in step.fields]
    sentences = dict.fromkeys(verdict.sentence for verdict in verdicts if verdict.accepted)
    carried = not all(verdict.accepted for verdict in verdicts)
    if carried or any(one.startswith("Right:") for one in sentences):
        sentences.pop("Right.", None)  # it would seem to be of what is carried on, or be said twice
    return " ".join([*sentences, sheet.work.say(step.because)])


def _just_shown(sheet: Sheet, step: Step, sitting: Sitting) -> bool:
    """Whether this is the step of a worked example that the tutor did last, and so explains."""
    return sitting.guided and 0 < sheet.shown <= len(sheet.steps) and sheet.steps[sheet.shown - 1] is step


def _field(sheet: Sheet, one: Field) -> SheetField:
    kind = one.kind(sheet.work)
    verdict = sheet.verdicts.get(one.key)
    return {
        "key": one.key,
        "label": sheet.work.say(one.full_label),
        "options": list(kind.options),
        "value": str(verdict.value or "") if verdict and kind.names_a_choice else "",
        "example": example_for(sheet, one),
        "unit": kind.unit(sheet.notation),
        "text": sheet.text(one.key),
        "drawable": gesture_for(sheet, one.key) is not None,
        "settled": sheet.settled(one.key),
        "verdict": verdict_words(verdict, sheet.settled(one.key)) if verdict else None,
    }


def _outcome_of_drill(sheet: Sheet, drill: Drill) -> Outcome:
    """How a load of a drill went, and how all of them did."""
    went = drill.went_on(sheet)
    title, sentence = (
        f"Load {len(went)} of {LOADS} done",
        "" if went[-1] else "Not at the first go, this time.",
    )
    if len(went) == LOADS:
        title = "The drill is done"
        sentence = f"Right at the first go, without help: {sum(went)} of {LOADS}."
    return {
        "title": title,
        "solved": False,
        "sentences": [sentence] if sentence else [],
        "backTo": "",
        "power": [],
        "response": None,
    }


def _outcome(sitting: Sitting) -> Outcome:
    """What a finished sheet comes to: solved, or consistent on a value that is not right, and the way back to that."""
    sheet = sitting.sheet
    if sitting.drill:
        return _outcome_of_drill(sheet, sitting.drill)
    wrong = sheet.went_wrong
    sentences = [closing(sheet.work)]
    if sheet.lesson.ends_matched(sheet.problem) and sheet.lesson.besides(sheet.work):
        sentences.append("What follows here of power and band is that of the exact values.")
    if wrong is not None:
        number = sheet.steps.index(wrong) + 1
        sentences.append(
            f"It went wrong at step {number}, {wrong.title.lower()}; what follows from it is consistent."
        )
        sentences.append("Put that step right, and the later ones are judged anew.")
    elif sheet.matched is False:
        sentences.append("Each value is within its tolerance, but together they leave more than a match.")
    sentences.append(_ending(sitting))
    return {
        "title": outcome_title(sheet),
        "solved": sheet.solved,
        "sentences": [one for one in sentences if one],
        "backTo": wrong.key if wrong else "",
        "power": power_sentences(sheet),
        "response": response_words(responses(sheet), sheet.work),
    }


def _ending(sitting: Sitting) -> str:
    progress, sheet = sitting.progress, sitting.sheet
    if not sheet.solved:
        return ""
    if sitting.guided:
        return "That was the worked example. Now one for you: the last steps are yours."
    if progress.review_is_due():
        return "You mastered this some days ago: a short review is due. Take a random problem."
    if progress.mastered:
        return "Mastered: three problems in a row without help. Come back in two days, and again in seven."
    if any(sheet.hints.get(step.key, 0) == RUNGS for step in sheet.steps):
        return "Some steps were assisted. Try a fresh, similar problem."
    return f"Problems in a row without help: {progress.run} of 3."
