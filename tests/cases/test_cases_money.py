"""Cases 12–15, 17, 19, 20: the sums, to the penny, from an enquiry to the totals of a quotation."""

from __future__ import annotations

import pytest

from tests.cases.desk import Choices, Desk, choice_of, only_case, private, quote, trade

HOLLIN_LANE = trade("hollin-lane", "GB", "Hollin Lane Classics")
LINDENHOF = trade("lindenhof", "DE", "Werkstatt Lindenhof")
BAYOU_ROAD = trade("bayou-road", "US", "Bayou Road Sports Cars")


def shell(desk: Desk, series: str = "s3", market: str = "home", body: str = "roadster", **chosen: str) -> Choices:
    """The usual specification with a few answers of one's own; option names with _ for -."""
    usual = desk.usual(series=series, market=market, body=body)
    return usual | {option.replace("_", "-"): choice for option, choice in chosen.items()}


def lindenhof_coupe(desk: Desk, **chosen: str) -> Choices:
    painted = {"finish": "painted", "colour": "frost", "scope": "outside-and-shuts", "primer": "epoxy-and-filler"}
    sent = {"packing": "crate", "delivery": "door-germany"}
    return shell(desk, market="europe", body="coupe", **(painted | sent | chosen))


def bayou_road_roadster(desk: Desk) -> Choices:
    return shell(
        desk, series="s4", market="north-america", wipers="three", primer="epoxy", packing="frame", delivery="port"
    )


def test_case_12_home_private_roadster_by_our_van(clerk: Desk) -> None:
    quoted = quote(clerk, private()).fill((shell(clerk, delivery="van"), 1))
    case = only_case(quoted)
    assert quoted["totals"]["lines_net"] == 12_375_00
    assert (case["case"], case["tax"], case["payable"]) == ("standard", 2_475_00, 14_850_00)
    assert (case["deposit"], case["deposit_tax"], case["balance"]) == (3_712_50, 618_75, 11_137_50)


def test_case_13_three_for_a_dealer_and_the_half_penny(clerk: Desk) -> None:
    quoted = quote(clerk, HOLLIN_LANE).fill((shell(clerk), 3))
    case = only_case(quoted)
    assert quoted["lines"][0]["answer"]["net"] == 9_770_32 + 240_00
    assert quoted["totals"]["lines_net"] == 30_030_96
    assert (case["tax"], case["payable"]) == (6_006_19, 36_037_15)
    assert (case["deposit"], case["deposit_tax"], case["balance"]) == (9_009_29, 1_501_55, 27_027_86)


def test_case_14_the_third_shell_dropped(clerk: Desk) -> None:
    quoted = quote(clerk, HOLLIN_LANE).fill((shell(clerk), 2))
    case = only_case(quoted)
    assert quoted["totals"]["lines_net"] == 20_625_00
    assert (case["tax"], case["payable"]) == (4_125_00, 24_750_00)


def test_case_14_two_roadsters_and_a_coupe_keep_the_discount(clerk: Desk) -> None:
    quoted = quote(clerk, HOLLIN_LANE).fill((shell(clerk), 2), (shell(clerk, body="coupe"), 1))
    case = only_case(quoted)
    assert quoted["totals"]["lines_net"] == 31_144_04
    assert (case["tax"], case["payable"]) == (6_228_81, 37_372_85)


def test_case_15_germany_in_euro_is_an_export_with_its_reason(clerk: Desk) -> None:
    quoted = quote(clerk, LINDENHOF, price_list="EUR", to="DE").fill((lindenhof_coupe(clerk), 1))
    case = only_case(quoted)
    assert quoted["currency"] == "EUR"
    assert (case["case"], case["tax"], case["payable"], case["deposit"]) == ("export", 0, 22_338_40, 5_584_60)
    assert case["reason"]


def test_case_15_the_crate_is_forced_and_a_frame_refused_by_d9(clerk: Desk) -> None:
    wish = {"finish": "painted", "delivery": "door-germany"}
    answer = clerk.ask(wish, price_list="EUR")
    assert choice_of(answer, "packing", "crate")["state"] == "forced"
    frame = choice_of(answer, "packing", "frame")
    assert (frame["state"], frame["causes"]) == ("closed", [["D9"]])


def test_case_17_the_united_states_in_dollars(clerk: Desk) -> None:
    quoted = quote(clerk, BAYOU_ROAD, price_list="USD", to="US").fill((bayou_road_roadster(clerk), 1))
    nets = {line["line"]: line["net"] for line in quoted["lines"][0]["answer"]["price"]["lines"]}
    assert nets["primer.epoxy"] == 287_00
    case = only_case(quoted)
    assert (case["payable"], case["deposit"], case["balance"]) == (14_994_50, 3_748_63, 11_245_87)


def test_case_19_collected_here_from_abroad_shows_both_totals(clerk: Desk) -> None:
    quoted = quote(clerk, private("NL")).fill((shell(clerk, market="europe"), 1))
    totals = quoted["totals"]
    assert (totals["lines_net"], totals["decided"]) == (12_090_00, False)
    by_case = {case["case"]: (case["tax"], case["payable"]) for case in totals["tax_cases"]}
    assert by_case["standard"] == (2_418_00, 14_508_00)
    assert sorted(by_case.values()) == [(0, 12_090_00), (2_418_00, 14_508_00)]


def test_case_20_where_the_goods_go_decides(clerk: Desk) -> None:
    to_kent = quote(clerk, LINDENHOF, to="GB", region="Kent").fill((shell(clerk, market="europe", delivery="van"), 1))
    to_berlin = quote(clerk, LINDENHOF, to="DE").fill((shell(clerk, packing="frame", delivery="door-germany"), 1))
    assert (only_case(to_kent)["case"], only_case(to_kent)["tax_percent"]) == ("standard", "20")
    assert only_case(to_berlin)["case"] == "export"


@pytest.mark.parametrize("act", ["draft", "issue"])
def test_case_20_our_van_in_euro_is_not_priced_and_has_no_total(clerk: Desk, act: str) -> None:
    quotation = quote(clerk, LINDENHOF, price_list="EUR", to="GB", region="Kent")
    quoted = quotation.fill((shell(clerk, delivery="van"), 1))
    if act == "draft":
        assert quoted["totals"] is None
        assert [line["line"] for line in quoted["lines"][0]["answer"]["price"]["unpriced"]] == ["delivery.van"]
    else:
        problem = quotation.issue(expect=422)
        assert problem["type"] == "/problems/not-priced"
        assert problem["repair"]
