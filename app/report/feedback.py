"""A sheet of feedback for one student: each step with what was entered, what the tutor says of it, and the rule."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from app.parts.words import judged, outcome_title, problem_words
from app.report.document import document, said, tag
from app.report.report import points_of
from lessons.classes.marks import ClassMarks, MarkedSheet, Student
from lessons.classes.replay import StepMarks
from lessons.grammar.lesson import Field
from lessons.working.attempts import Entry
from lessons.working.sheet import Sheet

COLOURS = {"right": "right", "close": "close"}


def feedback(marks: ClassMarks, student: Student) -> str:
    """The page for one student, which names nobody else."""
    total = ""
    if marks.set.points:
        most = sum(
            marks.set.points.full(step.step.key) for sheet in student.sheets for step in sheet.replay.steps
        )
        total = said("p", f"{points_of(marks, student):g} of {most:g} points for what was handed in.")
    missing = [
        item.problem.title
        for item in marks.set.items
        if item.problem.key not in {sheet.item.problem.key for sheet in student.sheets}
    ]
    parts = [
        said("h1", f"{marks.set.title}: {student.name}"),
        total,
        said("p", f"Not handed in: {'; '.join(missing)}.") if missing else "",
        *(part for sheet in student.sheets for part in _sheet(marks, sheet)),
    ]
    return document(f"{marks.set.title}: {student.name}", *filter(None, parts))


def _sheet(marks: ClassMarks, sheet: MarkedSheet) -> Iterator[str]:
    standing = sheet.replay.sheet
    words = problem_words(standing.truth)
    yield said("h2", sheet.item.problem.title)
    yield said("p", words["given"], class_="quiet")
    done = sum(step.done for step in sheet.replay.steps)
    count = f"{done} of {len(sheet.replay.steps)} steps done"
    yield said("p", f"{outcome_title(standing)}." if standing.finished else f"Not finished: {count}.")
    for number, step in enumerate(sheet.replay.steps, 1):
        yield tag("article", *_step(marks, standing, step, number))


def _step(marks: ClassMarks, sheet: Sheet, step: StepMarks, number: int) -> Iterator[str]:
    points = marks.set.points
    worth = f" ({step.points(points):g} of {points.full(step.step.key):g})" if points else ""
    yield said("h3", f"{number}. {step.step.title}{worth}")
    for one in step.step.fields:
        yield from _field(sheet, one)
    for sentence in dict.fromkeys(made.sentence for made in step.slips):
        yield said("p", "On the way the tutor said:", class_="quiet") + said("blockquote", sentence)
    helped = [f"{step.hints} of 4 hints"] if step.hints else []
    helped += ["an answer shown"] if step.shown else []
    if helped:
        yield said("p", f"With {' and '.join(helped)}.", class_="quiet")
    if not step.first_time:
        yield said("p", sheet.truth.say(step.step.rule))


def _field(sheet: Sheet, one: Field) -> Iterator[str]:
    label = sheet.truth.say(one.full_label)
    entry, verdict = sheet.entries.get(one.key), sheet.verdicts.get(one.key)
    if verdict is None:
        yield said("p", f"{label}: nothing entered.")
        return
    if (entry or Entry(revealed=True)).revealed:
        yield said("p", f"{label}: shown by the tutor.")
        return
    kind = one.kind(sheet.work)
    text = (
        kind.write(verdict.value, sheet.notation)
        if kind.names_a_choice and verdict.value
        else sheet.text(one.key)
    )
    sign, word = judged(verdict)
    colour = COLOURS.get(verdict.judgement, "slip")
    mark = said("strong", f"{sign} {word}", class_=colour)
    sentence = "" if verdict.judgement == "right" and not verdict.follows else f" {verdict.sentence}"
    yield tag("p", escape(f"{label}: {text.strip()} "), mark, escape(sentence))
