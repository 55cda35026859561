"""The verdict on a shell: signed by an inspector with his own code, and by a second person where he welded any of it.

In metal it signs the stage of inspection, and nothing else does. A shell that fails is sent back with all that failed,
or rejected. A verdict that is not borne by the readings is refused, whoever signs it.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlite_utils import Database

from app.domain.asking.actor import Actor
from app.domain.asking.people import Person
from app.domain.errors import Fault, InspectionLacks, NotYetInspected, SecondNeeded, ShellStands
from app.domain.floor.rework import open_rework
from app.domain.floor.shell import Barred, Deed, Done
from app.domain.inspection.inspection import Decided, Lack, Verdict, about, lacking, own_zones
from app.domain.inspection.subject import subject
from app.services.answering.checking import LONGEST_TEXT, blank_faults, long_faults, refuse
from app.services.floor import building
from app.services.floor.finding import note_shell
from app.services.floor.signing import Signature, lead_or_inspector, signed_by
from app.services.floor.stopping import refuse_barred, refuse_planned, refuse_stopped
from app.services.inspection.inspecting import Inspection, inspected
from app.services.once import Once, perform
from app.store import inspections, rework
from app.store.db import Store
from rules.inspection.subject import Phase
from rules.model import Work


@dataclass(frozen=True, slots=True)
class Said:
    """`why`: for all but a pass; `stage`: to which it is sent back."""

    phase: Phase
    verdict: Verdict
    why: str = ""
    stage: str = ""


def decide(
    store: Store,
    actor: Actor,
    key: int,
    said: Said,
    signature: Signature,
    now: datetime,
    *,
    second: Signature | None = None,
    once: Once | None = None,
) -> None:
    """Gives the verdict, and does what follows from it.

    Raises NotFound, BadInput, InspectionLacks, NotYetInspected, SecondNeeded, ShellStands, ShellStopped, CodeRefused,
    SlowDown, MayNotSign, KeyReused, Underway.
    """
    refuse(() if said.verdict is Verdict.PASS else blank_faults("why", said.why))
    refuse(long_faults("why", said.why, LONGEST_TEXT))
    signer = signed_by(store, signature, Work.INSPECTION, now)
    beside = None if second is None else signed_by(store, second, None, now)

    def write(db: Database) -> int:
        one = inspected(store, db, actor, key, now)
        refuse_planned(one.found)
        _refuse_lacking(one, said)
        _refuse_alone(one, said, signer, beside)
        name = None if beside is None else beside.name
        decided = Decided(said.phase, said.verdict, said.why, now, actor.name, signer.name, name)
        inspections.add_verdict(db, one.found.shell.id, decided)
        facts = {"phase": said.phase.value, "verdict": said.verdict.value, "signed": signer.display_name}
        note_shell(db, one.found, "shell-inspected", actor, now, **facts)
        _carry_out(db, actor, one, said, decided)
        return one.found.shell.id

    perform(store, once, now, write)


def _refuse_lacking(one: Inspection, said: Said) -> None:
    lacks = lacking(said.verdict, one.looked[said.phase])
    if lacks:
        raise InspectionLacks([_fault(*lack) for lack in lacks], serial=one.serial)
    if said.phase is Phase.COATED and not one.is_through:
        raise NotYetInspected(serial=one.serial)
    if said.phase is Phase.COATED and said.verdict.passes and _unpainted(one):
        raise ShellStands(serial=one.serial, why=Barred.NOT_BEGUN.value)
    if said.verdict.passes and open_rework(one.reworks):
        raise ShellStands(serial=one.serial, why=Barred.IN_REWORK.value)


def _unpainted(one: Inspection) -> bool:
    """Whether it is still to be painted: what would be passed is no coat yet."""
    shell = one.found.shell
    paints = {stop.stage for stop in shell.route if stop.work is Work.PAINT}
    begun = {done.stage for done in shell.deeds if done.deed is Deed.BEGUN}
    return bool(paints - begun)


def _fault(lack: Lack, names: tuple[str, ...]) -> Fault:
    return Fault(lack.value, f"lacks-{lack.value}", {"count": len(names), "names": names[:6]})


def _refuse_alone(one: Inspection, said: Said, signer: Person, beside: Person | None) -> None:
    """Nobody signs alone who welded any zone that he inspects; and nobody beside him who welded one of those."""
    if beside is not None:
        lead_or_inspector(beside, "second")
    own = own_zones(signer.name, one.welders) if said.phase is Phase.METAL and said.verdict.passes else ()
    if not own:
        return
    if beside is None or beside.name == signer.name or set(own) & set(own_zones(beside.name, one.welders)):
        raise SecondNeeded(name=signer.display_name, serial=one.serial)


def _carry_out(db: Database, actor: Actor, one: Inspection, said: Said, decided: Decided) -> None:
    match said.verdict:
        case Verdict.REWORK:
            _send_back(db, one, said, decided)
        case Verdict.REJECT:
            building.do(db, actor, one.found, Deed.REJECTED, said.why, decided.at)
        case _ if said.phase is Phase.METAL:
            _sign_stage(db, one, decided)


def _sign_stage(db: Database, one: Inspection, decided: Decided) -> None:
    refuse_barred(one.found, Deed.DONE, one.stage)
    refuse_stopped(one.found)
    building.sign(db, one.found, Done(Deed.DONE, decided.at, decided.by, one.stage, signed=decided.signed))


def _send_back(db: Database, one: Inspection, said: Said, decided: Decided) -> None:
    """Each thing that failed once, however many of its readings did, and what was sent back before not again."""
    refuse_barred(one.found, Deed.SENT_BACK, said.stage)
    looked = one.looked[said.phase]
    under_way = {str(each.subject) for each in open_rework(one.reworks)}
    for name in dict.fromkeys(about(failed, looked.gaps) for failed in looked.failed):
        failed = subject(name)
        assert failed is not None
        if name not in under_way:
            rework.add(db, one.found.shell.id, failed, said.why, said.stage, decided.by, decided.at)
