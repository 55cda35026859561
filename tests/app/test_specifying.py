from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from decimal import Decimal

import pytest

from app.domain.errors import BadInput, NotFound, UnknownNames
from app.services.answering import pricing, specifying
from app.services.answering.specifying import Asked
from app.services.books import publishing
from app.services.books.shelf import Shelf
from rules.answer import Verdict
from rules.engine.ask import ask
from rules.engine.prepare import prepare
from rules.specification import Donor, Origin, Specification, Taken
from tests.app.desk import BAYOU, CLERK, LINDENHOF, NOW, S3_ROADSTER, Desk


def test_a_new_specification_has_the_whole_book_before_it(desk: Desk) -> None:
    answered = specifying.answer(desk.store, CLERK, Asked(Specification()), NOW)
    assert (answered.book.number, answered.tools.number) == (1, 4)
    assert answered.answer.count == 12_674_092_032  # scenario: whole book, extras apart
    assert (answered.price_list, answered.currency, answered.totals) == ("GBP", "GBP", None)
    assert answered.answer.price_from.amount == 11_980_00  # scenario: cheapest of all, private, GBP


def test_a_complete_specification_is_priced_with_its_totals(desk: Desk) -> None:
    """Case 12: 12 375.00, VAT 2 475.00, 14 850.00; deposit 3 712.50 of which VAT 618.75."""
    van = desk.specification({**S3_ROADSTER, "delivery": "van"})
    answered = specifying.answer(desk.store, CLERK, Asked(van, delivery_country="GB"), NOW)
    assert answered.answer.verdict is Verdict.AS_HAD
    assert answered.totals is not None
    (case,) = answered.totals.cases
    assert (case.sum.lines_net, case.sum.tax, case.sum.payable) == (12_375_00, 2_475_00, 14_850_00)
    assert (case.deposit, case.deposit_tax, case.balance) == (3_712_50, 618_75, 11_137_50)


def test_what_can_t_be_built_has_no_price(desk: Desk) -> None:
    asked = Asked(desk.specification({**S3_ROADSTER, "roof": "folding"}), delivery_country="GB", customer_country="GB")
    answered = specifying.answer(desk.store, CLERK, asked, NOW)
    assert (answered.answer.verdict, answered.price, answered.totals) == (Verdict.CANT, None, None)


def test_where_the_tax_can_t_be_told_it_says_why(desk: Desk) -> None:
    answered = specifying.answer(desk.store, CLERK, Asked(desk.specification(S3_ROADSTER)), NOW)
    assert answered.totals is None
    assert answered.untold is not None
    assert answered.untold.why == "customer-country-open"


def test_a_dealer_always_gets_his_own_terms_and_list(desk: Desk) -> None:
    asked = Asked(desk.specification(S3_ROADSTER), trade_of="bayou-road")
    answered = specifying.answer(desk.store, LINDENHOF, asked, NOW)
    assert answered.currency == "EUR"
    assert answered.price is not None
    assert sum(line.discount for line in answered.price.lines) == 1_704_00  # 12 % of 14 200


def test_the_clerk_asks_for_a_dealer(desk: Desk) -> None:
    asked = Asked(desk.specification(S3_ROADSTER), trade_of="bayou-road")
    answered = specifying.answer(desk.store, CLERK, asked, NOW)
    assert answered.currency == "USD"
    assert answered.price is not None
    assert sum(line.discount for line in answered.price.lines) == 2_862_00  # 18 % of 15 900


def test_every_unknown_name_is_told_at_once(desk: Desk) -> None:
    wrong = Specification({"wings": Taken("big"), "body": Taken("estate")})
    asked = Asked(wrong, Donor(series="s9", gearbox="none"), price_list="ZAR", customer_country="XX")
    with pytest.raises(UnknownNames) as refused:
        specifying.answer(desk.store, CLERK, asked, NOW)
    assert [fault.path for fault in refused.value.faults] == [
        "specification.wings",
        "specification.body",
        "donor.series",
        "donor.gearbox",
        "price_list",
        "customer_country",
    ]


@pytest.mark.parametrize("quantity", [0, -1, 10**9])
def test_an_absurd_number_of_shells_is_refused(desk: Desk, quantity: int) -> None:
    with pytest.raises(BadInput):
        specifying.answer(desk.store, CLERK, Asked(Specification(), quantity=quantity), NOW)


@pytest.mark.parametrize("asked", [Asked(Specification(), book=7), Asked(Specification(), tool_state=7)])
def test_a_book_or_tool_state_that_never_was_is_not_found(desk: Desk, asked: Asked) -> None:
    with pytest.raises(NotFound):
        specifying.answer(desk.store, CLERK, asked, NOW)


@pytest.mark.parametrize(
    ("donor", "window"),
    [
        (Donor("s2", 6200, None), "small"),  # the last with the small one
        (Donor("s2", 6201, None), "large"),
        (Donor(), "large"),  # no number established
    ],
)
def test_the_usual_goes_by_the_donor_s_number(desk: Desk, donor: Donor, window: str) -> None:
    assert specifying.usual(desk.store, "s2", "home", "coupe", donor, NOW)["rear-window"] == window


def test_the_usual_of_unknown_keys_is_refused_naming_each(desk: Desk) -> None:
    with pytest.raises(UnknownNames) as refused:
        specifying.usual(desk.store, "s9", "moon", "estate", Donor(), NOW)
    assert [fault.path for fault in refused.value.faults] == ["series", "market", "body"]


def test_cars_that_the_book_does_not_tell_apart_share_one_compiled_book(desk: Desk) -> None:
    shared = specifying.prepared_book
    book, conditions = publishing.current_book(desk.store, NOW), desk.conditions()
    first = shared(desk.store, book, conditions, Donor("s2", 100, "manual"))
    assert shared(desk.store, book, conditions, Donor("s2", 6200, "manual")) is first
    assert shared(desk.store, book, conditions, Donor("s2", 6201, "manual")) is not first


def test_eight_threads_that_ask_at_once_get_the_answer_one_gets_alone(desk: Desk) -> None:
    """What the compiled book remembers between questions must not leak from one thread's question into another's."""
    asked = [
        Asked(Specification({"series": Taken(s), "body": Taken(b), "bonnet": Taken("steel", Origin.USUAL)}))
        for s in ("s1", "s2", "s3", "s4")
        for b in ("roadster", "coupe")
    ]
    people = (CLERK, LINDENHOF, BAYOU)
    questions = [(who, one) for who in people for one in asked]
    with ThreadPoolExecutor(8) as threads:
        together = list(threads.map(lambda q: specifying.answer(desk.store, q[0], q[1], NOW).answer, questions))
    book, conditions = publishing.current_book(desk.store, NOW), desk.conditions()
    alone = prepare(book, conditions, Donor())
    for (who, one), answer in zip(questions, together, strict=True):
        tariff = desk.tariff(book, who)
        assert answer == ask(alone, one.specification, tariff)


def test_a_thing_on_the_shelf_is_made_once_however_many_want_it() -> None:
    made: list[int] = []
    on_it: Shelf[int] = Shelf(2)
    with ThreadPoolExecutor(8) as threads:
        got = list(threads.map(lambda _: on_it.have("key", lambda: made.append(1) or 7), range(50)))  # type: ignore[func-returns-value]
    assert (set(got), len(made)) == ({7}, 1)


def test_the_shelf_lets_go_of_what_was_not_asked_for_longest() -> None:
    made: list[str] = []
    on_it: Shelf[str] = Shelf(2)
    for key in ("a", "b", "a", "c", "a", "b"):
        on_it.have(key, lambda key=key: made.append(key) or key)  # type: ignore[misc,func-returns-value]
    assert made == ["a", "b", "c", "b"]


def test_what_can_t_be_made_is_tried_again_the_next_time() -> None:
    on_it: Shelf[int] = Shelf(2)
    with pytest.raises(ZeroDivisionError):
        on_it.have("key", lambda: 1 // 0)
    assert on_it.have("key", lambda: 1) == 1


def test_a_discount_is_a_decimal_of_its_text(desk: Desk) -> None:
    with desk.store.reading() as db:
        found = pricing.dealer_of(db, LINDENHOF, None)
    assert found is not None
    assert found.discounts == {"A": Decimal(12), "B": Decimal(5), "C": Decimal(0), "D": Decimal(0)}
