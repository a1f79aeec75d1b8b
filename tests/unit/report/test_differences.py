"""Which two averages are explained, and parts that add up as shown."""

from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from loftwright.constants import YARD
from loftwright.evidence.result import Decision, Pair, Parts
from loftwright.report.differences import (
    explained_pair,
    largest_part,
    not_measured,
    shown_parts,
    unread,
)

Maker = Callable[..., Decision]
yards = st.floats(min_value=-80.0, max_value=80.0)


def test_the_pair_that_the_plain_averages_turn_round_is_explained(make_decision: Maker) -> None:
    pair = explained_pair(make_decision())
    assert pair is not None
    assert (pair.a, pair.b) == ("Birch", "Ash")


def test_the_first_two_are_explained_when_the_averages_agree(make_decision: Maker) -> None:
    decision = make_decision()
    agreed = tuple(replace(pair, raw_total=2.0 * YARD) for pair in decision.pairs)
    pair = explained_pair(replace(decision, pairs=agreed))
    assert pair is not None
    assert (pair.a, pair.b) == ("Birch", "Elm")


def test_one_club_leaves_nothing_to_explain(make_decision: Maker) -> None:
    decision = make_decision()
    assert explained_pair(replace(decision, clubs=decision.clubs[:1], pairs=())) is None


@given(known=st.tuples(yards, yards, yards, yards, yards), raw=yards)
def test_parts_add_up_as_shown(known: tuple[float, ...], raw: float) -> None:
    odd, strike, swing, warm_up, club = (value * YARD for value in known)
    total = raw * YARD
    parts = Parts(
        odd_balls=odd,
        strike=strike,
        swing=swing,
        warm_up=warm_up,
        club=club,
        left_over=total - (odd + strike + swing + warm_up + club),
    )
    pair = Pair(a="Ash", b="Own", p_a_better=None, raw_total=total, parts=parts)
    *shown, whole = shown_parts(pair)
    assert whole[0] == "Ash less Own"
    assert sum(value for _, value in shown) == pytest.approx(whole[1], abs=1e-6)


def test_a_pair_without_parts_shows_none() -> None:
    bare = Pair(a="Ash", b="Own", p_a_better=0.6, raw_total=None, parts=None)
    assert shown_parts(bare) == []


def test_what_was_not_measured_is_not_shown_as_nothing() -> None:
    parts = Parts(odd_balls=1.0, strike=0.0, swing=0.0, warm_up=0.0, club=2.0, left_over=-0.5)
    pair = Pair(a="Ash", b="Own", p_a_better=None, raw_total=2.5, parts=parts)
    names = [name for name, _ in shown_parts(pair)]
    assert names == ["odd balls", "warm-up", "club", "left over", "Ash less Own"]
    assert unread(not_measured(parts)) == (
        "Strike and swing were not measured: what came of it is in club and left over."
    )
    assert unread(["swing"]).startswith("Swing was not measured")


def test_the_largest_part_must_point_the_way_of_the_difference() -> None:
    parts = Parts(odd_balls=0.0, strike=-3.0, swing=1.0, warm_up=0.0, club=1.0, left_over=-1.0)
    assert largest_part(parts, -1.0) == "the strike makes"
    none = Parts(odd_balls=0.0, strike=0.0, swing=0.0, warm_up=0.0, club=0.0, left_over=0.0)
    assert largest_part(none, 1.0) is None


def test_no_ball_is_called_odd_that_is_not_listed() -> None:
    parts = Parts(odd_balls=3.0, strike=0.0, swing=0.0, warm_up=0.0, club=1.0, left_over=0.0)
    assert largest_part(parts, 1.0) == "odd balls make"
    assert largest_part(parts, 1.0, listed=False) == "unusual balls make"
