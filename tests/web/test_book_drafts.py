"""A draft of the rule book over HTTP: what the screen is given, and that it is all refused while prices are hidden."""

from __future__ import annotations

from time import sleep
from typing import Any

from tests.web.conftest import Desk
from tests.web.reader import Reader, fresh_key


def begun(manager: Reader) -> dict[str, Any]:
    made = manager.send("POST", "/api/book-drafts", {}, **fresh_key())
    assert made.status_code == 201
    found: dict[str, Any] = made.get_json()
    return found


def at(draft: dict[str, Any], kind: str, name: str) -> int:
    return next(n for n, one in enumerate(draft["pieces"]) if (one["kind"], one["name"]) == (kind, name))


def test_a_draft_lists_its_blocks_with_labels_and_what_it_declares(desk: Desk) -> None:
    draft = begun(desk.signed_in("piers"))
    assert draft["pieces"][at(draft, "option", "body")] == {
        "kind": "option", "name": "body", "label": {"en": "Body", "de": "Aufbau"}, "mistakes": 0}  # fmt: skip
    body = next(one for one in draft["declared"]["of"]["option"] if one["id"] == "body")
    assert body["parts"][1] == {"id": "coupe", "label": {"en": "Coupé", "de": "Coupé"}}
    assert draft["declared"]["languages"] == ["en", "de"]
    assert (draft["standing"], draft["version"], draft["faults"]) == ("open", 1, [])


def test_a_changed_block_shows_as_a_change_of_two_lines_and_the_second_editor_is_told(desk: Desk) -> None:
    manager = desk.signed_in("piers")
    draft = begun(manager)
    path = f"/api/book-drafts/{draft['id']}"
    piece = f"{path}/pieces/{at(draft, 'rule', 'N4')}"
    was = manager.get(piece)
    rule = was.get_json()
    fields = [{**one, "value": "No roof."} if one["name"] == "reason en" else one for one in rule["fields"]]
    body = {"kind": "rule", "name": "N4", "fields": fields, "rows": []}
    tagged = {"If-Match": was.headers["ETag"]}
    assert manager.send("PUT", piece, body, **tagged).get_json()["version"] == 2
    diff = manager.get(f"{path}/changes").get_json()
    assert (diff["added"], diff["taken_out"]) == (1, 1)
    assert [one["line"] for one in diff["lines"] if one["mark"] == "+"] == ["  reason en: No roof."]
    late = desk.signed_in("maren").send("PUT", piece, body, **tagged)
    assert (late.status_code, late.get_json()["type"]) == (412, "/problems/changed-by-another")


def test_a_condition_is_said_in_the_readers_language(desk: Desk) -> None:
    manager = desk.signed_in("piers")
    path = f"/api/book-drafts/{begun(manager)['id']}/conditions"
    found = manager.send("POST", path, {"text": "body is coupe"}).get_json()
    assert found["said"] == "Body “Coupé”"
    assert found["terms"] == {"every": True, "terms": [{"option": "body", "how": "is", "choices": ["coupe"]}]}
    wrong = manager.send("POST", path, {"text": "body is cope"}).get_json()
    assert (wrong["said"], wrong["faults"][0]["instead"]) == (None, "did you mean “coupe”?")


def test_a_rehearsal_is_begun_asked_for_and_answers_in_the_drafts_words(desk: Desk) -> None:
    manager = desk.signed_in("piers")
    draft = begun(manager)
    path = f"/api/book-drafts/{draft['id']}"
    assert manager.get(f"{path}/rehearsal").get_json()["state"] == "none"
    assert manager.send("POST", f"{path}/rehearsal", None).status_code == 202
    for _ in range(200):
        found = manager.get(f"{path}/rehearsal").get_json()
        if found["state"] == "done":
            break
        sleep(0.05)
    assert (found["against"], found["touched"], {one["fault"] for one in found["known"]}) == (1, [], {False})
    tagged = {"If-Match": f'"{draft["version"]}"'}
    same = manager.send("POST", f"{path}/publish", {"note": "As it is."}, **tagged)
    assert (same.status_code, same.get_json()["type"]) == (409, "/problems/already-published")
    assert manager.get(path).get_json()["standing"] == "open"


def test_a_sheet_with_a_wrong_line_says_what_to_write_there(desk: Desk) -> None:
    manager = desk.signed_in("piers")
    path = f"/api/book-drafts/{begun(manager)['id']}/prices"
    tagged = {"If-Match": '"1"'}
    refused = manager.send("PUT", path, {"csv": "price,GBP\nbody.coupe,£3"}, **tagged).get_json()
    assert refused["errors"] == {
        "csv.2": ["“£3” is no amount: write it like 11 850 or 11850.00, a decimal point, no currency sign."]
    }
    text = manager.get(f"{path}.csv").get_data(as_text=True)
    assert text.splitlines()[:2] == ["price,label,GBP,EUR,USD", "body.roadster,Body: Roadster,11 850,14 200,15 900"]


def test_nothing_of_a_draft_is_told_while_prices_are_hidden(desk: Desk) -> None:
    manager = desk.signed_in("piers")
    path = f"/api/book-drafts/{begun(manager)['id']}"
    manager.send("PATCH", "/api/session", {"prices_shown": False})
    for asked in ("", "/text", "/prices", "/prices.csv", "/pieces/3", "/changes", "/rehearsal"):
        assert manager.get(f"{path}{asked}").status_code == 403, asked
    written = manager.send("PUT", f"{path}/text", {"text": "book x"}, **{"If-Match": '"1"'})
    assert written.status_code == 403
