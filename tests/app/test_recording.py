"""The inspection record: every reading beside its limit, what was not read, what was conceded, who signed."""

from __future__ import annotations

from datetime import timedelta

from app.domain.inspection.inspection import Verdict
from app.services.inspection import overcoating, recording
from rules.inspection.subject import Phase
from tests.app import inspected
from tests.app.desk import Desk
from tests.app.test_building import INSPECTOR, serial_of
from tests.app.test_building import workshop as workshop
from tests.app.test_confirming import LATER
from tests.app.test_inspecting import SOON, at_inspection, concede, decide
from tests.documents.reading import characters_outside, pages, reach, whole

DOOR = {"gap:df-top-left": "3.6", "gap:df-bottom-left": "4.7", "gap:df-top-right": "4.6", "gap:df-bottom-right": "4.6"}


def paper(desk: Desk, shell: int, language: str = "en", size: str = "a4") -> bytes:
    return recording.record(desk.store, INSPECTOR, shell, (language, size), SOON + timedelta(minutes=5))


def test_a_record_says_what_was_read_what_was_not_and_who_let_it_pass(workshop: Desk) -> None:
    shell = at_inspection(workshop)
    inspected.read_all(workshop.store, shell, LATER, but=DOOR, without=("surface",))
    half = whole(paper(workshop, shell))
    assert "NOT PASSED" in half
    assert half.index("Body: Roadster") < half.index("Belt anchorages: As original")  # as the build sheet has them
    assert "Surface sound, fit for paint has to be so not read" in half
    assert "Door to front wing, 1 to 3: taper 1.1 mm, at most 1.0 mm" in half
    # nugget, spacing and overlap of 0.9 on 1.0: √0.9 and the row of 1.02
    assert "Left rear wing Idris Vale ✓ 46 46 ✓ 3.795 mm at least 3.320, aim 3.795 mm" in half

    inspected.read(workshop.store, shell, {"surface": "yes"}, LATER)
    concede(workshop, shell, "gap:door-front")
    decide(workshop, shell, Verdict.CONCESSION, why="Evened out in paint.")
    inspected.read_all(workshop.store, shell, SOON, Phase.COATED)
    overcoating.primed(workshop.store, INSPECTOR, shell, SOON.date(), SOON)
    made = paper(workshop, shell, "de", "letter")
    told = whole(made)
    assert "NICHT BESTANDEN" not in told
    assert "Im Metall: BESTANDEN MIT SONDERFREIGABE Unterschrieben: Oona Reyes, 3. November 2026" in told
    assert "Erbeten von Oona Reyes. Erteilt von piers, 3. November 2026: Looked at it." in told
    assert "Tür zu vorderem Kotflügel, links, oben ✓ 3,6 mm 3,5 bis 5,5 mm" in told
    assert "Grundiert am 3. November 2026. Zu überlackieren bis 2. Januar 2027." in told
    assert "Scharfe Kanten: Tragen Sie Handschuhe" in told
    assert all(serial_of(workshop, shell) in page for page in pages(made))
    assert characters_outside(made, 18) == []
    assert reach(made, -1) > 0.4
