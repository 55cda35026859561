"""The page that lists the build sheets of a folder: plain, with no script, for any machine that can open a file.

It lays out what it is handed and decides nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from html import escape
from urllib.parse import quote

from app.documents.saying.voice import Voice

_COLUMNS = ("serial", "revision", "day", "shell", "order")


@dataclass(frozen=True, slots=True)
class Listed:
    """A sheet that is built by. `file` beside the page, "" where it has not been laid there.

    Where the shell is by now is not said: that moves on while the folder lies still.
    """

    serial: str
    revision: int
    day: date
    shell: str
    order: str
    file: str


def sheet_list_html(rows: Sequence[Listed], at: datetime, voice: Voice) -> str:
    """`at`: the moment by the firm's own clock."""
    dated = voice.say("wall.dated", day=voice.figures.day(at.date()), time=f"{at:%H:%M}")
    heads = "".join(f'<th scope="col">{name}</th>' for name in _heads(voice))
    none = f'<tr><td colspan="{len(_COLUMNS)}">{escape(voice.say("wall.none"))}</td></tr>'
    return _PAGE.format(
        language=voice.language,
        title=escape(voice.say("wall.title")),
        dated=escape(dated),
        lead=escape(voice.say("wall.lead")),
        heads=heads,
        rows="\n".join(_row(one, voice) for one in rows) or none,
    )


def _heads(voice: Voice) -> list[str]:
    return [escape(voice.say(f"wall.{key}")) for key in _COLUMNS]


def _row(one: Listed, voice: Voice) -> str:
    serial = escape(one.serial)
    link = f'<a href="{quote(one.file)}">{serial}</a>'
    told = (str(one.revision), voice.figures.day(one.day), one.shell, one.order)
    first = link if one.file else f"{serial}<br>{escape(voice.say('wall.missing'))}"
    cells = zip(_heads(voice), (first, *map(escape, told)), strict=True)
    return "<tr>" + "".join(f'<td data-of="{name}">{cell}</td>' for name, cell in cells) + "</tr>"


_PAGE = """<!doctype html>
<html lang="{language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<title>{title}</title>
<style>
body {{ font: 1.1rem/1.45 sans-serif; margin: 1.5rem; color: #111; background: #fff; }}
table {{ border-collapse: collapse; margin-top: 1rem; }}
th, td {{ border: 1px solid #555; padding: .4rem .7rem; text-align: left; vertical-align: baseline; }}
td:first-child {{ font-size: 1.3rem; font-weight: bold; }}
td:first-child, td:last-child {{ white-space: nowrap; }}
a {{ color: #00308f; display: inline-block; padding: .5rem 0; }}
@media (max-width: 45rem) {{
  body {{ margin: 1rem; }}
  thead {{ display: none; }}
  table, tbody, tr, td {{ display: block; border: 0; }}
  tr {{ border-top: 2px solid #555; padding: .5rem 0; }}
  td:first-child, td:last-child {{ white-space: normal; }}
  td {{ padding: .1rem 0; }}
  td[data-of]:not(:first-child)::before {{ content: attr(data-of) ": "; color: #444; }}
}}
</style>
</head>
<body>
<h1>{title}</h1>
<p><b>{dated}</b></p>
<p>{lead}</p>
<table>
<thead><tr>{heads}</tr></thead>
<tbody>
{rows}
</tbody>
</table>
</body>
</html>
"""
