"""What a shop has learned, as the prior of a comparison."""

from dataclasses import replace

import numpy as np
import pytest

from fittings import made_balls
from loftwright.constants import DEGREE, MILE_PER_HOUR
from loftwright.domain.home import Home
from loftwright.errors import InputError
from loftwright.evidence.balls import Balls
from loftwright.evidence.clubs import ClubTraits
from loftwright.evidence.columns import columns_of
from loftwright.evidence.compare import compare
from loftwright.evidence.shop_prior import corrected, slope_doubts
from loftwright.evidence.slopes import Slopes, operating_delivery, slopes_at
from loftwright.evidence.spreads import Spreads
from loftwright.evidence.visit import Beliefs, set_up
from loftwright.physics.heads import REFERENCE_HEAD
from shop_told import coefficients_of, doubled, physics_told, told

TRAITS = (
    ClubTraits(head="own", shaft="otter"),
    ClubTraits(head="demo", shaft="heron"),
    ClubTraits(head="demo", shaft="badger"),
    ClubTraits(head="own", shaft="kestrel"),
)
MEASURED = ("everything", "no marks", "marks alone", "ball alone", "head speed alone")


def balls_with(measured: str, seed: int = 3) -> Balls:
    balls = made_balls(
        seed,
        missing_marks=1.0 if measured in {"no marks", "ball alone", "head speed alone"} else 0.2,
        delivery=measured not in {"marks alone", "ball alone"},
    )
    if measured != "head speed alone":
        return balls
    delivery = balls.delivery.copy()
    delivery[:, 1:] = np.nan
    return replace(balls, delivery=delivery)


@pytest.mark.parametrize("measured", MEASURED)
def test_a_shop_that_knows_the_physics_alone_changes_no_comparison(measured: str) -> None:
    balls = balls_with(measured)
    usual = compare(balls, Home(), Beliefs(traits=TRAITS))
    shop = Beliefs(traits=TRAITS, shop=physics_told(balls, TRAITS))
    by_shop = compare(balls, Home(), shop)
    assert by_shop.value == pytest.approx(usual.value, rel=1e-9)
    assert by_shop.value_covariance == pytest.approx(usual.value_covariance, rel=1e-7, abs=1e-12)
    for one, other in (
        (usual.visit.same, by_shop.visit.same),
        (usual.visit.swung, by_shop.visit.swung),
    ):
        assert other.launches == pytest.approx(one.launches, rel=1e-8, abs=1e-12)
    assert by_shop.visit.setup.believed == pytest.approx(usual.visit.setup.believed, rel=1e-12)


def test_the_mean_coefficients_move_by_exactly_what_the_golfers_showed() -> None:
    balls = balls_with("everything")
    slopes = slopes_at(operating_delivery(balls, REFERENCE_HEAD), REFERENCE_HEAD)
    spreads = Spreads(factor=1.0, table=doubled())
    shop = told(5, balls, TRAITS)
    moved = coefficients_of(corrected(slopes, shop), spreads) - coefficients_of(slopes, spreads)
    assert moved == pytest.approx(shop.slopes, abs=1e-12)
    by_shop = set_up(balls, Beliefs(traits=TRAITS, shop=shop)).launch_prior
    by_physics = set_up(balls, Beliefs(traits=TRAITS)).launch_prior
    apart = by_shop.coefficients - by_physics.coefficients
    assert apart[:, 1:9] == pytest.approx(shop.slopes, abs=1e-12)
    assert not apart[:, [0, 9, 10]].any()


def test_with_everything_measured_slopes_are_as_doubtful_as_golfers_differ() -> None:
    balls = balls_with("everything")
    shop = told(5, balls, TRAITS)
    prior = set_up(balls, Beliefs(traits=TRAITS, shop=shop)).launch_prior
    assert prior.coefficient_sd[:, 1:9] == pytest.approx(shop.slope_sd, rel=1e-12)


def test_a_face_without_a_path_takes_its_share_of_the_doubt_of_both_slopes() -> None:
    balls = balls_with("no marks")
    delivery = balls.delivery.copy()
    delivery[:, 2] = np.nan
    columns = columns_of(replace(balls, delivery=delivery))
    assert columns.delivery == ("head_speed", "attack", "face")
    shop = told(5, balls, TRAITS)
    spreads = Spreads(factor=1.0, table=doubled())
    found = slope_doubts(shop, spreads, columns)
    assert found[:, :2] == pytest.approx(shop.slope_sd[:, 4:6], rel=1e-12)
    # Path follows the face by 0.4 * 2.2 / 2.5 = 0.352, so face to path follows it by the rest.
    both = np.hypot(0.648 * shop.slope_sd[:, 6], shop.slope_sd[:, 7])
    assert found[:, 2] == pytest.approx(both, rel=1e-9)


def test_what_a_club_does_to_the_swing_reaches_launch_by_columns_or_by_slopes() -> None:
    """What two clubs are expected to differ by does not hang on the columns."""
    expected = []
    for measured in MEASURED:
        balls = balls_with(measured)
        balls = replace(balls, launch=balls_with("everything").launch)
        shop = told(5, balls_with("everything"), TRAITS)
        setup = set_up(balls, Beliefs(traits=TRAITS, shop=shop), slopes=_slopes())
        launch, swing = setup.launch_prior, setup.swing_prior
        whole = launch.effects
        if swing is not None:
            count = len(setup.columns.delivery)
            delivery = setup.columns.index(*setup.columns.delivery)
            whole = whole + launch.coefficients[:, delivery] @ swing.effects[:count]
            if setup.columns.marks:
                strike = launch.coefficients[:, setup.columns.index("toe", "high")]
                whole = whole + strike @ swing.effects[count:] / 2.0
        expected.append(whole)
    for other in expected[1:]:
        assert other == pytest.approx(expected[0], abs=1e-9)


def _slopes() -> Slopes:
    balls = balls_with("everything")
    return slopes_at(operating_delivery(balls, REFERENCE_HEAD), REFERENCE_HEAD)


def test_clubs_that_are_known_well_differ_less_before_a_ball() -> None:
    balls = balls_with("ball alone")
    vague = physics_told(balls, TRAITS)
    sure = replace(
        vague,
        clubs=replace(
            vague.clubs,
            launch_covariance=0.25 * vague.clubs.launch_covariance,
            swing_covariance=0.25 * vague.clubs.swing_covariance,
        ),
    )
    spreads = [
        np.trace(
            np.linalg.inv(set_up(balls, Beliefs(shop=shop)).launch_prior.effect_precisions[0])
        )
        for shop in (vague, sure)
    ]
    assert spreads[1] == pytest.approx(0.25 * spreads[0], rel=1e-9)


def test_what_is_known_of_another_number_of_clubs_is_refused() -> None:
    balls = balls_with("everything")
    shop = physics_told(balls, TRAITS[:3])
    with pytest.raises(InputError, match="knows 3 clubs of this fitting, which has 4"):
        set_up(balls, Beliefs(traits=TRAITS, shop=shop))


def test_what_a_shop_has_learned_is_not_doubted_twice() -> None:
    balls = balls_with("everything")
    setup = set_up(balls, Beliefs(traits=TRAITS, doubt=2.0, shop=physics_told(balls, TRAITS)))
    assert setup.doubt == 1.0
    assert setup.spreads.table.club_parts == pytest.approx(doubled().club_parts)


def test_what_physics_expects_of_a_swing_is_expected_beside_the_record() -> None:
    """The record is beyond physics and bench, so that both are in what is expected."""
    faster = replace(TRAITS[1], shift=(0.5 * MILE_PER_HOUR, 0.2 * DEGREE, 0.0, 0.0, 0.3 * DEGREE))
    traits = (TRAITS[0], faster, *TRAITS[2:])
    balls = balls_with("everything")
    shop = told(5, balls, TRAITS)
    moved, still = (set_up(balls, Beliefs(traits=one, shop=shop)) for one in (traits, TRAITS))
    assert moved.swing_prior is not None
    assert still.swing_prior is not None
    swing = moved.swing_prior.effects - still.swing_prior.effects
    assert swing[:, 1] == pytest.approx([0.5, 0.2, 0.0, 0.0, 0.0, 0.0])
    launch = moved.launch_prior.effects - still.launch_prior.effects
    assert launch[:, 1] == pytest.approx(0.3 * moved.slopes.parts[:, 4])
    assert not np.delete(swing, 1, axis=1).any()
