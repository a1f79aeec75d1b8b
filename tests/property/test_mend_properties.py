"""What holds of every mend: nothing offered is worse than what was ordered, and weights add up."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from loftwright.constants import DEGREE, GRAM, INCH
from loftwright.domain.golfer import Hand
from loftwright.domain.rack import SleeveSetting
from loftwright.domain.tolerances import Tolerances
from loftwright.physics.sleeve import Convention, HeadAngles
from loftwright.workshop.mends import head_weight, turns
from ordered import a_spec

CONVENTIONS = st.sampled_from(Convention)
HEADS = st.builds(
    HeadAngles,
    loft=st.floats(7.0, 14.0).map(lambda one: one * DEGREE),
    lie=st.floats(55.0, 61.0).map(lambda one: one * DEGREE),
    face=st.floats(-3.0, 3.0).map(lambda one: one * DEGREE),
)
SLEEVES = st.lists(
    st.tuples(st.floats(0.0, 2.0), st.floats(0.0, 360.0)), min_size=1, max_size=8
).map(
    lambda told: tuple(
        SleeveSetting(name=f"n{place}", bore=bore * DEGREE, azimuth=azimuth * DEGREE)
        for place, (bore, azimuth) in enumerate(told)
    )
)


@given(new=HEADS, tested=HEADS, settings=SLEEVES, convention=CONVENTIONS)
def test_every_turn_that_is_offered_leaves_less_over_than_the_ordered_setting(
    new: HeadAngles,
    tested: HeadAngles,
    settings: tuple[SleeveSetting, ...],
    convention: Convention,
) -> None:
    spec = a_spec(settings=settings, setting="n0")
    stays, *offered = turns(spec, new, tested, convention, Tolerances(), 0.25 * DEGREE)
    assert stays.ordered
    sizes = [one.off for one in offered]
    assert sizes == sorted(sizes)
    assert all(one < stays.off for one in sizes)
    assert not any(one.ordered for one in offered)


@given(head=HEADS, settings=SLEEVES, convention=CONVENTIONS)
def test_a_head_as_the_tested_one_is_turned_by_nobody(
    head: HeadAngles, settings: tuple[SleeveSetting, ...], convention: Convention
) -> None:
    spec = a_spec(settings=settings, setting="n0")
    found = turns(spec, head, head, convention, Tolerances(), 0.25 * DEGREE)
    assert len(found) == 1
    assert found[0].off == 0.0
    assert found[0].soled == 0.0


@given(
    first=HEADS, second=HEADS, settings=SLEEVES, convention=CONVENTIONS, hand=st.sampled_from(Hand)
)
def test_the_hand_changes_nothing_in_the_golfer_s_own_signs(
    first: HeadAngles,
    second: HeadAngles,
    settings: tuple[SleeveSetting, ...],
    convention: Convention,
    hand: Hand,
) -> None:
    made = [
        turns(
            a_spec(settings=settings, setting="n0", hand=one),
            first,
            second,
            convention,
            Tolerances(),
            0.25 * DEGREE,
        )
        for one in (Hand.RIGHT, hand)
    ]
    assert made[0] == made[1]


@given(apart=st.floats(-15.0, 15.0), length=st.floats(43.0, 48.0))
def test_light_and_heavy_by_the_same_weight_are_opposite(apart: float, length: float) -> None:
    more, less = (head_weight(sign * apart * GRAM, length * INCH) for sign in (1.0, -1.0))
    assert more.points == pytest.approx(-less.points)
    assert more.add * less.add == 0.0
    assert max(more.add, less.add) == pytest.approx(abs(apart) * GRAM)
