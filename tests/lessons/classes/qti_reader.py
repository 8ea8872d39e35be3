"""An independent reader of quiz packages: it knows the standard, and nothing of how they are written.

It runs response processing as the specification describes it (QTI 2.1, Assessment Test, Section and Item Information
Model, section 9 and 15, from memory), for the elements that occur; 3.0 differs in names alone.
"""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any
from xml.etree import ElementTree
from xml.etree.ElementTree import Element


def local(name: str) -> str:
    """A name of either version in the way of 2.1: without namespace and prefix, with humps."""
    bare = name.rpartition("}")[2].removeprefix("qti-")
    return re.sub(r"-([a-z])", lambda hyphen: hyphen[1].upper(), bare)


def normalised(element: Element) -> Element:
    """The tree with names in the way of 2.1."""
    made = Element(local(element.tag), {local(name): value for name, value in element.attrib.items()})
    made.text, made.tail = element.text, element.tail
    made.extend(normalised(child) for child in element)
    return made


@dataclass
class Read:
    """A package: its files, its items in the order of its test, and its test."""

    files: dict[str, bytes]
    test: Element
    items: list[Item] = field(default_factory=list)


class Item:
    """An item: what it asks, and what comes of answers."""

    def __init__(self, content: bytes) -> None:
        self.root = normalised(ElementTree.fromstring(content))
        self.declared = {one.get("identifier", ""): one for one in self.root.iter("responseDeclaration")}

    @property
    def correct(self) -> dict[str, Any]:
        """The declared right answers."""
        return {
            name: self._value(one.findtext("correctResponse/value") or "", one.get("baseType", ""))
            for name, one in self.declared.items()
        }

    @property
    def most(self) -> float:
        """The score of an item answered rightly."""
        return float(self.root.findtext("outcomeDeclaration[@identifier='MAXSCORE']/defaultValue/value") or 0)

    def outcomes(self, answers: Mapping[str, Any]) -> dict[str, Any]:
        """All outcomes after these answers; what is not answered is null."""
        state: dict[str, Any] = {name: answers.get(name) for name in self.declared}
        for one in self.root.iter("outcomeDeclaration"):
            value = one.findtext("defaultValue/value")
            state[one.get("identifier", "")] = (
                self._value(value or "", one.get("baseType", "")) if value else None
            )
        processing = self.root.find("responseProcessing")
        assert processing is not None
        for condition in processing:
            assert condition.tag == "responseCondition"
            self._run(condition, state)
        return {name: value for name, value in state.items() if name not in self.declared}

    def shown(self, answers: Mapping[str, Any]) -> list[str]:
        """The feedback shown after these answers."""
        shown = self.outcomes(answers).items()
        return [words for one, words in self.feedback.items() if one in shown]

    @cached_property
    def feedback(self) -> dict[tuple[str, Any], str]:
        """What is shown where an outcome has a value."""
        return {
            (block.get("outcomeIdentifier", ""), block.get("identifier")): " ".join(
                "".join(block.itertext()).split()
            )
            for block in self.root.iter("feedbackBlock")
            if block.get("showHide") == "show"
        }

    def _run(self, condition: Element, state: dict[str, Any]) -> None:
        for case in condition:
            expressions = [one for one in case if one.tag != "setOutcomeValue"]
            if case.tag != "responseElse" and self._evaluate(expressions[0], state) is not True:
                continue
            for one in case.findall("setOutcomeValue"):
                state[one.get("identifier", "")] = self._evaluate(one[0], state)
            return

    def _evaluate(self, one: Element, state: Mapping[str, Any]) -> Any:
        if one.tag == "variable":
            return state[one.get("identifier", "")]
        if one.tag == "baseValue":
            return self._value(one.text or "", one.get("baseType", ""))
        values = [self._evaluate(child, state) for child in one]
        if one.tag == "isNull":
            return values[0] is None
        if one.tag == "or":
            return any(value is True for value in values)
        if one.tag == "and":
            return all(value is True for value in values)
        if None in values:
            return None
        return self._reckon(one, values)

    def _reckon(self, one: Element, values: list[Any]) -> Any:
        match one.tag:
            case "sum":
                return sum(values)
            case "product":
                return values[0] * values[1]
            case "subtract":
                return values[0] - values[1]
            case "lte":
                return values[0] <= values[1]
            case "match":
                return values[0] == values[1]
            case "equal":
                assert one.get("toleranceMode") == "absolute"
                below, above = map(float, (one.get("tolerance") or "").split())
                return values[1] - below <= values[0] <= values[1] + above
        raise AssertionError(f"{one.tag} is not known to this reader.")

    @staticmethod
    def _value(text: str, kind: str) -> Any:
        return float(text) if kind in ("float", "integer") else text


def read_package(content: bytes) -> Read:
    """A package, read from its manifest on: every file that it lists has to be there, and no other."""
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        files = {name: archive.read(name) for name in archive.namelist()}
    manifest = normalised(ElementTree.fromstring(files["imsmanifest.xml"]))
    listed = {one.get("href", "") for one in manifest.iter("file")}
    assert listed | {"imsmanifest.xml"} == set(files)
    (test,) = [one.get("href", "") for one in manifest.iter("resource") if "_test_" in one.get("type", "")]
    read = Read(files, normalised(ElementTree.fromstring(files[test])))
    read.items = [Item(files[one.get("href", "")]) for one in read.test.iter("assessmentItemRef")]
    return read
