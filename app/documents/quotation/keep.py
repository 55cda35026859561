"""What of the donor car is sent and what is kept when it is stripped, each with a box to tick. It derives nothing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from reportlab.lib.units import mm
from reportlab.platypus import CondPageBreak, Flowable, Spacer

from app.documents.contents import QuotationPaper
from app.documents.saying.voice import Voice
from app.documents.shared.alike import numbers
from app.documents.shared.answers import part_title
from app.documents.typesetting.lettering import REASON, ROW, ROW_STRONG, SMALL, STRONG, THIN, caption, opening, text
from app.documents.typesetting.marks import TickBox
from app.documents.typesetting.ruled import Cell, between, dense, headed, ruled, shares, under
from app.documents.typesetting.stationery import inner_width
from rules.model import Keep


def keeping(paper: QuotationPaper, voice: Voice) -> list[Flowable]:
    """Nothing where the book names nothing to keep."""
    rows = [*_sent(paper, voice), *_besides(paper, voice), *_refit(paper, voice)]
    if not paper.book.keeps or not rows:
        return []
    heads: list[Cell] = ["", caption(voice.say("keep.part")), caption(voice.say("keep.why"))]
    widths = shares(inner_width(paper.sheet), 6, 72, 92)
    table = ruled([heads, *rows], widths, *headed(), *dense(), between(1), under(-1, THIN), heads=1)
    head = [CondPageBreak(40 * mm), opening(voice.say("keep.heading")), text(voice.say("keep.lead"), SMALL)]
    return [*head, *_beside(paper, voice), Spacer(0, 1 * mm), table]


def _beside(paper: QuotationPaper, voice: Voice) -> list[Flowable]:
    asked = any(shell.kept.sent for shell in paper.shells)
    return [text(voice.say("keep.sheet"), STRONG)] if asked and paper.book.cuts else []


def _sent(paper: QuotationPaper, voice: Voice) -> Iterator[list[Cell]]:
    """Each customer's part, and below it what travels with it."""
    sent = {one.rule: one.company for shell in paper.shells for one in shell.kept.sent}
    for rule, company in sent.items():
        stage = voice.stage(paper.book.rule(rule).needed_before or "")
        which = _which(paper, [any(one.rule == rule for one in shell.kept.sent) for shell in paper.shells], voice)
        needed = voice.say("keep.needed", stage=stage)
        yield _row(f"{rule}  {part_title(voice, rule)}{which}", f"{voice.say('send.heading')}, {needed}", strong=True)
        for keep in _named(paper, company):
            yield _row(f"{voice.words(keep.label)} ({voice.say('keep.with')})", voice.words(keep.why))


def _besides(paper: QuotationPaper, voice: Voice) -> Iterator[list[Cell]]:
    for keep in _named(paper, dict.fromkeys(found for shell in paper.shells for found in shell.kept.besides)):
        needed = voice.say("keep.needed", stage=voice.stage(keep.before or ""))
        why = f"{voice.say('keep.besides')}, {needed}. {voice.words(keep.why)}"
        yield _row(f"{voice.words(keep.label)}{_of(paper, keep, voice)}", why, strong=True)


def _refit(paper: QuotationPaper, voice: Voice) -> Iterator[list[Cell]]:
    lacking = {found for shell in paper.shells for found in shell.kept.lacking}
    for keep in _named(paper, dict.fromkeys(found for shell in paper.shells for found in shell.kept.refit)):
        lacks = f" {voice.say('keep.lacking')}" if keep.id in lacking else ""
        yield _row(f"{voice.words(keep.label)}{_of(paper, keep, voice)}", f"{voice.words(keep.why)}{lacks}")


def _named(paper: QuotationPaper, ids: Iterable[str]) -> list[Keep]:
    """Those of the book, in its order."""
    wanted = set(ids)
    return [keep for keep in paper.book.keeps if keep.id in wanted]


def _of(paper: QuotationPaper, keep: Keep, voice: Voice) -> str:
    return _which(paper, [keep.id in (*shell.kept.besides, *shell.kept.refit) for shell in paper.shells], voice)


def _which(paper: QuotationPaper, due: list[bool], voice: Voice) -> str:
    """For which of several shells; nothing where it is for all of them."""
    if all(due):
        return ""
    return " " + voice.say("send.shells", shells=numbers([place for place, one in enumerate(due) if one]))


def _row(part: str, why: str, *, strong: bool = False) -> list[Cell]:
    return [TickBox(2.6 * mm), text(part, ROW_STRONG if strong else ROW), text(why, REASON)]
