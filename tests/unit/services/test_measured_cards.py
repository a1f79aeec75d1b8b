"""Measured cards: the newest stands, a swingweight is worked out, contradictions are named."""

from dataclasses import replace
from datetime import timedelta

import pytest

from loftwright.constants import GRAM, INCH, KILOGRAM_SQUARE_CENTIMETRE
from loftwright.domain.built import Contradiction
from loftwright.domain.measured_card import PartFigures
from loftwright.domain.terms import CalibrationClub
from loftwright.errors import NotFoundError
from loftwright.services.measured_cards import keep_measured, measured_now
from loftwright.services.studio import Studio
from loftwright.services.terms import change_terms, read_terms
from ordered import HEAD
from studios import Clock, a_club, a_head, a_sleeve, studio_in_memory

WEIGHED = PartFigures(mass=315.6 * GRAM, balance=33.522 * INCH)
"""Of the reference driver of 45.5 in: D2.2 (self-consistent)."""


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def studio(clock: Clock) -> Studio:
    return studio_in_memory(clock)


@pytest.fixture
def club(studio: Studio) -> str:
    return a_club(studio, a_head(studio), "Reedmace", 60.0, 45.5).id


def test_the_newest_card_stands_and_the_earlier_ones_are_kept(
    studio: Studio, clock: Clock
) -> None:
    head = a_head(studio).id
    keep_measured(studio, head, HEAD, by="Ann")
    clock.forward(60 * 24)
    later = replace(HEAD, mass=200.4 * GRAM)
    now = keep_measured(studio, head, later, by="Bo")
    assert now.kind == "head"
    assert [one.by for one in now.cards] == ["Bo", "Ann"]
    assert now.card is not None
    assert now.card.figures == later
    assert now.cards[0].day - now.cards[1].day == timedelta(days=1)


def test_a_swingweight_nobody_read_is_worked_out_and_said_so(studio: Studio, club: str) -> None:
    now = keep_measured(studio, club, WEIGHED)
    assert now.derived
    assert now.swingweight is not None
    assert now.swingweight.value == pytest.approx(32.2, abs=0.06)
    assert not now.calibrated


def test_the_shop_s_own_scale_tells_it(studio: Studio, club: str) -> None:
    terms = read_terms(studio)
    own = CalibrationClub(mass=315.6 * GRAM, balance=33.522 * INCH, reads=33.5)
    change_terms(studio, replace(terms.terms, calibration=own), version=terms.version)
    now = keep_measured(studio, club, WEIGHED)
    assert now.calibrated
    assert now.swingweight is not None
    assert now.swingweight.value == pytest.approx(33.5)


def test_a_scale_that_weight_and_balance_contradict_is_not_believed(
    studio: Studio, club: str
) -> None:
    """Both doubts together are 0.81 points here: one point is too far, half of one is not."""
    near = keep_measured(studio, club, replace(WEIGHED, swingweight=32.7))
    assert near.contradicted == ()
    assert near.swingweight is not None
    assert near.swingweight.value == pytest.approx(32.7)
    far = keep_measured(studio, club, replace(WEIGHED, swingweight=35.2))
    assert [one.what for one in far.contradicted] == [Contradiction.SCALE]
    assert far.swingweight is None


def test_an_inertia_below_that_of_the_balance_point_is_named(studio: Studio, club: str) -> None:
    figures = replace(WEIGHED, inertia=2000.0 * KILOGRAM_SQUARE_CENTIMETRE)
    found = keep_measured(studio, club, figures).contradicted
    assert [one.what for one in found] == [Contradiction.POINT_MASS]


def test_a_head_has_no_swingweight(studio: Studio) -> None:
    now = keep_measured(studio, a_head(studio).id, replace(HEAD, balance=0.05))
    assert now.swingweight is None
    assert now.contradicted == ()


def test_only_pieces_and_clubs_are_measured(studio: Studio) -> None:
    with pytest.raises(NotFoundError):
        measured_now(studio, a_sleeve(studio).id)
    with pytest.raises(NotFoundError):
        keep_measured(studio, "nothing", HEAD)
