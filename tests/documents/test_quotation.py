"""The quotation paper, read back from its own PDF. Sums and texts are those of the desk's cases (cases.md)."""

from __future__ import annotations

import string
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from io import BytesIO
from pathlib import Path

import pikepdf
import pytest

from app.documents.contents import Customer, DonorCar, Evidence, QuotationPaper, Sheet, ToolDown, Units
from app.documents.quotation.quotation import quotation_pdf
from app.documents.saying.phrases import LANGUAGES, sentences
from app.documents.typesetting.arrangements import Arranged, best
from app.documents.typesetting.fonts import FontsMissing, register
from app.documents.typesetting.laying import Laid
from rules.money.price import Tariff
from rules.specification import Donor
from tests.documents.orders import CRATE, can, dealer, quotation, revised, shell, small_window
from tests.documents.reading import characters_outside, codes, faults, fonts, pages, reach, whole

LINDENHOF = Customer("Werkstatt Lindenhof", True, ("Lindenhof 3",), "DE", "Werkstatt Lindenhof")
BAYOU = Customer("Bayou Road Sports Cars", True, ("2210 Bayou Road",), "US", "Bayou Road Sports Cars")
HOLLIN = Customer("Hollin Lane Classics", True, ("Hollin Lane",), "GB", "Hollin Lane Classics")


def german(paper: QuotationPaper) -> QuotationPaper:
    return replace(paper, language="de", locale="de_DE")


def metallic_for_germany() -> QuotationPaper:
    """Case 15."""
    coupe = shell(
        {
            "series": "s3", "market": "europe", "body": "coupe", "finish": "painted", "scope": "outside-and-shuts",
            "colour": "frost", "delivery": "door-germany",
        },
        open_=("primer", "packing"),
    )  # fmt: skip
    tariff = Tariff("EUR", dealer({"A": "12", "B": "5"}))
    return quotation(coupe, customer=LINDENHOF, tariff=tariff, currency="EUR", country="DE", measures=(CRATE,))


def primed_for_america() -> QuotationPaper:
    """Case 17, on Letter, in both systems of units."""
    roadster = shell(
        {"series": "s4", "market": "north-america", "body": "roadster", "primer": "epoxy", "packing": "frame",
         "delivery": "port"}
    )  # fmt: skip
    paper = quotation(
        roadster, customer=BAYOU, tariff=Tariff("USD", dealer({"A": "18", "B": "5"})), currency="USD", country="US",
        measures=(CRATE,),
    )  # fmt: skip
    return replace(paper, locale="en_US", sheet=Sheet.LETTER, units=Units.BOTH)


def collected_by_a_dane() -> QuotationPaper:
    """Case 19."""
    roadster = shell({"series": "s3", "market": "home", "body": "roadster", "delivery": "collected"})
    return quotation(roadster, customer=Customer("Jørgen Šťastný", False, ("Nyhavn 11",), "DK"))


def three_for_hollin_lane() -> QuotationPaper:
    """Three shells of different specifications: as had, not as had, once and not as had."""
    folding = shell(
        {"series": "s3", "market": "home", "body": "coupe", "roof": "folding", "suspension": "four-link",
         "bonnet": "raised"}
    )  # fmt: skip
    window = shell(
        {"series": "s2", "market": "home", "body": "coupe", "rear-window": "small", "own-doors": "yes",
         "belts": "front-and-rear"}
    )  # fmt: skip
    tariff = Tariff("GBP", dealer({"A": "15", "B": "5"}))
    return quotation(shell(can(delivery="collected")), folding, window, customer=HOLLIN, tariff=tariff,
                     extras={"photo-book": 1, "storage": 3})  # fmt: skip


def not_to_be_built() -> QuotationPaper:
    """Case 8, on a draft: nothing that can't be built is ever issued."""
    wanted = {"series": "s1", "market": "home", "body": "roadster", "scuttle": "vented", "tunnel": "narrow",
              "suspension": "four-link"}  # fmt: skip
    return quotation(shell(wanted), issued=False, valid_until=None)


def small_for_large() -> QuotationPaper:
    """Case 11 the other way about: A was the large window, B is the small one with its ring to be sent."""
    donor, small = Donor("s2", 5900), small_window()
    large = quotation(shell({"series": "s2", "market": "home", "body": "coupe", "rear-window": "large"}, donor),
                      donor=donor)  # fmt: skip
    return revised(replace(large, donor=small.donor), small)


def three_revised() -> QuotationPaper:
    """Three shells of which the last fell away and the first was changed in all its paint."""
    before = three_for_hollin_lane()
    painted = {"finish": "painted", "scope": "outside", "colour": "oat", "primer": "epoxy-and-filler"}
    first = shell(can(delivery="collected", belts="front", **painted), quantity=2)
    after = quotation(first, before.shells[1], customer=HOLLIN, tariff=before.tariff, extras={"photo-book": 2})
    return revised(before, after, "BC")


PAPERS = (
    small_window, metallic_for_germany, primed_for_america, collected_by_a_dane, three_for_hollin_lane, not_to_be_built,
    small_for_large, three_revised,
)  # fmt: skip


def test_a_dealers_prices_are_made_out_to_the_dealer_and_not_to_his_private_customer() -> None:
    roscoe = Customer("Roscoe Tillwater", False, country="US", dealer="Bayou Road Sports Cars")
    text = whole(quotation_pdf(replace(primed_for_america(), customer=roscoe)))
    assert text.index("Bayou Road Sports Cars") < text.index("for the dealer’s customer Roscoe Tillwater")
    assert "Prices on the dealer’s terms: not for the customer’s eyes." in text
    assert "Private customer" not in text


def test_page_one_of_case_11_has_answer_total_days_and_the_part_to_send() -> None:
    first = pages(quotation_pdf(small_window()))[0]
    assert "We can build this shell once this has been done:" in first
    assert "It is then as your car had it." in first
    assert "£17,064.00" in first
    assert "£14,220.00" in first
    assert "33 to 43 working days after the last of these, if a slot is free then:" in first
    assert "P4 Window ring, cut 150 mm clear all round" in first
    assert "Framing jig" in first
    assert "with neither a slot in the workshop nor a calendar" in first


def test_case_12_prints_its_sum_deposit_and_balance() -> None:
    text = whole(quotation_pdf(quotation(shell(can()))))
    for figure in ("£12,375.00", "£2,475.00", "£14,850.00", "£3,712.50", "£618.75", "£11,137.50"):
        assert figure in text


def test_case_15_in_german_writes_euro_as_a_german_does() -> None:
    text = whole(quotation_pdf(german(metallic_for_germany())))
    assert "22.338,40 €" in text
    assert "5.584,60 €" in text
    assert "D9: Mit weniger Schutz übersteht der Lack diese Reise nicht." in text
    assert "daher wird sie hier als Ausfuhr nicht besteuert" in text
    assert "2. Dezember 2026" in text


def test_case_17_for_america_is_on_letter_in_dollars_pounds_and_inches() -> None:
    data = quotation_pdf(primed_for_america())
    text = whole(data)
    assert "$14,994.50" in text
    assert "$3,748.63" in text
    assert "December 2, 2026" in text
    # 4100 mm = 161.4 in, 550 kg = 1 213 lb (international yard and pound: 25.4 mm, 0.45359237 kg)
    assert "161.4" in text
    assert "1,213 lb" in text
    with pikepdf.open(BytesIO(data)) as document:
        assert [float(side) for side in document.pages[0].MediaBox] == [0, 0, 612, 792]


def test_case_19_shows_both_totals_with_their_deposits_and_leaves_the_deciding_to_a_person() -> None:
    text = pages(quotation_pdf(collected_by_a_dane()))[0]
    assert "A person must decide which of these holds." in text
    for figure in ("£12,090.00", "£3,022.50", "£14,508.00", "£3,627.00"):
        assert figure in text
    assert "Jørgen Šťastný" in text


def test_a_shell_that_cant_be_built_has_every_cause_and_no_part_no_price_no_date() -> None:
    first = pages(quotation_pdf(not_to_be_built()))[0]
    assert "We can’t build this shell." in first
    assert "N1" in first
    assert "N3" in first
    assert "P1" not in first
    assert "£" not in first
    assert "working days" not in first


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("sheet", Sheet)
def test_three_shells_have_answers_total_days_and_parts_on_page_one(language: str, sheet: Sheet) -> None:
    locale = {"en": "en_GB", "de": "de_DE"}[language]
    paper = replace(three_for_hollin_lane(), language=language, sheet=sheet, locale=locale)
    first, *rest = pages(quotation_pdf(paper))
    say = sentences(language)
    for key in ("total.heading", "date.heading", "date.ranges", "send.heading", "send.consequence", "answer.in-short"):
        assert say[key] in first
    assert rest[0].startswith(say["answer.at-length"])


def test_in_short_each_answer_names_its_shell_its_days_and_what_it_waits_for() -> None:
    first = pages(quotation_pdf(three_for_hollin_lane()))[0]
    assert "Shell 1 of 3: S3 · Roadster · Right hand · Home" in first
    assert "We can build this shell, as an original S3 had it. 26 to 36 working days" in first
    assert "We can build this shell, but not as an original S3 had it." in first
    assert (
        "We can build this shell once this has been done: P2a doors; P4 window ring, cut 150 mm clear all round; A3 "
    ) in first
    assert "It is then not as an original S2 had it." in first


def test_every_answer_of_the_specification_says_how_it_came() -> None:
    text = whole(quotation_pdf(metallic_for_germany()))
    assert "Packing Closed crate D9: Paint does not survive that journey in anything less. forced" in text
    assert "Colour Frost (metallic) chosen" in text
    assert "Steering Left hand usual" in text


def test_an_issued_paper_is_signed_and_a_draft_cant_be() -> None:
    issued, draft = (whole(quotation_pdf(paper)) for paper in (small_window(), not_to_be_built()))
    assert "I accept quotation Q-2026-00042, revision A" in issued
    assert "DRAFT" not in issued
    assert "I accept" not in draft
    assert "DRAFT" in draft


def test_cautions_are_printed_where_they_are_due_and_nowhere_else() -> None:
    assert "An old part from a donor car is built in" in whole(quotation_pdf(small_window()))
    plain = whole(quotation_pdf(quotation(shell(can()))))
    assert "An old part from a donor car is built in" not in plain
    assert "Isolate aluminium" not in plain


def test_a_copy_without_prices_has_no_sum_anywhere() -> None:
    text = whole(quotation_pdf(replace(small_window(), prices_shown=False)))
    assert "£" not in text
    assert "Prices are left out of this copy." in text


def test_a_line_that_is_on_no_list_is_not_priced_and_never_nought() -> None:
    away = shell(can(packing="frame", delivery="door-elsewhere"))
    text = whole(quotation_pdf(quotation(away, country="NZ", issued=False, valid_until=None)))
    assert "Not priced: ask the manager." in text
    assert "not priced" in text
    assert "£0.00" not in text


def test_a_donor_that_is_not_established_is_said_so_in_bold_words() -> None:
    donor = DonorCar("T2-21301", evidence=Evidence.OWNER)
    first = pages(quotation_pdf(replace(quotation(shell(can())), donor=donor)))[0]
    assert "Identity number T2-21301" in first
    assert "Not established: no order is confirmed before it is. Stated by its owner." in first


def test_a_tool_that_is_down_is_named_among_the_gates_with_its_date() -> None:
    down = ToolDown("four-link-tool", date(2026, 11, 23))
    first = pages(quotation_pdf(replace(quotation(shell(can())), tools_down=(down,))))[0]
    assert "down, expected back on 23 November 2026" in first


def test_a_draft_with_open_questions_names_them_and_gives_neither_total_nor_date() -> None:
    half = shell({"series": "s3", "market": "home", "body": "roadster", "finish": "primed"}, taken_over=False)
    first = pages(quotation_pdf(quotation(half, issued=False, valid_until=None, totals=None)))[0]
    assert "The specification is not complete. Still open: Steering, Tunnel," in first
    assert "No total yet" in first
    assert "No date yet" in first


def test_a_revision_lists_on_page_one_what_changed_in_price_days_parts_and_answers() -> None:
    # Case 11: £16,200.00 with the large window, £17,064.00 and 12 days more with the small one, once its ring passed.
    first = pages(quotation_pdf(small_for_large()))[0]
    assert "Revision B, which replaces revision A" in first
    assert (
        "Changes since revision A WHAT BEFORE NOW Total with tax, GBP £16,200.00 £17,064.00"
        " Ready after the last gate 26 to 36 working days 33 to 43 working days"
        " P4 Window ring, cut 150 mm clear all round not needed needed Rear window Large Small"
    ) in first
    assert "What you must send us" in first


def test_of_a_long_list_page_one_has_what_it_comes_to_and_the_rest_follows() -> None:
    first, *rest = pages(quotation_pdf(three_revised()))
    assert "Total with tax, GBP £42,496.94 £49,644.05" in first
    assert "P2a Doors needed falls away" in first
    assert "P4 Window ring, cut 150 mm clear all round needed falls away" in first
    assert "And 9 more: see “Further changes since revision B”." in first
    (further,) = (text for text in rest if "Further changes since revision B" in text)
    assert "Shell 1: How many shells 1 2 Shell 1: Belt anchorages As original Front reinforced" in further
    assert "Shell 3 1 × not there Photo book of the build 1 × 2 ×" in further


def test_a_revision_in_which_nothing_was_changed_says_so() -> None:
    assert "None that you would see" in pages(quotation_pdf(revised(small_window(), small_window())))[0]


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("sheet", Sheet)
def test_every_paper_is_sound_on_both_sheets_in_every_language(paper, language, sheet) -> None:  # type: ignore[no-untyped-def]
    made = replace(paper(), language=language, locale={"en": "en_GB", "de": "de_DE"}[language], sheet=sheet)
    data = quotation_pdf(made)
    # Outside: pikepdf (qpdf) for syntax; fonts embedded as TrueType, or reportlab's own Helvetica has slipped in; the
    # code read back by zxing-cpp from the sheet as pypdfium2 renders it at 200 dpi.
    assert faults(data) == []
    assert all(fonts(data).values()), fonts(data)
    assert characters_outside(data, margin=20) == []
    assert codes(data) == [made.address]
    texts = pages(data)
    of = {"en": "of", "de": "von"}[language]
    for number, text in enumerate(texts, start=1):
        assert f"{number} {of} {len(texts)}" in text
        assert f"Q-2026-00042 · {made.revision}" in text
    assert len(texts) == 1 or reach(data, -1) > 0.4


@pytest.mark.parametrize(
    ("came_out", "taken"),
    [
        # Nothing is left over: what was wanted first.
        ([(3, 0.5), (2, 0.9)], 0),
        # A sheet is spared.
        ([(4, 0.2), (4, 0.6), (3, 0.3)], 2),
        # None is, but one arrangement fills the last.
        ([(4, 0.2), (5, 0.9), (4, 0.6)], 2),
        # Nothing helps.
        ([(4, 0.2), (5, 0.9), (4, 0.3)], 0),
        # One sheet may be as empty as it likes.
        ([(1, 0.1), (1, 0.9)], 0),
    ],
)
def test_of_several_arrangements_the_one_with_the_fewest_sheets_and_none_left_over(
    came_out: list[tuple[int, float]], taken: int
) -> None:
    tried = [Arranged([], Laid([[]] * sheets, last)) for sheets, last in came_out]
    assert best(tried, lambda one: one, lambda one: one.sheets) is tried[taken]


def test_an_arrangement_that_cannot_come_out_better_is_not_laid_out() -> None:
    laid = list[int]()

    def lay(place: int) -> Arranged:
        laid.append(place)
        return Arranged([], Laid([[]] * 3, (0.2, 0.3, 0.6, 0.9)[place]))

    assert best(range(4), lay, lambda place: 4 if place == 1 else 3).laid.last == 0.6
    assert laid == [0, 2]


def test_the_same_input_gives_the_same_bytes() -> None:
    # Outside: reportlab's `invariant` leaves out the clock and the random id (its user guide).
    assert quotation_pdf(small_window()) == quotation_pdf(small_window())


def test_the_pdf_says_its_title_author_and_language() -> None:
    with pikepdf.open(BytesIO(quotation_pdf(german(small_window())))) as document:
        assert document.docinfo["/Title"] == "Angebot Q-2026-00042 Revision A"
        assert document.docinfo["/Author"] == "Ravensmoor Body Company"
        assert document.Root.Lang == "de-DE"
        assert document.Root.ViewerPreferences.DisplayDocTitle


def test_the_outline_leads_to_every_part_on_its_sheet() -> None:
    with pikepdf.open(BytesIO(quotation_pdf(small_window()))) as document, document.open_outline() as outline:
        sheets = {page.objgen: number for number, page in enumerate(document.pages, start=1)}
        found = [(entry.title, sheets[entry.destination[0].objgen]) for entry in outline.root]  # type: ignore[index]  # an array here
    assert found == [
        ("Total", 1),
        ("When it is ready", 1),
        ("What you must send us", 1),
        ("Specification: S2 · Coupé · Right hand · Home", 2),
        ("Prices: S2 · Coupé · Right hand · Home", 3),
        ("What is in it, and the terms", 3),
        ("Cautions", 3),
        ("Acceptance", 3),
    ]


def test_a_sheet_is_read_aloud_from_the_letterhead_down_and_its_title_block_last() -> None:
    first = pages(quotation_pdf(small_window()))[0]
    order = ("Ravensmoor Body Company", "Edmund Hartley", "We can build", "Total Before", "When it is", "What you must",
             "SHEET 1 of 3")  # fmt: skip
    places = [first.index(words) for words in order]
    assert places == sorted(places)


@pytest.mark.parametrize("sheet", Sheet)
@pytest.mark.parametrize("paper", [small_window, metallic_for_germany, primed_for_america, collected_by_a_dane])
def test_one_shell_takes_three_sheets(paper: Callable[[], QuotationPaper], sheet: Sheet) -> None:
    for made in (paper(), german(paper())):
        assert len(pages(quotation_pdf(replace(made, sheet=sheet)))) == 3


def test_a_row_says_what_the_car_had_also_where_it_is_the_same() -> None:
    text = whole(quotation_pdf(small_window()))
    assert "Rear window Small usual = Small" in text
    assert "Body Coupé chosen –" in text


def test_a_draft_that_is_open_says_why_it_has_no_total_and_not_that_a_price_is_missing() -> None:
    half = shell({"series": "s3", "market": "home", "body": "roadster", "finish": "primed"}, taken_over=False)
    text = whole(quotation_pdf(quotation(half, issued=False, valid_until=None, totals=None)))
    assert text.count("No total yet: the specification is not complete.") == 2
    assert "Not priced" not in text
    assert "What is answered so far can be built." in text


def test_lines_that_share_a_specification_share_its_sheet_and_near_ones_are_told_by_their_differences() -> None:
    same, other = shell(can()), shell(can(belts="front"))
    texts = pages(quotation_pdf(quotation(same, same, other, same)))
    assert "Specification: Shells 1, 2, 4 of 4: S3 · Roadster" in texts[1]
    near = whole(quotation_pdf(quotation(same, same, other, same))).split("As shell 1, except for this:")[1]
    assert "Belt anchorages Front reinforced chosen ≠ As original Prices" in near


def test_a_refusal_says_what_to_do_next() -> None:
    assert "What now Ask us for the nearest shell that we can build" in pages(quotation_pdf(not_to_be_built()))[0]


def test_the_code_is_at_least_25_mm_wide() -> None:
    from app.documents.typesetting.marks import Code

    code = Code(small_window().address)
    assert code.module * len(code.rows) >= 25 / 25.4 * 72


def test_long_names_and_addresses_break_rather_than_being_cut() -> None:
    name = "Gesellschaft zur Erhaltung und Wiederherstellung historischer Karosserien und Fahrgestelle mbH & Co. KG"
    long = "Donaudampfschifffahrtselektrizitätenhauptbetriebswerkbauunterbeamtengesellschaftsstraße 1024<b>"
    customer = Customer(name, True, (long, long), "DE", name, reference=long)
    paper = replace(small_window(), customer=customer, author=name, note=" ".join([long] * 12))
    data = quotation_pdf(paper)
    assert characters_outside(data, margin=20) == []
    assert whole(data).replace(" ", "").count(long.replace(" ", "")) == 2 + 1 + 12
    assert "mbH & Co. KG" in whole(data)


def test_forty_lines_of_shells_still_come_out_whole() -> None:
    lines = [shell(can(delivery="collected"), quantity=n % 3 + 1) for n in range(40)]
    data = quotation_pdf(quotation(*lines))
    assert characters_outside(data, margin=20) == []
    assert "of 40: S3" in whole(data)
    assert faults(data) == []


def test_missing_fonts_are_named_with_what_to_do(tmp_path: Path) -> None:
    with pytest.raises(FontsMissing) as missing:
        register(tmp_path)
    assert "SourceSans3_700Bold.ttf" in str(missing.value)
    assert "frontend/package.json" in str(missing.value)


def test_every_language_has_the_same_sentences_with_the_same_slots() -> None:
    def slots(sentence: str) -> set[str | None]:
        return {name for _, name, _, _ in string.Formatter().parse(sentence) if name}

    first = sentences("en")
    for language in LANGUAGES:
        other = sentences(language)
        assert other.keys() == first.keys()
        assert {key: slots(other[key]) for key in other} == {key: slots(first[key]) for key in first}


def test_every_sentence_of_the_papers_is_used() -> None:
    files = (*Path("app/documents").rglob("*.py"), Path("app/services/planning/drawing_up_plan.py"))
    code = "".join(file.read_text(encoding="utf-8") for file in files)
    made = ("tax-reason", "tax-caution", "gearbox", "intent")
    said = [key.removeprefix("retail-") for key in sentences("en") if not key.startswith("total.case-")]
    parts = {key: key.split(".")[0] for key in said}  # what a dealer says otherwise goes by the firm's own key
    unused = [key for key, part in parts.items() if key not in code and part not in made and f"{part}.{{" not in code]
    assert unused == [], unused


def test_every_reason_and_caution_that_the_tax_rules_name_has_its_sentence() -> None:
    code = Path("rules/money/tax.py").read_text(encoding="utf-8")
    known = sentences("en")
    for reason in ("collected-at-home", "delivered-at-home", "export", "islands", "collected-to-go-abroad",
                   "collected-by-a-customer-from-abroad"):  # fmt: skip
        assert f'"{reason}"' in code
        assert f"tax-reason.{reason}" in known
    for caution in ("export-evidence", "confirm-with-accountant", "home-mainland-only", "a-person-decides"):
        assert f'"{caution}"' in code
        assert f"tax-caution.{caution}" in known


def test_a_donor_of_another_series_is_compared_with_what_is_ordered() -> None:
    donor = Donor("s2", 4417)
    paper = quotation(shell(can(), donor), donor=donor)
    car = DonorCar("T2-04417", "T2-04417", "s2", "home", "roadster", None, True, Evidence.FACTORY_RECORD)
    first = pages(quotation_pdf(replace(paper, donor=car)))[0]
    assert "We can build this shell, but not as your car had it." in first
    assert "S3, where your car had: S2" in first


def test_page_one_still_holds_its_four_things_when_a_shell_differs_in_eight_places() -> None:
    donor = Donor("s2", 4417)
    chosen = {"series": "s4", "market": "home", "body": "roadster", "suspension": "four-link", "bonnet": "raised",
              "bumpers": "chrome", "wheel-well": "shallow", "rail-ends": "plain", "belts": "front"}  # fmt: skip
    car = DonorCar("T2-04417", "T2-04417", "s2", "home", "roadster", None, True, Evidence.FACTORY_RECORD)
    paper = replace(quotation(shell(chosen, donor), donor=donor), donor=car)
    assert len(paper.shells[0].differences) == 8
    for made in (paper, german(paper)):
        first = pages(quotation_pdf(made))[0]
        heads = {"en": ("Total", "When it is ready", "What you must send us")}.get(made.language) or (
            "Gesamtpreis", "Wann sie fertig ist", "Was Sie uns schicken müssen",
        )  # fmt: skip
        assert [head in first for head in heads] == [True, True, True]


def test_a_draft_without_shells_is_printed_however_long_its_address() -> None:
    customer = Customer("Hollin Lane Classics", True, ("Hollin Lane",) * 60, "GB")
    empty = replace(small_window(), issued=False, valid_until=None, shells=(), totals=None, customer=customer)
    assert "There is no shell on this draft yet." in whole(quotation_pdf(empty))
