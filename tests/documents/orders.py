"""Quotations as the desk would fill them: the demo's book, engine and prices; people and numbers are made up."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from functools import cache
from pathlib import Path

from app.documents.contents import (
    Customer,
    Delivery,
    Difference,
    DonorCar,
    Evidence,
    Firm,
    Gate,
    Measures,
    QuotationPaper,
    ReadyAfter,
    ShellLine,
)
from app.domain.quotations.changes import CaseSum, Days, Facts, LineFacts, Sums, changes_between
from app.domain.quotations.quotation import DeliveryPlace
from rules.answer import Answer, State, Verdict
from rules.condition import holds, options_of
from rules.donor.resolve import domains_of, resolve
from rules.donor.usual import usual_specification
from rules.engine.ask import Prepared, ask, prepare
from rules.model import Book, Role, ToolCondition
from rules.money.price import Tariff
from rules.money.tax import TaxRefusal, tax_cases
from rules.money.totals import Wanted, price_quotation, total
from rules.reading import read_book
from rules.schedule.days import route_days
from rules.specification import Donor, Origin, Specification, Taken

BOOK = Path(__file__).resolve().parents[2] / "demo" / "skerry.book"
DAY = date(2026, 11, 2)
UNKNOWN = Donor()
STERLING = Tariff("GBP")

#: The states of the demo's tools (scenario.md, *Tools*).
LOST = ("vented-scuttle-press", "narrow-tunnel-press", "small-window-press", "bulkhead-r-na")

FIRM = Firm(
    name="Ravensmoor Body Company",
    address=("Unit 3, Old Sidings", "Ravensmoor"),
    telephone="01632 960 114",
    email="desk@ravensmoor.example",
)
PRIVATE = Customer(name="Edmund Hartley", trade=False, address=("14 Weir Cottages", "Thornbeck"), country="GB")
CRATE = Measures({"en": "Closed crate", "de": "Geschlossene Kiste"}, 4100, 1750, 1400, 400, 550)


@cache
def book() -> Book:
    return replace(read_book(BOOK.read_text(encoding="utf-8"), "demo/skerry.book"), number=12)


@cache
def prepared(donor: Donor) -> Prepared:
    states = {t.id: ToolCondition.LOST if t.id in LOST else ToolCondition.OK for t in book().tools}
    return prepare(book(), states, donor)


def specified(chosen: Mapping[str, str], donor: Donor, taken_over: bool = True) -> Specification:
    """The choices of `chosen`; with `taken_over` the usual ones beneath them, where they can stand."""
    keys = {book().roles[role]: chosen[book().roles[role]] for role in (Role.SERIES, Role.MARKET, Role.BODY)}
    usual = usual_specification(book(), keys, donor) if taken_over else {}
    answers = {option: Taken(choice, Origin.USUAL) for option, choice in usual.items()}
    return Specification(answers | {option: Taken(choice) for option, choice in chosen.items()})


def shell(
    chosen: Mapping[str, str], donor: Donor = UNKNOWN, quantity: int = 1, open_: tuple[str, ...] = (), **rest: bool
) -> ShellLine:
    """One line of a quotation as the engine answers it; `open_`: options left for the rules to force."""
    whole = specified(chosen, donor, **rest)
    asked = Specification({o: t for o, t in whole.answers.items() if o not in open_})
    return line_of(asked, donor, quantity)


def line_of(asked: Specification, donor: Donor, quantity: int = 1) -> ShellLine:
    """One line as the engine answers what is asked."""
    answer = ask(prepared(donor), asked, STERLING)
    return ShellLine(
        quantity=quantity,
        settled=answer.settled,
        standing=_standing(answer, asked),
        verdicts=answer.verdicts,
        depends=answer.depends,
        causes=answer.causes,
        forced_by=_forced_by(answer),
        differences=_differences(answer, donor) if answer.verdict is not Verdict.CANT else (),
        cautions=_standing_cautions(answer, donor),
        days=_days(answer, donor) if answer.complete and answer.verdict is not Verdict.CANT else None,
        open_questions=answer.open_questions,
        bites=_bites(answer) if answer.verdict is Verdict.CANT else {},
        donor_had=_donor_had(answer, donor),
    )


def quotation(
    *shells: ShellLine,
    donor: Donor = UNKNOWN,
    tariff: Tariff = STERLING,
    currency: str = "GBP",
    extras: Mapping[str, int] | None = None,
    country: str = "GB",
    **rest: object,
) -> QuotationPaper:
    """An issued quotation of these shells, priced and taxed by the engine."""
    wanted = [_wanted(line, donor, country, rest) for line in shells]
    price = price_quotation(book(), wanted, extras or {}, tariff)
    able = all(line.days for line in shells)
    lines = tuple(replace(line, price=p) for line, p in zip(shells, price.lines, strict=True))
    plain: dict[str, object] = {
        "book": book(),
        "tool_state": 4,
        "firm": FIRM,
        "number": "Q-2026-00042",
        "revision": "A",
        "issued": True,
        "dated": DAY,
        "valid_until": DAY + timedelta(days=book().terms.validity_days),
        "author": "Imogen Faulk",
        "customer": PRIVATE,
        "donor": DonorCar(),
        "delivery": Delivery(shells[0].settled.get("delivery", "collected"), country=country),
        "shells": lines,
        "tariff": tariff,
        "currency": currency,
        "totals": total(price, wanted, book().terms) if able else None,
        "extras": price.extras,
        "gates": _gates(shells),
        "address": "https://desk.ravensmoor.example/q/7f3kq2m9x4tb",
    }
    return QuotationPaper(**(plain | rest))  # type: ignore[arg-type]


def _wanted(line: ShellLine, donor: Donor, country: str, rest: Mapping[str, object]) -> Wanted:
    customer = rest.get("customer", PRIVATE)
    assert isinstance(customer, Customer)
    choice = line.settled.get("delivery")
    cases = tax_cases(book(), choice, country if choice != "collected" else None, None, customer.country, DAY)
    return Wanted(line.settled, donor, line.quantity, () if isinstance(cases, TaxRefusal) else cases)


def _standing(answer: Answer, asked: Specification) -> dict[str, State]:
    return {
        option: State.FORCED
        if option not in asked.answers
        else State.USUAL
        if asked.answers[option].origin is Origin.USUAL
        else State.CHOSEN
        for option in answer.settled
    }


def _forced_by(answer: Answer) -> dict[str, tuple[str, ...]]:
    return {
        option.option: tuple(dict.fromkeys(r for choice in option.choices for cause in choice.causes for r in cause))
        for option in answer.options
    }


def _bites(answer: Answer) -> dict[str, tuple[str, ...]]:
    rules = {rule.id: rule for rule in book().rules}
    found: dict[str, list[str]] = {}
    for cause in answer.causes:
        for rule in (rules[name] for name in cause if name in rules):
            named = options_of(resolve(rule.when, book(), UNKNOWN)) | (
                options_of(resolve(rule.needs, book(), UNKNOWN)) if rule.needs else frozenset()
            )
            for option in named:
                found.setdefault(option, []).append(rule.id)
    return {option: tuple(dict.fromkeys(names)) for option, names in found.items()}


def _donor_had(answer: Answer, donor: Donor) -> dict[str, str]:
    if not {"series", "market", "body"} <= answer.settled.keys():
        return {}
    keys = {book().roles[role]: answer.settled[book().roles[role]] for role in (Role.SERIES, Role.MARKET, Role.BODY)}
    if donor.series:
        keys["series"] = donor.series
    usual = usual_specification(book(), keys, donor)
    return {o.id: usual[o.id] for o in book().options if o.structural and o.id not in ("body", "market")}


def _differences(answer: Answer, donor: Donor) -> tuple[Difference, ...]:
    return tuple(
        Difference(option, had, answer.settled[option])
        for option, had in _donor_had(answer, donor).items()
        if option in answer.settled and answer.settled[option] != had
    )


def _standing_cautions(answer: Answer, donor: Donor) -> tuple[str, ...]:
    domains = domains_of(book())
    return tuple(
        caution.id
        for caution in book().cautions
        if "quotation" in caution.papers and holds(resolve(caution.when, book(), donor), answer.settled, domains)
    )


def _days(answer: Answer, donor: Donor) -> ReadyAfter:
    route = route_days(book(), answer.settled, donor)
    days = route.to_slot + route.after_slot
    added = [a.id for stage in route.stages for a in stage.added] + [a.id for a in route.gates]
    return ReadyAfter(days, days + book().calendar.spread, tuple(added))


def _gates(shells: tuple[ShellLine, ...]) -> tuple[Gate, ...]:
    gates = [Gate.DEPOSIT, Gate.SPECIFICATION]
    if any(line.depends.parts for line in shells):
        gates.append(Gate.PARTS)
    if any(line.depends.approvals for line in shells):
        gates.append(Gate.APPROVALS)
    return tuple(gates)


def can(**over: str) -> dict[str, str]:
    """Case 12: home private, S3 roadster, primed, dolly, our van."""
    return {"series": "s3", "market": "home", "body": "roadster", "delivery": "van"} | over


def small_window() -> QuotationPaper:
    """Case 11: small-window coupé, T2-05900, home."""
    donor = Donor("s2", 5900)
    chosen = {"series": "s2", "market": "home", "body": "coupe"}
    car = DonorCar("T2-5900", "T2-05900", "s2", "home", "coupe", None, True, Evidence.PLATE_PHOTOGRAPH)
    return replace(quotation(shell(chosen, donor), donor=donor), donor=car)


def facts(paper: QuotationPaper, letter: str) -> Facts:
    """What a revision on this paper comes to."""
    cases = paper.totals.cases if paper.totals else ()
    sums = tuple(CaseSum(case.kind, case.sum.without_tax, case.sum.with_tax, case.deposit) for case in cases)
    return Facts(
        letter=letter,
        book=paper.book.number,
        price_list=paper.tariff.list,
        place=DeliveryPlace(paper.delivery.country, paper.delivery.place),
        lines=tuple(_facts(line) for line in paper.shells),
        extras={extra.extra: extra.quantity for extra in paper.extras},
        sums=Sums(paper.currency, sums) if sums else None,
        donor=paper.donor.text,
        note=paper.note,
    )


def _facts(line: ShellLine) -> LineFacts:
    days = Days(line.days.earliest, line.days.latest) if line.days else None
    return LineFacts(line.quantity, line.settled, line.depends, line.price.shell.net if line.price else None, days)


def revised(before: QuotationPaper, after: QuotationPaper, letters: str = "AB") -> QuotationPaper:
    """The second paper as the revision that replaces the first."""
    changes = changes_between(facts(before, letters[0]), facts(after, letters[1]))
    return replace(after, revision=letters[1], changes=changes)


def dealer(percents: Mapping[str, str]) -> dict[str, Decimal]:
    return {category: Decimal(percent) for category, percent in percents.items()}
