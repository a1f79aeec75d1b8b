"""Deals: the same bytes for a seed, the table's digits, and a truth that fits the rows."""

import csv
import io
from dataclasses import fields, replace

import numpy as np
import pytest

from loftwright.constants import DEGREE, MILE_PER_HOUR, MILLIMETRE, YARD
from loftwright.domain.shot import Shot
from loftwright.errors import InputError
from loftwright.intake.own_table import shot_table_text
from loftwright.training.deal import Deal, DealOptions, deal


def rows_of(dealt: Deal) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(shot_table_text(dealt.shots))))


def test_a_seed_gives_the_same_table_and_truth() -> None:
    options = DealOptions(seed=7, ghosts=3, misreads=2, unordered_marks=3)
    first, second = deal(options), deal(options)
    assert shot_table_text(first.shots) == shot_table_text(second.shots)
    assert first.truth.balls == second.truth.balls
    for name in ("total", "offline", "launch"):
        one = getattr(first.truth.figures.as_you_swing_it, name)
        assert np.array_equal(one, getattr(second.truth.figures.as_you_swing_it, name))


def test_another_seed_gives_another_golfer() -> None:
    first, second = deal(DealOptions(seed=1)), deal(DealOptions(seed=2))
    assert first.shots != second.shots
    assert not np.array_equal(first.truth.golfer.mean, second.truth.golfer.mean)


def test_more_balls_leave_golfer_and_clubs_as_they_are() -> None:
    few, many = deal(DealOptions(seed=5, balls=30)), deal(DealOptions(seed=5, balls=60))
    assert np.array_equal(few.truth.golfer.mean, many.truth.golfer.mean)
    assert np.array_equal(
        few.truth.figures.as_you_swing_it.total, many.truth.figures.as_you_swing_it.total
    )


def test_file_and_memory_agree() -> None:
    dealt = deal(DealOptions(seed=3, ghosts=2, unordered_marks=3))
    units = {
        "mph": MILE_PER_HOUR,
        "deg": DEGREE,
        "rpm": np.pi / 30.0,
        "mm": MILLIMETRE,
        "yd": YARD,
    }
    for shot, row in zip(dealt.shots, rows_of(dealt), strict=True):
        assert row["club"] == shot.club
        assert row["ball"] == shot.ball
        assert row["mark_set"] == (shot.mark_set or "")
        for heading, cell in row.items():
            name, _, unit = heading.rpartition("_")
            if unit not in units:
                continue
            value = getattr(shot, name)
            if value is None:
                assert cell == ""
            else:
                assert float(cell) * units[unit] == pytest.approx(value, rel=1e-12, abs=1e-15)


def test_rows_are_the_lines_of_the_table() -> None:
    dealt = deal(DealOptions(seed=3, ghosts=3, balls=30))
    assert [shot.row for shot in dealt.shots] == list(range(2, 35))
    assert [shot.order for shot in dealt.shots] == list(range(33))
    assert [ball.row for ball in dealt.truth.balls] == [shot.row for shot in dealt.shots]
    ghosts = [ball for ball in dealt.truth.balls if ball.ghost]
    assert len(ghosts) == 3
    assert all(ball.strike_toe is None and not ball.odd for ball in ghosts)


def test_hidden_strikes_lie_near_their_marks() -> None:
    dealt = deal(DealOptions(seed=4, balls=60))
    pairs = [
        (shot.strike_toe, ball.strike_toe)
        for shot, ball in zip(dealt.shots, dealt.truth.balls, strict=True)
        if shot.strike_toe is not None and ball.strike_toe is not None
    ]
    error = np.array([mark - true for mark, true in pairs])
    assert 35 <= len(pairs) <= 58
    assert np.abs(error).max() < 7.0 * MILLIMETRE


def test_six_clubs_are_own_and_five_trees() -> None:
    dealt = deal(DealOptions(seed=1))
    assert dealt.truth.clubs == ("Own", "Ash", "Birch", "Cedar", "Elm", "Fir")
    assert {shot.club for shot in dealt.shots} == set(dealt.truth.clubs)
    assert dealt.shots[0].club == "Own"
    assert len(dealt.shots) == 48


def test_a_left_hander_keeps_golfers_signs_and_turns_the_ball() -> None:
    right, left = deal(DealOptions(seed=8)), deal(DealOptions(seed=8, hand="left"))
    for one, other in zip(right.shots, left.shots, strict=True):
        for name in ("face", "path", "attack", "head_speed", "strike_toe", "strike_high"):
            assert getattr(one, name) == getattr(other, name)
        assert one.ball_speed == other.ball_speed
    assert left.truth.figures.as_you_swing_it.offline == pytest.approx(
        -right.truth.figures.as_you_swing_it.offline
    )


def test_clubs_without_difference_have_one_truth() -> None:
    truth = deal(DealOptions(seed=2, no_difference=True)).truth.figures
    assert np.ptp(truth.as_you_swing_it.total) == 0.0


def test_a_senior_and_a_stated_speed_swing_slowly() -> None:
    slow = deal(DealOptions(seed=2, head_speed=75.0 * MILE_PER_HOUR))
    seen = [shot.head_speed for shot in slow.shots if shot.head_speed is not None]
    assert np.mean(seen) / MILE_PER_HOUR == pytest.approx(75.0, abs=1.5)
    senior = deal(DealOptions(seed=2, golfer="senior")).truth
    assert senior.figures.as_you_swing_it.total.mean() / YARD < 190.0


@pytest.mark.parametrize(
    ("device", "blank"),
    [
        ("no-marks", {"strike_toe", "strike_high"}),
        (
            "ball-only",
            {"strike_toe", "strike_high", "head_speed", "attack", "path", "face", "carry"},
        ),
        ("speed-and-carry", {"launch", "spin", "axis", "direction", "head_speed", "strike_toe"}),
    ],
)
def test_a_device_leaves_its_columns_blank(device: str, blank: set[str]) -> None:
    dealt = deal(DealOptions(seed=6, device=device, ghosts=1))
    for shot in dealt.shots:
        assert all(getattr(shot, name) is None for name in blank)
        assert shot.ball_speed is not None


def test_dynamic_loft_is_never_shown() -> None:
    assert all(shot.dynamic_loft is None for shot in deal(DealOptions(seed=6)).shots)


def test_blocks_hit_every_club_in_turn() -> None:
    dealt = deal(DealOptions(seed=6, order="blocks", balls=20))
    assert len({shot.club for shot in dealt.shots[:6]}) == 6


@pytest.mark.parametrize(
    ("change", "place"),
    [
        ({"seed": -1}, "seed"),
        ({"balls": 3}, "balls"),
        ({"balls": 5000}, "balls"),
        ({"clubs": 20}, "clubs"),
        ({"clubs": 1}, "clubs"),
        ({"golfer": "champion"}, "golfer"),
        ({"device": "radar"}, "device"),
        ({"order": "sorted"}, "order"),
        ({"hand": "both"}, "hand"),
        ({"ghosts": -1}, "ghosts"),
        ({"misreads": 100}, "misreads"),
        ({"strength": -1.0}, "strength"),
    ],
)
def test_a_deal_that_cannot_be_is_refused_by_name(
    change: dict[str, float | str], place: str
) -> None:
    with pytest.raises(InputError) as caught:
        deal(replace(DealOptions(seed=1), **change))  # type: ignore[arg-type]
    assert caught.value.place == place


def test_shots_hold_nothing_of_the_truth() -> None:
    shown = {field.name for field in fields(Shot)}
    assert not shown & {"odd", "ghost", "mishit", "misread"}
    assert all(shot.note is None for shot in deal(DealOptions(seed=1, ghosts=2)).shots)
