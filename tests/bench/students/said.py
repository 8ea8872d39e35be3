"""What one student wrote, and what was said of it."""

from __future__ import annotations

from dataclasses import dataclass

from lessons.working.marking import Verdict


@dataclass(frozen=True)
class Answer:
    """What one student wrote, and what was said of it.

    doing : "right", "slip" (of one or of two), "unlisted", "number" (any), "misread", "typed" or "drawn" (what follows
    from a mistake).  kind : of a slip: "alone" where it can be told from all others, "tied", "hidden" where it comes
    too near the right answer, "ruled out" by the sheet.  outcome : see `outcome`.  covered : whether a window of a slip
    holds the number."""

    doing: str
    field: str
    slip: str = ""
    kind: str = ""
    outcome: str = ""
    named: str = ""
    opening: str = ""
    covered: bool = False


def outcome(verdict: Verdict, key: str) -> str:
    """named : the slip itself.  other : another one.  asked : it is one of the two asked about.  asked others : it is
    not.  unnamed : it is called wrong, no more.  unreadable : no value of the field is written so, and a sentence says
    what is.  accepted : it passes."""
    if verdict.judgement in ("right", "close"):
        return "accepted"
    if verdict.judgement != "slip":
        return "unreadable" if verdict.value is None else "unnamed"
    if verdict.slip:
        return "named" if verdict.slip == key else "other"
    return "asked" if key in verdict.suspected[:2] else "asked others"


def opening(verdict: Verdict) -> str:
    """How sure the naming is."""
    if not verdict.slip:
        return ""
    return (
        "may be"
        if "may be" in verdict.sentence.split(".")[0] or verdict.sentence.startswith("A little")
        else "sure"
    )
