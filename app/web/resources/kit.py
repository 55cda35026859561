"""The kit of a shell: checked line by line before the lead releases it."""

from __future__ import annotations

from typing import Any

from app.domain.asking.people import Action, Sort
from app.domain.floor.kit import KitStands
from app.services.floor import kitting
from app.services.floor.kitting import Kit
from app.services.parts.taking_in import OrderedPart
from app.web import here
from app.web.blueprint import resource
from app.web.conditions import creates, once
from app.web.guard import does
from app.web.resources.floor import SHELL
from app.web.schemas.kit import KitCheckIn, KitOut
from app.web.views.floored import shell_view
from app.web.views.parted import before_label
from rules.making import KitLine

ONE = f"{SHELL}/kit"

blp = resource("kit", "The kit of each shell, checked line by line before it is released.")


@blp.route(ONE, methods=["GET"])
@does(Action.READ, Sort.KIT)
@blp.response(200, KitOut)
def kit(shell: int) -> Any:
    """Every line with what was last said of it, and the customer's parts by their own records."""
    return _shown(shell)


@blp.route(ONE, methods=["POST"])
@does(Action.CHANGE, Sort.KIT)
@creates
@blp.arguments(KitCheckIn)
@blp.response(201, KitOut)
def check(body: dict[str, Any], shell: int) -> Any:
    """One line: present, short, or a substitute with what it is and who approved it."""
    said = (here.store(), here.me(), shell, body["line"], KitStands(body["stands"]), here.now())
    kitting.check(*said, what=body["what"], approved_by=body["approved_by"], once=once())
    return _shown(shell)


@blp.route(f"{ONE}/rest", methods=["POST"])
@does(Action.CHANGE, Sort.KIT)
@creates
@blp.response(201, KitOut)
def rest_present(shell: int) -> Any:
    """Every line of which nobody has said anything is present."""
    kitting.all_present(here.store(), here.me(), shell, here.now(), once=once())
    return _shown(shell)


def _shown(shell: int) -> Any:
    found = kitting.kit(here.store(), here.me(), shell, here.now())
    return {
        "lines": [_line(found, line) for line in found.lines],
        "parts": list(map(_part, found.parts)),
        "open": found.open,
        "approvers": [
            {"name": one.name, "display_name": one.display_name}
            for one in found.approvers
            if one.name != here.me().name
        ],
        "shell": shell_view(found.shell),
    }


def _line(found: Kit, line: KitLine) -> dict[str, Any]:
    said = found.said.get(line.id)
    return {
        "line": line.id,
        "supply": line.supply.value,
        "label": line.label,
        "stands": said and said.stands.value,
        "what": said.what if said else "",
        "approved_by_name": said and said.approved_by and here.called(said.approved_by),
        "by_name": said and here.called(said.by),
        "at": said and said.at,
    }


def _part(one: OrderedPart) -> dict[str, Any]:
    rule = one.book.rule(one.tag.rule)
    told = {"tag": one.tag.number, "rule": one.tag.rule, "part": rule.part or rule.title}
    return {**told, "before": before_label(one), "stands": one.stands.value}
