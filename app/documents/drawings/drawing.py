"""The shell drawing: the specification's elements laid out on a sheet, for screen and paper alike.

It is a display list in millimetres with renderers of its own (`drawing_svg`, `drawing_data`, `drawing_flowable`). The
line of an element says how its choice stands: usual thin, chosen heavy, forced dashed, and hatched with the rule's id
where a rule bites; never colour alone. The list that a screen reader gets is made of the same parts. Which choice shows
which element is read from the book; whatever the book names and the line art lacks is left out, and `unknown_elements`
says so before such a book is put in force.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from enum import Enum
from functools import lru_cache

from app.documents.drawings.linework.shell import COMMON, ELEMENTS, HALF_WIDTH, HEIGHT, LENGTH, Art
from app.documents.drawings.linework.stroke import Ink, Point, Stroke, box, clusters, hatching, inked, line, mirrored
from app.documents.saying.phrases import sentences
from rules.answer import State
from rules.model import Book, Drawn, Role

#: (option, choice) → element.
Elements = Mapping[tuple[str, str], str]

#: The elements that say which hand the shell is; what is `handed` in the line art follows it.
HANDS = {"steering/left": "left", "steering/right": "right"}

_EDGE, _GAP, _BLOCK = 300.0, 330.0, 430.0
#: Where the title block's cells begin and end, in parts of its width.
_CELLS = {Role.SERIES: (0.5, 0.66), Role.MARKET: (0.66, 1.0)}
#: How wide a letter is to its height, generously.
_SET = 0.58
_AIR = 30.0


class Arrangement(Enum):
    """Plan below the side view, for a screen; or beside it, for a strip across a sheet."""

    STACKED = "stacked"
    ABREAST = "abreast"


@dataclass(frozen=True, slots=True)
class Lettering:
    """A line of text; `at` is the left end of its foot, `size` its height in millimetres of the car."""

    at: Point
    size: float
    text: str
    bold: bool = False


@dataclass(frozen=True, slots=True)
class Part:
    """One element as it is drawn: whose choice it is, how that stands, its strokes on the sheet (y down).

    `state` None for what every shell has. `hatch` and the ids of `rules` only where a rule bites.
    """

    element: str
    option: str
    choice: str
    state: State | None
    strokes: tuple[Stroke, ...]
    hatch: tuple[Stroke, ...] = ()
    rules: tuple[str, ...] = ()
    letters: tuple[Lettering, ...] = ()
    words: str = ""


@dataclass(frozen=True, slots=True)
class Drawing:
    """A sheet of `width` × `height` millimetres of the car; `title` and `lines` say in words what is drawn."""

    width: float
    height: float
    parts: tuple[Part, ...]
    title: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Standing:
    """What is drawn: `settled` option → choice, `states` how each stands, `bites` the rules against one."""

    settled: Mapping[str, str]
    states: Mapping[str, State] = field(default_factory=dict)
    bites: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class _Sheet:
    arrangement: Arrangement

    @property
    def width(self) -> float:
        views = 1 if self.arrangement is Arrangement.STACKED else 2
        return views * LENGTH + (views - 1) * _GAP * 1.6 + 2 * _EDGE

    @property
    def pitch(self) -> float:
        """Between hatching lines: wider where the same car is drawn smaller."""
        return 62.0 if self.arrangement is Arrangement.STACKED else 124.0

    @property
    def height(self) -> float:
        return self.foot + _BLOCK

    @property
    def foot(self) -> float:
        """The upper edge of the title block."""
        plan = 2 * HALF_WIDTH + 2 * _EDGE * 0.6
        return plan + (HEIGHT + _GAP if self.arrangement is Arrangement.STACKED else 0)

    def side(self, point: Point) -> Point:
        """A point of the side view on the sheet."""
        down = HEIGHT + _EDGE * 0.5 if self.arrangement is Arrangement.STACKED else self.foot - _EDGE
        return _EDGE + point[0], down - point[1]

    def plan(self, point: Point) -> Point:
        """A point of the plan on the sheet."""
        aside = 0 if self.arrangement is Arrangement.STACKED else LENGTH + _GAP * 1.6
        return _EDGE + aside + point[0], self.foot - _EDGE * 0.6 - HALF_WIDTH - point[1]


def shell_drawing(
    book: Book, standing: Standing, language: str, arrangement: Arrangement = Arrangement.STACKED
) -> Drawing | None:
    """The drawing of what is settled; an open question is not drawn. None where the book draws nothing."""
    if not book.drawing:
        return None
    sheet = _Sheet(arrangement)
    parts = [_common(sheet), *_elements(book, standing, sheet, language)]
    parts += _title_block(book, standing, sheet, language)
    title = sentences(language)["drawing.title"].format(what=book.title[language])
    return Drawing(sheet.width, sheet.height, tuple(parts), title, tuple(part.words for part in parts if part.words))


def elements_of(book: Book) -> Elements:
    """What the book says, as far as the line art knows it."""
    return {(row.option, row.choice): row.element for row in book.drawing if row.element in ELEMENTS}


def known_elements() -> tuple[str, ...]:
    """Every element of the line art that a book may name."""
    return tuple(ELEMENTS)


def unknown_elements(book: Book) -> tuple[Drawn, ...]:
    """Rows of the book that name an element which the line art hasn't."""
    return tuple(row for row in book.drawing if row.element not in ELEMENTS)


@lru_cache(maxsize=len(Arrangement))
def _common(sheet: _Sheet) -> Part:
    return Part("shell", "", "", None, _placed(*_views(COMMON, None), sheet))


def _elements(book: Book, standing: Standing, sheet: _Sheet, language: str) -> list[Part]:
    elements = elements_of(book)
    shown = {
        option.id: elements[option.id, standing.settled[option.id]]
        for option in book.options
        if (option.id, standing.settled.get(option.id)) in elements
    }
    hand = _hand(shown.values())
    return [_part(book, standing, option, element, sheet, hand, language) for option, element in shown.items()]


def _hand(elements: Iterable[str]) -> str | None:
    """Left or right by the element shown; None while the steering is open."""
    return next((HANDS[element] for element in elements if element in HANDS), None)


def _part(
    book: Book, standing: Standing, option: str, element: str, sheet: _Sheet, hand: str | None, language: str
) -> Part:
    views = _views(ELEMENTS[element], hand)
    rules = standing.bites.get(option, ())
    hatch, letters = _bitten(*views, sheet, rules) if rules else ((), ())
    said = _said(book, standing, option, language)
    if ELEMENTS[element].handed and hand is None:
        said += f", {sentences(language)['drawing.either-hand']}"
    return Part(
        element=element,
        option=option,
        choice=standing.settled[option],
        state=_state(standing, option),
        strokes=_element(element, hand, sheet),
        hatch=hatch,
        rules=rules,
        letters=letters,
        words=said,
    )


@lru_cache(maxsize=512)
def _element(element: str, hand: str | None, sheet: _Sheet) -> tuple[Stroke, ...]:
    """The element's lines on the sheet: the same on every drawing, so they are worked out once."""
    return _placed(*_views(ELEMENTS[element], hand), sheet)


def _views(art: Art, hand: str | None) -> tuple[tuple[Stroke, ...], tuple[Stroke, ...]]:
    """Side and plan for that hand; of what follows the hand, while it is open, both possibilities lightly."""
    if not art.handed or hand == "left":
        return art.side, art.plan
    if hand == "right":
        return art.side, mirrored(*art.plan)
    return art.side, inked(Ink.PHANTOM, *art.plan, *mirrored(*art.plan))


def _state(standing: Standing, option: str) -> State:
    return State.CLOSED if standing.bites.get(option) else standing.states.get(option, State.CHOSEN)


def _said(book: Book, standing: Standing, option: str, language: str) -> str:
    known = sentences(language)
    state = _state(standing, option)
    rules = ", ".join(standing.bites.get(option, ()))
    entry = book.option(option)
    return known["drawing.item"].format(
        option=entry.label[language],
        choice=entry.choice(standing.settled[option]).label[language],
        state=known[f"drawing.{state.value}"].format(rules=rules),
    )


def _placed(side: tuple[Stroke, ...], plan: tuple[Stroke, ...], sheet: _Sheet) -> tuple[Stroke, ...]:
    return (*(stroke.moved(sheet.side) for stroke in side), *(stroke.moved(sheet.plan) for stroke in plan))


def _bitten(
    side: tuple[Stroke, ...], plan: tuple[Stroke, ...], sheet: _Sheet, rules: tuple[str, ...]
) -> tuple[tuple[Stroke, ...], tuple[Lettering, ...]]:
    """Hatching over every place of the element, and the rules' ids above the first of them in each view."""
    hatch: list[Stroke] = []
    letters: list[Lettering] = []
    for strokes, place in ((side, sheet.side), (plan, sheet.plan)):
        boxes = clusters(tuple(stroke.moved(place) for stroke in strokes), _AIR)
        for left, low, high_x, high in boxes:
            hatch += (*hatching(left, low, high_x, high, sheet.pitch), box(left, low, high_x, high))
        letters += [Lettering((left, low - 30), 140, " ".join(rules), bold=True) for left, low, _, _ in boxes[:1]]
    return tuple(hatch), tuple(letters)


def _title_block(book: Book, standing: Standing, sheet: _Sheet, language: str) -> list[Part]:
    """A frame, and at its foot the drawing's name, its views, and the series and market in words."""
    known = sentences(language)
    top, foot, width = sheet.foot, sheet.height - 10, sheet.width - 10
    frame: tuple[Stroke, ...] = (box(10, 10, width, foot), line((10, top), (width, top)))
    title = book.title[language]
    name = Lettering((70, top + 275), _fitted(title, 185, width * 0.5 - 100), title, bold=True)
    views = (Lettering(_side_name(sheet), 135, known["drawing.side"]),
             Lettering(_plan_name(sheet), 135, known["drawing.plan"]))  # fmt: skip
    cells = [
        _cell(book, standing, role, sheet, place, language)
        for role, place in _CELLS.items()
        if book.roles.get(role) in standing.settled
    ]
    frame += tuple(line((left * sheet.width, top), (left * sheet.width, foot)) for left, _ in _CELLS.values())
    return [Part("frame", "", "", None, frame, letters=(name, *views)), *cells]


def _side_name(sheet: _Sheet) -> Point:
    """Above the bonnet."""
    return 70, 190


def _plan_name(sheet: _Sheet) -> Point:
    """Below the plan, where no rule's id can stand."""
    left, _ = sheet.plan((0, 0))
    return (70 if sheet.arrangement is Arrangement.STACKED else left - 130), sheet.foot - 45


def _fitted(text: str, size: float, room: float) -> float:
    """The size at which the text keeps to its room."""
    return min(size, room / (len(text) * _SET))


def _cell(book: Book, standing: Standing, role: Role, sheet: _Sheet, place: Point, language: str) -> Part:
    option = book.roles[role]
    choice = standing.settled[option]
    left, end, top = sheet.width * place[0], sheet.width * place[1], sheet.foot
    words = book.option(option).choice(choice).label[language]
    letters = (
        Lettering((left + 50, top + 145), 115, book.option(option).label[language]),
        Lettering((left + 50, top + 325), _fitted(words, 170, end - left - 90), words, bold=True),
    )
    rules = standing.bites.get(option, ())
    hatch = hatching(left, top, end - 10, sheet.height - 10, sheet.pitch) if rules else ()
    said = _said(book, standing, option, language)
    bitten = (
        (Lettering((end - 60 - len(" ".join(rules)) * 140 * _SET, top + 145), 140, " ".join(rules), bold=True),)
        if rules
        else ()
    )
    strokes = (line((left + 50, top + 372), (end - 60, top + 372)),)
    return Part(f"{option}/{choice}", option, choice, _state(standing, option), strokes, hatch, rules,
                (*letters, *bitten), said)  # fmt: skip
