"""The report on a class's hand-ins: a page that stands alone, with names, or without them to project."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from app.parts.words import count_of
from app.report.bars import PARTS, Bar, bars
from app.report.document import document, said, table, tag
from lessons.classes.marks import ClassMarks, Filed, MarkedSheet, Student
from lessons.classes.stumbles import OUTCOMES, Shown, SlipTally, StepTally, slips_of, steps_of
from lessons.grammar.lesson import Work

MOST_STEPS, MOST_SLIPS = 12, 12
ON_TRUST = (
    "Every verdict is worked out anew from what was entered. Hints and reveals are as the files state them, as nothing "
    "in a file proves that none was taken."
)


def report(marks: ClassMarks, with_names: bool = True) -> str:
    """The whole page. with_names : False leaves out every name and every file, to show it to the class."""
    steps, slips = steps_of(marks), slips_of(marks)
    parts = [
        said("h1", marks.set.title),
        _summary(marks),
        _ways(marks, with_names),
        *_steps(steps),
        *_slips(slips, with_names),
        *(_people(marks) if with_names else ()),
        *(_files(marks) if with_names else ()),
        said("h2", "How this was marked", id="how"),
        said("p", ON_TRUST),
    ]
    return document(f"{marks.set.title}: what the class has not understood", *parts)


def _summary(marks: ClassMarks) -> str:
    sheets = sum(len(student.sheets) for student in marks.students)
    solved = sum(sheet.replay.sheet.solved for student in marks.students for sheet in student.sheets)
    handed = f"{count_of(len(marks.students), 'student')} handed in {count_of(sheets, 'sheet')}"
    return said("p", f"Version {marks.set.version}. {handed}; {solved} of them solved.", class_="quiet")


def _ways(marks: ClassMarks, with_names: bool) -> str:
    ways = [("steps", "Steps"), ("slips", "Slips")]
    ways += [("people", "Who handed in what")] if with_names else []
    ways += [("files", "Files to look at")] if with_names and (marks.refused or marks.superseded) else []
    links = (
        tag("li", said("a", words, href=f"#{key}")) for key, words in (*ways, ("how", "How it was marked"))
    )
    return tag("nav", tag("ul", *links), aria_label="On this page")


# --- steps ---------------------------------------------------------------------------------------------------------


def _steps(steps: tuple[StepTally, ...]) -> Iterator[str]:
    yield said("h2", "Where the class stumbles", id="steps")
    if not steps:
        yield said("p", "Nothing was handed in yet.")
        return
    lessons = len({one.lesson.key for one in steps})
    shown = [one for one in steps if one.stumbled][:MOST_STEPS] or list(steps[:MOST_STEPS])
    drawn = [
        Bar(
            one.step.title,
            {part: one.counts[part] / one.sheets * 100 for part in OUTCOMES},
            f"{one.stumbled} of {one.sheets}",
            one.lesson.title if lessons > 1 else "",
        )
        for one in shown
    ]
    yield said(
        "p",
        "Each bar is all sheets that ask for the step; behind it stands on how many it was not right at once. "
        + ("The step that went wrong most comes first." if shown[0].stumbled else "All were right at once."),
    )
    described = "; ".join(
        f"{_label(one, lessons)}: {one.stumbled} of {one.sheets} not right at once" for one in shown
    )
    yield bars("steps", drawn, 100, f"Steps, the hardest first. {described}.", keyed=True)
    rows = [
        [escape(_label(one, lessons)), *(str(one.counts[part]) for part in OUTCOMES), str(one.sheets)]
        for one in steps
    ]
    heads = ["Step", *(PARTS[part][0].capitalize() for part in OUTCOMES), "Sheets"]
    numbers = frozenset(range(1, len(heads)))
    whole = table("Sheets by how each step came out", heads, rows, numbers)
    yield tag("details", said("summary", "All steps as a table"), whole)


def _label(one: StepTally, lessons: int) -> str:
    return f"{one.step.title} ({one.lesson.title})" if lessons > 1 else one.step.title


# --- slips ---------------------------------------------------------------------------------------------------------


def _slips(slips: tuple[SlipTally, ...], with_names: bool) -> Iterator[str]:
    yield said("h2", "Which slips it makes", id="slips")
    if not slips:
        yield said("p", "No slip was named on any sheet.")
        return
    shown = slips[:MOST_SLIPS]
    drawn = [
        Bar(_capital(one.doing), {"carried": one.students}, f"{one.students} ({one.times}×)") for one in shown
    ]
    yield said("p", "By how many students made each; in brackets, how often in all.")
    described = "; ".join(f"{one.doing}: {count_of(one.students, 'student')}" for one in shown)
    most = max(one.students for one in shown)
    yield bars("slips", drawn, most, f"Slips, the most usual first. {described}.", keyed=False)
    for number, one in enumerate(slips, 1):
        yield _slip(number, one, with_names)


def _slip(number: int, one: SlipTally, with_names: bool) -> str:
    where = f"{count_of(one.students, 'student')}, {one.times}×. At: {'; '.join(one.steps)}."
    best = (tag("li", _shown(shown, with_names)) for shown in one.best)
    return tag(
        "article",
        said("h3", f"{number}. {_capital(one.doing)}"),
        said("p", where, class_="quiet"),
        said("p", "What shows it best:" if len(one.best) > 1 else "The sheet that shows it:"),
        tag("ul", *best),
    )


def _shown(shown: Shown, with_names: bool) -> str:
    sheet, made = shown.sheet.replay.sheet, shown.made
    who = f"{shown.student.name}, “{shown.sheet.item.problem.title}”" if with_names else _given(shown.sheet)
    label = sheet.truth.say(made.field.full_label)
    again = f" ({shown.times}× on this sheet)" if shown.times > 1 else ""
    wrote = said("p", f"{who}: wrote {made.text.strip()} for {label}{again}. The tutor said:")
    return wrote + said("blockquote", made.sentence)


def _given(sheet: MarkedSheet) -> str:
    work = sheet.replay.sheet.truth
    return f"A sheet of “{sheet.item.problem.title}” ({_brief(work)})"


def _brief(work: Work) -> str:
    return work.say(work.lesson.brief)


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


# --- people and files ----------------------------------------------------------------------------------------------


def _people(marks: ClassMarks) -> Iterator[str]:
    yield said("h2", "Who handed in what", id="people")
    points = marks.set.points
    titles = [item.problem.title for item in marks.set.items]
    numbers = (str(number) for number in range(1, len(titles) + 1))
    heads = ["Name", *numbers, *(["Points"] if points else []), "Saved", "File"]
    rows = [_person(marks, student) for student in marks.students]
    yield tag("ol", *(said("li", title) for title in titles), class_="quiet")
    yield table("✓ solved, ✗ finished but not right, else how many steps of how many are done", heads, rows)
    remarks = [(student.name, one) for student in marks.students for one in student.remarks]
    if remarks:
        yield said("h3", "To be looked at")
        yield tag("ul", *(said("li", f"{name}: {remark}") for name, remark in remarks))
    if marks.missing:
        yield said("h3", f"Nothing came from {count_of(len(marks.missing), 'name')} of the class list")
        yield said("p", "; ".join(marks.missing))


def _person(marks: ClassMarks, student: Student) -> list[str]:
    there = {sheet.item.problem.key: sheet for sheet in student.sheets}
    states = [_state(there.get(item.problem.key)) for item in marks.set.items]
    saved = f"{student.saved:%Y-%m-%d %H:%M} UTC" if student.saved else "unknown"
    points = [f"{points_of(marks, student):g}"] if marks.set.points else []
    return [escape(one) for one in (student.name, *states, *points, saved, student.file)]


def points_of(marks: ClassMarks, student: Student) -> float:
    """What a student has earned in all."""
    table = marks.set.points
    return round(sum(sheet.points(table) for sheet in student.sheets), 6) if table else 0.0


def _state(sheet: MarkedSheet | None) -> str:
    if sheet is None:
        return "–"
    if sheet.replay.sheet.finished:
        return "✓" if sheet.replay.sheet.solved else "✗"
    return f"{sum(step.done for step in sheet.replay.steps)} of {len(sheet.replay.steps)}"


def _files(marks: ClassMarks) -> Iterator[str]:
    if not marks.refused and not marks.superseded:
        return
    yield said("h2", "Files to look at", id="files")
    for title, files in (("Not marked", marks.refused), ("Older hand-ins, not counted", marks.superseded)):
        if files:
            yield said("h3", title)
            yield tag("ul", *(tag("li", _filed(one)) for one in files))


def _filed(one: Filed) -> str:
    name = f" ({one.name})" if one.name else ""
    return said("strong", f"{one.file}{name}") + escape(f": {one.sentence}")
