"""The specification in plain words: what is quoted, how each answer came about, and what differs from the donor car."""

from __future__ import annotations

from collections.abc import Hashable, Iterable
from dataclasses import dataclass

from reportlab.lib.units import mm
from reportlab.platypus import CondPageBreak, Flowable, KeepTogether, Spacer

from app.documents.contents import QuotationPaper, Sheet, ShellLine
from app.documents.drawings.drawing import Arrangement, Standing, shell_drawing
from app.documents.drawings.flowable import DrawnShell
from app.documents.saying.voice import Voice
from app.documents.shared.alike import Places, alike, shells_name
from app.documents.shared.answers import stands_on_donor
from app.documents.typesetting.lettering import (
    FINE,
    REASON,
    ROW,
    ROW_STRONG,
    STRONG,
    THIN,
    TINT,
    caption,
    marked,
    opening,
    safe,
    strong,
    text,
)
from app.documents.typesetting.marks import Came
from app.documents.typesetting.ruled import Cell, Command, headed, ruled, shares, under
from app.documents.typesetting.stationery import inner_width
from rules.answer import State, Verdict
from rules.model import Option

#: A specification is not begun on less room than this: a sheet of its own, but where most of one would stay empty.
_LEAST = {Sheet.A4: 150 * mm, Sheet.LETTER: 125 * mm}
#: How much of the width the drawing takes: less on the shorter sheet, so that the table still fits below it.
_SHARES = {Sheet.A4: 1.0, Sheet.LETTER: 0.84}
#: And of a specification that is told against another.
_SMALL = 0.66
#: A specification is told against another where no more than this share of its rows is unlike.
_MOST = 0.5


def specifications(paper: QuotationPaper, voice: Voice) -> list[Flowable]:
    """Every different specification."""
    width = inner_width(paper.sheet)
    story: list[Flowable] = []
    for sheet in _sheets(paper):
        story += _in_full(paper, sheet, voice, width) if sheet.base is None else _against(paper, sheet, voice, width)
    return story


@dataclass(frozen=True, slots=True)
class _Sheet:
    """One specification to be printed, for the lines at `places`: in full, or only where it is told unlike `base`'s."""

    places: Places
    base: int | None
    options: tuple[Option, ...]


def _sheets(paper: QuotationPaper) -> list[_Sheet]:
    options = paper.book.options
    sheets: list[_Sheet] = []
    for places in alike(paper.shells, lambda shell: tuple(_told(shell, option.id) for option in options)):
        full = [sheet.places[0] for sheet in sheets if sheet.base is None]
        unlike = [(base, _unlike(paper, base, places[0])) for base in full]
        base, rows = min(unlike, key=lambda found: len(found[1]), default=(None, options))
        near = len(rows) <= len(options) * _MOST
        sheets.append(_Sheet(places, base, rows) if near else _Sheet(places, None, options))
    return sheets


def _unlike(paper: QuotationPaper, one: int, other: int) -> tuple[Option, ...]:
    shells = paper.shells[one], paper.shells[other]
    return tuple(option for option in paper.book.options if len({_told(shell, option.id) for shell in shells}) > 1)


def _told(shell: ShellLine, option: str) -> Hashable:
    """All that a specification's row and its drawing tell of an option."""
    donor = _donor_had(shell, option)
    return shell.settled.get(option), _state(shell, option), _forcing(shell, option), donor, shell.bites.get(option)


def _key(shell: ShellLine, voice: Voice) -> str:
    """What the lines of the drawing mean; the hatching only where there is any."""
    return " ".join(voice.say(f"drawing.{key}") for key in ("key", "key-hatched")[: 2 if shell.bites else 1])


def _in_full(paper: QuotationPaper, sheet: _Sheet, voice: Voice, width: float) -> list[Flowable]:
    shell = paper.shells[sheet.places[0]]
    drawn = _drawn(paper, shell, voice, width * _SHARES[paper.sheet])
    return [
        CondPageBreak(_LEAST[paper.sheet]),
        _head(paper, sheet, voice),
        *drawn,
        *([text(_key(shell, voice), FINE)] if drawn else []),
        Spacer(0, 1.4 * mm),
        _table(paper, shell, voice, width),
        Spacer(0, 0.6 * mm),
        text(voice.say("specification.key"), FINE),
        *_differences(paper, shell, voice),
    ]


def _against(paper: QuotationPaper, sheet: _Sheet, voice: Voice, width: float) -> list[Flowable]:
    """Only what is told unlike a specification that was printed in full; drawn where the drawing differs."""
    assert sheet.base is not None
    shell = paper.shells[sheet.places[0]]
    structural = any(option.structural for option in sheet.options)
    drawn = _drawn(paper, shell, voice, width * _SMALL) if structural else []
    rows = [_titles(paper, voice), *(_row(paper, shell, option, voice) for option in sheet.options)]
    table = _ruled(rows, (), width)
    as_base = text(voice.say("specification.as-base", index=sheet.base + 1), STRONG)
    return [KeepTogether([_head(paper, sheet, voice), *drawn, as_base, Spacer(0, 1 * mm), table])]


def _head(paper: QuotationPaper, sheet: _Sheet, voice: Voice) -> Flowable:
    return opening(f"{voice.say('specification.heading')}: {shells_name(paper, sheet.places, voice)}")


def _drawn(paper: QuotationPaper, shell: ShellLine, voice: Voice, width: float) -> list[Flowable]:
    """The drawing; nothing where the book draws nothing."""
    standing = Standing(shell.settled, shell.standing, shell.bites)
    drawing = shell_drawing(paper.book, standing, voice.language, Arrangement.ABREAST)
    return [] if drawing is None else [DrawnShell(drawing, width)]


def _table(paper: QuotationPaper, shell: ShellLine, voice: Voice, width: float) -> Flowable:
    rows = [_titles(paper, voice)]
    commands: list[Command] = []
    for group in paper.book.groups:
        options = [option for option in paper.book.options if option.group == group.id]
        commands += _group_rules(len(rows))
        rows.append([text(voice.words(group.label), ROW_STRONG), "", "", ""])
        rows += [_row(paper, shell, option, voice) for option in options]
    return _ruled(rows, (*commands, ("NOSPLIT", (0, -4), (-1, -1))), width)


def _titles(paper: QuotationPaper, voice: Voice) -> list[Cell]:
    donor = "specification.donor" if stands_on_donor(paper) else "specification.donor-series"
    keys = ("specification.option", "specification.ordered", "specification.standing", donor)
    return [caption(voice.say(key)) for key in keys]


def _ruled(rows: list[list[Cell]], commands: Iterable[Command], width: float) -> Flowable:
    return ruled(
        rows, shares(width, 44, 66, 26, 34), *headed(), *commands, ("LINEBELOW", (0, 1), (-1, -2), 0.25, TINT),
        under(-1, THIN), ("TOPPADDING", (0, 1), (-1, -1), 0.25 * mm), ("BOTTOMPADDING", (0, 1), (-1, -1), 0.4 * mm),
        heads=1,
    )  # fmt: skip


def _group_rules(row: int) -> list[Command]:
    return [
        ("BACKGROUND", (0, row), (-1, row), TINT),
        ("SPAN", (0, row), (-1, row)),
        ("NOSPLIT", (0, row), (0, row + 1)),
    ]


def _row(paper: QuotationPaper, shell: ShellLine, option: Option, voice: Voice) -> list[Cell]:
    label = text(voice.words(option.label), ROW)
    settled = shell.settled.get(option.id)
    if settled is None:
        still_open = text(voice.say("specification.still-open"), ROW_STRONG)
        return [label, still_open, text(voice.say("specification.open"), ROW), _donor(shell, option, voice)]
    state = _state(shell, option.id)
    look = ROW if state is State.USUAL else ROW_STRONG
    ordered = [text(voice.choice(option.id, settled), look), *_why(shell, option.id, voice)]
    return [label, tuple(ordered), Came(state, voice.say(f"specification.{state.value}")), _donor(shell, option, voice)]


def _state(shell: ShellLine, option: str) -> State:
    return shell.standing.get(option, State.CHOSEN)


def _why(shell: ShellLine, option: str, voice: Voice) -> list[Flowable]:
    rules = _forcing(shell, option)
    return [text(voice.say("specification.why", rule=rule, reason=voice.reason(rule)), REASON) for rule in rules]


def _forcing(shell: ShellLine, option: str) -> tuple[str, ...]:
    """The rules that leave nothing else; none where the choice was not forced."""
    return shell.forced_by.get(option, ()) if _state(shell, option) is State.FORCED else ()


def _donor(shell: ShellLine, option: Option, voice: Voice) -> Cell:
    """What the car had: heavy, with a sign, where it is another; a dash where nothing is known or there is no such."""
    donor = _donor_had(shell, option.id)
    settled = shell.settled.get(option.id)
    if donor is None or settled is None:
        return text("–" if donor is None else voice.choice(option.id, donor), ROW)
    if donor == settled:
        return text(f"=\u00a0 {voice.choice(option.id, donor)}", ROW)
    return text(f"≠\u00a0 {voice.choice(option.id, donor)}", ROW_STRONG)


def _donor_had(shell: ShellLine, option: str) -> str | None:
    differs = next((row.donor for row in shell.differences if row.option == option), None)
    return shell.donor_had.get(option) if differs is None else differs


def _differences(paper: QuotationPaper, shell: ShellLine, voice: Voice) -> list[Flowable]:
    if shell.differences or Verdict.CANT in shell.verdicts:
        return []
    key = "specification.differences" if stands_on_donor(paper) else "specification.differences-series"
    head = voice.say(key, series=voice.ordered_series(shell))
    return [marked(f"{strong(head)}: {safe(voice.say('specification.no-differences'))}")]
