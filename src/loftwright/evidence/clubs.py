"""What is known of the clubs before they are hit: shared heads and shafts, and their physics."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE
from loftwright.evidence.columns import Columns
from loftwright.evidence.scales import LAUNCH_SCALE, PART_UNIT
from loftwright.evidence.slopes import Slopes

SHARED_BY_SHAFT: Final = 0.5
"""Share of a club's own variance that follows its shaft into another head (assumption)."""

KEPT_BY_BUILD: Final = 0.8
"""Share of it that stays where one head on one shaft is only set, cut or weighed otherwise
(judgement)."""

HEAD_SPREAD: Final = (
    np.array(
        [
            0.5 * MILE_PER_HOUR,
            0.3 * DEGREE,
            100.0 * REVOLUTION_PER_MINUTE,
            0.4 * DEGREE,
            0.15 * DEGREE,
        ]
    )
    / LAUNCH_SCALE
)
"""How heads differ beyond what physics expects of them: sd in scaled units (judgement)."""


def head_covariance(slopes: Slopes) -> FloatArray:
    """Return how heads differ at the golfer's own delivery, scaled units, shape (5, 5).

    Where the centre of gravity lies, the inertia and the face differ from head to head unseen;
    two millimetres to the toe turn the axis by some three degrees.
    """
    return np.diag(HEAD_SPREAD**2) + slopes.heads @ slopes.heads.T


@dataclass(frozen=True, slots=True, kw_only=True)
class ClubTraits:
    """A club as an assembly.

    Attributes
    ----------
    head, shaft : str
        Clubs that share a head or a shaft share its part of the effect.
    shift : tuple of float
        What physics expects the club to change in the delivery: head speed [m/s], attack,
        path, face, dynamic loft [rad].
    build : str
        Clubs of one head and shaft that differ in a small change of build name it alike; empty
        for a club that is known by its balls alone.
    """

    head: str
    shaft: str
    shift: tuple[float, float, float, float, float] = (0.0, 0.0, 0.0, 0.0, 0.0)
    build: str = ""


def effect_precisions(
    covariance: FloatArray,
    heads: FloatArray,
    columns: Columns,
    clubs: int,
    traits: tuple[ClubTraits, ...],
) -> FloatArray:
    """Return the inverse prior covariances of the clubs' effects, one a view.

    Parameters
    ----------
    covariance : FloatArray, shape (5, 5)
        How clubs of one head differ from the same swing, scaled units.
    heads : FloatArray, shape (5, 5)
        How heads differ, from `head_covariance`.
    columns : Columns
    clubs : int
    traits : tuple of ClubTraits
        One a club, or empty when nothing is known of them.

    Returns
    -------
    FloatArray, shape (M, R S, R S)
        Index (response, club) with the club running fastest. One view when the clubs are known.
        Otherwise two: all share a head, or every club has a head of its own; the balls decide.
    """
    kept = np.ix_(columns.responses, columns.responses)
    own = covariance[kept]
    head = heads[kept]
    if not traits:
        apart = np.eye(clubs)
        return np.stack(
            [np.kron(np.linalg.inv(own), apart), np.kron(np.linalg.inv(own + head), apart)]
        )
    return np.stack([np.linalg.inv(joint_covariance(own, head, traits))])


def joint_covariance(
    own: FloatArray, head: FloatArray, traits: tuple[ClubTraits, ...]
) -> FloatArray:
    """Return how the effects of known clubs go together.

    Parameters
    ----------
    own, head : FloatArray, shape (R, R)
        How clubs of one head differ, and how heads differ, in the responses that there are.
    traits : tuple of ClubTraits
        One a club.

    Returns
    -------
    FloatArray, shape (R S, R S)
        Index (response, club) with the club running fastest.
    """
    same_head = np.array([[a.head == b.head for b in traits] for a in traits], dtype=np.float64)
    joint: FloatArray = np.asarray(np.kron(head, same_head) + np.kron(own, shares(traits)))
    return joint


def shares(traits: tuple[ClubTraits, ...]) -> FloatArray:
    """Return how much of a club's own part each pair shares, shape (S, S)."""
    same_shaft = np.array([[a.shaft == b.shaft for b in traits] for a in traits])
    same_build = np.array([[a.build == b.build != "" for b in traits] for a in traits])
    shared = np.where(same_build, KEPT_BY_BUILD, SHARED_BY_SHAFT * same_shaft)
    np.fill_diagonal(shared, 1.0)
    return np.asarray(shared, dtype=np.float64)


def build_shares(traits: tuple[ClubTraits, ...]) -> FloatArray:
    """Return what clubs that differ in a small change of build share of their own, shape (S, S).

    Of what nobody else shares; nought of every other pair and of a club with itself.
    """
    same = np.array([[a.build == b.build != "" for b in traits] for a in traits], dtype=np.bool_)
    np.fill_diagonal(same, val=False)
    return np.where(same, KEPT_BY_BUILD, 0.0)


def swing_means(columns: Columns, clubs: int, traits: tuple[ClubTraits, ...]) -> FloatArray:
    """Return what physics expects of the clubs on measured delivery, shape (k, S).

    In mph and degrees.
    """
    if not traits:
        return np.zeros((len(columns.delivery), clubs))
    shifts = np.array([club.shift for club in traits]) / PART_UNIT
    return np.asarray(columns.functionals @ shifts.T)


def effect_means(
    slopes: Slopes, columns: Columns, clubs: int, traits: tuple[ClubTraits, ...]
) -> FloatArray:
    """Return what physics expects of the clubs through unmeasured parts, shape (R, S)."""
    if not traits:
        return np.zeros((len(columns.responses), clubs))
    shifts = np.array([club.shift for club in traits]) / PART_UNIT
    shifts = shifts * np.array(columns.unmeasured, dtype=np.float64)
    return (slopes.parts @ shifts.T)[list(columns.responses)]
