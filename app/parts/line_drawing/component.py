"""The drawing as a component of the page."""

from __future__ import annotations

from typing import Any, ClassVar

import param
from panel.custom import JSComponent

from app.parts.template import STATIC


class LineDrawing(JSComponent):
    """The drawing of one picture, made by `picture`; an empty picture draws nothing."""

    picture = param.Dict(
        default={}, doc="What is drawn, as `picture` makes it: plain data, lengths in wavelengths."
    )

    _esm: ClassVar = "PLACEHOLDER"
    _stylesheets: ClassVar = [(STATIC / "parts/line_drawing/line_drawing.css").read_text("utf-8")]

    def __init__(self, **params: Any) -> None:
        params.setdefault("sizing_mode", "stretch_width")
        super().__init__(**params)
