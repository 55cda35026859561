"""Every way in which the service says no to a request, as one drawn tree. Words and HTTP statuses are made elsewhere.

A refusal names what is wrong by its `slug`, carries the `facts` that a sentence about it needs, and, where single
fields are at fault, one `Fault` for each of them, all at once. "This shell can't be built" is an answer, not a
refusal; it becomes one only where somebody asks to issue such a shell.

    Refusal
    ├── NotSignedIn                     nobody is signed in, or the sign-in has run out
    ├── SignInFailed                    name and password don't go together (never says which)
    ├── SlowDown                        too many tries, or (why too-many-requests) too many requests; facts: seconds
    ├── TokenRefused                    a program's token lets nobody in; facts: why (token-unknown, -expired, -revoked)
    ├── OutOfScope                      the token is not for that; facts: needs (scopes that are), prices
    ├── ForgerySuspected                the forgery token or the origin is missing or wrong
    ├── OwnPasswordFirst                signed in with a first password: he chooses his own before all else
    ├── MayNot                          this person may not do that; facts: action, role
    ├── NotFound                        there is no such thing, or it is another's: the same answer; facts: what, name
    ├── Conflict
    │   ├── Frozen                      the revision is issued, it can't be changed; facts: number, letter
    │   ├── NotIssued                   still a draft, nobody can answer it; facts: number, letter
    │   ├── YesStands                   what is out was accepted; facts: number, letter, accepted, said_by, day
    │   ├── AnswerStands                it was accepted, declined or superseded; facts: number, letter, why
    │   ├── Lapsed                      the yes came too late; facts: number, letter, valid_until, day (the last), zone
    │   ├── DraftStands                 the last revision is still a draft: edit that one; facts: number, letter
    │   ├── ApprovalStands              asked for or given already; facts: rule, line, why (its stage)
    │   ├── ApprovalAnswered            nothing left to say of it; facts: rule, number, why (its stage)
    │   ├── ApprovalMoot                nothing that may be built waits for it any longer; facts: rule, number
    │   ├── TaxUndecided                nobody has decided which tax case holds; facts: number
    │   ├── NotAgreed                   it came in another currency; facts: currency (the order's), paid (its own)
    │   ├── DocumentStands              that is billed, or put right, already; facts: document
    │   ├── DepositShort                a slot is taken by a deposit that is met; facts: number
    │   ├── NoSlot                      the shell has no slot that could be moved; facts: number
    │   ├── SlotsFollow                 slots would be given back by it: see which, and agree; facts: number, count
    │   ├── PlanMoved                   what would move is not what was shown: read it again
    │   ├── SlotBarred                  no shell can have that slot; facts: number, why (past, closed, gate, full)
    │   ├── StockFull                   as many are built for stock as there may be; facts: count, most
    │   ├── StockBegun                  its slot has come: it is in the workshop; facts: number
    │   ├── StockUnfit                  it can't be built for stock; facts: why (stock-cant, -open, -waits, -too-far)
    │   ├── StockTaken                  somebody was faster, or has it; facts: number, at, clock, day, nearest
    │   ├── StockMisfit                 it can't become what is wanted any more; facts: number, options, why
    │   ├── StockUnready                not as it stands; facts: number, why (see app.domain.stock.Unready)
    │   ├── NothingToBill               nothing is left to bill, credit or pay back; facts: number
    │   ├── FirmUntold                  a document needs the firm's own particulars; facts: missing
    │   ├── CannotConfirm               the order lacks something yet; a Fault for each; facts: number
    │   ├── ConfirmedAlready            facts: number, letter, day
    │   ├── DonorOrdered                another confirmed order has that donor car; facts: number, donor, others
    │   ├── NotConfirmed                only a confirmed order's shell is released; facts: number, why (deposit-gone)
    │   ├── ShellsReleased              the order follows no other revision any more; facts: number, why (changed)
    │   ├── ShellStands                 not as the shell stands; facts: serial, why (see app.domain.floor.shell.Barred)
    │   ├── ShellStopped                a tool or a gate stops it; a Fault for each; facts: number
    │   ├── FaultLifted                 that safety fault was lifted before; facts: by, day
    │   ├── WeldsUnsigned               welds of the stage have no welder yet; a Fault for each; facts: serial
    │   ├── CoatUninspected             paint is done once its coat has its verdict; facts: serial
    │   ├── ConcessionStands            it is asked for already, and nobody has answered; facts: by
    │   ├── ConcessionAnswered          granted or refused already; facts: by, why (granted, refused)
    │   ├── OwnConcession               nobody answers what he asked for himself; facts: by
    │   ├── PartBarred                  not as the customer's part stands; facts: number, why (see app.domain.part)
    │   ├── SignedWithVerdict           the inspection is signed with its verdict alone; facts: serial
    │   ├── InspectionLacks             the readings don't bear the verdict; a Fault for each lack; facts: serial
    │   ├── NotYetInspected             its coat is judged once the inspection in metal is passed; facts: serial
    │   ├── SecondNeeded                the inspector welded what he inspects: a second signs; facts: name, serial
    │   ├── ChangeBarred                no change note of it; facts: number, why (unconfirmed, over, waits, nothing, no)
    │   ├── NoteEnded                   not as the change note stands; facts: number, why (its standing)
    │   ├── NoteMoved                   what it says no longer holds: draw up another; facts: number
    │   ├── CodeRefused                 a personal code doesn't go with its person (never says which)
    │   ├── MayNotSign                  this person may not sign that; facts: name, why (role, inspection, second …)
    │   ├── RequestStands               a formal quotation of it is asked for already; facts: number, letter
    │   ├── RequestEnded                answered, withdrawn or refused already; facts: number, why (its stage)
    │   ├── RetailUntold                an offer of his own needs what he hasn't said; facts: why
    │   ├── PhotographPointedAt         who says so of the donor car points to it; facts: number
    │   ├── SecondPersonNeeded          nobody agrees to the bank details he proposed; facts: by
    │   ├── ProposalStands              a change of these bank details waits already; facts: by
    │   ├── ProposalAnswered            it was agreed to or turned down; facts: by
    │   ├── LastManager                 nobody would be left who can enable anybody; facts: name
    │   ├── PersonDisabled              a new password is for who may sign in: enable him first; facts: name
    │   ├── DataErased                  the customer's personal data were erased; facts: number, day
    │   ├── AlreadyPublished            the very same book is the current one; facts: number
    │   ├── DraftClosed                 the book's draft was published or thrown away; facts: number, why, by
    │   ├── NotRehearsed                this very text was not rehearsed as things stand; facts: number
    │   ├── RehearsalFailed             a fault was found that has to be mended; facts: number, why (unsound, known)
    │   ├── NotPacked                   nobody has written down how the shell is packed; facts: serial
    │   ├── NoEvidenceWanted            for exports that left; facts: serial, why (not-left, not-exported …)
    │   ├── CannotDespatch              something keeps it in the house; a Fault for each; facts: serial
    │   ├── BeingWorkedOut              it takes a while and has begun: ask again; facts: seconds
    │   └── Underway                    the first request with this key has not ended yet; facts: key
    ├── ChangedByAnother                edited since it was opened; facts: what, name, expected, actual
    ├── VersionMissing                  an edit must say which version it was made on
    ├── KeyMissing                      what creates must carry an idempotency key
    ├── TooLarge                        more than we read; facts: limit (bytes)
    └── Unacceptable                    understood, but can't be taken as it is
        ├── BadInput                    fields at fault, each with a Fault
        ├── UnknownNames                options, choices, lists … that the book hasn't; a Fault for each
        ├── KeyReused                   the key was used for another request; facts: key
        ├── BookRefused                 the rule book has mistakes; .mistakes
        ├── NoBook                      no rule book is in force; facts: number (or None)
        ├── NeedsNoApproval             the line does not depend on it; facts: line, rule
        ├── StructureOpen               only a whole structure is approved; facts: line, open_questions (option ids)
        ├── BookTooBranched             the book can't be worked out within the limit; facts: limit
        ├── NearestNotSought            so large a book can't be searched for the nearest shells; facts: limit
        └── CannotIssue
            ├── NothingToIssue          the revision has no line
            ├── CannotBeBuilt           facts: line, causes (each a tuple of rule or tool ids)
            ├── NotComplete             facts: line, open_questions (option ids)
            ├── NotPriced               facts: line (None: an extra), unpriced (line or extra ids), list
            └── DeliveryContradicts     facts: line, why (rules.money.tax.TaxRefusal), choice, country, region, fitting
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, ClassVar, NamedTuple


class Sum(NamedTuple):
    """An amount among the facts of a refusal: whole minor units and the currency; the reader gets it written out."""

    minor: int
    currency: str


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong with one field: `path` as in `lines.0.quantity`, `code` names the sentence, `facts` fill it.

    The codes are those of `fault` in app/words: a test holds that each that is given has its sentence.
    """

    path: str
    code: str
    facts: Mapping[str, Any] = field(default_factory=dict)


class Refusal(Exception):
    """The root. `facts` are what a sentence about it names; `faults` are single fields at fault."""

    slug: ClassVar[str] = ""

    def __init__(self, faults: Sequence[Fault] = (), **facts: Any) -> None:
        super().__init__(self.slug, facts)
        self.faults = tuple(faults)
        self.facts: dict[str, Any] = facts


class NotSignedIn(Refusal):
    slug = "not-signed-in"


class SignInFailed(Refusal):
    slug = "sign-in-failed"


class SlowDown(Refusal):
    slug = "slow-down"


class TokenRefused(Refusal):
    slug = "token-refused"


class OutOfScope(Refusal):
    slug = "out-of-scope"


class ForgerySuspected(Refusal):
    slug = "forgery-suspected"


class OwnPasswordFirst(Refusal):
    slug = "own-password-first"


class MayNot(Refusal):
    slug = "may-not"


class NotFound(Refusal):
    slug = "not-found"


class Conflict(Refusal):
    """The request is fine, the thing stands in a state that does not allow it."""


class Frozen(Conflict):
    slug = "frozen"


class NotIssued(Conflict):
    slug = "not-issued"


class YesStands(Conflict):
    """Issuing would take the place of what the customer said yes to, and nobody said that it may."""

    slug = "yes-stands"


class AnswerStands(Conflict):
    slug = "answer-stands"


class Lapsed(Conflict):
    slug = "lapsed"


class DraftStands(Conflict):
    slug = "draft-stands"


class ApprovalStands(Conflict):
    slug = "approval-stands"


class ApprovalAnswered(Conflict):
    slug = "approval-answered"


class ApprovalMoot(Conflict):
    slug = "approval-moot"


class TaxUndecided(Conflict):
    slug = "tax-undecided"


class NotAgreed(Conflict):
    slug = "not-agreed"


class DocumentStands(Conflict):
    slug = "document-stands"


class DepositShort(Conflict):
    slug = "deposit-short"


class NoSlot(Conflict):
    slug = "no-slot"


class SlotsFollow(Conflict):
    slug = "slots-follow"


class PlanMoved(Conflict):
    slug = "plan-moved"


class SlotBarred(Conflict):
    slug = "slot-barred"


class StockFull(Conflict):
    slug = "stock-full"


class StockBegun(Conflict):
    slug = "stock-begun"


class StockUnfit(Conflict):
    """`why` is a problem of its own."""

    slug = "stock-unfit"


class StockTaken(Conflict):
    slug = "stock-taken"


class StockMisfit(Conflict):
    """`why` is a problem of its own."""

    slug = "stock-misfit"


class StockUnready(Conflict):
    """`why` is a problem of its own."""

    slug = "stock-unready"


class NothingToBill(Conflict):
    slug = "nothing-to-bill"


class FirmUntold(Conflict):
    slug = "firm-untold"


class CannotConfirm(Conflict):
    slug = "cannot-confirm"


class ConfirmedAlready(Conflict):
    slug = "confirmed-already"


class DonorOrdered(Conflict):
    slug = "donor-ordered"


class NotConfirmed(Conflict):
    slug = "not-confirmed"


class ShellsReleased(Conflict):
    slug = "shells-released"


class ShellStands(Conflict):
    slug = "shell-stands"


class ShellStopped(Conflict):
    slug = "shell-stopped"


class FaultLifted(Conflict):
    slug = "fault-lifted"


class WeldsUnsigned(Conflict):
    slug = "welds-unsigned"


class CoatUninspected(Conflict):
    slug = "coat-uninspected"


class ConcessionStands(Conflict):
    slug = "concession-stands"


class ConcessionAnswered(Conflict):
    slug = "concession-answered"


class OwnConcession(Conflict):
    slug = "own-concession"


class PartBarred(Conflict):
    slug = "part-barred"


class SignedWithVerdict(Conflict):
    slug = "signed-with-verdict"


class InspectionLacks(Conflict):
    slug = "inspection-lacks"


class NotYetInspected(Conflict):
    slug = "not-yet-inspected"


class SecondNeeded(Conflict):
    slug = "second-needed"


class ChangeBarred(Conflict):
    slug = "change-barred"


class NoteEnded(Conflict):
    slug = "note-ended"


class NoteMoved(Conflict):
    slug = "note-moved"


class CodeRefused(Conflict):
    slug = "code-refused"


class MayNotSign(Conflict):
    slug = "may-not-sign"


class RequestStands(Conflict):
    slug = "request-stands"


class RequestEnded(Conflict):
    slug = "request-ended"


class RetailUntold(Conflict):
    slug = "retail-untold"


class PhotographPointedAt(Conflict):
    slug = "photograph-pointed-at"


class SecondPersonNeeded(Conflict):
    slug = "second-person-needed"


class ProposalStands(Conflict):
    slug = "proposal-stands"


class ProposalAnswered(Conflict):
    slug = "proposal-answered"


class LastManager(Conflict):
    slug = "last-manager"


class PersonDisabled(Conflict):
    slug = "person-disabled"


class DataErased(Conflict):
    slug = "data-erased"


class AlreadyPublished(Conflict):
    slug = "already-published"


class DraftClosed(Conflict):
    """It can no longer be changed; its text can still be read."""

    slug = "draft-closed"


class NotRehearsed(Conflict):
    slug = "not-rehearsed"


class RehearsalFailed(Conflict):
    slug = "rehearsal-failed"


class NotPacked(Conflict):
    slug = "not-packed"


class NoEvidenceWanted(Conflict):
    slug = "no-evidence-wanted"


class CannotDespatch(Conflict):
    slug = "cannot-despatch"


class BeingWorkedOut(Conflict):
    slug = "being-worked-out"


class Underway(Conflict):
    slug = "underway"


class ChangedByAnother(Refusal):
    slug = "changed-by-another"


class VersionMissing(Refusal):
    slug = "version-missing"


class KeyMissing(Refusal):
    slug = "key-missing"


class TooLarge(Refusal):
    slug = "too-large"


class Unacceptable(Refusal):
    """Understood, but it can't be taken as it is."""


class BadInput(Unacceptable):
    slug = "bad-input"


class UnknownNames(Unacceptable):
    slug = "unknown-names"


class KeyReused(Unacceptable):
    slug = "key-reused"


class BookRefused(Unacceptable):
    """`mistakes`: rules.reading.Mistake, all of them, in the order of the text."""

    slug = "book-refused"

    def __init__(self, mistakes: Sequence[Any]) -> None:
        super().__init__(count=len(mistakes))
        self.mistakes = tuple(mistakes)


class NoBook(Unacceptable):
    slug = "no-book"


class NeedsNoApproval(Unacceptable):
    slug = "needs-no-approval"


class StructureOpen(Unacceptable):
    slug = "structure-open"


class BookTooBranched(Unacceptable):
    slug = "book-too-branched"


class NearestNotSought(Unacceptable):
    slug = "nearest-not-sought"


class CannotIssue(Unacceptable):
    """A revision that can't leave the house as it is."""


class NothingToIssue(CannotIssue):
    slug = "nothing-to-issue"


class CannotBeBuilt(CannotIssue):
    slug = "cannot-be-built"


class NotComplete(CannotIssue):
    slug = "not-complete"


class NotPriced(CannotIssue):
    slug = "not-priced"


class DeliveryContradicts(CannotIssue):
    slug = "delivery-contradicts"


def leaves(root: type[Refusal] = Refusal) -> tuple[type[Refusal], ...]:
    """Every refusal that can be raised: the classes without children, in the drawn order."""
    below = root.__subclasses__()
    return tuple(leaf for child in below for leaf in leaves(child)) if below else (root,)
