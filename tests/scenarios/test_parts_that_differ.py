"""A new head 3 g light and a degree strong: found, mended and settled before anything is glued."""

from dataclasses import replace

import pytest

from loftwright.constants import DEGREE, GRAM
from loftwright.domain.golfer import Hand
from loftwright.domain.parts_acts import Matter, Part, PartSettled, Settled
from loftwright.domain.verdict import Fit
from loftwright.physics.sleeve import Convention
from loftwright.report.parts_words import differs_words, effect_words, turn_words
from loftwright.report.screen_numbers import TRADE
from loftwright.services.parts import PartsNow, check_in, parts_standing, settle
from loftwright.services.settings import change_settings, read_settings
from loftwright.services.studio import Studio
from loftwright.workshop.held import Figure
from loftwright.workshop.left_over import effect
from loftwright.workshop.mends import Turn
from loftwright.workshop.parts import State
from ordered import SETTINGS, a_head_came, an_order
from studios import studio_in_memory

LIGHT_AND_STRONG = a_head_came(mass=197.0 * GRAM, loft=9.5 * DEGREE)


def arrived(studio: Studio, hand: Hand = Hand.RIGHT) -> PartsNow:
    """Check the head in and return what stands."""
    made = an_order(studio, hand=hand)
    check_in(studio, made.fitting, LIGHT_AND_STRONG)
    return parts_standing(studio, made.fitting)


def turned(now: PartsNow) -> Turn:
    assert now.mends is not None
    return now.mends.turns[1]


def test_both_are_found_at_once() -> None:
    head = arrived(studio_in_memory()).parts[Part.HEAD]
    out = [one for one in head.held if one.fit is Fit.OUT]
    assert [one.figure for one in out] == [Figure.MASS, Figure.LOFT]
    assert differs_words(Part.HEAD, out, TRADE) == "the head is 3.0 g light and 1.0° strong"


def test_the_swingweight_before_the_mend_is_told() -> None:
    """About 1.8 points of a driver of 45.25 in, by (x - 14 in) / 49.61 g in."""
    mends = arrived(studio_in_memory()).mends
    assert mends is not None
    assert mends.weight is not None
    assert mends.weight.points == pytest.approx(-1.8, abs=0.05)


def test_the_nearest_setting_brings_the_loft_back_and_closes_the_soled_face() -> None:
    nearest = turned(arrived(studio_in_memory()))
    assert nearest.setting == "one up"
    said = turn_words(nearest, Convention.C, TRADE)
    assert said == (
        "loft 10.5°, lie 58.0°, the face squared: as tested; soled flat, its face sits 1.6° "
        "more closed"
    )


def test_what_keeping_it_would_do_to_the_ball_is_told_as_computed() -> None:
    now = arrived(studio_in_memory())
    assert now.delivery is not None
    assert now.mends is not None
    stays = now.mends.turns[0]
    said = effect_words(effect(now.delivery, stays.apart.loft), Hand.RIGHT, TRADE)
    assert said == "about −0.8° launch and −190 rpm of spin, computed, not hit"


def test_settled_together_and_undone_together() -> None:
    studio = studio_in_memory()
    made = an_order(studio)
    check_in(studio, made.fitting, LIGHT_AND_STRONG)
    acts = [
        PartSettled(
            part=Part.HEAD, settled=Settled.HEAD_WEIGHT, mass=3.0 * GRAM, matter=Matter.MASS
        ),
        PartSettled(
            part=Part.HEAD, settled=Settled.TURN_SLEEVE, setting="one up", matter=Matter.ANGLES
        ),
    ]
    record = settle(studio, made.fitting, acts)
    assert {one.group for one in record[-2:]} == {record[-2].sequence}
    assert parts_standing(studio, made.fitting).parts[Part.HEAD].state is State.SETTLED


@pytest.mark.parametrize("convention", list(Convention))
def test_a_left_hander_is_offered_what_a_mirror_shows(convention: Convention) -> None:
    found = []
    for hand in Hand:
        studio = studio_in_memory()
        known = read_settings(studio)
        settings = replace(known.settings, convention=convention)
        change_settings(studio, settings, version=known.version)
        now = arrived(studio, hand)
        assert now.mends is not None
        found.append(now.mends)
    assert found[0] == found[1]


def test_ordered_one_up_already_it_goes_two_up() -> None:
    studio = studio_in_memory()
    made = an_order(studio, setting="one up", settings=SETTINGS)
    check_in(studio, made.fitting, LIGHT_AND_STRONG)
    assert turned(parts_standing(studio, made.fitting)).setting == "two up"
