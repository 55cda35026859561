"""Changes on a shell, and the notes by which they are agreed. Amounts are null while the reader's prices are hidden."""

from __future__ import annotations

from marshmallow import fields

from app.services.answering.checking import LONGEST_LINE, LONGEST_TEXT
from app.web.fields import Amount, Base, By, Country, Day, Of, Text, Whole, Words
from app.web.schemas.changes import PlaceOut
from app.web.schemas.following import RangeOut
from app.web.schemas.promises import ProposalOut
from app.web.schemas.quotations import PaperOut

#: Whole minor units that are taken for one change beside the list, at most.
MOST_CHARGED = 100_000_000


class GoesToIn(Base):
    """Where the goods go: `country` ISO 3166-1 alpha-2."""

    country = Country(blank=True, load_default="")
    region = Text(load_default="", most=LONGEST_LINE)
    term = Text(load_default="", most=LONGEST_LINE)


class ChangeIn(Base):
    """`choices`: option → choice that is wanted instead; `place` null: it goes where it was to go.

    `charge`: what is taken for the work beside the list, before tax, in whole minor units.
    """

    choices = By(Text(most=80), load_default=dict)
    place = Of(GoesToIn, load_default=None, allow_none=True)
    charge = Whole(load_default=0, least=0, most=MOST_CHARGED)


class ChangeNoteIn(ChangeIn):
    """`why`: what the customer wants, in his words or the desk's."""

    why = Text(required=True, least=1, most=LONGEST_TEXT)


class NoteWhyIn(Base):
    why = Text(required=True, least=1, most=LONGEST_TEXT)


class NoteSignatureIn(Base):
    """`who` signed for the customer, on which `day`; `agreed`: the token of the dates that move, where any do."""

    who = Text(required=True, least=1, most=LONGEST_LINE)
    day = Day(required=True)
    agreed = Text(load_default="")


class ChoiceLabelOut(Base):
    choice = fields.String()
    label = Words()


class ChangeableOptionOut(Base):
    """`taken`: how a change of this option alone is taken now: free, priced, approval or no."""

    option = fields.String()
    label = Words()
    choice = fields.String()
    taken = fields.String()
    choices = fields.List(Of(ChoiceLabelOut))


class ChangeableOut(Base):
    """A shell as it is built now. `sheet`: the revision of its build sheet; `stage`: where it is.

    `letter`: of the revision that its order follows, empty for a shell of stock: no customer signs a note of that.
    """

    id = fields.Integer()
    order = fields.String()
    letter = fields.String()
    shell = fields.Integer()
    of = fields.Integer()
    name = Words()
    serial = fields.String(allow_none=True)
    sheet = fields.Integer(allow_none=True)
    state = fields.String()
    stage = Words(allow_none=True)
    currency = fields.String()
    place = Of(PlaceOut)
    options = fields.List(Of(ChangeableOptionOut))


class OptionChangeOut(Base):
    option = fields.String()
    label = Words()
    before = Words()
    after = Words()
    choice = fields.String()
    taken = fields.String()


class GoesElsewhereOut(Base):
    before = Of(PlaceOut)
    after = Of(PlaceOut)
    taken = fields.String()


class SpokenOut(Base):
    """Rules or tools, and what each says."""

    rules = fields.List(fields.String())
    says = fields.List(Words())


class DemandOut(Base):
    """What the change takes besides: one of `choices` of `option`."""

    option = fields.String()
    label = Words()
    choices = fields.List(Of(ChoiceLabelOut))


class ChangedPriceOut(Base):
    """A line before tax; null on the side where the shell has no such line."""

    label = Words()
    before = Amount()
    after = Amount()


class ChangeSumOut(Base):
    """What it comes to more (less, below nothing) under a tax case; `payable` with tax; `whole`: of the order then."""

    case = fields.String()
    net = Amount()
    tax = Amount()
    gross = Amount()
    payable = Amount()
    whole = Amount()


class InsteadOut(Base):
    """The shell is finished for stock; `slot` and `ready`: of another that is built as wished, null: no day."""

    slot = fields.Date(allow_none=True)
    ready = Of(RangeOut, allow_none=True)


class ChangeToldOut(Base):
    currency = fields.String()
    charge = Amount()
    prices = fields.List(Of(ChangedPriceOut))
    sums = fields.List(Of(ChangeSumOut))
    days = fields.Integer()
    before = Of(RangeOut, allow_none=True)
    after = Of(RangeOut, allow_none=True)
    gained = fields.List(Of(SpokenOut))


class WeighedChangeOut(ChangeToldOut):
    """`can`: a note can be drawn up of it. `reasons`: what can't stand together, `demands`: what it takes besides.

    `move`: the promises that move. `instead`: offered where the shell can't be changed any more.
    """

    taken = fields.String()
    changes = fields.List(Of(OptionChangeOut))
    place = Of(GoesElsewhereOut, allow_none=True)
    reasons = fields.List(Of(SpokenOut))
    demands = fields.List(Of(DemandOut))
    unpriced = fields.List(Words())
    untold = fields.String()
    out = fields.List(Words())
    can = fields.Boolean()
    needs_approval = fields.Boolean()
    move = Of(ProposalOut, allow_none=True)
    instead = Of(InsteadOut, allow_none=True)


class NoteActOut(Base):
    """`who`: the customer's man who signed, empty for what the firm says."""

    said = fields.String()
    who = fields.String()
    day = fields.Date()
    why = fields.String()
    at = fields.DateTime()
    by_name = fields.String()


class ChangeNoteOut(ChangeToldOut):
    """`holds`: it can still be signed as it was drawn up; `move`: the promises that move by it today."""

    number = fields.String()
    state = fields.String()
    at = fields.DateTime()
    by_name = fields.String()
    why = fields.String()
    needs_approval = fields.Boolean()
    stage = Words(allow_none=True)
    changes = fields.List(Of(OptionChangeOut))
    place = Of(GoesElsewhereOut, allow_none=True)
    acts = fields.List(Of(NoteActOut))
    holds = fields.Boolean()
    move = Of(ProposalOut, allow_none=True)
    papers = fields.List(Of(PaperOut))


class ShellChangesOut(Base):
    """The shell, and its notes, the last first."""

    shell = Of(ChangeableOut)
    notes = fields.List(Of(ChangeNoteOut))


class WaitingNoteOut(Base):
    """A note that waits, with its shell: key, order, serial (null before release) and name."""

    number = fields.String()
    state = fields.String()
    shell = fields.Integer()
    order = fields.String()
    serial = fields.String(allow_none=True)
    name = Words()
    why = fields.String()
    changes = fields.List(Of(OptionChangeOut))


class WaitingNotesOut(Base):
    notes = fields.List(Of(WaitingNoteOut))
