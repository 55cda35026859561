"""The book is changed by file: taken out as text, edited, brought back, seen, mended, published, and taken back."""

from __future__ import annotations

from time import sleep
from typing import Any

from tests.web.conftest import Desk, Work
from tests.web.reader import Reader, fresh_key
from tests.web.test_book_drafts import begun

PADS = "  | pads   | Pads | Dämmmatten  | 310 | 375 | 415 |"
MATS = "  | mats   | Mats | Matten      | 190 | 230 | 255 |"

#: By mistake of everything that is primed, and not of mats alone.
TOO_WIDE = """
rule D24
  never: finish is primed
  reason en: Mats are laid on finished paint.
  reason de: Matten kommen auf fertigen Lack.
"""
MENDED = TOO_WIDE.replace("finish is primed", "finish is primed and deadening is mats")


class ByFile:
    """One draft at the manager's desk, changed by nothing but its text."""

    def __init__(self, manager: Reader, base: dict[str, int] | None = None) -> None:
        self.manager = manager
        made = manager.send("POST", "/api/book-drafts", base, **fresh_key()).get_json() if base else begun(manager)
        self.path = f"/api/book-drafts/{made['id']}"

    def taken_out(self) -> str:
        return self.manager.get(f"{self.path}/text").get_data(as_text=True)

    def bring_back(self, text: str) -> dict[str, Any]:
        version = self.manager.get(self.path).headers["ETag"]
        found: dict[str, Any] = self.manager.send(
            "PUT", f"{self.path}/text", {"text": text}, **{"If-Match": version}
        ).get_json()
        return found

    def changed_lines(self) -> list[tuple[str, str]]:
        diff = self.manager.get(f"{self.path}/changes").get_json()
        return [(one["mark"], one["line"]) for one in diff["lines"] if one["mark"] in "+-"]

    def rehearse(self) -> dict[str, Any]:
        self.manager.send("POST", f"{self.path}/rehearsal", None)
        return self._done("rehearsal", "done")

    def publish(self, note: str) -> Any:
        """Once it is proved, too: that the proof is ready is asked for as the page asks."""
        version = self.manager.get(self.path).headers["ETag"]
        for _ in range(300):
            answer = self.manager.send("POST", f"{self.path}/publish", {"note": note}, **{"If-Match": version})
            if answer.get_json().get("type") != "/problems/being-worked-out":
                return answer
            sleep(0.05)
        raise AssertionError("The proof never ended.")

    def _done(self, what: str, state: str) -> dict[str, Any]:
        for _ in range(300):
            found: dict[str, Any] = self.manager.get(f"{self.path}/{what}").get_json()
            if found["state"] == state:
                return found
            sleep(0.05)
        raise AssertionError(f"The {what} never ended.")


def test_a_choice_and_a_rule_come_by_file_are_seen_mended_published_and_taken_back(
    busy_desk: Desk, worked: Work
) -> None:
    manager = busy_desk.signed_in("piers")
    draft = ByFile(manager)
    first = draft.taken_out()
    edited = first.replace(PADS, f"{PADS}\n{MATS}") + TOO_WIDE
    assert draft.bring_back(edited)["faults"] == []
    # Nothing is lost between the two ways: what comes out again is what was brought, and differs by just these lines.
    assert draft.taken_out() == edited
    assert draft.changed_lines() == [("+", MATS), *(("+", line) for line in TOO_WIDE.lstrip().split("\n"))]

    found = draft.rehearse()
    numbers = {one["number"] for one in found["touched"]}
    assert {worked.draft, worked.issued, worked.accepted} <= numbers
    assert any(one["fault"] for one in found["known"])
    refused = draft.publish("Mats.")
    assert (refused.status_code, refused.get_json()["type"]) == (409, "/problems/rehearsal-failed")

    mended = draft.taken_out().replace(TOO_WIDE, MENDED)
    assert draft.bring_back(mended)["faults"] == []
    unseen = draft.publish("Mats.")
    assert (unseen.status_code, unseen.get_json()["type"]) == (409, "/problems/not-rehearsed")
    found = draft.rehearse()
    assert (found["touched"], any(one["fault"] for one in found["known"])) == ([], False)
    published = draft.publish("Mats, on painted shells.")
    assert (published.status_code, published.get_json()["book"]) == (200, 2)
    assert "mats" in str(manager.get("/api/books/current").get_json()["options"])

    back = ByFile(manager, {"base": 1})
    assert back.taken_out() == first
    back.rehearse()
    assert back.publish("As it was.").get_json()["book"] == 3
    assert ByFile(manager).taken_out() == first
    assert "mats" not in str(manager.get("/api/books/current").get_json()["options"])
