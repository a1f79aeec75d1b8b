"""What every fitting tells of what clubs belong to: fittings can be added and taken out."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from loftwright.arrays import FloatArray, IntArray, frozen_array, frozen_index
from loftwright.shop.grams import Gram
from loftwright.shop.population import Population, posterior


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Told:
    """What some fittings tell of the k members that were hit in them.

    Attributes
    ----------
    places : IntArray, shape (k,)
        Which members, in rising order.
    information : FloatArray, shape (k R, k R)
        With the response running fastest.
    pull : FloatArray, shape (k R,)
        Information times what they found.
    """

    places: IntArray
    information: FloatArray
    pull: FloatArray

    def among(self, responses: int) -> IntArray:
        """Return where its rows are among all members' rows."""
        return frozen_index((self.places[:, None] * responses + np.arange(responses)).ravel())


def told_by(
    grams: Sequence[Gram],
    belief: Population,
    members: Mapping[tuple[str, str], Sequence[int]],
) -> dict[str, Told]:
    """Return what every fitting tells, by its name.

    Parameters
    ----------
    grams : sequence of Gram
    belief : Population
    members : mapping of (fitting, club) to sequence of int
        Which members every club belongs to.

    Notes
    -----
    A fitting's own slopes and club effects are integrated out: with P the precision of club
    effects about what is expected of them and C their posterior covariance, a fitting tells of
    these expectations with information P - P C P, at P times what it would find if all were
    nought. Only contrasts within a fitting tell anything, since its level is the golfer's.
    """
    between = np.asarray(np.linalg.inv(belief.clubs))
    return {gram.fitting: _told(gram, belief, between, members) for gram in grams}


def told_of_one(
    grams: Sequence[Gram],
    belief: Population,
    members: Mapping[tuple[str, str], Sequence[int]],
    response: int,
) -> dict[str, Told]:
    """Return what every fitting tells of one response by the balls' figures of it alone.

    Parameters
    ----------
    grams : sequence of Gram
    belief : Population
    members : mapping of (fitting, club) to sequence of int
    response : int
    """
    only = slice(response, response + 1)
    alone = Population(
        slopes=belief.slopes[:, only],
        spread=belief.spread[only],
        clubs=belief.clubs[only, only],
        left=belief.left[only, only],
    )
    sums = [
        replace(gram, cross=gram.cross[:, only], squares=gram.squares[only, only])
        for gram in grams
    ]
    return told_by(sums, alone, members)


def together(told: Sequence[Told], weights: Sequence[float], responses: int) -> Told:
    """Return what fittings tell together, each at its weight."""
    places = np.unique(np.concatenate([one.places for one in told]))
    size = len(places) * responses
    information, pull = np.zeros((size, size)), np.zeros(size)
    for one, weight in zip(told, weights, strict=True):
        own = np.searchsorted(places, one.places)
        rows = (own[:, None] * responses + np.arange(responses)).ravel()
        information[np.ix_(rows, rows)] += weight * one.information
        pull[rows] += weight * one.pull
    return Told(
        places=frozen_index(places), information=frozen_array(information), pull=frozen_array(pull)
    )


def _told(
    gram: Gram,
    belief: Population,
    between: FloatArray,
    members: Mapping[tuple[str, str], Sequence[int]],
) -> Told:
    features, responses = belief.slopes.shape
    clubs = len(gram.clubs)
    found = posterior(gram, belief, np.zeros((clubs, responses)))
    hit = [members[gram.fitting, club] for club in gram.clubs]
    places = np.array(sorted({one for those in hit for one in those}), dtype=np.int64)
    chosen = np.zeros((clubs, len(places)))
    for row, those in enumerate(hit):
        chosen[row, np.searchsorted(places, np.asarray(those, dtype=np.int64))] = 1.0
    # Club-major, so that effects and members run alike.
    doubt = found.covariance[:, features:, :, features:].transpose(1, 0, 3, 2)
    flat = doubt.reshape(clubs * responses, clubs * responses)
    precision = np.kron(np.eye(clubs), between)
    ways = np.kron(chosen, np.eye(responses))
    information = ways.T @ (precision - precision @ flat @ precision) @ ways
    return Told(
        places=frozen_index(places),
        information=frozen_array(0.5 * (information + information.T)),
        pull=frozen_array(ways.T @ (precision @ found.effects.ravel())),
    )
