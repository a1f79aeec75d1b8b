"""Impact solved backwards against a second solution of the same problem, made from its text alone.

Self-consistent reference: posterior standard deviations at 105 mph, attack 0 and dynamic loft 13
degrees, averaged over nine strikes (10 mm to either side, 7 mm up and down), population beliefs
about the delivery, as an independent implementation of the same equations printed them. No
published table of these is known.
"""

from dataclasses import dataclass, field, replace

import numpy as np
import pytest

from loftwright.constants import DEGREE, MILE_PER_HOUR, MILLIMETRE
from loftwright.physics.ball_reading import BASIC, GOOD, BallReading, ReadingErrors
from loftwright.physics.delivery_belief import (
    CALIBRATED_CLUB,
    DELIVERY,
    UNKNOWN_CLUB,
    ConstantsBelief,
    DeliveryBelief,
)
from loftwright.physics.heads import REFERENCE_HEAD
from loftwright.physics.impact import strike_many
from loftwright.physics.inverse_impact import delivery_from_ball

UNITS = np.array([MILE_PER_HOUR, *4 * (DEGREE,), MILLIMETRE, MILLIMETRE])
BELIEF = DeliveryBelief(
    mean=np.array([105.0 * MILE_PER_HOUR, 0.0, 0.0, 0.0, 13.0 * DEGREE, 0.0, 0.0])
)
SPEED = ("head_speed",)
PLACE = ("head_speed", "attack", "path")
ALL = (*PLACE, "face", "loft")
FINE = replace(GOOD, attack=0.3 * DEGREE, path=0.3 * DEGREE, face=0.3 * DEGREE, loft=0.3 * DEGREE)


@dataclass(frozen=True, kw_only=True)
class Case:
    """What is known, and the reference's standard deviations in the order of `DELIVERY`."""

    printed: tuple[float | None, ...]
    measured: tuple[str, ...] = ()
    marked: bool = False
    errors: ReadingErrors = field(default=GOOD)
    constants: ConstantsBelief = field(default=UNKNOWN_CLUB)


CASES = {
    "ball only": Case(printed=(None, 2.1, 2.1, 1.6, 1.2, 8.2, 5.8)),
    "ball and head speed": Case(measured=SPEED, printed=(1.2, 1.9, 1.9, 1.4, 1.0, 7.2, 5.1)),
    "the same, basic device": Case(
        measured=SPEED, errors=BASIC, printed=(None, 2.0, 2.0, 1.5, 1.1, 7.6, 5.4)
    ),
    "the same, calibrated": Case(
        measured=SPEED, constants=CALIBRATED_CLUB, printed=(0.9, 1.7, 1.7, 1.3, 0.9, 6.7, 4.6)
    ),
    "attack and path too": Case(measured=PLACE, printed=(0.95, 0.65, 0.65, 0.7, 0.8, 3.5, 3.7)),
    "the same, calibrated, placed": Case(
        measured=PLACE, constants=CALIBRATED_CLUB, printed=(0.65, 0.6, 0.6, 0.5, 0.5, 2.8, 2.2)
    ),
    "face and loft too": Case(measured=ALL, printed=(0.9, 0.6, 0.6, 0.5, 0.5, 2.7, 2.6)),
    "all of it, calibrated": Case(
        measured=ALL, constants=CALIBRATED_CLUB, printed=(0.6, 0.6, 0.5, 0.4, 0.4, 2.3, 2.0)
    ),
    "delivery to 0.3 degrees, calibrated": Case(
        measured=ALL,
        errors=FINE,
        constants=CALIBRATED_CLUB,
        printed=(0.5, 0.3, 0.3, 0.2, 0.2, 1.5, 1.4),
    ),
    "mark and head speed": Case(
        measured=SPEED, marked=True, printed=(0.9, 1.4, 0.8, 0.5, 0.5, 1.9, 1.8)
    ),
    "mark alone": Case(marked=True, printed=(1.2, 1.5, 0.8, 0.5, 0.5, 1.9, 1.9)),
    "mark and head speed, calibrated": Case(
        measured=SPEED,
        marked=True,
        constants=CALIBRATED_CLUB,
        printed=(0.6, 0.8, 0.6, 0.4, 0.4, 1.9, 1.8),
    ),
    "mark to 3 mm, basic device": Case(
        measured=SPEED,
        marked=True,
        errors=replace(BASIC, mark=3.0 * MILLIMETRE),
        printed=(1.2, 1.6, 1.2, 0.8, 0.7, 2.8, 2.6),
    ),
}


def struck(toe: float, high: float, case: Case) -> BallReading:
    delivery = np.array([105.0 * MILE_PER_HOUR, 0.0, 0.0, 0.0, 13.0 * DEGREE, toe, high])
    speed, launch, spin, axis, direction = strike_many(REFERENCE_HEAD, delivery[None])[0]
    told = dict(zip(DELIVERY, delivery.tolist(), strict=True))
    ball = BallReading(
        ball_speed=speed,
        launch=launch,
        direction=direction,
        spin=spin,
        axis=axis,
        mark=(toe, high) if case.marked else None,
    )
    return replace(ball, **{name: told[name] for name in case.measured})


def found(case: Case) -> np.ndarray:
    widths = [
        delivery_from_ball(
            struck(toe * MILLIMETRE, high * MILLIMETRE, case),
            errors=case.errors,
            belief=BELIEF,
            constants=case.constants,
        ).sd
        for toe in (-10.0, 0.0, 10.0)
        for high in (-7.0, 0.0, 7.0)
    ]
    return np.asarray(np.mean(widths, axis=0) / UNITS)


@pytest.mark.parametrize("name", CASES)
def test_the_doubt_is_that_of_the_reference(name: str) -> None:
    """To the digit that was printed, and 8 per cent where the constants were laid out otherwise.

    Left out is head speed with ball data only and with the basic device: 1.39 and 1.34 mph here,
    2.2 and 1.6 there. The difference is not explained.
    """
    case = CASES[name]
    widths = found(case)
    for place, printed in enumerate(case.printed):
        if printed is not None:
            assert widths[place] == pytest.approx(printed, rel=0.12, abs=0.08), DELIVERY[place]


@pytest.mark.xfail(
    strict=True,
    reason="1.39 and 1.34 mph against the reference's 2.2 and 1.6: not explained",
)
@pytest.mark.parametrize(
    ("name", "printed"), [("ball only", 2.2), ("the same, basic device", 1.6)]
)
def test_the_doubt_of_head_speed_is_that_of_the_reference(name: str, printed: float) -> None:
    assert found(CASES[name])[0] == pytest.approx(printed, rel=0.12)
