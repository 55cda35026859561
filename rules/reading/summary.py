"""How much a book holds: the counts that are printed when a book has been checked. Counts no variants."""

from __future__ import annotations

from rules.model import Book, Kind


def summary(book: Book) -> tuple[tuple[str, int], ...]:
    """(what, how many) in the order of the book; a rule of two kinds counts under both."""
    return (
        ("languages", len(book.languages)),
        ("groups", len(book.groups)),
        ("options", len(book.options)),
        ("structural options", sum(option.structural for option in book.options)),
        ("choices", sum(len(option.choices) for option in book.options)),
        ("rules", len(book.rules)),
        *((f"rules: {kind.value}", sum(kind in rule.kinds for rule in book.rules)) for kind in Kind),
        ("tools", len(book.tools)),
        ("price lists", len(book.lists)),
        ("price lines", len(book.lines)),
        ("prices", sum(len(line.amounts) for line in book.lines)),
        ("adjustments", len(book.adjustments)),
        ("extras", len(book.extras)),
        ("series", len(book.series)),
        ("usual rows", len(book.usual)),
        ("stages", len(book.stages)),
        ("additions", len(book.additions)),
        ("closures", len(book.calendar.closures)),
        ("cautions", len(book.cautions)),
        ("texts of its own", len(book.wordings)),
        ("measures", len(book.measures)),
        ("parts to keep", len(book.keeps)),
        ("parts with a cut", len(book.cuts)),
        ("operations", len(book.making.operations)),
        ("weld zones", len(book.making.zones)),
        ("holes and brackets", len(book.making.holes)),
        ("gap and flush points", sum(len(gap.points) for gap in book.making.gaps)),
        ("datums and diagonals", len(book.making.datums)),
        ("coats", len(book.making.coats)),
        ("threads", len(book.making.threads)),
        ("panels with a film", len(book.making.panels)),
        ("kit lines", len(book.making.kit)),
        ("late changes", len(book.late_changes)),
    )
