"""The workshop's floor: shells of confirmed orders, released and done stage by stage; personal codes. No money."""

from __future__ import annotations

from typing import Any

from app import calendar
from app.domain.asking.people import Action, Sort
from app.domain.floor.shell import Deed
from app.services.floor import building, overseeing, sheeting, signing
from app.web import here
from app.web.blueprint import KEY, resource
from app.web.conditions import creates, once
from app.web.guard import does
from app.web.laid_out import lay_out_sheets
from app.web.schemas.floor import CodeIn, FloorOut, FloorShellOut, ShellWhyIn, SignedIn, SignersOut
from app.web.views.floored import shell_view
from app.web.views.subjects import subjects_view

SHELL = f"/shells/<{KEY}:shell>"

blp = resource("floor", "Shells in the workshop, each with its serial, its stage and what stops it.")


@blp.route("/floor", methods=["GET"])
@does(Action.READ, Sort.SHELL)
@blp.response(200, FloorOut)
def floor() -> Any:
    """Every shell of every confirmed order that is not over, by the day of its slot."""
    found = overseeing.floor(here.store(), here.now())
    subjects = subjects_view((one.book, one.subjects) for one in found)
    return {"shells": [shell_view(one) for one in found], "subjects": subjects}


@blp.route(SHELL, methods=["GET"])
@does(Action.READ, Sort.SHELL)
@blp.response(200, FloorShellOut)
def one_shell(shell: int) -> Any:
    """One shell with its route, what was done to it, and what may still change."""
    return shown(shell)


@blp.route(f"{SHELL}/release", methods=["POST"])
@does(Action.RELEASE, Sort.SHELL)
@creates
@blp.response(201, FloorShellOut)
def release(shell: int) -> Any:
    """Release it to the workshop: its serial is given, its route frozen."""
    building.release(here.store(), here.me(), shell, here.now(), once=once())
    lay_out_sheets(shell)
    return shown(shell)


@blp.route(f"{SHELL}/stages", methods=["POST"])
@does(Action.SIGN, Sort.SHELL)
@creates
@blp.arguments(SignedIn)
@blp.response(201, FloorShellOut)
def sign_stage(body: dict[str, str], shell: int) -> Any:
    """A stage done (or paint begun), signed by a named person with his personal code."""
    signature = here.signature(body["by"], body["code"])
    asked = (shell, Deed(body["deed"]), body["stage"], signature, here.now())
    building.sign_stage(here.store(), here.me(), *asked, once=once())
    return shown(shell)


@blp.route(f"{SHELL}/hold", methods=["POST"])
@does(Action.HOLD, Sort.SHELL)
@creates
@blp.arguments(ShellWhyIn)
@blp.response(201, FloorShellOut)
def hold(body: dict[str, str], shell: int) -> Any:
    """Stop it where it is, with the reason."""
    return _said(shell, Deed.HELD, body["why"])


@blp.route(f"{SHELL}/go-on", methods=["POST"])
@does(Action.HOLD, Sort.SHELL)
@creates
@blp.arguments(ShellWhyIn)
@blp.response(201, FloorShellOut)
def go_on(body: dict[str, str], shell: int) -> Any:
    """Let a held shell go on, with the reason."""
    return _said(shell, Deed.WENT_ON, body["why"])


@blp.route(f"{SHELL}/rejection", methods=["POST"])
@does(Action.REJECT, Sort.SHELL)
@creates
@blp.arguments(ShellWhyIn)
@blp.response(201, FloorShellOut)
def reject(body: dict[str, str], shell: int) -> Any:
    """Reject it, with the reason. Another is built in its place once somebody says so."""
    return _said(shell, Deed.REJECTED, body["why"])


@blp.route(f"{SHELL}/replacement", methods=["POST"])
@does(Action.RELEASE, Sort.SHELL)
@creates
@blp.response(201, FloorShellOut)
def replace(shell: int) -> Any:
    """Plan a new shell in the place of a rejected one, under the same line of the order."""
    return shown(building.replace(here.store(), here.me(), shell, calendar.around, here.now(), once=once()))


@blp.route(f"{SHELL}/sheet-revisions", methods=["POST"])
@does(Action.RELEASE, Sort.SHELL)
@creates
@blp.arguments(ShellWhyIn)
@blp.response(201, FloorShellOut)
def draw_sheet_again(body: dict[str, str], shell: int) -> Any:
    """The next revision of a released shell's build sheet, with the reason: those before are out of date at once."""
    sheeting.draw_again(here.store(), here.me(), shell, body["why"], here.now(), once=once())
    lay_out_sheets(shell)
    return shown(shell)


@blp.route("/signers", methods=["GET"])
@does(Action.READ, Sort.SHELL)
@blp.response(200, SignersOut)
def signers() -> Any:
    """Who may sign a stage, and who has a code."""
    return _signers()


@blp.route("/signers/<string(maxlength=80):name>/code", methods=["PUT"])
@does(Action.CHANGE, Sort.PERSONAL_CODE)
@blp.arguments(CodeIn)
@blp.response(200, SignersOut)
def set_code(body: dict[str, str], name: str) -> Any:
    """Set somebody's personal code, or set it anew; the one before counts no more."""
    signing.set_code(here.store(), here.parts().hasher, here.me(), name, body["code"], here.now())
    return _signers()


def _said(shell: int, deed: Deed, why: str) -> Any:
    building.say(here.store(), here.me(), shell, deed, why, here.now(), once=once())
    return shown(shell)


def shown(shell: int) -> Any:
    """The shell as the floor shows it, once a deed is done to it."""
    return shell_view(overseeing.shell(here.store(), here.me(), shell, here.now()))


def _signers() -> Any:
    told = signing.signers(here.store())
    return {
        "signers": [
            {"name": one.name, "display_name": one.display_name, "role": one.role.value, "has_code": has}
            for one, has in told.items()
        ]
    }
