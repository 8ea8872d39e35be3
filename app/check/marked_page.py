"""What the self-check shows, as plain data in the order of reading."""

from __future__ import annotations

import re
from typing import Any

from app.parts.words import CAUTION, problem_choices, problem_words, verdict_words
from core.network import Section
from lessons.course.stub_values import wavelength_mm
from lessons.grammar.kinds import Choice, Millimetres
from lessons.grammar.lesson import Field, Side, Step
from lessons.homework.values import chosen
from lessons.homework.working import MarkedLine, Working
from lessons.problems.seeds import write_problem
from lessons.saved.records import notation_texts
from lessons.working.achieved import Achieved, Best, achieved

MATCHED = {"right": ("✓", "Matched"), "close": ("≈", "Nearly matched"), "wrong": ("✗", "Not matched")}


def check_page(working: Working) -> dict[str, Any]:
    """All that the self-check shows of a working."""
    refusal = working.lesson.refuses(working.problem)
    return {
        "lesson": working.lesson.title,
        "problem": problem_words(working.problem, working.sheet.truth),
        "refusal": refusal,
        "text": working.text,
        "summary": _summary(working),
        "remarks": list(working.remarks),
        "unread": [one.sentence for one in working.unread],
        "steps": []
        if refusal
        else [_step(working, index, step) for index, step in enumerate(working.steps, 1)],
        "designs": [_design(working, side) for side in working.designs],
        "glossary": [list(row) for row in working.names.glossary()],
        "choices": problem_choices(),
        "entries": write_problem(working.problem),
        "notation": notation_texts(working.notation),
        "caution": CAUTION,
    }


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


def _step(working: Working, index: int, step: Step) -> dict[str, Any]:
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


def _field(working: Working, one: Field) -> dict[str, Any]:
    """An entry for one value, with what stands there now."""
    kind = one.kind(working.sheet.truth)
    text = working.value_of(one.key)
    if isinstance(kind, Choice):
        text = chosen(kind, text) if chosen(kind, text) in dict(kind.options) else ""
    unread = [u.reason for line in working.lines if line.field is one and (u := line.unread)]
    return {
        "key": one.key,
        "label": working.sheet.truth.say(one.label),
        "options": [list(option) for option in kind.options] if isinstance(kind, Choice) else [],
        "example": working.sheet.truth.say(kind.example),
        "text": text,
        "fault": unread[-1] if unread else "",
    }


def _line(working: Working, line: MarkedLine) -> dict[str, Any]:
    words = verdict_words(line.verdict, settled=True)
    sentence = re.sub(r"^Right:? ", "", words["sentence"])  # the word stands before it
    return {
        "key": line.key,
        "field": line.field.key,
        "label": line.label,
        "written": line.statement.written,
        "verdict": words | {"sentence": sentence[:1].upper() + sentence[1:]},
        "notes": list(line.notes),
        "solver": working.solver_value(line.key) if line.key in working.asked else "",
    }


# --- the finished design ------------------------------------------------------------------------------------------


def _design(working: Working, side: Side) -> dict[str, Any]:
    """What a finished design achieves. How far its lengths are off is told unasked only where they are right."""
    result = achieved(working.designs[side], working.ideal(side), working.problem.accuracy)
    sign, word = MATCHED[result.judgement]
    key = f"design.{side}"
    shown = result.judgement == "right" or key in working.asked
    return {
        "key": key,
        "title": f"The {side} design",
        "lengths": "; ".join(_length(working, one) for one in result.lengths),
        "verdict": {
            "judgement": result.judgement,
            "sign": sign,
            "word": word,
            "sentence": _ratio(working, result),
        },
        "mayAsk": result.judgement != "right",
        "offs": [_off(working, one, result) for one in result.lengths] if shown else [],
    }


def _ratio(working: Working, result: Achieved) -> str:
    ratio = working.notation.number(result.ratio, 2)
    return f"Built with these lengths, the line sees a standing-wave ratio of {ratio}."


def _length(working: Working, one: Best) -> str:
    length = working.notation.wavelengths(float(one.element.length))
    return f"{_symbol(working, one)} = {length}".replace(" ", "\N{NO-BREAK SPACE}")


def _off(working: Working, one: Best, result: Achieved) -> str:
    """How far one length is from its best, the other held as it is."""
    other = next(other for other in result.lengths if other is not one)
    held = f"With {_symbol(working, other)} held, the best {_symbol(working, one)} is"
    best = working.notation.wavelengths(one.length)
    if best == working.notation.wavelengths(float(one.element.length)):
        return f"{held} {best}, as yours."
    off = working.notation.wavelengths(abs(one.excess))
    if working.problem.frequency:
        wavelength = wavelength_mm(working.sheet.truth)
        off += f" ({Millimetres(wavelength).write(abs(one.excess) * wavelength, working.notation)})"
    ratio = working.notation.number(one.ratio, 2)
    way = "long" if one.excess > 0 else "short"
    return f"{held} {best}: yours is {off} too {way}. The ratio would then be {ratio}."


def _symbol(working: Working, one: Best) -> str:
    notation = working.notation
    return notation.distance if isinstance(one.element, Section) else notation.stub_length
