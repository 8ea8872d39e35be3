"""What the self-check shows, as plain data in the order of reading."""

from __future__ import annotations

import re

from app.parts.forms import forms
from app.parts.messages import working as wire
from app.parts.words import (
    CAUTION,
    lesson_choices,
    problem_choices,
    problem_words,
    verdict_words,
    writing_words,
)
from lessons.grammar.catalogue import Catalogue
from lessons.grammar.kinds import Choice, Millimetres
from lessons.grammar.lesson import Field, Step
from lessons.homework.working import Design, MarkedLine, Working
from lessons.saved.links import problem_texts
from lessons.saved.notations import notation_texts
from lessons.working.achieved import Achieved, Best, achieved
from lessons.working.withheld import example_for

MATCHED = {"right": ("✓", "Matched"), "close": ("≈", "Nearly matched"), "wrong": ("✗", "Not matched")}


def check_page(working: Working, catalogue: Catalogue) -> wire.MarkedWorking:
    """All that the self-check shows of a working."""
    refusal = working.lesson.refuses(working.problem)
    return {
        "lesson": working.lesson.title,
        "lessonKey": working.lesson.key,
        "problem": problem_words(working.sheet.truth),
        "refusal": refusal,
        "text": working.text,
        "summary": _summary(working),
        "remarks": list(working.remarks),
        "offer": _offer(working),
        "unread": [one.sentence for one in working.unread],
        "steps": []
        if refusal
        else [_step(working, index, step) for index, step in enumerate(working.steps, 1)],
        "designs": [_design(working, design) for design in working.designs.values()],
        "writing": writing_words(working.names),
        "lessons": lesson_choices(catalogue),
        "choices": problem_choices(working.lesson, catalogue),
        "entries": problem_texts(working.problem, catalogue),
        "forms": forms(working.lesson, working.problem, working.notation),
        "caution": CAUTION,
    }


def _offer(working: Working) -> wire.SymbolsOffer | None:
    """The symbols that the student's lines use, to be taken for the page: a press that changes the notation."""
    offered, symbols = working.offered, working.lesson.symbols
    if offered is None:
        return None
    used = [one for one in symbols if offered.symbol(one.key) != working.notation.symbol(one.key)]
    words = " and ".join(f"{offered.symbol(one.key)} for the {one.label}" for one in used)
    return {"words": f"Use {words}", "texts": notation_texts(offered, symbols)}


def _summary(working: Working) -> str:
    """How many lines are right, and what of the others."""
    read = [line.verdict for line in working.lines if line.unread is None]
    if not read and not working.unread:
        return ""
    right = sum(verdict.judgement == "right" for verdict in read)
    close = sum(verdict.judgement == "close" for verdict in read)
    parts = [f"{right} of {_lines(len(read))} right"]
    parts += [f"{close} close"] if close else []
    parts += [f"{len(read) - right - close} to look at again"] if len(read) > right + close else []
    parts += [f"{_lines(len(working.unread))} not read"] if working.unread else []
    return ", ".join(parts) + "."


def _lines(count: int) -> str:
    return f"{count} line" if count == 1 else f"{count} lines"


def _step(working: Working, index: int, step: Step) -> wire.CheckStep:
    say = working.sheet.truth.say
    return {
        "key": step.key,
        "number": index,
        "title": step.title,
        "ask": say(step.ask),
        "goal": [say(step.goal), say(step.rule)],
        "fields": [_field(working, one) for one in step.fields],
        "lines": [
            _line(working, line) for line in working.lines if line.step is step and line.unread is None
        ],
    }


def _field(working: Working, one: Field) -> wire.CheckField:
    """An entry for one value, with what stands there now."""
    kind = one.kind(working.sheet.truth)
    text = working.value_of(one.key)
    if isinstance(kind, Choice):
        text = kind.meant(text) if kind.meant(text) in dict(kind.options) else ""
    unread = [u.reason for line in working.lines if line.field is one and (u := line.unread)]
    return {
        "key": one.key,
        "label": working.sheet.truth.say(one.full_label),
        "options": list(kind.options),
        "example": example_for(working.sheet, one),
        "text": text,
        "fault": unread[-1] if unread else "",
    }


def _line(working: Working, line: MarkedLine) -> wire.LineWords:
    words = verdict_words(line.verdict, settled=True)
    sentence = re.sub(r"^Right:? ", "", words["sentence"])  # the word stands before it
    return {
        "key": line.key,
        "field": line.field.key,
        "label": line.label,
        "written": line.statement.written,
        "verdict": {**words, "sentence": sentence[:1].upper() + sentence[1:]},
        "notes": list(line.notes),
        "solver": working.solver_value(line.key) if line.key in working.asked else "",
    }


# --- the finished design ------------------------------------------------------------------------------------------


def _design(working: Working, design: Design) -> wire.Design:
    """What a finished design achieves. How far its lengths are off is told unasked only where they are right."""
    result = achieved(design.network, design.ideal, working.problem.accuracy)
    sign, word = MATCHED[result.judgement]
    shown = result.judgement == "right" or design.key in working.asked
    return {
        "key": design.key,
        "title": f"The {design.branch.named('design')}" if design.branch else "The design",
        "lengths": "; ".join(_length(working, design, one) for one in result.lengths),
        "verdict": {
            "judgement": result.judgement,
            "sign": sign,
            "word": word,
            "sentence": _ratio(working, result),
        },
        "mayAsk": result.judgement != "right" and bool(result.lengths),
        "offs": [_off(working, design, one, result) for one in result.lengths] if shown else [],
    }


def _ratio(working: Working, result: Achieved) -> str:
    ratio = working.notation.number(result.ratio, 2)
    what = "lengths" if result.lengths else "parts as calculated"
    return f"Built with these {what}, the line sees a standing-wave ratio of {ratio}."


def _length(working: Working, design: Design, one: Best) -> str:
    length = working.notation.wavelengths(float(one.element.length))
    return f"{_symbol(design, one)} = {length}".replace(" ", "\N{NO-BREAK SPACE}")


def _off(working: Working, design: Design, one: Best, result: Achieved) -> str:
    """How far one length is from its best, the others held as they are."""
    others = " and ".join(_symbol(design, other) for other in result.lengths if other is not one)
    held = f"With {others} held, the" if others else "The"
    best = working.notation.wavelengths(one.length)
    said = f"{held} best {_symbol(design, one)} is {best}"
    if best == working.notation.wavelengths(float(one.element.length)):
        return f"{said}, as yours."
    off = working.notation.wavelengths(abs(one.excess))
    if wavelength := working.sheet.truth.wavelength_mm:
        off += f" ({Millimetres(wavelength).write(abs(one.excess) * wavelength, working.notation)})"
    ratio = working.notation.number(one.ratio, 2)
    way = "long" if one.excess > 0 else "short"
    return f"{said}: yours is {off} too {way}. The ratio would then be {ratio}."


def _symbol(design: Design, one: Best) -> str:
    return design.symbols[one.index] if one.index < len(design.symbols) else f"length {one.index + 1}"
