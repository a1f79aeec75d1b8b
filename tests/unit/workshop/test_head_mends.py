"""Mends of a head that differs: weight by the reference driver, turns by the sleeve."""

from math import sin

import pytest

from builds import DRIVER, club_at, points, with_head
from loftwright.constants import DEGREE, GRAM, INCH
from loftwright.domain.order import ClubSpec
from loftwright.domain.rack import SleeveSetting
from loftwright.domain.tolerances import Tolerances
from loftwright.domain.verdict import Fit
from loftwright.physics.build.swingweight import FULCRUM
from loftwright.physics.sleeve import Convention, HeadAngles
from loftwright.workshop.held import Figure
from loftwright.workshop.mends import Turn, head_weight, shaft_points, turns, turns_known
from ordered import SETTINGS, a_spec

TESTED = HeadAngles(loft=10.5 * DEGREE, lie=58.0 * DEGREE, face=0.0)
STRONG = HeadAngles(loft=9.5 * DEGREE, lie=58.0 * DEGREE, face=0.0)
DOUBT = 0.3 * DEGREE


def offered(
    spec: ClubSpec, head: HeadAngles = STRONG, convention: Convention = Convention.C
) -> tuple[Turn, ...]:
    return turns(spec, head, TESTED, convention, Tolerances(), DOUBT)


def test_three_grams_of_head_are_almost_two_points() -> None:
    """By the rule of (x - 14 in) / 49.61 g in; one point is 50 g in (published, seen)."""
    light = head_weight(-3.0 * GRAM, 45.25 * INCH)
    assert light.points == pytest.approx(-1.82, abs=0.005)
    assert light.add == pytest.approx(3.0 * GRAM)
    assert (light.shaft_lighter, light.grip_heavier, light.shorter) == (0.0, 0.0, 0.0)


def test_a_gram_of_head_does_what_it_does_in_the_sum_of_the_parts() -> None:
    """Self-consistent: the same driver summed with and without it."""
    length = 45.5 * INCH
    before, after = (points(club_at(length, parts)) for parts in (DRIVER, with_head(DRIVER, GRAM)))
    assert head_weight(GRAM, length).points == pytest.approx(after - before, rel=0.01)


def test_a_heavy_head_names_what_would_bring_it_back() -> None:
    """Self-consistent: half an inch of the same driver is 2.46 points."""
    heavy = head_weight(3.0 * GRAM, 45.5 * INCH)
    assert heavy.add == 0.0
    assert heavy.points == pytest.approx(1.84, abs=0.01)
    assert heavy.grip_heavier == pytest.approx(9.2 * GRAM, abs=0.2 * GRAM)
    assert heavy.shaft_lighter == pytest.approx(12.2 * GRAM, abs=0.3 * GRAM)
    assert heavy.shorter == pytest.approx(0.37 * INCH, abs=0.01 * INCH)
    shorter = points(club_at(45.5 * INCH)) - points(club_at(45.0 * INCH))
    assert heavy.points * 0.5 * INCH / heavy.shorter == pytest.approx(shorter, rel=0.02)


def test_a_shaft_that_balances_further_from_its_tip_makes_the_club_swing_lighter() -> None:
    heavier = shaft_points(60.0 * GRAM, 4.0 * GRAM, 0.0, 45.5 * INCH)
    assert heavier == pytest.approx(0.604, abs=0.01)
    assert shaft_points(60.0 * GRAM, 0.0, 0.5 * INCH, 45.5 * INCH) == pytest.approx(-0.6, abs=0.01)
    assert 45.5 * INCH > FULCRUM


def test_a_strong_head_is_turned_up_to_the_tested_loft() -> None:
    """One degree of loft wants 0.85 deg of bore: bore / sin(lie), the face squared."""
    stays, turned, *more = offered(a_spec())
    assert more == []
    assert stays.ordered
    assert stays.apart.loft == pytest.approx(-1.0 * DEGREE, abs=0.02 * DEGREE)
    assert stays.fits[Figure.LOFT] is Fit.OUT
    assert turned.setting == "one up"
    gained = turned.angles.loft - stays.angles.loft
    assert gained == pytest.approx(0.85 * DEGREE / sin(58.0 * DEGREE), abs=0.02 * DEGREE)
    assert turned.fits[Figure.LOFT] is Fit.IN
    assert turned.apart.lie == pytest.approx(0.0, abs=0.02 * DEGREE)
    assert turned.soled == pytest.approx(-1.6 * DEGREE, abs=0.05 * DEGREE)


def test_squared_faces_are_not_held_against_each_other() -> None:
    assert Figure.FACE not in offered(a_spec())[0].fits
    assert Figure.FACE in offered(a_spec(), convention=Convention.B)[0].fits


def test_soled_flat_no_turn_brings_loft_back() -> None:
    only = offered(a_spec(), convention=Convention.B)
    assert [one.setting for one in only] == ["middle"]


def test_a_turn_that_overshoots_is_not_offered() -> None:
    settings = (SleeveSetting(name="middle"), SleeveSetting(name="far up", bore=3.0 * DEGREE))
    assert len(offered(a_spec(settings=settings))) == 1


def test_a_weak_head_is_turned_down() -> None:
    weak = HeadAngles(loft=11.5 * DEGREE, lie=58.0 * DEGREE, face=0.0)
    assert offered(a_spec(), weak)[1].setting == "one down"


def test_what_was_ordered_turned_is_the_club_to_come_near_to() -> None:
    """Ordered one up and a degree strong: two up is the tested one again."""
    _, nearest = offered(a_spec(setting="one up"))[:2]
    assert nearest.setting == "two up"
    assert nearest.off < 0.05 * DEGREE


def test_a_flat_head_is_made_upright_by_leaning_the_grip_away_from_the_player() -> None:
    settings = (
        SleeveSetting(name="middle"),
        SleeveSetting(name="upright", bore=1.0 * DEGREE, azimuth=270.0 * DEGREE),
        SleeveSetting(name="flat", bore=1.0 * DEGREE, azimuth=90.0 * DEGREE),
    )
    flat = HeadAngles(loft=10.5 * DEGREE, lie=57.0 * DEGREE, face=0.0)
    found = offered(a_spec(settings=settings), flat)
    assert [one.setting for one in found] == ["middle", "upright"]
    assert found[1].angles.lie == pytest.approx(58.0 * DEGREE, abs=0.02 * DEGREE)


def test_a_glued_hosel_stays_as_it_is() -> None:
    only = offered(a_spec(settings=(), setting=""))
    assert len(only) == 1
    assert only[0].ordered


@pytest.mark.parametrize(
    ("settings", "known"),
    [
        (SETTINGS, True),
        (SETTINGS[:1], False),
        ((SleeveSetting(name="a"), SleeveSetting(name="b")), False),
        ((), False),
    ],
)
def test_a_sleeve_that_nobody_measured_tells_nothing(
    settings: tuple[SleeveSetting, ...], known: bool
) -> None:
    assert turns_known(settings) is known
