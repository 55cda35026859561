"""What a dealer reads of what is still to be done speaks to him: whom he waits for, and what he can do himself."""

from __future__ import annotations

import re
from string import Formatter

import pytest

from app.domain.despatch.despatch import DEALER_OWES, Keeps
from app.domain.orders.confirming import Lacking
from app.web.addressed import TO_DEALER
from app.wording import LANGUAGES, catalogue
from tests.web.conftest import Desk, Work

#: What only the office and the workshop do.
TO_THE_OFFICE = re.compile(
    r"write in|record the|ask the manager|have the inspector|on the order’s page|: plan it anew|tell the customer"
    r"|eintragen|aufnehmen|die Leitung fragen|auf der Seite des Auftrags|dem Kunden sagen",
    re.IGNORECASE,
)


def slots(text: str) -> set[str]:
    return {name for _, name, _, _ in Formatter().parse(text) if name}


@pytest.mark.parametrize("language", LANGUAGES)
def test_whatever_keeps_an_order_or_a_shell_is_said_to_a_dealer_in_his_own_sentence(language: str) -> None:
    said = catalogue(language)
    # That it is not ready asks nobody for anything.
    lacks = [f"fault.lacks-{one.value}" for one in Lacking]
    keeps = [f"fault.keeps-{one.value}" for one in Keeps if one is not Keeps.NOT_READY]
    wanted = [*lacks, *keeps, f"fault.{DEALER_OWES}", "promise.adrift", "promise.again-late"]
    assert [key for key in wanted if f"{key}{TO_DEALER}" not in said] == []


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_sentence_to_a_dealer_stands_beside_the_office_s_with_the_same_facts_and_sends_him_nowhere_of_the_office(
    language: str,
) -> None:
    said = catalogue(language)
    own = {key: text for key, text in said.items() if key.endswith(TO_DEALER)}
    assert len(own) >= 25
    for key, text in own.items():
        assert slots(text) <= slots(said[key.removesuffix(TO_DEALER)]), key
        assert TO_THE_OFFICE.search(text) is None, key


def test_the_dealer_and_the_office_read_of_the_same_shell_what_each_can_do(busy_desk: Desk, worked: Work) -> None:
    at = f"/api/orders/{worked.order}/leaving"
    office, own = (
        {keeps["what"]: keeps["says"] for keeps in busy_desk.signed_in(name).get(at).get_json()["shells"][0]["keeps"]}
        for name in ("imogen", "greta")
    )
    assert office.keys() == own.keys() >= {"not-billed", "not-packed"}
    assert office["not-billed"].endswith("write its invoice on the order’s page.")
    assert own["not-billed"].endswith("Unser Büro schickt Ihnen die Rechnung; vorher ist nichts zu zahlen.")
    assert all(TO_THE_OFFICE.search(said) is None for said in own.values())
