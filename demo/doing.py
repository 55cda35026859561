"""Does a row of the demo's work through the desk's own services, as a person would have done it then."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta

from app import calendar
from app.domain.asking.people import Role
from app.domain.customers.customer import Customer
from app.domain.money.payment import Direction, Entry, Means
from app.domain.quotations.chasing import Sending, Way
from app.domain.quotations.enquiry import DonorCar, Picture, Source, Wish
from app.domain.quotations.photograph import PROVES
from app.domain.quotations.quotation import Draft, DraftLine, ExtraSold, Reply
from app.services import watching
from app.services.answering import specifying
from app.services.books import publishing
from app.services.letters import chasing
from app.services.money import accounts, billing, receiving
from app.services.orders import ordering
from app.services.planning import promising
from app.services.quotations import approving, enquiring, photographing, quoting, settling
from app.store import approvals as kept
from app.store.db import Store
from demo.people import PEOPLE
from demo.photographs import picture
from demo.steps import (
    Accepted,
    Asked,
    Choices,
    Declined,
    Issued,
    Job,
    Paid,
    Photographed,
    Revised,
    Ruled,
    Sent,
    Shells,
    Step,
)
from demo.tried import TRIED
from rules.donor.identity import Identified, read_number
from rules.specification import Donor, Origin, Specification, Taken

#: Who records what was paid: the firm's clerk.
OFFICE = next(person for person, _ in PEOPLE if person.role is Role.CLERK)

#: Who answers what only a manager can.
MANAGER = next(person for person, _ in PEOPLE if person.role is Role.MANAGER)

#: Days for which the firm's quotations are valid.
VALID = 30


def do(store: Store, job: Job, number: int, now: datetime, url: str) -> None:
    """The enquiry, its quotation where there are shells, and every step. `number` sets the time of day."""
    start = now - timedelta(days=job.days, minutes=7 * number + 5)
    donor = _donor(store, job.car, start)
    enquiry = enquiring.create_enquiry(store, job.by, Wish(job.customer, donor, note=job.note), start)
    if not job.shells:
        return
    quotation = quoting.create_quotation(store, job.by, enquiry.id, job.price_list, job.place, start).number
    lines = tuple(DraftLine(_specification(store, one, donor.facts(), start), one.quantity) for one in job.shells)
    extras = tuple(ExtraSold(extra, quantity) for extra, quantity in job.extras.items())
    draft = Draft(job.price_list, job.place, lines=lines, extras=extras)
    quoting.save_draft(store, job.by, quotation, "A", draft, start, expected=1)
    for choices in TRIED.get(job.car, ()):
        _try(store, job, quotation, draft, choices, start)
    for at, step in enumerate(job.steps):
        moment = start + timedelta(days=step.day, hours=1 + at)
        _take(store, job, quotation, step, moment, url, draw=_stands(job, at))


def _try(store: Store, job: Job, quotation: str, draft: Draft, choices: Choices, at: datetime) -> None:
    """It is asked for, can't be built, and the draft is put back as it was."""
    asked = tuple(replace(line, specification=_with(line.specification, _taken(choices))) for line in draft.lines)
    version = quoting.quotation(store, job.by, quotation, at).revisions[-1].version
    quoting.save_draft(store, job.by, quotation, "A", replace(draft, lines=asked), at, expected=version)
    watching.note_refusals(store, job.by, quotation, "A", at)
    quoting.save_draft(store, job.by, quotation, "A", draft, at, expected=version + 1)


def _stands(job: Job, at: int) -> bool:
    """Whether what this step issues still awaits its answer. Any other's paper is drawn when somebody asks for it."""
    answered = any(isinstance(later, Issued | Accepted | Declined) for later in job.steps[at + 1 :])
    return not answered and job.days - job.steps[at].day <= VALID


def _take(store: Store, job: Job, quotation: str, step: Step, at: datetime, url: str, *, draw: bool) -> None:
    last = quoting.quotation(store, job.by, quotation, at).revisions[-1]
    where, version, name = (store, job.by, quotation, last.letter), last.version, job.customer.name
    match step:
        case Issued():
            quoting.issue(*where, at, expected=version, url=url, draw=draw, working=calendar.around)
        case Revised(choices=choices):
            _revise(store, job, quotation, choices, at)
        case Accepted(note=note):
            settling.accept(*where, Reply(at, name, note=note), at, expected=version)
        case Paid():
            _pay(store, quotation, step, at, name)
        case Declined(reason=reason, note=note):
            settling.decline(*where, Reply(at, name, reason, note), at, expected=version)
        case Asked(rule=rule, note=note):
            approving.ask_for(*where, 1, rule, note, at, expected=version)
        case Ruled():
            _rule(store, quotation, step, at)
        case Photographed():
            _photograph(store, job, quotation, step, at)
        case Sent():
            _send(store, job, quotation, last.letter, step, at)


def _photograph(store: Store, job: Job, quotation: str, step: Photographed, at: datetime) -> None:
    of = quoting.quotation(store, job.by, quotation, at).enquiry
    words = f"{step.part} {job.car}".strip() or job.customer.name
    sent = picture(step.shows, words)
    added = photographing.add(store, job.by, of, sent, step.shows, step.part, step.note, at)
    source = next((one for one, shown in PROVES.items() if shown == (step.shows,)), None)
    if source is not None:
        found = enquiring.enquiry(store, job.by, of)
        donor = replace(found.donor, built=replace(found.donor.built, said_by=source, photograph=added.id))
        wish = Wish(found.customer, donor, found.wanted_by, found.note)
        enquiring.edit_enquiry(store, job.by, of, wish, at, expected=found.version)


def _rule(store: Store, quotation: str, ruled: Ruled, at: datetime) -> None:
    """Asked for by somebody, or by the issuing of a dealer."""
    with store.reading() as db:
        waiting = [one for one in kept.of_quotation(db, quotation) if one.rule == ruled.rule]
    approving.answer(store, MANAGER, waiting[-1].id, ruled.granted, ruled.reason, at)


def _send(store: Store, job: Job, quotation: str, letter: str, sent: Sent, at: datetime) -> None:
    """The desk's own text, as it fits on that day."""
    fitting = chasing.letters(store, job.by, quotation, letter, at)
    text = next(one.text for one in fitting if one.kind is sent.kind)
    sending = Sending(sent.kind, sent.way, _addressee(job.customer, sent.way), at.date(), text)
    chasing.record_sent(store, job.by, quotation, letter, sending, at)


def _addressee(customer: Customer, way: Way) -> str:
    return {Way.E_MAIL: customer.email, Way.TELEPHONE: customer.telephone}.get(way, "") or customer.name


def _pay(store: Store, quotation: str, paid: Paid, at: datetime, customer: str) -> None:
    """The office records it as it came, enters what was agreed of it, and bills it."""
    number = ordering.order_of(store, OFFICE, quotation)
    account = accounts.open_order(store, OFFICE, number, at).account
    amount = paid.amount or account.deposit or 0
    entry = Entry(Direction.RECEIVED, amount, paid.currency or account.currency, at.date(), Means.BANK_TRANSFER)
    receiving.record(store, OFFICE, number, entry, at)
    payment = accounts.open_order(store, OFFICE, number, at).payments[-1].id
    if paid.agreed:
        counts, rate = paid.agreed
        told = receiving.Agreed(counts, rate, at.date(), customer)
        receiving.agree(store, OFFICE, number, payment, told, at)
    if paid.billed:
        billing.bill_deposit(store, OFFICE, number, payment, at)
    if accounts.open_order(store, OFFICE, number, at).account.deposit_met:
        _through(store, number, at)


def _through(store: Store, number: str, at: datetime) -> None:
    """The signed specification came with the money: each shell has its slot."""
    for gate in ("specification", "deposit"):
        promising.say_gate(store, OFFICE, number, 0, (gate, ""), at.date(), calendar.around, at)


def _revise(store: Store, job: Job, quotation: str, choices: Choices, at: datetime) -> None:
    """The next draft, kept once more with what has changed in every line."""
    revision = quoting.next_revision(store, job.by, quotation, at)
    draft, changed = revision.draft(), _taken(choices)
    lines = tuple(replace(line, specification=_with(line.specification, changed)) for line in draft.lines)
    quoting.save_draft(store, job.by, quotation, revision.letter, replace(draft, lines=lines), at, expected=1)


def _specification(store: Store, shells: Shells, donor: Donor, at: datetime) -> Specification:
    """What was chosen, and what the original car had for the rest."""
    series, market, body, *rest = shells.choices.split()
    usual = specifying.usual(store, series, market, body, donor, at)
    had = {option: Taken(choice, Origin.USUAL) for option, choice in usual.items()}
    chosen = _taken(f"series={series} market={market} body={body} {' '.join(rest)}")
    answers = _with(Specification(had), chosen).answers
    return Specification({option: taken for option, taken in answers.items() if option not in shells.left_open.split()})


def _with(specification: Specification, chosen: dict[str, Taken]) -> Specification:
    return Specification({**specification.answers, **chosen})


def _taken(choices: Choices) -> dict[str, Taken]:
    return {option: Taken(choice) for option, choice in (pair.split("=") for pair in choices.split())}


def _donor(store: Store, car: str, at: datetime) -> DonorCar:
    """A number that is one of ours is established by its plate; a doubtful one is kept as it was said."""
    if not car:
        return DonorCar()
    number, gearbox = (*car.split(), "manual")[:2]
    reading = read_number(number, publishing.current_book(store, at).series)
    if not isinstance(reading, Identified):
        return DonorCar(number, gearbox=gearbox, stands=Picture(said_by=Source.OWNER))
    return DonorCar(number, reading.series, reading.number, True, gearbox, built=Picture(said_by=Source.PLATE))
