"""Terms of sale: tax by the day and by where the goods go, deposit and validity, standing cautions."""

from __future__ import annotations

import re
from decimal import Decimal

from rules.model import PAPERS, Caution, Goes, Role, Tax, TaxRate, Terms
from rules.reading.blocks import Block
from rules.reading.desk import Desk
from rules.reading.fields import Fields, id_of, nameless, parts_of
from rules.reading.mistakes import offer, sentence, shown
from rules.reading.tables import known_columns, table_of
from rules.reading.values import iso_day, percent, whole

_COUNTRY = re.compile(r"[A-Z]{2}", re.ASCII)
_HOW = ("collected", "home", "abroad")


def read_tax(block: Block, desk: Desk, goes: tuple[Goes, ...]) -> Tax:
    """The home country, its standard rates by date, and what each delivery means."""
    nameless(block, desk.ledger)
    fields = desk.fields(block, ("home",), ("label",))
    home = fields.need("home", "GB")
    if home:
        _country(home.value, home.line, desk)
    return Tax(home.value if home else "", _rates(fields, desk), goes, fields.words("label"))


def _country(code: str, line: int, desk: Desk) -> None:
    if not _COUNTRY.fullmatch(code):
        desk.ledger.add(
            line,
            sentence("“{code}” is no country code", code=shown(code)),
            sentence("write two capital letters (ISO 3166-1), like GB or DE"),
        )


def _rates(fields: Fields, desk: Desk) -> tuple[TaxRate, ...]:
    table = table_of(fields.block, desk.ledger, fields.name, "since | percent")
    if table is None or not known_columns(table, ("since", "percent"), (), desk.ledger):
        return ()
    rates: list[TaxRate] = []
    for line, row in table.dicts():
        since, rate = iso_day(row["since"], line, desk.ledger), percent(row["percent"], line, desk.ledger)
        if rates and since and since <= rates[-1].since:
            desk.ledger.add(
                line,
                sentence("{since} does not follow {since_2}", since=since, since_2=rates[-1].since),
                sentence("write the rates in the order of their days"),
            )
        if since is not None and rate is not None:
            rates.append(TaxRate(since, rate))
    return tuple(rates)


def read_delivery(block: Block, desk: Desk) -> tuple[Goes, ...]:
    """What each choice of the delivery option means for tax."""
    desk.only_table(block)
    table = table_of(block, desk.ledger, "delivery", "choice | goes | country")
    option = desk.names.roles.get(Role.DELIVERY)
    if table is None or not known_columns(table, ("choice", "goes", "country"), (), desk.ledger):
        return ()
    if option is None:
        desk.ledger.add(
            block.line,
            sentence("no option plays the delivery"),
            sentence("add a line “delivery: some-option” below “roles”"),
        )
    goes = tuple(_goes(line, row, option, desk) for line, row in table.dicts())
    _all_go(block, goes, option, desk)
    return goes


def _goes(line: int, row: dict[str, str], option: str | None, desk: Desk) -> Goes:
    if option is not None:
        desk.names.check_choice(option, row["choice"], line, desk.ledger)
    if row["goes"] not in _HOW:
        desk.ledger.unknown(line, "way to go", row["goes"], _HOW)
    if row["country"]:
        _country(row["country"], line, desk)
    return Goes(row["choice"], row["goes"], row["country"] or None)


def _all_go(block: Block, goes: tuple[Goes, ...], option: str | None, desk: Desk) -> None:
    said = [each.choice for each in goes]
    for choice in desk.names.choices.get(option or "", ()):
        if choice not in said and len(said) == len(block.rows) - 1:
            desk.ledger.add(
                block.line,
                sentence("the table does not say where “{choice}” goes", choice=choice),
                sentence("add a row for {choice}", choice=choice),
            )
    for choice in sorted({choice for choice in said if said.count(choice) > 1}):
        desk.ledger.add(
            block.line,
            sentence("“{choice}” stands twice in the table", choice=shown(choice)),
            sentence("take one of the rows out"),
        )


def read_terms(block: Block, desk: Desk) -> Terms:
    """Deposit, validity, the discount for several shells, the ceiling of a discount."""
    nameless(block, desk.ledger)
    fields = desk.fields(block, ("deposit", "validity", "several", "ceiling"))
    fields.no_table()
    deposit = fields.need("deposit", "25 %")
    paid = percent(deposit.value, deposit.line, desk.ledger) if deposit else None
    several_percent, several_from = _several(fields)
    ceiling_percent, ceiling_category = _ceiling(fields, desk)
    return Terms(
        paid or Decimal(0), _validity(fields), several_from, several_percent, ceiling_category, ceiling_percent
    )


def _validity(fields: Fields) -> int:
    field = fields.need("validity", "30 days")
    found = re.fullmatch(r"(\d{1,4}) days?", field.value, re.ASCII) if field else None
    if field and not found:
        fields.ledger.add(
            field.line,
            sentence("“{value}” is no validity", value=shown(field.value)),
            sentence("write it like 30 days"),
        )
    return (whole(found[1], field.line, fields.ledger, "a number of days", 1000) or 0) if field and found else 0


def _several(fields: Fields) -> tuple[Decimal, int]:
    """`3 % from 3 shells`."""
    field = fields.get("several")
    found = re.fullmatch(r"(.+?) from (\d{1,4}) shells?", field.value, re.ASCII) if field else None
    if field and not found:
        fields.ledger.add(
            field.line,
            sentence("“{value}” is no discount for several shells", value=shown(field.value)),
            sentence("write it like 3 % from 3 shells"),
        )
    if field is None or found is None:
        return Decimal(0), 0
    return percent(found[1], field.line, fields.ledger) or Decimal(0), int(found[2])


def _ceiling(fields: Fields, desk: Desk) -> tuple[Decimal, str]:
    """`22 % on A`."""
    field = fields.get("ceiling")
    found = re.fullmatch(r"(.+?) on (\S+)", field.value) if field else None
    if field and not found:
        desk.ledger.add(
            field.line,
            sentence("“{value}” is no ceiling of discounts", value=shown(field.value)),
            sentence("write it like 22 % on A"),
        )
    if field is None or found is None:
        return Decimal(100), ""
    desk.names.check("category", found[2], field.line, desk.ledger)
    return percent(found[1], field.line, desk.ledger) or Decimal(0), found[2]


def read_caution(block: Block, desk: Desk) -> Caution | None:
    """A standing caution and the papers that carry it."""
    fields = desk.fields(block, ("papers", "when"), ("text",))
    fields.no_table()
    found, text = id_of(block, desk.ledger), fields.words("text")
    when, papers = desk.condition(fields, "when", "always"), fields.need("papers", "quotation, build-sheet")
    named = parts_of(papers.value) if papers else []
    for paper in named:
        if papers and paper not in PAPERS:
            desk.ledger.add(
                papers.line, sentence("there is no paper “{paper}”", paper=shown(paper)), offer(paper, PAPERS)
            )
    if found is None or when is None:
        return None
    return Caution(found, frozenset(named), when, text)
