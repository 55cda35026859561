"""The shell drawing: the specification's elements laid out on a sheet, for screen and paper alike.

It is a display list in millimetres with two renderers (`drawing_svg`, `drawing_flowable`). The line of an element says
how its choice stands: usual thin, chosen heavy, forced dashed, and hatched with the rule's id where a rule bites; never
colour alone. The list that a screen reader gets is made of the same parts.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum

from app.documents.linework.shell import COMMON, ELEMENTS, HALF_WIDTH, HEIGHT, LENGTH, Art
from app.documents.linework.stroke import Point, Stroke, box, clusters, hatching, line, mirrored
from app.documents.phrases import sentences
from rules.answer import State
from rules.model import Book, Option, Role

#: (option, choice) → element; what is not named here is drawn as "option/choice".
Elements = Mapping[tuple[str, str], str]

_EDGE, _GAP, _BLOCK = 300.0, 330.0, 300.0
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
    book: Book,
    standing: Standing,
    language: str,
    elements: Elements | None = None,
    arrangement: Arrangement = Arrangement.STACKED,
) -> Drawing:
    """The drawing of what is settled; an open question is not drawn."""
    sheet = _Sheet(arrangement)
    naming = elements or {}
    parts = [_common(sheet), *_elements(book, standing, sheet, naming, language)]
    parts += _title_block(book, standing, sheet, language)
    title = sentences(language)["drawing.title"].format(what=book.title[language])
    return Drawing(sheet.width, sheet.height, tuple(parts), title, tuple(part.words for part in parts if part.words))


def element_of(option: str, choice: str, elements: Elements) -> str:
    """The element that shows a choice."""
    return elements.get((option, choice), f"{option}/{choice}")


def is_drawn(option: Option, elements: Elements) -> bool:
    """Whether the option is one that the drawing shows: every choice of it has line art."""
    return all(element_of(option.id, choice.id, elements) in ELEMENTS for choice in option.choices)


def _common(sheet: _Sheet) -> Part:
    return Part("shell", "", "", None, _placed(COMMON, sheet, right=False))


def _elements(book: Book, standing: Standing, sheet: _Sheet, naming: Elements, language: str) -> list[Part]:
    right = _is_right(book, standing, naming)
    return [
        _part(book, standing, option, sheet, naming, right, language)
        for option in book.options
        if option.id in standing.settled and is_drawn(option, naming)
    ]


def _is_right(book: Book, standing: Standing, naming: Elements) -> bool:
    option = book.roles.get(Role.STEERING, "")
    return element_of(option, standing.settled.get(option, ""), naming) == "steering/right"


def _part(
    book: Book, standing: Standing, option: Option, sheet: _Sheet, naming: Elements, right: bool, language: str
) -> Part:
    choice = standing.settled[option.id]
    element = element_of(option.id, choice, naming)
    art = ELEMENTS[element]
    rules = standing.bites.get(option.id, ())
    hatch, letters = _bitten(art, sheet, right, rules) if rules else ((), ())
    return Part(
        element=element,
        option=option.id,
        choice=choice,
        state=_state(standing, option.id),
        strokes=_placed(art, sheet, right),
        hatch=hatch,
        rules=rules,
        letters=letters,
        words=_said(book, standing, option.id, language),
    )


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


def _placed(art: Art, sheet: _Sheet, right: bool) -> tuple[Stroke, ...]:
    plan = mirrored(*art.plan) if art.handed and right else art.plan
    return (*(s.moved(sheet.side) for s in art.side), *(s.moved(sheet.plan) for s in plan))


def _bitten(
    art: Art, sheet: _Sheet, right: bool, rules: tuple[str, ...]
) -> tuple[tuple[Stroke, ...], tuple[Lettering, ...]]:
    """Hatching over every place of the element, and the rules' ids above the first of them in each view."""
    plan = mirrored(*art.plan) if art.handed and right else art.plan
    hatch: list[Stroke] = []
    letters: list[Lettering] = []
    for strokes, place in ((art.side, sheet.side), (plan, sheet.plan)):
        boxes = clusters(tuple(stroke.moved(place) for stroke in strokes), _AIR)
        for left, low, high_x, high in boxes:
            hatch += (*hatching(left, low, high_x, high, sheet.pitch), box(left, low, high_x, high))
        letters += [Lettering((left, low - 24), 104, " ".join(rules), bold=True) for left, low, _, _ in boxes[:1]]
    return tuple(hatch), tuple(letters)


def _title_block(book: Book, standing: Standing, sheet: _Sheet, language: str) -> list[Part]:
    """A frame, and at its foot the drawing's name, its views, and the series and market in words."""
    known = sentences(language)
    top, foot, width = sheet.foot, sheet.height - 10, sheet.width - 10
    frame = (box(10, 10, width, foot), line((10, top), (width, top)))
    name = Lettering((70, top + 190), 130, book.title[language], bold=True)
    views = (Lettering((70, 190), 92, known["drawing.side"]), Lettering(_plan_name(sheet), 92, known["drawing.plan"]))
    cells = [
        _cell(book, standing, role, sheet, place, language)
        for role, place in ((Role.SERIES, (0.5, 0.66)), (Role.MARKET, (0.66, 1.0)))
        if book.roles.get(role) in standing.settled
    ]
    return [Part("frame", "", "", None, frame, letters=(name, *views)), *cells]


def _plan_name(sheet: _Sheet) -> Point:
    left, _ = sheet.plan((0, 0))
    return (70 if sheet.arrangement is Arrangement.STACKED else left - 130), sheet.plan((0, HALF_WIDTH))[1] - 40


def _cell(book: Book, standing: Standing, role: Role, sheet: _Sheet, place: Point, language: str) -> Part:
    option = book.roles[role]
    choice = standing.settled[option]
    left, end, top = sheet.width * place[0], sheet.width * place[1], sheet.foot
    words = book.option(option).choice(choice).label[language]
    letters = (
        Lettering((left + 50, top + 100), 78, book.option(option).label[language]),
        Lettering((left + 50, top + 218), 120, words, bold=True),
    )
    rules = standing.bites.get(option, ())
    hatch = hatching(left, top, end - 10, sheet.height - 10, sheet.pitch) if rules else ()
    said = _said(book, standing, option, language)
    bitten = (Lettering((end - 260, top + 100), 104, " ".join(rules), bold=True),) if rules else ()
    strokes = (line((left, top), (left, sheet.height - 10)), line((left + 50, top + 252), (end - 50, top + 252)))
    return Part(f"{option}/{choice}", option, choice, _state(standing, option), strokes, hatch, rules,
                (*letters, *bitten), said)  # fmt: skip
