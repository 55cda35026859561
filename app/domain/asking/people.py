"""Who may do what to what, in one table. No storage, no HTTP: person, action and thing go in, yes or no comes out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum, StrEnum


class Role(StrEnum):
    """What a person is at the firm, or for it."""

    CLERK = "clerk"
    DEALER = "dealer"
    LEAD = "lead"
    INSPECTOR = "inspector"
    WELDER = "welder"
    MANAGER = "manager"


class Action(Enum):
    READ = "read"
    ASK = "ask"
    CREATE = "create"
    CHANGE = "change"
    ISSUE = "issue"
    ACCEPT = "accept"
    DECLINE = "decline"
    DECLARE_LOST = "declare-lost"
    ANSWER = "answer"
    ERASE = "erase"
    CONFIRM = "confirm"
    RELEASE = "release"
    SIGN = "sign"
    HOLD = "hold"
    REJECT = "reject"
    CANCEL = "cancel"
    DESPATCH = "despatch"


class Sort(Enum):
    """The sorts of thing there are."""

    BOOK = "book"
    BOOK_DRAFT = "book-draft"
    TOOL = "tool"
    DONOR_NUMBER = "donor-number"
    DEALER = "dealer"
    CUSTOMER = "customer"
    PERSONAL_DATA = "personal-data"
    RETENTION = "retention"
    ENQUIRY = "enquiry"
    QUOTATION = "quotation"
    PRICE = "price"
    PRICE_LIST = "price-list"
    PROOF = "proof"
    WORK_TO_COME = "work-to-come"
    ORDER = "order"
    SECOND_ORDER = "second-order"
    SHELL = "shell"
    INSPECTION = "inspection"
    GAUGE = "gauge"
    CONCESSION = "concession"
    REWORK = "rework"
    CHANGE_NOTE = "change-note"
    PART = "part"
    KIT = "kit"
    DESPATCH = "despatch"
    DEALER_CREDIT = "dealer-credit"
    EXPORT_TERMS = "export-terms"
    EXPORT_EVIDENCE = "export-evidence"
    PERSONAL_CODE = "personal-code"
    PAYMENT = "payment"
    DOCUMENT = "document"
    REFUND = "refund"
    BOOKKEEPING = "bookkeeping"
    TOLERANCE = "tolerance"
    BANK_DETAILS = "bank-details"
    DONOR_ELSEWHERE = "donor-elsewhere"
    PHOTOGRAPH = "photograph"
    CODE = "code"
    WATCH = "watch"
    SLOT = "slot"
    CALENDAR_FEED = "calendar-feed"
    STOCK = "stock"
    STOCK_CAP = "stock-cap"
    STOCK_OFFER = "stock-offer"
    RESERVATION = "reservation"
    ALLOCATION = "allocation"
    SECOND = "second"
    OUTLOOK = "outlook"
    SAFETY_FAULT = "safety-fault"
    SAFETY_LETTER = "safety-letter"
    APPROVAL = "approval"
    RETAIL = "retail"
    REQUEST = "request"
    PERSON = "person"
    TRADE_TERMS = "trade-terms"
    BUILD_SHEET = "build-sheet"
    API_TOKEN = "api-token"  # noqa: S105 - the sort of thing, no secret


class Reach(Enum):
    """EVERY such thing, or only what belongs to the person's OWN dealer."""

    EVERY = "every"
    OWN = "own"


@dataclass(frozen=True, slots=True)
class Person:
    """`name` is what he signs in with; `dealer`: id of the dealer he works for, None for the firm's own people."""

    name: str
    display_name: str
    role: Role
    dealer: str | None = None
    language: str = "en"


@dataclass(frozen=True, slots=True)
class Thing:
    """`dealer`: id of the dealer that it belongs to; None: the firm's own."""

    sort: Sort
    dealer: str | None = None


EVERYBODY: Mapping[Role, Reach] = dict.fromkeys(Role, Reach.EVERY)
_OFFICE: Mapping[Role, Reach] = {Role.CLERK: Reach.EVERY, Role.MANAGER: Reach.EVERY}
_WORKSHOP: Mapping[Role, Reach] = dict.fromkeys((Role.LEAD, Role.INSPECTOR, Role.WELDER), Reach.EVERY)
_OFFICE_AND_WORKSHOP: Mapping[Role, Reach] = {**_OFFICE, **_WORKSHOP}
_MANAGER: Mapping[Role, Reach] = {Role.MANAGER: Reach.EVERY}
_INSPECTOR_AND_MANAGER: Mapping[Role, Reach] = {**_MANAGER, Role.INSPECTOR: Reach.EVERY}
_WORKSHOP_AND_MANAGER: Mapping[Role, Reach] = {**_MANAGER, **_WORKSHOP}
_LEADING: Mapping[Role, Reach] = {**_MANAGER, Role.LEAD: Reach.EVERY}
_LEADING_AND_INSPECTOR: Mapping[Role, Reach] = {**_LEADING, **_INSPECTOR_AND_MANAGER}
_OFFICE_AND_LEAD: Mapping[Role, Reach] = {**_OFFICE, Role.LEAD: Reach.EVERY}
_OWN_DEALER: Mapping[Role, Reach] = {Role.DEALER: Reach.OWN}
_OFFICE_AND_OWN_DEALER: Mapping[Role, Reach] = {**_OFFICE, **_OWN_DEALER}
_MANAGER_AND_OWN_DEALER: Mapping[Role, Reach] = {**_MANAGER, **_OWN_DEALER}
_HOUSE_AND_OWN_DEALER: Mapping[Role, Reach] = {**_OFFICE_AND_WORKSHOP, **_OWN_DEALER}

#: The one table. What is not written here nobody may do.
MAY: Mapping[tuple[Action, Sort], Mapping[Role, Reach]] = {
    (Action.READ, Sort.BOOK): EVERYBODY,
    (Action.ASK, Sort.BOOK): EVERYBODY,
    (Action.CREATE, Sort.BOOK): _MANAGER,
    (Action.READ, Sort.BOOK_DRAFT): _MANAGER,
    (Action.CHANGE, Sort.BOOK_DRAFT): _MANAGER,
    (Action.ASK, Sort.DONOR_NUMBER): EVERYBODY,
    (Action.READ, Sort.TOOL): EVERYBODY,
    (Action.CHANGE, Sort.TOOL): _LEADING,
    (Action.DECLARE_LOST, Sort.TOOL): _MANAGER,
    (Action.READ, Sort.DEALER): _OFFICE_AND_OWN_DEALER,
    (Action.READ, Sort.PRICE): _OFFICE_AND_OWN_DEALER,
    (Action.READ, Sort.PRICE_LIST): _OFFICE,
    (Action.READ, Sort.PROOF): _OFFICE,
    (Action.READ, Sort.WORK_TO_COME): _OFFICE_AND_WORKSHOP,
    (Action.READ, Sort.BUILD_SHEET): _OFFICE_AND_WORKSHOP,
    (Action.READ, Sort.CODE): _HOUSE_AND_OWN_DEALER,
    (Action.READ, Sort.SLOT): _OFFICE_AND_WORKSHOP,
    (Action.READ, Sort.CALENDAR_FEED): _OFFICE_AND_WORKSHOP,
    (Action.CREATE, Sort.CALENDAR_FEED): _OFFICE_AND_WORKSHOP,
    (Action.CHANGE, Sort.CALENDAR_FEED): _OFFICE_AND_WORKSHOP,
    (Action.READ, Sort.STOCK): _OFFICE_AND_WORKSHOP,
    (Action.CREATE, Sort.STOCK): _OFFICE,
    (Action.CHANGE, Sort.STOCK): _OFFICE,
    (Action.CHANGE, Sort.STOCK_CAP): _MANAGER,
    (Action.ASK, Sort.STOCK_OFFER): _OFFICE_AND_OWN_DEALER,
    (Action.READ, Sort.RESERVATION): _OFFICE_AND_OWN_DEALER,
    (Action.CREATE, Sort.RESERVATION): _OFFICE_AND_OWN_DEALER,
    (Action.CHANGE, Sort.RESERVATION): _OFFICE_AND_OWN_DEALER,
    (Action.CREATE, Sort.ALLOCATION): _OFFICE,
    (Action.CHANGE, Sort.ALLOCATION): _OFFICE,
    (Action.CREATE, Sort.SECOND): _MANAGER,
    (Action.READ, Sort.OUTLOOK): _MANAGER,
    (Action.CREATE, Sort.OUTLOOK): _MANAGER,
    (Action.READ, Sort.SAFETY_FAULT): _OFFICE_AND_WORKSHOP,
    (Action.CREATE, Sort.SAFETY_FAULT): _MANAGER,
    (Action.CHANGE, Sort.SAFETY_FAULT): _MANAGER,
    (Action.READ, Sort.SAFETY_LETTER): _OFFICE,
    (Action.CREATE, Sort.SAFETY_LETTER): _OFFICE,
    (Action.READ, Sort.WATCH): _MANAGER,
    (Action.CHANGE, Sort.WATCH): _MANAGER,
    (Action.READ, Sort.DONOR_ELSEWHERE): _OFFICE,
    (Action.READ, Sort.ORDER): _OFFICE_AND_OWN_DEALER,
    (Action.CHANGE, Sort.ORDER): _OFFICE,
    (Action.CONFIRM, Sort.ORDER): _OFFICE,
    (Action.CONFIRM, Sort.SECOND_ORDER): _MANAGER,
    (Action.READ, Sort.SHELL): _OFFICE_AND_WORKSHOP,
    (Action.RELEASE, Sort.SHELL): _LEADING,
    (Action.SIGN, Sort.SHELL): _WORKSHOP,
    (Action.HOLD, Sort.SHELL): _LEADING_AND_INSPECTOR,
    (Action.REJECT, Sort.SHELL): _INSPECTOR_AND_MANAGER,
    (Action.CANCEL, Sort.SHELL): _MANAGER,
    (Action.READ, Sort.INSPECTION): _OFFICE_AND_WORKSHOP,
    (Action.CHANGE, Sort.INSPECTION): _WORKSHOP,
    (Action.SIGN, Sort.INSPECTION): _WORKSHOP_AND_MANAGER,
    (Action.READ, Sort.GAUGE): _OFFICE_AND_WORKSHOP,
    (Action.CHANGE, Sort.GAUGE): _INSPECTOR_AND_MANAGER,
    (Action.READ, Sort.CONCESSION): _OFFICE_AND_WORKSHOP,
    (Action.ASK, Sort.CONCESSION): _WORKSHOP_AND_MANAGER,
    (Action.ANSWER, Sort.CONCESSION): _MANAGER,
    (Action.CREATE, Sort.REWORK): _LEADING_AND_INSPECTOR,
    (Action.SIGN, Sort.REWORK): _WORKSHOP,
    (Action.CANCEL, Sort.REWORK): _INSPECTOR_AND_MANAGER,
    (Action.READ, Sort.CHANGE_NOTE): _OFFICE,
    (Action.CREATE, Sort.CHANGE_NOTE): _OFFICE,
    (Action.CHANGE, Sort.CHANGE_NOTE): _OFFICE,
    (Action.ACCEPT, Sort.CHANGE_NOTE): _OFFICE,
    (Action.ANSWER, Sort.CHANGE_NOTE): _MANAGER,
    (Action.DESPATCH, Sort.SHELL): _OFFICE_AND_LEAD,
    (Action.READ, Sort.DESPATCH): _HOUSE_AND_OWN_DEALER,
    (Action.CREATE, Sort.DESPATCH): _OFFICE_AND_LEAD,
    (Action.READ, Sort.DEALER_CREDIT): _OFFICE,
    (Action.CREATE, Sort.DEALER_CREDIT): _MANAGER,
    (Action.READ, Sort.EXPORT_TERMS): _OFFICE,
    (Action.CREATE, Sort.EXPORT_EVIDENCE): _OFFICE,
    (Action.CHANGE, Sort.EXPORT_TERMS): _MANAGER,
    (Action.CHANGE, Sort.PERSONAL_CODE): _MANAGER,
    (Action.READ, Sort.KIT): _OFFICE_AND_WORKSHOP,
    (Action.CHANGE, Sort.KIT): _LEADING,
    (Action.READ, Sort.PART): _HOUSE_AND_OWN_DEALER,
    (Action.CREATE, Sort.PART): _OFFICE_AND_WORKSHOP,
    (Action.CHANGE, Sort.PART): _OFFICE_AND_WORKSHOP,
    (Action.SIGN, Sort.PART): _WORKSHOP,
    (Action.ANSWER, Sort.PART): _OFFICE,
    (Action.CREATE, Sort.PAYMENT): _OFFICE,
    (Action.READ, Sort.DOCUMENT): _OFFICE_AND_OWN_DEALER,
    (Action.CREATE, Sort.DOCUMENT): _OFFICE,
    (Action.CREATE, Sort.REFUND): _MANAGER,
    (Action.READ, Sort.BOOKKEEPING): _OFFICE,
    (Action.READ, Sort.TOLERANCE): _OFFICE,
    (Action.CHANGE, Sort.TOLERANCE): _MANAGER,
    (Action.READ, Sort.BANK_DETAILS): _OFFICE,
    (Action.CREATE, Sort.BANK_DETAILS): _MANAGER,
    (Action.ANSWER, Sort.BANK_DETAILS): _MANAGER,
    (Action.READ, Sort.CUSTOMER): _OFFICE_AND_OWN_DEALER,
    (Action.CHANGE, Sort.CUSTOMER): _OFFICE_AND_OWN_DEALER,
    (Action.READ, Sort.PERSONAL_DATA): _OFFICE,
    (Action.ERASE, Sort.PERSONAL_DATA): _MANAGER,
    (Action.READ, Sort.RETENTION): _MANAGER,
    (Action.CHANGE, Sort.RETENTION): _MANAGER,
    (Action.READ, Sort.ENQUIRY): _OFFICE_AND_OWN_DEALER,
    (Action.CREATE, Sort.ENQUIRY): _OFFICE_AND_OWN_DEALER,
    (Action.CHANGE, Sort.ENQUIRY): _OFFICE_AND_OWN_DEALER,
    (Action.READ, Sort.QUOTATION): _OFFICE_AND_OWN_DEALER,
    (Action.CREATE, Sort.QUOTATION): _OFFICE_AND_OWN_DEALER,
    (Action.CHANGE, Sort.QUOTATION): _OFFICE_AND_OWN_DEALER,
    (Action.ISSUE, Sort.QUOTATION): _OFFICE_AND_OWN_DEALER,
    (Action.ACCEPT, Sort.QUOTATION): _OFFICE_AND_OWN_DEALER,
    (Action.DECLINE, Sort.QUOTATION): _OFFICE_AND_OWN_DEALER,
    (Action.READ, Sort.PHOTOGRAPH): _OFFICE_AND_OWN_DEALER,
    (Action.CREATE, Sort.PHOTOGRAPH): _OFFICE_AND_OWN_DEALER,
    (Action.ERASE, Sort.PHOTOGRAPH): _OFFICE_AND_OWN_DEALER,
    (Action.READ, Sort.APPROVAL): _OFFICE_AND_OWN_DEALER,
    (Action.ASK, Sort.APPROVAL): _OFFICE_AND_OWN_DEALER,
    (Action.ANSWER, Sort.APPROVAL): _MANAGER,
    (Action.READ, Sort.RETAIL): _OWN_DEALER,
    (Action.CHANGE, Sort.RETAIL): _OWN_DEALER,
    (Action.READ, Sort.REQUEST): _OFFICE_AND_OWN_DEALER,
    (Action.ASK, Sort.REQUEST): _OWN_DEALER,
    (Action.CHANGE, Sort.REQUEST): _OFFICE_AND_OWN_DEALER,
    (Action.READ, Sort.PERSON): _MANAGER,
    (Action.CREATE, Sort.PERSON): _MANAGER,
    (Action.CHANGE, Sort.PERSON): _MANAGER,
    (Action.READ, Sort.TRADE_TERMS): _MANAGER,
    (Action.CHANGE, Sort.TRADE_TERMS): _MANAGER,
    (Action.READ, Sort.API_TOKEN): _MANAGER_AND_OWN_DEALER,
    (Action.CREATE, Sort.API_TOKEN): _OWN_DEALER,
    (Action.CHANGE, Sort.API_TOKEN): _MANAGER_AND_OWN_DEALER,
}


def reach(role: Role, action: Action, sort: Sort) -> Reach | None:
    """How far the role reaches with this action among things of this sort; None: not at all."""
    return MAY.get((action, sort), {}).get(role)


def may(person: Person, action: Action, thing: Thing) -> bool:
    """Whether the person may do this to that very thing."""
    match reach(person.role, action, thing.sort):
        case Reach.EVERY:
            return True
        case Reach.OWN:
            return person.dealer is not None and thing.dealer == person.dealer
        case _:
            return False
