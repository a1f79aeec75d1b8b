"""What the balls and columns of a fitting could have shown, and what they could not."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final

import numpy as np

from loftwright.constants import YARD
from loftwright.domain.device import Origin
from loftwright.domain.shot import Shot, ShotTable
from loftwright.evidence.power import difference_between
from loftwright.evidence.result import Decision, RankedOn
from loftwright.report.numbers import listed
from loftwright.report.screen_numbers import TRADE, Show

_FEWEST: Final = 2
_FEWEST_FREEDOM: Final = 4

_NEEDED: Final = (
    (("ball speed", "launch", "spin"), "the total at home, and whether another loft goes further"),
    (("direction", "axis"), "where a club starts and curves, fairways and strokes a round"),
)
"""Columns of which each is needed, and what stays closed without one of them."""

_EXPLAIN: Final = (
    (("strike toe", "strike high"), "whether the club or the strike made a difference"),
    (("head speed", "attack", "path", "face"), "whether the club or the swing made a difference"),
)
"""Columns that explain a difference, the better the more of them are measured."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ToldApart:
    """The smallest difference that the balls of one club could tell from another.

    Attributes
    ----------
    against : str
        The other club; empty for the one that the others are told from.
    difference : float, optional
        [m]; None where there are too few balls with either.
    """

    club: str
    balls: int
    against: str
    difference: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Closed:
    """What columns that were not measured have closed.

    Attributes
    ----------
    columns : tuple of str
        In the words of the column list.
    partly : bool
        Whether others of their kind were measured, so that some of it can be told.
    calculated : bool
        The device worked them out from the ball, which explains nothing.
    """

    columns: tuple[str, ...]
    closes: str
    partly: bool = False
    calculated: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class CouldShow:
    """What a file could have shown.

    Attributes
    ----------
    figure : str
        What would have been told apart: total or the device's carry.
    scatter : float, optional
        Of one ball with one club [m]; None where too few balls tell it.
    """

    figure: str
    scatter: float | None
    clubs: tuple[ToldApart, ...]
    closed: tuple[Closed, ...]


def could_show(decision: Decision, table: ShotTable) -> CouldShow:
    """Return what the balls and columns of a fitting could have shown.

    Parameters
    ----------
    decision : Decision
    table : ShotTable
        The balls it came from.
    """
    by_carry = decision.ranked_on is RankedOn.DEVICE_CARRY
    scatter = decision.pattern.total if decision.pattern else _carry_scatter(table.shots)
    counts = {club.club: club.balls for club in decision.clubs}
    against = decision.own if counts.get(decision.own or "", 0) >= _FEWEST else None
    against = against or max(counts, key=lambda club: counts[club], default="")
    return CouldShow(
        figure="carry as this device shows it" if by_carry else "total",
        scatter=scatter,
        clubs=tuple(
            ToldApart(
                club=club,
                balls=balls,
                against="" if club == against else against,
                difference=_difference(balls, counts[against], scatter)
                if club != against
                else None,
            )
            for club, balls in counts.items()
        ),
        closed=_closed(table),
    )


def _difference(balls: int, others: int, scatter: float | None) -> float | None:
    if scatter is None or min(balls, others) < _FEWEST:
        return None
    return difference_between(balls, others, scatter)


def _carry_scatter(shots: Sequence[Shot]) -> float | None:
    """Return the sd of the device's carry about each club's mean, pooled over clubs."""
    away, freedom = 0.0, 0
    for club in {shot.club for shot in shots}:
        carries = np.array([s.carry for s in shots if s.club == club and s.carry is not None])
        if len(carries) > 1:
            away += float(((carries - carries.mean()) ** 2).sum())
            freedom += len(carries) - 1
    return float(np.sqrt(away / freedom)) if freedom >= _FEWEST_FREEDOM else None


def _closed(table: ShotTable) -> tuple[Closed, ...]:
    origins = {column.means: column.origin for column in table.columns}

    def those(columns: tuple[str, ...], origin: Origin) -> tuple[str, ...]:
        return tuple(one for one in columns if origins.get(one, Origin.ABSENT) is origin)

    found = [
        Closed(columns=lacking, closes=closes)
        for columns, closes in _NEEDED
        if (lacking := those(columns, Origin.ABSENT))
    ]
    for columns, closes in _EXPLAIN:
        absent, worked_out = those(columns, Origin.ABSENT), those(columns, Origin.CALCULATED)
        partly = len(absent) + len(worked_out) < len(columns)
        if absent:
            found.append(Closed(columns=absent, closes=closes, partly=partly))
        if worked_out:
            found.append(Closed(columns=worked_out, closes=closes, partly=partly, calculated=True))
    return tuple(found)


def could_show_sentences(found: CouldShow, show: Show = TRADE) -> tuple[str, ...]:
    """Return in words what could not be told, differences first."""
    told = []
    known = [club for club in found.clubs if club.difference is not None]
    if known:
        least = min(club.difference or 0.0 for club in known)
        most = max(club.difference or 0.0 for club in known)
        length, low = show.yards(most), show.figure("distance", least)
        if low != show.figure("distance", most):
            length = f"{low} to {length}"
        told.append(
            f"differences in {found.figure} under {length} could hardly be told by plain "
            f"averages: one ball scatters by {show.yards(found.scatter or 0.0)}"
        )
    elif len(found.clubs) > 1:
        told.append("no two clubs have the balls that tell them apart")
    told += [closed_words(one) for one in found.closed]
    return tuple(told)


def closed_words(one: Closed) -> str:
    """Return what columns closed, as one sentence without its point."""
    tells = "it tells only in part" if one.partly else "it could not tell"
    if one.calculated:
        were = "were" if len(one.columns) > 1 else "was"
        return f"{listed(one.columns)} {were} calculated, not measured: {tells} {one.closes}"
    return f"no {listed(one.columns, 'or')}: {tells} {one.closes}"


def could_show_record(found: CouldShow) -> dict[str, Any]:
    """Return the same for scripts."""
    return {
        "figure": found.figure,
        "scatter_yd": None if found.scatter is None else round(found.scatter / YARD, 1),
        "clubs": [
            {
                "club": one.club,
                "balls": one.balls,
                "against": one.against or None,
                "difference_yd": None
                if one.difference is None
                else round(one.difference / YARD, 1),
            }
            for one in found.clubs
        ],
        "closed": [
            {
                "columns": list(one.columns),
                "calculated": one.calculated,
                "partly": one.partly,
                "closes": one.closes,
            }
            for one in found.closed
        ],
    }
