"""What a shop knows of shafts and heads: family, generation, model and sample each do a share.

A club's expected effect is the sum of what its head does and of what its shaft's family,
generation, model and sample do, each shrunk to nought by how much such things differ at all.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.shop.grams import Gram
from loftwright.shop.population import Population, posterior

LEVELS: Final = ("head", "family", "generation", "model", "piece")
"""What a club's parts belong to, from the widest to the sample in hand."""
_START: Final = 0.04
"""Variance at each level before anything was learned [scaled units squared]."""
_LEAST: Final = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Belongs:
    """To what a club's parts belong; empty where nobody knows."""

    head: str = ""
    family: str = ""
    generation: str = ""
    model: str = ""
    piece: str = ""

    @property
    def members(self) -> tuple[tuple[str, str], ...]:
        """Level and name of everything known that it belongs to."""
        told = ((level, getattr(self, level)) for level in LEVELS)
        return tuple((level, name) for level, name in told if name)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Effects:
    """What everything that clubs belong to is believed to do, in the units of the sums.

    Attributes
    ----------
    members : tuple of (str, str)
        Level and name.
    means : FloatArray, shape (M, R)
    covariance : FloatArray, shape (M, R, M, R)
    variances : FloatArray, shape (L, R)
        How much things of a level differ.
    fittings : dict of (str, str) to int
        In how many each was hit.
    """

    members: tuple[tuple[str, str], ...]
    means: FloatArray
    covariance: FloatArray
    variances: FloatArray
    fittings: dict[tuple[str, str], int]

    def of(self, belongs: Belongs) -> tuple[FloatArray, FloatArray]:
        """Return what a club is expected to do and its covariance, of what is known of it.

        Returns
        -------
        FloatArray, shape (R,)
        FloatArray, shape (R, R)
            What is not known of its parts adds how much such things differ.
        """
        place = {name: number for number, name in enumerate(self.members)}
        chosen = np.zeros(len(self.members))
        unknown = np.zeros(self.means.shape[1])
        for number, level in enumerate(LEVELS):
            name = (level, getattr(belongs, level))
            if name in place:
                chosen[place[name]] = 1.0
            else:
                unknown += self.variances[number]
        doubt = np.einsum("m,mrns,n->rs", chosen, self.covariance, chosen)
        return np.asarray(chosen @ self.means), np.asarray(doubt + np.diag(unknown))


def known_effects(
    grams: Sequence[Gram],
    belief: Population,
    belongs: Mapping[tuple[str, str], Belongs],
    rounds: int = 25,
) -> Effects:
    """Return what everything that clubs belong to does.

    Parameters
    ----------
    grams : sequence of Gram
    belief : Population
    belongs : mapping of (fitting, club) to Belongs
    rounds : int
        Of expectation-maximisation for how much things of a level differ.

    Notes
    -----
    A fitting's own slopes and club effects are integrated out: with P the precision of club
    effects about what is expected of them and C their posterior covariance, a fitting tells of
    these expectations with information P - P C P, at P times what it would find if all were
    nought. Only contrasts within a fitting tell anything, since its level is the golfer's.
    """
    members = tuple(
        sorted({one for told in belongs.values() for one in told.members}, key=_in_order)
    )
    responses = belief.slopes.shape[1]
    information, pull = _told_by(grams, belief, belongs, members)
    variances = np.full((len(LEVELS), responses), _START)
    level_of = np.array([LEVELS.index(level) for level, _ in members], dtype=np.int64)
    size = len(members) * responses
    for _ in range(rounds):
        own = np.diag(1.0 / variances[level_of].ravel())
        covariance = np.linalg.inv(information + own)
        means = (covariance @ pull).reshape(len(members), responses)
        doubt = np.diag(covariance).reshape(len(members), responses)
        squares = means**2 + doubt
        for number in range(len(LEVELS)):
            there = level_of == number
            if there.any():
                variances[number] = np.maximum(squares[there].mean(axis=0), _LEAST)
    shaped = covariance.reshape(len(members), responses, len(members), responses)
    return Effects(
        members=members,
        means=frozen_array(means),
        covariance=frozen_array(shaped if size else np.zeros((0, responses, 0, responses))),
        variances=frozen_array(variances),
        fittings={name: _hit_in(name, belongs) for name in members},
    )


def _told_by(
    grams: Sequence[Gram],
    belief: Population,
    belongs: Mapping[tuple[str, str], Belongs],
    members: tuple[tuple[str, str], ...],
) -> tuple[FloatArray, FloatArray]:
    place = {name: number for number, name in enumerate(members)}
    features, responses = belief.slopes.shape
    size = len(members) * responses
    information, pull = np.zeros((size, size)), np.zeros(size)
    between = np.linalg.inv(belief.clubs)
    for gram in grams:
        clubs = len(gram.clubs)
        found = posterior(gram, belief, np.zeros((clubs, responses)))
        chosen = np.zeros((clubs, len(members)))
        for row, club in enumerate(gram.clubs):
            for name in belongs[gram.fitting, club].members:
                chosen[row, place[name]] = 1.0
        # Club-major, so that effects and members run alike.
        doubt = found.covariance[:, features:, :, features:].transpose(1, 0, 3, 2)
        flat = doubt.reshape(clubs * responses, clubs * responses)
        precision = np.kron(np.eye(clubs), between)
        told = precision - precision @ flat @ precision
        ways = np.kron(chosen, np.eye(responses))
        information += ways.T @ told @ ways
        pull += ways.T @ (precision @ found.effects.ravel())
    return information, pull


def _hit_in(name: tuple[str, str], belongs: Mapping[tuple[str, str], Belongs]) -> int:
    return len({fitting for (fitting, _), told in belongs.items() if name in told.members})


def _in_order(name: tuple[str, str]) -> tuple[int, str]:
    return LEVELS.index(name[0]), name[1]
