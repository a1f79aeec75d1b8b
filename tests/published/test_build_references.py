"""Clubs as masses, against worked cases.

Published and seen: the scale's letters, fulcrum and its point of 50 g in; that 0.1 oz or a quarter
of an inch cost more than a point each (Tutelman, Golf club design, swingweight); grip figures of
trade pages. From memory: D0 at 213.5 oz in. All other figures were worked by hand and by an
independent sum over 400,001 stations (self-consistent).
"""

from dataclasses import replace
from math import degrees, pi, radians, sqrt

import numpy as np
import pytest

from builds import DRIVER, IRON, TOLERANCES, WEDGE, club_at, points
from loftwright.constants import (
    CYCLE_PER_MINUTE,
    DEGREE,
    GRAM,
    INCH,
    KILOGRAM_SQUARE_CENTIMETRE,
    MILLIMETRE,
    OUNCE,
    OUNCE_INCH,
)
from loftwright.domain.limits import Kind, Measured, Rules, limit_lines
from loftwright.domain.verdict import Reading, Side
from loftwright.physics.build.club import Club, Located, cuts_for, kept_length
from loftwright.physics.build.grip import grip_size, under_grip, wraps_for
from loftwright.physics.build.ground import RULE_LIE, Sole, ground_at
from loftwright.physics.build.parts import BuildParts
from loftwright.physics.build.pendulum import Pendulum, pendulum_inertia
from loftwright.physics.build.rods import straight_rod
from loftwright.physics.build.solve import Obstacle, Target, solve
from loftwright.physics.build.swingweight import (
    FULCRUM,
    OFF_SCALE,
    OFFICIAL_FULCRUM,
    POINT,
    USUAL_SCALE,
    letters,
    swingweight_error,
)
from loftwright.physics.build.trades import Trade, nearest_trades
from loftwright.physics.shaft.beam import TipBody
from loftwright.physics.shaft.frequency import frequency
from loftwright.physics.shaft.mount import Mount
from loftwright.physics.shaft.profile import uniform_mass_profile
from loftwright.physics.sleeve import Bore, Convention, turned

INERTIA = KILOGRAM_SQUARE_CENTIMETRE


@pytest.mark.parametrize(
    ("moment", "told"),
    [
        (161.0, "A0.0"),
        (178.5, "B0.0"),
        (196.0, "C0.0"),
        (211.75, "C9.0"),
        (213.5, "D0.0"),
        (213.45, "D0.0"),
        (217.0, "D2.0"),
        (231.0, "E0.0"),
        (248.5, "F0.0"),
        (266.0, "G0.0"),
        (160.0, OFF_SCALE),
    ],
)
def test_a_moment_has_its_letter(moment: float, told: str) -> None:
    """Letters published; that D0 is 213.5 oz in is from memory."""
    assert letters(USUAL_SCALE.index(moment * OUNCE_INCH)) == told


def test_a_point_is_fifty_gram_inches() -> None:
    assert pytest.approx(49.6117, abs=5e-5) == POINT / (GRAM * INCH)
    assert round(POINT / (GRAM * INCH), -1) == 50.0


def test_ounces_and_grams_give_one_swingweight() -> None:
    """Self-consistent: 1260.14 g mm are a point, to its digits, whatever a moment is told in."""
    in_ounces = (217.3269 - 161.0) / 1.75
    in_grams = (217.3269 - 161.0) * 28.349523125 * 25.4 / 1260.14
    assert in_grams == pytest.approx(in_ounces, rel=0.005 / 1260.14)
    assert USUAL_SCALE.index(217.3269 * OUNCE_INCH) == pytest.approx(in_ounces, abs=5e-9)


@pytest.mark.parametrize(
    ("mass", "balance", "moment", "index", "told"),
    [(310.0, 33.25, 210.4974, 28.2842, "C8.3"), (425.0, 28.0, 209.8801, 27.9315, "C7.9")],
)
def test_mass_and_balance_point_give_the_swingweight(
    mass: float, balance: float, moment: float, index: float, told: str
) -> None:
    found = mass * GRAM * (balance * INCH - FULCRUM)
    assert found / OUNCE_INCH == pytest.approx(moment, abs=5e-5)
    assert USUAL_SCALE.index(found) == pytest.approx(index, abs=5e-5)
    assert letters(USUAL_SCALE.index(found)) == told


def test_a_plain_club_of_three_parts() -> None:
    def even(name: str, mass: float, length: float, centre: float) -> Located:
        long = straight_rod(mass * GRAM, length * INCH, length * INCH / 2.0, name)
        return Located(
            name=name, mass=long.whole.mass, along=centre * INCH, inertia=long.whole.inertia
        )

    club = Club(
        parts=(
            Located(name="head", mass=200.0 * GRAM, along=44.5 * INCH),
            even("shaft", 60.0, 43.75, 22.0),
            even("grip", 50.0, 10.5, 4.25),
        ),
        length=45.0 * INCH,
    )
    assert club.mass / GRAM == pytest.approx(310.0)
    assert club.balance / INCH == pytest.approx(33.65323, abs=5e-6)
    assert club.moment_about(FULCRUM) / OUNCE_INCH == pytest.approx(214.9066, abs=5e-5)
    assert club.moment_about(FULCRUM) / (GRAM * INCH) == pytest.approx(6092.5, abs=5e-2)
    assert points(club) == pytest.approx(30.8038, abs=5e-5)
    assert letters(points(club)) == "D0.8"
    assert club.inertia / INERTIA == pytest.approx(2813.045, abs=5e-4)
    assert club.moment_about(OFFICIAL_FULCRUM) / OUNCE_INCH == pytest.approx(236.7765, abs=5e-5)


def test_a_cut_shaft_weighs_what_is_left() -> None:
    rod = straight_rod(62.0 * GRAM, 46.0 * INCH, 23.5 * INCH, "shaft")
    assert rod.density * INCH / GRAM == pytest.approx([1.259924, 1.435728], abs=5e-7)
    kept = rod.between(1.0 * INCH, 44.5 * INCH)
    assert kept.mass / GRAM == pytest.approx(58.58887, abs=5e-6)
    assert kept.balance / INCH - 1.0 == pytest.approx(22.19745, abs=5e-6)
    assert rod.between(0.0, 1.0 * INCH).mass / GRAM == pytest.approx(1.26184, abs=5e-6)
    assert rod.between(44.5 * INCH, 46.0 * INCH).mass / GRAM == pytest.approx(2.14929, abs=5e-6)


def test_a_driver_comes_to_its_figures() -> None:
    kept = kept_length(DRIVER, 45.5 * INCH)
    club = club_at(45.5 * INCH)
    assert kept / INCH == pytest.approx(43.625)
    assert cuts_for(DRIVER, kept).butt_cut / INCH == pytest.approx(2.375)
    assert club.mass / GRAM == pytest.approx(315.6009, abs=5e-5)
    assert club.balance / INCH == pytest.approx(33.52185, abs=5e-6)
    assert club.moment_about(FULCRUM) / OUNCE_INCH == pytest.approx(217.3269, abs=5e-5)
    assert points(club) == pytest.approx(32.1868, abs=5e-5)
    assert letters(points(club)) == "D2.2"
    assert club.moment_about(OFFICIAL_FULCRUM) / OUNCE_INCH == pytest.approx(239.6, abs=5e-2)
    assert club.inertia / INERTIA == pytest.approx(2850.528, abs=5e-4)


@pytest.mark.parametrize(
    ("parts", "length", "mass", "balance", "told", "official", "inertia"),
    [
        (IRON, 38.0, 420.95, 28.128, "C7.9", 239.5, 2622.7),
        (WEDGE, 35.25, 466.42, 26.735, "C7.7", 242.4, 2574.8),
    ],
)
def test_an_iron_and_a_wedge_come_to_their_figures(
    parts: BuildParts,
    length: float,
    mass: float,
    balance: float,
    told: str,
    official: float,
    inertia: float,
) -> None:
    """Worked without their parts told: round parts that meet every figure (self-consistent)."""
    club = club_at(length * INCH, parts)
    assert club.mass / GRAM == pytest.approx(mass, abs=5e-3)
    assert club.balance / INCH == pytest.approx(balance, abs=5e-4)
    assert letters(points(club)) == told
    assert club.moment_about(OFFICIAL_FULCRUM) / OUNCE_INCH == pytest.approx(official, abs=5e-2)
    assert club.inertia / INERTIA == pytest.approx(inertia, abs=5e-2)


@pytest.mark.parametrize(
    ("cut", "change"), [(0.25, -1.2302), (0.5, -2.4587), (1.0, -4.9105), (1.5, -7.3554)]
)
def test_a_shorter_driver_is_lighter_in_swing(cut: float, change: float) -> None:
    found = points(club_at((45.5 - cut) * INCH)) - points(club_at(45.5 * INCH))
    assert found == pytest.approx(change, abs=5e-5)


def test_a_gram_counts_where_it_sits() -> None:
    length = 45.5 * INCH
    grip = replace(DRIVER.grip, mass=51.0 * GRAM)
    clubs = [
        club_at(length, head_added=1.0 * GRAM),
        club_at(length, butt_added=1.0 * GRAM),
        club_at(length, replace(DRIVER, grip=grip)),
    ]
    base = club_at(length)
    moved = [points(club) - points(base) for club in clubs]
    assert moved == pytest.approx([0.6118, -0.2646, -0.1975], abs=5e-5)
    inertias = [(club.inertia - base.inertia) / INERTIA for club in clubs]
    assert inertias[0] == pytest.approx(12.70, abs=5e-3)
    assert inertias[1] == pytest.approx(0.005, abs=5e-4)
    assert inertias[2] == pytest.approx(0.166, abs=5e-4)


def test_mass_and_swingweight_are_met_exactly() -> None:
    answer = solve(DRIVER, Target(length=45.0 * INCH, swingweight=33.0, mass=325.0 * GRAM))
    assert answer.feasible
    assert answer.club is not None
    assert answer.cuts is not None
    base = club_at(45.0 * INCH)
    assert base.mass / GRAM == pytest.approx(314.888, abs=5e-4)
    assert points(base) == pytest.approx(29.728, abs=5e-4)
    assert answer.cuts.kept / INCH == pytest.approx(43.125)
    assert answer.cuts.butt_cut / INCH == pytest.approx(2.875)
    assert (answer.head_added or 0.0) / GRAM == pytest.approx(6.8655, abs=5e-5)
    assert (answer.butt_added or 0.0) / GRAM == pytest.approx(3.2465, abs=5e-5)
    assert answer.club.inertia / INERTIA == pytest.approx(2869.38, abs=5e-3)
    assert answer.club.balance / INCH == pytest.approx(33.0814, abs=5e-5)


def test_another_length_and_swingweight_are_met_exactly() -> None:
    answer = solve(DRIVER, Target(length=45.5 * INCH, swingweight=34.0, mass=320.0 * GRAM))
    assert answer.feasible
    assert answer.club is not None
    assert (answer.head_added or 0.0) / GRAM == pytest.approx(3.3972, abs=5e-5)
    assert (answer.butt_added or 0.0) / GRAM == pytest.approx(1.0019, abs=5e-5)
    assert answer.club.inertia / INERTIA == pytest.approx(2893.7, abs=5e-2)


@pytest.mark.parametrize(
    ("length", "index", "mass", "head", "butt", "obstacle"),
    [
        (46.0, 30.0, 312.0, -6.5366, 2.2219, Obstacle.HEAD_HEAVY),
        (45.0, 38.0, 318.0, 10.4997, -7.3878, Obstacle.BUTT_HEAVY),
    ],
)
def test_what_parts_cannot_make_is_told_unclipped_with_what_they_can(
    length: float, index: float, mass: float, head: float, butt: float, obstacle: Obstacle
) -> None:
    answer = solve(DRIVER, Target(length=length * INCH, swingweight=index, mass=mass * GRAM))
    assert not answer.feasible
    assert [one.obstacle for one in answer.reasons] == [obstacle]
    assert (answer.head_added or 0.0) / GRAM == pytest.approx(head, abs=5e-5)
    assert (answer.butt_added or 0.0) / GRAM == pytest.approx(butt, abs=5e-5)
    trades = nearest_trades(DRIVER, answer, TOLERANCES)
    assert Trade.HELD in [one.trade for one in trades]
    assert all(one.head_added >= 0.0 and one.butt_added >= 0.0 for one in trades)


def test_the_head_mass_that_meets_an_inertia() -> None:
    answer = solve(DRIVER, Target(length=45.0 * INCH, inertia=2850.5 * INERTIA))
    assert answer.club is not None
    assert (answer.head_added or 0.0) / GRAM == pytest.approx(5.3467, abs=5e-5)
    assert points(answer.club) == pytest.approx(32.945, abs=5e-4)
    assert letters(points(answer.club)) == "D2.9"


def test_a_pendulum_gives_the_driver_its_inertia_back() -> None:
    club = club_at(45.5 * INCH)
    pivot = 50.0 * MILLIMETRE
    about = club.inertia - club.mass * (club.balance**2 - (club.balance - pivot) ** 2)
    assert about / INERTIA == pytest.approx(2589.70, abs=5e-3)
    period = 2.0 * pi * sqrt(about / (club.mass * 9.80665 * (club.balance - pivot)))
    assert period == pytest.approx(2.030184, abs=5e-7)
    pendulum = Pendulum(mass=club.mass, balance=club.balance, pivot=pivot, period=2.030184)
    assert pendulum_inertia(pendulum) / INERTIA == pytest.approx(2850.528, abs=5e-3)


def test_a_pendulum_of_round_figures() -> None:
    pendulum = Pendulum(mass=0.320, balance=0.840, pivot=0.040, period=2.020)
    assert pendulum_inertia(pendulum) / INERTIA == pytest.approx(2804.72, abs=5e-3)


def test_a_sleeve_between_its_marks() -> None:
    bore = Bore(angle=radians(1.5), azimuth=radians(20.0))
    squared = turned(radians(10.5), radians(58.0), 0.0, bore, Convention.C)
    assert degrees(squared.loft) == pytest.approx(12.1032, abs=5e-5)


@pytest.mark.parametrize("convention", Convention)
def test_a_straight_sleeve_is_the_head_itself(convention: Convention) -> None:
    straight = Bore(angle=0.0, azimuth=radians(70.0))
    found = turned(radians(10.5), radians(58.0), 0.0, straight, convention)
    assert degrees(found.loft) == pytest.approx(10.5, abs=1e-9)
    assert degrees(found.lie) == pytest.approx(58.0, abs=1e-9)
    assert degrees(found.face) == pytest.approx(0.0, abs=1e-9)


def test_a_lie_of_sixty_degrees_lengthens_a_driver_and_shortens_an_iron() -> None:
    round_sole = Sole(along=0.0, across=143.984 * MILLIMETRE, radius=200.0 * MILLIMETRE)
    assert round_sole.contact(58.0 * DEGREE) / MILLIMETRE == pytest.approx(38.0, abs=5e-4)
    grown = ground_at(round_sole, RULE_LIE) - ground_at(round_sole, 58.0 * DEGREE)
    assert grown / MILLIMETRE == pytest.approx(1.9464, abs=5e-5)
    edge = Sole(along=0.0, across=38.0 * MILLIMETRE)
    grown = ground_at(edge, RULE_LIE) - ground_at(edge, 58.0 * DEGREE)
    assert grown / MILLIMETRE == pytest.approx(1.8057, abs=5e-5)
    iron = Sole(along=0.0, across=30.0 * MILLIMETRE)
    grown = ground_at(iron, RULE_LIE) - ground_at(iron, 63.0 * DEGREE)
    assert grown / MILLIMETRE == pytest.approx(-2.0347, abs=5e-5)


@pytest.mark.parametrize(
    ("core", "under", "added", "stretched"),
    [
        (0.580, 0.600, 0.920, 0.9130),
        (0.600, 0.620, 0.920, 0.9135),
        (0.600, 0.580, 0.880, 0.8868),
    ],
)
def test_a_grip_grows_by_the_bracket(
    core: float, under: float, added: float, stretched: float
) -> None:
    """A men's grip of 0.900 in on its core's butt: trade pages."""
    size = grip_size(0.900 * INCH, core * INCH, under * INCH)
    assert size.added / INCH == pytest.approx(added, abs=5e-7)
    assert size.stretched / INCH == pytest.approx(stretched, abs=5e-5)


@pytest.mark.parametrize(
    ("tape", "wraps"), [(0.005, 2.0), (0.0065, 1.5), (0.0067, 1.5), (0.0078, 1.3)]
)
def test_so_many_wraps_make_twenty_thousandths(tape: float, wraps: float) -> None:
    found = wraps_for(0.020 * INCH, tape * INCH)
    assert round(found, 1) == wraps
    assert under_grip(0.600 * INCH, found, tape * INCH) / INCH == pytest.approx(0.620)


@pytest.mark.parametrize(("length", "told"), [(1.0, 226.678), (1.0 - 12.7e-3, 231.155)])
def test_an_even_beam_with_a_weight_has_its_frequency(length: float, told: float) -> None:
    """By the formula for a light beam, 3 EI / (L^3 (m + 33/140 m_beam)); elements within 0.02."""
    along = np.array([0.0, length])
    shaft = uniform_mass_profile(along, [40.0, 40.0], [20.0, 20.0], 0.055 * length)
    swinging = 0.2 + 33.0 / 140.0 * 0.055 * length
    formula = sqrt(3.0 * 40.0 / (length**3 * swinging)) / (2.0 * pi)
    assert formula / CYCLE_PER_MINUTE == pytest.approx(told, abs=5e-4)
    found = frequency(shaft, Mount(clamp=0.0), TipBody(mass=0.2))
    assert found / CYCLE_PER_MINUTE == pytest.approx(told, abs=0.02)


def test_a_bench_knows_a_swingweight_to_a_third_of_a_point() -> None:
    error = swingweight_error(315.6 * GRAM, 33.5 * INCH, 0.5 * GRAM, 1.0 * MILLIMETRE)
    assert error == pytest.approx(0.3184, abs=5e-5)


def test_a_tenth_of_an_ounce_or_a_quarter_of_an_inch_cost_more_than_a_point() -> None:
    """Published: each costs more than one point."""
    ounce = swingweight_error(315.6 * GRAM, 33.5 * INCH, 0.1 * OUNCE, 0.0)
    inch = swingweight_error(315.6 * GRAM, 33.5 * INCH, 0.0, 0.25 * INCH)
    assert (ounce, inch) == pytest.approx((1.114, 1.590), abs=5e-4)
    assert min(ounce, inch) > 1.0


@pytest.mark.parametrize(
    ("length", "side"),
    [(48.00, Side.TOO_CLOSE), (47.90, Side.BELOW), (48.10, Side.ABOVE), (48.05, Side.TOO_CLOSE)],
)
def test_a_length_by_the_limit_has_three_verdicts(length: float, side: Side) -> None:
    reading = Reading(value=length * INCH, half_width=0.05 * INCH)
    lines = limit_lines({Measured.LENGTH: reading}, Kind.WOOD, Rules())
    upper = next(line for line in lines if not line.limit.least)
    assert upper.side is side


def test_forty_six_inches_count_only_where_the_competition_says_so() -> None:
    reading = {Measured.LENGTH: Reading(value=46.10 * INCH, half_width=0.05 * INCH)}
    usual = limit_lines(reading, Kind.WOOD, Rules())
    upper = [line for line in usual if not line.limit.least]
    assert [round(line.limit.value / INCH) for line in upper] == [48]
    assert [line.side for line in upper] == [Side.BELOW]
    local = limit_lines(reading, Kind.WOOD, Rules(local_length=True))
    assert [line.side for line in local if line.limit.local] == [Side.ABOVE]
