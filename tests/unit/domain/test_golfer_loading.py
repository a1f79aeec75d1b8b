"""How a golfer may load a shaft follows from two answers, and stays open while one is missing."""

from dataclasses import replace

from loftwright.domain.golfer import Golfer
from loftwright.physics.shaft_swing.players import Change, Loading, Release

NOBODY_LOOKED = Golfer(id="g")


def test_both_ways_stay_open_while_an_answer_is_missing() -> None:
    assert NOBODY_LOOKED.loadings == tuple(Loading)
    assert replace(NOBODY_LOOKED, change=Change.QUICK).loadings == tuple(Loading)


def test_answers_that_agree_settle_it() -> None:
    quick = replace(NOBODY_LOOKED, change=Change.QUICK, release=Release.LATE)
    smooth = replace(NOBODY_LOOKED, change=Change.SMOOTH, release=Release.EARLY)
    assert quick.loadings == (Loading.QUICK_LATE,)
    assert smooth.loadings == (Loading.SMOOTH_EARLY,)


def test_answers_that_disagree_leave_both() -> None:
    mixed = replace(NOBODY_LOOKED, change=Change.QUICK, release=Release.EARLY)
    assert set(mixed.loadings) == set(Loading)
