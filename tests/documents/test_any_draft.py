"""Whatever has been typed so far, a paper comes out, and nothing on it lies outside its border."""

from __future__ import annotations

from dataclasses import dataclass, replace

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from app.documents.contents import Customer, Delivery, DonorCar, Evidence, Firm, QuotationPaper, Sheet, ShellLine
from app.documents.quotation.quotation import quotation_pdf
from app.documents.typesetting.fonts import MISSING
from app.documents.typesetting.stationery import EDGE
from rules.specification import Specification, Taken
from tests.documents.orders import UNKNOWN, book, can, line_of, shell, small_window
from tests.documents.reading import characters_outside, faults, whole

#: What is typed or pasted: letters of many scripts, right-to-left ones, emoji, controls, words without end.
_ODD = st.one_of(
    st.text(max_size=40),
    st.text(alphabet="שלוםمرحبا \u202e\u200f", max_size=30),
    st.text(alphabet="👩‍🔧🚗e\u0301\ufe0f", max_size=12),
    st.sampled_from(("W" * 1000, "<b>&amp;</para>", "a\x00\x0b\x85\u2028b", "\r\n\t", "%s {0} {page}", "\ud800")),
)
_LINES = st.lists(_ODD, max_size=8).map(tuple) | st.just(("Old Sidings",) * 300)
_OPTIONS = st.dictionaries(
    st.sampled_from(("suspension", "bonnet", "finish", "delivery", "rear-window", "roof", "own-doors", "packing")),
    st.integers(0, 4),
    max_size=5,
)


#: No shrinking: a paper takes too long to print it hundreds of times; the seed is printed.
_PHASES = (Phase.explicit, Phase.reuse, Phase.generate)


def _chosen(picks: dict[str, int]) -> dict[str, str]:
    options = {option: [choice.id for choice in book().option(option).choices] for option in picks}
    return {option: options[option][at % len(options[option])] for option, at in picks.items()}


@st.composite
def _lines(draw: st.DrawFn) -> tuple[ShellLine, ...]:
    """Shells with all their usual details beneath what is picked, or with nothing else answered."""
    picked = [(_chosen(draw(_OPTIONS)), draw(st.booleans())) for _ in range(draw(st.integers(0, 3)))]
    return tuple(
        shell(can() | chosen) if whole else line_of(Specification({o: Taken(c) for o, c in chosen.items()}), UNKNOWN)
        for chosen, whole in picked
    )


@dataclass(frozen=True, repr=False)
class _Draft:
    """A paper that a failing test does not print in full, book and all."""

    paper: QuotationPaper


@st.composite
def _drafts(draw: st.DrawFn) -> _Draft:
    plain = replace(small_window(), issued=False, valid_until=None, shells=draw(_lines()), totals=None)
    customer = Customer(draw(_ODD), draw(st.booleans()), draw(_LINES), "DE", draw(_ODD), draw(_ODD), draw(_ODD))
    donor = DonorCar(draw(_ODD), "", draw(st.sampled_from((None, "s2"))), established=draw(st.booleans()),
                     evidence=Evidence.OWNER)  # fmt: skip
    language = draw(st.sampled_from(("en", "de")))
    delivery = Delivery(draw(st.sampled_from(("", "van"))), draw(_ODD))
    firm = Firm(draw(_ODD), draw(_LINES), draw(_ODD), draw(_ODD))
    typed = replace(plain, customer=customer, donor=donor, delivery=delivery, firm=firm, note=draw(_ODD))
    read = replace(typed, language=language, locale={"en": "en_GB", "de": "de_DE"}[language], author=draw(_ODD))
    return _Draft(replace(read, sheet=draw(st.sampled_from(Sheet)), prices_shown=draw(st.booleans())))


@pytest.mark.filterwarnings("ignore:Generating overly large repr")  # long words make long drafts
@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck), phases=_PHASES)
@given(_drafts())
def test_any_draft_is_printed_and_stays_within_its_border(draft: _Draft) -> None:
    data = quotation_pdf(draft.paper)
    assert faults(data) == []
    assert characters_outside(data, margin=EDGE) == []


@pytest.mark.parametrize(
    ("note", "most"),
    [("Please keep the sill plates. " * 310, 5), ("x" * 9_000, 6), ("\n" * 5_000, 3), ("y\n" * 1_500, 30)],
    ids=["sentences", "one-word", "line-ends", "lines"],
)
def test_a_note_of_any_length_runs_over_as_many_sheets_as_it_needs(note: str, most: int) -> None:
    text = whole(data := quotation_pdf(replace(small_window(), note=note)))
    assert characters_outside(data, margin=EDGE) == []
    assert text.count("Sheet".upper()) <= most
    if "y" in note:
        assert text.count(" y") >= 1_400


def test_what_the_face_has_no_letter_for_is_seen_as_a_box_and_joined_marks_are_one_letter() -> None:
    paper = replace(small_window(), customer=Customer("Rene\u0301 🚗 \u200fשלום", False))
    text = whole(quotation_pdf(paper))
    assert f"René {MISSING} {MISSING * 4}" in text
