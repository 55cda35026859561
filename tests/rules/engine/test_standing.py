"""What usual, chosen and forced mean: one meaning for whoever asks, on the demo's shells."""

from __future__ import annotations

import pytest

from rules.answer import State
from rules.engine.ask import ask
from rules.engine.standing import settled_standing
from rules.specification import Donor
from tests.rules.demo_book import NO_DONOR, PRIVATE, chosen, prepared

S3_HOME = {"series": "s3", "market": "home", "body": "roadster"}
S4_HOME = {**S3_HOME, "series": "s4"}


def stands(own: dict[str, str], taken_over: dict[str, str], option: str, donor: Donor = NO_DONOR) -> State | None:
    """How the option's settled choice stands."""
    specification = chosen(own, taken_over)
    (found,) = (o for o in ask(prepared(donor=donor), specification, PRIVATE).options if o.option == option)
    return settled_standing(found, specification.answers.get(option))


@pytest.mark.parametrize(
    ("own", "taken_over", "option", "state"),
    [
        # usual, whoever gave it: typed, taken over, the only one left, typed though the only one left
        ({**S3_HOME, "dash": "flat"}, {}, "dash", State.USUAL),
        (S3_HOME, {"dash": "flat"}, "dash", State.USUAL),
        (S3_HOME, {}, "wipers", State.USUAL),
        ({**S3_HOME, "wipers": "two"}, {}, "wipers", State.USUAL),
        # not usual: the reader's own, or left alone by what he answered, taken over with it or still open
        ({**S3_HOME, "bonnet": "aluminium"}, {}, "bonnet", State.CHOSEN),
        ({**S4_HOME, "suspension": "four-link"}, {}, "bonnet", State.FORCED),
        ({**S4_HOME, "suspension": "four-link"}, {"bonnet": "raised"}, "bonnet", State.FORCED),
        # each of the two leaves the other alone: both are the reader's, neither is forced
        ({**S4_HOME, "suspension": "four-link", "bonnet": "raised"}, {}, "bonnet", State.CHOSEN),
        ({**S4_HOME, "suspension": "four-link", "bonnet": "raised"}, {}, "suspension", State.CHOSEN),
        # a dash that only an S4 had doesn't make the series that the reader asked about a forced one
        ({**S4_HOME, "dash": "wrapped"}, {}, "series", State.CHOSEN),
        # taken over for another market than is ordered now: it departs from the usual like a choice
        ({**S3_HOME, "market": "europe"}, {"steering": "right"}, "steering", State.CHOSEN),
        # nobody knows yet what was usual: taken over counts as usual
        ({"body": "roadster"}, {"steering": "right"}, "steering", State.USUAL),
        (S3_HOME, {}, "bonnet", None),
    ],
)
def test_a_detail_is_usual_chosen_or_forced(
    own: dict[str, str], taken_over: dict[str, str], option: str, state: State | None
) -> None:
    assert stands(own, taken_over, option) is state


def test_the_donors_series_is_usual_and_another_is_chosen() -> None:
    assert stands(S4_HOME, {}, "series", Donor("s4")) is State.USUAL
    assert stands(S4_HOME, {}, "series", Donor("s3")) is State.CHOSEN


def test_where_answers_clash_each_stands_as_it_would() -> None:
    """A roadster has no roof to open (N4)."""
    clashing = {**S3_HOME, "roof": "folding"}
    assert stands(clashing, {"bonnet": "steel"}, "roof") is State.CHOSEN
    assert stands({**clashing, "dash": "flat"}, {"bonnet": "steel"}, "dash") is State.USUAL
    assert stands(clashing, {"bonnet": "steel"}, "bonnet") is State.USUAL
