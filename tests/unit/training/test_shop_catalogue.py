"""The invented shafts of a simulated shop."""

import numpy as np
import pytest

from loftwright.training.clubs import CLUB_SPREAD
from loftwright.training.shop_catalogue import (
    NOTHING_SHARED,
    PIECE_ALONE,
    SHAFT_LEVELS,
    SHARES,
    Catalogue,
    draw_catalogue,
    with_head,
)


def catalogue(seed: int = 1, loading: float = 0.0) -> Catalogue:
    return draw_catalogue(CLUB_SPREAD, SHARES, loading, np.random.default_rng(seed))


def test_what_came_later_was_in_no_record() -> None:
    listed = catalogue()
    old_models = {one.model for one in listed.old}
    old_families = {one.family for one in listed.old}
    assert old_models.isdisjoint(one.model for one in listed.later_models)
    assert old_families.issuperset(one.family for one in listed.later_models)
    assert old_families.isdisjoint(one.family for one in listed.later_families)


def test_a_shaft_does_what_its_levels_do_together() -> None:
    listed = catalogue()
    shaft = listed.old[0]
    whole = sum(listed.does[level, getattr(shaft, level)] for level in SHAFT_LEVELS)
    assert listed.shared(shaft, 1.0) == pytest.approx(whole)


def test_two_loadings_differ_by_what_the_model_does_of_each() -> None:
    listed = catalogue(loading=0.7)
    shaft = listed.old[3]
    apart = listed.shared(shaft, 1.0) - listed.shared(shaft, -1.0)
    assert apart == pytest.approx(2.0 * listed.by_loading[shaft.model])
    assert np.abs(apart).min() > 0.0


@pytest.mark.parametrize("shares", [SHARES, PIECE_ALONE, NOTHING_SHARED])
def test_shares_and_what_is_left_are_the_whole_variance(shares: dict[str, float]) -> None:
    listed = draw_catalogue(CLUB_SPREAD, shares, 0.0, np.random.default_rng(2))
    whole = listed.own_sd**2 + sum(shares.values()) * CLUB_SPREAD**2
    assert whole == pytest.approx(CLUB_SPREAD**2)


def test_members_of_a_level_differ_as_their_share_says() -> None:
    """96 members of one level and seven columns: a standard deviation has an error of 3 %."""
    listed = catalogue()
    drawn = [value / CLUB_SPREAD for (level, _), value in listed.does.items() if level == "piece"]
    assert np.std(drawn) == pytest.approx(np.sqrt(SHARES["piece"]), rel=0.12)


def test_a_head_changes_nothing_of_the_shaft() -> None:
    shaft = catalogue().old[5]
    club = with_head(shaft, "some head")
    assert (club.head, club.piece, club.model) == ("some head", shaft.piece, shaft.model)
