"""The folder that the workshop reads when the desk is down: the sheets that are built by, and their list."""

from __future__ import annotations

from pathlib import Path

from app.services.floor import building, laying_out, sheeting
from app.store import folder
from tests.app.desk import Desk
from tests.app.test_building import INSPECTOR, LEAD, X, shells
from tests.app.test_confirming import LATER, confirmed_order
from tests.documents.reading import whole

URL = "https://desk.example"


def lay_out(desk: Desk, data: Path) -> tuple[str, ...]:
    return laying_out.lay_out(desk.store, LEAD, data, URL, LATER)


def laid(data: Path) -> list[str]:
    return sorted(path.name for path in (data / "current-sheets").iterdir())


def test_each_revision_takes_the_place_of_the_one_before_and_the_page_says_as_of_when(
    desk: Desk, tmp_path: Path
) -> None:
    first, second = shells(desk, confirmed_order(desk, count=2))
    for shell in (first, second):
        building.release(desk.store, LEAD, shell, LATER)
    assert lay_out(desk, tmp_path) == ("S-2026-00001-rev-1.pdf", "S-2026-00002-rev-1.pdf")
    page = (tmp_path / "current-sheets" / "index.html").read_text(encoding="utf-8")
    assert "As of 3 November 2026, 10:00" in page
    assert '<a href="S-2026-00001-rev-1.pdf">S-2026-00001</a>' in page
    assert "S3 · Roadster · Right hand · Home" in page
    sheeting.draw_again(desk.store, LEAD, first, "Two tags were swapped.", LATER)
    building.say(desk.store, INSPECTOR, second, X, "The sill is torn.", LATER)
    assert lay_out(desk, tmp_path) == ("S-2026-00001-rev-2.pdf",)
    assert laid(tmp_path) == ["S-2026-00001-rev-2.pdf", "index.html"]
    assert "REVISION 2" in whole((tmp_path / "current-sheets" / "S-2026-00001-rev-2.pdf").read_bytes())


def test_only_what_is_asked_for_is_drawn_and_what_is_not_laid_yet_is_said(desk: Desk, tmp_path: Path) -> None:
    first, second = shells(desk, confirmed_order(desk, count=2))
    for shell in (first, second):
        building.release(desk.store, LEAD, shell, LATER)
    laying_out.lay_out(desk.store, LEAD, tmp_path, URL, LATER, shell=second)
    assert laid(tmp_path) == ["S-2026-00002-rev-1.pdf", "index.html"]
    page = (tmp_path / "current-sheets" / "index.html").read_text(encoding="utf-8")
    assert "S-2026-00001<br>not laid here yet: print it from the desk" in page
    (tmp_path / "current-sheets" / "note.txt").write_text("The lead's own.", encoding="utf-8")
    folder.forget(tmp_path)
    assert laid(tmp_path) == ["note.txt"]
