"""A set as a package of the quiz standard: its items, a test that holds them, the chart, and the list of all that."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass
from xml.etree import ElementTree
from xml.etree.ElementTree import Element, SubElement

from lessons.classes.qti import identifier, item_xml, plain, written
from lessons.classes.quiz import QuizItem, quiz_items
from lessons.problems.problem_sets import ProblemSet

CHART = "chart.svg"
TEST, MANIFEST = "test.xml", "imsmanifest.xml"
MADE = (1980, 1, 1, 0, 0, 0)  # one time for all files, so that one set gives one package, byte for byte
MANIFESTS = {
    "2.1": ("http://www.imsglobal.org/xsd/imscp_v1p1", "QTIv2.1 Package", "1.0.0", "v2p1"),
    "3.0": ("http://www.imsglobal.org/xsd/qti/qtiv3p0/imscp_v1p1", "QTI Package", "3.0.0", "v3p0"),
}
"""Namespace, schema, its version, and how kinds of resource end: from the specifications, from memory."""


@dataclass(frozen=True)
class Quiz:
    """A set as a quiz: for each problem its items, one of which a student gets."""

    set: ProblemSet
    problems: tuple[tuple[QuizItem, ...], ...]

    @property
    def items(self) -> tuple[QuizItem, ...]:
        """All items of all problems."""
        return tuple(item for items in self.problems for item in items)


def quiz_of(one: ProblemSet, variants: int) -> Quiz:
    """The quiz of a set. variants : of each problem that varies. Raises TooRare where a name would have none."""
    return Quiz(one, tuple(tuple(quiz_items(one, item, variants)) for item in one.items))


def package(quiz: Quiz, version: str, chart: str) -> bytes:
    """The package of that version, "2.1" or "3.0", as an archive. chart : the picture of a blank chart (SVG)."""
    files = {CHART: chart.encode()}
    files |= {_file(item): item_xml(item, version, f"../{CHART}") for item in quiz.items}
    files[TEST] = written(_test(quiz), version)
    files[MANIFEST] = _manifest(quiz, version)
    content = io.BytesIO()
    with zipfile.ZipFile(content, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, body in sorted(files.items()):
            archive.writestr(zipfile.ZipInfo(name, MADE), body, zipfile.ZIP_DEFLATED)
    return content.getvalue()


def left_out(quiz: Quiz) -> Iterator[str]:
    """A sentence for each value that no box of a quiz can take."""
    for item in quiz.items:
        for label in item.left_out:
            yield f"{item.title}: “{label}” is infinite here, which no box of a quiz can take, so it is left out."


def _file(item: QuizItem) -> str:
    return f"items/{identifier(item.key)}.xml"


def _test(quiz: Quiz) -> Element:
    """The problems in their order; of several variants of one, one is taken by lot."""
    root = Element("assessmentTest", identifier=identifier(quiz.set.key), title=plain(quiz.set.title))
    part = SubElement(
        root, "testPart", identifier="part-1", navigationMode="nonlinear", submissionMode="individual"
    )
    for number, items in enumerate(quiz.problems, 1):
        section = SubElement(
            part,
            "assessmentSection",
            identifier=f"section-{number}",
            title=plain(items[0].title),
            visible="true",
        )
        if len(items) > 1:
            SubElement(section, "selection", select="1")
        for item in items:
            SubElement(section, "assessmentItemRef", identifier=identifier(item.key), href=_file(item))
    return root


def _manifest(quiz: Quiz, version: str) -> bytes:
    namespace, schema, edition, ending = MANIFESTS[version]
    root = Element("manifest", xmlns=namespace, identifier=f"manifest-{quiz.set.key}")
    about = SubElement(root, "metadata")
    SubElement(about, "schema").text = schema
    SubElement(about, "schemaversion").text = edition
    SubElement(root, "organizations")
    resources = SubElement(root, "resources")
    chart = _resource(resources, "chart", "webcontent", CHART)
    test = _resource(resources, identifier(quiz.set.key), f"imsqti_test_xml{ending}", TEST)
    for item in quiz.items:
        SubElement(test, "dependency", identifierref=identifier(item.key))
    for item in quiz.items:
        one = _resource(resources, identifier(item.key), f"imsqti_item_xml{ending}", _file(item))
        SubElement(one, "dependency", identifierref=chart.attrib["identifier"])
    ElementTree.indent(root)
    return ElementTree.tostring(root, encoding="utf-8", xml_declaration=True)


def _resource(resources: Element, name: str, kind: str, file: str) -> Element:
    one = SubElement(resources, "resource", identifier=name, type=kind, href=file)
    SubElement(one, "file", href=file)
    return one
