"""Cases 3, 4, 6–8, 10, 11 as far as the answer itself goes: what can be built, what it depends on, what it costs."""

from __future__ import annotations

from tests.cases.desk import Desk, choice_of, only_case, private, quote
from tests.documents.reading import whole

PRIVATE_GBP = {"price_list": "GBP", "delivery_place": {"country": "GB"}, "customer_country": "GB"}
S1_HOME_ROADSTER = {"series": "s1", "market": "home", "body": "roadster"}
S2_HOME_COUPE = {"series": "s2", "market": "home", "body": "coupe"}
S4_HOME_ROADSTER = {"series": "s4", "market": "home", "body": "roadster"}


def test_case_03_an_s3_with_impact_bumpers_is_never(clerk: Desk) -> None:
    answer = clerk.as_original({"series": "s3", "market": "home", "body": "roadster", "bumpers": "impact"})
    assert answer["verdict"] == "cant"
    assert ["D1"] in answer["causes"]


def test_case_03_an_s4_shell_for_an_s3_car_carries_the_registration_caution(clerk: Desk) -> None:
    answer = clerk.as_original(S4_HOME_ROADSTER, donor={"series": "s3", "number": 12044})
    assert answer["verdict"] == "not-as-had"
    assert "C1" in answer["depends"]["cautions"]


def test_case_03_it_is_never_called_of_the_same_specification_as_the_original(clerk: Desk) -> None:
    """In no sentence that a reader is shown or a paper prints; a letter may offer the same specification again."""
    donor = {"number_text": "T3-12044", "series": "s3", "number": 12044, "established": True}
    shell = clerk.usual(**S4_HOME_ROADSTER) | {"packing": "dolly", "delivery": "van"}
    quoted = quote(clerk, private(), donor=donor)
    quoted.fill((shell, 1))
    quoted.issue()
    for paper in ("paper", "difference-sheet", "acceptance-form"):
        pdf = clerk.http.get(f"{clerk.url}{quoted.revision}/{paper}?language=en&size=a4").content
        printed = whole(pdf)
        assert "This is not the series of your car: ask your registration authority" in printed
        assert "same specification" not in printed


def test_case_04_right_hand_north_america_s2_needs_the_manager(clerk: Desk) -> None:
    wish = {"series": "s2", "market": "north-america", "body": "roadster", "steering": "right"}
    answer = clerk.as_original(wish, donor={"series": "s2", "number": 9001})
    assert answer["verdicts"] == ["once", "not-as-had"]
    assert answer["depends"]["approvals"] == ["A1"]


def test_case_04_the_same_wish_on_an_s3_is_never_for_two_reasons(clerk: Desk) -> None:
    wish = {"series": "s3", "market": "north-america", "body": "roadster", "steering": "right"}
    answer = clerk.as_original(wish)
    assert answer["verdict"] == "cant"
    assert answer["causes"] == [["N6"], ["D4"]]


def test_case_06_exactly_as_original_is_refused_by_the_lost_press_alone(clerk: Desk) -> None:
    answer = clerk.as_original(S1_HOME_ROADSTER, **PRIVATE_GBP)
    assert (answer["verdict"], answer["causes"]) == ("cant", [["N1"]])
    assert answer["depends"] == {"parts": [], "approvals": [], "cautions": [], "holds": [], "tools": []}


def test_case_06_plain_scuttle_with_his_own_tunnel(clerk: Desk) -> None:
    answer = clerk.as_original({**S1_HOME_ROADSTER, "scuttle": "plain"}, **PRIVATE_GBP)
    assert answer["verdicts"] == ["once", "not-as-had"]
    assert answer["depends"]["parts"] == ["P1"]
    case = only_case(answer)
    assert answer["totals"]["lines_net"] == 12_790_00
    assert (case["tax"], case["with_tax"], case["deposit"]) == (2_558_00, 15_348_00, 3_837_00)


def test_case_06_plain_scuttle_with_the_wide_tunnel(clerk: Desk) -> None:
    answer = clerk.as_original({**S1_HOME_ROADSTER, "scuttle": "plain", "tunnel": "wide"}, **PRIVATE_GBP)
    assert answer["verdicts"] == ["not-as-had"]
    case = only_case(answer)
    assert answer["totals"]["lines_net"] == 12_150_00
    assert (case["tax"], case["with_tax"], case["deposit"]) == (2_430_00, 14_580_00, 3_645_00)


def test_case_06_the_difference_is_shown_at_the_choice(clerk: Desk) -> None:
    answer = clerk.as_original({**S1_HOME_ROADSTER, "scuttle": "plain"}, **PRIVATE_GBP)
    assert choice_of(answer, "tunnel", "wide")["difference"] == -640_00


def test_case_07_four_link_and_impact_is_never(clerk: Desk) -> None:
    answer = clerk.as_original({**S4_HOME_ROADSTER, "suspension": "four-link", "bumpers": "impact"})
    assert answer["verdict"] == "cant"
    assert answer["causes"] == [["N2"], ["D3a"]]


def test_case_07_rail_ends_and_bonnet_are_forced(clerk: Desk) -> None:
    wish = {**S4_HOME_ROADSTER, "suspension": "four-link", "bumpers": "chrome"}
    answer = clerk.ask(wish)
    assert choice_of(answer, "rail-ends", "plain")["state"] == "forced"
    assert choice_of(answer, "bonnet", "raised")["state"] == "forced"


def test_case_07_four_link_with_chrome_costs_and_needs_what_the_desk_says(clerk: Desk) -> None:
    wish = {"suspension": "four-link", "bumpers": "chrome", "bonnet": "raised", "rail-ends": "plain"}
    deep = clerk.as_original({**S4_HOME_ROADSTER, **wish, "wheel-well": "deep"}, **PRIVATE_GBP)
    shallow = clerk.as_original({**S4_HOME_ROADSTER, **wish, "wheel-well": "shallow"}, **PRIVATE_GBP)
    packing = 240_00
    assert deep["totals"]["lines_net"] - packing == 13_460_00
    assert shallow["totals"]["lines_net"] - packing == 13_460_00
    assert deep["depends"]["approvals"] == ["A2"]
    assert shallow["depends"]["approvals"] == ["A2", "A4"]


def test_case_08_every_cause_and_no_part_asked_for(clerk: Desk) -> None:
    answer = clerk.ask({"series": "s1", "tunnel": "narrow", "suspension": "four-link", "scuttle": "vented"})
    assert answer["verdict"] == "cant"
    assert answer["causes"] == [["N1"], ["N3"]]
    assert answer["depends"]["parts"] == []


def test_case_10_no_markers_in_north_america_needs_the_manager_and_warns(clerk: Desk) -> None:
    wish = {"series": "s3", "market": "north-america", "body": "roadster", "markers": "none"}
    answer = clerk.as_original(wish)
    assert "A5" in answer["depends"]["approvals"]
    assert "A5" in answer["depends"]["cautions"]


def test_case_11_small_window_once_the_ring_has_passed(clerk: Desk) -> None:
    answer = clerk.as_original(S2_HOME_COUPE, donor={"series": "s2", "number": 5900}, **PRIVATE_GBP)
    assert answer["verdicts"] == ["once", "as-had"]
    assert answer["depends"]["parts"] == ["P4"]
    case = only_case(answer)
    assert answer["totals"]["lines_net"] == 14_220_00
    assert (case["tax"], case["with_tax"]) == (2_844_00, 17_064_00)


def test_case_11_large_window_instead(clerk: Desk) -> None:
    answer = clerk.as_original(
        {**S2_HOME_COUPE, "rear-window": "large"}, donor={"series": "s2", "number": 5900}, **PRIVATE_GBP
    )
    assert answer["verdicts"] == ["not-as-had"]
    case = only_case(answer)
    assert (case["tax"], case["with_tax"]) == (2_700_00, 16_200_00)


def test_case_11_from_06201_the_large_window_is_usual(clerk: Desk) -> None:
    answer = clerk.as_original(S2_HOME_COUPE, donor={"series": "s2", "number": 6201}, **PRIVATE_GBP)
    assert answer["verdicts"] == ["as-had"]
    assert answer["settled"]["rear-window"] == "large"


def test_case_11_small_window_with_a_folding_roof_is_n9(clerk: Desk) -> None:
    answer = clerk.as_original({**S2_HOME_COUPE, "rear-window": "small", "roof": "folding"})
    assert (answer["verdict"], answer["causes"]) == ("cant", [["N9"]])
