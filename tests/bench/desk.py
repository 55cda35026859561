"""The rows of the desk: an answer over HTTP against a bare route, a paper against the same words set bare."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import cache
from io import BytesIO
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter, process_time
from typing import Any, TypeVar

import pypdfium2
import requests
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from app.commands.serving import THREADS
from app.documents.quotation.quotation import quotation_pdf
from app.documents.typesetting import fonts
from tests.bench.bare import GIVE, KEEP, bare, behind_the_gate, served
from tests.bench.engine import SEED, demo, walk
from tests.bench.rows import Row
from tests.documents.orders import quotation, shell
from tests.rules.demo_book import whole
from tests.support.product import running_product

T = TypeVar("T")

#: Answers given to each server in a round, and rounds; the two take turns.
ROUND, ROUNDS = 60, 5
#: What an answer is held against.
NOTES = {"http_check": "a bare route", "http_check_gated": "a route behind the same sign-in, gate and schema"}
#: A shell that can be built, with something of everything.
CHOSEN = {
    "series": "s3",
    "market": "home",
    "body": "roadster",
    "finish": "painted",
    "scope": "outside",
    "primer": "epoxy-and-filler",
    "colour": "moss",
    "delivery": "van",
}


def http_check(size: int = ROUND, rounds: int = ROUNDS) -> Iterator[Row]:
    """Answers a second, signed in; both yardsticks give back the same bytes.

    Each specification is asked about for the first time at a desk that has been in use: what it remembers of causes
    is what other questions left there.
    """
    with TemporaryDirectory() as folder, running_product(Path(folder) / "data") as product:
        session, headers = _signed_in(product.url, product.passwords["imogen"])
        used, *asked = (_walked(SEED + number, size) for number in range(rounds + 1))
        _throughput(session, f"{product.url}/api/answers", headers, used)
        with served(bare) as plain, served(behind_the_gate, product.data, product.url, product.now) as gated:
            rates = [_rates(session, headers, product.url, (plain, gated), part, at) for at, part in enumerate(asked)]
    ours, *theirs = (median(column) for column in zip(*rates, strict=True))
    for name, reference in zip(("http_check", "http_check_gated"), theirs, strict=True):
        note = f"one reader; {THREADS} threads; ratio: ours ÷ {NOTES[name]}"
        yield Row(name, round(ours, 1), "per second", round(reference, 1), round(ours / reference, 3), note)


def _rates(
    session: requests.Session,
    headers: dict[str, str],
    url: str,
    yardsticks: Sequence[str],
    asked: Sequence[dict[str, Any]],
    round_: int,
) -> list[float]:
    """Ours and each yardstick's, which are handed the answers first."""
    ours, told = _throughput(session, f"{url}/api/answers", headers, asked)
    rates = [ours]
    for yardstick in yardsticks:
        for answer in told:
            session.put(yardstick + KEEP, data=answer).raise_for_status()
        rate, same = _throughput(session, yardstick + GIVE, headers, asked, round_ * len(asked))
        assert same == told
        rates.append(rate)
    return rates


def _signed_in(url: str, password: str) -> tuple[requests.Session, dict[str, str]]:
    session = requests.Session()
    entry = {"name": "imogen", "password": password}
    answer = session.post(f"{url}/api/session", json=entry, headers={"Origin": url})
    answer.raise_for_status()
    return session, {"X-Forgery-Token": answer.json()["forgery_token"], "Origin": url}


def _walked(seed: int, size: int) -> list[dict[str, Any]]:
    return [_body(made) for made in walk(whole(), demo(), seed, size)]


def _body(made: dict[str, str]) -> dict[str, Any]:
    return {
        "specification": {option: {"choice": choice, "origin": "chosen"} for option, choice in made.items()},
        "donor": {"series": None, "number": None, "gearbox": None},
    }


def _throughput(
    session: requests.Session, url: str, headers: dict[str, str], asked: Sequence[dict[str, Any]], first: int = 0
) -> tuple[float, list[bytes]]:
    """Answers a second, and the answers."""
    began, told = perf_counter(), list[bytes]()
    for place, body in enumerate(asked, first):
        answer = session.post(url, json=body, headers={**headers, "X-Place": str(place)})
        answer.raise_for_status()
        told.append(answer.content)
    return len(asked) / (perf_counter() - began), told


def pdf_quotation(count: int = 40) -> Iterator[Row]:
    """The demo's quotation of one shell against reportlab drawing the same words in the same faces on as many pages.

    Of processor time: nothing is waited for, and what else goes on is not the paper's.
    """
    paper = quotation(shell(CHOSEN))
    pages = words_of(quotation_pdf(paper))
    ours, theirs = list[float](), list[float]()
    for _ in range(count):
        ours.append(_spent(quotation_pdf, paper))
        theirs.append(_spent(set_bare, pages))
    value, reference = median(ours), median(theirs)
    note = f"{len(pages)} pages; of processor time; ratio: ours ÷ bare"
    yield Row("pdf_quotation", round(value, 2), "ms", round(reference, 2), round(value / reference, 2), note)


def _spent(work: Callable[[T], object], given: T) -> float:
    """Milliseconds of processor time."""
    began = process_time()
    work(given)
    return (process_time() - began) * 1000


def words_of(pdf: bytes) -> list[list[str]]:
    """Of each page, line by line."""
    document = pypdfium2.PdfDocument(pdf)
    return [page.get_textpage().get_text_range().splitlines() for page in document]


def set_bare(pages: Sequence[Sequence[str]]) -> bytes:
    """Line by line, the faces taking turns so that each is embedded."""
    written = BytesIO()
    canvas = Canvas(written, pageCompression=1)
    text, bold = _bare_faces()
    faces = (text, text, bold)
    for lines in pages:
        for place, line in enumerate(lines):
            canvas.setFont(faces[place % len(faces)], 9)
            canvas.drawString(40, 800 - place * 9, line)
        canvas.showPage()
    canvas.save()
    return written.getvalue()


@cache
def _bare_faces() -> tuple[str, ...]:
    """The two that a quotation is set in, as the library itself reads them."""
    named = {f"Bare-{face}": str(fonts.FOLDER / fonts.FILES[face]) for face in (fonts.TEXT, fonts.BOLD)}
    for name, file in named.items():
        pdfmetrics.registerFont(TTFont(name, file))
    return tuple(named)
