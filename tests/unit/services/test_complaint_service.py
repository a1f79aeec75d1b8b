"""The looks of a complaint: figures read again, and what another place takes away."""

from dataclasses import replace
from datetime import timedelta

import pytest

from loftwright.constants import DEGREE, GRAM, YARD
from loftwright.domain.after_acts import (
    Complained,
    ComplaintEnded,
    Ending,
    Found,
    Look,
    LookedAt,
    Where,
)
from loftwright.domain.built import Checked
from loftwright.domain.home import Home, Turf
from loftwright.domain.tolerances import Tolerances
from loftwright.domain.verdict import Fit, Reading
from loftwright.errors import ConvergenceError, InputError, LoftwrightError
from loftwright.physics.flight import Launch
from loftwright.services.complaint import (
    changed,
    end,
    found_at,
    found_of,
    look,
    place_effect,
    read_again,
    what_was_said,
)
from loftwright.services.flight import fly_ball
from loftwright.services.follow_up import complain
from taken_clubs import FINAL_CHECK, PROMISE, Shop, quoted

USUAL = Tolerances()


@pytest.fixture
def shop() -> Shop:
    return Shop()


def taken(shop: Shop, *, sheet: bool = True) -> str:
    fitting = shop.fitting()
    shop.taken(fitting, sheet=sheet)
    return fitting


def again(shop: Shop, fitting: str, measured: str) -> dict[Checked, Fit | None]:
    record = shop.studio.store.job_record(fitting)
    return {one.checked: one.since for one in read_again(record, measured, USUAL)}


def test_a_club_that_measures_as_at_the_final_check_is_the_same(shop: Shop) -> None:
    fitting = taken(shop)
    told = read_again(shop.studio.store.job_record(fitting), FINAL_CHECK, USUAL)
    assert {one.since for one in told} == {Fit.IN}
    assert found_of(told) is Found.SAME
    length = next(one for one in told if one.checked is Checked.LENGTH)
    assert length.target == pytest.approx(45.0 * 0.0254)


def test_a_loft_that_was_bent_is_different(shop: Shop) -> None:
    fitting = taken(shop)
    bent = FINAL_CHECK.replace("value = 10.5", "value = 9.4")
    assert again(shop, fitting, bent)[Checked.LOFT] is Fit.OUT
    told = read_again(shop.studio.store.job_record(fitting), bent, USUAL)
    assert found_of(told) is Found.DIFFERENT


def test_a_reading_that_is_too_rough_clears_nothing(shop: Shop) -> None:
    rough = "[loft_deg]\nvalue = 10.5\nu95 = 3\n"
    record = shop.studio.store.job_record(taken(shop))
    assert found_of(read_again(record, rough, USUAL)) is Found.NOT_KNOWN


def test_what_was_never_read_is_held_against_the_sheet_alone(shop: Shop) -> None:
    fitting = taken(shop)
    balance = "[balance_inch]\nvalue = 33.0\nu95 = 0.02\n"
    told = read_again(shop.studio.store.job_record(fitting), balance, USUAL)
    assert (told[0].before, told[0].since) == (None, None)
    assert told[0].fit is not None


def test_without_sheet_the_final_check_alone_tells(shop: Shop) -> None:
    fitting = taken(shop, sheet=False)
    told = read_again(shop.studio.store.job_record(fitting), FINAL_CHECK, USUAL)
    assert {one.fit for one in told} == {None}
    assert found_of(told) is Found.SAME
    assert found_of(()) is Found.NOT_KNOWN


def test_with_neither_sheet_nor_final_check_nothing_is_known() -> None:
    assert found_of(read_again((), FINAL_CHECK, USUAL)) is Found.NOT_KNOWN


@pytest.mark.parametrize(
    ("grams", "doubt", "fit"),
    [
        (0.0, 0.3, Fit.IN),
        (1.9, 0.3, Fit.IN),
        (2.1, 0.3, Fit.OUT),
        (2.1, 3.0, Fit.CANNOT_TELL),
        (0.0, 5.0, Fit.CANNOT_TELL),
        (-6.0, 3.0, Fit.OUT),
    ],
)
def test_a_change_counts_beyond_tolerance_and_doubt(grams: float, doubt: float, fit: Fit) -> None:
    before = Reading(value=325.0 * GRAM, half_width=0.3 * GRAM)
    now = Reading(value=(325.0 + grams) * GRAM, half_width=doubt * GRAM)
    assert changed(now, before, 2.0 * GRAM) is fit


def test_colder_lower_and_softer_take_yards_away() -> None:
    home = Home(altitude=300.0)
    cold = place_effect(PROMISE, home, Where(temperature=home.temperature - 10.0))
    low = place_effect(PROMISE, home, Where(altitude=0.0))
    soft = place_effect(PROMISE, home, Where(turf=Turf.SOFT))
    against = place_effect(PROMISE, home, Where(wind_along=-4.0))
    for effect in (cold, low, soft, against):
        assert effect.together < -3.0 * YARD
        assert effect.parts[0][1] == effect.together
        assert found_at(effect) is Found.DIFFERENT


def test_the_effect_is_that_of_the_reference_flight() -> None:
    """By the adaptive method, launched as said (self-consistent)."""
    home = Home(altitude=300.0)
    where = Where(temperature=283.15, altitude=20.0, turf=Turf.FIRM)
    launch = Launch(
        ball_speed=PROMISE.ball_speed,
        launch=PROMISE.launch,
        direction=0.0,
        spin=PROMISE.spin,
        axis=0.0,
    )
    at_home = fly_ball(
        launch, temperature=home.temperature, altitude=300.0, humidity=home.humidity
    )
    there = fly_ball(
        launch, temperature=283.15, altitude=20.0, humidity=home.humidity, turf=Turf.FIRM
    )
    effect = place_effect(PROMISE, home, where)
    assert effect.together == pytest.approx(there.total - at_home.total, abs=0.2 * YARD)
    assert [name for name, _ in effect.parts] == ["temperature", "altitude", "turf"]


def test_ten_degrees_colder_are_some_yards_of_carry() -> None:
    """About a yard in 100 for 10 °C (common practice, no source: 1 to 2.5 %)."""
    effect = place_effect(PROMISE, Home(), Where(temperature=Home().temperature - 10.0))
    assert 2.0 * YARD <= -effect.together <= 6.0 * YARD


def test_a_place_like_home_explains_nothing() -> None:
    home = Home()
    for where in (Where(), Where(temperature=home.temperature, turf=home.turf, surface="mat")):
        effect = place_effect(PROMISE, home, where)
        assert (effect.parts, effect.together) == ((), 0.0)
        assert found_at(effect) is Found.SAME


def test_a_slow_ball_is_hurt_less_by_the_wind() -> None:
    slow = replace(PROMISE, ball_speed=0.7 * PROMISE.ball_speed)
    wind = Where(wind_along=-4.0)
    assert place_effect(slow, Home(), wind).together > place_effect(PROMISE, Home(), wind).together


@pytest.mark.parametrize(
    "told",
    [{"temperature": 200.0}, {"altitude": 9000.0}, {"wind_along": -20.0}],
)
def test_a_place_outside_the_flight_is_refused(told: dict[str, float]) -> None:
    with pytest.raises(InputError, match="outside the flight model") as refused:
        Where(**told)  # type: ignore[arg-type]
    assert refused.value.place == next(iter(told))


def test_looks_and_endings_need_an_open_complaint(shop: Shop) -> None:
    fitting = taken(shop)
    with pytest.raises(InputError, match="no complaint is open"):
        look(shop.studio, fitting, LookedAt(look=Look.BALL, found=Found.SAME))
    with pytest.raises(InputError, match="no complaint is open"):
        end(shop.studio, fitting, ComplaintEnded(ending=Ending.SWING))


def test_a_look_with_readings_that_cannot_be_is_not_written(shop: Shop) -> None:
    fitting = taken(shop)
    shop.later(3)
    complain(
        shop.studio,
        fitting,
        Complained(day=shop.studio.today() - timedelta(days=1), words="short"),
    )
    before = shop.studio.store.job_record(fitting)
    for measured in ("[loft_deg]\nvalue = 10.5\n", "no toml [", "[colour]\nvalue = 1\nu95 = 1\n"):
        with pytest.raises(LoftwrightError):
            look(
                shop.studio,
                fitting,
                LookedAt(look=Look.MEASURED, found=Found.SAME, measured=measured),
            )
    where = Where(temperature=280.0)
    with pytest.raises(InputError, match="place"):
        look(shop.studio, fitting, LookedAt(look=Look.BALL, found=Found.SAME, where=where))
    assert shop.studio.store.job_record(fitting) == before


def test_four_tenths_of_a_degree_of_loft_are_within_the_usual_tolerance() -> None:
    before = Reading(value=10.5 * DEGREE, half_width=0.2 * DEGREE)
    now = Reading(value=10.1 * DEGREE, half_width=0.2 * DEGREE)
    assert changed(now, before, USUAL.loft) is Fit.IN


def test_a_launch_without_a_total_is_not_flown_elsewhere(shop: Shop) -> None:
    level = replace(PROMISE, launch=0.0)
    with pytest.raises(ConvergenceError, match="has no total"):
        place_effect(level, Home(), Where(temperature=280.0))
    fitting = shop.fitting()
    shop.taken(fitting, level)
    shop.do(fitting, Complained(day=shop.studio.today(), words="short"))
    looked = LookedAt(look=Look.PLACE, found=Found.DIFFERENT, where=Where(temperature=280.0))
    with pytest.raises(ConvergenceError):
        look(shop.studio, fitting, looked)
    look(shop.studio, fitting, replace(looked, where=None))


def test_what_was_said_is_that_of_the_club_that_was_taken(shop: Shop) -> None:
    fitting = taken(shop)
    shop.do(fitting, quoted(None))
    assert what_was_said(shop.studio, fitting).promise == PROMISE
    never = shop.fitting()
    assert what_was_said(shop.studio, never).promise is None
