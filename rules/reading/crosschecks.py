"""What only the whole book shows: series without numbers, a tool that leans on the wrong rule, goods gone nowhere."""

from __future__ import annotations

from rules.model import Book, Kind, Role
from rules.reading.blocks import Block
from rules.reading.desk import Desk
from rules.reading.mistakes import sentence
from rules.reading.original import check_series_apart

Blocks = dict[str, list[Block]]


def check(book: Book, blocks: Blocks, desk: Desk) -> None:
    """Every check of the book as a whole; mistakes go into the ledger."""
    if not blocks.get("option") and blocks.get("book"):
        desk.ledger.add(
            blocks["book"][0].line,
            sentence("the book asks nothing"),
            sentence("add at least one block “option some-name”"),
        )
    _series_apart(book, blocks, desk)
    _series_whole(blocks, desk)
    _delivery_told(blocks, desk)
    _terms_told(blocks, desk)
    _countries_fit(book, blocks, desk)
    _tools_lean_well(book, blocks, desk)
    _parts_are_asked_for(book, blocks, desk)
    for first, second in (("rule", "tool"), ("option", "line")):
        _named_apart(first, second, desk)


def _series_apart(book: Book, blocks: Blocks, desk: Desk) -> None:
    lines = {"-".join(block.words): block.line for block in blocks.get("series", [])}
    check_series_apart([(lines[series.choice], series) for series in book.series], desk)


def _series_whole(blocks: Blocks, desk: Desk) -> None:
    """A book with identity numbers has them for every series that can be ordered."""
    option = desk.names.series_option
    told = set(desk.names.known("series"))
    if told and option is None:
        desk.ledger.add(
            blocks["series"][0].line,
            sentence("no option plays the series"),
            sentence("add a line “series: some-option” below “roles”"),
        )
    for choice in desk.names.choices.get(option or "", ()) if told else ():
        if choice not in told:
            line = desk.names.ids["option"].get(option or "", 1)
            desk.ledger.add(
                line,
                sentence("the series “{choice}” has no identity numbers", choice=choice),
                sentence("add a block “series {choice}”", choice=choice),
            )


def _delivery_told(blocks: Blocks, desk: Desk) -> None:
    option = desk.names.roles.get(Role.DELIVERY)
    if option in desk.names.choices and not blocks.get("delivery"):
        line = desk.names.ids["option"].get(option or "", 1)
        desk.ledger.add(
            line,
            sentence("nothing says where the choices of “{option}” go", option=option),
            sentence("add a block “delivery” with a row for each"),
        )


def _terms_told(blocks: Blocks, desk: Desk) -> None:
    """A book that delivers says at what tax and on what terms: neither may be nought because it was forgotten."""
    for kind in ("tax", "terms"):
        if blocks.get("delivery") and not blocks.get(kind):
            line = blocks["delivery"][0].line
            desk.ledger.add(
                line,
                sentence("the book delivers, but says nothing of {kind}", kind=kind),
                sentence("add a block “{kind}”", kind=kind),
            )


def _countries_fit(book: Book, blocks: Blocks, desk: Desk) -> None:
    home = book.tax.home
    for goes in book.tax.goes if home else ():
        if goes.country and (goes.country == home) is not (goes.how == "home"):
            line = blocks["delivery"][0].line
            what = sentence(
                "“{choice}” goes “{how}” to {country}, and the home country is {home}",
                choice=goes.choice,
                how=goes.how,
                country=goes.country,
                home=home,
            )
            desk.ledger.add(line, what, sentence("write home for the home country and abroad for any other"))


def _tools_lean_well(book: Book, blocks: Blocks, desk: Desk) -> None:
    kinds = {rule.id: rule.kinds for rule in book.rules}
    lines = {"-".join(block.words): block.line for block in blocks.get("tool", [])}
    for tool in book.tools:
        if tool.stands_in in kinds and Kind.PART not in kinds[tool.stands_in]:
            what = sentence(
                "{stands_in} asks for no part, so none can stand in for tool {id}", stands_in=tool.stands_in, id=tool.id
            )
            desk.ledger.add(lines[tool.id], what, sentence("name a rule that says “part: …” after “stands in”"))
        if tool.speaks_as in kinds and not kinds[tool.speaks_as] & {Kind.NEVER, Kind.NEEDS}:
            what = sentence(
                "{speaks_as} bans nothing, so tool {id} can't speak through it", speaks_as=tool.speaks_as, id=tool.id
            )
            desk.ledger.add(lines[tool.id], what, sentence("name a rule that says never or needs after “speaks as”"))


def _parts_are_asked_for(book: Book, blocks: Blocks, desk: Desk) -> None:
    """Only what a rule asks for can be cut out for us, or have company on its way."""
    others = {rule.id for rule in book.rules if Kind.PART not in rule.kinds}
    named = (*(("cut", cut.rule, cut.rule) for cut in book.cuts),
             *(("keep", keep.id, keep.together_with) for keep in book.keeps))  # fmt: skip
    lines = {
        (block.kind, "-".join(block.words)): block.line for kind in ("cut", "keep") for block in blocks.get(kind, [])
    }
    for kind, found, rule in named:
        if rule in others:
            what = sentence(
                "{rule} asks for no part, so {kind} {found} can't go with it", rule=rule, kind=kind, found=found
            )
            desk.ledger.add(lines[kind, found], what, sentence("name a rule that says “part: …”"))


def _named_apart(first: str, second: str, desk: Desk) -> None:
    """Ids that are quoted side by side (causes; the lines of an adjustment) must not be taken for each other."""
    others = desk.names.ids.get(first, {})
    for word, line in desk.names.ids.get(second, {}).items():
        if word in others:
            what = sentence(
                "{second} “{word}” has the id of a {first} on line {others}",
                second=second,
                word=word,
                first=first,
                others=others[word],
            )
            desk.ledger.add(line, what, sentence("give one of them another id"))
