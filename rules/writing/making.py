"""How a shell is made and measured → text, the inverse of `rules.reading.making`, `.targets`, `.inspecting`."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal

from rules.condition import ALWAYS, Condition
from rules.making import Coat, Datum, Gap, Hole, Limits, Operation, Sort, Target, Zone
from rules.model import Book
from rules.reading import inspecting
from rules.reading.columns import COLUMNS
from rules.writing.conditions import Sayer
from rules.writing.layout import block, field, plain, table, words, yes


def making_blocks(book: Book, say: Sayer) -> Iterator[str]:
    """Its blocks, in the order in which a shell is built."""
    return _Writer(book, say).blocks()


class _Writer:
    def __init__(self, book: Book, say: Sayer) -> None:
        self.making, self.stages, self.codes, self.say = book.making, book.stages, book.languages, say

    def blocks(self) -> Iterator[str]:
        made = self.making
        yield from self._table("processes", [(one.id, *self._in(one.label)) for one in made.processes])
        for stage in self.stages:
            yield from self._operations(stage.id)
        yield from self._table("zones", list(map(self._zone, made.zones)))
        yield from self._holes()
        yield from map(self._gap, made.gaps)
        yield from self._table("datums", list(map(self._datum, made.datums)))
        if made.limits is not None:
            yield _limits(made.limits)
        yield from self._table("coats", list(map(self._coat, made.coats)))
        threads = [(one.id, str(one.count), self.say.said(one.when), *self._in(one.label)) for one in made.threads]
        yield from self._table("threads", threads)
        panels = [(one.id, self.say.said(one.when), *self._in(one.label)) for one in made.panels]
        yield from self._table("panels", panels)
        kit = [(one.id, one.supply.value, self.say.said(one.when), *self._in(one.label)) for one in made.kit]
        yield from self._table("kit", kit)

    def _in(self, words: Mapping[str, str]) -> tuple[str, ...]:
        return tuple(words[code] for code in self.codes)

    def _table(self, kind: str, rows: list[tuple[str, ...]], *fields: str, of: str = "") -> Iterator[str]:
        if rows:
            yield block(f"{kind} {of}".rstrip(), *fields, *self._rows(kind, rows))

    def _rows(self, kind: str, rows: list[tuple[str, ...]]) -> list[str]:
        return table((*COLUMNS[kind], *self.codes), rows)

    def _operations(self, stage: str) -> Iterator[str]:
        rows = [self._operation(one) for one in self.making.operations if one.stage == stage]
        yield from self._table("operations", rows, of=stage)

    def _operation(self, one: Operation) -> tuple[str, ...]:
        sort = "" if one.sort is Sort.WORK else one.sort.value
        return (one.id, sort, one.process or "", self.say.said(one.when), *self._in(one.text))

    def _zone(self, zone: Zone) -> tuple[str, ...]:
        sheets = " / ".join(map(plain, zone.sheets))
        return (zone.id, zone.operation, str(zone.welds), sheets, self.say.said(zone.when), *self._in(zone.label))

    def _datum(self, one: Datum) -> tuple[str, ...]:
        return (one.id, one.reach.value, one.stage, _aim(one.target), self.say.said(one.when), *self._in(one.label))

    def _coat(self, one: Coat) -> tuple[str, ...]:
        days = "" if one.overcoat is None else str(one.overcoat)
        return (one.id, _film(one.film), days, self.say.said(one.when), *self._in(one.label))

    def _holes(self) -> Iterator[str]:
        mirrored = field("mirrored", self._maybe(self.making.mirrored))
        yield from self._table("holes", [self._hole(hole) for hole in self.making.holes], *mirrored)

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
            *yes("leading", gap.leading),
            *field("when", "" if gap.when == ALWAYS else self.say.said(gap.when)),
            *words("label", gap.label, self.codes),
            *self._rows("gap", rows),
        )  # fmt: skip


def _limits(limits: Limits) -> str:
    rows = [(plain(spot.sheet), plain(spot.spacing), plain(spot.overlap)) for spot in limits.spots]
    return block(
        "inspection",
        f"nugget: {plain(limits.nugget)} to {plain(limits.aim)}",
        f"three sheets: {plain(limits.three_sheets)} %",
        f"film: {_film(limits.film)}",
        f"adhesion: {limits.adhesion}",
        f"colour: {plain(limits.colour)}",
        *table(inspecting.COLUMNS, rows),
    )


def _film(film: tuple[Decimal, Decimal]) -> str:
    return f"{plain(film[0])} to {plain(film[1])} µm"


def _aim(target: Target) -> str:
    if target.general:
        return f"{plain(target.nominal)} mm ISO 2768-{target.general}"
    return f"{plain(target.nominal)} ± {plain(target.tolerance)} mm"
