"""What our components have in common: a browser that says what its visitor does, and is told things in return."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeGuard

import panel as pn
from panel.custom import JSComponent

from app.parts.template import STATIC


class Column(JSComponent):
    """A component in the page's column. What is done in the browser, `{do: ...}`, goes to `on_do`."""

    def __init__(self, on_do: Callable[[dict[str, Any]], None], **values: Any) -> None:
        self._on_do = on_do
        super().__init__(sizing_mode="stretch_width", **values)

    def _handle_msg(self, message: Any) -> None:
        if isinstance(message, dict) and isinstance(message.get("do"), str):
            self._on_do(message)

    def tell(self, message: dict[str, Any]) -> None:
        """Send something to the browser, by the quick way."""
        self._send_msg(message)

    def faults(self, form: str, faults: dict[str, str]) -> None:
        """Say beside the entries of a form what is wrong with them."""
        self.tell({"faults": {"form": form, "faults": faults}})


def static_texts(*names: str) -> list[str]:
    """The texts of files in `static/`; joined, several scripts are one module."""
    return [(STATIC / name).read_text("utf-8") for name in names]


def address_texts() -> dict[str, str]:
    """What stands in the address that the page was opened with, the last of each name; checked by whoever reads it."""
    return {
        key: values[-1].decode("utf-8", "replace") for key, values in pn.state.session_args.items() if values
    }


def are_texts(values: object) -> TypeGuard[dict[str, str]]:
    """Whether this is a form's entries: texts by name."""
    return isinstance(values, dict) and all(
        isinstance(name, str) and isinstance(text, str) for name, text in values.items()
    )
