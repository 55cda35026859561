from __future__ import annotations

from pathlib import Path

from app.domain.quotation import Standing
from app.services import enquiring, quoting, tools
from app.store.db import Store
from demo.loading import LOST, load
from rules.model import ToolCondition
from tests.app.desk import BAYOU, CLERK, LINDENHOF, NOW


def test_the_demo_firm_has_work_in_hand_counted_back_from_the_day_of_loading(tmp_path: Path) -> None:
    store = Store(tmp_path / "desk.sqlite3")
    load(store, NOW)
    rows = quoting.quotations(store, CLERK, NOW)
    assert [(row.letter, row.standing) for row in rows] == [
        ("A", Standing.DRAFT),
        ("A", Standing.ISSUED),
        ("B", Standing.ISSUED),  # A is out, B is being written
        ("A", Standing.ISSUED),
    ]
    assert len(enquiring.find_enquiries(store, CLERK)) == 5
    assert [row.dealer for row in quoting.quotations(store, LINDENHOF, NOW)] == ["lindenhof"]
    assert [row.dealer for row in quoting.quotations(store, BAYOU, NOW)] == ["bayou-road"]
    assert set(tools.tool_states(store).conditions()) == set(LOST)
    assert all(state.state is ToolCondition.LOST for state in tools.tool_states(store).states.values())
