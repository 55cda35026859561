"""The demo firm's book holds the whole of its scenario: counts by enumeration, prices and usual values by hand."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from functools import cache
from math import prod
from pathlib import Path

import pytest

from rules.condition import Condition, Not, options_of, truth
from rules.donor.resolve import domains_of, every, resolve
from rules.donor.usual import usual_choice, usual_specification
from rules.model import Book, Kind, Rule
from rules.reading import read_book, summary
from rules.specification import Donor

DEMO = Path(__file__).parents[2] / "demo" / "skerry.book"

STRUCTURE = [
    "body",
    "steering",
    "market",
    "series",
    "scuttle",
    "tunnel",
    "suspension",
    "doors",
    "rear-window",
    "bumpers",
    "wheel-well",
    "filler",
    "dash",
    "rail-ends",
    "wipers",
    "markers",
    "belts",
    "roof",
    "hood",
    "bonnet",
    "holes",
]
DRESSING = [
    "finish",
    "primer",
    "scope",
    "colour",
    "panels",
    "sealer",
    "wax",
    "deadening",
    "own-doors",
    "own-bonnet",
    "own-boot-lid",
    "trial-fit",
    "packing",
    "delivery",
]
RULES = [
    "N1",
    "N2",
    "N3",
    "N4",
    "N5",
    "N6",
    "N7",
    "N8",
    "N9",
    "D1",
    "D2",
    "D3a",
    "D3b",
    "D4",
    "D5",
    "D6",
    "D7",
    "D8a",
    "D8b",
    "D8c",
    "D8d",
    "D8e",
    "D9",
    "D10",
    "D11",
    "D13",
    "D14",
    "D15",
    "D16",
    "D17",
    "D18",
    "D19",
    "D20",
    "D21",
    "D22",
    "D23",
    "P1",
    "P2a",
    "P2b",
    "P2c",
    "P3",
    "P4",
    "A1",
    "A2",
    "A3",
    "A4",
    "A5",
    "A6",
    "C1",
    "C2",
    "C3",
    "C4",
    "C5",
    "C6",
]


@cache
def demo() -> Book:
    return read_book(DEMO.read_text(encoding="utf-8"), "demo/skerry.book")


def test_the_options_stand_in_the_order_of_the_scenario() -> None:
    assert [option.id for option in demo().options] == STRUCTURE + DRESSING
    assert [option.id for option in demo().options if option.structural] == STRUCTURE


def test_the_rules_are_those_of_the_scenario() -> None:
    assert [rule.id for rule in demo().rules] == RULES


def test_rules_of_two_kinds_are_the_belts_and_the_markers() -> None:
    assert [rule.id for rule in demo().rules if len(rule.kinds) == 2] == ["A3", "A5"]


def test_every_text_stands_in_both_languages() -> None:
    book = demo()
    texts = [book.title, *(o.label for o in book.options), *(c.label for o in book.options for c in o.choices)]
    texts += [rule.reason for rule in book.rules] + [rule.title for rule in book.rules]
    texts += [rule.part for rule in book.rules if Kind.PART in rule.kinds]
    texts += [words for tool in book.tools for words in (tool.label, tool.reason)]
    texts += [line.label for line in book.lines] + [caution.text for caution in book.cautions]
    assert all(set(words) == {"en", "de"} and all(words.values()) for words in texts)


def test_the_summary_counts_what_the_scenario_lists() -> None:
    counts = dict(summary(demo()))
    assert counts["structural options"] == 21
    assert counts["options"] == 35
    assert counts["rules: never"] == 9
    assert counts["tools"] == 17
    assert counts["price lists"] == 3


def test_the_summary_says_each_thing_once_and_by_its_name() -> None:
    names = [name for name, _ in summary(demo())]
    assert len(set(names)) == len(names)
    assert names[:5] == ["languages", "groups", "options", "structural options", "choices"]
    assert {"rules", "tools", "price lists", "price lines", "prices", "adjustments", "extras"} <= set(names)
    assert {"series", "usual rows", "stages", "additions", "closures", "cautions", "measures"} <= set(names)


# line, GBP, EUR, USD in whole minor units, copied by hand from the scenario; None: not priced
PRICES = [
    ("body.roadster", 1185000, 1420000, 1590000),
    ("body.coupe", 1320000, 1580000, 1770000),
    ("tunnel.narrow", 64000, 77000, 86000),
    ("suspension.four-link", 146000, 175000, 196000),
    ("roof.folding", 89000, 107000, 119500),
    ("scope.outside-and-shuts", 485000, 585000, 650000),
    ("primer.epoxy-and-filler", 80000, 96500, 107500),
    ("delivery.van", 28500, None, None),
    ("delivery.door-south-africa", 340000, None, None),
    ("delivery.door-elsewhere", None, None, None),
    ("doors-allowance", -42000, -50500, -56500),
    ("bonnet-allowance", -26000, -31500, -35000),
    ("boot-lid-allowance", -19000, -23000, -25500),
]


@pytest.mark.parametrize(("line", "gbp", "eur", "usd"), PRICES)
def test_a_line_has_the_prices_of_the_scenario(line: str, gbp: int | None, eur: int | None, usd: int | None) -> None:
    amounts = next(each.amounts for each in demo().lines if each.id == line)
    assert [amounts.get(price_list) for price_list in ("GBP", "EUR", "USD")] == [gbp, eur, usd]


def test_what_is_included_has_no_line_at_all() -> None:
    lines = {line.id for line in demo().lines}
    assert not lines & {"steering.left", "scuttle.plain", "colour.frost", "delivery.collected", "finish.painted"}


def test_the_discount_for_several_shells_is_taken_from_the_body_alone() -> None:
    assert [line.id for line in demo().lines if line.base] == ["body.roadster", "body.coupe"]


def test_metallic_raises_the_scope_lines_and_paint_frees_the_full_primer() -> None:
    adjustments = {each.id: each for each in demo().adjustments}
    assert adjustments["metallic"].lines == ("scope.outside", "scope.outside-and-shuts", "scope.all-over")
    assert adjustments["metallic"].factor == Decimal("1.12")
    assert adjustments["primer-with-paint"].lines == ("primer.epoxy-and-filler",)
    assert adjustments["no-bonnet-surcharge"].lines == ("bonnet.aluminium", "bonnet.raised")
    assert [each.waives for each in demo().adjustments] == [False, True, True]


def test_the_stages_make_twenty_one_days_after_five_before_the_slot() -> None:
    assert sum(stage.days for stage in demo().stages if not stage.before_slot) == 21
    assert sum(stage.days for stage in demo().stages if stage.before_slot) == 5


def test_the_capacities_are_those_of_the_scenario() -> None:
    stages = {stage.id: stage for stage in demo().stages}
    assert stages["framing"].per_week == 3
    assert (stages["framing"].changeover, stages["framing"].changeover_of) == (Decimal("0.5"), "body")
    assert stages["rollover"].per_week == 4
    assert stages["fit-and-gap"].bays == 3
    assert stages["paint"].per_week == 2
    assert (demo().calendar.load_percent, demo().calendar.load_weeks) == (Decimal(85), 2)


# series, market, body, what the donor is, option, usual choice: the scenario's table, read by hand
USUAL = [
    ("s1", "home", "roadster", Donor(), "scuttle", "vented"),
    ("s1", "home", "coupe", Donor(), "rear-window", "small"),
    ("s2", "home", "coupe", Donor(), "rear-window", "large"),
    ("s2", "home", "coupe", Donor("s2", 6200), "rear-window", "small"),
    ("s2", "home", "coupe", Donor("s2", 6201), "rear-window", "large"),
    ("s2", "home", "roadster", Donor("s2", 6200), "rear-window", "none"),
    ("s3", "home", "coupe", Donor("s2", 6200), "rear-window", "large"),
    ("s3", "home", "roadster", Donor(), "tunnel", "wide"),
    ("s3", "home", "roadster", Donor("s3", 9, "automatic"), "tunnel", "automatic"),
    ("s1", "home", "roadster", Donor("s1", 300, "automatic"), "tunnel", "narrow"),
    ("s2", "north-america", "roadster", Donor(), "filler", "deck"),
    ("s3", "europe", "roadster", Donor(), "filler", "wing"),
    ("s3", "north-america", "roadster", Donor(), "filler", "vapour"),
    ("s3", "north-america", "roadster", Donor(), "dash", "hooded"),
    ("s4", "north-america", "roadster", Donor(), "dash", "wrapped"),
    ("s4", "north-america", "roadster", Donor(), "wipers", "three"),
    ("s3", "north-america", "roadster", Donor(), "markers", "front-and-rear"),
    ("s4", "home", "roadster", Donor(), "markers", "none"),
    ("s4", "europe", "roadster", Donor(), "markers", "front"),
    ("s4", "southern-africa", "roadster", Donor(), "markers", "front"),
    ("s3", "europe", "roadster", Donor(), "markers", "none"),
    ("s2", "home", "roadster", Donor(), "holes", "blanked"),
    ("s3", "home", "roadster", Donor(), "holes", "open"),
    ("s1", "southern-africa", "roadster", Donor(), "steering", "right"),
    ("s1", "europe", "roadster", Donor(), "steering", "left"),
    ("s1", "home", "coupe", Donor(), "hood", "none"),
    ("s1", "home", "roadster", Donor(), "hood", "hood"),
    ("s1", "home", "roadster", Donor(), "sealer", "standard"),
    ("s1", "home", "roadster", Donor(), "packing", "dolly"),
]


@pytest.mark.parametrize(("series", "market", "body", "donor", "option", "choice"), USUAL)
def test_the_usual_choice_is_the_original_cars(
    series: str, market: str, body: str, donor: Donor, option: str, choice: str
) -> None:
    assert usual_choice(demo(), option, {"series": series, "market": market, "body": body}, donor) == choice


def test_every_usual_specification_but_those_of_s1_can_be_built_and_s1_fails_by_the_scuttle_alone() -> None:
    bans = _bans(demo())
    domains = domains_of(demo())
    for row in _usual_keys():
        usual = usual_specification(demo(), row, Donor())
        broken = [name for name, ban in bans if truth(ban, usual, domains) is True]
        assert broken == (["N1"] if row["series"] == "s1" else []), row


def test_the_structure_has_as_many_variants_as_the_scenario_says() -> None:
    domains = domains_of(demo())
    assert prod(len(domains[option]) for option in STRUCTURE) == 214_990_848
    assert _count(STRUCTURE) == (50_496, 3_900)


def test_the_whole_book_has_as_many_variants_as_the_scenario_says() -> None:
    # No rule of building, part or approval joins one of these groups to another, so their counts multiply.
    alone = [option for option in DRESSING if option.startswith("own-") or option == "trial-fit"]
    groups = [STRUCTURE, [option for option in DRESSING if option not in alone], *([option] for option in alone)]
    for rule in _deciding(demo()):
        named = options_of(_resolved(demo(), rule.when)) | options_of(_resolved(demo(), rule.needs or rule.when))
        assert any(named <= set(group) for group in groups), rule.id
    counts = [_count(group) for group in groups]
    assert prod(built for built, _ in counts) == 12_674_092_032
    assert prod(outright for _, outright in counts) == 81_572_400


def _usual_keys() -> list[dict[str, str]]:
    domains = domains_of(demo())
    return [
        {"series": series, "market": market, "body": body}
        for series in domains["series"]
        for market in domains["market"]
        for body in domains["body"]
    ]


def _deciding(book: Book) -> list[Rule]:
    decides = {Kind.NEVER, Kind.NEEDS, Kind.PART, Kind.APPROVAL}
    return [rule for rule in book.rules if rule.kinds & decides]


def _resolved(book: Book, condition: Condition) -> Condition:
    return resolve(condition, book, Donor())


def _bans(book: Book) -> list[tuple[str, Condition]]:
    never = [(r.id, _resolved(book, r.when)) for r in book.rules if Kind.NEVER in r.kinds]
    needs = [(r.id, every((_resolved(book, r.when), _resolved(book, Not(r.needs))))) for r in book.rules if r.needs]
    return never + needs


def _count(options: list[str]) -> tuple[int, int]:
    """(can be built, of them with neither part nor approval) by plain backtracking over the options."""
    book, domains = demo(), domains_of(demo())
    soft = [(r.id, _resolved(book, r.when)) for r in book.rules if r.kinds & {Kind.PART, Kind.APPROVAL}]
    return _walk(options, 0, {}, True, _by_last(_bans(book), options), _by_last(soft, options), domains)


def _by_last(conditions: list[tuple[str, Condition]], options: list[str]) -> list[list[Condition]]:
    """The conditions by the option after which all they name is answered."""
    inside = [c for _, c in conditions if options_of(c) <= set(options)]
    return [[c for c in inside if max(map(options.index, options_of(c))) == at] for at in range(len(options))]


def _walk(
    options: list[str],
    at: int,
    made: dict[str, str],
    outright: bool,
    bans: list[list[Condition]],
    soft: list[list[Condition]],
    domains: Mapping[str, tuple[str, ...]],
) -> tuple[int, int]:
    if at == len(options):
        return 1, int(outright)
    built = free = 0
    for choice in domains[options[at]]:
        here = made | {options[at]: choice}
        if not any(truth(ban, here, domains) for ban in bans[at]):
            clean = outright and not any(truth(condition, here, domains) for condition in soft[at])
            more, more_free = _walk(options, at + 1, here, clean, bans, soft, domains)
            built, free = built + more, free + more_free
    return built, free
