"""What is known of a club in a bag, each figure with its doubt, and the steps between clubs."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import hypot
from typing import Final

from loftwright.constants import GRAM, INCH, MILLIMETRE
from loftwright.domain.bag import BagClub, BagKind, Known, Timed
from loftwright.domain.bench_doubts import USUAL_DOUBTS
from loftwright.domain.build_sheet import LengthMethod
from loftwright.domain.built import (
    Checked,
    Contradicted,
    Sheet,
    contradictions,
    swingweight_from,
)
from loftwright.domain.tolerances import Tolerances
from loftwright.domain.verdict import Reading
from loftwright.physics.build.pendulum import Pendulum, pendulum_error, pendulum_inertia
from loftwright.physics.build.swingweight import SwingweightScale

HALF_INCH: Final = 0.5 * INCH
SAME_CLAMP: Final = 1.0 * MILLIMETRE
SAME_WEIGHT: Final = 0.5 * GRAM
STEPPED: Final = (Known.LENGTH, Known.MASS, Known.SWINGWEIGHT, Known.INERTIA, Known.FREQUENCY)


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A figure of a club.

    Attributes
    ----------
    reading : Reading
        SI, swingweight in points.
    derived : bool
        Whether it is worked out from other readings.
    """

    reading: Reading
    derived: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """From one club to the next.

    Attributes
    ----------
    before, after : str
        Their names.
    apart : dict of Known to Reading
        Of the later club, less that of the earlier; frequencies only of one set-up, and on a
        scale that no club has calibrated no swingweight that was read beside one worked out.
    rise : Reading or None
        How much the frequency rises for half an inch less [s^-1]; None where the two lengths
        cannot be told apart.
    """

    before: str
    after: str
    apart: dict[Known, Reading]
    rise: Reading | None


def figure_of(club: BagClub, known: Known, scale: SwingweightScale) -> Figure | None:
    """Return what is known of a club, given or worked out; None where it is not known.

    Parameters
    ----------
    club : BagClub
    known : Known
    scale : SwingweightScale
        The shop's own, for a swingweight from weight and balance point.
    """
    value = club.value(known)
    if value is not None:
        doubt = club.doubts.get(known, _usual(club, known))
        return Figure(reading=Reading(value=value, half_width=doubt))
    if known is Known.SWINGWEIGHT:
        mass, balance = (figure_of(club, one, scale) for one in (Known.MASS, Known.BALANCE))
        if mass is not None and balance is not None:
            found = swingweight_from(mass.reading, balance.reading, scale)
            return Figure(reading=found, derived=True)
    if known is Known.INERTIA and (pendulum := club.pendulum) is not None:
        return Figure(reading=_swung(club, pendulum), derived=True)
    return None


def disagreeing(club: BagClub, scale: SwingweightScale) -> tuple[Contradicted, ...]:
    """Return which readings of a club cannot all be right."""
    pairs = {
        Checked.MASS: Known.MASS,
        Checked.BALANCE: Known.BALANCE,
        Checked.SWINGWEIGHT: Known.SWINGWEIGHT,
        Checked.INERTIA: Known.INERTIA,
    }
    figures = {checked: figure_of(club, known, scale) for checked, known in pairs.items()}
    readings = {
        checked: figure.reading
        for checked, figure in figures.items()
        if figure is not None and not (checked is Checked.SWINGWEIGHT and figure.derived)
    }
    nothing = Sheet(targets={}, predicted={}, tolerances=Tolerances(), scale=scale)
    return contradictions(readings, nothing)


def same_set_up(one: Timed, other: Timed) -> bool:
    """Return whether two frequencies were read in one clamp and with one kind of weight."""
    if abs(one.clamp - other.clamp) > SAME_CLAMP:
        return False
    if one.tip_mass is None or other.tip_mass is None:
        return one.tip_mass is other.tip_mass
    return abs(one.tip_mass - other.tip_mass) <= SAME_WEIGHT


def steps(clubs: Sequence[BagClub], scale: SwingweightScale) -> tuple[Step, ...]:
    """Return the steps from club to club, putters left out.

    Parameters
    ----------
    clubs : sequence of BagClub
        In the order of a bag.
    scale : SwingweightScale
    """
    swung = [one for one in clubs if one.kind is not BagKind.PUTTER]
    return tuple(_step(before, after, scale) for before, after in pairwise(swung))


def _step(before: BagClub, after: BagClub, scale: SwingweightScale) -> Step:
    apart = dict(_apart(before, after, scale))
    length, swing = apart.get(Known.LENGTH), apart.get(Known.FREQUENCY)
    return Step(
        before=before.name,
        after=after.name,
        apart=apart,
        rise=None if length is None or swing is None else _rise(length, swing),
    )


def _apart(
    before: BagClub, after: BagClub, scale: SwingweightScale
) -> Iterator[tuple[Known, Reading]]:
    for known in STEPPED:
        one, other = figure_of(before, known, scale), figure_of(after, known, scale)
        if one is None or other is None:
            continue
        if known is Known.FREQUENCY and not _one_set_up(before, after):
            continue
        if known is Known.SWINGWEIGHT and one.derived != other.derived and not scale.calibrated:
            continue
        yield (
            known,
            Reading(
                value=other.reading.value - one.reading.value,
                half_width=hypot(one.reading.half_width, other.reading.half_width),
            ),
        )


def _one_set_up(before: BagClub, after: BagClub) -> bool:
    return (
        before.timed is not None
        and after.timed is not None
        and same_set_up(before.timed, after.timed)
    )


def _rise(length: Reading, swing: Reading) -> Reading | None:
    """Return the rise of frequency for half an inch less, by both doubts."""
    if abs(length.value) <= length.half_width:
        return None
    halves = -length.value / HALF_INCH
    rise = swing.value / halves
    doubt = hypot(swing.half_width, rise * length.half_width / HALF_INCH) / abs(halves)
    return Reading(value=rise, half_width=doubt)


def _usual(club: BagClub, known: Known) -> float:
    if known is Known.LENGTH and club.method is LengthMethod.RULER:
        return USUAL_DOUBTS.ruler
    found: float = getattr(USUAL_DOUBTS, known.value)
    return found


def _swung(club: BagClub, pendulum: Pendulum) -> Reading:
    doubt = pendulum_error(
        pendulum,
        period=USUAL_DOUBTS.period,
        mass=club.doubts.get(Known.MASS, USUAL_DOUBTS.mass),
        balance=club.doubts.get(Known.BALANCE, USUAL_DOUBTS.balance),
        pivot=USUAL_DOUBTS.pivot,
    )
    return Reading(value=pendulum_inertia(pendulum), half_width=doubt)
