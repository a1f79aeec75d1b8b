"""Doubts that the balls raise: what they say, of which balls, and when they keep silent."""

from dataclasses import replace

import numpy as np
import pytest

from bay_fittings import (
    COARSE,
    first,
    fitting,
    joined_visits,
    with_dropped_read,
    with_mark_left_out,
    without_delivery,
)
from fittings import made_balls
from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE
from loftwright.domain.home import Home
from loftwright.evidence.alarms import Alarm, alarms
from loftwright.evidence.balls import Balls
from loftwright.evidence.compare import compare
from loftwright.evidence.leftover import Leftover, leftover, taught
from loftwright.evidence.mark_alarms import mirror_score
from loftwright.evidence.run_alarm import strangest_run
from loftwright.evidence.visit import Beliefs, set_up

WEAK = np.array([-0.6 * MILE_PER_HOUR, 1.45 * DEGREE, 380.0 * REVOLUTION_PER_MINUTE, 0.0, 0.0])
"""What 1.77 degrees more loft do to a drive."""


def raised(balls: Balls) -> dict[str, Alarm]:
    return {one.kind: one for one in alarms(set_up(balls, Beliefs()))}


def left_of(balls: Balls) -> Leftover:
    return leftover(set_up(balls, Beliefs()))


def mirrored(balls: Balls) -> Balls:
    return replace(balls, marks=balls.marks * np.array([-1.0, 1.0]))


def moved(balls: Balls, which: np.ndarray, times: float = 1.0) -> Balls:
    launch = np.array(balls.launch)
    launch[which] += times * WEAK
    return replace(balls, launch=launch)


def test_an_ordinary_fitting_raises_no_doubt() -> None:
    assert alarms(set_up(fitting(3, "low"), Beliefs())) == ()


def test_marks_of_a_turned_picture_are_doubted_with_the_question_that_mends_them() -> None:
    balls = mirrored(fitting(3, "low"))
    alarm = raised(balls)["mirrored_marks"]
    assert alarm.say == (
        "The marks look mirrored: toe marks go with starts to the heel side. Was the picture "
        "turned?"
    )
    marked = np.isfinite(balls.marks).all(axis=1)
    assert alarm.rows == tuple(balls.row[marked].tolist())
    assert "shifted_marks" not in raised(balls)


def test_mirroring_marks_turns_the_score_about() -> None:
    balls = fitting(3, "low")
    assert mirror_score(left_of(balls)) > 2.0
    assert mirror_score(left_of(mirrored(balls))) < -2.0


def test_a_left_handers_right_marks_are_not_taken_for_mirrored() -> None:
    balls = fitting(3, "low")
    left_handed = replace(
        mirrored(balls),
        launch=balls.launch * np.array([1.0, 1.0, 1.0, -1.0, -1.0]),
        delivery=balls.delivery * np.array([1.0, 1.0, -1.0, -1.0]),
    )
    beliefs = Beliefs(head=Beliefs().head.mirrored())
    left = leftover(set_up(left_handed, beliefs))
    assert mirror_score(left) == pytest.approx(mirror_score(left_of(balls)), rel=1e-6)


def test_few_marks_raise_no_doubt() -> None:
    balls = first(mirrored(fitting(3, "low")), 9)
    marks = np.array(balls.marks)
    marks[7:] = np.nan
    assert "mirrored_marks" not in raised(replace(balls, marks=marks))


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_a_read_that_was_dropped_is_told_with_its_ball(seed: int) -> None:
    balls = with_dropped_read(fitting(seed, "low"))
    alarm = raised(balls)["shifted_marks"]
    assert abs(alarm.rows[0] - balls.row[7]) <= 2
    assert alarm.rows[-1] == balls.row[-1]
    assert alarm.say.startswith(f"From ball {alarm.rows[0]} on the marks seem one ball late")
    assert alarm.say.endswith("Was a ball hit and not read?")


def test_a_mark_that_was_left_out_is_told_apart_from_a_dropped_read() -> None:
    alarm = raised(with_mark_left_out(fitting(2, "low")))["shifted_marks"]
    assert "one ball early" in alarm.say
    assert alarm.say.endswith("Was a mark left out?")


def test_put_right_the_doubt_is_gone() -> None:
    balls = fitting(2, "low")
    assert "shifted_marks" in raised(with_dropped_read(balls))
    assert "shifted_marks" not in raised(balls.take(np.delete(np.arange(40), 7)))


def test_marks_are_not_shifted_from_one_visit_to_the_next() -> None:
    visits = (fitting(2, "low", balls=20), with_dropped_read(fitting(4, "low", balls=24)))
    balls = joined_visits(visits)
    alarm = raised(balls)["shifted_marks"]
    assert set(alarm.rows) <= set(balls.row[balls.visit == 1].tolist())
    assert abs(alarm.rows[0] - balls.row[27]) <= 3


def test_the_order_of_rows_does_not_matter_to_a_doubt() -> None:
    balls = with_dropped_read(fitting(2, "low"))
    shuffled = balls.take(np.random.default_rng(1).permutation(len(balls)))
    assert raised(shuffled)["shifted_marks"] == raised(balls)["shifted_marks"]


def test_marks_in_sets_of_unknown_order_are_not_asked_of_single_balls() -> None:
    balls = made_balls(3, balls=30, set_of=3, missing_marks=0.0)
    left = left_of(balls)
    assert not left.marked.any()
    assert not {"mirrored_marks", "shifted_marks"} & set(raised(mirrored(balls)))


def test_a_run_with_more_loft_is_told_by_launch_and_spin() -> None:
    balls = fitting(5, "tour", balls=60)
    run = np.flatnonzero(balls.club == 2)[-6:]
    alarm = raised(moved(balls, run, 1.5))["strange_run"]
    assert alarm.rows == tuple(balls.row[run].tolist())
    assert alarm.say.startswith("Birch's last 6 balls launch ")
    assert "° higher and spin " in alarm.say
    assert alarm.say.endswith(
        "rpm more than its others from the same swing: is the sleeve as planned?"
    )


def test_a_run_with_less_loft_launches_lower_and_spins_less() -> None:
    balls = fitting(5, "tour", balls=60)
    run = np.flatnonzero(balls.club == 2)[:6]
    say = raised(moved(balls, run, -1.5))["strange_run"].say
    assert say.startswith("Birch's run of 6 balls launch ")
    assert "° lower and spin " in say
    assert " rpm less than " in say


def test_a_whole_club_off_what_was_planned_is_set_against_the_others() -> None:
    balls = fitting(5, "tour", balls=30)
    alarm = raised(moved(balls, np.flatnonzero(balls.club == 2), 2.5))["strange_run"]
    assert alarm.say.startswith("Birch's 6 balls launch ")
    assert "than this swing and the other clubs make likely" in alarm.say


def test_spin_alone_is_not_taken_for_loft() -> None:
    balls = fitting(5, "tour", balls=60)
    run = np.flatnonzero(balls.club == 2)[-6:]
    launch = np.array(balls.launch)
    launch[run, 2] += 2.0 * WEAK[2]
    launch[run, 1] -= 0.3 * WEAK[1]
    assert "strange_run" not in raised(replace(balls, launch=launch))


@pytest.mark.parametrize("missing", [1, 2])
def test_without_launch_or_spin_no_setting_is_doubted(missing: int) -> None:
    balls = fitting(5, "tour", balls=60)
    launch = np.array(moved(balls, balls.club == 2, 3.0).launch)
    launch[:, missing] = np.nan
    assert "strange_run" not in raised(replace(balls, launch=launch))


def test_a_run_begins_and_ends_where_the_club_changes_hands() -> None:
    balls = moved(fitting(5, "tour", balls=60), np.array([4, 5]), 3.0)
    setup = set_up(balls, Beliefs())
    run = strangest_run(taught(leftover(setup)), setup.slopes.parts[:, 4], setup.columns.responses)
    assert run is not None
    assert len(run.balls) >= 3
    before, after = int(run.balls[0]) - 1, int(run.balls[-1]) + 1
    assert before < 0 or balls.club[before] != run.club
    assert after >= len(balls) or balls.club[after] != run.club


def test_two_balls_are_no_run() -> None:
    setup = set_up(moved(made_balls(1, balls=8), np.array([0]), 9.0), Beliefs())
    assert setup.balls.counts.tolist() == [2, 2, 2, 2]
    left = taught(leftover(setup))
    assert strangest_run(left, setup.slopes.parts[:, 4], setup.columns.responses) is None


def far_apart(seed: int = 4) -> Balls:
    """Return balls of which Birch launches far higher and spins far more."""
    balls = fitting(seed, "tour", balls=40)
    return moved(balls, balls.club == 2, 5.0)


def test_a_ball_of_another_club_is_questioned_by_name() -> None:
    balls = far_apart()
    last = int(np.flatnonzero(balls.club == 2)[-1])
    now = first(balls, last + 1)
    club = np.array(now.club)
    club[-1] = 0
    alarm = raised(replace(now, club=club))["still_this_club"]
    assert alarm.say == "Still Own? The last ball fits another club better."
    assert alarm.rows == (now.row[-1],)
    assert "still_this_club" not in raised(now)


def test_two_balls_of_another_club_are_questioned_together() -> None:
    balls = moved(fitting(4, "tour", balls=40), np.array([], dtype=np.int64))
    balls = moved(balls, balls.club == 2, 1.3)
    last = int(np.flatnonzero(balls.club == 2)[-1])
    assert balls.club[last - 1] == 2
    now = first(balls, last + 1)
    club = np.array(now.club)
    club[-2:] = 3
    alarm = raised(replace(now, club=club))["still_this_club"]
    assert alarm.say == "Still Cedar? The last two balls fit another club better."
    assert alarm.rows == tuple(now.row[-2:].tolist())


def test_a_club_of_few_balls_is_not_questioned() -> None:
    balls = far_apart()
    now = first(balls, 40)
    club = np.array(now.club)
    club[-1] = 4
    few = (club != 4) | (np.arange(40) >= 38)
    kept = replace(now, club=club).take(np.flatnonzero(few))
    assert "still_this_club" not in raised(kept)


def test_with_one_club_there_is_no_other_to_ask_for() -> None:
    balls = made_balls(1, clubs=1, balls=20)
    assert "still_this_club" not in raised(balls)


def test_balls_set_aside_raise_nothing() -> None:
    balls = with_dropped_read(fitting(2, "low"))
    aside = np.arange(len(balls)) >= 7
    assert raised(replace(balls, set_aside=aside)) == {}
    assert alarms(set_up(replace(balls, set_aside=aside | True), Beliefs())) == ()


@pytest.mark.parametrize("seed", range(1, 5))
def test_gaps_in_the_numbers_are_borne(seed: int) -> None:
    balls = made_balls(seed, balls=30, missing_cells=0.15)
    delivery = np.array(balls.delivery)
    delivery[::4, 0] = np.nan
    error = np.where(np.arange(30) % 3, balls.mark_error, COARSE)
    setup = set_up(replace(balls, delivery=delivery, mark_error=error), Beliefs())
    left = leftover(setup)
    assert np.isfinite(left.residual).all()
    for kind in np.unique(left.kind):
        assert (np.linalg.eigvalsh(left.scale + left.unknown[kind]) > 0.0).all()
    assert all(set(one.rows) <= set(balls.row.tolist()) for one in alarms(setup))


def test_what_is_left_over_knows_nothing_of_missing_marks_and_delivery() -> None:
    left = left_of(without_delivery(made_balls(1, missing_marks=1.0)))
    assert left.unknown.tolist() == np.zeros((1, 5, 5)).tolist()
    assert not left.strike.any()
    assert left.known.all()


def test_balls_teach_their_own_scatter() -> None:
    quiet = fitting(1, "tour", balls=60)
    left = left_of(quiet)
    assert taught(left).scale[0, 1, 1] < left.scale[0, 1, 1]
    lone = left_of(first(quiet, 1))
    assert taught(lone) is lone


def test_doubts_need_no_fit_and_change_none() -> None:
    balls = with_dropped_read(fitting(2, "low"))
    comparison = compare(balls, Home(), Beliefs())
    before = comparison.value.tolist()
    assert alarms(comparison.visit.setup) == alarms(set_up(balls, Beliefs()))
    assert compare(balls, Home(), Beliefs()).value.tolist() == before
