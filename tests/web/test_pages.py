"""The page, its parts, and the headers that every answer carries."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from app.web.pages import hash_of, own_files, version_of
from tests.web.conftest import Desk
from tests.web.reader import Reader


@pytest.mark.parametrize("path", ["/", "/enquiries/7", "/quotations/Q-2026-00001", "/tools", "/book", "/q/some-code"])
def test_every_address_of_the_page_gives_the_page(desk: Desk, path: str) -> None:
    answer = desk.stranger().get(path)
    assert (answer.status_code, answer.mimetype) == (200, "text/html")


def test_every_page_that_the_front_end_draws_is_served_at_its_address(desk: Desk) -> None:
    routes = (desk.config.frontend / "state" / "route.js").read_text(encoding="utf-8")
    first = set(re.findall(r"/\^\\/([a-z-]+)", routes))
    assert {"orders", "approvals", "chasing", "quotations"} <= first
    for name in first:
        answer = desk.stranger().get(f"/{name}", Accept="text/html")
        assert (name, answer.status_code) == (name, 200)


def test_a_browser_at_an_unknown_address_gets_the_page_and_a_program_the_problem(desk: Desk) -> None:
    reader = desk.stranger()
    page = reader.get("/no-such-thing", Accept="text/html,*/*;q=0.8")
    assert (page.status_code, page.data) == (404, reader.get("/").data)
    for path in ("/no-such-thing", "/api/no-such-thing", "/static/no-such-thing"):
        accept = "application/json" if path == "/no-such-thing" else "text/html"
        answer = reader.get(path, Accept=accept)
        assert (answer.status_code, answer.mimetype) == (404, "application/problem+json"), path


def test_a_code_tells_a_stranger_nothing(desk: Desk) -> None:
    assert desk.stranger().get("/q/some-code").data == desk.stranger().get("/").data
    assert desk.stranger().get("/api/codes/some-code").status_code == 401


def test_everything_that_the_page_asks_for_is_there(desk: Desk) -> None:
    page = desk.stranger().get("/").text
    imports = json.loads(re.findall(r'<script type="importmap">(.*?)</script>', page, re.S)[0])["imports"]
    wanted = [*imports.values(), *re.findall(r'(?:href|src)="(/[^"]+)"', page)]
    assert len(wanted) > 100
    reader = desk.stranger()
    for path in wanted:
        answer = reader.get(path)
        assert answer.status_code == 200, path
        assert answer.headers["ETag"], path
        assert answer.mimetype in ("text/javascript", "text/css", "image/svg+xml", "font/ttf"), path


def test_every_font_that_the_styles_ask_for_is_there_and_lasts(desk: Desk) -> None:
    sheets = re.findall(r'href="(/static/app-[0-9a-f]{8}/styles/[^"]+\.css)"', desk.stranger().get("/").text)
    fonts = {font for sheet in sheets for font in re.findall(r'url\("([^"]+)"\)', desk.stranger().get(sheet).text)}
    assert fonts
    for font in fonts:
        answer = desk.stranger().get(font)
        assert (answer.status_code, answer.mimetype) == (200, "font/ttf"), font
        assert "immutable" in answer.headers["Cache-Control"]


def test_only_our_own_scripts_run_and_the_import_map_by_its_hash(desk: Desk) -> None:
    answer = desk.stranger().get("/")
    import_map = re.findall(r'<script type="importmap">(.*?)</script>', answer.text, re.S)[0]
    policy = answer.headers["Content-Security-Policy"]
    assert f"script-src 'self' '{hash_of(import_map)}';" in policy
    assert "default-src 'none'" in policy
    assert "frame-ancestors 'none'" in policy
    assert "unsafe" not in policy


def test_the_page_names_its_parts_by_a_version_under_which_they_last(desk: Desk) -> None:
    reader = desk.stranger()
    main = re.findall(r'src="(/static/app-[0-9a-f]{8}/main\.js)"', reader.get("/").text)[0]
    assert reader.get(main).headers["Cache-Control"] == "public, max-age=31536000, immutable"
    older = reader.get("/static/app-00000000/main.js")
    assert (older.status_code, older.headers["Cache-Control"]) == (200, "no-cache")


def test_any_change_of_a_file_makes_another_version(tmp_path: Path) -> None:
    (tmp_path / "node_modules").mkdir()
    (tmp_path / "node_modules" / "other.js").write_text("0")
    part = tmp_path / "part.js"
    part.write_text("1")
    assert own_files(tmp_path) == [part]
    first = version_of([part])
    part.write_text("22")
    assert version_of([part]) != first


def test_every_module_is_named_at_once_and_under_its_version(desk: Desk) -> None:
    page = desk.stranger().get("/").text
    assert re.search(r'<link rel="modulepreload" href="/static/app-[0-9a-f]{8}/pages/[a-z-]+\.js">', page)
    assert '"/static/app/' not in page


def test_a_known_module_is_not_sent_again(desk: Desk) -> None:
    first = desk.stranger().get("/static/app/main.js")
    assert first.headers["Cache-Control"] == "no-cache"
    again = desk.stranger().get("/static/app/main.js", If_None_Match=first.headers["ETag"])
    assert (again.status_code, again.data) == (304, b"")


@pytest.mark.parametrize(
    "path",
    [
        "/static/app/../app/config.py",
        "/static/app/%2e%2e/app/config.py",
        "/static/app/node_modules/preact/package.json",
        "/static/app/.npmrc",
        "/static/lib/.package-lock.json",
        "/static/lib/preact/../../index.html",
        "/static/lib/preact/README.md",
        "/static/app/index.html",
    ],
)
def test_nothing_else_is_served(desk: Desk, path: str) -> None:
    assert desk.stranger().get(path).status_code == 404


def test_every_answer_carries_the_guarding_headers(desk: Desk, clerk: Reader) -> None:
    for answer in (desk.stranger().get("/"), desk.stranger().get("/static/app/api.js")):
        assert answer.headers["X-Content-Type-Options"] == "nosniff"
        assert answer.headers["Referrer-Policy"] == "same-origin"
        assert answer.headers["X-Frame-Options"] == "DENY"
        assert answer.headers["Content-Security-Policy"].startswith("default-src 'none'; script-src 'self'")


def test_data_is_shown_run_and_framed_by_nobody(clerk: Reader) -> None:
    """As the OWASP REST Security Cheat Sheet asks of what is no page (from memory)."""
    for answer in (clerk.get("/api/session"), clerk.get("/api/nothing"), clerk.post("/api/usual", 1)):
        assert answer.headers["X-Content-Type-Options"] == "nosniff"
        assert answer.headers["Cross-Origin-Resource-Policy"] == "same-origin"
        assert answer.headers["Content-Security-Policy"] == "default-src 'none'; frame-ancestors 'none'"


def test_what_the_api_says_is_kept_by_nobody(clerk: Reader) -> None:
    for path in ("/api/session", "/api/enquiries", "/api/books/current", "/api/nothing"):
        assert clerk.get(path).headers["Cache-Control"] == "no-store"


def test_a_paper_may_be_looked_at_inside_our_own_page_alone(clerk: Reader) -> None:
    number = clerk.quotation()
    answer = clerk.get(f"/api/quotations/{number}/revisions/A/paper")
    assert answer.headers["X-Frame-Options"] == "SAMEORIGIN"
    assert "frame-ancestors 'self'" in answer.headers["Content-Security-Policy"]
    assert answer.headers["Cache-Control"] == "no-store"


def test_the_type_of_a_problem_can_be_read(desk: Desk) -> None:
    answer = desk.stranger().get("/problems/frozen", Accept_Language="de")
    assert answer.text.startswith("Ausgestellt, bleibt also so")
    assert desk.stranger().get("/problems/no-such").status_code == 404
