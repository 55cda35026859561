"""What is proved of a book, its standard shells and the comparison of two books, as the office has them.

Counts and prices are the scenario's (50 496 structures, 12 674 092 032 variants; S1 fails by N1 alone); what the
engine proves is checked in tests/rules, here what becomes of it.
"""

from __future__ import annotations

import csv
from io import StringIO
from threading import Event

import pytest

from app.domain.errors import BeingWorkedOut
from app.services.books import proving, publishing
from demo.loading import BOOK, PIERS
from rules.proof import prove
from rules.specification import Donor
from tests.web.conftest import Desk
from tests.web.reader import Reader

DEAR = BOOK.read_text(encoding="utf-8")


def publish(desk: Desk, text: str) -> int:
    desk.clock.pass_seconds(60)
    return publishing.publish_book(desk.store, PIERS, text, desk.clock())


def without_the_folding_roof_dearer() -> str:
    """Two hundred pounds more for the roadster, and no folding roof on the large window."""
    rule = (
        "\nrule X1\n  never: roof is folding and rear-window is large\n  title en: No folding roof\n"
        "  title de: Kein Faltdach\n  reason en: It leaked.\n  reason de: Es war undicht.\n\n"
    )
    assert "| roadster | Roadster | Roadster | 11 850 |" in DEAR
    dear = DEAR.replace("| roadster | Roadster | Roadster | 11 850 |", "| roadster | Roadster | Roadster | 12 050 |")
    return dear.replace("\nrule N2\n", f"{rule}rule N2\n", 1)


def test_the_clerk_reads_that_the_book_is_sound_and_what_is_worth_knowing(clerk: Reader) -> None:
    proof = clerk.get("/api/books/1/proof").get_json()
    assert (proof["sound"], proof["count"], proof["outright"]) == (True, "12674092032", "81572400")
    assert proof["variants"] == "50496"
    assert proof["sentence"].startswith("The book is sound")
    assert [finding["sort"] for finding in proof["findings"] if finding["fault"]] == []
    broken = [finding for finding in proof["findings"] if finding["sort"] == "broken"]
    assert len(broken) == 8
    assert {tuple(map(tuple, finding["causes"])) for finding in broken} == {(("N1",),)}
    assert (
        broken[0]["sentence"] == "The usual S1 · Home · Roadster can’t be built. What forbids it: N1 “Vented scuttle”."
    )
    assert {finding["witness"]["series"] for finding in broken} == {"s1"}


def test_counts_by_series_market_and_body_add_up(clerk: Reader) -> None:
    counts = clerk.get("/api/books/1/proof").get_json()["counts"]
    for option in ("series", "market", "body"):
        assert sum(int(one["count"]) for one in counts if one["option"] == option) == 12674092032


def test_findings_are_in_the_readers_language(clerk: Reader) -> None:
    proof = clerk.get("/api/books/1/proof?language=de").get_json()
    assert proof["sentence"].startswith("Das Buch ist in Ordnung")
    assert any("„Lieferung: frei Haus, Südafrika“" in finding["sentence"] for finding in proof["findings"])


def test_a_tool_that_is_lost_makes_its_choices_a_fault_at_once(desk: Desk) -> None:
    manager = desk.signed_in("piers")
    assert manager.get("/api/books/1/proof").get_json()["sound"]
    etag = manager.get("/api/tools").headers["ETag"]
    lost = {"state": "lost", "note": "Stolen."}
    assert manager.put("/api/tools/four-link-tool", lost, If_Match=etag).status_code == 200
    proof = manager.get("/api/books/1/proof").get_json()
    dead = [finding["about"] for finding in proof["findings"] if finding["fault"]]
    assert dead == [{"option": "suspension", "choice": "four-link"}, {"option": "bonnet", "choice": "raised"}]
    assert proof["sentence"] == "The book has 2 faults. They should be mended before the book is published."


def test_standard_shells_are_twenty_four_of_any_car_with_their_prices(clerk: Reader) -> None:
    listed = clerk.get("/api/books/1/standard-shells").get_json()
    plain = [shell for shell in listed["shells"] if shell["donor"] is None]
    assert len(plain) == 24
    prices = {tuple(shell["keys"].values()): shell["prices"] for shell in plain}
    assert prices["s2", "home", "coupe"] == {"GBP": 1350000, "EUR": 1616500, "USD": 1810000}
    small = [
        shell for shell in listed["shells"] if shell["donor"] and shell["donor"]["label"] == "a car such as T2-06200"
    ]
    assert {tuple(shell["needs"]) for shell in small} == {("P4",)}
    assert {tuple(shell["causes"]) for shell in listed["broken"]} == {("N1",)}


def test_no_amount_is_told_while_prices_are_hidden(clerk: Reader) -> None:
    clerk.patch("/api/session", {"prices_shown": False})
    listed = clerk.get("/api/books/1/standard-shells").get_json()
    assert {amount for shell in listed["shells"] for amount in shell["prices"].values()} == {None}
    for form in ("csv", "pdf"):
        refused = clerk.get(f"/api/books/1/standard-shells.{form}")
        assert (refused.status_code, refused.get_json()["type"]) == (403, "/problems/prices-hidden")


def test_the_csv_has_a_row_for_each_shell_on_each_list(clerk: Reader) -> None:
    answer = clerk.get("/api/books/1/standard-shells.csv?language=de")
    assert answer.headers["Content-Type"].startswith("text/csv; charset=utf-8")
    assert not answer.data.startswith(b"\xef\xbb\xbf")
    rows = list(csv.DictReader(StringIO(answer.data.decode(), newline="")))
    assert len({row["shell"] for row in rows}) * 3 == len(rows)
    (one,) = [
        row
        for row in rows
        if (row["series"], row["market"], row["body"], row["currency"]) == ("s2", "europe", "coupe", "EUR")
        and (row["donor_number"], row["donor_gearbox"]) == ("", "")
    ]
    assert (one["market_label"], one["price_from"], one["steering"], one["needs"]) == ("Europa", "16165.00", "left", "")


def test_the_paper_is_a_pdf_the_same_each_time(clerk: Reader) -> None:
    paper = clerk.get("/api/books/1/standard-shells.pdf?language=de")
    assert (paper.status_code, paper.headers["Content-Type"]) == (200, "application/pdf")
    assert paper.data.startswith(b"%PDF")
    assert clerk.get("/api/books/1/standard-shells.pdf?language=de").data == paper.data


def test_two_books_are_held_against_each_other(desk: Desk) -> None:
    number = publish(desk, without_the_folding_roof_dearer())
    manager = desk.signed_in("piers")
    books = manager.get("/api/books").get_json()
    assert ([book["number"] for book in books["books"]], books["current"]) == ([2, 1], 2)
    found = manager.get(f"/api/books/{number}/against/1").get_json()
    # Scenario: 11 856 structures have the folding roof. N9 forbids it the small window, so a coupé has the large.
    assert (found["structure"]["old"], found["structure"]["lost"], found["structure"]["gained"]) == (
        "50496",
        "11856",
        "0",
    )
    assert found["structure"]["lost_examples"][0]["roof"] == "folding"
    assert {
        "option": "roof",
        "choice": "folding",
        "label": "Roof opening: Folding",
        "lost": "11856",
        "gained": "0",
    } in (found["structure"]["choices"])
    assert [(moved["line"], moved["list"], moved["was"], moved["now"]) for moved in found["prices"]] == [
        ("body.roadster", "GBP", 1185000, 1205000)
    ]
    assert found["sentences"][1] == "Of 50,496 structures 11,856 are lost and 0 are gained: 38,640 can be built."


def test_the_other_way_round_what_was_lost_is_gained(desk: Desk) -> None:
    number = publish(desk, without_the_folding_roof_dearer())
    found = desk.signed_in("piers").get(f"/api/books/1/against/{number}?language=de").get_json()
    assert (found["structure"]["lost"], found["structure"]["gained"]) == ("0", "11856")
    assert found["sentences"][-1] == "Ein Betrag auf den Preislisten hat sich geändert."


def test_a_book_that_is_not_there_is_not_found(clerk: Reader) -> None:
    for path in ("/api/books/7/proof", "/api/books/7/standard-shells.csv", "/api/books/1/against/7"):
        assert clerk.get(path).status_code == 404


@pytest.mark.parametrize("name", ["greta", "tomasz"])
def test_nobody_else_reads_it(desk: Desk, name: str) -> None:
    assert desk.signed_in(name).get("/api/books/1/proof").status_code == 403


def test_who_asks_while_it_is_worked_out_is_told_when_to_ask_again(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    """The proof is held up by hand; nothing else of the desk waits for it, and what comes of it is kept."""
    go_on, real, made = Event(), prove, []

    def slowly(*args: object, **kwargs: object) -> object:
        made.append(1)
        assert go_on.wait(20)
        return real(*args, **kwargs)  # type: ignore[arg-type]

    monkeypatch.setattr("app.services.books.proving.prove", slowly)
    with pytest.raises(BeingWorkedOut):
        proving.proved(desk.store, 1, patience=0.05)
    clerk = desk.signed_in("imogen")
    assert clerk.post("/api/answers", {"specification": {}}).status_code == 200
    assert clerk.enquiry()["id"]
    go_on.set()
    assert proving.proved(desk.store, 1, patience=20).proof.standard[0].donor == Donor()
    assert clerk.get("/api/books/1/proof").status_code == 200
    assert made == [1]


def test_the_problem_says_after_how_many_seconds(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    def busy(*args: object) -> None:
        raise BeingWorkedOut(seconds=proving.AGAIN)

    monkeypatch.setattr(proving, "_had", busy)
    answer = desk.signed_in("imogen").get("/api/books/1/proof")
    assert (answer.status_code, answer.headers["Retry-After"]) == (409, "2")
    assert answer.get_json()["type"] == "/problems/being-worked-out"
    assert answer.get_json()["repair"] == "Ask again in 2 seconds."
