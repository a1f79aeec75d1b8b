"""The impact model against published values and against reference rows of its own equations.

Status of every figure stands beside it: published, common practice (no source), from memory, or
self-consistent (computed twice, independently, from the same equations).

References
----------
Wood, Henrikson and Broadie 2018, Influence of face angle and club path on resultant launch
angle, Proceedings 2(6):249 (abstract).
Adjusting a momentum-based golf clubhead-ball impact model to improve accuracy, Proceedings
2020, 49(1):47, table 1.
Iwatsubo, Kawamura, Miyamoto and Yamaguchi, Numerical analysis of golf club head and ball at
various impact points (abstract).
Overall distance test of the governing bodies, press report of 6 December 2023: 120 mph, 10
degrees, 2520 rpm, 176 mph and 125 mph, 11 degrees, 2220 rpm, 183 mph.
Joint distance report of the governing bodies for 2015: means of the men's tour.
"""

from dataclasses import replace
from typing import NamedTuple

import numpy as np
import pytest
from scipy.optimize import root

from loftwright.constants import (
    DEGREE,
    GRAM_SQUARE_CENTIMETRE,
    MILE_PER_HOUR,
    MILLIMETRE,
    REVOLUTION_PER_MINUTE,
)
from loftwright.physics.impact import (
    PUBLISHED_HEAD,
    REFERENCE_HEAD,
    Delivery,
    Head,
    Impact,
    ImpactLaw,
    strike,
)


def hit(
    mph: float,
    attack: float,
    loft: float,
    *,
    path: float = 0.0,
    face: float = 0.0,
    lie: float = 0.0,
    toe: float = 0.0,
    high: float = 0.0,
    head: Head = REFERENCE_HEAD,
    law: ImpactLaw | None = None,
) -> Impact:
    """Strike with mph, degrees and millimetres."""
    return strike(
        head,
        Delivery(
            head_speed=mph * MILE_PER_HOUR,
            attack=attack * DEGREE,
            path=path * DEGREE,
            face=face * DEGREE,
            loft=loft * DEGREE,
            lie=lie * DEGREE,
            strike_toe=toe * MILLIMETRE,
            strike_high=high * MILLIMETRE,
        ),
        law or ImpactLaw(),
    )


class Row(NamedTuple):
    name: str
    mph: float
    attack: float
    path: float
    face: float
    loft: float
    lie: float
    toe: float
    high: float
    expected: tuple[float, float, float, float, float, float]


# Speed [m/s], launch, direction [deg], spin [rpm], axis [deg], speed ratio: self-consistent.
ROWS = (
    Row("R1", 113, 1, 0, 0, 13, 0, 0, 0, (73.9767, 10.7741, 0, 2796.4906, 0, 1.4644)),
    Row("R2", 113, 1, 0, 0, 13, 0, 0, 10, (72.3161, 12.9181, 0, 2407.0065, 0, 1.4316)),
    Row("R3", 113, 1, 0, 0, 13, 0, 0, -10, (72.9844, 8.5521, 0, 3185.2306, 0, 1.4448)),
    Row("R4", 113, 1, 0, 0, 13, 0, 12, 0, (72.9606, 10.7436, 2.4480, 2787.9909, -3.3690, 1.4443)),
    Row("R5", 113, 1, 0, 0, 13, 0, -12, 0, (72.9606, 10.7436, -2.4480, 2787.9909, 3.3690, 1.4443)),
    Row("R6", 113, 1, 0, 2, 13, 0, 0, 0, (73.9351, 10.7740, 1.6394, 2829.8620, 8.9721, 1.4636)),
    Row("R7", 105, 3, 3, 1, 14, 0, 8, 5, (68.3405, 13.0285, 3.0098, 2270.1772, -12.9921, 1.4559)),
    Row("R8", 119, 2, 0, 0, 13, 0, 0, 3, (77.7622, 11.6003, 0, 2592.7787, 0, 1.4618)),
    Row(
        "R9", 100, -1, -2, 1, 14.5, 3, -6, 4,
        (64.3129, 12.3789, -0.8688, 3147.0107, 12.8122, 1.4386),
    ),
    Row(
        "R10", 75, -2, -4, 0, 16, 0, -10, -8,
        (47.8728, 10.9223, -2.7892, 2976.2337, 12.9983, 1.4278),
    ),
    Row("R11", 80, -6, 0, 0, 50, 0, 0, 0, (31.0595, 41.4692, 0, 4484.2573, 0, 0.8685)),
)  # fmt: skip


def printed(impact: Impact) -> tuple[float, float, float, float, float, float]:
    """Return the six figures of a reference row in its units."""
    return (
        impact.ball_speed,
        impact.launch / DEGREE,
        impact.direction / DEGREE,
        impact.spin / REVOLUTION_PER_MINUTE,
        impact.axis / DEGREE,
        impact.speed_ratio,
    )


@pytest.mark.parametrize("row", ROWS, ids=[f"{row.name}-self-consistent" for row in ROWS])
def test_reference_row_holds_to_a_thousandth(row: Row) -> None:
    head = PUBLISHED_HEAD if row.name == "R9" else REFERENCE_HEAD
    law = ImpactLaw(friction=0.15) if row.name == "R11" else ImpactLaw()
    impact = hit(
        row.mph,
        row.attack,
        row.loft,
        path=row.path,
        face=row.face,
        lie=row.lie,
        toe=row.toe,
        high=row.high,
        head=head,
        law=law,
    )
    assert printed(impact) == pytest.approx(row.expected, abs=1e-3)


def test_sliding_row_keeps_the_friction_limit() -> None:
    impact = hit(80, -6, 50, law=ImpactLaw(friction=0.15))
    normal = np.array([np.cos(50 * DEGREE), np.sin(50 * DEGREE), 0.0])
    j = np.array(impact.impulse)
    along = float(j @ normal)
    assert np.linalg.norm(j - along * normal) / along == pytest.approx(0.15, abs=1e-9)
    assert impact.slides


def delivery_for(mph: float, launch: float, spin: float, high: float = 0.0) -> tuple[float, float]:
    """Return attack and dynamic loft [deg] that give a launch [deg] and spin [rpm]."""

    def miss(angles: np.ndarray) -> list[float]:
        impact = hit(mph, float(angles[0]), float(angles[1]), high=high)
        return [
            impact.launch / DEGREE - launch,
            (impact.back_spin / REVOLUTION_PER_MINUTE - spin) / 200.0,
        ]

    found = root(miss, [1.0, 12.5], tol=1e-10)
    assert found.success
    return float(found.x[0]), float(found.x[1])


@pytest.mark.parametrize(
    ("mph", "launch", "spin", "ball_mph", "tolerance"),
    [
        pytest.param(120, 10, 2520, 176, 0.01, id="overall-distance-120-published"),
        pytest.param(125, 11, 2220, 183, 0.01, id="overall-distance-125-published"),
        pytest.param(113.2, 10.8, 2599, 167.7, 0.02, id="mens-tour-2015-published"),
    ],
)
def test_ball_speed_follows_from_head_speed(
    mph: float, launch: float, spin: float, ball_mph: float, tolerance: float
) -> None:
    attack, loft = delivery_for(mph, launch, spin)
    impact = hit(mph, attack, loft)
    assert impact.ball_speed / MILE_PER_HOUR == pytest.approx(ball_mph, rel=tolerance)


def tour_hit() -> Impact:
    """Return the launch of an assumed tour delivery: 1 degree down, 12.6 of loft, 3 mm high."""
    return hit(113.2, -1.0, 12.6, high=3.0)


def test_assumed_tour_delivery_launches_within_half_a_degree_of_the_tour_mean() -> None:
    assert tour_hit().launch / DEGREE == pytest.approx(10.8, abs=0.5)  # published


@pytest.mark.xfail(
    strict=True,
    reason="3024 against 2599 rpm, 16.3 % over: spin is the model's weakest figure (10 %)",
)
def test_assumed_tour_delivery_spins_within_15_per_cent_of_the_tour_mean() -> None:
    assert tour_hit().spin / REVOLUTION_PER_MINUTE == pytest.approx(2599, rel=0.15)  # published


@pytest.mark.xfail(
    strict=True,
    reason="164.25 against 167.7 mph, 2.06 % under: head speed is defined 1 to 1.5 % differently",
)
def test_assumed_tour_delivery_is_within_2_per_cent_of_the_tour_ball_speed() -> None:
    assert tour_hit().ball_speed / MILE_PER_HOUR == pytest.approx(167.7, rel=0.02)  # published


def face_share(loft: float) -> float:
    """Return the share of the start direction that the face decides."""
    step = 0.5
    by_face = hit(113, 1, loft, face=step).direction - hit(113, 1, loft, face=-step).direction
    by_path = hit(113, 1, loft, path=step).direction - hit(113, 1, loft, path=-step).direction
    return by_face / (by_face + by_path)


def test_face_decides_61_to_83_per_cent_of_direction_and_less_with_loft() -> None:
    # Published: 61 to 83 % over the clubs (Wood, Henrikson and Broadie 2018).
    shares = [face_share(loft) for loft in (13.0, 30.0, 45.0)]
    assert all(0.61 <= share <= 0.83 for share in shares)
    assert shares == sorted(shares, reverse=True)
    assert shares == pytest.approx([0.82, 0.78, 0.71], abs=0.005)  # self-consistent


def with_inertia(vertical: float) -> Head:
    return replace(REFERENCE_HEAD, inertia=REFERENCE_HEAD.inertia * np.diag([1.0, vertical, 1.0]))


def with_depth(depth: float) -> Head:
    return replace(REFERENCE_HEAD, cg=np.array([-depth, 2.0, 0.0]) * MILLIMETRE)


def toe_side_rpm(head: Head) -> float:
    return hit(113, 1, 13, toe=15, head=head).side_spin / REVOLUTION_PER_MINUTE


def test_larger_inertia_gives_less_side_spin() -> None:
    # Direction published (Iwatsubo et al.); figures self-consistent.
    sides = [toe_side_rpm(with_inertia(share)) for share in (0.8, 1.0, 1.18)]
    assert np.abs(sides).tolist() == sorted(np.abs(sides), reverse=True)
    assert sides == pytest.approx([-403, -201, -75], abs=0.6)


def test_shallower_centre_of_gravity_gives_less_side_spin() -> None:
    # Direction published (Iwatsubo et al.); figures self-consistent.
    sides = [toe_side_rpm(with_depth(depth)) for depth in (30.0, 38.0, 46.0)]
    assert np.abs(sides).tolist() == sorted(np.abs(sides))
    assert sides == pytest.approx([-47, -201, -340], abs=0.6)


def test_shallower_centre_of_gravity_gives_more_back_spin() -> None:
    # Direction published (Iwatsubo et al.); figures self-consistent.
    backs = {
        high: [
            hit(113, 1, 13, high=high, head=with_depth(depth)).back_spin / REVOLUTION_PER_MINUTE
            for depth in (30.0, 38.0, 46.0)
        ]
        for high in (0.0, 10.0)
    }
    assert backs[0.0] == pytest.approx([2809, 2796, 2773], abs=0.6)
    assert backs[10.0] == pytest.approx([2563, 2407, 2257], abs=0.6)


def test_inertia_matters_more_than_depth_for_side_spin() -> None:
    # Direction published (Iwatsubo et al.); figures self-consistent.
    plain = toe_side_rpm(REFERENCE_HEAD)
    by_inertia = abs(toe_side_rpm(with_inertia(0.8)) - plain)
    by_depth = abs(toe_side_rpm(with_depth(0.8 * 38.0)) - plain)
    assert by_inertia > by_depth
    assert by_inertia == pytest.approx(202, abs=1.0)


def test_published_head_is_the_one_of_the_table() -> None:
    assert np.diag(PUBLISHED_HEAD.inertia) == pytest.approx(
        np.array([2843, 5679, 4085]) * GRAM_SQUARE_CENTIMETRE
    )
    assert PUBLISHED_HEAD.inertia[0, 1] == pytest.approx(-733 * GRAM_SQUARE_CENTIMETRE)
    assert PUBLISHED_HEAD.bulge == pytest.approx(305 * MILLIMETRE)


class Slope(NamedTuple):
    delivery: str
    step: float
    expected: tuple[float, float, float, float, float]
    where: str


# Per mph, degree or millimetre: ball speed [mph], launch, direction [deg], spin [rpm],
# axis [deg]; self-consistent, from the digits printed.
SLOPES = (
    Slope("mph", 0.5, (1.401, -0.001, 0, 24.7, 0), "centre"),
    Slope("attack", 0.1, (0.563, 0.178, 0, -213.9, 0), "centre"),
    Slope("path", 0.1, (0, 0, 0.180, 0, -4.52), "centre"),
    Slope("face", 0.1, (0, 0, 0.820, 0, 4.52), "centre"),
    Slope("loft", 0.1, (-0.563, 0.822, 0, 213.9, 0), "centre"),
    Slope("toe", 0.1, (0, 0, 0.204, 0, -0.289), "centre"),
    Slope("high", 0.1, (-0.075, 0.219, 0, -40.0, 0), "centre"),
    Slope("mph", 0.5, (1.369, 0, 0, 22.7, 0), "x12-y6"),
    Slope("attack", 0.1, (0.618, 0.18, 0, -213, -0.36), "x12-y6"),
    Slope("path", 0.1, (0.126, 0, 0.185, 15.2, -4.94), "x12-y6"),
    Slope("face", 0.1, (-0.126, 0, 0.815, -15.2, 4.94), "x12-y6"),
    Slope("loft", 0.1, (-0.618, 0.817, 0.007, 213, 0.41), "x12-y6"),
    Slope("toe", 0.1, (-0.373, -0.006, 0.204, -0.5, -0.270), "x12-y6"),
    Slope("high", 0.1, (-0.426, 0.213, 0, -37.9, -0.01), "x12-y6"),
)


def five(delivery: dict[str, float]) -> np.ndarray:
    impact = hit(**delivery)  # type: ignore[arg-type]
    return np.array(
        [
            impact.ball_speed / MILE_PER_HOUR,
            impact.launch / DEGREE,
            impact.direction / DEGREE,
            impact.spin / REVOLUTION_PER_MINUTE,
            impact.axis / DEGREE,
        ]
    )


@pytest.mark.parametrize("slope", SLOPES, ids=[f"{s.delivery}-{s.where}" for s in SLOPES])
def test_sensitivity_is_the_one_printed(slope: Slope) -> None:
    base = {"mph": 113.0, "attack": 1.0, "loft": 13.0, "path": 0.0, "face": 0.0}
    base |= {"toe": 12.0, "high": 6.0} if slope.where == "x12-y6" else {"toe": 0.0, "high": 0.0}
    up = base | {slope.delivery: base[slope.delivery] + slope.step}
    down = base | {slope.delivery: base[slope.delivery] - slope.step}
    slopes = (five(up) - five(down)) / (2.0 * slope.step)
    allowed = [0.006, 0.006, 0.006, 0.6, 0.006]
    assert np.all(np.abs(slopes - slope.expected) <= allowed)


@pytest.mark.parametrize(
    ("toe", "flat_rpm", "net_rpm", "direction", "axis", "ratio"),
    [
        (5, -323, -70, 1.02, -1.4, 1.461),
        (10, -641, -138, 2.04, -2.8, 1.450),
        (15, -949, -201, 3.06, -4.1, 1.433),
        (20, -1243, -258, 4.07, -5.3, 1.409),
    ],
)
def test_gear_effect_splits_as_printed(
    toe: float, flat_rpm: float, net_rpm: float, direction: float, axis: float, ratio: float
) -> None:
    # Self-consistent.
    flat = replace(REFERENCE_HEAD, bulge=np.inf)
    impact = hit(113, 1, 13, toe=toe)
    flat_side = hit(113, 1, 13, toe=toe, head=flat).side_spin
    assert flat_side / REVOLUTION_PER_MINUTE == pytest.approx(flat_rpm, abs=0.6)
    assert impact.side_spin / REVOLUTION_PER_MINUTE == pytest.approx(net_rpm, abs=0.6)
    assert impact.direction / DEGREE == pytest.approx(direction, abs=0.006)
    assert impact.axis / DEGREE == pytest.approx(axis, abs=0.06)
    assert impact.speed_ratio == pytest.approx(ratio, abs=0.0006)


def test_higher_strike_launches_higher_with_less_spin() -> None:
    # Common practice, no source: 1 to 2 degrees and some 400 rpm for 10 mm.
    low, centre, high = (hit(113, 1, 13, high=high) for high in (-10.0, 0.0, 10.0))
    assert low.launch < centre.launch < high.launch
    assert low.spin > centre.spin > high.spin


def test_toe_strikes_start_right_and_draw() -> None:
    # Common practice, no source.
    toe, heel = hit(113, 1, 13, toe=10), hit(113, 1, 13, toe=-10)
    assert toe.direction > 0.0 > toe.axis
    assert heel.direction < 0.0 < heel.axis


def test_speed_ratio_is_a_drivers_and_falls_off_the_centre() -> None:
    # Common practice, no source: 1.42 to 1.50 at the centre.
    ratios = [hit(113, 1, 13, toe=toe).speed_ratio for toe in (0.0, 10.0, 15.0, 20.0, 25.0)]
    assert 1.42 <= ratios[0] <= 1.50
    assert ratios == sorted(ratios, reverse=True)
    assert ratios == pytest.approx([1.464, 1.450, 1.433, 1.409, 1.379], abs=0.0006)


def test_face_open_to_path_fades() -> None:
    # Common practice, no source.
    impact = hit(113, 1, 13, face=2)
    assert impact.axis > 0.0
    assert impact.axis / DEGREE == pytest.approx(9.0, abs=0.05)


@pytest.mark.parametrize(
    ("change", "expected"),
    [
        ({"toe": 11.0}, (-1.6, -0.03, 2.25, -9, -2.4)),
        ({"high": 7.5}, (-2.1, 1.61, 0, -246, 0)),
        ({"high": -7.5}, (-0.7, -1.66, 0, 247, 0)),
        ({"loft": 15.0}, (-0.3, 0.41, 0, 88, 0)),
        ({"face": -0.5}, (0, 0, -0.41, np.nan, -1.8)),
    ],
    ids=["toe", "high", "low", "loft", "face"],
)
def test_one_deviation_of_a_mid_golfer_moves_the_launch_as_printed(
    change: dict[str, float], expected: tuple[float, ...]
) -> None:
    # Self-consistent: mph, degrees, degrees, rpm, degrees. Spin with the face is of second order
    # (1.4 rpm here, printed as 0) and left to the slopes above.
    base = {"mph": 94.0, "attack": -0.5, "loft": 14.5}
    moved = five(base | change) - five(base)
    stated = np.isfinite(expected)
    miss = np.abs(moved - expected)[stated]
    assert np.all(miss <= np.array([0.06, 0.006, 0.006, 0.6, 0.06])[stated])


def test_energy_of_the_first_row_is_the_one_printed() -> None:
    # Self-consistent: 263.48 J before and 248.44 J after, at spin factor 1.
    law = ImpactLaw(spin_factor=1.0)
    impact = hit(113, 1, 13, law=law)
    mass = REFERENCE_HEAD.mass + law.shaft_mass
    before = 0.5 * mass * (113 * MILE_PER_HOUR) ** 2
    normal = np.array([np.cos(13 * DEGREE), np.sin(13 * DEGREE), 0.0])
    toe = np.array([0.0, 0.0, 1.0])
    axes = np.column_stack([normal, np.cross(toe, normal), toe])
    inertia = axes @ REFERENCE_HEAD.inertia @ axes.T
    omega = np.array(impact.head_rotation)
    ball_inertia = 0.4 * law.ball_mass * law.ball_radius**2
    after = 0.5 * (
        mass * np.sum(np.square(impact.head_velocity))
        + omega @ inertia @ omega
        + law.ball_mass * impact.ball_speed**2
        + ball_inertia * impact.spin**2
    )
    assert before == pytest.approx(263.48, abs=0.01)
    assert after == pytest.approx(248.44, abs=0.01)
