"""The fitter's table of clubs, in the order of the question."""

from math import isfinite
from typing import Any

from loftwright.constants import DEGREE
from loftwright.evidence.advice import PROBABLY
from loftwright.evidence.result import (
    Against,
    ClubResult,
    Decision,
    Estimate,
    Figures,
    Level,
    RankedOn,
    State,
)
from loftwright.evidence.strokes import TABLE_ORIGIN
from loftwright.report.belief_words import rests_on
from loftwright.report.golfer_words import shape_known
from loftwright.report.numbers import LIKELY_RANGE, NONE, percent
from loftwright.report.runs import club as club_run
from loftwright.report.screen_numbers import TRADE, Show
from loftwright.report.wording import reference

STROKES_ORIGIN = (
    f"Strokes a round: 14 drives, by the {TABLE_ORIGIN}; lengths and fairways do not depend on it."
)

Cell = dict[str, Any]


def clubs_table(decision: Decision, show: Show = TRADE) -> dict[str, Any]:
    """Return the table of clubs: heads, rows of cells, and what must be known to read it.

    Parameters
    ----------
    decision : Decision
        The comparison.
    show : Show
        The units and the decimal mark of its figures.
    """
    device = decision.ranked_on is RankedOn.DEVICE_CARRY
    heads = _device_heads(show) if device else _heads(show)
    close = _too_close(decision)
    make = _device_cells if device else _cells
    rows = [
        {
            "club": club_run(club.club),
            "close": club.club in close,
            "rests": _rests(decision, club),
            "cells": [{"text": str(club.balls)}, *make(decision, club, show)],
        }
        for club in decision.clubs
    ]
    zero = f"{reference(decision)}" if decision.against is Against.OWN else "the mean of the clubs"
    note = f"Differences are against {zero}, with nine chances in ten under them."
    if not device:
        note += f" L and R: left and right of the target, where the ball lands. {STROKES_ORIGIN}"
    if close:
        note = f"A bar at the left edge: too close to call with the first. {note}"
    leader = 1 if decision.state is not State.TOO_FEW else None
    return {"heads": heads, "rows": rows, "note": note, "leader": leader}


def _too_close(decision: Decision) -> set[str]:
    """Return the clubs that cannot be told from the first, with it; empty when it stands out."""
    if not decision.clubs or decision.state is State.TOO_FEW:
        return set()
    leader = decision.clubs[0].club
    close = {
        pair.b
        for pair in decision.pairs
        if pair.a == leader and pair.p_a_better is not None and pair.p_a_better < PROBABLY
    }
    return close | {leader} if close else set()


def _heads(show: Show) -> list[str]:
    length, height = show.unit("distance").name, show.unit("height").name
    return [
        "Club",
        "Balls",
        f"Total as you swing\u00a0it,\u00a0{length}",
        f"Total from the same\u00a0swing,\u00a0{length}",
        f"Start line, {length}",
        f"Curve, {length}",
        f"Height, {height}",
        "Lands, deg",
        f"Carry + run, {length}",
        "Fairways in\u00a014",
        "Strokes a round",
    ]


def _device_heads(show: Show) -> list[str]:
    length, speed = show.unit("distance").name, show.unit("speed").name
    return [
        "Club",
        "Balls",
        f"Carry on the device, {length}",
        f"Ball speed on the device, {speed}",
    ]


def _rests(decision: Decision, club: ClubResult) -> str:
    if club.balls < 2:
        return "too few balls"
    if club.club == decision.own and decision.against is Against.OWN:
        return "the club to beat"
    if decision.ranked_on is RankedOn.DEVICE_CARRY:
        return "on its balls, as read"
    words = rests_on(club.physics_share, decision.believed)
    share = 1.0 - club.physics_share if "balls" in words else club.physics_share
    return f"{words}, {percent(share)}"


def _cells(decision: Decision, club: ClubResult, show: Show) -> list[Cell]:
    zero = club.club == decision.own and decision.against is Against.OWN
    alone = any(other.from_the_same_swing is not None for other in decision.clubs)
    return [
        _difference(_total(club.as_you_swing_it), "distance", show, zero),
        _difference(_total(club.from_the_same_swing), "distance", show, zero and alone),
        *_level_cells(decision, club.level, show),
    ]


def _total(figures: Figures | None) -> Estimate | None:
    return figures.total if figures else None


def _level_cells(decision: Decision, level: Level | None, show: Show) -> list[Cell]:
    if level is None or not isfinite(level.total):
        return [{"text": NONE} for _ in range(7)]
    flight = [
        show.figure("height", level.peak_height),
        show.number(level.landing_angle / DEGREE),
        " + ".join(show.carry_and_run(level.carry, level.total)),
    ]
    # Without direction and axis nothing is known of the side, so nothing of fairways or score.
    if not shape_known(decision):
        texts = [NONE, NONE, *flight, NONE, NONE]
    else:
        strokes = level.strokes_per_round - _zero_strokes(decision)
        texts = [
            show.side(level.start_offline),
            show.side(level.curve),
            *flight,
            show.number(level.fairways_in_14, 1),
            show.signed(strokes, 2) if strokes else "0",
        ]
    return [{"text": text} for text in texts]


def _zero_strokes(decision: Decision) -> float:
    """Return the strokes that differences are taken against."""
    levels = {club.club: club.level for club in decision.clubs if club.level is not None}
    own = levels.get(decision.own) if decision.own is not None else None
    if decision.against is Against.OWN and own is not None:
        return own.strokes_per_round
    return sum(level.strokes_per_round for level in levels.values()) / len(levels)


def _difference(estimate: Estimate | None, quantity: str, show: Show, zero: bool) -> Cell:
    if zero:
        return {"text": "0"}
    if estimate is None:
        return {"text": NONE}
    low, high = estimate.interval(LIKELY_RANGE)
    return {
        "text": show.apart(quantity, estimate.mean),
        "under": f"{show.apart(quantity, low)} to {show.apart(quantity, high)}",
    }


def _device_cells(decision: Decision, club: ClubResult, show: Show) -> list[Cell]:
    zero = club.club == decision.own and decision.against is Against.OWN
    return [
        _difference(club.device_carry, "distance", show, zero),
        _difference(club.device_ball_speed, "speed", show, zero),
    ]
