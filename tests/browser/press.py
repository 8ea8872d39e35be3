"""A button of the test pages. The program lets in what its components say and nothing else, so it is one."""

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
