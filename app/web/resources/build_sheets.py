"""Build sheets: what the workshop builds each shell of an order by. No amount is on them."""

from __future__ import annotations

from typing import Any

from app.domain.asking.people import Action, Sort
from app.services.floor import sheeting
from app.services.floor.sheeting import Scanned, SheetRow
from app.web import here
from app.web.blueprint import resource
from app.web.files import PDF, pdf
from app.web.guard import does, for_anybody
from app.web.schemas.build_sheets import BuildSheetIn, BuildSheetsOut, ScannedOut, SheetCodeOut
from app.wording import say

SHEET = "/orders/<string(maxlength=40):number>/build-sheets/<int(max=9999):line>/<int(max=9999):piece>"

blp = resource("build-sheets", "What each shell of an order is built by, for workshop and office; no amount is in it.")


@blp.route("/quotations/<string(maxlength=40):number>/build-sheets", methods=["GET"])
@does(Action.READ, Sort.BUILD_SHEET)
@blp.response(200, BuildSheetsOut)
def build_sheets(number: str) -> Any:
    """The shells of the order that this quotation became, each with its sheet."""
    found = sheeting.sheets_of(here.store(), here.me(), number, here.now())
    rows = [_row(row) for row in found.rows]
    return {"order": found.order, "revision": found.revision, "languages": found.languages, "sheets": rows}


@blp.route(SHEET, methods=["GET"])
@does(Action.READ, Sort.BUILD_SHEET)
@blp.arguments(BuildSheetIn, location="query")
@blp.response(200, **PDF)
def build_sheet(query: dict[str, str], number: str, line: int, piece: int) -> Any:
    """The sheet of one shell as PDF; of a planned one it says that nobody builds from it."""
    how = (query["language"], query["size"])
    url = here.parts().config.url
    content = sheeting.build_sheet(here.store(), here.me(), number, (line, piece), how, here.now(), url=url)
    return pdf(content, "build-sheet", number, f"{line}.{piece}", query["size"])


@blp.route("/sheet-codes/<string(maxlength=80):code>", methods=["GET"])
@for_anybody
@blp.response(200, SheetCodeOut)
def sheet_code(code: str) -> Any:
    """Whether the sheet that bears this code still holds. Said to anybody who has it in hand, and nothing more."""
    return {"current": sheeting.still_current(here.store(), code)}


@blp.route("/sheet-codes/<string(maxlength=80):code>/sheet", methods=["GET"])
@does(Action.READ, Sort.BUILD_SHEET)
@blp.response(200, ScannedOut)
def scanned_sheet(code: str) -> Any:
    """The sheet that bears this code beside the one that is built by now: what to fetch, and what changed."""
    return _scanned(sheeting.scanned(here.store(), here.me(), code, here.now()))


def _scanned(found: Scanned) -> dict[str, Any]:
    language = here.language()
    changed = [found.book.option(option).label.get(language, option) for option in found.changed]
    sheet = found.sheet
    told = {"serial": found.serial, "revision": found.revision, "fetch": None if sheet is None else sheet.revision}
    path = f"/api/orders/{found.number}/build-sheets/{found.line}/{found.piece}" if found.line else None
    return {"current": found.current, **told, "changed": changed, "sheet": path, "says": _says(found, changed)}


def _says(found: Scanned, changed: list[str]) -> str:
    """What whoever holds the sheet does next."""
    if found.current:
        return say("scanned.current", here.language())
    if found.sheet is None:
        return say("scanned.gone", here.language())
    key = "scanned.changed" if changed else "scanned.old"
    return say(key, here.language(), revision=found.sheet.revision, changed=", ".join(changed), why=found.sheet.why)


def _row(row: SheetRow) -> dict[str, Any]:
    return {
        "line": row.line,
        "piece": row.piece,
        "serial": row.shell.serial,
        "state": row.shell.state.value,
        "sheet": None if row.shell.sheet is None else row.shell.sheet.revision,
        "settled": row.frozen.settled,
    }
