"""The truth is stated as a reading states its findings."""

from dataclasses import replace

import pytest

from loftwright.constants import YARD
from loftwright.services.training import DealOptions, truth_record
from loftwright.training.deal import Deal, deal

DEALT = deal(DealOptions(seed=5, clubs=3, balls=18, golfer="low"))


def truth(dealt: Deal) -> dict[str, dict[str, float]]:
    """Return value and total of each club."""
    record = truth_record(dealt)
    clubs = record["clubs"]
    assert isinstance(clubs, list)
    return {
        club["club"]: {"value": club["value_yd"], "total": club["as_you_swing_it"]["total_yd"]}
        for club in clubs
    }


def test_differences_are_to_the_own_club() -> None:
    figures = DEALT.truth.figures.as_you_swing_it
    for index, club in enumerate(DEALT.truth.clubs):
        expected = float(figures.total[index] - figures.total[0]) / YARD
        assert truth(DEALT)[club]["total"] == pytest.approx(expected, abs=1e-6)


def test_an_own_club_hit_once_is_no_zero() -> None:
    own = [shot for shot in DEALT.shots if shot.club == "Own"]
    others = [shot for shot in DEALT.shots if shot.club != "Own"]
    once = replace(DEALT, shots=(own[0], *others))
    record = truth_record(once)
    assert record["against"] == "mean"
    shown = truth(once)
    # The own club has too few balls to be in the mean that all are compared with.
    assert shown["Ash"]["total"] + shown["Birch"]["total"] == pytest.approx(0.0, abs=1e-6)
    assert shown["Ash"]["value"] + shown["Birch"]["value"] == pytest.approx(0.0, abs=1e-6)


def test_when_re_aimed_value_follows_total() -> None:
    shown = truth(DEALT)
    by_total = sorted(shown, key=lambda club: shown[club]["total"])
    by_value = sorted(shown, key=lambda club: shown[club]["value"])
    assert by_total == by_value
