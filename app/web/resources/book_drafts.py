"""Rule books being drafted: begun, changed piece by piece or as text, taken out and brought back. Managers' alone."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from app import calendar
from app.domain.asking.people import Action, Sort
from app.domain.books.book_draft import BookDraft
from app.domain.errors import NotFound
from app.services.books import drafting, proving, publishing, rehearsing, saying
from app.services.books.drafting import Edit
from app.web import here
from app.web.blueprint import KEY, resource
from app.web.conditions import creates, edits, expected, once, tag
from app.web.files import carried_off
from app.web.guard import does, refuse_hidden_prices
from app.web.schemas.book_drafts import (
    BeginIn,
    BookMoveIn,
    BookPricedOut,
    BookTextIn,
    BookTextsOut,
    DiffOut,
    DraftOut,
    DraftsOut,
    EntryIn,
    FormsOut,
    NewPieceIn,
    PieceOut,
    PieceTextIn,
    PricesIn,
    PublishIn,
    RaiseIn,
    RehearsalOut,
    RewordIn,
    SaidOut,
    SayIn,
    StepsOut,
    TakeBackIn,
)
from app.web.schemas.proof import ComparisonOut, ProofOut, SaidIn
from app.web.views.drafted import diff_view, draft_view, piece_view, row_view, said_view, steps_view, words_view
from app.web.views.proved import comparison_view, proof_view
from app.web.views.rehearsed import rehearsal_view
from rules.drafting import Entry, sheet_of
from rules.drafting.amounts import amounts_of, as_csv, lists_of
from rules.drafting.differing import differing
from rules.drafting.forms import FORMS

blp = resource("book-drafts", "Rule books being drafted: nothing of them is in force until they are published.")

ONE = f"/book-drafts/<{KEY}:draft>"
PIECE = f"{ONE}/pieces/<{KEY}:piece>"


@blp.route("/book-forms", methods=["GET"])
@does(Action.READ, Sort.BOOK_DRAFT)
@blp.response(200, FormsOut)
def book_forms() -> Any:
    """Which fields and columns each kind of block has."""
    return {"forms": list(FORMS.values())}


@blp.route("/book-drafts", methods=["GET"])
@does(Action.READ, Sort.BOOK_DRAFT)
@blp.response(200, DraftsOut)
def all_drafts() -> Any:
    """Open ones first, then the last that were closed."""
    return {"drafts": [row_view(draft) for draft in drafting.drafts(here.store())]}


@blp.route("/book-drafts", methods=["POST"])
@does(Action.CHANGE, Sort.BOOK_DRAFT)
@creates
@blp.arguments(BeginIn)
@blp.response(201, DraftOut)
def begin_draft(body: dict[str, Any]) -> Any:
    """A draft that says what a published book says."""
    refuse_hidden_prices()
    return _answer(drafting.begin(here.store(), here.me(), body["base"], here.now(), once()))


@blp.route(ONE, methods=["GET"])
@does(Action.READ, Sort.BOOK_DRAFT)
@blp.response(200, DraftOut)
def one_draft(draft: int) -> Any:
    """Its blocks, its mistakes, and all that it declares."""
    return _answer(_draft(draft))


@blp.route(ONE, methods=["DELETE"])
@does(Action.CHANGE, Sort.BOOK_DRAFT)
@edits
@blp.response(200, DraftOut)
def throw_draft_away(draft: int) -> Any:
    """Closed for good; its text can still be read."""
    return _answer(drafting.throw_away(here.store(), _edit(draft)))


@blp.route(f"{ONE}/steps", methods=["GET"])
@does(Action.READ, Sort.BOOK_DRAFT)
@blp.response(200, StepsOut)
def steps_of_draft(draft: int) -> Any:
    """What was done to it, by whom, the last first."""
    return steps_view(drafting.steps(here.store(), draft))


@blp.route(f"{ONE}/steps", methods=["POST"])
@does(Action.CHANGE, Sort.BOOK_DRAFT)
@edits
@blp.arguments(TakeBackIn)
@blp.response(200, DraftOut)
def take_back(body: dict[str, Any], draft: int) -> Any:
    """Let it say again what it said as an earlier version."""
    return _answer(drafting.take_back(here.store(), _edit(draft), body["version"]))


@blp.route(f"{ONE}/text", methods=["GET"])
@does(Action.READ, Sort.BOOK_DRAFT)
@blp.response(200, {"type": "string"}, content_type="text/plain")
def text_of_draft(draft: int) -> Any:
    """The draft as a file in the rule-book format."""
    found = _draft(draft)
    return carried_off(found.text, "text/plain; charset=utf-8", f"draft-{draft}-{found.step.version}.book")


@blp.route(f"{ONE}/text", methods=["PUT"])
@does(Action.CHANGE, Sort.BOOK_DRAFT)
@edits
@blp.arguments(BookTextIn)
@blp.response(200, DraftOut)
def bring_text_back(body: dict[str, Any], draft: int) -> Any:
    """The whole text anew, with whatever mistakes it has."""
    return _answer(drafting.write(here.store(), _edit(draft), body["text"]))


@blp.route(f"{ONE}/changes", methods=["GET"])
@does(Action.READ, Sort.BOOK_DRAFT)
@blp.response(200, DiffOut)
def changes_of_draft(draft: int) -> Any:
    """Its text against that of the book it began from."""
    found = _draft(draft)
    before = publishing.book_text(here.store(), found.base)
    return diff_view(found.base, differing(before, found.text))


@blp.route(f"{ONE}/pieces", methods=["POST"])
@does(Action.CHANGE, Sort.BOOK_DRAFT)
@edits
@blp.arguments(NewPieceIn)
@blp.response(200, DraftOut)
def add_piece(body: dict[str, Any], draft: int) -> Any:
    """A new block."""
    return _answer(drafting.add(here.store(), _edit(draft), body["after"], _entry(body)))


@blp.route(PIECE, methods=["GET"])
@does(Action.READ, Sort.BOOK_DRAFT)
@blp.response(200, PieceOut)
def one_piece(draft: int, piece: int) -> Any:
    """One block: its fields, its table, and the lines themselves."""
    found = _draft(draft)
    if piece >= len(sheet_of(found.text).pieces):
        raise NotFound(what="book-piece", name=str(piece))
    return piece_view(found, piece), tag(found.step.version)


@blp.route(PIECE, methods=["PUT"])
@does(Action.CHANGE, Sort.BOOK_DRAFT)
@edits
@blp.arguments(EntryIn)
@blp.response(200, DraftOut)
def change_piece(body: dict[str, Any], draft: int, piece: int) -> Any:
    """What the block now says; what was not changed keeps its lines."""
    return _answer(drafting.rewrite(here.store(), _edit(draft), piece, _entry(body)))


@blp.route(PIECE, methods=["DELETE"])
@does(Action.CHANGE, Sort.BOOK_DRAFT)
@edits
@blp.response(200, DraftOut)
def take_piece_out(draft: int, piece: int) -> Any:
    """The block is gone from the draft."""
    return _answer(drafting.take_out(here.store(), _edit(draft), piece))


@blp.route(f"{PIECE}/text", methods=["PUT"])
@does(Action.CHANGE, Sort.BOOK_DRAFT)
@edits
@blp.arguments(PieceTextIn)
@blp.response(200, DraftOut)
def change_piece_text(body: dict[str, Any], draft: int, piece: int) -> Any:
    """The block's lines as they now are."""
    return _answer(drafting.rewrite_text(here.store(), _edit(draft), piece, body["text"]))


@blp.route(f"{PIECE}/place", methods=["PUT"])
@does(Action.CHANGE, Sort.BOOK_DRAFT)
@edits
@blp.arguments(BookMoveIn)
@blp.response(200, DraftOut)
def move_piece(body: dict[str, Any], draft: int, piece: int) -> Any:
    """Another place in the text: the order in which things are shown."""
    return _answer(drafting.move(here.store(), _edit(draft), piece, body["to"]))


@blp.route(f"{ONE}/prices", methods=["GET"])
@does(Action.READ, Sort.BOOK_DRAFT)
@blp.response(200, BookPricedOut)
def prices_of_draft(draft: int) -> Any:
    """Every amount in one sheet, a column for each list."""
    sheet = sheet_of(_draft(draft).text)
    return {"lists": list(lists_of(sheet)), "prices": amounts_of(sheet)}


@blp.route(f"{ONE}/prices.csv", methods=["GET"])
@does(Action.READ, Sort.BOOK_DRAFT)
@blp.response(200, {"type": "string"}, content_type="text/csv")
def prices_of_draft_csv(draft: int) -> Any:
    """The same as CSV, to be changed elsewhere and brought back."""
    content = as_csv(sheet_of(_draft(draft).text))
    return carried_off(content, "text/csv; charset=utf-8; header=present", f"prices-draft-{draft}.csv")


@blp.route(f"{ONE}/prices", methods=["PUT"])
@does(Action.CHANGE, Sort.BOOK_DRAFT)
@edits
@blp.arguments(PricesIn)
@blp.response(200, DraftOut)
def paste_prices(body: dict[str, Any], draft: int) -> Any:
    """Amounts out of a sheet of prices: all of it, or nothing with all that is wrong with it."""
    return _answer(drafting.paste_prices(here.store(), _edit(draft), body["csv"]))


@blp.route(f"{ONE}/raise", methods=["POST"])
@does(Action.CHANGE, Sort.BOOK_DRAFT)
@edits
@blp.arguments(RaiseIn)
@blp.response(200, DraftOut)
def raise_prices(body: dict[str, Any], draft: int) -> Any:
    """Amounts raised or lowered by a percentage, half up."""
    percent, step = Decimal(body["percent"]), Decimal(body["step"])
    changed = drafting.raise_prices(here.store(), _edit(draft), body["prices"], body["lists"], percent, step)
    return _answer(changed)


@blp.route(f"{ONE}/words", methods=["GET"])
@does(Action.READ, Sort.BOOK_DRAFT)
@blp.response(200, BookTextsOut)
def words_of_draft(draft: int) -> Any:
    """Every text for readers, side by side in the book's languages."""
    return words_view(_draft(draft))


@blp.route(f"{ONE}/words", methods=["PUT"])
@does(Action.CHANGE, Sort.BOOK_DRAFT)
@edits
@blp.arguments(RewordIn)
@blp.response(200, DraftOut)
def reword_draft(body: dict[str, Any], draft: int) -> Any:
    """One text in its place, in one language or more; with `piece` null one that was as shipped until now."""
    if body["piece"] is None:
        return _answer(drafting.word(here.store(), _edit(draft), body["name"], body["texts"]))
    where = (body["piece"], body["field"], body["row"])
    return _answer(drafting.reword(here.store(), _edit(draft), *where, body["texts"]))


@blp.route(f"{ONE}/conditions", methods=["POST"])
@does(Action.READ, Sort.BOOK_DRAFT)
@blp.arguments(SayIn)
@blp.response(200, SaidOut)
def say_condition(body: dict[str, Any], draft: int) -> Any:
    """A condition as typed: in the book's words, as terms, or what is wrong with it. Changes nothing."""
    return said_view(saying.said(_draft(draft), body["text"]), here.language())


@blp.route(f"{ONE}/rehearsal", methods=["GET"])
@does(Action.READ, Sort.BOOK_DRAFT)
@blp.response(200, RehearsalOut)
def rehearsal(draft: int) -> Any:
    """How far it has come, and what it found of the draft as it stands."""
    return rehearsal_view(here.store(), _draft(draft), here.now(), here.language())


@blp.route(f"{ONE}/rehearsal", methods=["POST"])
@does(Action.CHANGE, Sort.BOOK_DRAFT)
@blp.response(202, RehearsalOut)
def rehearse(draft: int) -> Any:
    """Begin to look at everything that the draft would touch."""
    found = _draft(draft)
    rehearsing.rehearse(here.store(), here.me(), found, here.now(), calendar.knows)
    return rehearsal_view(here.store(), found, here.now(), here.language())


@blp.route(f"{ONE}/proof", methods=["GET"])
@does(Action.READ, Sort.BOOK_DRAFT)
@blp.arguments(SaidIn, location="query")
@blp.response(200, ProofOut)
def proof_of_draft(query: dict[str, Any], draft: int) -> Any:
    """What is proved of the draft, with the tools as they stand."""
    book = rehearsing.draft_book(_draft(draft))
    return proof_view(proving.proved_book(here.store(), book), query["language"] or here.language())


@blp.route(f"{ONE}/against", methods=["GET"])
@does(Action.READ, Sort.BOOK_DRAFT)
@blp.arguments(SaidIn, location="query")
@blp.response(200, ComparisonOut)
def draft_against(query: dict[str, Any], draft: int) -> Any:
    """What the draft builds and charges otherwise than the book in force."""
    new, old = rehearsing.draft_book(_draft(draft)), publishing.current_book(here.store(), here.now())
    return comparison_view(proving.compared_books(here.store(), new, old), query["language"] or here.language())


@blp.route(f"{ONE}/publish", methods=["POST"])
@does(Action.CREATE, Sort.BOOK)
@edits
@blp.arguments(PublishIn)
@blp.response(200, DraftOut)
def publish_draft(body: dict[str, Any], draft: int) -> Any:
    """The draft as the next book. Refused unless this very text was rehearsed as things stand."""
    return _answer(rehearsing.publish(here.store(), _edit(draft), body["note"], body["valid_from"]))


def _draft(number: int) -> BookDraft:
    refuse_hidden_prices()
    return drafting.draft(here.store(), number)


def _edit(draft: int) -> Edit:
    """Raises MayNot while the reader's prices are hidden: what he can't see he can't change."""
    refuse_hidden_prices()
    return Edit(here.me(), draft, expected(), here.now())


def _answer(draft: BookDraft) -> Any:
    return draft_view(draft), tag(draft.step.version)


def _entry(body: dict[str, Any]) -> Entry:
    fields = tuple((field["name"], field["value"]) for field in body["fields"])
    return Entry(body["kind"], body["name"], fields, tuple(tuple(row) for row in body["rows"]))
