"""The shell drawing as plain data, for a page that builds its own SVG elements and sets no raw markup."""

from __future__ import annotations

from typing import Any

from app.documents.drawings.drawing import Drawing, Part
from app.documents.drawings.linework.stroke import Stroke
from app.documents.drawings.pens import HATCH, Pen, pen_of
from app.documents.drawings.svg import path_of


def drawing_data(drawing: Drawing) -> dict[str, Any]:
    """`width`, `height` (millimetres of the car), `title`, `lines` (what a screen reader is told), and the `parts`.

    A part has `element`, `option`, `choice`, `state`, `rules`, `words` (its line of the list, or nothing), and `paths`:
    path data `d` with `width` and `dash` in pixels that do not scale, `fill` where it is inked in; `letters`: `x`, `y`,
    `size`, `text`, `bold`.
    """
    return {
        "width": drawing.width,
        "height": drawing.height,
        "title": drawing.title,
        "lines": list(drawing.lines),
        "parts": [_part(part) for part in drawing.parts],
    }


def _part(part: Part) -> dict[str, Any]:
    return {
        "element": part.element,
        "option": part.option or None,
        "choice": part.choice or None,
        "state": part.state.value if part.state else None,
        "rules": list(part.rules),
        "words": part.words,
        "paths": [
            *(_path(stroke, pen_of(stroke.ink, part.state)) for stroke in part.strokes),
            *(_path(stroke, HATCH) for stroke in part.hatch),
        ],
        "letters": [
            {"x": letters.at[0], "y": letters.at[1], "size": letters.size, "text": letters.text, "bold": letters.bold}
            for letters in part.letters
        ],
    }


def _path(stroke: Stroke, pen: Pen) -> dict[str, Any]:
    return {"d": path_of(stroke.steps), "width": pen.width, "dash": list(pen.dash), "fill": pen.fill}
