"""What test pages say. The program lets in what its components say and nothing else, so these are components."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from panel.custom import JSComponent


class Press(JSComponent):
    """A button that calls a function here when it is pressed."""

    _esm = """
    export function render({ model, el }) {
      const button = document.createElement("button");
      button.textContent = model.name;
      button.addEventListener("click", () => model.send_msg({ do: "press" }));
      el.append(button);
    }
    """

    def __init__(self, name: str, pressed: Callable[[], None]) -> None:
        super().__init__(name=name)
        self._pressed = pressed

    def _handle_msg(self, message: Any) -> None:
        self._pressed()


class Ear(JSComponent):
    """Calls a function here with each answer that is drawn on the page's chart."""

    _esm = """
    export function render({ model }) {
      document.addEventListener("halfturn:drawn", ({ detail }) => model.send_msg(detail));
    }
    """

    def __init__(self, heard: Callable[[dict[str, Any]], None]) -> None:
        super().__init__()
        self._heard = heard

    def _handle_msg(self, message: Any) -> None:
        self._heard(message)
