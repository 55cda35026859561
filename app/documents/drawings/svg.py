"""The shell drawing for a screen: SVG that scales, with its title and description, an element per choice."""

from __future__ import annotations

from collections.abc import Iterable
from xml.sax.saxutils import escape, quoteattr

from app.documents.drawings.drawing import Drawing, Lettering, Part
from app.documents.drawings.linework.stroke import Step, Stroke
from app.documents.drawings.pens import HATCH, Pen, pen_of


def svg(drawing: Drawing, name: str = "shell-drawing") -> str:
    """The drawing as one SVG element; `name` keeps the ids of its title and description apart on a page."""
    body = "".join(_group(part) for part in drawing.parts)
    said = "; ".join(drawing.lines)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_n(drawing.width)} {_n(drawing.height)}" role="img" '
        f'aria-labelledby="{name}-title {name}-said" fill="none" stroke="currentColor" stroke-linejoin="round">'
        f'<title id="{name}-title">{escape(drawing.title)}</title><desc id="{name}-said">{escape(said)}</desc>'
        f"{body}</svg>"
    )


def path_of(steps: Iterable[Step]) -> str:
    """The stroke as SVG path data, to a tenth of a millimetre."""
    return "".join(step[0] + " ".join(f"{_n(x)} {_n(y)}" for x, y in step[1:]) for step in steps)


def _group(part: Part) -> str:
    about = f' data-option="{part.option}" data-choice="{part.choice}"' if part.option else ""
    state = f' data-state="{part.state.value}"' if part.state else ""
    return (
        f"<g data-element={quoteattr(part.element)}{about}{state}>"
        + "".join(_path(stroke, pen_of(stroke.ink, part.state)) for stroke in part.strokes)
        + "".join(_path(stroke, HATCH) for stroke in part.hatch)
        + "".join(map(_text, part.letters))
        + "</g>"
    )


def _path(stroke: Stroke, pen: Pen) -> str:
    dash = f' stroke-dasharray="{" ".join(map(_n, pen.dash))}"' if pen.dash else ""
    fill = ' fill="currentColor"' if pen.fill else ""
    d = path_of(stroke.steps)
    return f'<path d="{d}" stroke-width="{_n(pen.width)}" vector-effect="non-scaling-stroke"{dash}{fill}/>'


def _text(letters: Lettering) -> str:
    weight = ' font-weight="700"' if letters.bold else ""
    x, y = letters.at
    return (
        f'<text x="{_n(x)}" y="{_n(y)}" font-size="{_n(letters.size)}"{weight} fill="currentColor" stroke="none">'
        f"{escape(letters.text)}</text>"
    )


def _n(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")
