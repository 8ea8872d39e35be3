"""The drawing as a component of the page."""

from __future__ import annotations

from typing import Any, ClassVar

import param

from app.parts.component import Scripted, static_texts


class LineDrawing(Scripted):
    """The drawing of one picture, made by `picture`; an empty picture draws nothing."""

    picture = param.Dict(
        default={}, doc="What is drawn, as `picture` makes it: plain data, lengths in wavelengths."
    )

    module = "parts/line_drawing/render.js"
    _stylesheets: ClassVar[list[Any]] = static_texts("parts/line_drawing/line_drawing.css")

    def __init__(self, **params: Any) -> None:
        params.setdefault("sizing_mode", "stretch_width")
        super().__init__(**params)
