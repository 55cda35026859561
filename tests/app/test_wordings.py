"""What papers and letters say is the firm's to word, by its rule book; what was issued keeps its bytes."""

from __future__ import annotations

from datetime import timedelta
from string import Formatter

import pytest

from app.documents.saying import phrases
from app.domain.errors import NotFound
from app.services.books import drafting, publishing, wordings
from app.services.letters import chasing
from app.services.quotations import handing_out
from app.wording import LANGUAGES, catalogue
from demo.loading import BOOK
from rules.drafting import sheet_of
from rules.wordings import WORDINGS, wording_of
from tests.app.desk import CLERK, MANAGER, NOW, S3_ROADSTER, Desk
from tests.documents.reading import whole

LATER = NOW + timedelta(days=1)
OWN = """
wording close-warranty-default
  text en: Two years on our welds.
  text de: Zwei Jahre auf unsere Schweißungen.

wording letter-offer
  text en: Dear {name}, ¶ here is {number}. ¶ {author}
  text de: Guten Tag {name}, ¶ hier ist {number}. ¶ {author}
"""


def publish(desk: Desk, more: str) -> None:
    publishing.publish_book(desk.store, MANAGER, BOOK.read_text(encoding="utf-8") + more, LATER)


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_text_that_can_be_worded_is_shipped_and_names_no_more_than_is_said(language: str) -> None:
    """Some kinds of a text name less than the table lets it: what is handed to one letter is handed to all like it."""
    said = {wording_of(key): text for key, text in {**phrases.sentences(language), **catalogue(language)}.items()}
    for id_, slots in WORDINGS.items():
        named = {name for _, name, _, _ in Formatter().parse(said[id_]) if name}
        assert named <= set(slots), id_
        assert id_.startswith("letter-") or named == set(slots), id_


def test_a_new_quotation_prints_the_firm_s_own_words_and_an_issued_one_keeps_its_own(desk: Desk) -> None:
    before = desk.drafted((S3_ROADSTER, 1))
    desk.issue(before)
    issued = handing_out.paper(desk.store, CLERK, before, "A", "en", "a4", NOW)
    publish(desk, OWN)
    assert handing_out.paper(desk.store, CLERK, before, "A", "en", "a4", LATER) == issued
    assert "Zwei Jahre" not in whole(handing_out.paper(desk.store, CLERK, before, "A", "de", "a4", LATER))
    after = desk.drafted((S3_ROADSTER, 1), at=LATER)
    desk.issue(after, at=LATER)
    assert "Two years on our welds." in whole(handing_out.paper(desk.store, CLERK, after, "A", "en", "a4", LATER))


def test_a_letter_speaks_as_the_book_in_force_does(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1))
    desk.issue(number)
    publish(desk, OWN)
    (offer, *_) = chasing.letters(desk.store, CLERK, number, "A", LATER)
    assert offer.text == f"Dear Agnes Thornbury,\nhere is {number}.\nImogen Faulk"
    assert offer.subject == f"Quotation {number}, revision A"
    (german, *_) = chasing.letters(desk.store, CLERK, number, "A", LATER, "de")
    assert german.text.startswith("Guten Tag Agnes Thornbury,\nhier ist")


def test_every_letter_can_be_worded_with_all_that_its_text_can_name(desk: Desk) -> None:
    """Nothing that the table lets a text name may be missing when the letter is written."""
    number = desk.drafted((S3_ROADSTER, 1))
    desk.issue(number)
    worded = [(id_, slots) for id_, slots in WORDINGS.items() if id_.startswith(("letter-offer", "letter-reminder"))]
    every = "".join(
        f"\nwording {id_}\n" + "".join(f"  text {code}: {' '.join(f'{{{s}}}' for s in slots)}\n" for code in LANGUAGES)
        for id_, slots in worded
    )
    publish(desk, every)
    assert len(chasing.letters(desk.store, CLERK, number, "A", LATER)) == 2


def test_a_draft_lists_them_as_shipped_until_one_is_worded_and_can_put_it_back(desk: Desk) -> None:
    draft = drafting.begin(desk.store, MANAGER, None, NOW)
    shown = wordings.texts_of(sheet_of(draft.text))
    assert [one.worded.name for one in shown if one.shipped] == list(WORDINGS)
    (letter,) = (one for one in shown if one.worded.name == "letter-moved")
    assert (letter.piece, letter.worded.missing, letter.worded.texts) == (None, False, letter.shipped)
    edit = drafting.Edit(MANAGER, draft.id, 1, NOW)
    texts = {"en": "Dear {name},\n\nnew day: {from}.", "de": "Guten Tag {name},\n\nneuer Tag: {from}."}
    drafting.word(desk.store, edit, "letter-moved", texts)
    after = drafting.draft(desk.store, draft.id)
    assert drafting.read(after.text).mistakes == ()
    (own,) = (one for one in wordings.texts_of(sheet_of(after.text)) if one.worded.name == "letter-moved")
    assert (own.worded.texts, own.piece) == (texts, len(sheet_of(after.text).pieces) - 1)
    drafting.reword(
        desk.store, drafting.Edit(MANAGER, draft.id, 2, NOW), own.piece or 0, "text", None, {"en": "A\n\nB {x}"}
    )
    wrong = drafting.draft(desk.store, draft.id)
    assert [m.what for m in drafting.read(wrong.text).mistakes] == ["nothing fills “{x}” in “text en”"]
    drafting.take_out(desk.store, drafting.Edit(MANAGER, draft.id, 3, NOW), own.piece or 0)
    assert drafting.draft(desk.store, draft.id).text == draft.text
    with pytest.raises(NotFound):
        drafting.word(desk.store, drafting.Edit(MANAGER, draft.id, 4, NOW), "letter-nobody", texts)
