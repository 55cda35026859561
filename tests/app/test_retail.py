"""A dealer's own offer: the list with his margin on it, whatever he pays; what he pays stands nowhere on it."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from io import BytesIO

import pikepdf
import pytest

from app.domain.asking.people import Person, Role
from app.domain.errors import BadInput, CannotBeBuilt, NotFound, RetailUntold
from app.domain.quotations.quotation import DeliveryPlace, ExtraSold, Reply
from app.domain.quotations.retail import retail_sum
from app.services.quotations import handing_out, quoting, retailing, settling
from rules.money.price import LineNet, ShellPrice
from rules.money.totals import QuotedPrice, ShellsPrice
from tests.app.desk import BAYOU, CLERK, HOLLIN, LINDENHOF, NOW, S3_ROADSTER, Desk
from tests.documents.reading import faults, figures, whole

THEMBA = Person("themba", "Themba Kroll", Role.DEALER, "karoo-road")

#: Case 15: metallic, outside and shuts, in a closed crate to the door.
GERMAN_COUPE = {
    "series": "s3", "market": "europe", "body": "coupe", "finish": "painted", "scope": "outside-and-shuts",
    "colour": "frost", "primer": "epoxy-and-filler", "packing": "crate", "delivery": "door-germany",
}  # fmt: skip


def case_15(desk: Desk, *, margin: str | None = "8.5", issued: bool = True) -> str:
    """Lindenhof's, for a customer of his own."""
    retailing.say_terms(desk.store, LINDENHOF, "Lindenhof 3\nWeidenau", "", "", margin, NOW)
    number = desk.drafted((GERMAN_COUPE, 1), who=LINDENHOF, wish=desk.wish("Anselm Brückwart", "DE"), price_list="EUR",
                          place=DeliveryPlace("DE"), extras=(ExtraSold("photo-book", 2),))  # fmt: skip
    if issued:
        desk.issue(number, who=LINDENHOF)
    return number


def test_each_line_is_the_list_with_the_margin_on_it() -> None:
    """A half goes away from zero on a charge and on an allowance alike (decision 7)."""
    nets = tuple(LineNet(f"line-{net}", "A", net, (), net, 0, net) for net in (20, -20, 1_185_000))
    price = ShellsPrice(ShellPrice(nets, (), sum(net.net for net in nets)), 2, 2 * 1_185_000)
    offered = retail_sum(QuotedPrice(2, (price,), (), (), 2_370_000), Decimal("12.5"))
    assert [line.amount for line in offered.shells[0].lines] == [23, -23, 1_333_125]
    assert (offered.shells[0].one, offered.shells[0].all, offered.before_tax) == (1_333_125, 2_666_250, 2_666_250)


def test_case_15_at_retail(desk: Desk) -> None:
    """15 800, 5 850 × 1.12, 830 and 1 380, each with 8.5 % on it; two photo books at 175."""
    offer = retailing.offer(desk.store, LINDENHOF, case_15(desk), "A", NOW)
    assert offer.sum is not None
    charged = [line.amount for line in offer.sum.shells[0].lines if line.amount]
    assert charged == [1_714_300, 710_892, 90_055, 149_730]
    assert [(one.each, one.all) for one in offer.sum.extras] == [(18_988, 37_976)]
    assert (offer.currency, offer.sum.before_tax) == ("EUR", 2_664_977 + 37_976)


def test_three_shells_keep_the_discount_that_the_book_gives_everybody(desk: Desk) -> None:
    retailing.say_terms(desk.store, HOLLIN, "Hollin Lane", "", "", "0", NOW)
    offer = retailing.offer(desk.store, HOLLIN, desk.drafted((S3_ROADSTER, 3), who=HOLLIN), "A", NOW)
    assert offer.sum is not None
    assert offer.sum.shells[0].lines[0].amount == 1_149_450  # 11 850 less 3 %


def test_two_dealers_of_one_list_and_one_margin_offer_alike_whatever_each_pays(desk: Desk) -> None:
    sums = []
    for who in (HOLLIN, THEMBA):  # 15 % and 14 % on the shell
        retailing.say_terms(desk.store, who, "A lane", "", "", "7.25", NOW)
        sums.append(retailing.offer(desk.store, who, desk.drafted((S3_ROADSTER, 1), who=who), "A", NOW).sum)
    assert sums[0] == sums[1]


def trade_amounts(desk: Desk, number: str) -> set[str]:
    """What the dealer pays, line by line and summed, and what is taken off for him, as figures in a row."""
    priced = quoting.price_revision(desk.store, LINDENHOF, number, "A", NOW)
    assert priced.price is not None
    assert priced.totals is not None
    lines = [line for shell in priced.price.lines for line in shell.shell.lines if line.discount]
    amounts = {amount for line in lines for amount in (line.net, line.discount)} | {priced.price.net}
    amounts |= {one for case in priced.totals.cases for one in (case.sum.payable, case.deposit, case.balance)}
    return {str(amount) for amount in amounts}


@pytest.mark.parametrize(("language", "size"), [("en", "letter"), ("de", "a4")])
def test_no_trade_price_stands_in_any_byte_of_it(desk: Desk, language: str, size: str) -> None:
    number = case_15(desk)
    amounts = trade_amounts(desk, number)
    assert {"1390400", "189600"} <= amounts  # 15 800 less 12 %, and the 12 %
    firms = figures(handing_out.paper(desk.store, LINDENHOF, number, "A", language, size, NOW))
    assert all(amount in firms for amount in amounts)
    own = retailing.paper(desk.store, LINDENHOF, number, "A", language, size, NOW, prices=True)
    assert [amount for amount in amounts if amount in figures(own)] == []
    assert "2702953" in figures(own)
    assert faults(own) == []


def test_it_is_the_dealers_offer_and_names_the_firm_as_maker_alone(desk: Desk) -> None:
    number = case_15(desk)
    paper = retailing.paper(desk.store, LINDENHOF, number, "A", "en", "a4", NOW, prices=True)
    said = whole(paper)
    assert said.startswith("Werkstatt Lindenhof")
    assert "Lindenhof 3 · Weidenau" in said
    assert "This is an offer by Werkstatt Lindenhof. Ravensmoor Body Company makes the shell" in said
    assert said.count("Ravensmoor") == 1
    assert "Werkstatt Lindenhof adds the tax." in said
    for of_the_firm in ("VAT", "Deposit 25", "Trade", "We can build"):
        assert of_the_firm not in said.replace("Export without VAT holds", "")
    with pikepdf.open(BytesIO(paper)) as document:
        assert "Ravensmoor" not in str(document.docinfo)


@pytest.mark.parametrize(
    ("who", "price_list", "sum_", "day"),
    [(BAYOU, "USD", "$17,760.90", "November 2, 2026"), (HOLLIN, "GBP", "£13,238.55", "2 November 2026")],
)
def test_figures_and_days_are_in_the_manner_of_the_dealers_country(
    desk: Desk, who: Person, price_list: str, sum_: str, day: str
) -> None:
    retailing.say_terms(desk.store, who, "A road", "", "", "9.5", NOW)
    number = desk.drafted((S3_ROADSTER, 1), who=who, wish=desk.wish("A customer", "DE"), price_list=price_list)
    said = whole(retailing.paper(desk.store, who, number, "A", "en", "letter", NOW, prices=True))
    assert day in said
    assert sum_ in said  # roadster and dolly, with 9.5 %


def test_while_prices_are_hidden_it_names_none_and_needs_no_margin(desk: Desk) -> None:
    number = case_15(desk, margin=None)
    said = whole(retailing.paper(desk.store, LINDENHOF, number, "A", "en", "a4", NOW, prices=False))
    assert "€" not in said
    assert "Prices are left out of this copy." in said


def test_what_is_not_said_yet_is_asked_for(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1), who=HOLLIN)
    with pytest.raises(RetailUntold) as untold:
        retailing.paper(desk.store, HOLLIN, number, "A", "en", "a4", NOW, prices=True)
    assert untold.value.facts == {"why": "neither"}
    retailing.say_terms(desk.store, HOLLIN, "Hollin Lane", "", "", None, NOW)
    with pytest.raises(RetailUntold) as untold:
        retailing.paper(desk.store, HOLLIN, number, "A", "en", "a4", NOW, prices=True)
    assert untold.value.facts == {"why": "no-margin"}
    assert retailing.offer(desk.store, HOLLIN, number, "A", NOW).sum is None


def test_a_draft_of_it_binds_nobody_and_what_cant_be_built_is_not_offered(desk: Desk) -> None:
    said = whole(retailing.paper(desk.store, LINDENHOF, case_15(desk, issued=False), "A", "en", "a4", NOW, prices=True))
    assert "This is the draft of an offer. It binds nobody." in said
    assert "This draft of an offer can’t be accepted." in said
    vented = desk.drafted(({**S3_ROADSTER, "series": "s1", "scuttle": "vented"}, 1), who=LINDENHOF)
    with pytest.raises(CannotBeBuilt):
        retailing.offer(desk.store, LINDENHOF, vented, "A", NOW)


def test_once_its_last_day_has_passed_it_offers_nothing_though_the_dealer_has_ordered(desk: Desk) -> None:
    number = case_15(desk)
    expected = desk.revision(number, who=LINDENHOF).version
    settling.accept(desk.store, LINDENHOF, number, "A", Reply(NOW, "Anselm"), NOW, expected=expected)
    offered, passed = (
        whole(retailing.paper(desk.store, LINDENHOF, number, "A", "en", "a4", at, prices=True))
        for at in (NOW, NOW + timedelta(days=31))
    )
    assert "We hold it until the end of 2 December 2026." in offered
    assert "We hold it" not in passed
    assert "This is the draft of an offer. It binds nobody." in passed


def test_a_margin_left_out_stays_and_one_that_is_none_is_refused(desk: Desk) -> None:
    retailing.say_terms(desk.store, HOLLIN, "Hollin Lane", "", "", "4.25", NOW)
    retailing.say_terms(desk.store, HOLLIN, "Hollin Lane 2", "", "", None, NOW)
    _, said = retailing.terms(desk.store, HOLLIN)
    assert said is not None
    assert (said.terms.address, said.terms.margin) == ("Hollin Lane 2", Decimal("4.25"))
    for wrong in ("-1", "100.01", "7.125", "7,5", "", "NaN", "1e-9"):
        with pytest.raises(BadInput) as refused:
            retailing.say_terms(desk.store, HOLLIN, " ", "", "", wrong, NOW)
        assert [(fault.path, fault.code) for fault in refused.value.faults] == [
            ("address", "required"), ("margin", "not-a-percent"),
        ]  # fmt: skip


def test_of_another_dealers_quotation_there_is_no_trace_and_the_office_has_no_offers(desk: Desk) -> None:
    number = case_15(desk)
    for who in (BAYOU, CLERK):
        with pytest.raises(NotFound):
            retailing.offer(desk.store, who, number, "A", NOW)
