"""What one shell needs: per choice what appears, disappears and mirrors. Operations and places are the demo's."""

from __future__ import annotations

from collections import Counter

import pytest

from rules.donor.usual import usual_specification
from rules.making import Sort
from rules.specification import Donor
from rules.workshop.work import OpenOptions, Work, letter_of, work_of
from tests.rules.demo_book import NO_DONOR, whole

#: A right-hand S3 roadster for the home market, else as usual: the shell that each row below is held against.
HOME = {"series": "s3", "market": "home", "body": "roadster"}


def settled(own: dict[str, str]) -> dict[str, str]:
    """The home S3 as usual, and on it the row's own choices; usual of S3 home throughout, so that one thing moves."""
    return {**usual_specification(whole(), HOME, NO_DONOR), **own}


def work(own: dict[str, str], donor: Donor = NO_DONOR) -> Work:
    return work_of(whole(), donor, settled(own))


def things(found: Work) -> set[str]:
    """Ids of everything on the sheet; a place with what is done there."""
    stages = found.stages
    tasks = [task for stage in stages for task in stage.tasks]
    return {
        *(task.operation.id for task in tasks),
        *(mask.id for stage in stages for mask in stage.masks),
        *(zone.id for task in tasks for zone in task.zones),
        *(f"{place.do.value} {place.hole.id}" for place in found.places),
        *(datum.id for stage in stages for datum in stage.datums),
        *(point.id for gap in found.gaps for point in gap.points),
    }


# choices against the usual home S3 roadster; what appears; what disappears
MOVES = [
    # the coupé: roof, its locators and door frames; no deck, no hood
    ({"body": "coupe", "rear-window": "large", "hood": "none"},
     "locators-coupe roof-coupe roof-skin window-large window-large-a z-roof z-window-large dh-front-left",
     "locators-roadster deck-roadster z-deck hood-fixings drill|hood-left"),
    # left hand: the other bulkhead and its welds (the map's mirroring has a test of its own)
    ({"steering": "left"}, "bulkhead-left z-bulkhead-left", "bulkhead-right z-bulkhead-right"),
    # markets: plate, mirror, aerial, dust filter
    ({"market": "europe"}, "drill|plate-europe drill|mirror-passenger", "drill|plate-long leave|mirror-passenger"),
    ({"market": "southern-africa"}, "drill|dust-filter", ""),
    ({"market": "north-america", "steering": "left"},
     "bulkhead-left-na z-bulkhead-left-na drill|plate-square drill|aerial", "drill|plate-long leave|aerial"),
    # series: floor and what "as original" belts are
    ({"series": "s1"}, "floor-s1 z-floor-s1 belts-none",
     "floor-later z-floor belts-three-point belts-checked drill|belt-floor-left drill|belt-pillar-left"),
    ({"series": "s2"}, "belts-lap z-belts-lap", "belts-three-point z-belts-three-point drill|belt-pillar-left"),
    ({"series": "s4"}, "front-stiffener", ""),
    # the lost scuttle would be known for what it is
    ({"scuttle": "vented"}, "scuttle-vented", "scuttle-plain z-scuttle"),
    ({"tunnel": "narrow"}, "tunnel-narrow z-tunnel-narrow", "tunnel-wide z-tunnel-wide"),
    # the automatic has no clutch: its hole is closed, a lever comes
    ({"tunnel": "automatic"}, "tunnel-pads drill|automatic-lever blank|clutch-pedal", "drill|clutch-pedal"),
    ({"suspension": "four-link", "bonnet": "raised"},
     "turrets-tall brackets-four-link gussets wings-tall z-four-link z-turrets-tall turret-tall links bonnet-raised "
     "bo-bulge-left",
     "turrets-low hangers-leaf z-hangers z-turrets-low turret-low hangers bonnet-steel"),
    ({"doors": "early"}, "pillar-early latch-early", "pillar-late latch-late"),
    ({"rear-window": "small"}, "window-small z-window-small window-small-a window-small-b", ""),
    ({"bumpers": "impact"}, "struts z-struts", "irons"),
    ({"wheel-well": "shallow"}, "well-shallow z-well-shallow", "well-deep z-well"),
    ({"filler": "deck"}, "filler-deck drill|filler-deck-hole leave|filler-wing-hole",
     "filler-wing drill|filler-wing-hole leave|filler-deck-hole ff-above ff-below"),
    ({"filler": "vapour"}, "pipe-clips drill|vapour-pipe drill|canister", ""),
    ({"dash": "hooded"}, "dash-hooded drill|dash-feet", "dash-flat"),
    ({"dash": "wrapped"}, "dash-wrapped drill|dash-side", "dash-flat"),
    ({"rail-ends": "boxed"}, "rails-boxed z-rails-boxed", "rails-plain z-rails"),
    ({"wipers": "three"}, "wipers-three drill|wiper-three-a drill|wiper-three-b drill|wiper-three-c",
     "wipers-two drill|wiper-driver drill|wiper-middle"),
    ({"markers": "front"}, "markers-front drill|marker-front-left drill|marker-front-right",
     "markers-none leave|marker-front-left leave|marker-front-right"),
    ({"markers": "front-and-rear"}, "markers-front markers-rear drill|marker-rear-left",
     "markers-none leave|marker-rear-left"),
    ({"belts": "front"}, "belts-front z-belts-front", "belts-three-point z-belts-three-point"),
    ({"belts": "front-and-rear"}, "belts-front belts-rear z-belts-rear drill|belt-rear-left", "belts-three-point"),
    ({"roof": "folding"}, "roof-folding z-folding fr-front fr-left fr-right", ""),
    ({"hood": "none"}, "hood-none leave|hood-left", "hood-fixings drill|hood-left"),
    ({"hood": "hood-and-hardtop"}, "hardtop-fixings drill|hardtop-left drill|hardtop-right", ""),
    ({"bonnet": "aluminium"}, "bonnet-aluminium", "bonnet-steel"),
    ({"holes": "blanked"}, "lamps-blanked blank|reversing-left blank|reversing-right",
     "lamps-open leave|reversing-left leave|reversing-right"),
]  # fmt: skip


def named(words: str) -> set[str]:
    return {word.replace("|", " ") for word in words.split()}


@pytest.mark.parametrize(("own", "appears", "goes"), MOVES, ids=lambda value: "-".join(value.values())
                         if isinstance(value, dict) else "")  # fmt: skip
def test_a_choice_brings_its_own_work_and_takes_the_other_away(own: dict[str, str], appears: str, goes: str) -> None:
    before, after = things(work({})), things(work(own))
    assert named(appears) <= after - before
    assert named(goes) <= before - after


def test_every_structural_choice_has_a_row_or_is_the_usual_one() -> None:
    moved = {pair for own, _, _ in MOVES for pair in own.items()} | set(settled({}).items())
    choices = {(option.id, c.id) for option in whole().options if option.structural for c in option.choices}
    assert choices - moved == set()


def test_the_other_hand_mirrors_what_is_handed_and_nothing_else() -> None:
    # By hand from the demo's table: written for left-hand steering, minus is the car's left.
    right, left = (
        {place.hole.id: (place.x, place.y) for place in work({"steering": hand}).places} for hand in ("right", "left")
    )
    assert (right["column"], left["column"]) == ((1420, 355), (1420, -355))
    assert (right["wiper-middle"], left["wiper-middle"]) == ((1478, -30), (1478, 30))
    assert (right["heater"], left["heater"]) == ((1420, -330), (1420, 330))
    assert {hole for hole in right if right[hole] != left[hole]} == {
        hole.id for hole in whole().making.holes if hole.handed and hole.id in right
    }
    assert work({"steering": "right"}).mirrored
    assert not work({"steering": "left"}).mirrored


def test_a_place_has_the_same_letter_on_every_shell() -> None:
    letters: dict[str, set[str]] = {}
    for own, _, _ in MOVES:
        for place in work(own).places:
            letters.setdefault(place.hole.id, set()).add(place.letter)
    assert all(len(found) == 1 for found in letters.values())
    assert letters["column"] == {"A"}


@pytest.mark.parametrize(("place", "letter"), [(0, "A"), (7, "H"), (8, "J"), (23, "Z"), (24, "AA"), (47, "AZ")])
def test_letters_leave_out_i_and_o_and_go_on_in_pairs(place: int, letter: str) -> None:
    assert letter_of(place) == letter


def test_stages_and_operations_come_in_the_order_in_which_a_shell_is_built() -> None:
    found = work({})
    assert [stage.stage for stage in found.stages] == [
        "sub-assembly", "framing", "rollover", "skinning", "fit-and-gap", "inspection", "preparation", "packing",
    ]  # fmt: skip
    order = [operation.id for operation in whole().making.operations]
    done = [task.operation.id for stage in found.stages for task in stage.tasks]
    assert done == sorted(done, key=order.index)


def test_a_painted_shell_is_masked_sealed_painted_and_measured_again() -> None:
    painted = {"finish": "painted", "colour": "frost", "scope": "outside", "primer": "epoxy-and-filler"}
    (paint,) = [stage for stage in work(painted).stages if stage.stage == "paint"]
    assert [mask.id for mask in paint.masks] == ["mask-belts", "mask-earths", "mask-seats", "mask-underside"]
    assert [task.operation.id for task in paint.tasks] == [
        "seal-standard", "prime-painted", "paint-metallic", "film", "gaps-painted",
    ]  # fmt: skip
    assert [task.operation.sort for task in paint.tasks][-2:] == [Sort.HOLD, Sort.HOLD]


def test_not_standard_is_what_differs_from_the_ordered_series_and_market() -> None:
    def told(own: dict[str, str], donor: Donor = NO_DONOR) -> list[tuple[str, str, str]]:
        return [(one.option, one.choice, one.usual) for one in work(own, donor).departures]

    assert told({}) == []
    assert told({"steering": "left", "holes": "blanked", "colour": "peat"}) == [
        ("steering", "left", "right"), ("holes", "blanked", "open"),
    ]  # fmt: skip
    coupe = {"series": "s2", "body": "coupe", "rear-window": "large", "hood": "none", "filler": "deck",
             "holes": "blanked"}  # fmt: skip
    assert told(coupe, Donor("s2", 5900)) == [("rear-window", "large", "small")]
    assert told(coupe, Donor("s2", 6201)) == []


def test_a_specification_that_leaves_something_open_makes_no_shell() -> None:
    half = {option: choice for option, choice in settled({}).items() if option not in ("wipers", "packing")}
    with pytest.raises(OpenOptions) as refused:
        work_of(whole(), NO_DONOR, half)
    assert refused.value.options == ("wipers", "packing")


def test_the_demo_has_as_much_of_it_as_a_shop_needs() -> None:
    made = whole().making
    counts = (len(made.operations), len(made.zones), len(made.holes), sum(len(gap.points) for gap in made.gaps),
              len(made.datums))  # fmt: skip
    least = (60, 12, 25, 30, 12)
    assert all(count >= wanted for count, wanted in zip(counts, least, strict=True))
    stages = {operation.stage for operation in made.operations}
    assert {stage.id for stage in whole().stages} - stages == {"buffer"}


def test_points_of_a_gap_face_each_other_across_the_car() -> None:
    for gap in whole().making.gaps:
        if gap.across is not None:
            sides = Counter((point.x, abs(point.y)) for point in gap.points if point.side.value != "middle")
            assert set(sides.values()) == {2}, gap.id
