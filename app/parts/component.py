"""What our components have in common: a browser that says what its visitor does, and is told things in return."""

from __future__ import annotations

from collections.abc import Callable
from hashlib import sha256
from typing import Any, ClassVar, TypeGuard

import panel as pn
from panel.custom import JSComponent

from app.parts.modules import PREFIX, import_map, modules
from app.parts.template import STATIC


class Scripted(JSComponent):
    """A component whose script is a module in `static/`, named by the class: `module` exports its `render`."""

    module: ClassVar[str]

    def __init_subclass__(cls, **kwargs: Any) -> None:
        super().__init_subclass__(**kwargs)
        if hasattr(cls, "module"):
            cls._esm = f'export {{ render }} from "{PREFIX}{cls.module}";'

    @classmethod
    def _process_importmap(cls) -> dict[str, Any]:
        """Made when a page is, as the addresses depend on the path under which the program is served."""
        return import_map(cls.module)

    @classmethod
    def modules(cls) -> tuple[str, ...]:
        """All modules that the script needs, for the page to ask for early."""
        return modules(cls.module)

    def _get_properties(self, doc: Any) -> dict[str, Any]:
        """Say that the script is ready as it is: the browser would else translate it from TypeScript at each load."""
        digest = sha256(repr(self._process_importmap()).encode()).hexdigest()
        return {**super()._get_properties(doc), "bundle": digest}


class Column(Scripted):
    """A component in the page's column. What is done in the browser, `{do: ...}`, goes to `on_do`.

    The browser numbers what it says. The number goes back with the first thing that it is told in answer, so that what
    an answer never came for can be said again, once, over another connection.
    """

    def __init__(self, on_do: Callable[[dict[str, Any]], None], **values: Any) -> None:
        self._on_do = on_do
        self._heard: int | None = None
        super().__init__(sizing_mode="stretch_width", **values)

    def _handle_msg(self, message: Any) -> None:
        if not isinstance(message, dict) or not isinstance(message.get("do"), str):
            return
        number = message.get("number")
        self._heard = number if isinstance(number, int) else None
        try:
            self._on_do(message)
        except Exception:
            self.tell({"failed": True})
            raise
        if self._heard is not None:
            self.tell({})

    def tell(self, message: dict[str, Any]) -> None:
        """Send something to the browser, by the quick way."""
        heard, self._heard = self._heard, None
        self._send_msg(message if heard is None else {**message, "heard": heard})

    def faults(self, form: str, faults: dict[str, str]) -> None:
        """Say beside the entries of a form what is wrong with them."""
        self.tell({"faults": {"form": form, "faults": faults}})


def static_texts(*names: str) -> list[str]:
    """The texts of files in `static/`."""
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
