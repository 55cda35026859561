"""The kit of a shell: its lines follow from the demo's book and the specification."""

from __future__ import annotations

from dataclasses import replace

import pytest

from rules.condition import DonorSeries
from rules.specification import Donor
from rules.workshop.kit import kit_of
from tests.rules.demo_book import NO_DONOR, whole


@pytest.mark.parametrize(
    ("choices", "there", "not_there"),
    [
        ({}, {"floor-later", "bulkhead-right", "deck", "doors-late", "turrets-low"}, {"roof", "floor-s1"}),
        ({"steering": "left", "market": "north-america"}, {"bulkhead-left-na"}, {"bulkhead-left", "bulkhead-right"}),
        ({"body": "coupe", "rear-window": "large"}, {"roof", "window-large", "jig-coupe"}, {"deck", "jig-roadster"}),
        # what the customer sends is no line of the kit, nor is what he has instead
        ({"own-doors": "yes", "tunnel": "narrow"}, {"boot-lid"}, {"doors-late", "doors-early", "tunnel-wide"}),
        ({"suspension": "four-link", "bonnet": "raised"}, {"turrets-tall", "bonnet-raised"}, {"turrets-low"}),
    ],
)
def test_the_lines_follow_from_the_specification(choices: dict[str, str], there: set[str], not_there: set[str]) -> None:
    usual = {"body": "roadster", "market": "home", "series": "s3", "steering": "right", "scuttle": "plain"}
    usual |= {"tunnel": "wide", "suspension": "leaf", "doors": "late", "rear-window": "none", "bumpers": "chrome"}
    usual |= {"wheel-well": "deep", "rail-ends": "plain", "belts": "original", "roof": "none", "bonnet": "steel"}
    usual |= {"own-doors": "no", "own-bonnet": "no", "own-boot-lid": "no"}
    lines = {line.id for line in kit_of(whole(), NO_DONOR, usual | choices)}
    assert there <= lines
    assert not not_there & lines


def test_a_line_may_hang_on_the_donor_car() -> None:
    book = whole()
    first = replace(book.making.kit[0], when=DonorSeries(frozenset({"s1"})))
    only = replace(book, making=replace(book.making, kit=(first,)))
    assert kit_of(only, Donor(series="s1"), {"series": "s3"}) == (first,)
    assert kit_of(only, Donor(series="s2"), {"series": "s3"}) == ()
