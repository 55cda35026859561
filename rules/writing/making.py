"""How a shell is made and measured → text, the inverse of `rules.reading.making` and `rules.reading.targets`."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from decimal import Decimal

from rules.condition import ALWAYS, Condition
from rules.making import Gap, Hole, Sort, Target
from rules.model import Book
from rules.writing.conditions import Sayer
from rules.writing.layout import block, field, plain, table


def making_blocks(book: Book, say: Sayer) -> Iterator[str]:
    """Its blocks, in the order in which a shell is built."""
    return _Writer(book, say).blocks()


class _Writer:
    def __init__(self, book: Book, say: Sayer) -> None:
        self.making, self.stages, self.codes, self.say = book.making, book.stages, book.languages, say

    def blocks(self) -> Iterator[str]:
        made = self.making
        yield from self._table("processes", ("process",), [(one.id, *self._in(one.label)) for one in made.processes])
        for stage in self.stages:
            yield from self._operations(stage.id)
        zones = [
            (
                z.id,
                z.operation,
                str(z.welds),
                " / ".join(map(plain, z.sheets)),
                self.say.said(z.when),
                *self._in(z.label),
            )
            for z in made.zones
        ]
        yield from self._table("zones", ("zone", "operation", "welds", "sheets", "when"), zones)
        yield from self._holes()
        yield from map(self._gap, made.gaps)
        datums = [
            (d.id, d.reach.value, d.stage, _aim(d.target), self.say.said(d.when), *self._in(d.label))
            for d in made.datums
        ]
        yield from self._table("datums", ("datum", "sort", "stage", "target", "when"), datums)

    def _in(self, words: Mapping[str, str]) -> tuple[str, ...]:
        return tuple(words[code] for code in self.codes)

    def _table(self, head: str, columns: tuple[str, ...], rows: list[tuple[str, ...]], *fields: str) -> Iterator[str]:
        if rows:
            yield block(head, *fields, *table((*columns, *self.codes), rows))

    def _operations(self, stage: str) -> Iterator[str]:
        rows = [
            (
                o.id,
                "" if o.sort is Sort.WORK else o.sort.value,
                o.process or "",
                self.say.said(o.when),
                *self._in(o.text),
            )
            for o in self.making.operations
            if o.stage == stage
        ]
        yield from self._table(f"operations {stage}", ("operation", "sort", "process", "when"), rows)

    def _holes(self) -> Iterator[str]:
        columns = ("hole", "sort", "stage", "size", "x", "y", "handed", "drill", "blank", "leave")
        mirrored = field("mirrored", self._maybe(self.making.mirrored))
        yield from self._table("holes", columns, [self._hole(hole) for hole in self.making.holes], *mirrored)

    def _hole(self, hole: Hole) -> tuple[str, ...]:
        size = "" if hole.size is None else plain(hole.size)
        ways = map(self._maybe, (hole.drill, hole.blank, hole.leave))
        at = (str(hole.x), str(hole.y), "yes" if hole.handed else "")
        return (hole.id, hole.fixture.value, hole.stage, size, *at, *ways, *self._in(hole.label))

    def _maybe(self, when: Condition | None) -> str:
        return "" if when is None else self.say.said(when)

    def _gap(self, gap: Gap) -> str:
        rows = [(p.id, p.side.value, str(p.x), str(p.y), self.say.said(p.when), *self._in(p.label)) for p in gap.points]
        return block(
            f"gap {gap.id}",
            f"stage: {gap.stage}",
            *(f"{name}: {_aim(aim)}" for name, aim in
              (("metal", gap.metal), ("painted", gap.painted), ("flush", gap.flush))),
            *(f"{name}: {plain(limit)} mm" for name, limit in (("taper", gap.taper), ("across", gap.across))
              if limit is not None),
            *field("customers", gap.customers or ""),
            *field("when", "" if gap.when == ALWAYS else self.say.said(gap.when)),
            *(f"label {code}: {gap.label[code]}" for code in self.codes if code in gap.label),
            *table(("point", "side", "x", "y", "when", *self.codes), rows),
        )  # fmt: skip


def _aim(target: Target) -> str:
    return f"{plain(target.nominal)} ± {plain(target.tolerance)} mm"


def _joint(sheets: Iterable[Decimal]) -> str:
    return " / ".join(map(plain, sheets))


def _sort(sort: Sort) -> str:
    return "" if sort is Sort.WORK else sort.value
