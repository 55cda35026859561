"""`Book` → rule-book text, the inverse of `rules.reading`: what is written reads back as the same book.

Written in one fixed order and layout, so that two books can be compared line by line. Comments of a text that was read
are not kept: a book doesn't hold them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from rules.condition import ALWAYS, Among
from rules.donor.identity import write_number
from rules.model import (
    ALL_ROUND,
    Addition,
    Adjustment,
    Book,
    Calendar,
    Caution,
    Cut,
    Extra,
    Keep,
    Kind,
    Known,
    LateChange,
    Line,
    Measure,
    Option,
    Role,
    Rule,
    Series,
    Stage,
    Tax,
    Terms,
    Tool,
    UsualRow,
    Wording,
    Words,
    Work,
)
from rules.reading import drawing, late
from rules.reading.columns import COLUMNS
from rules.reading.known import COLUMNS as KNOWN
from rules.reading.phrases import NAMES
from rules.reading.values import day_written, exponent_of
from rules.wordings import written
from rules.writing.conditions import Sayer
from rules.writing.layout import amount, block, field, plain, table, words, yes
from rules.writing.making import making_blocks

__all__ = ["write_book"]

_GRAVITY = tuple(Kind)


def write_book(book: Book) -> str:
    """The text of a whole book; reading it gives the same book, places apart."""
    return "\n\n".join(_Writer(book).blocks()) + "\n"


class _Writer:
    """Writes one book; knows its languages, its price lists and the order of its choices."""

    def __init__(self, book: Book) -> None:
        self.book = book
        self.say = Sayer(book)
        self.exponents = {each.id: exponent_of(each.currency) or 0 for each in book.lists}

    def blocks(self) -> Iterator[str]:
        """Every block of the book, in the order in which a reader wants them."""
        yield from self._heads()
        yield from map(self._series, self.book.series)
        for option in self.book.options:
            yield self._option(option)
            yield from self._phrases(option)
        yield from (self._line(line) for line in self.book.lines if line.option is None)
        yield from map(self._adjustment, self.book.adjustments)
        yield from map(self._extra, self.book.extras)
        yield from self._usual()
        yield from map(self._rule, self.book.rules)
        yield from map(self._tool, self.book.tools)
        yield from map(self._stage, self.book.stages)
        yield from map(self._addition, self.book.additions)
        yield from self._calendar(self.book.calendar)
        yield from self._trade(self.book.tax, self.book.terms)
        yield from map(self._caution, self.book.cautions)
        yield from map(self._wording, self.book.wordings)
        yield from map(self._measure, self.book.measures)
        yield from map(self._keep, self.book.keeps)
        yield from map(self._cut, self.book.cuts)
        yield from making_blocks(self.book, self.say)
        yield from map(self._late_change, self.book.late_changes)
        yield from self._drawing()
        yield from map(self._known, self.book.known)

    def _heads(self) -> Iterator[str]:
        book = self.book
        yield block(
            f"book {book.id}",
            *self._words("title", book.title),
            f"languages: {', '.join(book.languages)}",
            *field("gearboxes", ", ".join(book.gearboxes)),
        )
        if book.roles:
            yield block("roles", *(f"{role.value}: {book.roles[role]}" for role in Role if role in book.roles))
        yield from self._labelled("groups", ((g.id, (), g.label) for g in book.groups))
        yield from self._labelled("categories", ((c.id, (), c.label) for c in book.categories))
        yield from self._labelled("lists", ((p.id, (p.currency,), p.label) for p in book.lists))

    def _labelled(self, kind: str, rows: Iterable[tuple[str, tuple[str, ...], Words]]) -> Iterator[str]:
        labels = [(each, *cells, *(label[code] for code in self.book.languages)) for each, cells, label in rows]
        if labels:
            yield block(kind, *table((*COLUMNS[kind], *self.book.languages), labels))

    def _words(self, name: str, said: Words) -> list[str]:
        return words(name, said, self.book.languages)

    def _series(self, series: Series) -> str:
        first, last = (f"{series.prefix}-{number:0{series.width}}" for number in (series.first, series.last))
        fields = (f"years: {series.years}", f"numbers: {first} to {last}", *self._words("changes", series.changes))
        return block(f"series {series.choice}", *fields)

    def _option(self, option: Option) -> str:
        lines = {line.choice: line for line in self.book.lines if line.option == option.id}
        some = next(iter(lines.values()), None)
        rows = [
            (c.id, *(c.label[code] for code in self.book.languages), *self._prices(lines.get(c.id)))
            for c in option.choices
        ]
        return block(
            f"option {option.id}",
            f"group: {option.group}",
            *yes("structural", option.structural),
            *field("category", some.category if some else ""),
            *yes("base", some is not None and some.base),
            *field("lost", ", ".join(choice.id for choice in option.choices if choice.lost)),
            *self._words("label", option.label),
            *self._words("help", option.help),
            *table(("choice", *self.book.languages, *self.exponents), rows),
        )

    def _phrases(self, option: Option) -> Iterator[str]:
        """How its choices are said within a sentence, where the book says it."""
        codes = self.book.languages
        said = [choice for choice in option.choices if choice.clause or choice.shell]
        rows = [(c.id, *(words.get(code, "") for words in (c.clause, c.shell) for code in codes)) for c in said]
        columns = ("choice", *(f"{name} {code}" for name in NAMES for code in codes))
        if rows:
            yield block(f"phrases {option.id}", *table(columns, rows))

    def _prices(self, line: Line | None) -> list[str]:
        return ["—"] * len(self.exponents) if line is None else self._amounts(line.amounts)

    def _amounts(self, amounts: Mapping[str, int]) -> list[str]:
        return [amount(amounts.get(price_list), decimals) for price_list, decimals in self.exponents.items()]

    def _line(self, line: Line) -> str:
        return block(
            f"line {line.id}",
            f"when: {self.say.said(line.when)}",
            f"category: {line.category}",
            *yes("base", line.base),
            *self._words("label", line.label),
            *table(tuple(self.exponents), [self._amounts(line.amounts)]),
        )

    def _adjustment(self, adjustment: Adjustment) -> str:
        return block(
            f"adjust {adjustment.id}",
            f"when: {self.say.said(adjustment.when)}",
            f"lines: {', '.join(adjustment.lines)}",
            "waived: yes" if adjustment.waives else f"times: {plain(adjustment.factor)}",
            *self._words("label", adjustment.label),
        )

    def _extra(self, extra: Extra) -> str:
        return block(
            f"extra {extra.id}",
            f"category: {extra.category}",
            *self._words("label", extra.label),
            *self._words("unit", extra.unit),
            *table(tuple(self.exponents), [self._amounts(extra.amounts)]),
        )

    def _usual(self) -> Iterator[str]:
        """One table for each run of rows that speak of the same options."""
        for columns, rows in _runs(self.book.usual):
            said = [(self.say.said(row.when), *(row.values[option] for option in columns)) for row in rows]
            yield block("usual", *table(("when", *columns), said))

    def _rule(self, rule: Rule) -> str:
        return block(
            f"rule {rule.id}",
            *self._speaking(rule),
            *self._words("part", rule.part),
            *field("before", rule.needed_before or ""),
            *self._words("title", rule.title),
            *self._words("reason", rule.reason),
            *self._words("clause", rule.clause),
        )

    def _speaking(self, rule: Rule) -> list[str]:
        if rule.needs is None:
            kinds = sorted(rule.kinds, key=_GRAVITY.index)
            return [f"{' and '.join(kind.value for kind in kinds)}: {self.say.said(rule.when)}"]
        where = [] if rule.when == ALWAYS else [f"where: {self.say.said(rule.when)}"]
        if isinstance(rule.needs, Among):
            return [*where, "these exist:", *table(rule.needs.options, self._in_order(rule.needs))]
        return [*where, f"needs: {self.say.said(rule.needs)}"]

    def _in_order(self, existing: Among) -> list[tuple[str, ...]]:
        places = [{choice: at for at, choice in enumerate(self.say.order[option])} for option in existing.options]
        return sorted(existing.rows, key=lambda row: [place[c] for place, c in zip(places, row, strict=True)])

    def _tool(self, tool: Tool) -> str:
        return block(
            f"tool {tool.id}",
            f"needed for: {self.say.said(tool.needed_for)}",
            *field("at", tool.stage or ""),
            *field("stands in", tool.stands_in or ""),
            *field("speaks as", tool.speaks_as or ""),
            *self._words("label", tool.label),
            *self._words("reason", tool.reason),
            *self._words("clause", tool.clause),
        )

    def _stage(self, stage: Stage) -> str:
        changeover = f"{plain(stage.changeover)} slots between {stage.changeover_of}" if stage.changeover_of else ""
        return block(
            f"stage {stage.id}",
            f"days: {stage.days}",
            *yes("before slot", stage.before_slot),
            *field("a week", "" if stage.per_week is None else plain(stage.per_week)),
            *field("bays", "" if stage.bays is None else str(stage.bays)),
            *field("changeover", changeover),
            *field("work", "" if stage.work is Work.BUILD else stage.work.value),
            *self._words("label", stage.label),
        )

    def _addition(self, addition: Addition) -> str:
        return block(
            f"addition {addition.id}",
            f"stage: {addition.stage}",
            f"days: {addition.days}",
            *yes("from gate", addition.from_gate),
            f"when: {self.say.said(addition.when)}",
            *self._words("label", addition.label),
        )

    def _calendar(self, calendar: Calendar) -> Iterator[str]:
        if calendar.country:
            region = f"{calendar.country}-{calendar.subdivision}" if calendar.subdivision else calendar.country
            fields = (f"zone: {calendar.zone}", f"holidays: {region}", f"spread: {calendar.spread}")
            yield block("calendar", *fields, f"load: {plain(calendar.load_percent)} % over {calendar.load_weeks} weeks")
        for closure in calendar.closures:
            days = f"every year: {day_written(closure.start)} to {day_written(closure.end)}"
            yield block("closed", days, *self._words("label", closure.label))

    def _trade(self, tax: Tax, terms: Terms) -> Iterator[str]:
        if tax.home:
            rates = [(rate.since, f"{plain(rate.percent)} %") for rate in tax.rates]
            yield block(
                "tax", f"home: {tax.home}", *self._words("label", tax.label), *table(("since", "percent"), rates)
            )
        if tax.goes:
            goes = [(each.choice, each.how, each.country or "") for each in tax.goes]
            yield block("delivery", *table(("choice", "goes", "country"), goes))
        if terms != Terms():
            yield block("terms", *_terms(terms))

    def _caution(self, caution: Caution) -> str:
        return block(
            f"caution {caution.id}",
            f"papers: {', '.join(sorted(caution.papers))}",
            f"when: {self.say.said(caution.when)}",
            *self._words("text", caution.text),
        )

    def _wording(self, wording: Wording) -> str:
        said = {code: written(text) for code, text in wording.text.items()}
        return block(f"wording {wording.id}", *self._words("text", said))

    def _measure(self, measure: Measure) -> str:
        size = " x ".join(map(str, (measure.length_mm, measure.width_mm, measure.height_mm)))
        return block(
            f"measure {measure.id}",
            f"when: {self.say.said(measure.when)}",
            *field("size", f"{size} mm" if measure.length_mm else ""),
            *field("mass", f"{measure.mass_from_kg} to {measure.mass_to_kg} kg" if measure.mass_to_kg else ""),
            *self._words("label", measure.label),
        )

    def _known(self, known: Known) -> str:
        series = next((one for one in self.book.series if one.choice == known.series), None)
        donor = write_number(series, known.number) if series is not None and known.number is not None else ""
        price = known.price and f"{amount(known.price[1], self.exponents[known.price[0]])} {known.price[0]}"
        return block(
            f"known {known.id}",
            f"answer: {known.answer}",
            *field("because", ", ".join(sorted(known.because))),
            *field("price", price or ""),
            *field("donor", donor),
            *field("gearbox", known.gearbox or ""),
            *yes("usual", known.usual),
            *self._words("label", known.label),
            *table(KNOWN, list(known.made.items())),
        )

    def _keep(self, keep: Keep) -> str:
        always = keep.when == ALWAYS and keep.together_with
        return block(
            f"keep {keep.id}",
            *field("when", "" if always else self.say.said(keep.when)),
            *field("with", keep.together_with or ""),
            *field("before", keep.before or ""),
            *self._words("label", keep.label),
            *self._words("why", keep.why),
        )

    def _cut(self, cut: Cut) -> str:
        sides = ", ".join(f"{side} {mm} mm" for side, mm in cut.margins.items())
        around = cut.margins.get(ALL_ROUND)
        rows = [(each.written, *(each.text[code] for code in self.book.languages)) for each in cut.remarks]
        return block(
            f"cut {cut.rule}",
            *field("sketch", cut.sketch),
            *field("margins", f"{around} mm {ALL_ROUND}" if around else sides),
            *table(("about", *self.book.languages), rows),
        )

    def _late_change(self, change: LateChange) -> str:
        return block(
            f"change {change.id}",
            *field("options", ", ".join(change.options)),
            *field("when", "" if change.when == ALWAYS else self.say.said(change.when)),
            *self._words("label", change.label),
            *table(late.COLUMNS, [(point, taken.value) for point, taken in change.since.items()]),
        )

    def _drawing(self) -> Iterator[str]:
        if self.book.drawing:
            rows = [(drawn.option, drawn.choice, drawn.element) for drawn in self.book.drawing]
            yield block("drawing", *table(drawing.COLUMNS, rows))


def _runs(usual: Sequence[UsualRow]) -> Iterator[tuple[tuple[str, ...], list[UsualRow]]]:
    run: list[UsualRow] = []
    for row in usual:
        if run and list(run[0].values) != list(row.values):
            yield tuple(run[0].values), run
            run = []
        run.append(row)
    if run:
        yield tuple(run[0].values), run


def _terms(terms: Terms) -> Iterator[str]:
    yield f"deposit: {plain(terms.deposit_percent)} %"
    yield f"validity: {terms.validity_days} days"
    if terms.several_from:
        yield f"several: {plain(terms.several_percent)} % from {terms.several_from} shells"
    if terms.ceiling_category:
        yield f"ceiling: {plain(terms.ceiling_percent)} % on {terms.ceiling_category}"
