"""A quiz as items of the open standard Question and Test Interoperability: 2.1, and from the same tree 3.0.

An item has a box for each number, two for each complex one, a choice where one is asked, and feedback for whatever the
tutor foresees. Names of elements and attributes are those of the public specifications (1EdTech, QTI 2.1 and 3.0).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from xml.etree import ElementTree
from xml.etree.ElementTree import Element, SubElement

from lessons.classes.quiz import Foreseen, Question, QuizItem
from lessons.classes.regions import Disc, Interval, Option, Region

NAMESPACE = {
    "2.1": "http://www.imsglobal.org/xsd/imsqti_v2p1",
    "3.0": "http://www.imsglobal.org/xsd/imsqtiasi_v3p0",
}
HTML = {"p", "div", "img", "h3", "strong", "span"}
NOTHING = "Nothing was entered."
_HUMP = re.compile(r"(?<=[a-z0-9])(?=[A-Z])")
_FORBIDDEN = re.compile("[^\t\n\r -\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
CHART_IS = (
    "A blank reflection chart with its outer scales of wavelengths and angle, and radial scales under it."
)


def item_xml(item: QuizItem, version: str, chart: str = "") -> bytes:
    """An item as a file of that version, "2.1" or "3.0". chart : address of the chart's picture, "" for none."""
    root = _item(item, chart)
    return written(root, version)


def written(root: Element, version: str) -> bytes:
    """A tree of 2.1 as a file of either version."""
    if version == "3.0":
        _to_three(root)
    root.set("xmlns", NAMESPACE[version])
    ElementTree.indent(root)
    return ElementTree.tostring(root, encoding="utf-8", xml_declaration=True)


def plain(text: str) -> str:
    """A text without characters that XML does not allow."""
    return _FORBIDDEN.sub("\N{REPLACEMENT CHARACTER}", text)


def identifier(key: str) -> str:
    """A key as an identifier of the standard: letters, digits, hyphens, and never a digit first."""
    return "q-" + re.sub(r"[^A-Za-z0-9-]", "-", key)


def _item(item: QuizItem, chart: str) -> Element:
    root = Element("assessmentItem", identifier=identifier(item.key), title=plain(item.title))
    root.set("adaptive", "false")
    root.set("timeDependent", "false")
    questions = [question for step in item.steps for question in step.questions]
    names = {question.key: f"R{number}" for number, question in enumerate(questions, 1)}
    for question in questions:
        _declare(root, question, names[question.key])
    _outcome(root, "SCORE", "float", "0")
    _outcome(root, "MAXSCORE", "float", f"{sum(question.worth for question in questions):.6g}")
    for question in questions:
        _outcome(root, f"F{names[question.key]}", "identifier", "none")
    _body(root, item, names, chart)
    processing = SubElement(root, "responseProcessing")
    for question in questions:
        _process(processing, question, names, names.get(item.picking, ""))
    return root


# --- what is asked -------------------------------------------------------------------------------------------------


def boxes(question: Question, name: str) -> tuple[str, ...]:
    """Names of the responses that a question takes: two for a complex number, its real and its imaginary part."""
    return (f"{name}-RE", f"{name}-IM") if question.asked == "complex" else (name,)


def _declare(root: Element, question: Question, name: str) -> None:
    kind = "identifier" if question.asked == "choice" else "float"
    for box, value in zip(boxes(question, name), question.correct, strict=True):
        one = SubElement(root, "responseDeclaration", identifier=box, cardinality="single", baseType=kind)
        right = SubElement(one, "correctResponse")
        SubElement(right, "value").text = _choice(value) if kind == "identifier" else value


def _outcome(root: Element, name: str, kind: str, value: str) -> None:
    one = SubElement(root, "outcomeDeclaration", identifier=name, cardinality="single", baseType=kind)
    SubElement(SubElement(one, "defaultValue"), "value").text = value


def _choice(key: str) -> str:
    return f"c-{re.sub(r'[^A-Za-z0-9-]', '-', key)}"


def _body(root: Element, item: QuizItem, names: dict[str, str], chart: str) -> None:
    body = SubElement(root, "itemBody")
    for text in (item.story, item.task):
        if text:
            SubElement(body, "p").text = plain(text)
    if chart:
        SubElement(SubElement(body, "p"), "img", src=chart, alt=CHART_IS)
    for number, step in enumerate(item.steps, 1):
        part = SubElement(body, "div")
        SubElement(part, "h3").text = plain(f"{number}. {step.title}")
        SubElement(part, "p").text = plain(step.ask)
        for question in step.questions:
            _ask(part, question, names[question.key])
            _feedback(part, question, names[question.key])


def _ask(part: Element, question: Question, name: str) -> None:
    if question.asked == "choice":
        choice = SubElement(
            part, "choiceInteraction", responseIdentifier=name, shuffle="false", maxChoices="1"
        )
        SubElement(choice, "prompt").text = plain(question.label)
        for key, words in question.options:
            SubElement(choice, "simpleChoice", identifier=_choice(key)).text = plain(words)
        return
    line = SubElement(part, "p")
    line.text = plain(f"{question.label}: ")
    parts = (("real part ", ""), (" imaginary part ", "")) if question.asked == "complex" else (("", ""),)
    for (before, _), box in zip(parts, boxes(question, name), strict=True):
        span = SubElement(line, "span")
        span.text = before or None
        SubElement(span, "textEntryInteraction", responseIdentifier=box, expectedLength="10")
    if question.unit:
        SubElement(line, "span").text = plain(f" {question.unit}")


def _feedback(part: Element, question: Question, name: str) -> None:
    for key, sentence in _said(question):
        block = SubElement(
            part, "feedbackBlock", outcomeIdentifier=f"F{name}", identifier=key, showHide="show"
        )
        SubElement(block, "p").text = plain(sentence)


def _said(question: Question) -> Iterator[tuple[str, str]]:
    """What may be said of a question, each under a name of its own."""
    sentences = dict.fromkeys([*(one.sentence for one in question.foreseen), question.otherwise, NOTHING])
    for number, sentence in enumerate(sentences, 1):
        yield f"s{number}", sentence


# --- how it is judged ----------------------------------------------------------------------------------------------


def _process(processing: Element, question: Question, names: dict[str, str], picking: str) -> None:
    name = names[question.key]
    keys = {sentence: key for key, sentence in _said(question)}
    condition = SubElement(processing, "responseCondition")
    empty = SubElement(condition, "responseIf")
    holds = SubElement(empty, "or") if question.asked == "complex" else empty
    for box in boxes(question, name):
        SubElement(SubElement(holds, "isNull"), "variable", identifier=box)
    _set(empty, f"F{name}", keys[NOTHING])
    for one in question.foreseen:
        case = SubElement(condition, "responseElseIf")
        holds = case
        if one.picked and picking:
            holds = SubElement(case, "and")
            holds.append(_matches(picking, _choice(one.picked)))
        holds.append(_in(one.region, boxes(question, name)))
        _settle(case, one, keys, name, question.worth)
    _set(SubElement(condition, "responseElse"), f"F{name}", keys[question.otherwise])


def _settle(case: Element, one: Foreseen, keys: dict[str, str], name: str, worth: float) -> None:
    _set(case, f"F{name}", keys[one.sentence])
    if one.right:
        score = SubElement(case, "setOutcomeValue", identifier="SCORE")
        total = SubElement(score, "sum")
        SubElement(total, "variable", identifier="SCORE")
        total.append(_number(worth))


def _set(case: Element, name: str, value: str) -> None:
    one = SubElement(case, "setOutcomeValue", identifier=name)
    SubElement(one, "baseValue", baseType="identifier").text = value


def _in(region: Region, named: tuple[str, ...]) -> Element:
    """The test whether an answer lies in a region."""
    match region:
        case Option(key):
            return _matches(named[0], _choice(key))
        case Interval(middle, low, high):
            about = f"{middle - low:.10g} {high - middle:.10g}"
            equal = Element("equal", toleranceMode="absolute", tolerance=about)
            SubElement(equal, "variable", identifier=named[0])
            equal.append(_number(middle))
            return equal
        case Disc(centre, radius):
            within = Element("lte")
            total = SubElement(within, "sum")
            for box, part in zip(named, (centre.real, centre.imag), strict=True):
                square = SubElement(total, "product")
                for _ in range(2):
                    off = SubElement(square, "subtract")
                    SubElement(off, "variable", identifier=box)
                    off.append(_number(part))
            within.append(_number(radius**2))
            return within
    raise TypeError(f"{region!r} is no region.")


def _matches(name: str, key: str) -> Element:
    one = Element("match")
    SubElement(one, "variable", identifier=name)
    SubElement(one, "baseValue", baseType="identifier").text = key
    return one


def _number(value: float) -> Element:
    one = Element("baseValue", baseType="float")
    one.text = f"{value:.12g}"
    return one


# --- the other version ---------------------------------------------------------------------------------------------


def _to_three(element: Element) -> None:
    """Turn a tree of 2.1 into one of 3.0: names in small letters with hyphens, and feedback with a body of its own."""
    for one in element.iter():
        if one.tag not in HTML:
            if one.tag == "feedbackBlock":
                body = Element("qti-content-body")
                body.extend(list(one))
                one[:] = [body]
            one.tag = one.tag if one.tag.startswith("qti-") else f"qti-{_kebab(one.tag)}"
        for name in list(one.attrib):
            one.set(_kebab(name), one.attrib.pop(name))


def _kebab(name: str) -> str:
    return _HUMP.sub("-", name).lower()
