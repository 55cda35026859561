"""Everybody, each with what he did: added, disabled, enabled, reset by a manager; and one's own password."""

from __future__ import annotations

from typing import Any

from app.domain.asking.members import Member
from app.domain.asking.people import Action, Person, Sort
from app.services.people import signing_in, staffing
from app.services.people.staffing import Told
from app.store.history import Entry
from app.web import here
from app.web.blueprint import resource
from app.web.conditions import creates, once
from app.web.gate import token
from app.web.guard import does, for_anybody_signed_in
from app.web.resources.session import shown
from app.web.schemas.people import (
    MemberOut,
    MemberPageOut,
    MembersOut,
    MemberToldOut,
    OwnPasswordIn,
    PageIn,
    PersonIn,
)
from app.web.schemas.session import SessionOut
from app.web.views.ordered import happening_view

blp = resource("people", "Who signs in here: added, disabled, enabled, never deleted; what each of them did.")

ONE = "/people/<string(maxlength=40):name>"


@blp.route("/people", methods=["GET"])
@does(Action.READ, Sort.PERSON)
@blp.response(200, MembersOut)
def everybody() -> Any:
    """Everybody, whoever is disabled too."""
    return {"people": [_view(one) for one in staffing.everybody(here.store())]}


@blp.route("/people", methods=["POST"])
@does(Action.CREATE, Sort.PERSON)
@creates
@blp.arguments(PersonIn)
@blp.response(201, MemberToldOut)
def add(person: Person) -> Any:
    """Add somebody: his first password is in this answer and in no other."""
    return _told(staffing.add(here.store(), here.parts().hasher, here.me(), person, here.now(), once=once()))


@blp.route(ONE, methods=["GET"])
@does(Action.READ, Sort.PERSON)
@blp.arguments(PageIn, location="query")
@blp.response(200, MemberPageOut)
def one_person(query: dict[str, Any], name: str) -> Any:
    """One of them, with what he did."""
    found = staffing.member(here.store(), name)
    deeds, more = staffing.deeds(here.store(), name, query["page"])
    told = [happening_view(one) for one in reversed(staffing.happened_to(here.store(), name))]
    shown_deeds = [_deed(one) for one in deeds]
    return {**_view(found), "history": told, "deeds": shown_deeds, "page": query["page"], "more": more}


@blp.route(f"{ONE}/password", methods=["POST"])
@does(Action.CHANGE, Sort.PERSON)
@creates
@blp.response(201, MemberToldOut)
def reset(name: str) -> Any:
    """A new first password, told once; where he is signed in, he is out."""
    return _told(staffing.reset(here.store(), here.parts().hasher, here.me(), name, here.now(), once=once()))


@blp.route(f"{ONE}/disabled", methods=["PUT"])
@does(Action.CHANGE, Sort.PERSON)
@blp.response(200, MemberOut)
def disable(name: str) -> Any:
    """He is out at once, his programs with him, and does not get in again until he is enabled."""
    return _view(staffing.disable(here.store(), here.me(), name, here.now()))


@blp.route(f"{ONE}/disabled", methods=["DELETE"])
@does(Action.CHANGE, Sort.PERSON)
@blp.response(200, MemberOut)
def enable(name: str) -> Any:
    """He may sign in again, with the password that he had."""
    return _view(staffing.enable(here.store(), here.me(), name, here.now()))


@blp.route("/password", methods=["PUT"])
@for_anybody_signed_in
@blp.arguments(OwnPasswordIn)
@blp.response(200, SessionOut)
def choose_own_password(body: dict[str, str]) -> Any:
    """Change one's own password; wherever else one is signed in, one is out."""
    own, hasher = token() or "", here.parts().hasher
    told = (body["current"], body["new"])
    return shown(signing_in.choose_password(here.store(), hasher, own, *told, here.address(), here.now()), own)


def _told(told: Told) -> dict[str, Any]:
    return {**_view(told.member), "password": told.password}


def _view(member: Member) -> dict[str, Any]:
    person = member.person
    return {
        "name": person.name,
        "display_name": person.display_name,
        "role": person.role.value,
        "dealer": person.dealer,
        "dealer_name": person.dealer and here.dealer_called(person.dealer),
        "language": person.language,
        "added_at": member.added_at,
        "disabled_at": member.disabled_at,
        "first_password": member.first_password,
        "mine": person.name == here.me().name,
    }


def _deed(entry: Entry) -> dict[str, Any]:
    return {**happening_view(entry.happening), "thing": entry.thing, "of": entry.name}
