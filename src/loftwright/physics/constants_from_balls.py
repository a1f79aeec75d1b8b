"""Learn the constants of a head, ball and face treatment from marked shots.

The spin factor is the greatest doubt about spin, and no workshop measures it. With the strike
marked and head speed read, every ball tells a little of it. Dynamic loft and the height of the
centre of gravity move spin as well, so even thirty marked shots leave more than half of the doubt.
"""

from collections.abc import Sequence
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.errors import EvidenceError
from loftwright.physics.ball_reading import GOOD, BallReading, ReadingErrors
from loftwright.physics.delivery_belief import (
    CONSTANTS,
    DELIVERY,
    UNKNOWN_CLUB,
    ConstantsBelief,
    DeliveryBelief,
)
from loftwright.physics.heads import REFERENCE_HEAD, Head
from loftwright.physics.impact_law import ImpactLaw
from loftwright.physics.inverse_problem import solve

FEWEST_SHOTS: Final = 5
"""Fewer marked shots say too little to be worth keeping (judgement)."""

_ROUNDS: Final = 4
_HELD: Final = 1e-6
_SIZE: Final = len(DELIVERY)


def constants_from_balls(
    balls: Sequence[BallReading],
    head: Head = REFERENCE_HEAD,
    law: ImpactLaw | None = None,
    *,
    errors: ReadingErrors = GOOD,
    belief: DeliveryBelief | None = None,
    constants: ConstantsBelief = UNKNOWN_CLUB,
) -> ConstantsBelief:
    """Return what is known of the constants after marked shots with one head, ball and face.

    Parameters
    ----------
    balls : sequence of BallReading
        Balls without a mark are left out: they say of the strike and the constants only both
        together.
    head : Head
    law : ImpactLaw, optional
    errors : ReadingErrors
    belief : DeliveryBelief, optional
        Of each ball's delivery.
    constants : ConstantsBelief
        Before these shots; a shop's own pooled knowledge, or none.

    Returns
    -------
    ConstantsBelief

    Raises
    ------
    EvidenceError
        If fewer than five shots are marked.

    Notes
    -----
    Gauss and Newton's steps on the constants, every ball's own delivery solved anew at each and
    then eliminated. Balls of several fittings may be given together, or one fitting's result as
    the next one's belief.
    """
    marked = [ball for ball in balls if ball.mark is not None]
    if len(marked) < FEWEST_SHOTS:
        raise EvidenceError(
            f"{len(marked)} marked shots tell too little of the spin setting",
            place="marks",
            mend=f"Mark the face for at least {FEWEST_SHOTS} shots; fifteen are better.",
        )
    usual = belief or DeliveryBelief()
    before = np.linalg.inv(constants.covariance)
    mean = np.array(constants.mean)
    information = np.zeros_like(before)
    for _ in range(_ROUNDS):
        information, pull = _told(marked, head, law, errors, usual, constants, mean)
        mean = mean - np.linalg.solve(
            before + information, before @ (mean - constants.mean) + pull
        )
    return ConstantsBelief(mean=mean, covariance=np.linalg.inv(before + information))


def _told(
    balls: Sequence[BallReading],
    head: Head,
    law: ImpactLaw | None,
    errors: ReadingErrors,
    belief: DeliveryBelief,
    constants: ConstantsBelief,
    mean: FloatArray,
) -> tuple[FloatArray, FloatArray]:
    """Return the information of the balls on the constants, and where they pull them."""
    held = ConstantsBelief(mean=mean, covariance=_HELD * constants.covariance)
    information = np.zeros((len(CONSTANTS), len(CONSTANTS)))
    pull = np.zeros(len(CONSTANTS))
    own = np.diag(belief.sd**-2.0)
    for ball in balls:
        found = solve(ball, head, law, errors=errors, belief=belief, constants=held)
        delivery, common = found.slopes[:, :_SIZE], found.slopes[:, _SIZE:]
        across = common.T @ delivery
        information += common.T @ common - across @ np.linalg.solve(
            delivery.T @ delivery + own, across.T
        )
        pull += common.T @ found.misfit
    return information, pull
