"""The desk's cases of refused wishes and of shells that stand only once: what is offered instead, to the penny and day.

What the cases must answer was worked out by hand from the firm's scenario before the code was written.
"""

from __future__ import annotations

from functools import cache

import pytest

from rules.answer import Verdict
from rules.donor.usual import usual_specification
from rules.engine.prepare import prepare
from rules.model import ToolCondition
from rules.specification import Donor, Origin, Specification, Taken, UnknownNames
from rules.suggest import Beside, Suggestion, Suggestions, Surroundings, suggest
from tests.rules.demo_book import NO_DONOR, PRIVATE, STATES, prepared, whole

#: Option, choice before, choice after.
Changed = list[tuple[str, str, str]]

HOME_S1 = {"series": "s1", "market": "home", "body": "roadster"}
HOME_S3 = {"series": "s3", "market": "home", "body": "roadster"}
HOME_S4 = {"series": "s4", "market": "home", "body": "roadster"}
AMERICAN_S3 = {"series": "s3", "market": "north-america", "body": "roadster"}
HOME_COUPE = {"series": "s2", "market": "home", "body": "coupe"}

FOUR_LINK_CHANGES = [("bumpers", "impact", "chrome"), ("rail-ends", "boxed", "plain"), ("bonnet", "steel", "raised")]


@cache
def around(donor: Donor) -> Surroundings:
    return Surroundings(prepared(donor=donor), STATES, donor)


def specify(own: dict[str, str], donor: Donor = NO_DONOR) -> Specification:
    """The reader's own answers over the usual of the car, all taken over."""
    usual = usual_specification(whole(), {key: own[key] for key in ("series", "market", "body")}, donor)
    taken_over = {option: Taken(choice, Origin.USUAL) for option, choice in usual.items()}
    return Specification(taken_over | {option: Taken(choice) for option, choice in own.items()})


def offered(
    own: dict[str, str], donor: Donor = NO_DONOR, wish: tuple[str, str] | None = None, limit: int = 3
) -> Suggestions:
    return suggest(around(donor), specify(own, donor), PRIVATE, wish, limit)


def changed(suggestion: Suggestion) -> Changed:
    return [(change.option, change.was, change.now) for change in suggestion.changes]


def forced(suggestion: Suggestion) -> list[str]:
    return [change.option for change in suggestion.changes if change.forced]


def test_case_03_an_s3_with_impact_bumpers_keeps_chrome_or_becomes_an_s4() -> None:
    chrome, s4 = offered(HOME_S3 | {"bumpers": "impact"}, Donor("s3", 12044)).nearest
    assert changed(chrome) == [("bumpers", "impact", "chrome")]
    assert (chrome.answer.verdict, chrome.gains.parts, chrome.gains.approvals) == (Verdict.AS_HAD, (), ())
    assert (chrome.price, chrome.difference, chrome.days_difference) == (1209000, -38500, 0)
    assert changed(s4) == [("series", "s3", "s4"), ("wheel-well", "deep", "shallow"), ("rail-ends", "plain", "boxed")]
    assert (s4.answer.verdict, s4.gains.approvals, s4.gains.cautions) == (Verdict.NOT_AS_HAD, (), ("C1", "C2"))
    assert (s4.price, s4.difference, s4.days_difference) == (1247500, 0, 0)


def test_case_03_wished_for_the_bumpers_stand_and_chrome_is_to_keep_all_else() -> None:
    found = offered(HOME_S3, Donor("s3", 12044), ("bumpers", "impact"))
    assert [change[0] for change in changed(found.nearest[0])] == ["series", "wheel-well", "rail-ends"]
    assert forced(found.nearest[0]) == ["wheel-well", "rail-ends"]
    assert [changed(each) for each in found.keep] == [[("bumpers", "impact", "chrome")]]
    assert found.keep[0].answer.verdict is Verdict.AS_HAD
    # held against the chrome car that was there before the wish
    assert (found.nearest[0].difference, found.keep[0].difference) == (38500, 0)
    assert (found.nearest[0].gains.cautions, found.nearest[0].gains.approvals) == (("C1",), ())


def test_case_04_right_hand_on_a_later_american_car() -> None:
    left, home, _ = offered(AMERICAN_S3 | {"steering": "right"}, Donor("s3", 12044)).nearest
    assert changed(left) == [("steering", "right", "left")]
    assert (left.answer.verdict, left.price, left.difference) == (Verdict.AS_HAD, 1224000, 0)
    assert changed(home) == [
        ("market", "north-america", "home"),
        ("filler", "vapour", "wing"),
        ("dash", "hooded", "flat"),
        ("wipers", "three", "two"),
    ]
    assert [change.origin for change in home.changes] == [Origin.CHOSEN, Origin.USUAL, Origin.USUAL, Origin.USUAL]
    assert (home.gains.approvals, home.price, home.difference) == ((), 1220000, -4000)


def test_case_04_the_third_is_an_earlier_american_shell_with_its_approval() -> None:
    _, _, earlier = offered(AMERICAN_S3 | {"steering": "right"}, Donor("s3", 12044)).nearest
    assert changed(earlier)[0] == ("series", "s3", "s1")
    assert (earlier.gains.approvals, earlier.gains.cautions) == (("A1",), ("C1", "C2", "C5"))


def test_case_06_an_s1_exactly_as_original() -> None:
    found = offered(HOME_S1, Donor("s1", 3000))
    narrow, wide = found.nearest
    assert (found.asked.verdict, found.asked.causes) == (Verdict.CANT, (("N1",),))
    assert changed(narrow) == [("scuttle", "vented", "plain")]
    assert (narrow.price, narrow.difference, narrow.days_difference) == (1279000, 0, 0)
    assert (narrow.answer.verdict, narrow.gains.parts) == (Verdict.ONCE, ("P1",))
    assert changed(wide) == [("scuttle", "vented", "plain"), ("tunnel", "narrow", "wide")]
    assert (wide.price, wide.difference, wide.days_difference) == (1215000, -64000, -15)
    assert (wide.gains.parts, wide.beside) == ((), (Beside(0, ("tunnel",), ("P1",)),))


def test_case_06_the_plain_scuttle_is_forced_the_wide_tunnel_is_the_readers() -> None:
    narrow, wide = offered(HOME_S1, Donor("s1", 3000)).nearest
    assert (forced(narrow), forced(wide)) == (["scuttle"], ["scuttle"])
    assert wide.specification.answers["scuttle"].origin is Origin.USUAL
    assert wide.specification.answers["tunnel"] == Taken("wide", Origin.CHOSEN)


def test_case_07_four_link_wished_for_on_an_s4_with_impact_bumpers() -> None:
    found = offered(HOME_S4 | {"bumpers": "impact"}, Donor("s4", 3000), ("suspension", "four-link"))
    shallow, deep = found.nearest[:2]
    assert changed(shallow) == FOUR_LINK_CHANGES
    assert (shallow.gains.approvals, shallow.beside) == (("A2", "A4"), ())
    assert changed(deep) == [FOUR_LINK_CHANGES[0], ("wheel-well", "shallow", "deep"), *FOUR_LINK_CHANGES[1:]]
    assert (deep.gains.approvals, deep.beside) == (("A2",), (Beside(0, ("wheel-well",), ("A4",)),))
    assert forced(shallow) == forced(deep) == ["rail-ends", "bonnet"]
    # 13 460 before packing, on a dolly for 240; against the leaf car before the wish: + 1 460 + 150 − 385
    assert [each.price for each in (shallow, deep)] == [1346000 + 24000] * 2
    assert [each.difference for each in (shallow, deep)] == [146000 + 15000 - 38500] * 2
    assert [each.days_difference for each in (shallow, deep)] == [4 + 6] * 2
    assert [changed(each) for each in found.keep] == [[("suspension", "four-link", "leaf")]]
    assert (found.keep[0].answer.verdict, found.keep[0].difference) == (Verdict.AS_HAD, 0)


def test_case_07_with_no_wish_named_leaf_comes_first_of_two_own_answers() -> None:
    own = HOME_S4 | {"bumpers": "impact", "suspension": "four-link"}
    leaf, shallow, deep = offered(own, Donor("s4", 3000)).nearest
    assert changed(leaf) == [("suspension", "four-link", "leaf")]
    assert (shallow.gains.approvals, deep.gains.approvals) == (("A2", "A4"), ("A2",))


def test_case_07_where_impact_was_only_taken_over_leaf_comes_last() -> None:
    shallow, deep, leaf = offered(HOME_S4 | {"suspension": "four-link"}, Donor("s4", 3000)).nearest
    assert (shallow.gains.approvals, deep.gains.approvals) == (("A2", "A4"), ("A2",))
    assert (changed(leaf), leaf.days_difference) == ([("suspension", "four-link", "leaf")], -10)


def test_case_08_no_part_is_asked_for_on_an_impossible_shell() -> None:
    own = HOME_S1 | {"tunnel": "narrow", "suspension": "four-link", "scuttle": "vented"}
    found = offered(own, Donor("s1", 3000))
    assert (found.asked.causes, found.asked.depends.parts) == ((("N1",), ("N3",), ("D3a",)), ())
    leaf, wide, both = found.nearest
    assert changed(leaf) == [("scuttle", "vented", "plain"), ("suspension", "four-link", "leaf")]
    assert (leaf.gains.parts, leaf.difference, leaf.days_difference) == (("P1",), -146000, -10)
    assert [change[0] for change in changed(wide)] == ["scuttle", "tunnel", "bonnet"]
    assert (wide.gains.parts, wide.gains.approvals, wide.difference) == ((), ("A2",), -64000 + 15000)
    assert both.beside == (Beside(0, ("tunnel",), ("P1",)),)


def test_case_11_a_small_window_stands_once_and_the_large_one_at_once() -> None:
    found = offered(HOME_COUPE, Donor("s2", 5900))
    (large,) = found.nearest
    assert (found.asked.verdict, found.asked.price_from.amount) == (Verdict.ONCE, 1422000)
    assert changed(large) == [("rear-window", "small", "large")]
    assert (large.price, large.difference, large.days_difference) == (1350000, -72000, -12)
    assert (large.sheds.parts, large.sheds.cautions, large.gains.parts) == (("P4",), ("C3",), ())


def test_case_11_a_later_car_has_the_large_window_and_nothing_is_offered() -> None:
    found = offered(HOME_COUPE, Donor("s2", 6201))
    assert (found.asked.verdict, found.nearest, found.fill, found.keep) == (Verdict.AS_HAD, (), (), ())


def test_case_11_a_folding_roof_takes_the_large_window_with_it() -> None:
    found = offered(HOME_COUPE, Donor("s2", 5900), ("roof", "folding"))
    assert changed(found.nearest[0]) == [("rear-window", "small", "large")]
    (none,) = found.keep
    assert (changed(none), none.answer.depends.parts) == ([("roof", "folding", "none")], ("P4",))
    # against the car as it stood before the wish: the ring is waited for no more, the opening takes 8 days
    assert (found.nearest[0].sheds.parts, found.nearest[0].days_difference) == (("P4",), -12 + 8)
    assert (found.nearest[0].difference, none.difference, none.days_difference) == (89000 - 72000, 0, 0)


def test_a_place_left_is_filled_with_more_changes_and_says_so() -> None:
    found = offered(HOME_COUPE, Donor("s2", 5900))
    wrapped, open_holes = found.fill
    assert changed(wrapped) == [("rear-window", "small", "large"), ("packing", "dolly", "wrapped")]
    assert (wrapped.beside, wrapped.difference) == ((Beside(0, ("packing",), ()),), -72000 - 11000)
    assert (open_holes.beside, open_holes.gains.cautions) == ((Beside(0, ("holes",), ()),), ("C5",))


def test_another_value_of_the_same_answers_is_only_to_fill_up() -> None:
    found = offered(AMERICAN_S3, Donor("s3", 12044), ("steering", "right"))
    assert [changed(each)[0] for each in found.fill] == [("market", "north-america", "southern-africa")]
    assert found.fill[0].beside == (Beside(0, (), ()),)


def test_a_dead_wish_leaves_only_to_keep_what_there_is() -> None:
    found = offered(HOME_S3, wish=("scuttle", "vented"))
    assert (found.nearest, found.fill) == ((), ())
    assert [changed(each) for each in found.keep] == [[("scuttle", "vented", "plain")]]


def test_questions_still_open_stay_open_and_count_no_change() -> None:
    # nobody was asked about the colour yet: painted abroad needs the crate, and the oldest colour fills the price
    answers = {"finish": "painted", "delivery": "port", "packing": "dolly"}
    found = suggest(around(NO_DONOR), Specification({o: Taken(c) for o, c in answers.items()}), PRIVATE)
    assert [changed(each) for each in found.nearest] == [
        [("delivery", "port", "collected")],
        [("packing", "dolly", "crate")],
    ]
    assert all("colour" not in each.specification.answers for each in found.nearest)
    # roadster 11 850, outside 3 950, primer free, dolly 240; the same by port 420
    assert (found.nearest[0].price, found.nearest[0].difference) == (1185000 + 395000 + 24000, -42000)


def test_no_more_are_given_than_asked_for() -> None:
    own = HOME_S4 | {"suspension": "four-link"}
    found = offered(own, Donor("s4", 3000), limit=1)
    assert (len(found.nearest), len(found.fill)) == (1, 0)


def test_a_wish_that_the_book_has_not_is_an_error() -> None:
    with pytest.raises(UnknownNames):
        offered(HOME_S3, wish=("bumpers", "rubber"))


def test_what_waits_for_a_tool_that_is_down_says_so_and_what_does_not_sheds_it() -> None:
    """The press of the large window is down: the small one waits for a part instead, and the other way about."""
    states = {**STATES, **dict.fromkeys(("large-window-press", "four-link-tool"), ToolCondition.DOWN)}
    down = Surroundings(prepare(whole(), states, NO_DONOR), states, NO_DONOR)
    (large,) = suggest(down, specify(HOME_COUPE | {"rear-window": "small"}), PRIVATE).nearest
    assert (large.gains.tools, large.sheds.parts, large.sheds.tools) == (("large-window-press",), ("P4",), ())
    chrome = HOME_S4 | {"bumpers": "chrome", "rail-ends": "plain", "bonnet": "raised", "suspension": "four-link"}
    found = suggest(down, specify(chrome), PRIVATE, None, 12).nearest
    leaf = next(each for each in found if ("suspension", "four-link", "leaf") in changed(each))
    assert (leaf.gains.tools, leaf.sheds.tools) == ((), ("four-link-tool",))
