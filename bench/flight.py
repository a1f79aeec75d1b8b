"""Driver flights a second on one core, with their run, in the default logarithmic wind.

Every figure is the least processor time of several repeats, after compilation. Errors are the
greatest differences in carry and total from the reference method at a tolerance of 1e-12. The
adaptive solver is given the loosest tolerance that keeps it within the error of the vector lanes.
"""

import time
from collections.abc import Callable
from dataclasses import replace
from math import cos, hypot, sin

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE, YARD
from loftwright.physics._kernels import fly_each
from loftwright.physics.air import air
from loftwright.physics.flight import Conditions, Launch, fly_many, fly_quickly
from loftwright.physics.landing import Outcome
from loftwright.physics.reference_flight import Method, integrate
from loftwright.physics.tee import spin_axis, start_state

DRIVES = 40_000
CHECKED = 300
SOLVED = 40
STEP = 0.2
REPEATS = 7
FLOOR = 100_000
TARGET = 500_000
ALLOWED_ERROR = 0.1
WIND = 15.0 * MILE_PER_HOUR

CONDITIONS = Conditions(
    air=air(297.04, 0.0, 0.5),
    wind_along=-8.0 * MILE_PER_HOUR,
    wind_across=6.0 * MILE_PER_HOUR,
)


def main() -> None:
    drives = _drives(DRIVES)
    truth = _solve(drives[:CHECKED], CONDITIONS)
    lanes = _rate(lambda: fly_many(drives, CONDITIONS, STEP), DRIVES)
    lane_table = fly_many(drives, CONDITIONS, STEP)
    lane_error = _error(lane_table.carry, lane_table.total, truth)
    loop_table = np.empty((DRIVES, len(Outcome._fields)))
    loop = _rate(lambda: _loop(drives, loop_table), DRIVES)
    loop_error = _error(loop_table[:, 0], loop_table[:, 1], truth)
    name, solver, solver_error = _adaptive(drives[:SOLVED], truth, max(lane_error))

    wind = hypot(CONDITIONS.wind_along, CONDITIONS.wind_across) / MILE_PER_HOUR
    print(
        f"Driver flights with run, 130 to 183 mph, {wind:.0f} mph of wind at 10 m over roughness "
        f"{CONDITIONS.roughness} m, double precision, one core:"
    )
    for what, rate, (carry, total) in (
        (f"vector lanes, step {STEP} s", lanes, lane_error),
        (f"scalar loop, step {STEP} s", loop, loop_error),
        (name, solver, solver_error),
    ):
        print(
            f"  {what:<32}{rate:>10,.0f} a second, error carry {carry:.4f}, total {total:.4f} yd"
        )
    print(f"  lanes against solve_ivp at equal error: {lanes / solver:,.0f} times as fast")
    print(f"  against the floor of {FLOOR:,} a second: {lanes / FLOOR:.1f}")
    print(f"  against the target of {TARGET:,} a second: {lanes / TARGET:.1f}")
    print(f"  error against the {ALLOWED_ERROR} yd allowed: {max(lane_error) / ALLOWED_ERROR:.2f}")
    _print_other_winds(drives[:SOLVED])
    _print_waits(drives)


def _print_other_winds(drives: FloatArray) -> None:
    worst = 0.0
    for quarter in range(8):
        along, across = (WIND * trend(quarter * 45.0 * DEGREE) for trend in (cos, sin))
        windy = replace(CONDITIONS, wind_along=along, wind_across=across)
        table = fly_many(np.tile(drives, (2, 1)), windy, STEP)
        worst = max(worst, *_error(table.carry, table.total, _solve(drives, windy)))
    print(f"  greatest error in {WIND / MILE_PER_HOUR:.0f} mph from eight sides: {worst:.4f} yd")


def _print_waits(drives: FloatArray) -> None:
    one = Launch(ball_speed=70.0, launch=0.22, spin=260.0, axis=0.03)
    plane = drives[: 61 * 41]
    spread = drives[:10_000]
    for what, call, count in (
        ("one ball", lambda: [fly_quickly(one, CONDITIONS) for _ in range(200)], 200),
        ("61 by 41 launches and spins", lambda: fly_many(plane, CONDITIONS), 1),
        ("10,000 balls of a dispersion", lambda: fly_many(spread, CONDITIONS), 1),
    ):
        print(f"  {what}: {1e3 / _rate(call, count):.3g} ms")


def _drives(count: int) -> FloatArray:
    rng = np.random.default_rng(20)
    return np.column_stack(
        [
            rng.uniform(130.0, 183.0, count) * MILE_PER_HOUR,
            rng.uniform(8.0, 17.0, count) * DEGREE,
            rng.uniform(1700.0, 3500.0, count) * REVOLUTION_PER_MINUTE,
            rng.normal(0.0, 6.0, count) * DEGREE,
            rng.normal(0.0, 2.0, count) * DEGREE,
        ]
    )


def _rate(call: Callable[[], object], count: int) -> float:
    """Return how many a second, from the quickest of several repeats."""
    call()
    quickest = np.inf
    for _ in range(REPEATS):
        begin = time.process_time()
        call()
        quickest = min(quickest, time.process_time() - begin)
    return count / quickest


def _loop(drives: FloatArray, table: FloatArray) -> None:
    fly_each(drives, CONDITIONS.medium, CONDITIONS.ground, STEP / 16.0, STEP, table)


def _solve(
    drives: FloatArray,
    conditions: Conditions,
    method: Method = "DOP853",
    tolerance: float = 1e-12,
) -> FloatArray:
    flown = []
    for ball_speed, launch, spin, tilt, direction in drives.tolist():
        start = start_state(ball_speed, launch, spin, direction)
        axis = spin_axis(tilt, direction)
        flown.append(integrate(start, axis, conditions, method, tolerance)[:2])
    return np.array(flown)


def _error(carry: FloatArray, total: FloatArray, truth: FloatArray) -> tuple[float, float]:
    count = len(truth)
    found = np.column_stack([carry[:count], total[:count]])
    worst = np.abs(found - truth).max(axis=0) / YARD
    return float(worst[0]), float(worst[1])


def _adaptive(
    drives: FloatArray, truth: FloatArray, allowed: float
) -> tuple[str, float, tuple[float, float]]:
    """Return the quickest setting of solve_ivp that keeps within an error."""
    found = []
    methods: tuple[Method, ...] = ("RK45", "DOP853")
    for method in methods:
        for tolerance in (1e-2, 1e-3, 1e-4, 1e-5, 1e-6):
            begin = time.process_time()
            solved = _solve(drives, CONDITIONS, method, tolerance)
            rate = len(drives) / (time.process_time() - begin)
            error = _error(solved[:, 0], solved[:, 1], truth[: len(drives)])
            if max(error) <= allowed:
                found.append((f"solve_ivp {method}, tolerance {tolerance:g}", rate, error))
                break
    return max(found, key=lambda setting: setting[1])
