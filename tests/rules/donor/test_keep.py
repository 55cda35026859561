"""What is sent and kept of a donor car. Needed parts: P1 to P4 of scenario.md; the rest is the demo's."""

from __future__ import annotations

from dataclasses import replace

import pytest

from rules.condition import DonorSeries
from rules.donor.keep import Kept, Sent, kept_of
from rules.donor.usual import usual_specification
from rules.specification import Donor
from tests.rules.demo_book import NO_DONOR, asked, whole

HOME_S1 = {"series": "s1", "market": "home", "body": "roadster", "scuttle": "plain"}
HOME_S2_COUPE = {"series": "s2", "market": "home", "body": "coupe"}
NA_S3 = {"series": "s3", "market": "north-america", "body": "roadster"}


def kept(own: dict[str, str], whole_shell: bool = True) -> Kept:
    keys: dict[str, str] = {key: own[key] for key in ("series", "market", "body") if key in own}
    usual = usual_specification(whole(), keys, NO_DONOR) if whole_shell else {}
    said = asked({**usual, **own})
    return kept_of(whole(), NO_DONOR, said.settled, said.depends, said.verdicts)


def test_the_narrow_tunnel_is_sent_and_the_early_strikers_are_kept() -> None:
    found = kept(HOME_S1)
    assert found.sent == (Sent("P1"),)
    assert {"early-strikers", "dash-flat", "bumpers-chrome", "identity"} <= set(found.refit)
    assert not {"dash-hooded", "bumpers-impact", "marker-lamps", "rear-glass-small"} & set(found.refit)


def test_doors_travel_with_their_hinges_and_seals_and_only_then() -> None:
    assert kept(NA_S3 | {"own-doors": "yes"}).sent == (Sent("P2a", ("door-company",)),)
    assert kept(NA_S3).sent == ()
    assert "door-inside" in kept(NA_S3).refit
    assert "door-inside" not in kept(NA_S3 | {"own-doors": "yes"}).refit


def test_the_small_window_is_sent_and_its_glass_is_kept() -> None:
    found = kept(HOME_S2_COUPE | {"rear-window": "small"})
    assert (found.sent, "rear-glass-small" in found.refit) == ((Sent("P4"),), True)


def test_an_american_s3_keeps_its_own_dash_lamps_wipers_and_canister() -> None:
    assert {"dash-hooded", "marker-lamps", "wipers-three", "vapour-pipe"} <= set(kept(NA_S3).refit)


def test_what_the_donor_car_never_had_is_named_as_lacking() -> None:
    """Case 7: an S4 with the four-link takes chrome bumpers, and nobody strips them from an S4."""
    chrome = {"suspension": "four-link", "bumpers": "chrome", "rail-ends": "plain", "bonnet": "raised"}
    own = {"series": "s4", "market": "home", "body": "roadster", **chrome}
    said = asked({**usual_specification(whole(), own, NO_DONOR), **own})
    of_an_s4 = kept_of(whole(), Donor("s4", 5_050), said.settled, said.depends, said.verdicts)
    assert ("bumpers-chrome" in of_an_s4.refit, of_an_s4.lacking) == (True, ("bumpers-chrome",))
    of_an_s3 = kept_of(whole(), Donor("s3", 12_044), said.settled, said.depends, said.verdicts)
    assert of_an_s3.lacking == ("dash-wrapped",)
    assert kept_of(whole(), NO_DONOR, said.settled, said.depends, said.verdicts).lacking == ()


def test_a_faded_colour_is_mixed_to_a_panel_that_is_sent_before_paint() -> None:
    painted = {"finish": "painted", "colour": "reference", "scope": "outside", "primer": "epoxy-and-filler"}
    assert kept(NA_S3 | painted).besides == ("colour-sample",)


def test_case_8_asks_for_nothing_on_a_shell_that_cant_be_built() -> None:
    impossible = HOME_S1 | {"scuttle": "vented", "tunnel": "narrow", "suspension": "four-link"}
    assert kept(impossible) == Kept()


ALWAYS = {"identity", "screen", "filler-neck"}


# nothing answered; S3, which no rule lets have impact bumpers (D1)
@pytest.mark.parametrize(("own", "sure"), [({}, ALWAYS), ({"series": "s3"}, ALWAYS | {"bumpers-chrome"})])
def test_what_is_open_asks_only_for_what_is_sure(own: dict[str, str], sure: set[str]) -> None:
    found = kept(own, whole_shell=False)
    assert (found.sent, set(found.refit)) == ((), sure)


def test_a_book_that_names_nothing_keeps_nothing_but_still_sends_what_its_rules_ask_for() -> None:
    said = asked({"tunnel": "narrow"})
    found = kept_of(replace(whole(), keeps=()), NO_DONOR, said.settled, said.depends, said.verdicts)
    assert found == Kept(sent=(Sent("P1"),))


def test_what_is_kept_may_hang_on_the_donor_car() -> None:
    said = asked({"tunnel": "wide"})
    book = replace(
        whole(),
        keeps=(replace(whole().keeps[-1], when=DonorSeries(frozenset({"s1"})), together_with=None, before=None),),
    )
    for series, refit in (("s1", (book.keeps[0].id,)), ("s2", ())):
        found = kept_of(book, Donor(series=series), said.settled, said.depends, said.verdicts)
        assert found.refit == refit
