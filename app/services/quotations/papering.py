"""A revision worked out, as the paper is handed it. The one seam between quotations and the papers' own types."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from threading import Lock
from typing import Any

from app.documents import contents
from app.documents.quotation.acceptance_form import acceptance_form_pdf
from app.documents.quotation.difference_sheet import DifferenceSheet, Said, difference_sheet_pdf
from app.documents.quotation.quotation import quotation_pdf
from app.documents.quotation.where_to_cut import WhereToCut, where_to_cut_pdf
from app.documents.saying.figures import locale_for
from app.domain.customers.customer import Customer
from app.domain.money.bank import Account
from app.domain.quotations.changes import Changes
from app.domain.quotations.enquiry import DonorCar, Picture
from app.domain.quotations.pictures import Row, differences
from app.domain.quotations.quotation import DraftLine, Imprint, Quotation, Revision
from app.services.answering.drawing import bites_of
from app.services.answering.pricing import Deal, day_of
from app.services.answering.specifying import Answered
from app.services.planning.readying import ready_of
from app.services.quotations.working_out import WorkedOut, standing_of_options
from app.wording import LANGUAGES
from rules.answer import Answer, State
from rules.condition import holds, options_of
from rules.donor.identity import write_number
from rules.donor.keep import kept_of
from rules.donor.resolve import domains_of, resolve
from rules.donor.usual import key_options, usual_specification
from rules.model import Book, Role
from rules.money.totals import ShellsPrice
from rules.specification import Donor

#: On which of the firm's papers a standing caution of the book is printed.
PAPER, DIFFERENCE_SHEET, CUT_SHEET = "quotation", "difference-sheet", "where-to-cut"

#: One paper at a time: the library that draws them keeps its fonts and styles for the whole process.
PRESS = Lock()

SIZES = tuple(sheet.value for sheet in contents.Sheet)


#: Where letters are written on Letter rather than A4 (ISO 3166-1; common practice there).
ON_LETTER = frozenset(("CA", "MX", "US"))

#: Language and size.
Kind = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Sheetful:
    """A revision to be put on paper. `made_at`: the moment of issue, or of making a draft's paper.

    `changes`: since the last revision that left the house, None where none did.
    """

    quotation: Quotation
    revision: Revision
    worked: WorkedOut
    imprint: Imprint
    made_at: datetime
    issued: bool
    valid_until: datetime | None
    changes: Changes | None = None


def languages(written: Sequence[str]) -> tuple[str, ...]:
    """Those of the book's languages that papers are written in."""
    return tuple(language for language in LANGUAGES if language in written)


def kinds(book: Book) -> tuple[Kind, ...]:
    """What a paper can be had in."""
    return tuple((language, size) for language in languages(book.languages) for size in SIZES)


def own_kind(worked: WorkedOut) -> Kind:
    """The customer's own, as `kind_for` says it."""
    return kind_for(worked.deal.book, worked.customer, worked.deal.place.country)


def kind_for(book: Book, customer: Customer, goes_to: str) -> Kind:
    """His language, or the first there is, on the size that is usual with him or where it goes (ISO 3166-1 alpha-2)."""
    return kind_of(book, customer.language, customer.country, goes_to)


def kind_of(book: Book, reads: str, *countries: str) -> Kind:
    """The language that somebody reads, or the first there is, on the size that is usual in any of the countries."""
    written = languages(book.languages)
    letter = ON_LETTER.intersection(countries)
    return reads if reads in written else written[0], (contents.Sheet.LETTER if letter else contents.Sheet.A4).value


def pdf(sheetful: Sheetful, language: str, size: str) -> bytes:
    """The paper's bytes, the same for the same revision, language and size."""
    with PRESS:
        return quotation_pdf(paper_of(sheetful, language, size))


def difference_pdf(sheetful: Sheetful, language: str, size: str) -> bytes:
    """The difference sheet's bytes, the same for the same revision, language and size."""
    with PRESS:
        return difference_sheet_pdf(difference_sheet_of(sheetful, language, size))


def acceptance_pdf(sheetful: Sheetful, language: str, size: str) -> bytes:
    """The order form's bytes, the same for the same revision, language and size."""
    with PRESS:
        return acceptance_form_pdf(difference_sheet_of(sheetful, language, size))


def difference_sheet_of(sheetful: Sheetful, language: str, size: str) -> DifferenceSheet:
    """The donor car in three pictures, against every line that could be answered."""
    worked, deal, car = sheetful.worked, sheetful.worked.deal, sheetful.worked.donor
    answers = [one.answer for one in worked.answers if one is not None]
    rows = tuple(differences(deal.book, car, said.settled) for said in answers)
    key = deal.book.roles.get(Role.SERIES, "")
    now, series = car.stands.values.get(key), car.series if car.established else None
    return DifferenceSheet(
        quotation=paper_of(sheetful, language, size),
        rows=rows,
        rules=tuple(_speaking_of(deal, found, said) for found, said in zip(rows, answers, strict=True)),
        cautions=cautions_on(sheetful, DIFFERENCE_SHEET),
        built=_said(car.built),
        stands=_said(car.stands),
        stands_said=bool(car.stands.values),
        claimed=now if series is not None and now is not None and now != series else None,
    )


def where_to_cut(sheetful: Sheetful, language: str, size: str) -> bytes:
    """The bytes of the sheet "Where to cut", the same for the same revision, language and size."""
    with PRESS:
        return where_to_cut_pdf(where_to_cut_of(sheetful, language, size))


def where_to_cut_of(sheetful: Sheetful, language: str, size: str) -> WhereToCut:
    """Every customer's part that one of the lines needs, once."""
    paper = paper_of(sheetful, language, size)
    sent = {one.rule: one for shell in paper.shells for one in shell.kept.sent}
    return WhereToCut(paper, tuple(sent.values()), cautions_on(sheetful, CUT_SHEET))


def cautions_on(sheetful: Sheetful, paper: str) -> tuple[str, ...]:
    """Ids of the standing cautions that one of the lines has on that paper of the firm."""
    deal, answers = sheetful.worked.deal, sheetful.worked.answers
    told = (standing_cautions(deal, one.answer.settled, paper) for one in answers if one is not None)
    return tuple(dict.fromkeys(caution for each in told for caution in each))


def _said(picture: Picture) -> Said:
    evidence = contents.Evidence.NOBODY if picture.said_by is None else contents.Evidence(picture.said_by.value)
    return Said(evidence, picture.note, picture.photograph)


def _speaking_of(deal: Deal, rows: tuple[Row, ...], said: Answer) -> tuple[str, ...]:
    """Approvals and cautions that hang on something in which the pictures differ."""
    differ = {row.option for row in rows}
    rules = {rule.id: rule for rule in deal.book.rules}
    asked = dict.fromkeys((*said.depends.approvals, *said.depends.cautions))
    return tuple(rule for rule in asked if differ & options_of(resolve(rules[rule].when, deal.book, deal.donor)))


def paper_of(sheetful: Sheetful, language: str, size: str) -> contents.QuotationPaper:
    """Everything that the paper prints."""
    worked, deal = sheetful.worked, sheetful.worked.deal
    shells = tuple(_shells(worked))
    return contents.QuotationPaper(
        book=deal.book,
        tool_state=worked.tools.number,
        firm=_firm(sheetful.imprint.firm),
        number=sheetful.quotation.number,
        revision=sheetful.revision.letter,
        issued=sheetful.issued,
        dated=day_of(deal.book, sheetful.made_at),
        valid_until=_last_day(deal.book, sheetful.valid_until),
        author=sheetful.imprint.author,
        customer=_customer(worked.customer, sheetful.imprint.dealer_name),
        donor=_donor(deal.book, worked.donor),
        delivery=_delivery(deal, shells),
        shells=shells,
        tariff=deal.tariff,
        currency=deal.currency,
        totals=worked.totals,
        address=sheetful.imprint.address,
        language=language,
        locale=locale_for(language, worked.customer.country),
        sheet=contents.Sheet(size),
        units=contents.Units.BOTH if worked.customer.units == "imperial" else contents.Units.METRIC,
        extras=() if worked.sum is None else worked.sum.price.extras,
        gates=_gates(shells),
        tools_down=_tools_down(worked, shells),
        changes=sheetful.changes,
        note=worked.draft.note,
        measures=_measures(deal, shells),
        intent=worked.donor.intent,
    )


def _shells(worked: WorkedOut) -> Iterator[contents.ShellLine]:
    prices = (None,) * len(worked.answers) if worked.sum is None else worked.sum.price.lines
    none = (None,) * len(worked.answers)
    ranges, stock = worked.foreseen or none, worked.stock or none
    lines = zip(worked.draft.lines, worked.answers, prices, worked.approved, ranges, stock, strict=True)
    for line, one, price, given, range_, from_stock in lines:
        if one is not None:
            yield replace(_shell(worked.deal, line, one, price), approved=given, foreseen=range_, stock=from_stock)


def _shell(deal: Deal, line: DraftLine, one: Answered, price: ShellsPrice | None) -> contents.ShellLine:
    said = one.answer
    return contents.ShellLine(
        quantity=line.quantity,
        settled=said.settled,
        standing=standing_of_options(said, line.specification),
        verdicts=said.verdicts,
        depends=said.depends,
        causes=said.causes,
        forced_by=dict(_forced_by(said)),
        differences=tuple(_differences(deal, said)),
        cautions=standing_cautions(deal, said.settled),
        days=_days(deal, said),
        price=price,
        open_questions=said.open_questions,
        bites=bites_of(one, line.specification),
        donor_had=donor_had(deal, said.settled),
        kept=kept_of(deal.book, deal.donor, said.settled, said.depends, said.verdicts),
    )


def _forced_by(said: Answer) -> Iterator[tuple[str, tuple[str, ...]]]:
    """The rules that close the other choices of an option whose choice is forced."""
    for option in said.options:
        if any(choice.state is State.FORCED for choice in option.choices):
            ids = (rule for choice in option.choices for cause in choice.causes for rule in cause)
            yield option.option, tuple(dict.fromkeys(ids))


def _differences(deal: Deal, said: Answer) -> Iterator[contents.Difference]:
    """Against the usual of the donor's series, or of the ordered one where none is established, as the verdict does."""
    for option, had in _usual_of_donor(deal, said.settled).items():
        ordered = said.settled.get(option)
        if ordered is not None and ordered != had:
            yield contents.Difference(option, had, ordered)


def donor_had(deal: Deal, settled: Mapping[str, str]) -> dict[str, str]:
    """Structural option → what the donor car had, or the original of the ordered series; body and market are asked."""
    asked = {deal.book.roles.get(Role.BODY), deal.book.roles.get(Role.MARKET)}
    return {option: had for option, had in _usual_of_donor(deal, settled).items() if option not in asked}


def _usual_of_donor(deal: Deal, settled: Mapping[str, str]) -> dict[str, str]:
    """Of the structural options; empty while series, market or body is open."""
    keys = {key: settled[key] for key in key_options(deal.book) if key in settled}
    if len(keys) < len(key_options(deal.book)):
        return {}
    series = deal.book.roles.get(Role.SERIES)
    had = keys if series is None or deal.donor.series is None else {**keys, series: deal.donor.series}
    usual = usual_specification(deal.book, had, deal.donor)
    return {option.id: usual[option.id] for option in deal.book.options if option.structural}


def standing_cautions(deal: Deal, settled: Mapping[str, str], paper: str = PAPER) -> tuple[str, ...]:
    """Ids of those that hold of one shell on that paper of the firm."""
    return cautions_of(deal.book, deal.donor, settled, paper)


def cautions_of(book: Book, donor: Donor, settled: Mapping[str, str], paper: str) -> tuple[str, ...]:
    """The same where no deal is at hand."""
    domains = domains_of(book)
    return tuple(
        caution.id
        for caution in book.cautions
        if paper in caution.papers and holds(resolve(caution.when, book, donor), settled, domains)
    )


def _days(deal: Deal, said: Answer) -> contents.ReadyAfter | None:
    """From the open gates to ready, in the working days of the book; None where the book has no stages."""
    ready = ready_of(deal.book, said.settled, deal.donor, said.depends)
    return None if ready is None else contents.ReadyAfter(ready.from_days, ready.to_days, ready.additions)


def _gates(shells: tuple[contents.ShellLine, ...]) -> tuple[contents.Gate, ...]:
    """Deposit and signed specification always; the others where a shell depends on them."""
    depends = [shell.depends for shell in shells]
    asked = {
        contents.Gate.PARTS: any(one.parts for one in depends),
        contents.Gate.APPROVALS: any(_unapproved(shell) for shell in shells),
        contents.Gate.TOOLS: any(one.tools for one in depends),
    }
    return (contents.Gate.DEPOSIT, contents.Gate.SPECIFICATION, *(gate for gate, wanted in asked.items() if wanted))


def _unapproved(shell: contents.ShellLine) -> set[str]:
    return set(shell.depends.approvals) - {one.rule for one in shell.approved}


def _tools_down(worked: WorkedOut, shells: tuple[contents.ShellLine, ...]) -> tuple[contents.ToolDown, ...]:
    needed = dict.fromkeys(tool for shell in shells for tool in shell.depends.tools)
    return tuple(contents.ToolDown(tool, worked.tools.states[tool].until) for tool in needed)


def _delivery(deal: Deal, shells: tuple[contents.ShellLine, ...]) -> contents.Delivery:
    role = deal.book.roles.get(Role.DELIVERY)
    choices = [shell.settled[role] for shell in shells if role in shell.settled] if role is not None else []
    return contents.Delivery(choices[0] if choices else "", deal.place.region, deal.place.country, deal.place.term)


def _measures(deal: Deal, shells: tuple[contents.ShellLine, ...]) -> tuple[contents.Measures, ...]:
    """What the book states of size and mass of what is sent here, in the book's order."""
    domains = domains_of(deal.book)
    return tuple(
        contents.Measures(**{name: getattr(measure, name) for name in _MEASURED})
        for measure in deal.book.measures
        if any(holds(resolve(measure.when, deal.book, deal.donor), shell.settled, domains) for shell in shells)
    )


_MEASURED = ("label", "length_mm", "width_mm", "height_mm", "mass_from_kg", "mass_to_kg")


def _customer(customer: Customer, dealer_name: str) -> contents.Customer:
    address = tuple(line.strip() for line in customer.address.splitlines() if line.strip())
    return contents.Customer(customer.name, customer.trade, address, customer.country, dealer_name, customer.tax_number)


def _donor(book: Book, donor: DonorCar) -> contents.DonorCar:
    roles, built = book.roles, donor.built.values
    series = next((one for one in book.series if one.choice == donor.series), None)
    said_by = contents.Evidence.NOBODY if donor.built.said_by is None else contents.Evidence(donor.built.said_by.value)
    return contents.DonorCar(
        text=donor.number_text,
        canonical=write_number(series, donor.number) if series is not None and donor.number is not None else "",
        series=donor.series,
        market=built.get(roles.get(Role.MARKET, "")),
        body=built.get(roles.get(Role.BODY, "")),
        gearbox=donor.gearbox,
        established=donor.established,
        evidence=said_by,
    )


def _firm(particulars: Mapping[str, Any]) -> contents.Firm:
    lists = {"address", "included", "excluded"}
    known: dict[str, Any] = {name: tuple(value) if name in lists else value for name, value in particulars.items()}
    account = known.get("account")
    return contents.Firm(**({"name": ""} | known | {"account": account and Account(**account)}))


def _last_day(book: Book, valid_until: datetime | None) -> date | None:
    """The day at whose midnight it lapses."""
    return None if valid_until is None else day_of(book, valid_until - timedelta(microseconds=1))
