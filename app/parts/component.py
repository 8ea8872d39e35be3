"""What our components have in common: a browser that says what its visitor does, and is told things in return."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from hashlib import sha256
from typing import Any, ClassVar, TypeGuard

import panel as pn
from bokeh.core.property.validation import validate
from panel.custom import JSComponent
from panel.models.esm import ReactiveESM

from app.parts.modules import modules, script
from app.parts.template import STATIC


class Scripted(JSComponent):
    """A component whose script is a module in `static/`, named by the class: `module` exports its `render`.

    Its own parameters are what the browser is told of it. A browser cannot set them.
    """

    module: ClassVar[str]

    @classmethod
    @cache
    def own(cls) -> tuple[str, ...]:
        """The names of its own parameters."""
        return tuple(name for name in cls.param if name not in Scripted.param)

    @classmethod
    def modules(cls) -> tuple[str, ...]:
        """All modules that the script needs."""
        return modules(cls.module)

    def _get_model(self, doc: Any, root: Any = None, parent: Any = None, comm: Any = None) -> ReactiveESM:
        """Panel's own way takes five times as long, as it looks for much that a component may have and ours have not.

        That there is a `bundle` says that the script is ready as it is; its name is what the browser keeps it under.
        """
        says = script(self.module)
        with validate(False):  # nothing of it came from outside, and checking it takes longer than making it
            model = ReactiveESM(
                name=self.name,
                class_name=type(self).__name__,
                sizing_mode=self.sizing_mode,
                min_width=0,
                stylesheets=[*self._stylesheets, *self.stylesheets],
                esm=says,
                bundle=sha256(says.encode()).hexdigest(),
                data=self._data_model(**{name: getattr(self, name) for name in self.own()}),
            )
        self._models[(root or model).ref["id"]] = (model, parent)
        self._register_events("data_event", model=model, doc=doc, comm=comm)
        return model

    def _preprocess(self, *given: Any, **named: Any) -> None:
        """Nothing: no design and no link of the library's is to be put on it."""


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
