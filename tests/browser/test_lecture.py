"""A lecture is given by keyboard alone; it is read from the last row, followed by its presenter, and never lost."""

import re
from pathlib import Path
from statistics import median

import pytest
from playwright.sync_api import Page, WebSocket, expect

from lessons.grammar.notation import STANDARD
from tests.browser.projector import INK, LINK, Projector, frames_of
from tests.browser.waits import ready

FULL_HD = {"width": 1920, "height": 1080}
SMALLEST_CAPITAL, THINNEST_LINE = 30 / 1080, 4 / 1080  # of the height: the project's own design
LONG = {"load": "123-456j", "line": "75", "stub": "100", "end": "open", "admittance": "overlay"}
"""A problem that takes many words."""
FRAMES = frames_of(LINK)
KEYS = [frame.key for frame in FRAMES]

BROKEN = (
    "no json",
    "5",
    "[]",
    '{"problem": 7, "revealed": 5}',
    '{"problem": {"load": ["x"]}, "notation": {}, "showing": {}}',
    '{"problem": {"load": "<b>"}, "notation": {"d": "{}"}, "showing": "up", "frame": {}}',
)
"""What a browser could have kept that is no lecture of ours."""


@pytest.fixture
def room(page: Page, tmp_path: Path) -> Projector:
    """The lecture with the linked problem."""
    return Projector(page, album=tmp_path)


def numbers_of(frame) -> list[str]:
    """The values of a frame that are numbers, so that they can be told from other words."""
    return [one.text for one in frame.outcomes if any(sign.isdigit() for sign in one.text)]


class TestTenMinutes:
    @pytest.mark.screen(**FULL_HD)
    def test_by_keyboard_alone(self, room: Projector):
        """A whole lecture: every construction drawn and revealed, questions from the room, another load, and back."""
        for number, frame in enumerate(FRAMES):
            if number:
                room.press("PageDown")
            self._is_asked(room, frame, number)
            room.press("v")
            self._is_revealed(room, frame)
            if frame.key == "distance":
                self._questions(room)
        self._another_load(room)
        self._near_and_far(room)
        self._back(room)

        assert room.album is not None
        pictures = sorted(room.album.glob("*.png"))
        assert len(pictures) == room.taken > 2 * len(FRAMES)
        assert all(picture.stat().st_size > 10_000 for picture in pictures)

    def _is_asked(self, room: Projector, frame, number: int) -> None:
        expect(room.words).to_have_attribute("data-frame", frame.key)
        expect(room.words.locator("h2")).to_contain_text(frame.title)
        room.drawn_out()
        room.picture(f"{frame.key} asked")
        assert sum(len(one.strokes) for one in FRAMES[: number + 1]) == room.strokes()
        shown = f"{room.words.inner_text()} {room.labels()} {room.heard()}"
        assert [] == [
            text for text in (*numbers_of(frame), frame.numbers) if text and text in shown and "=" not in text
        ]
        assert len(frame.outcomes) == room.words.locator(".value.hidden").count()

    def _is_revealed(self, room: Projector, frame) -> None:
        shown = re.sub(r"\s+", " ", room.words.inner_text())
        room.picture(f"{frame.key} revealed")
        heard = " ".join(room.heard().split())
        for text in (*(one.text for one in frame.outcomes), frame.numbers, frame.because):
            assert " ".join(text.split()) in shown
            assert " ".join(text.split()) in heard
        for stroke in frame.strokes:
            if stroke.value:
                name = re.sub(r"[_{}]", "", stroke.label)  # what follows an underscore is set as a subscript
                assert f"{name} = {stroke.value}".removeprefix(" = ") in room.labels()

    def _questions(self, room: Projector) -> None:
        """A question at the distances: one stroke after another in the light, a blank chart, the pen, and on."""
        before = room.strokes()
        room.press("s")
        assert room.lit() == 1
        first = room.heard()
        room.press("s")
        assert room.heard() != first
        assert room.lit() == 1
        room.picture("spotlight")
        room.press("Escape", "b")
        assert room.strokes() == 0
        assert room.modes() == ["Chart blank"]
        room.press("p")
        assert room.modes() == ["Pen on", "Chart blank"]
        room.picture("blank with pen")
        room.press("p", "b")
        assert (room.strokes(), room.modes()) == (before, [])

    def _another_load(self, room: Projector) -> None:
        """A load from the room, in the middle: everything before and after it is that load's."""
        room.press("Home", *["PageDown"] * 8, "l", "Control+a")
        room.page.keyboard.type("25 - j40")
        room.press("Enter")
        expect(room.page.locator(".brief")).to_contain_text("25 − j40")
        others = frames_of({**LINK, "load": "25-40j"})
        for frame in others[8:]:
            expect(room.words).to_have_attribute("data-frame", frame.key)
            shown = re.sub(r"\s+", " ", room.words.inner_text())
            assert [] == [one.text for one in frame.outcomes if " ".join(one.text.split()) not in shown]
            room.drawn_out()
            room.picture(f"{frame.key} of another load")
            room.press("PageDown")

    def _near_and_far(self, room: Projector) -> None:
        room.press("Home", *["PageDown"] * 8)
        for words, roles in (
            ("Near, then far", ["first"]),
            ("Near only", ["first"]),
            ("Far only", ["second"]),
            ("Near and far", ["first", "second"]),
        ):
            room.press("n")
            expect(room.page.get_by_role("button", name=words, exact=True)).to_be_visible()
            assert roles == [role for role in ("first", "second") if room.words.locator(f"dd.{role}").count()]
            room.picture(words)

    def _back(self, room: Projector) -> None:
        room.press("End")
        for frame in reversed(FRAMES):
            expect(room.words).to_have_attribute("data-frame", frame.key)
            room.press("PageUp")
        assert room.strokes() == 0
        room.picture("back at the beginning")


class TestKeys:
    @pytest.mark.parametrize(
        ("onward", "back"), [("ArrowRight", "ArrowLeft"), ("PageDown", "PageUp"), ("Space", "PageUp")]
    )
    def test_step(self, room: Projector, onward: str, back: str):
        """Arrow keys, a clicker's keys and Space go on and back."""
        room.press(onward, onward)
        assert room.frame() == KEYS[2]
        room.press(back)

        assert room.frame() == KEYS[1]

    def test_ends(self, room: Projector):
        """End and Home lead to the last and the first frame, and there is nothing beyond them."""
        room.press("End", "PageDown")
        assert room.frame() == KEYS[-1]
        room.press("Home", "PageUp")

        assert room.frame() == KEYS[0]

    def test_full_stop_hides_again(self, room: Projector):
        """The full stop reveals the values, and hides them again."""
        room.press("PageDown", ".")
        expect(room.words).to_contain_text("1.200 − j1.600")
        room.press(".")

        expect(room.words).not_to_contain_text("1.200 − j1.600")

    def test_all_values(self, room: Projector):
        """With Shift, V reveals the values of every frame."""
        room.press("Shift+V", "End", "PageUp")

        expect(room.words).to_have_class("told")

    def test_not_while_typing(self, room: Projector):
        """In an entry, letters are letters."""
        room.press("l", "Control+a")
        room.page.keyboard.type("bpsnv .?")
        assert room.modes() == []
        assert room.page.locator("#own-load").input_value() == "bpsnv .?"
        room.press("Escape", "b")

        assert room.modes() == ["Chart blank"]

    def test_card(self, room: Projector):
        """A question mark shows a card of all keys, Escape closes it; each line of it does what it says."""
        card = room.page.get_by_role("dialog", name="Keys")
        room.press("?")
        expect(card).to_be_visible()
        expect(card.get_by_role("button")).to_have_count(25)
        room.press("Escape")
        expect(card).to_be_hidden()
        room.press("?")
        card.get_by_role("button", name="Freehand pen").click()

        assert room.modes() == ["Pen on"]

    def test_every_button_has_its_key(self, room: Projector):
        """Every button of the bar does what its key does, and is found by Tab."""
        bar = room.page.get_by_role("toolbar")
        bar.get_by_role("button", name="Forward").click()
        assert room.frame() == KEYS[1]
        room.press("Space")
        assert room.frame() == KEYS[2]
        bar.get_by_role("button", name="Blank").focus()
        room.press("Space")

        assert room.modes() == ["Chart blank"]
        assert room.frame() == KEYS[2]

    def test_buttons_hide_in_full_screen(self, room: Projector):
        """In full screen the buttons hide after a few seconds, and come back with the pointer or with Tab."""
        bar = room.page.get_by_role("toolbar")
        room.press("f")
        room.page.wait_for_function("() => document.fullscreenElement")
        room.page.mouse.move(300, 300)
        expect(bar).to_have_css("opacity", "1")
        expect(bar).to_have_css("opacity", "0", timeout=8000)
        bar.get_by_role("button", name="Keys").focus()
        room.press("Tab", "Shift+Tab")
        expect(bar).to_have_css("opacity", "1")
        room.page.wait_for_timeout(3500)
        expect(bar).to_have_css("opacity", "1")


class TestPen:
    def test_draws_only_when_on(self, room: Projector):
        """The pen draws after its key, under a word that says so, and is cleared by another; else nothing is drawn."""
        lines = room.page.locator("svg.pen path")
        self._scribble(room)
        expect(lines).to_have_count(0)
        room.press("p")
        assert room.modes() == ["Pen on"]
        self._scribble(room)
        expect(lines).to_have_count(1)
        room.press("PageDown", "p")
        self._scribble(room)
        expect(lines).to_have_count(1)
        room.press("c")
        expect(lines).to_have_count(0)

    def test_keeps_its_place_on_the_chart(self, room: Projector):
        """What the pen drew stays where it is on the chart when the window changes its size."""
        room.press("p")
        before = self._scribble(room)
        room.page.set_viewport_size({"width": 1000, "height": 640})
        room.page.wait_for_function("() => innerWidth === 1000")

        assert self._place(room) == pytest.approx(before, abs=0.01)

    def _scribble(self, room: Projector) -> list[float]:
        room.page.mouse.move(200, 200)
        room.page.mouse.down()
        for step in range(10):
            room.page.mouse.move(200 + 12 * step, 200 + 30 * (step % 3))
        room.page.mouse.up()
        return self._place(room)

    def _place(self, room: Projector) -> list[float]:
        """Upper left of what was drawn, in parts of the chart's width."""
        path, chart = (room.page.locator(one).first for one in ("svg.pen path", "#stage"))
        box, around = (path.bounding_box() if path.count() else None), chart.bounding_box()
        return [(box[a] - around[a]) / around["width"] for a in ("x", "y")] if box and around else []


class TestLoad:
    def test_dragged(self, room: Projector):
        """The load's point is dragged on the chart, and everything that is shown is that load's."""
        room.press(*["PageDown"] * 6, "v", "m")
        assert room.modes() == ["Move the load"]
        expect(room.page.locator(".pad.asked")).to_be_visible()
        grip = room.page.locator(".hand .dot").bounding_box()
        assert grip
        x, y = grip["x"] + grip["width"] / 2, grip["y"] + grip["height"] / 2
        room.page.mouse.move(x, y)
        room.page.mouse.down()
        room.page.mouse.move(x - 60, y - 20, steps=5)
        room.page.mouse.up()
        expect(room.page.locator(".brief")).not_to_contain_text("60 − j80")
        self._is_shown(room)
        room.press("Escape")

        assert room.modes() == []
        expect(room.page.locator(".pad.asked")).to_have_count(0)

    def test_the_construction_follows(self, room: Projector):
        """While the load is still held, the construction is already that of where it is; let go, it is taken."""
        room.press(*["PageDown"] * 6, "v", "m")
        expect(room.page.locator(".pad.asked")).to_be_visible()
        grip = room.page.locator(".hand .dot").bounding_box()
        assert grip
        x, y = grip["x"] + grip["width"] / 2, grip["y"] + grip["height"] / 2
        before = room.words.inner_text()
        room.page.mouse.move(x, y)
        room.page.mouse.down()
        room.page.mouse.move(x - 60, y - 20, steps=5)
        expect(room.page.locator(".brief")).not_to_contain_text("60 − j80")
        expect(room.words).not_to_have_text(before)

        assert room.frame() == KEYS[6]
        assert "load=60-80j" in room.page.url.replace("%2B", "+")
        room.page.mouse.up()
        room.page.wait_for_function("() => !location.search.includes('load=60-80j')")
        self._is_shown(room)

    def test_moved_by_keys(self, room: Projector):
        """Arrow keys move the load's point and Enter puts it there; a clicker still steps."""
        room.press(*["PageDown"] * 6, "v", "m")
        expect(room.page.locator(".pad.asked")).to_be_visible()
        room.press(*["ArrowLeft"] * 8, "Enter")
        expect(room.page.locator(".brief")).not_to_contain_text("60 − j80")
        assert room.frame() == KEYS[6]
        self._is_shown(room)
        room.press("PageUp")

        assert room.frame() == KEYS[5]

    def _is_shown(self, room: Projector) -> None:
        """That the page shows the load of its own address, as the walkthrough has it."""
        room.page.wait_for_function(
            "old => new URLSearchParams(location.search).get('load') !== old", arg=LINK["load"]
        )
        load = room.page.evaluate("new URLSearchParams(location.search).get('load')")
        frame = next(f for f in frames_of({**LINK, "load": load}) if f.key == room.frame())
        for outcome in frame.outcomes:
            expect(room.words).to_contain_text(outcome.text)
        assert load != LINK["load"]

    def test_bad_entry(self, room: Projector):
        """A bad load gets its reason beside the entry, and the lecture stays as it is."""
        room.press("PageDown", "l", "Control+a")
        room.page.keyboard.type("-50")
        room.press("Enter")
        expect(room.page.locator("#own-load-fault")).to_have_text(re.compile(r"\.$"))
        room.press("Escape")

        assert room.frame() == KEYS[1]
        expect(room.page.locator(".brief")).to_contain_text("60 − j80")

    def test_opened_while_waiting(self, room: Projector):
        """An entry that is opened while the server still answers something else stays open, with what is typed."""
        room.press("n", "l", "Control+a")
        room.page.keyboard.type("25-40j")
        expect(room.page.get_by_role("button", name="Near, then far", include_hidden=True)).to_be_attached()
        room.press("Enter")

        expect(room.page.locator(".brief")).to_contain_text("25 − j40")

    def test_without_a_match(self, room: Projector):
        """A load that takes no power gets its sentence, its point is on the chart, and the lecture goes on."""
        room.press("PageDown", "PageDown", "l", "Control+a")
        room.page.keyboard.type("25j")
        room.press("Enter")
        expect(room.page.locator(".refusal")).to_contain_text("takes no power")
        assert room.strokes() == 1
        room.press("PageDown", "v", "Shift+V", "s", "l", "Control+a")
        room.page.keyboard.type("25+10j")
        room.press("Enter")

        expect(room.words).to_have_attribute("data-frame", KEYS[3])

    def test_from_the_set(self, room: Projector):
        """A problem of the set is chosen with its story."""
        room.press("l")
        room.page.get_by_label("From the river watch").select_option(index=1)

        expect(room.page.get_by_role("dialog")).to_have_count(0)
        expect(room.words.locator(".ask")).to_have_text(re.compile(r"\.$"))


class TestDrawing:
    def test_starts_at_once(self, room: Projector):
        """From the key until a first part of a stroke is on the screen it takes less than a tenth of a second."""
        waits = []
        for frame in FRAMES[1:]:
            room.page.evaluate(WATCH_KEY)
            room.press("PageDown")
            if any(type(stroke).__name__ != "Point" for stroke in frame.strokes):
                waits.append(room.page.evaluate("window.firstStroke"))
            room.drawn_out()

        assert len(waits) == 5
        assert median(waits) < 100  # the middle one: other programs share the machine

    def test_asks_nobody(self, page: Page):
        """Stepping, revealing, spotlight, blank chart and pen send nothing to the server."""
        sent: list[object] = []

        def listen(socket: WebSocket) -> None:
            socket.on("framesent", lambda frame: sent.append(frame))

        page.on("websocket", listen)
        room = Projector(page)
        page.wait_for_timeout(300)  # what the page itself says as it is made
        before = len(sent)
        assert before
        for _ in FRAMES:
            room.press("PageDown", "v", "s", "Escape")
            room.drawn_out()
        room.press("b", "b", "p", "p", "t", "Home", "End", "Shift+V", "?", "Escape")
        page.wait_for_timeout(300)

        assert before == len(sent)
        room.press("n")
        expect(page.get_by_role("button", name="Near, then far")).to_be_visible()
        assert before < len(sent)

    def test_as_a_hand_would(self, room: Projector):
        """A stroke grows from its beginning: part of it is on the screen before all of it is."""
        parts = self._grown(room)

        assert parts == sorted(parts)
        assert len(set(parts)) > 5
        assert parts[0] < 0.5 * parts[-1]

    @pytest.mark.screen(reduced_motion="reduce")
    def test_at_once_without_motion(self, room: Projector):
        """Whoever wants no motion sees a stroke whole from its first moment on."""
        assert len(set(self._grown(room))) == 1

    def _grown(self, room: Projector) -> list[int]:
        """Lengths of the mismatch circle, frame by frame of the screen, as it is drawn."""
        room.press("PageDown", "PageDown")
        room.drawn_out()
        room.page.evaluate(WATCH_GROWTH)
        room.press("PageDown")
        return room.page.evaluate("window.growth")

    def test_back_and_on_again(self, room: Projector):
        """A step back takes its strokes away, and the step on draws them again."""
        room.press(*["PageDown"] * 4)
        room.drawn_out()
        with_admittance = room.strokes()
        room.press("PageUp")
        assert room.strokes() == with_admittance - 2
        room.press("PageDown")
        room.drawn_out()

        assert room.strokes() == with_admittance


class TestLastRow:
    @pytest.mark.parametrize(
        "height",
        [
            pytest.param(1080, marks=pytest.mark.screen(**FULL_HD, reduced_motion="reduce")),
            pytest.param(720, marks=pytest.mark.screen(width=1280, height=720, reduced_motion="reduce")),
        ],
    )
    @pytest.mark.parametrize("texts", [LINK, LONG], ids=["usual", "long"])
    def test_legible(self, page: Page, texts: dict[str, str], height: int):
        """In every frame a capital is 30 pixels high on 1080 lines, no line thinner than 4, and nothing cut off."""
        room = Projector(page, texts)
        for frame in frames_of(texts)[1:]:
            room.press("PageDown", "v")
            seen = page.evaluate(LEGIBLE)
            assert min(seen["capitals"]) >= SMALLEST_CAPITAL * height, frame.key
            assert min(seen["lines"], default=99) >= THINNEST_LINE * height * 0.999, frame.key
            assert seen["cut"] == [], frame.key

    @pytest.mark.screen(**FULL_HD)
    def test_scales_are_enlarged(self, page: Page):
        """The numbers of the outer scales are at least half as large again as on the practise page of that screen."""
        sizes = []
        for address in ("/", "/lecture"):
            page.goto(address)
            ready(page)
            page.wait_for_function(f"() => ({SCALE_LETTERS}) > 0")
            sizes.append(page.evaluate(SCALE_LETTERS))

        assert sizes[1] >= 1.5 * sizes[0]

    def test_palettes(self, room: Projector):
        """Light, dark, and black and white, each by the same key; without colour every role is black."""
        roles = (
            "--load",
            "--mismatch",
            "--unit",
            "--first",
            "--second",
            "--third",
            "--fourth",
            "--ink",
            "--quiet",
            "--slip",
        )
        assert room.variable("--paper") == "#fbfaf6"
        room.press("t")
        assert room.variable("--paper") == "#16181d"
        room.press("t")
        assert {room.variable(role) for role in roles} == {"#000000"}
        assert room.variable("--paper") == "#ffffff"
        room.press("t")

        assert room.variable("--paper") == "#fbfaf6"

    def test_roles_without_colour(self, room: Projector):
        """In black and white strokes are told apart by dash, arrow and marker."""
        room.press("t", "t", *["PageDown"] * 8)
        room.drawn_out()
        roles = ("mismatch", "unit", "first", "second")
        lines = {role: room.page.locator(f".ink .line.role-{role}").first for role in roles}
        dash = "line => getComputedStyle(line).strokeDasharray"
        dashes = {role: line.evaluate(dash) for role, line in lines.items()}
        points = [room.page.locator(f".ink .mark.role-{role}").first for role in ("load", "first", "second")]
        marks = {point.get_attribute("d") for point in points}

        assert dashes["mismatch"] == dashes["first"] == "none"
        assert len({dashes["unit"], dashes["second"], "none"}) == 3
        assert len(marks) == 3

    @pytest.mark.parametrize(
        "width",
        [
            pytest.param(width, marks=pytest.mark.screen(width=width, height=height))
            for width, height in ((360, 640), (768, 1024), (1024, 768))
        ],
    )
    def test_other_screens(self, room: Projector, width: int):
        """On a phone, upright or of the old shape, nothing is wider than the screen and every word can be reached."""
        room.press(*["PageDown"] * KEYS.index("choose"), "v")

        assert room.page.evaluate("document.documentElement.scrollWidth") <= width
        room.words.locator("p").last.scroll_into_view_if_needed()
        expect(room.words.locator("p").last).to_be_in_viewport()


class TestKeeping:
    def test_reload(self, room: Projector):
        """Frame, load, what was revealed, near or far, and the palette are there again after a reload."""
        room.press("n", "n")
        expect(room.page.get_by_role("button", name="Near only", exact=True)).to_be_visible()
        room.press(*["PageDown"] * 8, "v", "t", "l", "Control+a")
        room.page.keyboard.type("25-40j")
        room.press("Enter")
        expect(room.page.locator(".brief")).to_contain_text("25 − j40")
        shown = room.words.inner_text()
        room.page.reload()
        ready(room.page)

        assert shown == room.words.inner_text()
        assert room.frame() == "distance.near"
        assert room.variable("--paper") == "#16181d"

    def test_another_visit(self, room: Projector):
        """Without a link the lecture goes on where it was left."""
        room.press("PageDown", "PageDown")
        room.page.goto("/lecture")
        ready(room.page)

        expect(room.page.locator(".brief")).to_contain_text("60 − j80")
        assert room.frame() == KEYS[2]

    def test_another_link(self, room: Projector):
        """A link to another problem begins at its beginning, with nothing revealed."""
        room.press("PageDown", "v", "PageDown")
        other = Projector(room.page, {"load": "25-40j", "line": "50"})

        assert other.frame() == "opening"
        other.press("PageDown")
        expect(other.words).to_have_class("asked")

    @pytest.mark.parametrize("kept", BROKEN, ids=range(len(BROKEN)))
    def test_broken(self, page: Page, kept: str):
        """What was kept and cannot be read is passed over, and the lecture begins."""
        page.goto("/lecture")
        ready(page)
        page.evaluate("kept => { onpagehide = () => localStorage.setItem('halfturn.lecture', kept) }", kept)
        page.goto("/lecture")
        ready(page)

        expect(page.locator("article")).to_have_attribute("data-frame", "opening")


class TestLinks:
    def test_bad_values(self, page: Page):
        """A link with bad values opens a lecture that can be given, and says what it left out."""
        room = Projector(page, {"load": "60-80j", "line": "-50", "frequency": "<script>", "decimals": "99"})

        expect(page.locator(".notice")).to_have_count(3)
        for sentence in page.locator(".notice").all_text_contents():
            assert sentence.endswith(".")
        room.press("PageDown")
        expect(page.locator(".notice")).to_have_count(0)
        assert room.frame() == "normalise"

    def test_notation(self, page: Page):
        """The link's notation holds for words, values and chart: symbols, i, degrees of line, two grids."""
        texts = {**LINK, "d": "s", "l": "t", "imaginary": "i", "length": "degrees", "admittance": "overlay"}
        room = Projector(page, texts)
        room.press("Shift+V")
        for frame in frames_of(texts)[1:]:
            room.press("PageDown")
            shown = re.sub(r"\s+", " ", room.words.inner_text())
            outcomes = [re.sub(r"\s+", " ", one.text) for one in frame.outcomes]
            assert [] == [text for text in outcomes if text not in shown]
            if frame.key == "distance":
                room.drawn_out()
                assert {f"s = {one.text}" for one in frame.outcomes} < set(room.labels())
                expect(page.locator(".ink .kind-ring")).to_have_count(1)

    def test_notation_changed(self, room: Projector):
        """Another notation is chosen in the middle, and everything is written in it."""
        room.press(*["PageDown"] * 4, "v", "l")
        room.page.get_by_text("Notation", exact=True).click()
        room.page.get_by_label("Imaginary unit").select_option("i")
        room.page.get_by_role("button", name="Write it so").click()

        expect(room.words).to_contain_text("0.300 + i0.400")
        assert room.frame() == KEYS[4]
        assert STANDARD.imaginary == "j"

    @pytest.mark.parametrize("step", ["distance", "8"])
    def test_step(self, page: Page, step: str):
        """A link can open a lecture at a step, by its key or its number, with all that stands on the chart by then."""
        room = Projector(page, {**LINK, "step": step})

        assert room.frame() == "distance"
        assert room.strokes() > 5
        expect(page.locator(".notice")).to_have_count(0)

    def test_unknown_step(self, page: Page):
        """A step that the lecture does not have is refused in a sentence that names those it has."""
        room = Projector(page, {**LINK, "step": "dessert"})

        assert room.frame() == "opening"
        expect(page.locator(".notice")).to_contain_text(
            "no step “dessert”; its steps are opening, normalise,"
        )


class TestBuilt:
    @pytest.mark.screen(**FULL_HD)
    def test_line_and_copper(self, room: Projector):
        """What the design comes to has frames of its own: each solution as a line to scale, then as copper."""
        drawing = room.page.locator("#drawing svg")
        room.press(*["PageDown"] * KEYS.index("line.near"))
        expect(drawing).to_be_in_viewport(ratio=1)
        expect(drawing.locator("[data-part=line-heading]")).to_have_count(1)
        expect(drawing.locator("[data-part=board-heading]")).to_have_count(0)
        letters = float(drawing.evaluate("svg => parseFloat(getComputedStyle(svg).fontSize)"))
        room.press("PageDown")

        assert room.frame() == "board.near"
        expect(drawing).to_be_in_viewport(ratio=1)
        expect(drawing.locator("[data-part=board-heading]")).to_have_count(1)
        assert 0.72 * letters >= SMALLEST_CAPITAL * FULL_HD["height"]
        room.press("End")
        expect(drawing).to_be_hidden()

    @pytest.mark.screen(**FULL_HD)
    def test_over_frequency(self, room: Projector):
        """The designs stand over frequency last: curves as strong and letters as large as a lecture's, all in sight."""
        room.press(*["PageDown"] * KEYS.index("response"))
        plot = room.page.locator("svg.response")
        scale = float(plot.evaluate("svg => svg.getScreenCTM().a"))
        letters = float(plot.locator("text").first.evaluate("e => parseFloat(getComputedStyle(e).fontSize)"))
        line = float(
            plot.locator("path.curve").first.evaluate("e => parseFloat(getComputedStyle(e).strokeWidth)")
        )

        expect(plot.locator("path.curve")).to_have_count(2)
        expect(room.words.locator(".value.hidden")).to_have_count(2)
        assert 0.72 * letters * scale >= SMALLEST_CAPITAL * FULL_HD["height"]
        assert line * scale >= 4
        room.press("v")
        expect(room.words).to_contain_text("has the wider band")
        expect(room.words.locator(".because")).to_be_in_viewport(ratio=1)

    @pytest.mark.screen(width=1024, height=700)
    def test_words_that_do_not_fit(self, room: Projector):
        """Where a frame has more words than room, they are set smaller until all are in sight."""
        room.press(*["PageDown"] * KEYS.index("response"), "v")
        panel = room.page.locator(".panel")

        assert panel.evaluate("e => e.scrollHeight <= e.clientHeight + 1")

    def test_values_can_be_kept(self, room: Projector):
        """Values that were revealed go with the next construction, or stay on the chart if the presenter wants it."""
        room.press("PageDown", "PageDown", "v")
        told = [label for label in room.labels() if "=" in label]
        room.press("PageDown")
        assert told
        assert [] == [label for label in told if label in room.labels()]
        room.press("k")

        assert told == [label for label in told if label in room.labels()]
        assert room.modes() == ["Values kept"]


class TestWaves:
    """Voltage and current along the line: beside the words when they are wanted, and never before their time."""

    def _to(self, room: Projector, key: str) -> None:
        room.press(*["PageDown"] * KEYS.index(key))

    def test_not_before_their_time(self, room: Projector):
        """Wanted too early they are said to wait; they come when the ratio is revealed, and go when it is hidden."""
        plot = room.page.locator("#drawing [data-part=waves-voltage]")
        self._to(room, "mismatch")
        room.press("w")
        assert room.modes() == ["Waves: not yet"]
        assert "give away" in room.heard()
        expect(plot).to_be_hidden()
        room.press("v")
        expect(plot).to_be_visible()
        assert room.modes() == []
        room.press("v")
        expect(plot).to_be_hidden()

    def test_before_and_after(self, room: Projector):
        """The load alone is seen first; with the design it stays beside it; back and forward lead there again."""
        alone = room.page.locator("#drawing [data-part=waves-before-voltage]")
        self._to(room, "admittance")
        room.press("w")
        expect(room.page.locator("#drawing [data-part=waves-voltage]")).to_be_visible()
        expect(alone).to_have_count(0)
        assert "from 0.41 to 1.59" in room.heard()  # 1 ∓ |Γ|, and |Γ| of 60 - j80 on 50 ohm is 0.5927
        room.press(*["PageDown"] * (KEYS.index("line.far") - KEYS.index("admittance")))
        expect(alone).to_have_count(1)
        expect(room.page.locator("#drawing [data-part=waves-name]")).to_have_text("far")
        room.press("PageUp", "PageUp")
        expect(room.page.locator("#drawing [data-part=waves-name]")).to_have_text("near")
        room.press("w")

        expect(room.page.locator("#drawing [data-part=line-heading]")).to_have_count(1)
        expect(room.page.locator("#drawing [data-part=waves-foot]")).to_have_count(0)

    def test_button(self, room: Projector):
        """The button does the same, says whether it is on, and is not there where the lesson has no line."""
        button = room.page.get_by_role("toolbar").get_by_role("button", name="Waves")
        self._to(room, "admittance")
        button.click()
        expect(button).to_have_attribute("aria-pressed", "true")
        drawing = room.page.locator("#drawing svg[role=img]")
        expect(drawing).to_have_attribute("aria-label", re.compile("^Along the line with the load alone"))
        button.click()

        expect(button).to_have_attribute("aria-pressed", "false")
        expect(drawing).to_be_hidden()

    def test_moves_with_the_load(self, room: Projector):
        """While the load's point is led over the chart, the wave's minimum goes with it at once."""
        self._to(room, "admittance")
        room.press("w", "m")
        curve = room.page.locator("#drawing [data-part=waves-voltage]")
        expect(curve).to_be_visible()
        before = curve.get_attribute("d") or ""
        room.press("ArrowRight")

        expect(curve).not_to_have_attribute("d", before)

    def test_kept(self, room: Projector):
        """A reload shows them again, with what they may show."""
        self._to(room, "admittance")
        room.press("w")
        label = room.page.locator("#drawing svg[role=img]").get_attribute("aria-label") or ""
        room.page.reload()
        ready(room.page)

        expect(room.page.locator("#drawing [data-part=waves-voltage]")).to_be_visible()
        assert label == room.page.locator("#drawing svg[role=img]").get_attribute("aria-label")

    def test_of_another_problem(self, room: Projector):
        """A link to another problem begins without them."""
        self._to(room, "admittance")
        room.press("w")
        other = Projector(room.page, {"load": "25-40j", "line": "50"})
        other.press(*["PageDown"] * KEYS.index("admittance"))

        expect(room.page.locator("#drawing svg[role=img]")).to_be_hidden()

    @pytest.mark.parametrize(
        "texts",
        [LINK, LONG, {"lesson": "two-reactances"}, {"lesson": "lossy-line"}],
        ids=lambda one: one.get("lesson", one.get("load")),
    )
    @pytest.mark.parametrize(
        "size",
        [
            pytest.param(
                size, marks=pytest.mark.screen(width=size[0], height=size[1], reduced_motion="reduce")
            )
            for size in ((1920, 1080), (1440, 900), (1366, 768), (1366, 650))
        ],
        ids=lambda size: f"{size[0]}x{size[1]}",
    )
    def test_all_in_sight(self, page: Page, texts: dict[str, str], size: tuple[int, int]):
        """Chart, words, waves and buttons are all in sight, and nothing has to be scrolled, whatever is revealed."""
        room = Projector(page, texts)
        room.press("Shift+V", "w")
        last = ""
        while room.frame() != last:
            last = room.frame()
            if page.evaluate("document.documentElement.dataset.shows") == "waves":
                expect(page.locator("#drawing svg[role=img]")).to_be_in_viewport(ratio=0.99)
                assert [] == page.evaluate(OUT_OF_SIGHT), last
            room.press("PageDown")

        assert page.evaluate("document.documentElement.dataset.shows") == "waves"

    @pytest.mark.screen(**FULL_HD, reduced_motion="reduce")
    def test_read_from_the_last_row(self, room: Projector):
        """Their letters are as large as the lecture's, and their lines as strong."""
        self._to(room, "line.near")
        room.press("w")
        drawing = room.page.locator("#drawing svg[role=img]")
        letters = float(drawing.evaluate("svg => parseFloat(getComputedStyle(svg).fontSize)"))
        lines = drawing.locator(".wave").evaluate_all(
            "all => all.map(e => parseFloat(getComputedStyle(e).strokeWidth))"
        )

        assert 0.72 * letters >= SMALLEST_CAPITAL * FULL_HD["height"]
        assert min(lines) >= 4

    @pytest.mark.screen(width=390, height=844)
    def test_in_a_hand(self, room: Projector):
        """On a phone they stand under the words, as wide as the page and no wider."""
        self._to(room, "line.near")
        room.press("w")
        drawing = room.page.locator("#drawing svg[role=img]")
        drawing.scroll_into_view_if_needed()

        expect(drawing).to_be_in_viewport(ratio=0.99)
        assert room.page.evaluate("document.documentElement.scrollWidth") <= 390


class TestListening:
    def test_every_frame_is_said(self, room: Projector):
        """Whoever listens hears each frame as it comes, and its values when they are revealed."""
        for frame in FRAMES[1:]:
            room.press("PageDown")
            assert frame.spoken == room.heard()
            room.press("v")
            assert frame.spoken_values == room.heard()

    def test_chart_in_words(self, room: Projector):
        """What is drawn stands in words beside the chart, its values only once they are revealed."""
        strokes = room.page.get_by_role("list", name="What is drawn on the chart").get_by_role("listitem")
        room.press("PageDown", "PageDown")
        expect(strokes).to_have_text(["point z L"])
        room.press("v")

        expect(strokes).to_have_text([FRAMES[2].strokes[0].spoken])


class TestPresenter:
    @pytest.fixture
    def notes(self, room: Projector) -> Page:
        """The presenter's page, opened from the lecture and following it."""
        with room.page.expect_popup() as popup:
            room.press("o")
        ready(popup.value)
        expect(popup.value.get_by_role("button", name="Forward")).to_be_visible()
        return popup.value

    def test_follows(self, room: Projector, notes: Page):
        """The presenter's page shows the step, its values, what comes next, and what to warn of."""
        expect(notes.locator("h2")).to_have_text("Matching with a single shunt stub")
        room.press(*["PageDown"] * 8)
        now = notes.get_by_role("region", name="Now")

        expect(notes.locator("h2")).to_have_text("Measure the distance from the load")
        for text in ("0.110 λ", "0.259 λ", "values hidden"):
            expect(now).to_contain_text(text)
        expect(now.locator(".slips")).to_contain_text(
            "near 0.390 λ, far 0.241 λ means walking toward the load"
        )
        expect(notes.get_by_role("region", name="Next")).to_contain_text(FRAMES[9].title)
        room.press("v", "p", "b")
        expect(now).to_contain_text("values revealed · pen on · chart blank")

    def test_steps_the_lecture(self, room: Projector, notes: Page):
        """The lecture can be stepped, and its values revealed, from the presenter's page, by keys and buttons."""
        notes.keyboard.press("PageDown")
        notes.get_by_role("button", name="Forward").click()
        expect(room.words).to_have_attribute("data-frame", KEYS[2])
        notes.keyboard.press("v")
        expect(room.words).to_have_class("told")
        notes.keyboard.press("PageUp")

        expect(room.words).to_have_attribute("data-frame", KEYS[1])

    def test_waves(self, room: Projector, notes: Page):
        """Voltage and current are shown and hidden from the presenter's page, which has them in words."""
        room.press(*["PageDown"] * KEYS.index("admittance"))
        notes.get_by_role("button", name="Show or hide waves").click()
        expect(room.page.locator("#drawing [data-part=waves-voltage]")).to_be_visible()
        expect(notes.get_by_role("region", name="Voltage and current")).to_contain_text("from 0.41 to 1.59")
        expect(notes.get_by_role("region", name="Now")).to_contain_text("waves shown")
        notes.keyboard.press("w")

        expect(notes.get_by_role("region", name="Voltage and current")).to_have_count(0)

    def test_alone(self, room: Projector, notes: Page):
        """Without a lecture the presenter's page says where to open one, and follows it when it comes."""
        address = room.page.url
        room.page.goto("about:blank")
        expect(notes.get_by_role("link", name="Open the lecture")).to_be_visible()
        room.page.goto(address)
        ready(room.page)

        expect(notes.locator("h2")).to_have_text("Matching with a single shunt stub")

    def test_clock(self, notes: Page):
        """A clock shows the time, and how long the lecture has been running."""
        clock = notes.get_by_role("timer")
        expect(clock).to_have_text(re.compile(r"^\d\d:\d\drunning 00:0\d$"))
        before = clock.text_content()

        expect(clock).not_to_have_text(before or "")

    def test_asks_nobody(self, room: Projector, notes: Page):
        """The two pages speak to each other in the browser: following sends nothing to the server."""
        sent: list[object] = []
        notes.on("request", lambda request: sent.append(request.url))
        room.press("PageDown", "PageDown")
        expect(notes.locator("h2")).to_have_text(FRAMES[2].title)

        assert sent == []


OUT_OF_SIGHT = """() => {
  const all = node => [...node.querySelectorAll("*")];
  const inside = node => all(node).flatMap(one => [one, ...(one.shadowRoot ? inside(one.shadowRoot) : [])]);
  const parts = inside(document.body), find = selector => parts.find(one => one.matches(selector));
  const panel = find(".panel"), page = document.documentElement, drawing = document.querySelector("#drawing");
  const strip = find(".strip").getBoundingClientRect(), low = drawing.getBoundingClientRect();
  const cut = box => box.left < low.left - 1 || box.right > innerWidth || box.bottom > strip.top + 1;
  const letters = inside(drawing).filter(one => one.tagName === "text" && cut(one.getBoundingClientRect()));
  const buttons = parts.filter(one => one.matches(".bar button:not([hidden])"));
  const under = buttons.filter(one => one.getBoundingClientRect().bottom > innerHeight + 1);
  return [
    page.scrollHeight > innerHeight && "the page", page.scrollWidth > innerWidth && "the page's width",
    panel.scrollHeight > panel.clientHeight + 1 && "words", low.bottom > strip.top + 1 && "waves under the buttons",
    panel.getBoundingClientRect().bottom > low.top + 1 && "words over waves",
    ...letters.map(one => one.textContent), ...under.map(one => one.textContent),
  ].filter(one => one);
}"""
"""What of a lecture with its waves is cut off, hidden or covered."""

WATCH_KEY = f"""() => {{
  const ink = {INK};
  window.firstStroke = new Promise(done => document.addEventListener("keydown", event => {{
    const look = () => {{
      const lines = [...ink.querySelectorAll("path.line.current:not(.undrawn)")];
      const begun = lines.some(path => path.getTotalLength() > 0);
      if (begun) done(performance.now() - event.timeStamp); else requestAnimationFrame(look);
    }};
    setTimeout(() => requestAnimationFrame(look));
  }}, {{capture: true, once: true}}));
}}"""
"""Note how long it takes from a key press until a part of a current line is in the drawing that a frame will show."""

WATCH_GROWTH = f"""() => {{
  const ink = {INK}, parts = [], start = performance.now();
  window.growth = new Promise(done => {{
    const look = now => {{
      const path = ink.querySelector("path.line.current");
      if (path && !path.classList.contains("undrawn")) parts.push(Math.round(path.getTotalLength()));
      if (now - start < 1500) requestAnimationFrame(look); else done(parts);
    }};
    requestAnimationFrame(look);
  }});
}}"""
"""Note the length of the first current line from now on, at each frame of the screen."""

LEGIBLE = f"""() => {{
  const pen = document.createElement("canvas").getContext("2d");
  const capital = element => {{
    const {{fontWeight, fontSize, fontFamily}} = getComputedStyle(element);
    pen.font = `${{fontWeight}} ${{fontSize}} ${{fontFamily}}`;
    const scale = element.closest("svg.response")?.getScreenCTM().a ?? 1;
    return pen.measureText("H").actualBoundingBoxAscent * scale;
  }};
  const all = node => [...node.querySelectorAll("*")];
  const inside = node => all(node).flatMap(one => [one, ...(one.shadowRoot ? inside(one.shadowRoot) : [])]);
  const ink = {INK}, words = inside(document.getElementById("words"));
  const read = words.filter(one => one.matches("article *, .brief")
    && [...one.childNodes].some(child => child.nodeType === Node.TEXT_NODE));
  const labels = [...ink.querySelectorAll(".label text")];
  const panel = words.find(one => one.matches(".panel")), brief = words.find(one => one.matches(".brief"));
  const sheet = document.getElementById("stage").getBoundingClientRect();
  const out = labels.filter(one => {{
    const box = one.getBoundingClientRect(), {{left, right, top, bottom}} = sheet;
    return box.left < left - 1 || box.right > right + 1 || box.top < top - 1 || box.bottom > bottom + 1;
  }});
  return {{
    capitals: [...read, ...labels].map(capital),
    lines: [...ink.querySelectorAll("path.line")].map(one => parseFloat(getComputedStyle(one).strokeWidth)),
    cut: [panel.scrollHeight > panel.clientHeight + 1 && "panel", panel.scrollWidth > panel.clientWidth && "wide",
      brief.scrollWidth > brief.clientWidth + 1 && "brief", ...out.map(one => one.textContent)].filter(one => one),
  }};
}}"""

SCALE_LETTERS = """(() => {
  const all = node => [...node.querySelectorAll("*")];
  const inside = node => all(node).flatMap(one => [one, ...(one.shadowRoot ? inside(one.shadowRoot) : [])]);
  const texts = inside(document.getElementById("stage")).filter(one => one.tagName === "text");
  const number = texts.find(one => one.textContent === "0.35");
  return number ? parseFloat(getComputedStyle(number).fontSize) : 0;
})()"""
