"""The physical picture beside the chart: a line with all that stands in it, to scale, and the same as copper.

`picture` turns solutions into plain data; `LineDrawing` hands that to the browser, which draws it and moves it
while the student drags on the chart.
"""

from app.parts.line_drawing.component import LineDrawing
from app.parts.line_drawing.picture import OPEN_END, picture, wave_picture

__all__ = ["OPEN_END", "LineDrawing", "picture", "wave_picture"]
