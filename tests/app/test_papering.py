from __future__ import annotations

from datetime import date, timedelta

from app.documents.contents import Difference, Gate, QuotationPaper, ToolDown, Units
from app.domain.quotations.changes import AnswerChange
from app.domain.quotations.enquiry import DonorCar, Intent
from app.domain.quotations.quotation import DeliveryPlace, Draft, DraftLine, Imprint
from app.services.books import tools
from app.services.quotations import papering, quoting
from app.services.quotations.comparing import changes_of
from app.services.quotations.enquiring import enquiry
from app.services.quotations.working_out import work_out
from app.store import dealers
from rules.answer import State
from rules.model import ToolCondition
from rules.specification import Specification
from tests.app.desk import BAYOU, CLERK, MANAGER, NOW, S3_ROADSTER, Desk

FOUR_LINK = {**S3_ROADSTER, "suspension": "four-link", "bonnet": "raised"}


def test_a_paper_names_what_differs_from_the_donor_car_as_the_verdict_does(desk: Desk) -> None:
    donor = DonorCar("T2-04417", "s2", 4417, True, "manual")
    paper = _paper(desk, desk.drafted((S3_ROADSTER, 1), wish=desk.wish(donor=donor)))
    assert paper.shells[0].differences == (
        Difference("series", "s2", "s3"),
        Difference("filler", "deck", "wing"),
        Difference("holes", "blanked", "open"),
    )
    assert (paper.donor.canonical, paper.donor.established) == ("T2-04417", True)


def test_a_paper_says_what_must_be_through_before_the_days_count(desk: Desk) -> None:
    back = date(2026, 11, 23)
    tools.set_tool(desk.store, MANAGER, "four-link-tool", ToolCondition.DOWN, NOW, until=back, note="Bent.", expected=4)
    chosen = {**FOUR_LINK, "own-doors": "yes", "belts": "front"}
    paper = _paper(desk, desk.drafted((chosen, 1)))
    assert paper.gates == (Gate.DEPOSIT, Gate.SPECIFICATION, Gate.PARTS, Gate.APPROVALS, Gate.TOOLS)
    assert paper.tools_down == (ToolDown("four-link-tool", back),)


def test_days_are_those_of_the_scenario(desk: Desk) -> None:
    """Sub-assembly 5 and 21 from the slot; four-link 4 and 6 more. Ready within 10 days."""
    plain, four_link = (_paper(desk, desk.drafted((chosen, 1))).shells[0].days for chosen in (S3_ROADSTER, FOUR_LINK))
    assert plain is not None
    assert four_link is not None
    assert (plain.earliest, plain.latest) == (26, 36)
    assert (four_link.earliest, four_link.latest) == (36, 46)


def test_a_revision_lists_what_changed_since_the_last_one(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1))
    desk.issue(number)
    quoting.next_revision(desk.store, CLERK, number, NOW)
    line = DraftLine(desk.specification({**S3_ROADSTER, "bonnet": "aluminium"}))
    quoting.save_draft(
        desk.store, CLERK, number, "B", Draft("GBP", DeliveryPlace("GB"), lines=(line,)), NOW, expected=1
    )
    paper = _paper(desk, number, "B")
    assert paper.changes is not None
    assert paper.changes.against == "A"
    assert [line.answers for line in paper.changes.lines] == [(AnswerChange("bonnet", "steel", "aluminium"),)]


def test_a_forced_choice_names_the_rules_that_force_it(desk: Desk) -> None:
    """Case 15: the crate is forced by D9."""
    painted = {
        "finish": "painted",
        "primer": "epoxy-and-filler",
        "scope": "outside",
        "colour": "oat",
        "delivery": "port",
    }
    crated = {**S3_ROADSTER, **painted, "packing": "crate"}
    number = desk.drafted((crated, 1), place=DeliveryPlace("DE"))
    (shell,) = _paper(desk, number).shells
    assert (shell.standing["packing"], shell.forced_by.get("packing")) == (State.CHOSEN, None)
    answers = {o: taken for o, taken in desk.specification(crated).answers.items() if o != "packing"}
    left_open = Draft("GBP", DeliveryPlace("DE"), lines=(DraftLine(Specification(answers)),))
    quoting.save_draft(desk.store, CLERK, number, "A", left_open, NOW, expected=2)
    (shell,) = _paper(desk, number).shells
    assert (shell.standing["packing"], shell.forced_by["packing"]) == (State.FORCED, ("D9",))


def test_where_answers_clash_each_stands_as_it_was_answered(desk: Desk) -> None:
    shell = _paper(desk, desk.drafted(({**S3_ROADSTER, "roof": "folding"}, 1))).shells[0]
    assert (shell.standing["roof"], shell.standing["bonnet"]) == (State.CHOSEN, State.USUAL)
    assert shell.causes == (("N4",),)


def test_an_american_reads_pounds_and_inches_and_his_own_dates(desk: Desk) -> None:
    wish = desk.wish(country="US", units="imperial")
    paper = _paper(desk, desk.drafted((S3_ROADSTER, 1), who=BAYOU, wish=wish, price_list="USD"))
    assert (paper.locale, paper.units, paper.currency) == ("en_US", Units.BOTH, "USD")
    assert paper.customer.dealer == "Bayou Road Sports Cars"


def test_the_last_day_of_validity_is_the_one_before_the_midnight(desk: Desk) -> None:
    number = desk.drafted((S3_ROADSTER, 1))
    issued = desk.issue(number)
    assert issued.valid_until is not None
    assert _paper(desk, number, valid_until=True).valid_until == date(2026, 12, 2)


def test_the_paper_states_the_size_and_mass_of_the_shell_and_of_its_crate_where_there_is_one(desk: Desk) -> None:
    """trade.md: a shell with panels 260–330 kg, a crate 4.1 x 1.75 x 1.4 m and 400–550 kg, both [memory]."""
    plain = _paper(desk, desk.drafted((S3_ROADSTER, 1))).measures
    assert [(one.mass_from_kg, one.mass_to_kg) for one in plain] == [(260, 330)]
    crated = _paper(desk, desk.drafted(({**S3_ROADSTER, "packing": "crate"}, 2))).measures
    assert [(one.length_mm, one.width_mm, one.height_mm, one.mass_to_kg) for one in crated] == [
        (0, 0, 0, 330), (4100, 1750, 1400, 550),
    ]  # fmt: skip


def test_the_paper_says_what_is_wanted_against_the_donor_car_once_somebody_has_asked(desk: Desk) -> None:
    wish = desk.wish(donor=DonorCar("T3-12044", "s3", 12044, True, intent=Intent.MODIFIED))
    assert _paper(desk, desk.drafted((S3_ROADSTER, 1), wish=wish)).intent is Intent.MODIFIED
    assert _paper(desk, desk.drafted((S3_ROADSTER, 1))).intent is None


def _paper(desk: Desk, number: str, letter: str = "A", valid_until: bool = False) -> QuotationPaper:
    quotation = quoting.quotation(desk.store, MANAGER, number, NOW)
    revision = desk.revision(number, letter, MANAGER)
    worked = work_out(desk.store, enquiry(desk.store, MANAGER, quotation.enquiry), revision, NOW + timedelta(hours=1))
    with desk.store.reading() as db:
        dealer = dealers.get(db, quotation.dealer) if quotation.dealer else None
    sheetful = papering.Sheetful(
        quotation=quotation,
        revision=revision,
        worked=worked,
        imprint=Imprint("Imogen Faulk", {"name": "Ravensmoor Body Company"}, dealer_name=dealer.name if dealer else ""),
        made_at=NOW,
        issued=revision.issued,
        valid_until=revision.valid_until if valid_until else None,
        changes=changes_of(desk.store, quotation, revision, worked),
    )
    return papering.paper_of(sheetful, "en", "a4")


def test_a_draft_that_cannot_be_built_is_hatched_where_the_rules_bite(desk: Desk) -> None:
    paper = _paper(desk, desk.drafted(({**S3_ROADSTER, "bumpers": "impact"}, 1)))
    assert paper.shells[0].bites["bumpers"] == ("D1", "D2", "D14")
    assert _paper(desk, desk.drafted((S3_ROADSTER, 1))).shells[0].bites == {}
