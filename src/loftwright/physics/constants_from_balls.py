"""Learn the constants of a head, ball and face treatment from marked shots.

The spin factor is the greatest doubt about spin, and no workshop measures it. With the strike
marked and head speed read, every ball tells a little of it. Dynamic loft and the height of the
centre of gravity move spin as well, so even thirty marked shots leave more than half of the doubt.

Balls of one golfer share what the device and the reader of the marks are steadily off by, and how
balls differ from each other teaches the spin factor only as far as the errors of single readings
are known. So what a shop learns over its fittings starts from the mean ball of each visit.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
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
    return _learned(marked, head, law, errors, belief or DeliveryBelief(), constants)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SharedConstants:
    """What the mean balls of visits tell of the constants.

    Attributes
    ----------
    constants : ConstantsBelief
        Their doubt holds what device and marks may be off by in all visits alike.
    by_attack : float
        How far the spin factor moves if every attack angle was read too high [rad^-1].
    """

    constants: ConstantsBelief
    by_attack: float


def constants_from_visits(
    visits: Sequence[BallReading],
    head: Head = REFERENCE_HEAD,
    law: ImpactLaw | None = None,
    *,
    errors: ReadingErrors = GOOD,
    belief: DeliveryBelief | None = None,
    constants: ConstantsBelief = UNKNOWN_CLUB,
) -> SharedConstants:
    """Return what the mean balls of several visits tell of the constants.

    Parameters
    ----------
    visits : sequence of BallReading
        The mean ball of each visit with one kind of ball and face, marked, its attack measured.
    head : Head
    law : ImpactLaw, optional
    errors : ReadingErrors
        By how much device and marks may be off in all balls of a visit alike.
    belief : DeliveryBelief, optional
        Of each visit's usual delivery.
    constants : ConstantsBelief
        Before these visits.

    Returns
    -------
    SharedConstants

    Raises
    ------
    EvidenceError
        If there is no visit, or one without mark or attack.

    Notes
    -----
    The errors may be the same on every visit, for it is the same device: of N visits they keep
    the share 1 - 1/N that taking them for independent would let shrink. Heads are taken for one
    head; they differ, which makes the doubt wider than it is.
    """
    if not visits or any(one.mark is None or one.attack is None for one in visits):
        raise EvidenceError(
            "the spin setting is told by marked balls with their attack angle",
            place="marks",
            mend="Mark the face, and let a device measure the attack angle.",
        )
    usual = belief or DeliveryBelief()

    def learned(balls: Sequence[BallReading]) -> ConstantsBelief:
        return _learned(balls, head, law, errors, usual, constants)

    found = learned(visits)
    covariance = np.array(found.covariance)
    share = 1.0 - 1.0 / len(visits)
    place = CONSTANTS.index("spin_factor")
    by_attack = 0.0
    for name, shifted in _STEADY.items():
        size = getattr(errors, name)
        moved = learned([shifted(one, size) for one in visits]).mean - found.mean
        covariance += share * np.outer(moved, moved)
        by_attack = float(moved[place] / size) if name == "attack" else by_attack
    return SharedConstants(
        constants=ConstantsBelief(mean=found.mean, covariance=covariance), by_attack=by_attack
    )


def _attack_up(ball: BallReading, by: float) -> BallReading:
    return replace(ball, attack=(ball.attack or 0.0) + by)


def _launch_up(ball: BallReading, by: float) -> BallReading:
    return replace(ball, launch=ball.launch + by)


def _spin_up(ball: BallReading, by: float) -> BallReading:
    return replace(ball, spin=ball.spin + by)


def _mark_up(ball: BallReading, by: float) -> BallReading:
    toe, high = ball.mark or (0.0, 0.0)
    return replace(ball, mark=(toe, high + by))


_STEADY: Final[dict[str, Callable[[BallReading, float], BallReading]]] = {
    "attack": _attack_up,
    "launch": _launch_up,
    "back_spin": _spin_up,
    "mark": _mark_up,
}
"""What moves the spin factor when it is off in all visits alike, by the error it is told to."""


def _learned(
    balls: Sequence[BallReading],
    head: Head,
    law: ImpactLaw | None,
    errors: ReadingErrors,
    belief: DeliveryBelief,
    constants: ConstantsBelief,
) -> ConstantsBelief:
    """Return the constants after balls, by Gauss and Newton's steps."""
    before = np.linalg.inv(constants.covariance)
    mean = np.array(constants.mean)
    information = np.zeros_like(before)
    for _ in range(_ROUNDS):
        information, pull = _told(balls, head, law, errors, belief, constants, mean)
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
