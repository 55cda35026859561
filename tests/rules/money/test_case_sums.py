"""The sums and days of the desk's cases, to the penny and the day, from the demo firm's own rule book.

The cases were worked out by hand from the firm's prices before the code was written; their numbers are the case book's.
Points of tax end with an accountant: what is checked here is the arithmetic and that a person is asked.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from functools import cache
from pathlib import Path

from app.calendar import working_days
from rules.donor.identity import Beyond, Mendable, read_number
from rules.donor.usual import usual_specification
from rules.model import Book
from rules.money.price import Tariff
from rules.money.tax import PERSON_DECIDES, TaxCase, TaxRefusal, tax_cases
from rules.money.totals import CaseTotal, QuotedPrice, Totals, Wanted, dearer_each, price_quotation, total, with_tax
from rules.reading import read_book
from rules.schedule.days import WorkingDays, date_range, route_days
from rules.specification import Donor

FILE = Path(__file__).parents[3] / "demo" / "skerry.book"
TODAY = date(2026, 11, 25)

#: Nothing is known of the donor car.
UNKNOWN = Donor()

PRIVATE = Tariff("GBP")
HOLLIN_LANE = Tariff("GBP", {"A": Decimal(15), "B": Decimal(5)})
LINDENHOF = Tariff("EUR", {"A": Decimal(12), "B": Decimal(5)})
BAYOU_ROAD = Tariff("USD", {"A": Decimal(18), "B": Decimal(5)})
KAROO_ROAD = Tariff("GBP", {"A": Decimal(14), "B": Decimal(5)})


@cache
def book() -> Book:
    return read_book(FILE.read_text(encoding="utf-8"), str(FILE))


@cache
def england() -> WorkingDays:
    return working_days(book().calendar, 2026, 2028)


def usual(series: str, market: str, body: str, donor: Donor = UNKNOWN, **changes: str) -> dict[str, str]:
    """The usual specification of that car, on a dolly and collected, with these changes."""
    keys = {"series": series, "market": market, "body": body}
    return usual_specification(book(), keys, donor) | {name.replace("_", "-"): c for name, c in changes.items()}


def cases(made: Mapping[str, str], place: str | None = None, customer: str = "GB") -> tuple[TaxCase, ...]:
    found = tax_cases(book(), made["delivery"], place, None, customer, TODAY)
    assert not isinstance(found, TaxRefusal), found
    return found


def quote(
    tariff: Tariff, *lines: tuple[Mapping[str, str], int], place: str | None = None, customer: str = "GB"
) -> tuple[QuotedPrice, Totals]:
    """Price and totals of lines, each a specification and how many of it."""
    wanted = [Wanted(made, UNKNOWN, number, cases(made, place, customer)) for made, number in lines]
    price = price_quotation(book(), wanted, {}, tariff)
    totals = total(price, wanted, book().terms)
    assert totals is not None, price.unpriced
    return price, totals


def only(totals: Totals) -> CaseTotal:
    assert totals.decided
    (case,) = totals.cases
    return case


def figures(totals: Totals) -> tuple[int, int, int]:
    """Before tax, tax, payable: of a decided quotation."""
    case = only(totals)
    return totals.lines_net, case.sum.tax, case.sum.payable


def test_case_01_one_past_the_last_and_one_before_the_first() -> None:
    assert isinstance(read_number("T2-21301", book().series), Beyond)
    assert isinstance(read_number("T1-00250", book().series), Beyond)
    for typed in ("t2 4417", "T2\N{EN DASH}04417", "T2-O4417"):
        reading = read_number(typed, book().series)
        assert isinstance(reading, Mendable)
        assert reading.offer == "T2-04417"


def test_case_06_the_two_nearest_to_an_s1_as_it_was() -> None:
    own_tunnel = usual("s1", "home", "roadster", scuttle="plain", doors="early")
    wide = {**own_tunnel, "tunnel": "wide"}
    (_, narrow_totals), (_, wide_totals) = quote(PRIVATE, (own_tunnel, 1)), quote(PRIVATE, (wide, 1))
    assert figures(narrow_totals) == (1279000, 255800, 1534800)
    assert only(narrow_totals).deposit == 383700
    assert figures(wide_totals) == (1215000, 243000, 1458000)
    assert only(wide_totals).deposit == 364500
    assert figures(narrow_totals)[2] - figures(wide_totals)[2] == 76800
    days = [route_days(book(), made, UNKNOWN).compared for made in (own_tunnel, wide)]
    assert days[0] - days[1] == 15


def test_case_07_an_s4_on_chrome_with_the_four_link() -> None:
    made = usual(
        "s4",
        "home",
        "roadster",
        bumpers="chrome",
        wheel_well="deep",
        rail_ends="plain",
        suspension="four-link",
        bonnet="raised",
    )
    price, _ = quote(PRIVATE, (made, 1))
    before_packing = sum(net.net for net in price.lines[0].shell.lines if net.category == "A")
    assert before_packing == 1346000


def test_case_11_a_small_window_coupe_and_the_large_one_instead() -> None:
    donor = Donor("s2", 5900)
    small = usual("s2", "home", "coupe", donor)
    large = {**small, "rear-window": "large"}
    assert small["rear-window"] == "small"
    (_, small_totals), (_, large_totals) = quote(PRIVATE, (small, 1)), quote(PRIVATE, (large, 1))
    assert figures(small_totals) == (1422000, 284400, 1706400)
    assert figures(large_totals) == (1350000, 270000, 1620000)
    days = [route_days(book(), made, donor).compared for made in (small, large)]
    assert days[0] - days[1] == 12
    assert usual("s2", "home", "coupe", Donor("s2", 6201))["rear-window"] == "large"


def test_case_12_a_private_roadster_by_our_van() -> None:
    _, totals = quote(PRIVATE, (usual("s3", "home", "roadster", delivery="van"), 1), place="GB")
    assert figures(totals) == (1237500, 247500, 1485000)
    assert (only(totals).deposit, only(totals).deposit_tax, only(totals).balance) == (371250, 61875, 1113750)


def test_case_13_three_for_the_trade_and_the_half_penny() -> None:
    roadster = usual("s3", "home", "roadster")
    price, totals = quote(HOLLIN_LANE, (roadster, 3))
    body = price.lines[0].shell.lines[0]
    assert (body.adjusted, body.discount, body.several, body.net) == (1185000, 177750, 30218, 977032)
    assert body.net * 3 == 2931096
    assert figures(totals) == (3003096, 600619, 3603715)
    assert (only(totals).deposit, only(totals).deposit_tax, only(totals).balance) == (900929, 150155, 2702786)


def test_case_14_the_third_is_dropped() -> None:
    roadster = usual("s3", "home", "roadster")
    _, totals = quote(HOLLIN_LANE, (roadster, 2))
    assert figures(totals) == (2062500, 412500, 2475000)


def test_case_14_what_the_others_cost_more_is_known_before_confirming() -> None:
    roadster = usual("s3", "home", "roadster")
    (before, _), (after, _) = (quote(HOLLIN_LANE, (roadster, 2), (roadster, n)) for n in (1, 0))
    dearer, _ = dearer_each(before, after)
    assert dearer == 30218
    assert with_tax(dearer, Decimal(20)) == 36262


def test_case_14_two_roadsters_and_a_coupe_keep_it() -> None:
    roadster, coupe = usual("s3", "home", "roadster"), usual("s3", "home", "coupe")
    price, totals = quote(HOLLIN_LANE, (roadster, 2), (coupe, 1))
    assert [line.shell.lines[0].net for line in price.lines] == [977032, 1088340]
    assert figures(totals) == (3114404, 622881, 3737285)


def test_case_15_germany_in_euro() -> None:
    made = usual(
        "s3",
        "europe",
        "coupe",
        finish="painted",
        primer="epoxy-and-filler",
        scope="outside-and-shuts",
        colour="frost",
        packing="crate",
        delivery="door-germany",
    )
    price, totals = quote(LINDENHOF, (made, 1), place="DE", customer="DE")
    nets = {net.line: net.net for net in price.lines[0].shell.lines}
    assert nets == {
        "body.coupe": 1390400,
        "primer.epoxy-and-filler": 0,
        "scope.outside-and-shuts": 622440,
        "packing.crate": 83000,
        "delivery.door-germany": 138000,
    }
    assert figures(totals) == (2233840, 0, 2233840)
    assert only(totals).kind == "export"
    assert only(totals).deposit == 558460


def test_case_17_the_united_states_in_dollars() -> None:
    made = usual("s4", "north-america", "roadster", primer="epoxy", packing="frame", delivery="port")
    assert (made["bumpers"], made["wipers"], made["markers"]) == ("impact", "three", "front-and-rear")
    price, totals = quote(BAYOU_ROAD, (made, 1), place="US", customer="US")
    nets = {net.line: net.net for net in price.lines[0].shell.lines}
    structure = [nets[line] for line in ("body.roadster", "bumpers.impact", "wipers.three", "markers.front-and-rear")]
    assert (sum(structure), nets["primer.epoxy"]) == (1363250, 28700)
    assert (nets["packing.frame"], nets["delivery.port"]) == (51000, 56500)
    assert figures(totals) == (1499450, 0, 1499450)
    assert (only(totals).deposit, only(totals).balance) == (374863, 1124587)


def test_case_18_south_africa_painted_and_when_it_is_ready() -> None:
    made = usual(
        "s3",
        "southern-africa",
        "coupe",
        finish="painted",
        primer="epoxy-and-filler",
        scope="outside",
        colour="oat",
        packing="crate",
        delivery="port",
    )
    _, totals = quote(KAROO_ROAD, (made, 1), place="ZA", customer="ZA")
    assert figures(totals) == (1621450, 0, 1621450)
    route = route_days(book(), made, UNKNOWN)
    assert route.after_slot == 43
    assert england().add(date(2027, 2, 22), route.after_slot) == date(2027, 4, 26)


def test_case_19_a_customer_from_abroad_collects_here() -> None:
    made = usual("s3", "home", "roadster")
    _, totals = quote(PRIVATE, (made, 1), customer="ZA")
    assert (totals.lines_net, totals.decided) == (1209000, False)
    shown = [(case.kind, case.sum.tax, case.sum.payable) for case in totals.cases]
    assert shown == [("export", 0, 1209000), ("standard", 241800, 1450800)]
    assert all(PERSON_DECIDES in part.cautions for case in totals.cases for part in case.parts)


def test_case_20_a_dealer_abroad_has_it_delivered_in_kent() -> None:
    made = usual("s3", "europe", "roadster", delivery="van")
    pounds = Tariff("GBP", LINDENHOF.discounts)
    _, totals = quote(pounds, (made, 1), place="GB", customer="DE")
    # 11 850 less 12 % is 10 428; dolly 240, van 285
    assert figures(totals) == (1095300, 219060, 1314360)
    assert only(totals).kind == "standard"


def test_case_20_in_euro_our_van_is_not_priced_and_there_is_no_total() -> None:
    made = usual("s3", "europe", "roadster", delivery="van")
    wanted = [Wanted(made, UNKNOWN, 1, cases(made, "GB", "DE"))]
    price = price_quotation(book(), wanted, {}, LINDENHOF)
    assert (price.unpriced, price.net) == (("delivery.van",), None)
    assert total(price, wanted, book().terms) is None


def test_case_20_a_home_shell_to_berlin_is_an_export_whatever_its_market() -> None:
    made = usual("s3", "home", "roadster", packing="frame", delivery="door-germany")
    _, totals = quote(PRIVATE, (made, 1), place="DE", customer="GB")
    assert only(totals).kind == "export"
    assert only(totals).sum.tax == 0


def test_elsewhere_abroad_is_priced_on_no_list() -> None:
    made = usual("s3", "home", "roadster", packing="frame", delivery="door-elsewhere")
    wanted = [Wanted(made, UNKNOWN, 1, cases(made, "FR", "FR"))]
    for tariff in (PRIVATE, LINDENHOF, BAYOU_ROAD):
        assert price_quotation(book(), wanted, {}, tariff).unpriced == ("delivery.door-elsewhere",)


def test_case_25_a_wide_tunnel_instead_of_the_failed_one() -> None:
    made = usual("s1", "home", "roadster", scuttle="plain")
    (_, narrow), (_, wide) = quote(PRIVATE, (made, 1)), quote(PRIVATE, ({**made, "tunnel": "wide"}, 1))
    before, after = figures(narrow), figures(wide)
    assert (after[0] - before[0], after[1] - before[1], after[2] - before[2]) == (-64000, -12800, -76800)


def test_case_25_the_earliest_framing_counts_from_the_passing() -> None:
    made = usual("s1", "home", "roadster", scuttle="plain")
    passed = (date(2026, 12, 11), date(2027, 1, 4), date(2027, 1, 18))
    framing = [date_range(book(), made, UNKNOWN, england(), day).framing for day in passed]
    assert framing == [date(2027, 1, 6), date(2027, 1, 25), date(2027, 2, 8)]


def test_case_27_ready_from_the_slot_of_eleven_january() -> None:
    primed = usual("s3", "home", "roadster")
    painted = {**primed, "finish": "painted", "colour": "oat"}
    metallic = {**painted, "colour": "frost"}
    ready = [
        england().add(date(2027, 1, 11), route_days(book(), made, UNKNOWN).after_slot)
        for made in (primed, painted, metallic)
    ]
    assert ready == [date(2027, 2, 9), date(2027, 3, 9), date(2027, 3, 12)]


def test_case_27_august_is_closed() -> None:
    days = route_days(book(), usual("s3", "home", "roadster"), UNKNOWN).after_slot
    assert days == 21
    assert england().add(date(2027, 7, 19), days) == date(2027, 9, 1)
    assert WorkingDays(england().holidays).add(date(2027, 7, 19), days) == date(2027, 8, 17)


def test_case_28_a_folding_roof_after_the_freeze() -> None:
    made = usual("s3", "home", "coupe")
    folding = {**made, "roof": "folding"}
    (_, before), (_, after) = quote(PRIVATE, (made, 1)), quote(PRIVATE, (folding, 1))
    assert figures(after)[0] - figures(before)[0] == 89000
    assert figures(after)[2] - figures(before)[2] == 106800
    assert route_days(book(), folding, UNKNOWN).compared - route_days(book(), made, UNKNOWN).compared == 8


def test_a_customers_bonnet_has_no_surcharge_and_a_smaller_allowance_in_the_trade() -> None:
    made = usual("s3", "home", "roadster", bonnet="aluminium", own_bonnet="yes")
    price, _ = quote(HOLLIN_LANE, (made, 1))
    nets = {net.line: net.net for net in price.lines[0].shell.lines}
    assert (nets["bonnet.aluminium"], nets["own-bonnet.yes"], nets["bonnet-allowance"]) == (0, 10200, -22100)
