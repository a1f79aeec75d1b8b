"""Swingweight, pendulum, grip, sole, doubt and forecast: values and refusals."""

from dataclasses import replace
from math import pi, radians

import numpy as np
import pytest

from bench_shafts import even_shaft
from builds import DRIVER, club_at, points
from loftwright.constants import CYCLE_PER_MINUTE, DEGREE, GRAM, INCH, MILLIMETRE
from loftwright.errors import InputError, MeasurementError
from loftwright.physics.build.club import kept_length
from loftwright.physics.build.forecast import forecast
from loftwright.physics.build.grip import BuildUp, grip_size, under_grip, wraps_for
from loftwright.physics.build.ground import Sole, ground_at
from loftwright.physics.build.pendulum import Pendulum, pendulum_error, pendulum_inertia
from loftwright.physics.build.swingweight import (
    OFF_SCALE,
    USUAL_SCALE,
    calibrated_scale,
    index_of,
    letters,
)
from loftwright.physics.build.uncertainty import PartErrors, club_errors
from loftwright.physics.shaft.beam import TipBody
from loftwright.physics.shaft.frequency import frequency
from loftwright.physics.shaft.mount import Mount
from loftwright.physics.shaft.profile import trimmed

SWUNG = Pendulum(mass=0.320, balance=0.840, pivot=0.040, period=2.020)


@pytest.mark.parametrize(
    ("index", "told"),
    [(29.96, "D0.0"), (29.94, "C9.9"), (70.0, "G10.0"), (70.06, OFF_SCALE), (-0.06, OFF_SCALE)],
)
def test_points_are_rounded_before_they_are_split(index: float, told: str) -> None:
    assert letters(index) == told


@pytest.mark.parametrize("text", ["", "H1", "D10", "D", "D-1", "3", "D2.2.2", "D 22"])
def test_what_is_no_swingweight_is_refused(text: str) -> None:
    with pytest.raises(InputError, match="no swingweight"):
        index_of(text)


@pytest.mark.parametrize(("text", "index"), [("d2", 32.0), (" C 9.5 ", 29.5), ("G10", 70.0)])
def test_a_swingweight_is_read_as_people_write_it(text: str, index: float) -> None:
    assert index_of(text) == index


def test_a_calibration_club_far_from_its_reading_is_refused() -> None:
    with pytest.raises(InputError, match="calibration club"):
        calibrated_scale(0.310, 33.25 * INCH, 45.0)


def test_no_number_has_no_letter() -> None:
    assert letters(float("nan")) == OFF_SCALE


def test_a_wide_swing_is_slower_than_a_small_one() -> None:
    wide = replace(SWUNG, swing=4.0 * DEGREE)
    small = SWUNG.period / (1.0 + (4.0 * DEGREE) ** 2 / 16.0)
    assert pendulum_inertia(wide) == pytest.approx(pendulum_inertia(replace(SWUNG, period=small)))


def test_a_pendulums_doubt_is_that_of_its_readings() -> None:
    """Each slope by moving the reading itself."""
    step = 1e-6
    for name in ("period", "mass", "balance", "pivot"):
        moved = replace(SWUNG, **{name: getattr(SWUNG, name) + step})
        slope = (pendulum_inertia(moved) - pendulum_inertia(SWUNG)) / step
        errors = {"period": 0.0, name: 1e-3}
        assert pendulum_error(SWUNG, **errors) == pytest.approx(abs(slope) * 1e-3, rel=1e-4)


def test_five_milliseconds_are_a_gram_of_head() -> None:
    assert pendulum_error(SWUNG, period=0.005) / 1e-4 == pytest.approx(12.8, abs=0.1)


@pytest.mark.parametrize(
    ("change", "place"),
    [
        ({"mass": 0.0}, "mass"),
        ({"pivot": 0.9}, "pivot"),
        ({"period": 2020.0}, "period"),
        ({"swing": 10.0 * DEGREE}, "swing"),
        ({"gravity": 32.2}, "gravity"),
    ],
)
def test_a_pendulum_that_cannot_be_is_refused(change: dict[str, float], place: str) -> None:
    with pytest.raises(InputError) as caught:
        replace(SWUNG, **change)
    assert caught.value.place == place


def test_a_pendulum_quicker_than_a_point_mass_is_refused() -> None:
    with pytest.raises(MeasurementError, match="in one point"):
        pendulum_inertia(replace(SWUNG, period=1.5))


@pytest.mark.parametrize(
    "call",
    [
        lambda: under_grip(6.0 * INCH, 2.0, 0.005 * INCH),
        lambda: under_grip(0.6 * INCH, -1.0, 0.005 * INCH),
        lambda: under_grip(0.6 * INCH, 1.0, 0.5 * INCH),
        lambda: wraps_for(-0.001, 0.005 * INCH),
        lambda: grip_size(0.58 * INCH, 0.9 * INCH, 0.6 * INCH),
    ],
)
def test_grip_figures_that_cannot_be_are_refused(call: object) -> None:
    assert callable(call)
    with pytest.raises(InputError) as caught:
        call()
    assert caught.value.mend


def test_a_grip_bracket_has_its_ends_in_order() -> None:
    smaller = grip_size(0.9 * INCH, 0.6 * INCH, 0.58 * INCH)
    assert smaller.low == smaller.added < smaller.high == smaller.stretched


def test_so_many_turns_bring_a_grip_to_its_size() -> None:
    made = BuildUp(butt=0.6 * INCH, core=0.6 * INCH, nominal=0.9 * INCH, tape=0.005 * INCH)
    few, many = made.wraps_to(0.92 * INCH)
    assert few == pytest.approx(2.0)
    assert replace(made, wraps=few).size.added == pytest.approx(0.92 * INCH)
    assert replace(made, wraps=many).size.stretched == pytest.approx(0.92 * INCH)
    thick = replace(made, butt=0.63 * INCH)
    assert thick.wraps_to(0.9 * INCH)[1] < 0.0


def test_no_club_stands_flat_or_upright_and_no_sole_is_hollow() -> None:
    with pytest.raises(InputError, match="lie"):
        ground_at(Sole(along=0.0, across=0.038), radians(30.0))
    with pytest.raises(InputError, match="sole"):
        Sole(along=0.0, across=0.038, radius=-0.1)


def test_the_slope_of_length_with_lie_is_the_contacts_place() -> None:
    sole, lie, step = Sole(along=0.0, across=0.144, radius=0.2), radians(58.0), 1e-6
    slope = (ground_at(sole, lie + step) - ground_at(sole, lie - step)) / (2.0 * step)
    assert slope == pytest.approx(sole.contact(lie) / np.sin(lie) ** 2, rel=1e-6)


def test_the_heads_depth_is_the_largest_doubt_of_a_swingweight() -> None:
    found = club_errors(DRIVER, kept_length(DRIVER, 45.0 * INCH), PartErrors())
    assert found.by_part[0][0] == "head depth along the shaft"
    deeper = replace(DRIVER, head=replace(DRIVER.head, reach=DRIVER.head.reach + 5e-3))
    moved = points(club_at(45.5 * INCH, deeper)) - points(club_at(45.5 * INCH))
    assert moved == pytest.approx(0.77, abs=5e-3)


def test_a_clubs_doubt_agrees_with_drawing_its_parts() -> None:
    """Many clubs with parts drawn by their errors scatter as the first order says."""
    errors, generator = PartErrors(), np.random.default_rng(7)
    kept = kept_length(DRIVER, 45.5 * INCH)
    told = club_errors(DRIVER, kept, errors)
    drawn = []
    for _ in range(2000):
        head = replace(
            DRIVER.head,
            mass=DRIVER.head.mass + generator.normal(0.0, errors.mass),
            reach=DRIVER.head.reach + generator.normal(0.0, errors.reach),
        )
        grip = replace(
            DRIVER.grip, balance=DRIVER.grip.balance + generator.normal(0.0, errors.grip_balance)
        )
        drawn.append(points(club_at(45.5 * INCH, replace(DRIVER, head=head, grip=grip))))
    among = {"head mass", "head depth along the shaft", "grip balance"}
    expected = np.sqrt(sum(size**2 for name, size in told.by_part if name in among))
    assert np.std(drawn) == pytest.approx(expected, rel=0.06)


def test_added_weights_add_their_doubt() -> None:
    kept = kept_length(DRIVER, 45.0 * INCH)
    plain = club_errors(DRIVER, kept, PartErrors())
    added = club_errors(DRIVER, kept, PartErrors(), 3.0 * GRAM, 2.0 * GRAM)
    assert added.mass**2 - plain.mass**2 == pytest.approx(2.0 * (0.1 * GRAM) ** 2, rel=1e-3)


def test_an_uncut_shaft_still_has_a_doubt_of_its_length() -> None:
    found = club_errors(DRIVER, DRIVER.shaft.rod.length, PartErrors())
    assert found.length == pytest.approx(np.hypot(np.hypot(0.4, 0.4), 0.2) * MILLIMETRE, rel=1e-3)


def test_a_forecast_is_the_frequency_of_the_cut_shaft() -> None:
    shaft, mount, weight = even_shaft(), Mount(clamp=127.0 * MILLIMETRE), TipBody(mass=0.205)
    found = forecast(shaft, mount, weight, tip_trim=12.7e-3, butt_cut=25.4e-3)
    cut = trimmed(shaft, 12.7e-3, 25.4e-3)
    assert found.raw == pytest.approx(frequency(shaft, mount, weight))
    assert found.cut == pytest.approx(frequency(cut, mount, weight))
    assert found.raw < found.tip_trimmed < found.cut
    assert found.change_error < found.error


def test_a_forecast_doubts_more_of_a_shaft_that_is_less_known() -> None:
    shaft, mount, weight = even_shaft(), Mount(clamp=127.0 * MILLIMETRE), TipBody(mass=0.205)
    size = shaft.stations.size
    sure = forecast(shaft, mount, weight, tip_trim=0.0, butt_cut=25.4e-3)
    shared = forecast(
        shaft,
        mount,
        weight,
        tip_trim=0.0,
        butt_cut=25.4e-3,
        covariance=np.full((size, size), 0.02**2),
        clamp_error=0.0,
    )
    # A scale error of 2 % is one of 1 % of every frequency.
    assert shared.error == pytest.approx(0.01 * sure.cut, rel=2e-3)
    assert shared.error / CYCLE_PER_MINUTE > 1.0
    with pytest.raises(InputError, match="covariance"):
        forecast(shaft, mount, weight, tip_trim=0.0, butt_cut=0.0, covariance=np.zeros((2, 3)))


def test_a_small_swing_has_the_period_of_its_inertia() -> None:
    about = SWUNG.about_pivot
    period = 2.0 * pi * np.sqrt(about / (SWUNG.mass * SWUNG.gravity * SWUNG.arm))
    assert period == pytest.approx(SWUNG.period)


def test_the_usual_scale_is_not_called_calibrated() -> None:
    assert not USUAL_SCALE.calibrated
