"""Which fields and columns each kind of block may have, as data: what a screen lays out. The reader has the last word.

`tests/rules/drafting/test_forms.py` holds this against the reader, field by field.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from rules.model import Role, Work
from rules.reading import drawing, inspecting, known, late
from rules.reading.columns import COLUMNS
from rules.reading.phrases import NAMES


class Sort(StrEnum):
    """What is written in a field. NAME and NAMES: ids declared elsewhere in the book, `of` says of what.

    TABLE: nothing; the field says that the block's table speaks. ONE_OF: a word of those in `of`.
    """

    WORDS = "words"
    TEXT = "text"
    CONDITION = "condition"
    YES = "yes"
    NUMBER = "number"
    DECIMAL = "decimal"
    TABLE = "table"
    ONE_OF = "one-of"
    NAME = "name"
    NAMES = "names"


@dataclass(frozen=True, slots=True)
class FieldForm:
    """`of`: what a NAME names. `speaks`: one of those of which a rule has exactly one."""

    name: str
    sort: Sort
    needed: bool = False
    of: str = ""
    speaks: bool = False


@dataclass(frozen=True, slots=True)
class TableForm:
    """Columns in order; "languages" and "lists" stand for one column each of them, "options" for any option's.

    `single`: the table has one row. `first_of`: what its first column names, empty where it declares or says something.
    """

    columns: tuple[str, ...]
    single: bool = False
    first_of: str = ""


@dataclass(frozen=True, slots=True)
class Form:
    """`once`: a book has at most one such block. `named`: the head line has an id; `name_of`: of something declared."""

    kind: str
    fields: tuple[FieldForm, ...] = ()
    table: TableForm | None = None
    once: bool = False
    named: bool = True
    name_of: str = ""


def _words(name: str, needed: bool = True) -> FieldForm:
    return FieldForm(name, Sort.WORDS, needed)


def _text(name: str, needed: bool = True) -> FieldForm:
    return FieldForm(name, Sort.TEXT, needed)


def _when(name: str = "when", needed: bool = True) -> FieldForm:
    return FieldForm(name, Sort.CONDITION, needed)


def _one(name: str, of: str, needed: bool = True) -> FieldForm:
    return FieldForm(name, Sort.NAME, needed, of)


def _yes(name: str) -> FieldForm:
    return FieldForm(name, Sort.YES)


def _number(name: str, needed: bool = True) -> FieldForm:
    return FieldForm(name, Sort.NUMBER, needed)


def _one_of(name: str, words: Iterable[str], needed: bool = False) -> FieldForm:
    return FieldForm(name, Sort.ONE_OF, needed, ", ".join(words))


def _told(kind: str) -> TableForm:
    return TableForm((*COLUMNS[kind], "languages"))


_ROLES = tuple(_one(role.value, "option", needed=False) for role in Role)
_PAIRS = ("part and approval", "part and caution", "part and hold", "approval and caution", "approval and hold",
          "caution and hold")  # fmt: skip
_SPEAKING = tuple(
    FieldForm(name, Sort.CONDITION, speaks=True)
    for name in ("never", "needs", "part", "approval", "caution", "hold", *_PAIRS)
)
_EXISTING = FieldForm("these exist", Sort.TABLE, speaks=True)
_AMOUNTS = TableForm(("lists",), single=True)

_ALL = (
    Form("book", (_words("title"), _text("languages"), _text("gearboxes", needed=False)), once=True),
    Form("roles", _ROLES, once=True, named=False),
    Form("series", (_text("years"), _text("numbers"), _words("changes")), name_of="series-choice"),
    Form("usual", table=TableForm(("when", "options")), named=False),
    Form("groups", table=_told("groups"), once=True, named=False),
    Form(
        "option",
        (
            _one("group", "group"),
            _yes("structural"),
            _one("category", "category", needed=False),
            _yes("base"),
            FieldForm("lost", Sort.NAMES, of="own-choice"),
            _words("label"),
            _words("help", needed=False),
        ),
        TableForm(("choice", "languages", "lists")),
    ),
    Form(
        "phrases",
        table=TableForm(("choice", *(f"{name} languages" for name in NAMES)), first_of="own-choice"),
        name_of="option",
    ),
    Form("lists", table=_told("lists"), once=True, named=False),
    Form("categories", table=_told("categories"), once=True, named=False),
    Form("line", (_when(), _one("category", "category"), _yes("base"), _words("label")), _AMOUNTS),
    Form(
        "adjust",
        (
            _when(),
            FieldForm("lines", Sort.NAMES, needed=True, of="line"),
            FieldForm("times", Sort.DECIMAL),
            _yes("waived"),
            _words("label"),
        ),
    ),
    Form("extra", (_one("category", "category"), _words("label"), _words("unit")), _AMOUNTS),
    Form(
        "terms",
        (*map(_text, ("deposit", "validity")), *(_text(name, needed=False) for name in ("several", "ceiling"))),
        once=True,
        named=False,
    ),
    Form(
        "rule",
        (
            *_SPEAKING,
            _EXISTING,
            _when("where", needed=False),
            _words("part", needed=False),
            _one("before", "stage", needed=False),
            _words("title", needed=False),
            _words("reason"),
            _words("clause", needed=False),
        ),
        TableForm(("options",)),
    ),
    Form(
        "tool",
        (
            _when("needed for"),
            _one("at", "stage", needed=False),
            _one("stands in", "rule", needed=False),
            _one("speaks as", "rule", needed=False),
            _words("label"),
            _words("reason"),
            _words("clause", needed=False),
        ),
    ),
    Form(
        "stage",
        (
            _number("days"),
            _yes("before slot"),
            FieldForm("a week", Sort.DECIMAL),
            _number("bays", needed=False),
            _text("changeover", needed=False),
            _one_of("work", (work.value for work in Work)),
            _words("label"),
        ),
    ),
    Form("addition", (_one("stage", "stage"), _number("days"), _yes("from gate"), _when(), _words("label"))),
    Form(
        "calendar",
        (*map(_text, ("zone", "holidays", "spread")), _text("load", needed=False)),
        once=True,
        named=False,
    ),
    Form("closed", (_text("every year"), _words("label")), named=False),
    Form("tax", (_text("home"), _words("label")), TableForm(("since", "percent")), once=True, named=False),
    Form(
        "delivery",
        table=TableForm(("choice", "goes", "country"), first_of="delivery-choice"),
        once=True,
        named=False,
    ),
    Form("measure", (_when(), _text("size", needed=False), _text("mass", needed=False), _words("label"))),
    Form(
        "keep",
        (
            _when(needed=False),
            _one("with", "rule", needed=False),
            _one("before", "stage", needed=False),
            _words("label"),
            _words("why"),
        ),
    ),
    Form(
        "cut",
        (_text("sketch", needed=False), _text("margins", needed=False)),
        TableForm(("about", "languages")),
        name_of="rule",
    ),
    Form(
        "change",
        (FieldForm("options", Sort.NAMES, of="option"), _when(needed=False), _words("label")),
        TableForm(late.COLUMNS),
    ),
    Form("caution", (_text("papers"), _when(), _words("text"))),
    Form("wording", (_words("text"),)),
    Form(
        "known",
        (
            _one_of("answer", known.ANSWERS, needed=True),
            FieldForm("because", Sort.NAMES, of="rule"),
            _text("price", needed=False),
            _text("donor", needed=False),
            _text("gearbox", needed=False),
            _yes("usual"),
            _words("label"),
        ),
        TableForm(known.COLUMNS, first_of="option"),
    ),
    Form("processes", table=_told("processes"), once=True, named=False),
    Form("operations", table=_told("operations"), name_of="stage"),
    Form(
        "zones",
        table=_told("zones"),
        once=True,
        named=False,
    ),
    Form(
        "holes",
        (_when("mirrored", needed=False),),
        _told("holes"),
        once=True,
        named=False,
    ),
    Form(
        "gap",
        (
            _one("stage", "stage"),
            *(_text(name) for name in ("metal", "painted", "flush")),
            *(_text(name, needed=False) for name in ("taper", "across")),
            _one("customers", "rule", needed=False),
            _yes("leading"),
            _when(needed=False),
            _words("label"),
        ),
        _told("gap"),
    ),
    Form("datums", table=_told("datums"), once=True, named=False),
    Form(
        "inspection",
        (
            *(_text(name) for name in ("nugget", "three sheets", "film")),
            _number("adhesion"),
            FieldForm("colour", Sort.DECIMAL, needed=True),
        ),
        TableForm(inspecting.COLUMNS),
        once=True,
        named=False,
    ),
    Form("coats", table=_told("coats"), once=True, named=False),
    Form("threads", table=_told("threads"), once=True, named=False),
    Form("panels", table=_told("panels"), once=True, named=False),
    Form("kit", table=_told("kit"), once=True, named=False),
    Form("drawing", table=TableForm(drawing.COLUMNS, first_of="option"), named=False),
)

#: kind → its form, in the order in which a book is read.
FORMS = {form.kind: form for form in _ALL}
