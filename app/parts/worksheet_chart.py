"""The chart of a sheet on paper: its title, what is drawn on it, its legend, and how to use the scales under it."""

from __future__ import annotations

from app.parts.messages.shared import ProblemWords
from app.parts.plotting import Group
from app.parts.printed_chart.layouts import PRINT
from app.parts.vector import LINE, document, element, path, polyline, shortened, text, wrapped
from app.parts.vector_chart import RADIAL_GAP, Place, printed_chart, printed_radial_scales
from app.parts.vector_labels import labels
from app.parts.vector_looks import line_look, marker_path
from app.parts.vector_strokes import Drawn, drawn_groups, ink
from app.parts.words import problem_words
from app.parts.worksheet_steps import INK, QUIET
from lessons.grammar.lesson import Work
from lessons.working.construction import stroke_groups
from lessons.working.sheet import Sheet

SIZES: dict[str, tuple[float, float]] = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
"""Pages in millimetres: ISO 216, and 8.5 by 11 inches (ANSI/ASME Y14.1), both from memory."""
MARGIN = 11.0  # wider than what ordinary printers leave white: common practice, no source
LARGEST_RADIUS = 75.0
TITLE, BODY, FINE = 4.6, 3.1, 2.3
RADIAL_HEIGHT = 2 * RADIAL_GAP + 8.0
ROLE_NAMES = {
    "load": "load",
    "mismatch": "constant-mismatch circle",
    "unit": "unit circle",
    "region": "region",
}
GRIDS = {
    "half turn": "One grid: r and x where z stands, g and b where y stands, half a turn away.",
    "overlay": "Solid grid, upright numbers: r and x. Broken grid, slanting numbers: g and b of the same point.",
}


def chart_svg(sheet: Sheet) -> str:
    """The chart of a sheet with all that is drawn on it, and the radial scales; a sheet of any problem has one."""
    words = problem_words(sheet.truth)
    width = 2 * (PRINT.extent * LARGEST_RADIUS + MARGIN)
    refusal = sheet.lesson.refuses(sheet.problem)
    head, written = headline(words | {"story": ""}, MARGIN, width - 2 * MARGIN, refusal)
    place = Place(width / 2, MARGIN + head + PRINT.extent * LARGEST_RADIUS, LARGEST_RADIUS)
    drawn, spoken = drawn_chart(sheet, place, MARGIN)
    height = place.y + place.extent + RADIAL_HEIGHT + MARGIN
    return document(width, height, words["title"], spoken, written, drawn)


def blank_chart_svg(admittance: str = "half turn") -> str:
    """A blank chart with its radial scales, of no problem."""
    side = 2 * (PRINT.extent * LARGEST_RADIUS + MARGIN)
    place = Place(side / 2, MARGIN + PRINT.extent * LARGEST_RADIUS, LARGEST_RADIUS)
    below = place.y + place.extent + 4.5
    parts = (
        printed_chart(place, admittance),
        printed_radial_scales(place.x, below, place.radius),
        _notes(place, MARGIN, below - 1.2, admittance),
    )
    height = place.y + place.extent + RADIAL_HEIGHT + MARGIN
    return document(side, height, "Reflection chart", "A blank chart to draw on.", *parts)


def headline(problem: ProblemWords, top: float, width: float, refusal: str = "") -> tuple[float, str]:
    """Title, story and task from a height downward, why there is nothing to solve, and how much of it they take."""
    y, parts = top, []
    looks: tuple[tuple[str, float, str, bool, int], ...] = (
        (problem["title"], TITLE, INK, True, 3),
        (problem["story"], BODY, QUIET, False, 9),
        (problem["given"], BODY, INK, True, 4),
        (refusal, BODY, INK, False, 4),
    )
    for said, size, fill, bold, most in looks:
        for words in shortened(said, size, width, most, bold):
            weight = "600" if bold else None
            parts.append(text(MARGIN, y + size, words, size, fill=fill, font_weight=weight))
            y += LINE * size
        y += 0.6
    return y - top + 1.0, "".join(parts)


def drawn_chart(sheet: Sheet, place: Place, left: float) -> tuple[str, str]:
    """The printed chart with what the sheet has drawn, and the radial scales; and the drawing in words.

    left : where the legend and the notes begin, in the corner under the chart."""
    admittance = sheet.notation.admittance
    groups = [Group(key, strokes) for key, strokes in stroke_groups(sheet)]
    drawings = drawn_groups(groups, admittance, place)
    below = place.y + place.extent + 4.5
    parts = (
        printed_chart(place, admittance, sheet.notation.length),
        ink(drawings),
        labels(drawings, place),
        _legend(drawings, _role_names(sheet.work), left, place.y + place.extent),
        printed_radial_scales(place.x, below, place.radius),
        _notes(place, left, below - 1.2, admittance),
    )
    spoken = " ".join(one.wire["spoken"] for one in drawings)
    return "".join(parts), spoken or "A blank chart to draw on."


def _role_names(work: Work) -> dict[str, str]:
    """What the legend calls each role; that of the load is the end of the line that the lesson begins at."""
    branches = {branch.role: branch.named("solution") for branch in work.lesson.branches}
    return ROLE_NAMES | {"load": work.word("known", ROLE_NAMES["load"])} | branches


def _legend(drawings: list[Drawn], names: dict[str, str], left: float, bottom: float) -> str:
    """The line and the marker of each role that is drawn."""
    roles = [role for role in names if any(one.wire["role"] == role for one in drawings)]
    parts = []
    for row, role in enumerate(reversed(roles)):
        y = bottom - 2.0 - 3.6 * row
        lined = any(one.wire["role"] == role and one.line for one in drawings)
        marked = any(one.wire["role"] == role and one.marker for one in drawings)
        parts.append(path(polyline((left, y), (left + 9, y)), **line_look(role)) if lined else "")
        parts.append(
            path(marker_path(role, (left + 4.5, y)), fill=line_look(role)["stroke"]) if marked else ""
        )
        parts.append(text(left + 11, y + 0.85, names[role], FINE, fill=INK))
    return element("g", *parts, class_="legend") if roles else ""


def _notes(place: Place, left: float, y: float, admittance: str) -> str:
    """At the left of the radial scales, how they and the grid are used."""
    said = (
        GRIDS[admittance],
        "Carry a distance from the centre down to these scales with a compass: they begin at the centre.",
        f"Printed at true size, the chart's radius is {place.radius:g} mm.",
    )
    rows = []
    for sentence in said:
        for words in wrapped(sentence, FINE, place.x - left - 42):
            rows.append(text(left, y, words, FINE, fill=QUIET))
            y += LINE * FINE
        y += 0.9
    return element("g", *rows, class_="notes")
