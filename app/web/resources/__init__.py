"""One file per resource; every view declares what it does to what, then: load, ask, save, return."""

from app.web.resources import (
    advice,
    approvals,
    asking,
    books,
    chasing,
    countries,
    documents,
    drawing,
    enquiries,
    forthcoming,
    orders,
    proofs,
    quotations,
    rechecking,
    session,
    tools,
)

RESOURCES = (
    session.blp,
    books.blp,
    proofs.blp,
    tools.blp,
    asking.blp,
    countries.blp,
    advice.blp,
    drawing.blp,
    enquiries.blp,
    quotations.blp,
    approvals.blp,
    rechecking.blp,
    chasing.blp,
    forthcoming.blp,
    orders.blp,
    documents.blp,
)
