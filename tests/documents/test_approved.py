"""What the paper says of an approval that was given before it went out."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from io import BytesIO

from pypdf import PdfReader

from app.documents.contents import QuotationPaper
from app.documents.quotation.quotation import quotation_pdf
from app.domain.quotations.quotation import Approved
from tests.documents.orders import can, quotation, shell

GIVEN = Approved("A4", "Piers Adeyemi", date(2026, 11, 4), "Clears the irons by 9 mm.")


def words(paper: QuotationPaper) -> str:
    first = PdfReader(BytesIO(quotation_pdf(paper))).pages[0]
    return " ".join(first.extract_text().split())


def shallow() -> QuotationPaper:
    """A3 and A4 are needed."""
    return quotation(shell(can(**{"wheel-well": "shallow", "belts": "front"})))


def test_an_approval_that_is_not_given_is_named_with_its_reason() -> None:
    page = words(shallow())
    assert page.count("A named manager has approved it.") == 2
    assert "Piers Adeyemi" not in page


def test_one_that_is_given_says_by_whom_when_and_why() -> None:
    paper = shallow()
    page = words(replace(paper, shells=(replace(paper.shells[0], approved=(GIVEN,)),)))
    assert "Approved on 4 November 2026 by Piers Adeyemi: “Clears the irons by 9 mm.”" in page
    assert page.count("A named manager has approved it.") == 1
