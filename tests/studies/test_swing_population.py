"""How players differ in what a shaft changes, and how one player's swings scatter.

Self-consistent: 96 players drawn about each invented one and 200 swings of each, against as many
others of a separate prototype. Bounds are those of chance: four standard errors of the difference
of two such means, half as much again or less for a standard deviation, and the rounding of the
table.
"""

from functools import cache
from math import degrees, log, sqrt
from typing import NamedTuple

import numpy as np
import pytest

from loftwright.arrays import FloatArray
from loftwright.physics.shaft_swing.bracket import brackets
from loftwright.physics.shaft_swing.matching import squared
from loftwright.physics.shaft_swing.players import Player
from loftwright.physics.shaft_swing.scatter import swing_to_swing
from loftwright.physics.shaft_swing.swings import swing
from study_tables import Say
from swung_figures import BASES, LATE, PLAYERS, PRINTED, SCATTERS, STEADY, three
from swung_players import drawn_players
from swung_shafts import shaft

pytestmark = [pytest.mark.study, pytest.mark.xdist_group("swing players")]

NAMES = {LATE: "late", STEADY: "steady"}
STYLES = pytest.mark.parametrize("player", NAMES, ids=NAMES.values())
DRAWN, SWINGS = 96, 200
WIDER = log(1.5)


class Drawn(NamedTuple):
    """Of all players: bend and kick with the own shaft, and by case what another changes.

    Columns of a change: delivered loft with torques and with motion held, mph with torques held,
    bend with motion held; of `unsquared`, delivered loft with torques held.
    """

    bases: FloatArray
    changes: dict[str, FloatArray]
    unsquared: dict[str, FloatArray]


@cache
def drawn(player: Player) -> Drawn:
    cases = tuple(PLAYERS[player])
    others, own = [shaft(case) for case in cases], shaft()
    bases: list[list[float]] = []
    changes: dict[str, list[list[float]]] = {case: [] for case in cases}
    unsquared: dict[str, list[float]] = {case: [] for case in cases}
    for one in drawn_players(player, DRAWN, seed=1):
        square = squared(one, own)
        made = swing(own, square)
        bases.append([degrees(made.bend_loft), made.kick])
        for case, found in zip(cases, brackets(others, own, square), strict=True):
            held, moved = three(found.held_torques), three(found.held_motion)
            changes[case].append([held[2], moved[2], held[0], moved[1]])
        for case, found in zip(cases, brackets(others, own, one), strict=True):
            unsquared[case].append(three(found.held_torques)[2])
    return Drawn(
        np.array(bases),
        {case: np.array(rows) for case, rows in changes.items()},
        {case: np.array(values) for case, values in unsquared.items()},
    )


def check(found: FloatArray, mean: float, sd: float, rounding: float) -> None:
    """Hold a sample against mean and standard deviation of another of the same size."""
    spread = max(sd, rounding)
    error = spread * sqrt(2.0 / DRAWN)
    assert found.mean() == pytest.approx(mean, abs=4.0 * error + rounding)
    made = max(float(found.std(ddof=1)), rounding)
    assert abs(log(made / spread)) < WIDER + rounding / spread


@STYLES
def test_players_differ_as_the_table_says(player: Player, say: Say) -> None:
    for case, expected in PLAYERS[player].items():
        found = drawn(player).changes[case]
        say(
            f"{case}: {found.mean(axis=0)[:3].round(3)} ({found.std(axis=0, ddof=1)[:3].round(3)})"
        )
        for column, (mean, sd) in enumerate(expected):
            check(found[:, column], mean, sd, PRINTED)


@STYLES
def test_bend_and_kick_with_the_own_shaft_differ_as_said(player: Player, say: Say) -> None:
    bases = drawn(player).bases
    means, sds = bases.mean(axis=0).round(2), bases.std(axis=0, ddof=1).round(2)
    say(f"{NAMES[player]}, bend and kick: {means} ({sds})")
    for column, (mean, sd) in enumerate(BASES[player]):
        check(bases[:, column], mean, sd, 0.055)


@STYLES
def test_a_face_not_quite_square_changes_no_mean(player: Player, say: Say) -> None:
    """Within 0.02 degrees, and rounding; the spread of a firm tip's effect grows, to 0.09."""
    found = drawn(player)
    for case, values in found.unsquared.items():
        apart = float(values.mean() - found.changes[case][:, 0].mean())
        assert abs(apart) < 0.02 + PRINTED, case
    spread = float(found.unsquared["t"].std(ddof=1))
    say(f"{NAMES[player]}, spread of a firm tip's effect: {spread:.3f}")
    if player is STEADY:
        assert abs(log(spread / 0.09)) < WIDER


@STYLES
def test_nine_in_ten_rank_the_bend_alike_with_their_motion_held(player: Player, say: Say) -> None:
    """90 and 91 of 96 rank firm tip, firm lower middle, soft upper middle, softer overall."""
    found = drawn(player).changes
    bends = np.array([found[case][:, 3] for case in ("t", "l", "u", "a")])
    ranked = int(np.sum(np.all(np.diff(bends, axis=0) > 0.0, axis=0)))
    say(f"{NAMES[player]}, ranked alike: {ranked} of {DRAWN}")
    expected = (90 if player is LATE else 91) / DRAWN
    error = sqrt(2.0 * expected * (1.0 - expected) / DRAWN)
    assert ranked / DRAWN == pytest.approx(expected, abs=4.0 * error)


@STYLES
def test_the_softest_shaft_is_the_fastest_on_average_with_torques_held(player: Player) -> None:
    speeds = {case: found[:, 2].mean() for case, found in drawn(player).changes.items()}
    assert max(speeds, key=lambda case: speeds[case]) == "a"


def test_late_players_differ_four_times_as_much_in_their_answer_to_stiffness(say: Say) -> None:
    late, steady = (drawn(one).changes["a"][:, 0].std(ddof=1) for one in (LATE, STEADY))
    say(f"{late:.3f} against {steady:.3f}")
    assert abs(log(late / steady / (0.70 / 0.16))) < WIDER


@STYLES
def test_swings_scatter_as_the_table_says(player: Player, say: Say) -> None:
    """A standard deviation of 200 swings has an error of 5 %; ratios share their swings."""
    lofts, speed = SCATTERS[player]
    draws = np.random.default_rng(5).normal(size=(SWINGS, 5))
    found = {case: swing_to_swing(shaft(case), player, draws) for case in lofts}
    own = degrees(found["reference"][:, 0].std(ddof=1))
    for case, expected in lofts.items():
        sd = degrees(found[case][:, 0].std(ddof=1))
        say(f"{NAMES[player]}, swings, {case}: {sd:.3f}, expected {expected:.2f}")
        rounding = 0.0055 if player is LATE else 0.0255
        assert sd == pytest.approx(expected, abs=0.28 * expected + rounding)
        assert sd / own == pytest.approx(expected / lofts["reference"], abs=0.05 + rounding / own)
        assert found[case][:, 1].std(ddof=1) == pytest.approx(speed, rel=0.28)
    at_one_frequency = [degrees(found[case][:, 0].std(ddof=1)) for case in lofts if "'" in case]
    assert max(at_one_frequency) / min(at_one_frequency) < 1.1
