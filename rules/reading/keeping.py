"""What is kept of a donor car, and how a customer's part is taken out of it. Knows no line art but names."""

from __future__ import annotations

import re

from rules.condition import ALWAYS
from rules.lengths import lengths_of, stray_braces
from rules.model import ALL_ROUND, SIDES, Bound, Cut, Keep, Remark, Remarked
from rules.reading.blocks import Block, Field
from rules.reading.desk import Desk
from rules.reading.fields import ID, Fields, id_of, parts_of
from rules.reading.mistakes import listed, offer, sentence, shown
from rules.reading.rows import words_of
from rules.reading.tables import known_columns, table_of
from rules.reading.values import meant

_ALL_ROUND = re.compile(r"([1-9]\d{0,3}) mm all round", re.ASCII)
_MARGIN = re.compile(r"([a-z]+) ([1-9]\d{0,3}) mm", re.ASCII)
_EXAMPLE = "150 mm all round"

#: What a line may be about: what the table says → what it is.
_ABOUT: dict[str, tuple[Remark, Bound | None]] = {
    **{remark.value: (remark, None) for remark in Remark},
    **{f"{Remark.LIMIT.value} {bound.value}": (Remark.LIMIT, bound) for bound in Bound},
}


def read_keep(block: Block, desk: Desk) -> Keep | None:
    """A part that is kept; sent with another, sent by itself, or kept for the new shell."""
    fields = desk.fields(block, ("when", "with", "before"), ("label", "why"))
    fields.no_table()
    found, label, why = id_of(block, desk.ledger), fields.words("label"), fields.words("why")
    when = desk.condition(fields, "when", "always") if fields.has("when") or not fields.has("with") else ALWAYS
    together = desk.known_if_said(fields, "with", "rule")
    before = desk.known_if_said(fields, "before", "stage")
    if fields.has("with") and fields.has("before"):
        what = sentence("{name} is sent with another part, and before a stage of its own", name=fields.name)
        desk.ledger.add(block.line, what, sentence("take “with” out, or “before”"))
    return None if found is None or when is None else Keep(found, when, label, why, together, before)


def read_cut(block: Block, desk: Desk) -> Cut | None:
    """How the part of a part rule is taken out: sketch, margins, and lines about it."""
    fields = desk.fields(block, ("sketch", "margins"))
    found = id_of(block, desk.ledger)
    if found is None:
        return None
    desk.names.check("rule", found, block.line, desk.ledger)
    return Cut(found, _margins(fields), _remarks(block, desk), _sketch(fields), fields.place)


def _sketch(fields: Fields) -> str:
    field = fields.get("sketch")
    if field and not ID.fullmatch(field.value):
        what = sentence("“{value}” can't name a sketch", value=shown(field.value))
        fields.ledger.add(field.line, what, sentence("write words of letters, digits and hyphens, like window-ring"))
    return field.value if field else ""


def _margins(fields: Fields) -> dict[str, int]:
    field = fields.get("margins")
    if field is None:
        return {}
    if around := _ALL_ROUND.fullmatch(field.value):
        return {ALL_ROUND: int(around[1])}
    told = [(part, _MARGIN.fullmatch(part)) for part in parts_of(field.value)]
    for part, found in told:
        _check_margin(part, found, field, fields)
    margins = {found[1]: int(found[2]) for _, found in told if found}
    if len(margins) < sum(found is not None for _, found in told):
        fields.ledger.add(field.line, sentence("a side has two margins"), sentence("name each side once"))
    return margins


def _check_margin(part: str, found: re.Match[str] | None, field: Field, fields: Fields) -> None:
    if found is None:
        what = sentence("“{part}” is no margin", part=shown(part))
        fields.ledger.add(
            field.line, what, sentence("write “{example}”, or sides like “front 80 mm, rear 120 mm”", example=_EXAMPLE)
        )
    elif found[1] not in SIDES:
        fields.ledger.add(
            field.line, sentence("a part has no side “{found}”", found=shown(found[1])), offer(found[1], SIDES)
        )


def _remarks(block: Block, desk: Desk) -> tuple[Remarked, ...]:
    columns = ("about", *desk.languages)
    table = table_of(block, desk.ledger, " ".join((block.kind, *block.words)), " | ".join(columns))
    if table is None or not known_columns(table, columns, (), desk.ledger):
        return ()
    remarks = (_remark(line, row, desk) for line, row in table.dicts())
    return tuple(remark for remark in remarks if remark is not None)


def _remark(line: int, row: dict[str, str], desk: Desk) -> Remarked | None:
    about, text = meant(_ABOUT, row["about"], line, desk.ledger, "a line can't be about"), words_of(row, desk)
    if missing := [language for language in desk.languages if not text[language]]:
        desk.ledger.add(
            line,
            sentence("the line says nothing in {missing}", missing=listed(missing)),
            sentence("write it in every language of the book"),
        )
    _check_lengths(line, {language: said for language, said in text.items() if said}, desk)
    if about is None or missing:
        return None
    found = Remarked(about[0], text, about[1])
    if found.bound is not None and any(len(lengths_of(said)) != 1 for said in text.values()):
        what = sentence("a limit {bound} something names one length", bound=found.bound.value)
        instead = sentence("write one length like {{2 mm}}, or say “limit” alone where nothing is measured")
        desk.ledger.add(line, what, instead)
    return found


def _check_lengths(line: int, texts: dict[str, str], desk: Desk) -> None:
    """A length that can't be read would be printed with its braces; one that differs is wrong in one language."""
    for language, text in texts.items():
        if stray_braces(text):
            desk.ledger.add(
                line,
                sentence("a brace in {language} holds no length", language=language),
                sentence("write lengths like {{2 mm}} or {{0.5 mm}}"),
            )
    told = {language: sorted(lengths_of(text)) for language, text in texts.items()}
    first = next(iter(told), "")
    for language, lengths in told.items():
        if lengths != told[first]:
            what = sentence("the lengths in {language} are not those in {first}", language=language, first=first)
            desk.ledger.add(line, what, sentence("name the same lengths in every language"))
