"""Rule books being drafted: their blocks, what is wrong with them, and the changes that can be made."""

from __future__ import annotations

from typing import Any

from marshmallow import fields, validate

from app.domain.books.book_draft import Act
from app.web.fields import LARGEST_KEY, Amount, Base, By, Many, Moment, Of, OneOf, Text, Whole, code
from app.web.schemas.book import LabelledOut
from rules.drafting.forms import FORMS

#: Far beyond what a block needs; the reader's own limit for a line.
LONGEST_VALUE = 20_000
#: As text: the whole book, within what a request may hold.
LONGEST_BOOK = 900_000
MOST_ROWS, MOST_CELLS = 5_000, 60


class Percent(Text):
    """A percentage as decimal text, from -99 to 999, as in "3.5" or "-2"."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.validators = [validate.Regexp(r"-?\d{1,2}(\.\d{1,4})?\Z|\d{3}(\.\d{1,4})?\Z", error=code("no-percentage"))]


class BeginIn(Base):
    """`base`: number of the book to begin from; left out: the one in force."""

    base = Whole(least=1, most=LARGEST_KEY, load_default=None, allow_none=True)


class DraftRowOut(Base):
    """`standing`: open, published or thrown-away; `book`: what it was published as."""

    id = fields.Integer()
    base = fields.Integer()
    standing = fields.String()
    version = fields.Integer()
    begun_at = fields.DateTime()
    begun_by_name = fields.String()
    changed_at = fields.DateTime()
    changed_by_name = fields.String()
    mistakes = fields.Integer(metadata={"description": "How many its text has."})
    book = fields.Integer(allow_none=True)


class DraftsOut(Base):
    drafts = fields.List(Of(DraftRowOut))


class MistakeOut(Base):
    """`piece`: its block, `row`: the line within, both from 0, null in none; `line`: of the text, from 1."""

    line = fields.Integer()
    piece = fields.Integer(allow_none=True)
    row = fields.Integer(allow_none=True)
    what = fields.String()
    instead = fields.String()


class PieceRowOut(Base):
    """`kind` and `name` as the head line says; `label` as far as the block has one."""

    kind = fields.String()
    name = fields.String()
    label = fields.Dict(keys=fields.String(), values=fields.String())
    mistakes = fields.Integer()


class NamedOut(Base):
    id = fields.String()
    label = fields.Dict(keys=fields.String(), values=fields.String())
    parts = fields.List(Of(LabelledOut))


class DeclaredOut(Base):
    """`of`: kind → what the draft declares of it; `parts`: the choices of an option."""

    languages = fields.List(fields.String())
    gearboxes = fields.List(fields.String())
    roles = fields.Dict(keys=fields.String(), values=fields.String())
    of = fields.Dict(keys=fields.String(), values=fields.List(Of(NamedOut)))


class DraftOut(DraftRowOut):
    """`sha256` of the text: what a rehearsal belongs to."""

    sha256 = fields.String()
    pieces = fields.List(Of(PieceRowOut))
    faults = fields.List(Of(MistakeOut))
    declared = Of(DeclaredOut)


class FieldOut(Base):
    name = fields.String()
    value = fields.String()


class PieceOut(Base):
    """One block. `whole` false: a line of it is neither field nor row, so only its `text` can be changed."""

    at = fields.Integer()
    kind = fields.String()
    name = fields.String()
    fields_ = fields.List(Of(FieldOut), data_key="fields", attribute="fields")
    rows = fields.List(fields.List(fields.String()))
    whole = fields.Boolean()
    text = fields.String()
    faults = fields.List(Of(MistakeOut))


class FieldIn(Base):
    name = Text(required=True, least=1, most=80)
    value = Text(required=True, most=LONGEST_VALUE)


class EntryIn(Base):
    kind = OneOf(tuple(FORMS), required=True)
    name = Text(required=True, most=80)
    fields_ = Many(Of(FieldIn), most=200, data_key="fields", attribute="fields", required=True)
    rows = Many(Many(Text(most=LONGEST_VALUE), most=MOST_CELLS), most=MOST_ROWS, required=True)


class NewPieceIn(EntryIn):
    """`after`: the block after which it stands, from 0; -1: before all others."""

    after = Whole(required=True, least=-1, most=100_000)


class PieceTextIn(Base):
    text = Text(required=True, least=1, most=LONGEST_BOOK)


class BookTextIn(Base):
    text = Text(required=True, most=LONGEST_BOOK)


class BookMoveIn(Base):
    to = Whole(required=True, least=0, most=100_000)


class TakeBackIn(Base):
    version = Whole(required=True, least=1, most=LARGEST_KEY)


class RaiseIn(Base):
    """`prices`: names as in the sheet of prices; `percent` negative lowers; `step`: amounts become multiples of it."""

    prices = Many(Text(least=1, most=200), most=5_000, required=True)
    lists = Many(Text(least=1, most=80), most=50, required=True)
    percent = Percent(required=True)
    step = OneOf(("0.01", "0.10", "1", "5", "10", "50", "100"), load_default="0.01")


class PricesIn(Base):
    """`csv`: a heading line, then a line for each price; apart by comma, semicolon or tab."""

    csv = Text(required=True, least=1, most=LONGEST_BOOK)


class PricedRowOut(Base):
    """`cells`: price list → the amount as written, in major units; a dash: included, empty: not priced."""

    name = fields.String()
    of = fields.String()
    category = fields.String()
    label = fields.String()
    piece = fields.Integer()
    cells = fields.Dict(keys=fields.String(), values=fields.String())


class BookPricedOut(Base):
    lists = fields.List(fields.String())
    prices = fields.List(Of(PricedRowOut))


class BookTextOut(Base):
    """`field`: of the block or, with a `row` (from 1) of its table, what its columns begin with.

    `of`: what the row is about. `shipped`: what papers or letters say while the book says nothing, and `slots` what
    such a text can name in braces; both empty for every other text. `piece` null: it is as shipped.
    """

    piece = fields.Integer(allow_none=True)
    kind = fields.String()
    name = fields.String()
    field = fields.String()
    row = fields.Integer(allow_none=True)
    of = fields.String()
    texts = fields.Dict(keys=fields.String(), values=fields.String())
    shipped = fields.Dict(keys=fields.String(), values=fields.String())
    slots = fields.List(fields.String())
    missing = fields.Boolean()


class BookTextsOut(Base):
    languages = fields.List(fields.String())
    texts = fields.List(Of(BookTextOut))


class RewordIn(Base):
    """`texts`: language → text; an empty one is left out of the book. `piece` null: of the shipped text `name`."""

    piece = Whole(required=True, least=0, most=100_000, allow_none=True)
    name = Text(load_default="", most=80)
    field = Text(required=True, least=1, most=80)
    row = Whole(least=1, most=100_000, load_default=None, allow_none=True)
    texts = By(Text(most=LONGEST_VALUE), most=20, required=True)


class SayIn(Base):
    text = Text(required=True, most=LONGEST_VALUE)


class TermOut(Base):
    option = fields.String()
    how = fields.String()
    choices = fields.List(fields.String())


class ConditionTermsOut(Base):
    every = fields.Boolean()
    terms = fields.List(Of(TermOut))


class SaidOut(Base):
    """`said`: in words of the book; null while the draft has other mistakes. `terms` null: it can only be written."""

    said = fields.String(allow_none=True)
    terms = Of(ConditionTermsOut, allow_none=True)
    faults = fields.List(Of(MistakeOut))


class BookStepOut(Base):
    version = fields.Integer()
    act = fields.String(validate=validate.OneOf([act.value for act in Act]))
    about = fields.String()
    at = fields.DateTime()
    by_name = fields.String()


class StepsOut(Base):
    steps = fields.List(Of(BookStepOut))


class DiffLineOut(Base):
    """`mark`: " " in both, "-" only before, "+" only now; null `line`: some alike lines are left out here."""

    mark = fields.String()
    line = fields.String(allow_none=True)


class DiffOut(Base):
    """The draft's text against that of the book it began from."""

    against = fields.Integer()
    added = fields.Integer()
    taken_out = fields.Integer()
    lines = fields.List(Of(DiffLineOut))


class HeadlineMovedOut(Base):
    line = fields.Integer()
    before = fields.String(allow_none=True)
    after = fields.String(allow_none=True)


class TouchedRevisionOut(Base):
    """`before`, `after`: minor units before tax, null where nothing can be held together. `causes`: new ones."""

    number = fields.String()
    letter = fields.String()
    standing = fields.String()
    customer = fields.String()
    shells = fields.Integer()
    advice = fields.List(fields.String())
    verdicts = fields.List(Of(HeadlineMovedOut))
    causes = fields.List(fields.List(fields.String()))
    reasons = fields.List(fields.String(), metadata={"description": "The causes, as a customer would read them."})
    answers = fields.Integer()
    comparable = fields.Boolean()
    currency = fields.String(allow_none=True)
    before = Amount()
    after = Amount()


class KnownHeldOut(Base):
    """`fault`: it keeps the draft from being published. `wrong`: answer, because, price."""

    id = fields.String()
    label = fields.Dict(keys=fields.String(), values=fields.String())
    fault = fields.Boolean()
    wrong = fields.List(fields.String())
    known_answer = fields.String()
    known_because = fields.List(fields.String())
    known_price = Amount()
    answer = fields.String()
    because = fields.List(fields.String())
    price = Amount()
    currency = fields.String(allow_none=True)


class StoredOut(Base):
    looked_at = fields.Integer()
    lost = fields.Integer()
    gained = fields.Integer()


class RehearsalOut(Base):
    """`state`: none, underway (`done` of `of`), failed or done; what was found only when done."""

    state = fields.String()
    done = fields.Integer()
    of = fields.Integer()
    against = fields.Integer(allow_none=True)
    tool_state = fields.Integer(allow_none=True)
    at = fields.DateTime(allow_none=True)
    by_name = fields.String(allow_none=True)
    looked_at = fields.Integer(allow_none=True)
    touched = fields.List(Of(TouchedRevisionOut))
    known = fields.List(Of(KnownHeldOut))
    stored = Of(StoredOut, allow_none=True)


class PublishIn(Base):
    """`note`: what was changed and why; `valid_from`: left out: now."""

    note = Text(required=True, least=1, most=2_000)
    valid_from = Moment(load_default=None, allow_none=True)


class FieldFormOut(Base):
    name = fields.String()
    sort = fields.String()
    needed = fields.Boolean()
    of = fields.String()
    speaks = fields.Boolean()


class TableFormOut(Base):
    columns = fields.List(fields.String())
    single = fields.Boolean()
    first_of = fields.String()


class FormOut(Base):
    kind = fields.String()
    fields_ = fields.List(Of(FieldFormOut), data_key="fields", attribute="fields")
    table = Of(TableFormOut, allow_none=True)
    once = fields.Boolean()
    named = fields.Boolean()
    name_of = fields.String()


class FormsOut(Base):
    forms = fields.List(Of(FormOut))
