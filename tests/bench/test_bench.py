"""The measuring itself, with next to nothing asked: the rows are there, and answers agree with the yardstick's."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from functools import partial
from pathlib import Path

import pytest

from app.documents.quotation.quotation import quotation_pdf
from app.store.folder import DATABASE
from tests.bench import dates, desk, engine, growth, outlook
from tests.bench.__main__ import main, measured
from tests.bench.engine import Effort
from tests.bench.filled import filled
from tests.bench.rows import Row, rows_of
from tests.documents.orders import quotation, shell
from tests.documents.reading import fonts, pages

LITTLE = Effort(ours=3, theirs=2)


def test_every_row_of_the_engine_has_a_yardstick_but_the_counts_and_the_search() -> None:
    rows = [*engine.full_answer(LITTLE), *engine.growth(LITTLE, (1,)), *engine.compiling(LITTLE)]
    rows += [*engine.explaining(Effort(3, 8)), *engine.alternatives(LITTLE), *engine.comparing(Effort(3, 12))]
    rows += engine.rechecking(LITTLE, stored=40, sample=20)
    bare = {row.name for row in rows if row.reference is None}
    assert bare == {"nodes_growth_1", "compile_order_searched", "compile_order_searched_p95"}
    assert {"full_answer", "full_answer_growth_1", "compile", "reason", "all_reasons", "alternatives"} < {
        row.name for row in rows
    }
    assert {"compare_books", "recheck"} < {row.name for row in rows}


def test_a_paper_is_measured_against_the_same_words_set_bare() -> None:
    (row,) = desk.pdf_quotation(count=1)
    assert row.name == "pdf_quotation"
    assert row.ratio == pytest.approx(row.value / (row.reference or 0), rel=0.01), "both figures are rounded for print"


def test_the_paper_that_is_timed_has_a_price_and_the_bare_one_its_words_its_faces_and_its_pages() -> None:
    paper = quotation(shell(desk.CHOSEN))
    assert paper.totals is not None
    ours = quotation_pdf(paper)
    theirs = desk.set_bare(desk.words_of(ours))
    assert [page.split() for page in pages(theirs)] == [page.split() for page in pages(ours)]
    assert _embedded(theirs) == _embedded(ours)


def _embedded(data: bytes) -> set[str]:
    return {face for face, embedded in fonts(data).items() if embedded}


def test_a_promise_is_measured_with_few_orders_and_with_many() -> None:
    (row,) = dates.growth(few=100, many=300, repeats=1)
    assert row.name == "promise_growth"
    assert row.ratio == pytest.approx((row.reference or 0) / row.value, abs=0.01), "both figures are rounded for print"


def test_every_list_search_and_page_is_asked_of_a_desk_with_few_and_of_one_with_many(
    loaded: Path, tmp_path: Path
) -> None:
    """Of the same desk on both sides, which is filled once: what is looked at is that all of it can be asked."""
    make = partial(filled, kept=tmp_path, a_page=2, demo=loaded / DATABASE)
    rows = list(growth.growth(few=30, many=30, repeats=1, make=make))
    assert [row.name for row in rows] == [question.row for question in growth.QUESTIONS]
    assert all(row.value > 0 and row.name.startswith("store_growth_") for row in rows)
    with closing(sqlite3.connect(make(30))) as db:
        assert db.execute("PRAGMA foreign_key_check").fetchall() == []
        (quotations,) = db.execute("SELECT count(*) FROM quotations").fetchone()
        assert quotations > 30
        assert (quotations - 30) % 2 == 0, "and what fills a page of each list in every desk"


def test_rows_are_measured_by_name_and_one_that_is_none_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    (row,) = measured(["pdf_quotation"])
    assert row.name == "pdf_quotation"
    with pytest.raises(SystemExit):
        main(["store_growth_requessts"])
    assert "No row begins with store_growth_requessts. There are: full_answer" in capsys.readouterr().err


def test_what_a_width_of_promise_keeps_is_counted_for_each_load() -> None:
    rows = list(outlook.outlook(years=2))
    assert [row.name for row in rows] == ["outlook_85", "outlook_90", "outlook_95", "outlook"]
    assert all(50 < row.value <= 100 for row in rows[:3])


def test_a_row_gives_the_middle_and_the_slow_end() -> None:
    middle, slow = rows_of("x", [1.0, 2.0, 9.0], [4.0, 8.0, 12.0])
    assert middle == Row("x", 2.0, "ms", 8.0, 4.0)
    assert slow.name == "x_p95"
    assert slow.value > 2.0
    assert middle.data() == {"name": "x", "value": 2.0, "unit": "ms", "reference": 8.0, "ratio": 4.0}
