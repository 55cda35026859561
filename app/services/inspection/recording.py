"""The inspection record of a shell as a paper. Made anew each time from what was read and said; not kept."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import datetime

from app.documents.contents import Sheet
from app.documents.saying.figures import Figures, locale_for
from app.documents.saying.phrases import sentences
from app.documents.workshop.inspection_record import (
    Excepted,
    GaugeUsed,
    InspectionRecord,
    Signed,
    inspection_record_pdf,
)
from app.domain.asking.actor import Actor
from app.domain.floor.rework import Rework
from app.domain.inspection.concession import Concession, ConcessionStanding
from app.domain.inspection.subject import Subject
from app.services.answering import checking
from app.services.answering.pricing import day_of
from app.services.books.standard_lists import firm_of
from app.services.floor.naming_subjects import said_of
from app.services.inspection import inspecting
from app.services.inspection.inspecting import PHASES, Inspection
from app.services.people import introducing
from app.services.quotations import papering
from app.store.db import Store

#: On which of the firm's papers a standing caution of the book is printed.
PAPER = "inspection-record"


def record(store: Store, actor: Actor, key: int, how: tuple[str, str], now: datetime) -> bytes:
    """The PDF in (language, size); an empty language: the shop's own.

    Raises NotFound, BadInput for a language or size that there is none in.
    """
    one = inspecting.inspection(store, actor, key, now)
    languages = tuple(each for each in one.book.languages if each in papering.languages(one.book.languages))
    language, size = how[0] or languages[0], how[1]
    checking.refuse([*checking.one_of("language", language, languages), *checking.one_of("size", size, papering.SIZES)])
    names = introducing.display_names(store)
    content = _content(store, one, names, (language, size), now)
    with papering.PRESS:
        return inspection_record_pdf(content)


def _content(
    store: Store, one: Inspection, names: Mapping[str, str], how: tuple[str, str], now: datetime
) -> InspectionRecord:
    language, shell, settled = how[0], one.found.shell, one.found.gated.frozen.settled
    donor = one.found.whole.order.frozen.donor.facts()
    told = _Telling(one, names, language)
    looked = [one.looked[phase] for phase in PHASES]
    return InspectionRecord(
        book=one.book,
        firm=firm_of(store),
        serial=one.serial or one.found.whole.order.number,
        order=one.found.whole.order.number,
        sheet=shell.sheet.revision if shell.sheet else None,
        settled=settled,
        work=one.work,
        judged=tuple(judged for each in looked for judged in each.judged),
        compared=tuple(compared for each in looked for compared in each.compared),
        predicted=one.predicted if one.painted else (),
        readers={name: names.get(read.by, read.by) for name, read in one.standing.counts.items()},
        welders={zone: tuple(names.get(who, who) for who in made) for zone, made in one.welders.items()},
        signed=tuple(told.signed()),
        concessions=tuple(map(told.concession, one.concessions)),
        reworks=tuple(map(told.rework, one.reworks)),
        gauges=tuple(_gauges(one)),
        photographs=len(one.photographs),
        cautions=papering.cautions_of(one.book, donor, settled, PAPER),
        printed=day_of(one.book, now),
        passed=one.is_through,
        outgrown={name: then for each in looked for name, then in each.outgrown.items()},
        primed=one.priming.day if one.priming else None,
        overcoat=one.overcoat.by if one.overcoat else None,
        language=language,
        locale=locale_for(language),
        size=Sheet(how[1]),
    )


def _gauges(one: Inspection) -> Iterator[GaugeUsed]:
    """Those that what counts was read with, each calibration once."""
    used = {read.gauge.id: read.gauge for read in one.standing.counts.values() if read.gauge is not None}
    for gauge in sorted(used.values(), key=lambda gauge: (gauge.sort.value, gauge.mark, gauge.id)):
        yield GaugeUsed(gauge.mark, gauge.sort.value, gauge.calibrated, gauge.due)


class _Telling:
    """Verdicts, concessions and rework with people's names, in one language."""

    def __init__(self, one: Inspection, names: Mapping[str, str], language: str) -> None:
        self.one, self.names, self.language = one, names, language
        self.say = sentences(language)
        self.figures = Figures(locale_for(language), "")

    def name(self, person: str) -> str:
        return self.names.get(person, person)

    def signed(self) -> Iterator[Signed]:
        for each in self.one.decided:
            second = "" if each.second is None else self.name(each.second)
            day = day_of(self.one.book, each.at)
            yield Signed(each.phase, each.verdict.value, each.why, day, self.name(each.signed), second)

    def concession(self, one: Concession) -> Excepted:
        facts = {"why": one.why, "asked": self.name(one.asked_by)}
        if one.answer is not None:
            facts |= {"by": self.name(one.answer.by), "day": self.figures.day(one.answer.day), "reason": one.answer.why}
        key = {ConcessionStanding.GRANTED: "conceded"}.get(one.standing, one.standing.value)
        return Excepted(self.about(one.subject), self.say[f"record.{key}"].format_map(facts))

    def rework(self, one: Rework) -> Excepted:
        facts = {"what": one.what, "found": self.name(one.found_by)}
        key = "mending" if one.end is None else "withdrawn" if one.end.withdrawn else "mended"
        if one.end is not None:
            facts |= {"by": self.name(one.end.by), "day": self.figures.day(one.end.day), "note": one.end.note}
        return Excepted(self.about(one.subject), self.say[f"record.{key}"].format_map(facts).strip())

    def about(self, subject: Subject) -> str:
        return said_of(self.one.book, subject, self.language)
