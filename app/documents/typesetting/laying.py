"""Lays a story out on sheets: what stands where on which of them. It draws nothing, and what it laid can be drawn."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from copy import copy
from dataclasses import dataclass
from functools import partial
from io import BytesIO
from typing import Any

from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import BaseDocTemplate, Flowable, Frame, PageTemplate

from app.documents.typesetting.fonts import TEXT


@dataclass(frozen=True, slots=True)
class Room:
    """Where on a sheet of that size a story may stand; `side`, `top` and `foot` stay free within it. In points."""

    size: tuple[float, float]
    x: float
    y: float
    width: float
    height: float
    side: float
    top: float
    foot: float

    @property
    def inner(self) -> tuple[float, float]:
        """Width and height for the story itself."""
        return self.width - 2 * self.side, self.height - self.top - self.foot


@dataclass(frozen=True, slots=True)
class Placed:
    """A thing where it stands on its sheet. `spare`: what it left of the width of the room."""

    thing: Flowable
    x: float
    y: float
    spare: float

    def draw(self, canvas: Canvas) -> None:
        self.thing.drawOn(canvas, self.x, self.y, _sW=self.spare)  # type: ignore[call-arg]


@dataclass(frozen=True, slots=True)
class Laid:
    """What stands on each sheet, and how much of the last one is filled, 0 to 1."""

    sheets: list[list[Placed]]
    last: float


def lay(story: Sequence[Flowable], room: Room) -> Laid:
    """The whole story; what laying it leaves on its parts is taken off, so that they can be laid again."""
    return _Document(room).lay(story)


class _Document(BaseDocTemplate):
    """Writes nothing. After each thing that it lays it notes how much of the sheet is filled."""

    def __init__(self, room: Room) -> None:
        self.laid, self.filled = list[list[Placed]](), 0.0
        template = PageTemplate("sheet", [_Frame(room, self._place)], onPage=self._begin)
        super().__init__(BytesIO(), pagesize=room.size, pageTemplates=[template], initialFontName=TEXT)

    def lay(self, story: Sequence[Flowable]) -> Laid:
        marks: list[tuple[Any, ...]] = []
        self._doSave, self._multiBuildEdits = 0, marks.append
        self.build(list(story))
        for put_back, *what in marks:
            put_back(*what)
        return Laid(self.laid, self.filled)

    def _begin(self, *_: object) -> None:
        self.laid.append([])

    def _place(self, placed: Placed) -> None:
        self.laid[-1].append(placed)

    def afterFlowable(self, flowable: Flowable) -> None:  # noqa: N802 - the library's name
        frame: Any = getattr(self, "frame", None)
        # Behind a page break there is none until something is laid on the next sheet.
        if frame is not None:
            self.filled = 1 - (frame._y - frame._y1p) / frame._aH


class _Frame(Frame):
    """Things are laid in it and none is drawn. What is kept together is measured against a copy: it holds no parts."""

    def __init__(self, room: Room, place: Callable[[Placed], None]) -> None:
        box = room.x, room.y, room.width, room.height
        super().__init__(
            *box, leftPadding=room.side, rightPadding=room.side, topPadding=room.top, bottomPadding=room.foot
        )
        self.place = place

    def __deepcopy__(self, memo: object) -> _Frame:
        return copy(self)

    def add(self, flowable: Any, canv: Canvas, trySplit: int = 0) -> Any:  # noqa: N803 - the library's name
        flowable.drawOn = partial(self._note, flowable)
        try:
            return super().add(flowable, canv, trySplit)
        finally:
            del flowable.drawOn

    def _note(self, flowable: Flowable, _: Canvas, x: float, y: float, _sW: float = 0) -> None:  # noqa: N803
        """In place of drawing."""
        self.place(Placed(flowable, x, y, _sW))
