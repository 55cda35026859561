"""Documents about an order's money: numbered without a gap, within the standards, and never changed."""

from __future__ import annotations

import csv
import sqlite3
from collections.abc import Mapping
from dataclasses import replace
from datetime import date, datetime, timedelta
from decimal import Decimal

import pytest

from app.domain.asking.people import Person
from app.domain.errors import BadInput, DocumentStands, FirmUntold, NotAgreed, NothingToBill, TaxUndecided
from app.domain.money.crediting import Credit
from app.domain.money.invoice import Document, Exchange, Kind, Stated
from app.domain.money.payment import Direction, Entry, Means
from app.domain.quotations.quotation import DeliveryPlace, ExtraSold, Reply
from app.services.books import publishing
from app.services.money import accounts, balancing, billing, bookkeeping, printing, receiving, refunding
from app.services.money.receiving import Agreed
from app.services.orders import ordering
from app.services.quotations import settling
from app.store import dealers, invoices
from demo.loading import BOOK
from rules.money.totals import TaxedSum
from tests.app.desk import CLERK, LINDENHOF, MANAGER, NOW, S3_ROADSTER, Desk
from tests.documents.reading import whole
from tests.support.standards import Check, rules_of_en_16931, schema_faults

TODAY = date(2026, 11, 2)
TWENTY = Decimal(20)


@pytest.fixture(scope="module")
def broken_rules() -> Check:
    return rules_of_en_16931()


def ordered(
    desk: Desk,
    *,
    quantity: int = 1,
    who: Person = CLERK,
    country: str = "GB",
    currency: str = "GBP",
    extras: Mapping[str, int] | None = None,
    **chosen: str,
) -> str:
    """The number of an order of case 12's roadster, or as said."""
    wish = desk.wish(country=country)
    lines = ({**S3_ROADSTER, **({"delivery": "van"} | chosen)}, quantity)
    place = DeliveryPlace(country)
    sold = tuple(ExtraSold(extra, many) for extra, many in (extras or {}).items())
    number = desk.drafted(lines, who=who, wish=wish, place=place, price_list=currency, extras=sold)
    desk.issue(number, who=who)
    settling.accept(desk.store, who, number, "A", Reply(NOW, "Agnes Thornbury"), NOW, expected=3)
    return ordering.order_of(desk.store, CLERK, number)


def receive(desk: Desk, order: str, amount: int, currency: str = "GBP", day: date = TODAY, at: datetime = NOW) -> int:
    """The key of the payment."""
    receiving.record(
        desk.store, CLERK, order, Entry(Direction.RECEIVED, amount, currency, day, Means.BANK_TRANSFER), at
    )
    return accounts.open_order(desk.store, CLERK, order, at).payments[-1].id


def deposited(desk: Desk, order: str, amount: int = 3_712_50) -> Document:
    return document(desk, billing.bill_deposit(desk.store, CLERK, order, receive(desk, order, amount), NOW))


def document(desk: Desk, number: str) -> Document:
    with desk.store.reading() as db:
        found = invoices.get(db, number, None)
    assert found is not None
    return found


def xml(desk: Desk, number: str) -> bytes:
    with desk.store.reading() as db:
        kept = invoices.xml(db, document(desk, number).id)
    assert kept is not None
    return kept


def paper(desk: Desk, number: str) -> bytes:
    with desk.store.reading() as db:
        one = document(desk, number)
        kept = invoices.paper(db, one.id, one.content.language, one.content.size)
    assert kept is not None
    return kept


def test_a_deposit_has_a_document_at_its_own_tax_point(desk: Desk, broken_rules: Check) -> None:
    made = deposited(desk, ordered(desk))
    assert (made.number, made.kind, made.content.tax_point) == ("I-2026-00001", Kind.DEPOSIT, TODAY)
    assert made.rows == (TaxedSum("S", TWENTY, 3_093_75, 618_75),)
    assert (made.content.sum.with_tax, made.content.sum.payable) == (3_712_50, 0)
    assert (broken_rules(xml(desk, made.number).decode()), schema_faults(xml(desk, made.number))) == ([], [])
    printed = whole(paper(desk, made.number))
    assert all(
        words in printed for words in ("Deposit invoice I-2026-00001", "£618.75", "£3,712.50", "2 November 2026")
    )


def test_three_documents_and_two_series_leave_no_gap(desk: Desk) -> None:
    order = ordered(desk)
    first = deposited(desk, order, 1_000_00)
    with pytest.raises(BadInput):
        billing.credit(desk.store, CLERK, order, Credit(first.number, 1, 999_999, "too much"), NOW)
    second = deposited(desk, order, 2_712_50)
    noted = billing.credit(desk.store, CLERK, order, Credit(second.number, 1, 10_00, "goodwill"), NOW)
    balance = balancing.bill_balance(desk.store, CLERK, order, NOW)
    assert [first.number, second.number, noted, balance] == [
        "I-2026-00001",
        "I-2026-00002",
        "C-2026-00001",
        "I-2026-00003",
    ]


def test_the_balance_sets_off_what_was_billed_in_advance(desk: Desk, broken_rules: Check) -> None:
    order = ordered(desk)
    advance = deposited(desk, order)
    number = balancing.bill_balance(desk.store, CLERK, order, NOW)
    made = document(desk, number)
    assert [one.number for one in made.content.set_off] == [advance.number]
    assert (made.content.sum.with_tax, made.content.sum.prepaid, made.content.sum.payable) == (
        14_850_00,
        3_712_50,
        11_137_50,
    )
    assert (broken_rules(xml(desk, number).decode()), schema_faults(xml(desk, number))) == ([], [])
    with pytest.raises(DocumentStands):
        balancing.bill_balance(desk.store, CLERK, order, NOW)


def test_case_24_a_rate_that_moves_before_the_balance_makes_two_categories(desk: Desk, broken_rules: Check) -> None:
    """The invented rate of 22 % holds from 1 December."""
    order = ordered(desk)
    advance = deposited(desk, order)
    text, row = BOOK.read_text(encoding="utf-8"), "  | 2011-01-04 | 20 %    |\n"
    assert text.count(row) == 1
    moved = text.replace(row, row + "  | 2026-12-01 | 22 %    |\n")
    publishing.publish_book(desk.store, MANAGER, moved, NOW)
    later = NOW + timedelta(days=40)
    made = document(desk, balancing.bill_balance(desk.store, CLERK, order, later))
    assert made.rows == (TaxedSum("S", Decimal(22), 9_281_25, 2_041_88), *advance.rows)
    assert made.content.sum.payable == 11_323_13
    assert (broken_rules(xml(desk, made.number).decode()), schema_faults(xml(desk, made.number))) == ([], [])
    assert "22%" in whole(paper(desk, made.number))


def test_case_23_a_credit_note_names_document_line_concession_and_reason(desk: Desk, broken_rules: Check) -> None:
    order = ordered(desk)
    deposited(desk, order)
    invoice = balancing.bill_balance(desk.store, CLERK, order, NOW)
    before = (document(desk, invoice), xml(desk, invoice), paper(desk, invoice))
    wanted = Credit(invoice, 1, 150_00, "Goodwill: bonnet gap passed by concession.", "CN-2026-004")
    number = billing.credit(desk.store, CLERK, order, wanted, NOW)
    made = document(desk, number)
    assert made.rows == (TaxedSum("S", TWENTY, 150_00, 30_00),)
    assert (made.content.credits, made.content.credited_line, made.content.concession) == (invoice, 1, "CN-2026-004")
    assert (broken_rules(xml(desk, number).decode()), schema_faults(xml(desk, number))) == ([], [])
    assert (document(desk, invoice), xml(desk, invoice), paper(desk, invoice)) == before
    printed = whole(paper(desk, number))
    assert all(words in printed for words in (invoice, "CN-2026-004", "£150.00", "£30.00", "£180.00"))


def test_rules_and_schemas_bite(desk: Desk, broken_rules: Check) -> None:
    """A penny more, a part left out, a part out of its order: each is noticed."""
    made = xml(desk, deposited(desk, ordered(desk)).number)
    number, more = b"<cbc:ID>I-2026-00001</cbc:ID>", made.replace(b">618.75<", b">618.76<", 1)
    assert "BR-CO-14" in broken_rules(more.decode())
    assert schema_faults(more) == []  # a schema adds nothing up
    assert "BR-02" in broken_rules(made.replace(number, b"").decode())
    assert schema_faults(made.replace(number, b"").replace(b"</cbc:IssueDate>", b"</cbc:IssueDate>" + number))


@pytest.mark.parametrize("table", ["documents", "document_papers", "payments"])
def test_what_was_paid_and_written_never_changes(desk: Desk, table: str) -> None:
    deposited(desk, ordered(desk))
    for act in (f"DELETE FROM {table}", f"UPDATE {table} SET id = id + 1"):
        with pytest.raises(sqlite3.IntegrityError, match="only grow"), desk.store.writing() as db:
            db.execute(act)


def test_a_payment_is_billed_once(desk: Desk) -> None:
    order = ordered(desk)
    payment = receive(desk, order, 3_712_50)
    billing.bill_deposit(desk.store, CLERK, order, payment, NOW)
    with pytest.raises(DocumentStands) as refused:
        billing.bill_deposit(desk.store, CLERK, order, payment, NOW)
    assert refused.value.facts == {"document": "I-2026-00001"}


def test_pounds_for_a_euro_order_are_billed_for_what_was_agreed(desk: Desk, broken_rules: Check) -> None:
    order = ordered(desk, who=LINDENHOF, country="DE", currency="EUR", delivery="door-germany", packing="frame")
    payment = receive(desk, order, 2_000_00, "GBP")
    with pytest.raises(NotAgreed) as refused:
        billing.bill_deposit(desk.store, CLERK, order, payment, NOW)
    assert refused.value.facts == {"currency": "EUR", "paid": "GBP"}
    receiving.agree(desk.store, CLERK, order, payment, Agreed(2_300_00, "1.15", TODAY, "Greta Lindenhof"), NOW)
    made = document(desk, billing.bill_deposit(desk.store, CLERK, order, payment, NOW))
    assert made.content.sum.with_tax == 2_300_00
    assert made.rows == (TaxedSum("G", Decimal(0), 2_300_00, 0),)
    assert (broken_rules(xml(desk, made.number).decode()), schema_faults(xml(desk, made.number))) == ([], [])
    with desk.store.reading() as db:
        assert invoices.papers(db, made.id)[0].language == made.content.language
    printed = whole(paper(desk, made.number))
    assert "£2,000.00" in printed or "2.000,00 £" in printed
    german, english = (whole(printing.pdf(made.content, language, "a4")) for language in ("de", "en"))
    assert "Kurs 1,15 vom" in german
    assert "rate 1.15 of" in english


#: The invented rate: 1.16 euro for a pound.
NOVEMBER = Exchange("1.16", TODAY, "HMRC monthly rates, November 2026")


def taxed_in_euro(desk: Desk) -> str:
    """Collected here and, so a person decided, taxed: €14 490.00 before tax, 2 898.00 of it."""
    order = ordered(desk, country="NL", currency="EUR", delivery="collected")
    billing.decide_tax(desk.store, CLERK, order, "standard", "Held as security until the evidence is here.", NOW)
    return order


def test_a_taxed_deposit_in_euro_states_its_tax_in_sterling(desk: Desk, broken_rules: Check) -> None:
    """GOV.UK, Transactions in foreign currencies and VAT; EN 16931: BT-6, BT-111 and BR-53."""
    order = taxed_in_euro(desk)
    payment = receive(desk, order, 4_347_00, "EUR")
    with pytest.raises(BadInput) as refused:
        billing.bill_deposit(desk.store, CLERK, order, payment, NOW)
    assert [(one.path, one.code, dict(one.facts)) for one in refused.value.faults] == [
        ("exchange", "exchange-needed", {"home": "GBP", "currency": "EUR"})
    ]
    made = document(desk, billing.bill_deposit(desk.store, CLERK, order, payment, NOW, exchange=NOVEMBER))
    assert made.rows == (TaxedSum("S", TWENTY, 3_622_50, 724_50),)
    assert made.content.stated == Stated("GBP", (TaxedSum("S", TWENTY, 3_122_84, 624_57),), NOVEMBER)
    written = xml(desk, made.number)
    assert b"<cbc:TaxCurrencyCode>GBP</cbc:TaxCurrencyCode>" in written
    assert b'<cbc:TaxAmount currencyID="GBP">624.57</cbc:TaxAmount>' in written
    assert (broken_rules(written.decode()), schema_faults(written)) == ([], [])
    assert "BR-53" in broken_rules(written.decode().replace('currencyID="GBP">624.57', 'currencyID="USD">624.57'))
    english, german = (whole(printing.pdf(made.content, language, "a4")) for language in ("en", "de"))
    for words in ("VAT due: £624.57", "£3,122.84", "1.16 EUR for 1 GBP, of 2 November 2026", NOVEMBER.source):
        assert words in english
    assert "1,16 EUR für 1 GBP, vom 2. November 2026" in german
    assert "624,57 £" in german


def test_the_balance_takes_over_the_sterling_of_the_deposit_and_credits_go_at_their_own_document_s_rate(
    desk: Desk, broken_rules: Check
) -> None:
    """Of 2 898.00 euro of tax 724.50 were stated at 1.16 and stay 624.57; 2 173.50 at 1.20 are 1 811.25."""
    order = taxed_in_euro(desk)
    payment = receive(desk, order, 4_347_00, "EUR")
    advance = document(desk, billing.bill_deposit(desk.store, CLERK, order, payment, NOW, exchange=NOVEMBER))
    december = replace(NOVEMBER, rate="1.20")
    balance = document(desk, balancing.bill_balance(desk.store, CLERK, order, NOW, exchange=december))
    (row,) = balance.content.stated.rows if balance.content.stated else ()
    assert row.tax == 624_57 + 1_811_25
    assert row.taxable == 3_122_84 + 9_056_25
    assert (broken_rules(xml(desk, balance.number).decode()), schema_faults(xml(desk, balance.number))) == ([], [])
    assert advance.number in whole(paper(desk, balance.number))
    first = billing.credit(desk.store, CLERK, order, Credit(advance.number, 1, 100_00, "goodwill"), NOW)
    rest = billing.credit(desk.store, CLERK, order, Credit(advance.number, 1, 3_522_50, "all of it"), NOW)
    told = [document(desk, number).content.stated for number in (first, rest)]
    assert [one.rows[0].tax for one in told if one] == [17_24, 607_33]  # 20.00 / 1.16; together 624.57
    assert (broken_rules(xml(desk, rest).decode()), schema_faults(xml(desk, rest))) == ([], [])


def test_a_rate_is_whole_or_nothing_and_only_where_it_is_needed(desk: Desk) -> None:
    order, home = taxed_in_euro(desk), ordered(desk)
    wrong = Exchange("1,16", TODAY + timedelta(days=1), " ")
    with pytest.raises(BadInput) as refused:
        balancing.bill_balance(desk.store, CLERK, order, NOW, exchange=wrong)
    assert {(one.path, one.code) for one in refused.value.faults} == {
        ("exchange.rate", "not-a-rate"),
        ("exchange.day", "in-the-future"),
        ("exchange.source", "required"),
    }
    with pytest.raises(BadInput) as needless:
        balancing.bill_balance(desk.store, CLERK, home, NOW, exchange=NOVEMBER)
    assert [one.code for one in needless.value.faults] == ["no-exchange-needed"]


def test_the_bookkeeper_reads_the_sterling_beside_the_euro(desk: Desk) -> None:
    order = taxed_in_euro(desk)
    payment = receive(desk, order, 4_347_00, "EUR")
    billing.bill_deposit(desk.store, CLERK, order, payment, NOW, exchange=NOVEMBER)
    rows = list(csv.DictReader(bookkeeping.exported(desk.store, TODAY, TODAY).splitlines()))
    (row,) = [one for one in rows if one["row"] == "deposit"]
    assert (row["currency"], row["tax"], row["stated_currency"], row["stated_net"], row["stated_tax"]) == (
        *("EUR", "724.50"),
        *("GBP", "3122.84", "624.57"),
    )
    assert (row["stated_rate"], row["stated_rate_date"], row["stated_source"]) == (
        "1.16",
        "2026-11-02",
        NOVEMBER.source,
    )


def test_for_the_bookkeeper_an_invoice_is_less_what_was_billed_in_advance(desk: Desk) -> None:
    """Case 12's 12 375.00 and 2 475.00 of tax stand in the file once, though two documents bill a part of them."""
    order = ordered(desk)
    advance = deposited(desk, order, 3_712_50).number
    bill = document(desk, balancing.bill_balance(desk.store, CLERK, order, NOW)).number
    rows = list(csv.DictReader(bookkeeping.exported(desk.store, TODAY, TODAY).splitlines()))
    billed = [row for row in rows if row["row"] in ("deposit", "balance", "set-off")]
    assert sum(Decimal(row["net"]) for row in billed) == Decimal("12375.00")
    assert sum(Decimal(row["tax"]) for row in billed) == Decimal("2475.00")
    (off,) = [row for row in rows if row["row"] == "set-off"]
    assert (off["number"], off["refers_to"], off["amount"]) == (bill, advance, "-3712.50")


def test_for_the_bookkeeper_sterling_is_set_off_as_it_was_stated_in_advance(desk: Desk) -> None:
    order = taxed_in_euro(desk)
    payment = receive(desk, order, 4_347_00, "EUR")
    billing.bill_deposit(desk.store, CLERK, order, payment, NOW, exchange=NOVEMBER)
    balancing.bill_balance(desk.store, CLERK, order, NOW, exchange=NOVEMBER)
    rows = csv.DictReader(bookkeeping.exported(desk.store, TODAY, TODAY).splitlines())
    (off,) = [row for row in rows if row["row"] == "set-off"]
    assert (off["stated_currency"], off["stated_net"], off["stated_tax"]) == ("GBP", "-3122.84", "-624.57")


def test_money_beyond_the_price_is_not_billed(desk: Desk) -> None:
    order = ordered(desk)
    assert deposited(desk, order, 20_000_00).content.sum.with_tax == 14_850_00
    with pytest.raises(NothingToBill):
        billing.bill_deposit(desk.store, CLERK, order, receive(desk, order, 1_00), NOW)


def test_where_a_person_must_decide_the_tax_nothing_is_billed_before(desk: Desk) -> None:
    order = ordered(desk, country="NL", delivery="collected")
    payment = receive(desk, order, 3_627_00)
    with pytest.raises(TaxUndecided):
        billing.bill_deposit(desk.store, CLERK, order, payment, NOW)
    billing.decide_tax(desk.store, CLERK, order, "standard", "Held as security until the evidence is here.", NOW)
    made = document(desk, billing.bill_deposit(desk.store, CLERK, order, payment, NOW))
    assert made.rows == (TaxedSum("S", TWENTY, 3_022_50, 604_50),)
    with pytest.raises(DocumentStands):
        billing.decide_tax(desk.store, CLERK, order, "export", "Changed my mind.", NOW)


def test_case_19_tax_held_as_security_goes_back_on_evidence(desk: Desk) -> None:
    """12 090.00 and 2 418.00 of tax: credited, decided anew and billed without it, the tax is what is left over."""
    order = ordered(desk, country="NL", delivery="collected")
    billing.decide_tax(desk.store, CLERK, order, "standard", "Held as security until the evidence is here.", NOW)
    receive(desk, order, 14_508_00)
    bill = balancing.bill_balance(desk.store, CLERK, order, NOW)
    with pytest.raises(DocumentStands):
        billing.decide_tax(desk.store, CLERK, order, "export", "The evidence is here.", NOW)
    billing.credit(desk.store, CLERK, order, Credit(bill, 1, 12_090_00, "The evidence of export is here."), NOW)
    billing.decide_tax(desk.store, CLERK, order, "export", "The evidence is here.", NOW)
    again = document(desk, balancing.bill_balance(desk.store, CLERK, order, NOW))
    assert (again.content.sum.with_tax, again.content.sum.tax) == (12_090_00, 0)
    account = accounts.open_order(desk.store, CLERK, order, NOW).account
    assert (account.received, account.over, account.due) == (14_508_00, 2_418_00, 0)


def test_a_firm_without_a_tax_number_bills_nothing(desk: Desk) -> None:
    order = ordered(desk)
    with desk.store.writing() as db:
        dealers.put_firm(db, {"name": "Ravensmoor Body Company"})
    with pytest.raises(FirmUntold) as refused:
        balancing.bill_balance(desk.store, CLERK, order, NOW)
    assert refused.value.facts == {"missing": ("tax_number",)}


def test_case_22_the_worksheet_proposes_nothing_and_its_credit_note_takes_the_tax_it_says(desk: Desk) -> None:
    order = ordered(desk)
    deposited(desk, order)
    decided = refunding.Decided(2_000_00, "Cancelled by letter.", "rollover weld", "61", "stock in build")
    sheet = document(desk, refunding.write_worksheet(desk.store, MANAGER, order, decided, NOW))
    assert sheet.content.worksheet is not None
    assert sheet.content.worksheet.kept == (TaxedSum("S", TWENTY, 1_666_67, 333_33),)
    note = document(desk, refunding.credit_refund(desk.store, MANAGER, order, sheet.number, NOW))
    assert (note.content.sum.with_tax, note.content.sum.tax) == (1_712_50, 285_42)
    with pytest.raises(DocumentStands):
        refunding.credit_refund(desk.store, MANAGER, order, sheet.number, NOW)


def test_a_refund_over_two_documents_takes_from_the_last_first(desk: Desk) -> None:
    order = ordered(desk)
    first, last = deposited(desk, order, 2_000_00), deposited(desk, order, 1_712_50)
    sheet = refunding.write_worksheet(desk.store, MANAGER, order, refunding.Decided(1_000_00, "Cancelled."), NOW)
    refunding.credit_refund(desk.store, MANAGER, order, sheet, NOW)
    notes = [
        one for one in accounts.open_order(desk.store, CLERK, order, NOW).documents if one.kind is Kind.CREDIT_NOTE
    ]
    assert [(note.content.credits, note.content.sum.with_tax) for note in notes] == [
        (last.number, 1_712_50),
        (first.number, 1_000_00),
    ]


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("size", ["a4", "letter"])
def test_every_paper_prints_in_every_language_on_every_size(desk: Desk, language: str, size: str) -> None:
    order = ordered(desk)
    made = deposited(desk, order)
    refunding.write_worksheet(desk.store, MANAGER, order, refunding.Decided(0, "Cancelled."), NOW)
    balancing.bill_balance(desk.store, CLERK, order, NOW)
    billing.credit(desk.store, CLERK, order, Credit(made.number, 1, 1, "a penny"), NOW)
    for one in accounts.open_order(desk.store, CLERK, order, NOW).documents:
        again = printing.pdf(one.content, language, size)
        assert again == printing.pdf(one.content, language, size)
        assert one.number in whole(again)


def test_what_is_agreed_names_its_rate_and_lies_not_ahead(desk: Desk) -> None:
    order = ordered(desk)
    payment = receive(desk, order, 2_000_00, "ZAR")
    wrong = Agreed(0, "about 1", TODAY + timedelta(days=1), " ")
    with pytest.raises(BadInput) as refused:
        receiving.agree(desk.store, CLERK, order, payment, wrong, NOW)
    assert {(fault.path, fault.code) for fault in refused.value.faults} == {
        ("amount", "too-small"),
        ("rate", "not-a-rate"),
        ("rate_day", "in-the-future"),
        ("agreed_by", "required"),
    }
