"""The papers of a shell that leaves, and its as-built record: what each says, frozen with the despatch."""

from __future__ import annotations

import subprocess
from dataclasses import replace
from datetime import date
from itertools import product
from pathlib import Path

import pytest

from app.documents.contents import Sheet
from app.documents.despatch.shell_papers import shell_paper_pdf
from app.domain.despatch.as_built import AsBuilt, Conceded, as_built_text
from app.domain.despatch.consignment import Consignment, Paper
from app.domain.despatch.despatch import Packing, Term, Trade
from app.domain.errors import NotFound, NotPacked
from app.services.despatch import consigning, despatching, leaving, recording_as_built
from app.services.despatch.consigning import old_parts
from app.services.floor import conceding
from app.services.floor.conceding import Asked
from app.services.money import balancing
from app.store import despatches
from rules.model import Book, Wording
from tests.app.desk import CLERK, MANAGER, S3_ROADSTER, Desk
from tests.app.test_billing import receive
from tests.app.test_building import INSPECTOR, LEAD, workshop  # noqa: F401 - a fixture
from tests.app.test_confirming import LATER, confirmed_order
from tests.app.test_despatching import CRATE, PACKED, leave, make_ready, shells
from tests.documents.reading import codes, faults, fonts, pages, whole

URL = "http://127.0.0.1:8765"
LOOSE = replace(PACKED, loose=("Bonnet bolts",), returned=("Old tunnel, tagged",), carrier="Fellside Freight")
ABROAD = replace(
    LOOSE, packages=(CRATE,), term=Term("FCA", "Ravensmoor"), timber_mark="GB-FC 0000 HT", evidence="Customs entry."
)


def packed(desk: Desk, packing: Packing = LOOSE, chosen: dict[str, str] | None = None) -> int:
    """A shell that is ready, billed and packed."""
    order = confirmed_order(desk, chosen)
    (shell,) = shells(desk, order)
    make_ready(desk, shell)
    balancing.bill_balance(desk.store, CLERK, order, LATER, shell=shell)
    despatching.pack(desk.store, LEAD, shell, packing, LATER)
    return shell


def gone(desk: Desk, packing: Packing = LOOSE) -> int:
    shell = packed(desk, packing)
    found = leaving.of_shell(desk.store, CLERK, shell, LATER)
    receive(desk, found.order.number, found.standing.open, day=LATER.date(), at=LATER)
    leave(desk, shell)
    return shell


def drawn(desk: Desk, shell: int, paper: Paper, language: str = "en", size: str = "a4") -> bytes:
    return consigning.paper(desk.store, CLERK, shell, paper.value, (language, size), LATER, url=URL)


def test_before_it_leaves_a_paper_is_a_draft_and_afterwards_the_same_bytes_for_good(workshop: Desk) -> None:  # noqa: F811
    shell = packed(workshop)
    draft = drawn(workshop, shell, Paper.DESPATCH_ADVICE)
    assert "Not despatched" in whole(draft)
    found = leaving.of_shell(workshop.store, CLERK, shell, LATER)
    receive(workshop, found.order.number, found.standing.open, day=LATER.date(), at=LATER)
    leave(workshop, shell)
    first = drawn(workshop, shell, Paper.DESPATCH_ADVICE)
    despatching.set_trade(workshop.store, MANAGER, Trade("8707.10", "GB", 2), LATER)
    assert drawn(workshop, shell, Paper.DESPATCH_ADVICE) == first
    # what was frozen says what the other papers print, too, whenever they are first asked for
    assert "within 5 days" in whole(drawn(workshop, shell, Paper.DESPATCH_ADVICE, "en", "letter"))


def test_the_despatch_advice_says_all_that_whoever_takes_it_over_needs(workshop: Desk) -> None:  # noqa: F811
    said = whole(drawn(workshop, gone(workshop), Paper.DESPATCH_ADVICE))
    for words in (
        *("D-2026-00001", "S-2026-00001", "Agnes Thornbury", "2 Fell Row", "Fellside Freight", "I-2026-00001"),
        *("4000 × 1650 × 1250 mm", "360 kg", "300 kg", "Bonnet bolts", "Old tunnel, tagged", "Primer"),
        *("Lift at the marked points only", "A shell is a component", "within 5 days", "DAMAGE SEEN"),
    ):
        assert words in said, words


def test_nothing_but_the_export_data_names_a_sum(workshop: Desk) -> None:  # noqa: F811
    """GBP 11 850 for the roadster, 240 for its dolly."""
    shell = packed(workshop, ABROAD)
    with pytest.raises(NotFound):
        drawn(workshop, shell, Paper.EXPORT_DATA)  # it stays at home
    for paper in (Paper.PACKING_LIST, Paper.DESPATCH_ADVICE, Paper.EVIDENCE_LETTER, Paper.DECLARATION):
        said = whole(drawn(workshop, shell, paper))
        assert "£" not in said
        assert "12,090" not in said


def _consignment(desk: Desk, shell: int) -> Consignment:
    with desk.store.reading() as db:
        found = leaving.leaving(desk.store, db, CLERK, shell, LATER)
        return consigning.consignment(desk.store, db, CLERK, found, LATER)


def abroad(desk: Desk) -> bytes:
    shell = packed(desk, ABROAD)
    told = replace(
        _consignment(desk, shell),
        number="D-2026-00001",
        abroad=True,
        untaxed=True,
        goes_to="US",
        imperial=True,
        locale="US",
    )
    return shell_paper_pdf(told, Paper.EXPORT_DATA, "en", Sheet.LETTER)


def test_export_data_have_code_term_timber_value_and_both_units(workshop: Desk) -> None:  # noqa: F811
    said = whole(abroad(workshop))
    for words in (
        *(
            "8707.10",
            "FCA Ravensmoor, Incoterms 2020",
            "GB-FC 0000 HT",
            "£12,090.00 before tax, in GBP",
            "United Kingdom",
        ),
        *("United States", "4100 × 1750 × 1400 mm (161.4 × 68.9 × 55.1 in)", "480 kg (1,058 lb)", "Customs entry."),
        "the importer’s responsibility: confirm with an accountant",
    ):
        assert words in said, words


def test_what_was_passed_by_concession_is_declared_in_the_reader_s_words(workshop: Desk) -> None:  # noqa: F811
    shell = packed(workshop)
    asked = conceding.ask(workshop.store, INSPECTOR, shell, Asked("surface", "A scratch that paint covers."), LATER)
    conceding.answer(workshop.store, MANAGER, shell, asked, True, "It does.", LATER)
    assert "Surface sound, fit for paint (granted on 3 November 2026)" in whole(
        drawn(workshop, shell, Paper.DECLARATION)
    )
    assert "Oberfläche in Ordnung, lackierfähig (erteilt am 3. November 2026)" in whole(
        drawn(workshop, shell, Paper.DECLARATION, "de")
    )


def test_the_boxes_to_be_signed_never_stand_alone_on_a_sheet(workshop: Desk) -> None:  # noqa: F811
    plain = _consignment(workshop, packed(workshop))
    for bags, language, sheet in product((0, 4, 8, 12), ("en", "de"), Sheet):
        told = replace(plain, packing=replace(plain.packing, loose=tuple(map("Bag {}".format, range(bags)))))
        *_, last = pages(shell_paper_pdf(told, Paper.DESPATCH_ADVICE, language, sheet))
        assert ("Cautions" if language == "en" else "Zur Vorsicht") in last


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("size", ["a4", "letter"])
def test_every_paper_prints_in_every_language_on_every_size(workshop: Desk, language: str, size: str) -> None:  # noqa: F811
    shell = gone(workshop)
    with workshop.store.reading() as db:
        code = despatches.record_code(db, shell)
    for paper in (Paper.PACKING_LIST, Paper.DESPATCH_ADVICE, Paper.EVIDENCE_LETTER, Paper.DECLARATION):
        made = drawn(workshop, shell, paper, language, size)
        assert faults(made) == []
        assert all(fonts(made).values())
        assert codes(made) == [f"{URL}/r/{code}"]


def test_a_shell_that_nobody_packed_has_no_papers(workshop: Desk) -> None:  # noqa: F811
    (shell,) = shells(workshop, confirmed_order(workshop))
    with pytest.raises(NotPacked):
        drawn(workshop, shell, Paper.PACKING_LIST)


def test_the_evidence_letter_s_title_says_when_an_old_part_is_built_in(workshop: Desk) -> None:  # noqa: F811
    own = packed(workshop)
    assert "Evidence letter: a new body shell" in whole(drawn(workshop, own, Paper.EVIDENCE_LETTER))
    told = replace(
        _consignment(workshop, own), old_parts=({"en": "original narrow tunnel", "de": "originaler Tunnel"},)
    )
    said = whole(shell_paper_pdf(told, Paper.EVIDENCE_LETTER, "en", Sheet.A4))
    assert "Evidence letter: an old part from a donor car is built in" in said
    assert "original narrow tunnel" in said


#: What C3 of the scenario speaks of, P1 and P4, is what must have passed before framing; a door of P2a is hung later.
def test_old_parts_are_those_that_c3_speaks_of(workshop: Desk) -> None:  # noqa: F811
    tunnel = {"body": "roadster", "market": "home", "series": "s1", "scuttle": "plain", "tunnel": "narrow"}
    doors = {**S3_ROADSTER, "own-doors": "yes"}
    for chosen, parts, speaks in ((tunnel, ("P1",), True), (doors, (), False)):
        number = workshop.drafted((chosen, 1))
        line = workshop.issue(number).lines[0].frozen
        assert line is not None
        assert (old_parts(_book(workshop), line), "C3" in line.depends.cautions) == (parts, speaks)


def _book(desk: Desk) -> Book:
    from app.services.books import publishing

    return publishing.current_book(desk.store, LATER)


MADE = AsBuilt(
    serial="S-2026-00001",
    firm="Ravensmoor Body Company",
    book=3,
    revision="B",
    sheet=2,
    specification={"body": "roadster", "tunnel": "narrow"},
    stages=(("framing", date(2026, 10, 12)),),
    despatched=date(2026, 11, 29),
    welds={"z-sills": (date(2026, 10, 14), date(2026, 10, 15))},
    inspection=(("verdict metal", "concession 2026-11-20"), ("gap:bonnet-front", "6.2 mm out")),
    parts=("P1",),
    concessions=(Conceded("gap:bonnet-front", date(2026, 11, 20), "6.2", "5.0 ± 1.0"),),
)

TEXT = """as-built record, form 1
serial: S-2026-00001
built by: Ravensmoor Body Company
rule book: 3
specification revision: B
sheet revision: 2
despatched: 2026-11-29

[specification]
body: roadster
tunnel: narrow

[stages done]
framing: 2026-10-12

[weld zones]
z-sills: 2026-10-14, 2026-10-15

[inspection]
verdict metal: concession 2026-11-20
gap:bonnet-front: 6.2 mm out

[parts of a donor car built in]
P1

[passed by concession]
gap:bonnet-front: 2026-11-20; measured 6.2; limit 5.0 ± 1.0

[mended]
none recorded
"""


def test_the_as_built_record_is_this_very_text() -> None:
    assert as_built_text(MADE) == TEXT


def test_anybody_checks_the_record_by_hand_and_it_names_no_person_and_no_price(workshop: Desk, tmp_path: Path) -> None:  # noqa: F811
    """By the coreutils' own sha256sum (FIPS 180-4), as the paper says."""
    shell = gone(workshop)
    with workshop.store.reading() as db:
        code = despatches.record_code(db, shell)
    assert code is not None
    found = recording_as_built.record(workshop.store, code)
    file = tmp_path / "record.txt"
    file.write_bytes(found.text)
    told = subprocess.run(["sha256sum", file], capture_output=True, check=True, text=True).stdout
    assert told.split()[0] == found.sha256
    assert found.sha256 in whole(drawn(workshop, shell, Paper.EVIDENCE_LETTER)).replace(" ", "")
    text = found.text.decode()
    for name in ("Agnes", "Thornbury", "tomasz", "Brandl", "oona", "£", "GBP", "11850", "O-2026", "Q-2026"):
        assert name not in text, name
    assert "serial: S-2026-00001\n" in text
    assert "verdict coated: pass 2026-11-03" in text
    with pytest.raises(NotFound):
        recording_as_built.record(workshop.store, "none-of-ours")


def test_a_paper_says_what_the_firm_words_itself_and_the_rest_as_shipped(workshop: Desk) -> None:  # noqa: F811
    """Frozen with the consignment: what the book says later changes no paper of a shell that has left."""
    shell, ask = packed(workshop), "Ask whoever registers cars where you live."
    with workshop.store.reading() as db:
        found = leaving.leaving(workshop.store, db, CLERK, shell, LATER)
        book = replace(found.book, wordings=(Wording("leaving-authority-decides", {"en": ask}),))
        own = consigning.consignment(workshop.store, db, CLERK, replace(found, book=book), LATER)
    letter = whole(shell_paper_pdf(own, Paper.EVIDENCE_LETTER, "en", Sheet.A4))
    assert ask in letter
    assert "for the registration authority alone to say" not in letter
    assert "It has this serial of ours and no other." in letter
    german = whole(shell_paper_pdf(own, Paper.EVIDENCE_LETTER, "de", Sheet.A4))
    assert "whoever registers" not in german
