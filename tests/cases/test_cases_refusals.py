"""Cases 3, 4, 6, 7, 8 and 11 as a clerk reads them out: why not, why so, and what else, in English and in German."""

from __future__ import annotations

import re
from datetime import date
from typing import Any

from tests.cases.desk import Choices, Desk, only_case

PRIVATE_GBP = {"price_list": "GBP", "delivery_place": {"country": "GB"}, "customer_country": "GB"}
CASE_3 = (
    {"series": "s3", "market": "home", "body": "roadster", "bumpers": "impact"},
    {"series": "s3", "number": 12044},
)
CASE_4 = ({"series": "s3", "market": "north-america", "body": "roadster"}, {"series": "s3", "number": 12044})
CASE_6 = ({"series": "s1", "market": "home", "body": "roadster"}, {"series": "s1", "number": 3000})
CASE_7 = ({"series": "s4", "market": "home", "body": "roadster", "bumpers": "impact"}, {"series": "s4", "number": 3000})
CASE_11 = ({"series": "s2", "market": "home", "body": "coupe"}, {"series": "s2", "number": 5900})
RIGHT = {"option": "steering", "choice": "right"}
DAY = r" With the slots of today.*? \d{4}\.| Mit den Plätzen von heute.* fertig\."
FOUR_LINK = {"option": "suspension", "choice": "four-link"}


def question(desk: Desk, case: tuple[Choices, Any], language: str = "en") -> dict[str, Any]:
    """The reader's own answers over the usual of the car, all taken over."""
    own, donor = case
    usual = desk.usual(donor, **{key: own[key] for key in ("series", "market", "body")})
    answers = {o: {"choice": c, "origin": "usual"} for o, c in usual.items()}
    answers |= {o: {"choice": c, "origin": "chosen"} for o, c in own.items()}
    return {"specification": answers, "donor": donor, "language": language, **PRIVATE_GBP}


def reasons(desk: Desk, case: tuple[Choices, Any], wish: Any = None, language: str = "en") -> list[str]:
    asked = {**question(desk, case, language), "wish": wish}
    return [reason["sentence"] for reason in desk.send("POST", "/api/reasons", asked)["reasons"]]


def offers(desk: Desk, case: tuple[Choices, Any], wish: Any = None, language: str = "en") -> Any:
    return desk.send("POST", "/api/alternatives", {**question(desk, case, language), "wish": wish})


def sentence(alternative: Any) -> str:
    """What is said of it, but for its day: that hangs on what else takes slots while the tests run."""
    return re.sub(DAY, "", alternative["sentence"])


def read_out(alternative: Any) -> str:
    """All that is said of it: what it is, then what it costs."""
    return f"{sentence(alternative)} {alternative['difference']['sentence']}"


def why(desk: Desk, asked: Any, option: str) -> str:
    return str(desk.send("POST", "/api/whys", {**asked, "option": option})["sentence"])


def test_case_03_impact_bumpers_on_an_s3(clerk: Desk) -> None:
    assert reasons(clerk, CASE_3)[0] == (
        "Because it is an S3 and it has impact bumpers, and D1: impact bumpers belong to S4, this shell can’t be built."
    )
    assert reasons(clerk, CASE_3, language="de")[0] == (
        "Weil es ein S3 ist und der Wagen Prallstoßfänger hat und weil (D1) Prallstoßfänger zur Serie S4 gehören, "
        "lässt sich diese Karosserie nicht bauen."
    )


def test_case_03_chrome_or_an_s4(clerk: Desk) -> None:
    chrome, s4, *_ = offers(clerk, CASE_3)["alternatives"]
    assert read_out(chrome) == (
        "If it has chrome bumpers, it can be built. It takes 26 to 36 working days. With tax it comes to £14,508.00."
    )
    assert read_out(s4) == (
        "If it is an S4, it can be built; it follows that the spare-wheel well is shallow and the rail ends are boxed. "
        "It takes 26 to 36 working days. To be said with it: Not the donor’s series. "
        "With tax it comes to £14,970.00: £462.00 more than number 1."
    )
    assert "C1" in s4["gains"]["cautions"]


def test_case_04_a_right_hand_s3_for_north_america(clerk: Desk) -> None:
    assert reasons(clerk, CASE_4, RIGHT)[:2] == [
        "Because it is an S3 and it is for North America, and N6: no right-hand bulkhead for that dash was ever made, "
        "a right-hand shell can’t be built.",
        "Because there are three wipers (as original), and D4: only the later North American left-hand bulkhead was "
        "pierced for three, a right-hand shell can’t be built.",
    ]
    assert reasons(clerk, CASE_4, RIGHT, "de")[0] == (
        "Weil es ein S3 ist und die Karosserie für Nordamerika ist und weil (N6) eine Spritzwand für Rechtslenker mit "
        "diesem Armaturenbrett nie gebaut wurde, lässt sich eine Karosserie als Rechtslenker nicht bauen."
    )


def test_case_04_left_to_keep_all_else_or_right_for_the_home_market(clerk: Desk) -> None:
    found = offers(clerk, CASE_4, RIGHT)
    assert read_out(found["alternatives"][0]) == (
        "If it is for the home market, it can be built; it follows that the filler is in the wing, the dash is flat "
        "and there are two wipers. It takes 26 to 36 working days. With tax it comes to £14,640.00: £48.00 less."
    )
    (left,) = found["keep"]
    assert read_out(left) == (
        "It can stay as it is: the steering is on the left. It takes 26 to 36 working days. "
        "With tax it comes to £14,688.00, as before."
    )
    assert (left["stands"], found["held"]) == (True, True)
    assert [change["option"] for change in left["changes"]] == ["steering"]


def test_case_06_not_as_the_car_had_it(clerk: Desk) -> None:
    assert reasons(clerk, CASE_6) == [
        "We can’t build it as the car had it. Whatever else is chosen, a shell with the vented scuttle can’t be built "
        "– N1: the press for the vented scuttle is gone, and lifting one from an old car bends it."
    ]
    assert reasons(clerk, CASE_6, language="de") == [
        "So, wie der Wagen sie hatte, können wir sie nicht bauen. Ganz gleich, was sonst gewählt wird: eine Karosserie "
        "mit Lüftungsschlitzen im Windlauf lässt sich nicht bauen, weil (N1) es das Presswerkzeug für den Windlauf mit "
        "Lüftungsschlitzen nicht mehr gibt und er sich verzieht, wenn man ihn aus einem alten Wagen heraustrennt."
    ]


def test_case_06_the_two_nearest_are_768_pounds_and_fifteen_working_days_apart(clerk: Desk) -> None:
    narrow, wide, *_ = offers(clerk, CASE_6)["alternatives"]
    assert [each["price"]["with_tax"] for each in (narrow, wide)] == [15_348_00, 14_580_00]
    assert wide["difference"]["with_tax"] - narrow["difference"]["with_tax"] == -768_00
    assert wide["days_difference"] - narrow["days_difference"] == -15
    assert wide["also_changes"] == [{"beside": 0, "options": ["tunnel"], "sheds": ["P1"]}]


def test_case_06_is_read_out_with_its_part(clerk: Desk) -> None:
    narrow, wide, *_ = offers(clerk, CASE_6)["alternatives"]
    assert read_out(narrow) == (
        "If the scuttle is plain, it can be built, once what it waits for is settled. It waits for the customer’s "
        "part: original narrow tunnel. It takes 36 to 46 working days. With tax it comes to £15,348.00."
    )
    assert read_out(wide) == (
        "If the scuttle is plain and the tunnel is wide, it can be built. That is 15 working days less "
        "work than number 1. It takes 26 to 36 working days. Unlike number 1 it also changes Tunnel. Not needed then: "
        "original narrow tunnel. With tax it comes to £14,580.00: £768.00 less than number 1."
    )


def test_case_06_in_german(clerk: Desk) -> None:
    _, wide, *_ = offers(clerk, CASE_6, language="de")["alternatives"]
    assert read_out(wide).replace("\N{NO-BREAK SPACE}", " ") == (
        "Wenn der Windlauf glatt ist und der Getriebetunnel breit ist, lässt sie sich bauen. Das "
        "sind 15 Arbeitstage weniger Arbeit als bei Nummer 1. Sie braucht 26 bis 36 Arbeitstage. Anders als "
        "Nummer 1 ändert sie auch Getriebetunnel. Dann nicht nötig: originaler schmaler Getriebetunnel. "
        "Mit Steuer kommt sie auf 14.580,00 £, das sind 768,00 £ weniger als bei Nummer 1."
    )


def test_case_07_four_link_against_impact(clerk: Desk) -> None:
    assert reasons(clerk, CASE_7, FOUR_LINK)[0] == (
        "Because it has impact bumpers, and N2: the rear rail for the impact bumper fouls the four-link brackets, "
        "a four-link shell can’t be built."
    )
    assert reasons(clerk, CASE_7, FOUR_LINK, "de")[0] == (
        "Weil der Wagen Prallstoßfänger hat und weil (N2) der hintere Träger des Prallstoßfängers an die Konsolen des "
        "Vierlenkers stößt, lässt sich eine Karosserie für den Vierlenker nicht bauen."
    )


def test_case_07_two_wells_are_listed_as_two_and_leaf_keeps_impact(clerk: Desk) -> None:
    found = offers(clerk, CASE_7, FOUR_LINK)
    shallow, deep = found["alternatives"][:2]
    assert sentence(shallow) == (
        "If it has chrome bumpers, it can be built, once what it waits for is settled; it follows that the rail ends "
        "are plain and the bonnet is raised. It waits for the manager’s approval: Four-link on S1 or S4 and Shallow "
        "well with chrome bumpers. That is 10 working days more work. It takes 36 to 46 working days."
    )
    assert deep["also_changes"] == [{"beside": 0, "options": ["wheel-well"], "sheds": ["A4"]}]
    assert [each["price"]["net"] - 240_00 for each in (shallow, deep)] == [13_460_00, 13_460_00]
    assert sentence(found["keep"][0]) == (
        "It can stay as it is: the suspension is leaf. It takes 26 to 36 working days."
    )


def test_case_07_rail_ends_and_bonnet_are_forced_each_with_its_why(clerk: Desk) -> None:
    asked = question(clerk, CASE_7)
    taken = {**asked, "specification": offers(clerk, CASE_7, FOUR_LINK)["alternatives"][0]["specification"]}
    assert why(clerk, taken, "rail-ends") == (
        "Because it has chrome bumpers, and D2: the rail ends carry the bumpers, only one choice is left: the rail "
        "ends are plain."
    )
    assert why(clerk, {**taken, "language": "de"}, "bonnet") == (
        "Weil das Fahrwerk ein Vierlenker ist und weil (D3a) die hohen Dome die erhöhte Motorhaube brauchen, bleibt "
        "nur, dass die Motorhaube erhöht ist."
    )


def test_case_08_every_reason_and_no_part_asked_for(clerk: Desk) -> None:
    own = {"series": "s1", "tunnel": "narrow", "suspension": "four-link", "scuttle": "vented"}
    answers = {option: {"choice": choice, "origin": "chosen"} for option, choice in own.items()}
    found = clerk.send("POST", "/api/reasons", {"specification": answers, "language": "en"})
    assert found["sentence"] == "That can’t be built. There are 2 reasons."
    assert [reason["sentence"] for reason in found["reasons"]] == [
        "Whatever else is chosen, a shell with the vented scuttle can’t be built – N1: the press for the vented "
        "scuttle is gone, and lifting one from an old car bends it.",
        "Because the tunnel is narrow and the suspension is four-link, and N3: the four-link brackets pick up on the "
        "wide tunnel, this shell can’t be built.",
    ]


def test_a_lost_scuttle_wished_for_on_a_shell_that_can_be_built_leaves_what_stands(clerk: Desk) -> None:
    """Also case 8's dead choice, asked about alone: nothing near has it, and nothing need change without it."""
    case, vented = (CASE_11[0], CASE_11[1]), {"option": "scuttle", "choice": "vented"}
    for language, sentence in (
        ("en", "No shell can have that. What stands can stay."),
        ("de", "Das kann keine Karosserie haben. Was eingetragen ist, kann bleiben."),
    ):
        found = offers(clerk, case, vented, language)
        assert (found["alternatives"], found["sentence"]) == ([], sentence)
        assert [(each["stands"], each["changes"][0]["to"]) for each in found["keep"]] == [(True, "plain")]


def test_nothing_is_held_against_a_shell_that_has_no_price(clerk: Desk) -> None:
    found = offers(clerk, CASE_6)
    narrow, wide, *_ = found["alternatives"]
    assert (found["held"], narrow["beside_first"], narrow["days_beside_first"]) == (False, None, None)
    assert (wide["beside_first"]["with_tax"], wide["days_beside_first"]) == (-768_00, -15)
    assert (narrow["ready"]["from_days"], wide["ready"]["from_days"]) == (36, 26)


def test_case_11_small_once_or_large_at_once(clerk: Desk) -> None:
    found = offers(clerk, CASE_11)
    large = found["alternatives"][0]
    assert found["verdict"] == "once"
    assert (large["difference"]["with_tax"], large["days_difference"]) == (-864_00, -12)
    assert large["price"] == {"net": 13_500_00, "with_tax": 16_200_00}
    assert read_out(large) == (
        "If the rear window is large, it can be built. The customer’s part is no longer needed: window ring, cut 150 "
        "mm clear all round. That is 12 working days less work. It takes 26 to 36 working days. "
        "With tax it comes to £16,200.00: £864.00 less."
    )


def test_case_11_in_german_and_why_the_window_is_small(clerk: Desk) -> None:
    large = offers(clerk, CASE_11, language="de")["alternatives"][0]
    assert sentence(large) == (
        "Wenn die Heckscheibe groß ist, lässt sie sich bauen. Das Teil des Kunden wird nicht mehr gebraucht: "
        "Fensterrahmen, ringsum mit 150 mm Abstand ausgeschnitten. Das sind 12 Arbeitstage weniger Arbeit. Sie "
        "braucht 26 bis 36 Arbeitstage."
    )
    assert why(clerk, question(clerk, CASE_11), "rear-window") == (
        "As the original car had it: because it is an S2, it is a coupé and its number is T2-06200 or lower, the "
        "rear window is small."
    )
    assert why(clerk, question(clerk, (CASE_11[0], {"series": "s2", "number": 6201}), "de"), "rear-window") == (
        "Wie beim Original: Weil es ein S2 ist, es ein Coupé ist und die Nummer höher als T2-06200 ist, gilt, "
        "dass die Heckscheibe groß ist."
    )


def test_what_is_taken_can_be_built_and_costs_what_was_said(clerk: Desk) -> None:
    for case, wish in ((CASE_3, None), (CASE_4, RIGHT), (CASE_6, None), (CASE_7, FOUR_LINK), (CASE_11, None)):
        asked, found = question(clerk, case), offers(clerk, case, wish)
        del asked["language"]
        for each in (*found["alternatives"], *found["keep"]):
            again = clerk.send("POST", "/api/answers", {**asked, "specification": each["specification"]})
            assert again["verdict"] == each["verdict"] != "cant"
            assert only_case(again)["with_tax"] == each["price"]["with_tax"]


def test_each_alternative_is_dated_as_if_it_had_been_asked_about(clerk: Desk) -> None:
    """Two tunnels, two days: a customer who hears “26 working days” of a full jig is told when that is."""
    asked = question(clerk, CASE_6)
    for offer in offers(clerk, CASE_6)["alternatives"]:
        alone = {name: value for name, value in asked.items() if name != "language"}
        promised = clerk.send("POST", "/api/promises", {**alone, "specification": offer["specification"]})["promise"]
        assert offer["date"] == {name: promised[name] for name in ("ready", "ready_by", "weeks")}
        ready = date.fromisoformat(promised["ready"])
        assert f"With the slots of today it is ready between {ready.day} {ready:%B %Y} and " in offer["sentence"]
