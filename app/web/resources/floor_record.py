"""What the floor writes down of a shell: who welded it, concessions, rework. No money."""

from __future__ import annotations

from typing import Any

from app.domain.asking.people import Action, Sort
from app.services.floor import conceding, reworking, welding
from app.web import here
from app.web.blueprint import KEY, resource
from app.web.conditions import creates, once
from app.web.guard import does
from app.web.resources.floor import SHELL, shown
from app.web.schemas.floor import FloorShellOut, ShellWhyIn
from app.web.schemas.floor_record import (
    ConcessionAnswerIn,
    ConcessionIn,
    MendedIn,
    ReworkIn,
    WaitingConcessionsOut,
    WeldsIn,
)
from app.web.views.floor_recorded import waiting_view

REWORK = f"{SHELL}/rework/<{KEY}:rework>"

blp = resource("floor-record", "Who welded a shell, concessions asked for and answered, rework.")


@blp.route(f"{SHELL}/welds", methods=["POST"])
@does(Action.SIGN, Sort.SHELL)
@creates
@blp.arguments(WeldsIn)
@blp.response(201, FloorShellOut)
def sign_zones(body: dict[str, Any], shell: int) -> Any:
    """Weld zones signed by whoever welded them, with his personal code."""
    asked = (shell, body["zones"], here.signature(body["by"], body["code"]), here.now())
    welding.sign_zones(here.store(), here.me(), *asked, day=body["day"], once=once())
    return shown(shell)


@blp.route("/concessions", methods=["GET"])
@does(Action.READ, Sort.CONCESSION)
@blp.response(200, WaitingConcessionsOut)
def waiting() -> Any:
    """Concessions that nobody has answered, the longest waiting first."""
    found = conceding.waiting(here.store(), here.me(), here.now())
    return {"concessions": [waiting_view(*one) for one in found]}


@blp.route(f"{SHELL}/concessions", methods=["POST"])
@does(Action.ASK, Sort.CONCESSION)
@creates
@blp.arguments(ConcessionIn)
@blp.response(201, FloorShellOut)
def ask(body: dict[str, str], shell: int) -> Any:
    """Ask that something may stay as it is, with the reason."""
    asked = conceding.Asked(body["subject"], body["why"], body["measured"], body["limit"])
    conceding.ask(here.store(), here.me(), shell, asked, here.now(), once=once())
    return shown(shell)


@blp.route(f"{SHELL}/concessions/<{KEY}:concession>/answer", methods=["POST"])
@does(Action.ANSWER, Sort.CONCESSION)
@creates
@blp.arguments(ConcessionAnswerIn)
@blp.response(201, FloorShellOut)
def answer(body: dict[str, Any], shell: int, concession: int) -> Any:
    """Grant or refuse it, with the reason; never one's own."""
    asked = (shell, concession, body["answer"] == "granted", body["reason"], here.now())
    conceding.answer(here.store(), here.me(), *asked, day=body["day"], once=once())
    return shown(shell)


@blp.route(f"{SHELL}/rework", methods=["POST"])
@does(Action.CREATE, Sort.REWORK)
@creates
@blp.arguments(ReworkIn)
@blp.response(201, FloorShellOut)
def send_back(body: dict[str, str], shell: int) -> Any:
    """Send it back to a stage for what is to be mended."""
    asked = (shell, body["subject"], body["what"], body["stage"], here.now())
    reworking.send_back(here.store(), here.me(), *asked, once=once())
    return shown(shell)


@blp.route(f"{REWORK}/mended", methods=["POST"])
@does(Action.SIGN, Sort.REWORK)
@creates
@blp.arguments(MendedIn)
@blp.response(201, FloorShellOut)
def mend(body: dict[str, Any], shell: int, rework: int) -> Any:
    """Mended, signed by whoever did it with his personal code."""
    mended, signature = reworking.Mended(body["minutes"], body["note"]), here.signature(body["by"], body["code"])
    reworking.mend(here.store(), here.me(), shell, rework, mended, signature, here.now(), once=once())
    return shown(shell)


@blp.route(f"{REWORK}/withdrawal", methods=["POST"])
@does(Action.CANCEL, Sort.REWORK)
@creates
@blp.arguments(ShellWhyIn)
@blp.response(201, FloorShellOut)
def withdraw(body: dict[str, str], shell: int, rework: int) -> Any:
    """Nothing is mended after all, with the reason."""
    reworking.withdraw(here.store(), here.me(), shell, rework, body["why"], here.now(), once=once())
    return shown(shell)
