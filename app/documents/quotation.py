"""The quotation as a PDF. It lays out what `contents.QuotationPaper` carries and decides nothing."""

from __future__ import annotations

from app.documents.contents import QuotationPaper

__all__ = ["QuotationPaper", "quotation_pdf"]


def quotation_pdf(paper: QuotationPaper) -> bytes:
    """The paper as PDF bytes; identical input gives identical bytes."""
    raise NotImplementedError(paper.number)
