"""A student's working: what is kept, what follows from it, and that nothing typed is ever lost."""

from dataclasses import FrozenInstanceError, replace
from itertools import pairwise
from random import Random

import pytest

from core import single_stub
from lessons.course.series_stub import LESSON as SERIES_LESSON
from lessons.grammar.kinds import Choice
from lessons.grammar.problem import Problem
from lessons.working.attempts import MOST_ATTEMPTS, Attempt, Entry
from lessons.working.construction import plans, stroke_groups
from lessons.working.marking import mark
from lessons.working.sheet import RUNGS, Sheet
from lessons.working.undoing import redo
from tests.lessons.grammar.test_numbers import sentences
from tests.lessons.solving import (
    HALF_TURN,
    NOTATIONS,
    OVERLAY,
    answers,
    blank,
    fields_of,
    filled,
    problem,
    random_problem,
    shipped,
    shipped_problems,
    solved,
)

WHIP = shipped("whip-over-float")  # 30 - j50 on 50 ohm
REFLECTION = (0.6 - 1j - 1) / (0.6 - 1j + 1)
WRONG_Y = 0.4412 - 0.7353j  # its sign lost
BAD = ["abc", "1e999", "-50", "nan", "9" * 10_000, "<script>alert(1)</script>", ""]
ONE_OF_EACH = ["normalise", "place", "mismatch", "admittance", "unit_circle", "crossing.near", "susceptance.near",
               "distance.near", "needed.near", "own.near", "start.point", "length.near", "total.near", "choose.why",
               "millimetres.distance"]  # fmt: skip
HARD = ["0", "1", "inf", "j1", "-j1", "1e29", "1e-29", "-0.2+j3", "0.25", "0.5", "-0.1", "open", "short", "near", "far",
        "1∠180", "0∠0", "0.62∠-83", "match", "12.3 mm", "9.99", "clockwise", "1e30+1e30j"]  # fmt: skip

every_problem = pytest.mark.parametrize("given", shipped_problems(), ids=lambda p: p.key)


class TestWholeSheet:
    @every_problem
    @pytest.mark.parametrize(
        "notation", NOTATIONS[::5], ids=lambda n: f"{n.admittance}, {n.imaginary}, {n.length}"
    )
    def test_solvers_answers_solve_it(self, given, notation):
        """Typed in by hand, the solver's answers finish every shipped problem without a slip or a hint."""
        sheet = blank(given, notation)
        for key, text in answers(sheet.truth, sheet).items():
            sheet = sheet.enter(key, text)

        assert sheet.finished
        assert all(sheet.clean(step) for step in sheet.steps)

    @pytest.mark.parametrize("notation", [HALF_TURN, OVERLAY], ids=lambda n: n.admittance)
    def test_three_hundred_random_problems(self, notation):
        """On 300 random problems the solver's answers, typed with three decimals, are all marked right."""
        found = {
            (seed, key, verdict.judgement)
            for seed in range(300)
            for key, verdict in solved(random_problem(seed), notation).verdicts.items()
        }

        assert set() == {case for case in found if case[2] != "right"}
        assert len(found) > 300 * 20

    def test_one_step_after_another(self):
        """The open step is the first that is not done, and the sheet is finished when none is."""
        sheet, opened = blank(WHIP), []
        while sheet.current:
            opened.append(sheet.current.key)
            for one in sheet.current.fields:
                sheet = sheet.enter(one.key, answers(sheet.truth, sheet)[one.key])

        assert [step.key for step in sheet.steps] == opened
        assert sheet.finished

    def test_any_subset_in_any_order(self):
        """Lines may be filled in out of order; each is judged from those that stand."""
        texts = answers(blank(WHIP).truth, blank(WHIP))
        sheet = blank(WHIP).enter("length.far", texts["length.far"]).enter("mismatch", texts["mismatch"])

        assert ["mismatch", "length.far"] == [
            key for key, verdict in sheet.verdicts.items() if verdict.accepted
        ]
        assert sheet.steps[0] == sheet.current

    def test_steps_switched_off(self):
        """A step that a problem leaves out is neither asked for nor missed."""
        short = blank(problem(30 - 50j, without=frozenset({"place", "total"})))

        assert {"place", "total"}.isdisjoint({step.key for step in short.steps})
        assert solved(short.problem).finished


class TestImmutable:
    def test_nothing_can_be_set(self):
        """A sheet cannot be written into."""
        with pytest.raises(FrozenInstanceError, match="shown"):
            blank(WHIP).shown = 3  # type: ignore[misc]

    def test_everything_gives_a_new_one(self):
        """Whatever a student does gives the next sheet and leaves the last as it was."""
        first = blank(WHIP).enter("normalise", "30-50j")
        before = (dict(first.entries), dict(first.hints))
        later = [
            first.enter("normalise", "1"),
            first.carry("normalise"),
            first.hint("place"),
            first.reveal_step("place"),
        ]

        assert before == (first.entries, first.hints)
        assert [] == [sheet for sheet in later if sheet == first]

    def test_start_over(self):
        """Starting over gives the same problem on a clean sheet in the same notation; what was done is remembered."""
        sheet = solved(WHIP, OVERLAY).hint("place").start_over()

        assert blank(WHIP, OVERLAY) == replace(sheet, attempts=())
        assert ["hint", "start over"] == [attempt.doing for attempt in sheet.attempts]


def busy() -> list[Sheet]:
    """A sheet after each of the things that can be done to it."""
    sheets = [replace(blank(shipped("whip-434")), shown=1)]
    for act in (
        lambda s: s.draw("place", 0.5 + 0.1j),
        lambda s: s.carry("place"),
        lambda s: s.enter("mismatch", "0.4"),
        lambda s: s.enter("mismatch", "2.6"),
        lambda s: s.hint("admittance"),
        lambda s: s.reveal("admittance"),
        lambda s: s.hint("crossing").hint("crossing").hint("crossing").hint("crossing"),
        lambda s: s.enter("distance.near", "abc"),
        lambda s: s.start_over(),
        lambda s: s.enter("normalise", "40-45j"),
        lambda s: s.enter("normalise", "0.8-0.9j"),
    ):
        sheets.append(act(sheets[-1]))
    return sheets


class TestUndo:
    def test_gives_the_sheet_before(self):
        """Undone, whatever was done, the sheet is the one before it: entries, hints, slips, worked steps and all."""
        for before, after in pairwise(busy()):
            undone = after
            for _ in range(len(after.attempts) - len(before.attempts)):
                assert undone.undone is not None
                undone = undone.undone
            assert before == replace(undone, attempts=before.attempts)
            assert before.verdicts == undone.verdicts

    def test_back_to_the_beginning(self):
        """Undone again and again, a sheet is clean at last, and then there is nothing to undo."""
        sheet, count = busy()[-1], 0
        while earlier := sheet.undone:
            sheet, count = earlier, count + 1

        assert len(busy()[-1].attempts) == count
        assert busy()[0] == replace(sheet, attempts=())

    def test_nothing_is_forgotten(self):
        """What was taken back was done all the same: the record keeps it, and that it was taken back."""
        sheet = blank(WHIP).enter("normalise", "7").hint("place").undone
        sheet = sheet and sheet.undone

        assert sheet is not None
        assert ["enter", "hint", "undo", "undo"] == [one.doing for one in sheet.attempts]
        assert {} == sheet.entries

    def test_further_after_an_undo(self):
        """After taking back one thing and doing another, that one is taken back first, and then what came before."""
        sheet = blank(WHIP).enter("mismatch", "1").enter("mismatch", "2").undone
        assert sheet is not None
        texts = []
        sheet = sheet.enter("mismatch", "3")
        while sheet := sheet.undone:
            texts.append(sheet.text("mismatch"))

        assert ["1", ""] == texts

    @pytest.mark.parametrize("helped", [lambda s: s.hint("mismatch"), lambda s: s.reveal("mismatch")])
    def test_help_taken_back_was_help(self, helped):
        """Whoever looks at a hint and takes it back has not done the step alone."""
        sheet = helped(blank(WHIP)).undone
        assert sheet is not None
        sheet = sheet.enter("mismatch", sheet.write("mismatch"))
        step = next(one for one in sheet.steps if one.key == "mismatch")

        assert sheet.done(step)
        assert not sheet.unaided(step)
        assert sheet.start_over().enter("mismatch", sheet.write("mismatch")).unaided(step)

    def test_start_over_is_undone(self):
        """Whoever started over by mistake has all back, the steps worked by the tutor as well."""
        sheet = replace(blank(WHIP), shown=3).enter("admittance", "0.441+0.735j").hint("distance")

        undone = sheet.start_over().undone

        assert undone is not None
        assert sheet == replace(undone, attempts=sheet.attempts)

    @pytest.mark.parametrize("act", ["carry", "start over"])
    def test_never_at_the_cost_of_what_is_not_known(self, act):
        """Where a sheet holds more than its attempts tell, as one saved in earlier days, nothing is undone by guess."""
        old = solved(WHIP)
        sheet = old.start_over() if act == "start over" else old.carry("place")

        assert () == old.attempts
        assert sheet.undone is None

    def test_very_many(self):
        """Of very many attempts the last ones are kept, and what came before them cannot be undone."""
        sheet = replace(blank(WHIP), attempts=(Attempt("enter", "mismatch", "2"),) * MOST_ATTEMPTS)
        sheet = sheet.enter("mismatch", "3")

        assert (MOST_ATTEMPTS, "3") == (len(sheet.attempts), sheet.attempts[-1].text)
        assert sheet.undone is None

    def test_a_long_sheet_is_not_judged_anew_each_time(self, monkeypatch):
        """To undo on a sheet of 200 attempts, what was judged alike before is not judged again."""
        sheet, judged = blank(WHIP), []
        for number in range(200):
            sheet = sheet.enter("place", str(number % 7)).enter("mismatch", str(number % 5))

        def counted(field, *rest):
            judged.append(field.key)
            return mark(field, *rest)

        monkeypatch.setattr("lessons.working.sheet.mark", counted)
        undone = replace(sheet, attempts=sheet.attempts[-200:]).undone

        assert undone is not None
        assert (
            0 < len(judged) <= 7 + 5 * 8 * 2
        )  # each text of a field with each value and each slip known before

    def test_redo(self):
        """What was undone can be done again: the same attempts give the same sheet."""
        whole = busy()[-1]
        sheet = busy()[0]
        for attempt in whole.attempts:
            sheet = redo(sheet, attempt)

        assert whole == sheet


class TestDraw:
    def test_an_attempt_of_its_own(self):
        """A drawing is written as a student would write it, judged like it, and remembered as drawn."""
        drawn = blank(WHIP).draw("place", REFLECTION)
        text = drawn.text("place")

        assert "0.571 ∠ −79.8°" == text
        assert blank(WHIP).enter("place", text).verdicts == drawn.verdicts
        assert (Attempt("draw", "place", text),) == drawn.attempts

    @pytest.mark.parametrize(
        ("key", "answer"),
        [
            ("mismatch", abs(REFLECTION)),
            ("admittance", REFLECTION),
            ("start.point", "short"),
            ("distance.near", 0.0625),
        ],
    )
    def test_whatever_can_be_drawn(self, key, answer):
        """A circle's size, a point, an end picked and a walk are right where they are right in writing."""
        assert "right" == blank(WHIP).draw(key, answer).verdicts[key].judgement

    def test_of_another_gesture(self):
        """An answer that the field's gesture cannot give is refused."""
        with pytest.raises(TypeError, match=r"distance\.near is not answered by 'short'"):
            blank(WHIP).draw("distance.near", "short")


def carried_on(given: Problem, wrong: dict[str, str]) -> Sheet:
    """A sheet with these values carried on, and whatever follows from them in every other field."""
    sheet = blank(given)
    for one in fields_of(sheet):
        sheet = sheet.enter(one.key, wrong.get(one.key) or sheet.work.write(one.key))
        sheet = sheet.carry(one.key) if one.key in wrong else sheet
    return sheet


class TestMatched:
    WRONG = carried_on(shipped("whip-434"), {"admittance": "0.7-0.9j"})

    def test_solved(self):
        """The solver's answers match, and the sheet is solved."""
        sheet = solved(shipped("whip-434"))

        assert (True, True, True, None) == (sheet.finished, sheet.matched, sheet.solved, sheet.went_wrong)

    def test_a_design_carried_on_wrong(self):
        """With a wrong admittance and all else right for it the sheet is finished, consistent and not solved."""
        assert self.WRONG.finished
        assert ["admittance"] == [key for key, verdict in self.WRONG.verdicts.items() if not verdict.accepted]
        assert (False, False) == (self.WRONG.matched, self.WRONG.solved)
        assert "admittance" == (self.WRONG.went_wrong.key if self.WRONG.went_wrong else "")

    def test_put_right(self):
        """Back at the step where it went wrong and put right, the later entries are still there and judged anew."""
        sheet = self.WRONG.enter("admittance", self.WRONG.write("admittance"))

        assert set(self.WRONG.entries) == set(sheet.entries)
        assert (False, None) == (sheet.finished, sheet.matched)
        assert "distance" == (sheet.current.key if sheet.current else "")

    def test_a_wrong_stub(self):
        """A stub of 0.20 wavelength carried on does not match, though its total is right for it."""
        sheet = carried_on(WHIP, {"length.near": "0.2"})

        assert sheet.verdicts["total.near"].accepted
        assert (False, "length") == (sheet.matched, sheet.went_wrong.key if sheet.went_wrong else "")

    def test_not_before_the_end(self):
        """While anything is open nothing is said of a match."""
        sheet = solved(WHIP).enter("length.far", "0.3")

        assert (False, None, False) == (sheet.finished, sheet.matched, sheet.solved)

    def test_readings_within_the_tolerance(self):
        """Lengths read a little off match as well as can be read: that is solved."""
        near, far = single_stub(30 - 50j, 50)
        sheet = solved(WHIP).enter("length.near", f"{near.stub_length + 0.004:.4f}")
        sheet = sheet.enter("distance.far", f"{far.distance - 0.004:.4f}")

        assert (True, True, None) == (sheet.matched, sheet.solved, sheet.went_wrong)

    def test_a_wrong_value_that_does_no_harm(self):
        """A wrong ratio carried on beside lengths that match is no solved sheet: it went wrong there."""
        sheet = filled(blank(WHIP), {k: e.text for k, e in solved(WHIP).entries.items()})
        sheet = sheet.enter("mismatch", "9").carry("mismatch")

        assert (True, True, False) == (sheet.finished, sheet.matched, sheet.solved)
        assert "mismatch" == (sheet.went_wrong.key if sheet.went_wrong else "")

    @pytest.mark.parametrize(
        "given", [*shipped_problems(), *shipped_problems(SERIES_LESSON)], ids=lambda p: p.key
    )
    def test_every_shipped_problem(self, given):
        """On every shipped problem of both lessons the solver's answers, to three decimals, are solved and matched."""
        sheet = solved(given)

        assert (True, True, None) == (sheet.matched, sheet.solved, sheet.went_wrong)


class TestFollowThrough:
    """z = 0.6 - j1 is right; then y is written with its sign lost and taken along."""

    CARRIED = (
        blank(WHIP)
        .enter("normalise", "0.6-1j")
        .enter("admittance", str(WRONG_Y).strip("()"))
        .carry("admittance")
    )

    def test_one_error_costs_one_step(self):
        """With one wrong value carried on and all the rest right for it, one step alone is at fault."""
        sheet = filled(self.CARRIED, {k: t for k, t in answers(self.CARRIED.work, self.CARRIED).items() if k not in
                                      self.CARRIED.entries})  # fmt: skip

        assert ["admittance"] == [key for key, verdict in sheet.verdicts.items() if not verdict.accepted]
        assert ["admittance"] == [step.key for step in sheet.steps if not sheet.clean(step)]
        assert sheet.finished

    def test_later_lengths_are_those_of_the_wrong_load(self):
        """The lengths that follow are those the core finds for the load whose admittance was written."""
        near, far = single_stub(50 / WRONG_Y, 50)
        work = self.CARRIED.work

        assert pytest.approx([near.distance, near.stub_length, far.distance, far.stub_length]) == [
            work[key] for key in ("distance.near", "length.near", "distance.far", "length.far")
        ]

    def test_said_to_follow(self):
        """A value right for the student's earlier ones, though not for the problem, is right, and why is said."""
        near, _ = single_stub(50 / WRONG_Y, 50)
        verdict = self.CARRIED.enter("distance.near", f"{near.distance:.4f}").verdicts["distance.near"]

        assert ("right", True) == (verdict.judgement, verdict.follows)
        assert "Right for your earlier values" in verdict.sentence
        assert "this step is not at fault" in verdict.sentence

    def test_the_solvers_value_is_right_too(self):
        """Whoever finds the problem's own value in spite of an earlier error is right, and nothing follows."""
        near, _ = single_stub(30 - 50j, 50)
        verdict = self.CARRIED.enter("distance.near", f"{near.distance:.4f}").verdicts["distance.near"]

        assert ("right", False) == (verdict.judgement, verdict.follows)

    def test_not_carried_not_followed(self):
        """A wrong value that was not taken along is corrected for: later steps are judged from the solver's."""
        near, _ = single_stub(50 / WRONG_Y, 50)
        sheet = blank(WHIP).enter("admittance", str(WRONG_Y).strip("()"))

        assert not sheet.enter("distance.near", f"{near.distance:.4f}").verdicts["distance.near"].accepted

    def test_what_cannot_be_read_cannot_be_carried(self):
        """There is nothing to take along from a box that holds no number."""
        sheet = blank(WHIP).enter("admittance", "abc").carry("admittance")

        assert not sheet.settled("admittance")
        assert sheet.work["admittance"] == sheet.truth["admittance"]

    def test_corrected_later(self):
        """When the error is put right, what followed from it is judged afresh."""
        near, _ = single_stub(50 / WRONG_Y, 50)
        sheet = self.CARRIED.enter("distance.near", f"{near.distance:.4f}").enter(
            "admittance", "0.4412+0.7353j"
        )

        assert not sheet.verdicts["distance.near"].accepted


class TestImpossibleCarry:
    SHEET = blank(WHIP).enter("admittance", "j0.5").carry("admittance")

    @pytest.mark.parametrize("key", ["crossing.near", "crossing.far"])
    def test_sends_back_to_the_step(self, key):
        """A carried admittance without conductance never reaches g = 1: the student is sent back to it."""
        verdict = self.SHEET.enter(key, "1+1j").verdicts[key]

        assert ("impossible", "admittance") == (verdict.judgement, verdict.back_to)

    def test_hints_say_so(self):
        """A hint that would need the impossible value says why there is none."""
        assert "go back to that step" in self.SHEET.hint("distance").hint("distance").hint("distance").hints_shown(
            next(step for step in self.SHEET.steps if step.key == "distance"))[2]  # fmt: skip

    def test_showing_says_so(self):
        """The tutor cannot show it either, and the step stays open."""
        sheet = self.SHEET.reveal_step("crossing")

        assert "impossible" == sheet.verdicts["crossing.near"].judgement
        assert not sheet.settled("crossing.near")
        assert "" == sheet.text("crossing.near")


class TestHints:
    def test_four_rungs(self):
        """Hints climb from the goal over the rule and the rule with numbers to the answer, one at a time."""
        sheet = blank(WHIP)
        step = next(step for step in sheet.steps if step.key == "distance")
        shown = []
        for _ in range(RUNGS + 2):
            sheet = sheet.hint("distance")
            shown.append(sheet.hints_shown(step))

        assert [1, 2, 3, 4, 4, 4] == [len(texts) for texts in shown]
        assert (step.goal, sheet.truth.say(step.rule)) == shown[1]
        assert "0.063" not in " ".join(shown[2])
        assert "λ beside y" in shown[2][2]
        assert "try a similar problem next" in shown[3][3]

    def test_the_last_one_fills_in(self):
        """Only the fourth hint settles the step."""
        sheet = blank(WHIP)
        done = []
        for _ in range(RUNGS):
            sheet = sheet.hint("distance")
            done.append(sheet.done(next(step for step in sheet.steps if step.key == "distance")))

        assert [False, False, False, True] == done
        assert "0.063 λ" == sheet.text("distance.near")

    @pytest.mark.parametrize("rungs", [1, 2, 3, 4])
    def test_a_step_with_a_hint_is_not_clean(self, rungs):
        """A step done with any hint counts as assisted, however right its answers."""
        sheet = solved(WHIP)
        for _ in range(rungs):
            sheet = sheet.hint("distance")

        assert ["distance"] == [step.key for step in sheet.steps if not sheet.clean(step)]

    def test_all_hints_of_all_steps(self):
        """Every step of every shipped problem has four hints, each in words."""
        for given in shipped_problems():
            sheet = blank(given)
            for step in sheet.steps:
                for _ in range(RUNGS):
                    sheet = sheet.hint(step.key)
                assert RUNGS == len([text for text in sheet.hints_shown(step) if len(text) > 20])
            assert sheet.finished


class TestReveal:
    def test_shown_and_not_clean(self):
        """What the tutor shows settles the step, and the step does not count as the student's."""
        sheet = blank(WHIP).reveal_step("admittance")
        step = next(step for step in sheet.steps if step.key == "admittance")

        assert ("0.441 + j0.735", True, False) == (
            sheet.text("admittance"),
            sheet.done(step),
            sheet.clean(step),
        )

    def test_one_field_alone(self):
        """One field may be shown alone: the other stays open, and the step counts as assisted with all hints taken."""
        sheet = blank(WHIP).reveal("distance.near")
        step = next(step for step in sheet.steps if step.key == "distance")

        assert ("0.063 λ", False) == (sheet.text("distance.near"), sheet.settled("distance.far"))
        assert RUNGS == sheet.hints["distance"]
        assert not sheet.enter("distance.far", "0.216").clean(step)
        assert (Attempt("reveal", "distance.near"),) == sheet.attempts

    def test_a_field_that_there_is_not(self):
        """A field that the lesson does not have cannot be shown."""
        with pytest.raises(KeyError, match="nonsense"):
            blank(WHIP).reveal("nonsense")

    def test_typing_over_it_does_not_clean_it(self):
        """Copying what the tutor showed does not make the step one's own."""
        sheet = blank(WHIP).reveal_step("admittance").enter("admittance", "0.441+0.735j")
        step = next(step for step in sheet.steps if step.key == "admittance")

        assert (True, False) == (sheet.done(step), sheet.clean(step))

    def test_only_what_is_lacking(self):
        """A right answer of the student's stays; only the open box is filled in."""
        sheet = blank(WHIP).enter("distance.near", "0.063").reveal_step("distance")

        assert ("0.063", "0.216 λ") == (sheet.text("distance.near"), sheet.text("distance.far"))

    def test_what_was_typed_is_kept_below(self):
        """The student's own text is still there under what the tutor shows."""
        assert "9.9" == blank(WHIP).enter("mismatch", "9.9").reveal_step("mismatch").entries["mismatch"].text

    def test_follows_from_the_students_values(self):
        """What is shown after a carried error is what follows from it."""
        near, _ = single_stub(50 / WRONG_Y, 50)
        sheet = TestFollowThrough.CARRIED.reveal_step("distance")

        assert f"{near.distance:.3f} λ" == sheet.text("distance.near")

    def test_worked_steps(self):
        """Leading steps worked by the tutor are filled in and are not the student's."""
        sheet = Sheet(WHIP_LESSON, WHIP, shown=3)

        assert [True, True, True, False] == [sheet.done(step) for step in sheet.steps[:4]]
        assert not any(sheet.clean(step) for step in sheet.steps[:3])
        assert "0.600 − j1.000" == sheet.text("normalise")


WHIP_LESSON = blank(WHIP).lesson


class TestClean:
    def test_a_slip_put_right_is_not_clean(self):
        """A step with a named mistake on the way is done, and not clean."""
        sheet = solved(WHIP).enter("normalise", "30-50j").enter("normalise", "0.6-1j")

        assert ["normalise"] == [step.key for step in sheet.steps if not sheet.clean(step)]

    def test_a_slip_of_several_is_not_clean_either(self):
        """So is one with a mistake that could have been one of several."""
        right = answers(blank(WHIP).truth, blank(WHIP))["needed.near"]
        sheet = solved(WHIP).enter("needed.near", right.lstrip("-")).enter("needed.near", right)

        assert ["needed"] == [step.key for step in sheet.steps if not sheet.clean(step)]

    def test_slips_are_kept_once(self):
        """Going to and fro between a mistake and its mending does not grow the sheet."""
        sheet = blank(WHIP)
        for _ in range(5):
            sheet = sheet.enter("normalise", "30-50j").enter("normalise", "0.6-1j")

        assert ("not normalised",) == sheet.entries["normalise"].slips


@pytest.mark.parametrize(
    "text", BAD, ids=["abc", "1e999", "-50", "nan", "10,000 characters", "script", "empty"]
)
@pytest.mark.parametrize("key", ONE_OF_EACH)
class TestBadEntries:
    GIVEN = shipped("whip-stub-75")
    WHOLE = solved(GIVEN)

    def test_one_sentence(self, key, text):
        """A bad entry gets its reason in a sentence, or two where the second says what to do, and is not accepted."""
        verdict = self.WHOLE.enter(key, text).verdicts[key]

        assert not verdict.accepted
        assert sentences(verdict.sentence) <= (1 if verdict.judgement == "unreadable" else 2)
        assert 10 < len(verdict.sentence) < 250
        assert verdict.sentence.endswith(".")

    def test_nothing_else_changes(self, key, text):
        """Every other entry stays as it was, and so does what was said of it; the bad one can be seen and mended."""
        sheet = self.WHOLE.enter(key, text)

        assert {**self.WHOLE.entries, key: Entry(text)} == sheet.entries
        assert {k: v for k, v in self.WHOLE.verdicts.items() if k != key} == {
            k: v for k, v in sheet.verdicts.items() if k != key
        }
        assert text == sheet.text(key)


class TestUnknown:
    @pytest.mark.parametrize("act", ["enter", "carry"])
    def test_field(self, act):
        """A box that the lesson does not have is refused."""
        with pytest.raises(KeyError, match="nonsense"):
            getattr(blank(WHIP), act)("nonsense", *(["1"] if act == "enter" else []))

    def test_step(self):
        """A step that the lesson does not have is refused."""
        with pytest.raises(KeyError, match="nonsense"):
            blank(WHIP).reveal_step("nonsense")


@pytest.mark.parametrize("seed", range(150))
def test_no_working_is_too_wild(seed):
    """Whatever is typed, carried on, hinted at and shown, a sheet judges it and can be drawn."""
    dice = Random(seed)
    sheet = blank(dice.choice(shipped_problems()), dice.choice(NOTATIONS))
    for one in fields_of(sheet):
        kind = one.kind(sheet.truth)
        offered = [key for key, _ in kind.options] if isinstance(kind, Choice) else HARD
        if dice.random() < 0.6:
            sheet = sheet.enter(one.key, dice.choice(offered))
            sheet = sheet.carry(one.key) if dice.random() < 0.7 else sheet
    for step in sheet.steps:
        for _ in range(dice.choice((0, 0, 1, 3, 4))):
            sheet = sheet.hint(step.key)

    assert all(verdict.sentence.strip() for verdict in sheet.verdicts.values())
    assert all(isinstance(sheet.text(one.key), str) for one in fields_of(sheet))
    assert all(len(sheet.hints_shown(step)) == sheet.hints.get(step.key, 0) for step in sheet.steps)
    assert all(stroke.spoken for _, group in stroke_groups(sheet) for stroke in group)
    assert {plan.branch and plan.branch.key for plan in plans(sheet)} <= {None, "near", "far"}
