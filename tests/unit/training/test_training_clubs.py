"""Virtual clubs shift a swing as widely as the table says."""

import numpy as np
import pytest

from loftwright.errors import InputError
from loftwright.training.clubs import CLUB_NAMES, CLUB_SPREAD, make_clubs
from loftwright.training.golfer import SWING_UNITS


def many(**options: float) -> np.ndarray:
    rng = np.random.default_rng(6)
    return np.concatenate([make_clubs(12, rng, **options) for _ in range(200)])  # type: ignore[arg-type]


def test_clubs_shift_a_swing_by_the_table() -> None:
    assert (
        pytest.approx(np.array([0.3, 0.2, 0.5, 0.5, 0.5, 0.75, 0.75])) == CLUB_SPREAD / SWING_UNITS
    )
    shifts = many()
    assert shifts.std(axis=0) == pytest.approx(CLUB_SPREAD, rel=0.05)
    assert np.abs(np.corrcoef(shifts, rowvar=False) - np.eye(7)).max() < 0.07


def test_strength_multiplies_and_no_difference_removes() -> None:
    plain, twice = many(), many(strength=2.0)
    assert twice == pytest.approx(2.0 * plain)
    assert not many(no_difference=True).any()


def test_clubs_that_move_the_strike_move_strike_and_speed_alone() -> None:
    plain, moving = many(), many(moves_strike=True)
    assert moving[:, 1:5] == pytest.approx(plain[:, 1:5])
    assert moving[:, 5:] == pytest.approx(2.0 * plain[:, 5:])
    assert moving[:, 0] == pytest.approx(plain[:, 0] * 0.5 / 0.3)


def test_clubs_are_named_own_and_then_by_trees() -> None:
    assert CLUB_NAMES[:4] == ("Own", "Ash", "Birch", "Cedar")
    assert len(CLUB_NAMES) == 13


@pytest.mark.parametrize("count", [0, 1, 14])
def test_clubs_without_a_name_are_refused(count: int) -> None:
    with pytest.raises(InputError, match="clubs"):
        make_clubs(count, np.random.default_rng(1))


@pytest.mark.parametrize("strength", [-1.0, np.nan])
def test_a_strength_that_cannot_be_is_refused(strength: float) -> None:
    with pytest.raises(InputError, match="strength"):
        make_clubs(3, np.random.default_rng(1), strength=strength)
