"""What is sent and kept when a donor car is stripped, in the reader's words and units. Saves nothing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from app.documents.drawings.drawing import Drawing
from app.documents.drawings.sketch import Length, margins_of, sketch_of
from app.documents.saying.figures import Figures, locale_for
from app.documents.saying.phrases import sentences
from app.domain.asking.actor import Actor
from app.services.answering.specifying import Asked, deal_of, said_of
from app.store.db import Store
from rules.answer import Verdict
from rules.donor.keep import Sent, kept_of
from rules.lengths import with_lengths
from rules.model import Book, Cut, Keep


@dataclass(frozen=True, slots=True)
class KeptPart:
    """`before`: the stage's name where it is sent by itself; empty otherwise."""

    id: str
    label: str
    why: str
    before: str = ""


@dataclass(frozen=True, slots=True)
class Comes:
    """How a part comes out: `margins` a line for each side that is cut, `remarks` (what it is about, the line)."""

    margins: tuple[str, ...]
    remarks: tuple[tuple[str, str], ...]
    sketch: Drawing | None


@dataclass(frozen=True, slots=True)
class SentPart:
    """A customer's part that `rule` asks for, before a stage. `comes` None: the book doesn't say how it comes out."""

    rule: str
    part: str
    reason: str
    before: str
    company: tuple[KeptPart, ...]
    comes: Comes | None


@dataclass(frozen=True, slots=True)
class Stripped:
    """`buildable` False: nothing is asked for, since the shell can't be built as it is specified."""

    buildable: bool
    sent: tuple[SentPart, ...]
    besides: tuple[KeptPart, ...]
    refit: tuple[KeptPart, ...]


def stripped(store: Store, actor: Actor, asked: Asked, now: datetime, language: str, *, inches: bool) -> Stripped:
    """`inches`: beside the millimetres. Raises as `specifying.answer`."""
    deal, tools = deal_of(store, actor, asked, now)
    said = said_of(store, deal, tools, asked.specification)[1]
    kept = kept_of(deal.book, deal.donor, said.settled, said.depends, said.verdicts)
    tell = _Telling(deal.book, language, inches)
    return Stripped(
        buildable=Verdict.CANT not in said.verdicts,
        sent=tuple(map(tell.sent, kept.sent)),
        besides=tell.kept(kept.besides),
        refit=tell.kept(kept.refit, kept.lacking),
    )


@dataclass(frozen=True, slots=True)
class _Telling:
    book: Book
    language: str
    inches: bool

    def sent(self, one: Sent) -> SentPart:
        rule, cut = self.book.rule(one.rule), self.book.cut(one.rule)
        part = (rule.part or rule.title)[self.language]
        return SentPart(
            rule=one.rule,
            part=f"{part[:1].upper()}{part[1:]}",
            reason=rule.reason[self.language],
            before=self._stage(rule.needed_before),
            company=self.kept(one.company),
            comes=None if cut is None else self._comes(cut, part),
        )

    def kept(self, ids: Iterable[str], lacking: Iterable[str] = ()) -> tuple[KeptPart, ...]:
        named, lacks = {keep.id: keep for keep in self.book.keeps}, set(lacking)
        return tuple(self._kept(named[found], lacks=found in lacks) for found in ids)

    def _kept(self, keep: Keep, *, lacks: bool) -> KeptPart:
        why = keep.why[self.language]
        told = f"{why} {sentences(self.language)['keep.lacking']}" if lacks else why
        return KeptPart(keep.id, keep.label[self.language], told, self._stage(keep.before))

    def _stage(self, stage: str | None) -> str:
        return next((one.label[self.language] for one in self.book.stages if one.id == stage), "")

    def _comes(self, cut: Cut, part: str) -> Comes:
        remarks = ((one.about.value, with_lengths(one.text[self.language], self._length)) for one in cut.remarks)
        return Comes(tuple(self._margins(cut)), tuple(remarks), sketch_of(cut, part, self.language, self._length))

    def _margins(self, cut: Cut) -> Iterator[str]:
        known = sentences(self.language)
        for side, margin in margins_of(cut).items():
            yield known["cut.line"].format(side=known[f"cut.side-{side}"], margin=self._length(Decimal(margin)))

    @property
    def _length(self) -> Length:
        figures = Figures(locale_for(self.language), "")
        return lambda millimetres: figures.length(millimetres, self.inches)
