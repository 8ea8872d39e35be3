"""A student at a browser of any family: looks, clicks, types, presses keys and draws, by standard events alone."""

from __future__ import annotations

import json
import time
from typing import Any

from tests.browser.engines.driver import Engine

SECONDS = 30
NAMED_KEYS = {
    # W3C WebDriver, section 15.4.2, the table of key codes.
    "Tab": "\ue004",
    "Enter": "\ue007",
    "Control": "\ue009",
    "Escape": "\ue00c",
    "Space": " ",
    "PageDown": "\ue00f",
    "End": "\ue010",
    "Home": "\ue011",
    "ArrowLeft": "\ue012",
    "ArrowUp": "\ue013",
    "ArrowRight": "\ue014",
    "ArrowDown": "\ue015",
}
FIND = """(() => {
  const inside = (root) => [...root.querySelectorAll("*")].flatMap((one) => [one, ...within(one)]);
  const within = ({ shadowRoot }) => shadowRoot ? inside(shadowRoot) : [];
  const all = inside(document).filter((one) => one.matches(%s)), one = all[0];
  return %s;
})()"""
CENTRE = """(() => {
  if (!one) return null;
  one.scrollIntoView({ block: "center", behavior: "instant" });
  const box = one.getBoundingClientRect();
  return [box.left + box.width / 2, box.top + box.height / 2, box.width];
})()"""
FOCUSED = """(() => {
  let one = document.activeElement;
  while (one?.shadowRoot?.activeElement) one = one.shadowRoot.activeElement;
  return [one?.dataset?.field ?? "", one?.value ?? "", one?.type ?? "", one?.className ?? ""];
})()"""


class Student:
    """Whoever uses the program in this browser."""

    def __init__(self, engine: Engine, url: str) -> None:
        self.engine = engine
        self.url = url.rstrip("/")

    # --- what is seen ---

    def open(self, path: str) -> None:
        """Open a page of the program, and wait until it can be used."""
        self.engine.go(self.url + path)
        self.wait("document.documentElement.dataset.halfturn === 'ready'")

    def forget(self) -> None:
        """Have the browser forget all that it keeps, where no page is open that would keep it again."""
        self.engine.go(f"{self.url}/nowhere")
        self.engine.evaluate("localStorage.clear()")

    def see(self, selector: str, what: str = "one?.textContent ?? null") -> Any:
        """Something of the first element (`one`), or of all (`all`), that a selector finds, in whatever component."""
        return self.engine.evaluate(FIND % (json.dumps(selector), what))

    def wait(self, condition: str) -> None:
        """Wait until a condition holds in the page."""
        self._until(lambda: self.engine.evaluate(f"Boolean({condition})"), condition)

    def wait_for(self, selector: str, what: str = "true") -> None:
        """Wait until something holds of what a selector finds."""
        self._until(
            lambda: self.see(selector, f"one !== undefined && Boolean({what})"), f"{selector}: {what}"
        )

    @property
    def focused(self) -> tuple[str, str, str, str]:
        """Field, value, type and class of the element that has the focus."""
        field, value, kind, look = self.engine.evaluate(FOCUSED)
        return field, value, kind, look

    def _until(self, holds: Any, words: str) -> None:
        until = time.monotonic() + SECONDS
        while not holds():
            assert time.monotonic() < until, f"not within {SECONDS} s: {words}"
            time.sleep(0.02)

    def place(self, selector: str) -> tuple[float, float, float]:
        """The middle of an element that has come to rest in sight, and its width."""
        self.wait_for(selector)
        before = None
        while (now := self.see(selector, CENTRE)) != before:
            before = now
            self.engine.evaluate("0")
        left, top, width = now
        return left, top, width

    # --- what is done ---

    def click(self, selector: str) -> None:
        """Click in the middle of an element."""
        left, top, _ = self.place(selector)
        self._point([(left, top)])

    def drag(self, *points: tuple[float, float]) -> None:
        """Press the button at the first place, go through the others, and let go."""
        self._point(list(points))

    def press(self, *keys: str) -> None:
        """Press keys one after another, by name or sign; "Control+a" holds the first meanwhile."""
        steps = []
        for key in keys:
            held = [NAMED_KEYS.get(one, one) for one in (key.split("+") if len(key) > 1 else [key])]
            steps += [{"type": "keyDown", "value": one} for one in held]
            steps += [{"type": "keyUp", "value": one} for one in reversed(held)]
        self.engine.act([{"type": "key", "id": "keys", "actions": steps}])

    def type(self, text: str) -> None:
        """Type a text where the focus is, in place of what is selected there."""
        self.press("Control+a", *text)

    def fill(self, selector: str, text: str) -> None:
        """Click into a box and type a text in place of what stands there."""
        self.click(selector)
        self.type(text)

    def _point(self, places: list[tuple[float, float]]) -> None:
        moves = [
            {"type": "pointerMove", "x": round(x), "y": round(y), "duration": 0, "origin": "viewport"}
            for x, y in places
        ]
        down, up = ({"type": kind, "button": 0} for kind in ("pointerDown", "pointerUp"))
        steps = [moves[0], down, *moves[1:], up]
        mouse = {"type": "pointer", "id": "mouse", "parameters": {"pointerType": "mouse"}, "actions": steps}
        self.engine.act([mouse])
