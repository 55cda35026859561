"""Case 9: the four-link bracket tool breaks at 10:40. What is promised and what is being written, before it is said."""

from __future__ import annotations

from tests.cases.desk import Desk, choice_of
from tests.support.product import Product

CONSEQUENCES = "/api/tools/four-link-tool/consequences?state="
FOUR_LINK = {"series": "s3", "market": "home", "body": "roadster", "suspension": "four-link", "bonnet": "raised"}


def test_case_09_one_switch_with_the_day_of_return_and_quoting_goes_on(server: Product) -> None:
    lead = Desk(server.url, "tomasz", server.passwords["tomasz"])
    found = lead.get(f"{CONSEQUENCES}down")
    # 13 632 of 50 496 buildable structures, 27.0 %: the scenario's own counts.
    assert [found["relies"][name] for name in ("using", "structures", "percent")] == ["13632", "50496", "27.0"]
    assert [group["sort"] for group in found["touched"]] == ["accepted", "issued", "draft"]
    say(lead, {"state": "down", "until": "2027-12-16", "note": "The ram leaks."})
    try:
        answer = lead.as_original(FOUR_LINK)
        assert (answer["verdict"], answer["depends"]["tools"]) == ("not-as-had", ["four-link-tool"])
        assert "tools" in answer["ready"]["gates"]
    finally:
        say(lead, {"state": "ok"})


def test_case_09_lost_turns_them_to_never_and_only_the_manager_may_say_it(server: Product) -> None:
    manager, lead = (Desk(server.url, name, server.passwords[name]) for name in ("piers", "tomasz"))
    assert manager.get(f"{CONSEQUENCES}lost")["effect"] == "never"
    lead.send("GET", f"{CONSEQUENCES}lost", expect=403)
    say(manager, {"state": "lost", "note": "Stolen."})
    try:
        answer = lead.ask({})
        assert choice_of(answer, "suspension", "four-link")["state"] == "closed"
    finally:
        say(manager, {"state": "ok"})


def say(who: Desk, entry: dict[str, str]) -> None:
    etag = who.http.get(f"{who.url}/api/tools").headers["ETag"]
    who.send("PUT", "/api/tools/four-link-tool", entry, {"If-Match": etag})
