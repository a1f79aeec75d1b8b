"""Virtual whole clubs: what is hit, what could be built, and what it truly does."""

from dataclasses import replace

import numpy as np
import pytest

from loftwright.constants import DEGREE, GRAM, MILE_PER_HOUR, YARD
from loftwright.training.builds import HIT, BuiltFitting, Golfers, build_fitting, builds_of
from loftwright.training.device import DEVICES
from loftwright.training.sequence import shuffled_blocks

EXACT = Golfers(spread=0.0, of_its_own=False)


def built(seed: int = 1, golfers: Golfers = EXACT, device: str = "full") -> BuiltFitting:
    return build_fitting("mid", seed, DEVICES[device], golfers)


def worth(found: BuiltFitting, kind: str, base: int = 0) -> list[float]:
    """Return what builds of a kind are truly worth more than the club they are made from [yd]."""
    return [
        float(found.worth[len(HIT) + place] - found.worth[base]) / YARD
        for place, build in enumerate(found.builds)
        if (build.kind, build.base) == (kind, base)
    ]


def test_what_can_be_built_is_three_shafts_a_head_and_eight_changes_of_two_clubs() -> None:
    found = builds_of(np.array([94.0 * MILE_PER_HOUR, 0.0, 0.0, 0.0, 14.5 * DEGREE]))
    kinds = [build.kind for build in found]
    assert len(found) == 20
    assert {kind: kinds.count(kind) for kind in kinds} == {
        "new shaft": 3,
        "new head": 1,
        "click": 4,
        "half an inch": 4,
        "four grams of shaft": 4,
        "four grams of head": 4,
    }


def test_one_seed_is_one_fitting() -> None:
    one, same, other = built(), built(), built(2)
    assert (one.worth == same.worth).all()
    assert (one.worth != other.worth).any()


def test_golfers_who_do_as_physics_says_gain_by_length_and_lose_by_weight() -> None:
    longer, shorter = worth(built(), "half an inch")
    heavier, lighter = worth(built(), "four grams of shaft")
    assert 0.5 < longer < 2.0
    assert -2.0 < shorter < -0.5
    assert -1.0 < heavier < 0.0 < lighter < 1.0


def test_a_golfer_who_gives_everything_back_gains_nothing() -> None:
    nothing = built(golfers=replace(EXACT, mean=0.0))
    for kind in ("click", "half an inch", "four grams of shaft"):
        assert worth(nothing, kind) == pytest.approx([0.0, 0.0], abs=1e-9)


def test_a_rest_of_its_own_sets_a_build_apart() -> None:
    nothing = built(golfers=Golfers(mean=0.0, spread=0.0))
    assert all(abs(one) > 0.01 for one in worth(nothing, "four grams of shaft"))


def test_a_heavier_head_swung_no_slower_gains_by_impact_alone() -> None:
    """Some 0.36 % of ball speed for four grams; where the weight sits moves it both ways."""
    gained = [
        worth(built(seed, replace(EXACT, mean=0.0)), "four grams of head") for seed in range(1, 21)
    ]
    heavier, lighter = np.array(gained).mean(axis=0)
    assert 0.2 < heavier < 1.5
    assert -1.5 < lighter < -0.2


def test_the_other_head_on_the_own_shaft_is_not_the_club_it_is_made_from() -> None:
    assert all(abs(one) > 0.01 for one in worth(built(golfers=Golfers()), "new head", base=1))
    (foretold,) = [one for one in built().neighbours if "new head" in one.name]
    assert (foretold.traits.head, foretold.traits.shaft) == (HIT[1][0], HIT[0][1])
    assert foretold.base == ""


def test_a_weight_is_put_into_the_head_that_is_hit() -> None:
    heavier = [one for one in built().builds if one.kind == "four grams of head"]
    assert sorted(round(one.head_mass / GRAM) for one in heavier) == [-4, -4, 4, 4]
    assert all(one.change.launch_doubts for one in heavier)


@pytest.mark.parametrize("strength", [1.0, 2.0])
def test_clubs_vary_as_they_are_believed_to(strength: float) -> None:
    """Sd of head speed between clubs 0.3 mph; a build keeps 0.8 of the variance (judgements)."""
    golfers = Golfers(strength=strength, mean=0.0, spread=0.0)
    shifts = np.array([built(seed, golfers).simulated.shifts[:, 0] for seed in range(1, 61)])
    sd = float(shifts.std()) / MILE_PER_HOUR
    assert sd == pytest.approx(0.3 * strength, rel=0.15)


def test_balls_come_from_the_clubs_that_are_hit_alone() -> None:
    found = built()
    balls = found.simulated.play(shuffled_blocks(len(HIT), 20, np.random.default_rng(1)))
    assert balls.clubs == ("Own", "Ash", "Birch", "Cedar")
    assert len(found.traits) == len(HIT)
    assert len(found.neighbours) == len(found.builds) == len(found.worth) - len(HIT)
