"""Which countries a form offers, in whose words and order."""

from __future__ import annotations

from tests.web.conftest import Desk
from tests.web.reader import Reader


def listed(reader: Reader) -> list[tuple[str, str, bool]]:
    answer = reader.get("/api/countries")
    assert answer.status_code == 200
    return [(row["code"], row["name"], row["usual"]) for row in answer.get_json()["countries"]]


def test_the_firms_usual_countries_come_first(desk: Desk) -> None:
    usual = [(code, name) for code, name, often in listed(desk.signed_in("imogen")) if often]
    assert usual == [("GB", "United Kingdom"), ("DE", "Germany"), ("US", "United States"), ("ZA", "South Africa")]


def test_a_dealer_finds_his_own_country_first_in_his_language(desk: Desk) -> None:
    named = listed(desk.signed_in("greta"))
    assert named[:2] == [("DE", "Deutschland", True), ("GB", "Vereinigtes Königreich", True)]
    rest = [name for _, name, often in named if not often]
    # Accented letters stand beside their plain ones (DIN 5007-1).
    assert rest.index("Afghanistan") < rest.index("Ägypten") < rest.index("Albanien")


def test_every_country_that_the_desk_accepts_is_offered_once(desk: Desk) -> None:
    # 249 officially assigned codes: ISO 3166-1, https://www.iso.org/iso-3166-country-codes.html
    codes = [code for code, _, _ in listed(desk.signed_in("imogen"))]
    assert len(codes) == len(set(codes)) == 249
