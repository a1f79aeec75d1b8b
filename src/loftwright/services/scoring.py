"""Every ball against the last prediction that was kept before it was read.

One that came without a prediction counts as not predicted, and is never predicted afterwards.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from loftwright.bay.now import FittingNow, Swing
from loftwright.bay.replay import replay
from loftwright.bay.setups import set_up_of
from loftwright.domain.acts import Entry, ShotArrived
from loftwright.domain.fitting import Fitting
from loftwright.domain.numbers import ShotNumbers
from loftwright.domain.prediction import QUANTITIES, Prediction, Rests
from loftwright.services.last_ball import flown
from loftwright.services.studio import Studio

ONE_BY_ONE: Final = frozenset({"feed", "folder", "keyboard", "virtual"})
"""Sources that tell of a ball when it was hit; the others tell of many afterwards."""

_SIDES: Final = ("direction", "axis")


class Fate(StrEnum):
    """What became of a ball for the proof."""

    SCORED = "scored"
    NOT_PREDICTED = "not_predicted"
    CHANGED = "changed"


@dataclass(frozen=True, slots=True, kw_only=True)
class Scored:
    """A ball that was predicted, or why it is not scored.

    Attributes
    ----------
    club : str
        Head and shaft, as the cards call them, with the sleeve's setting.
    inside : dict of str to (bool, bool, bool)
        By quantity, which of the ranges held it; empty unless it is scored.
    """

    fitting: str
    sequence: int
    fate: Fate
    bay: str
    device: str
    club: str
    rests: Rests | None
    inside: Mapping[str, tuple[bool, bool, bool]]


def score_fitting(studio: Studio, fitting: Fitting) -> tuple[Scored, ...]:
    """Return the balls of a fitting, each against what was predicted of it.

    Parameters
    ----------
    studio : Studio
    fitting : Fitting

    Notes
    -----
    The record as it stands tells which club a ball was hit with and whether it is the golfer's:
    one whose club, setting or owner was changed drops out. A ball that the fitter calls odd
    stays, for odd balls were among those predicted.
    """
    predictions = studio.store.predictions(fitting.id)
    record = studio.record(fitting.id)
    now = studio.standing(fitting.id)
    swings = {swing.sequence: swing for swing in now.swings}
    found = []
    for entry, before in _balls(record):
        swing = swings.get(entry.sequence)
        if swing is None:
            continue
        kept = _last(predictions, before, entry.sequence) if _alone(record, entry) else None
        one = _score(fitting, now, swing, kept, record)
        if one is not None:
            found.append(one)
    return tuple(found)


def _balls(record: tuple[Entry, ...]) -> Iterator[tuple[Entry, int]]:
    """Return every ball that was read, with the sequence of the one before it, 0 for none."""
    before = 0
    for entry in record:
        if isinstance(entry.act, ShotArrived):
            yield entry, before
            before = entry.sequence


def _alone(record: tuple[Entry, ...], entry: Entry) -> bool:
    """Return whether a ball was told when it was hit, by itself and in its turn."""
    act = entry.act
    if not isinstance(act, ShotArrived) or act.after is not None or act.source not in ONE_BY_ONE:
        return False
    start = entry.group - 1
    together = 0
    for other in record[start:]:
        if other.group != entry.group:
            break
        together += isinstance(other.act, ShotArrived)
    return together == 1


def _last(predictions: Sequence[Prediction], before: int, ball: int) -> Prediction | None:
    """Return the last prediction between a ball and the one before it."""
    live = [one for one in predictions if before <= one.after < ball]
    return max(live, key=lambda one: one.after, default=None)


def _score(
    fitting: Fitting,
    now: FittingNow,
    swing: Swing,
    kept: Prediction | None,
    record: tuple[Entry, ...],
) -> Scored | None:
    """Return a ball for the proof; None for one that nobody would have predicted."""
    fate = Fate.SCORED
    if kept is None:
        if not swing.compared:
            return None
        fate = Fate.NOT_PREDICTED
    elif not swing.compared:
        fate = Fate.CHANGED
    elif set_up_of(swing, now) != kept.set_up:
        came_as = _as_it_came(record, swing.sequence)
        fate = Fate.CHANGED if came_as == kept.set_up else Fate.NOT_PREDICTED
    inside = _inside(kept, swing.numbers) if kept and fate is Fate.SCORED else {}
    if fate is Fate.SCORED and not inside:
        fate = Fate.NOT_PREDICTED
    visit = now.visits[swing.visit]
    return Scored(
        fitting=fitting.id,
        sequence=swing.sequence,
        fate=fate,
        bay=kept.bay if kept else visit.bay,
        device=kept.device if kept else visit.device.name,
        club=_model(now, swing),
        rests=kept.rests if kept else None,
        inside=inside,
    )


def _as_it_came(record: tuple[Entry, ...], sequence: int) -> str | None:
    """Return the set-up of a ball as the record stood when it came."""
    then = replay(record[:sequence])
    swing = then.swing(sequence)
    return None if swing is None else set_up_of(swing, then)


def _model(now: FittingNow, swing: Swing) -> str:
    club = now.club(swing.club or "")
    if club is None:
        return swing.club or ""
    told = [club.card.head, club.card.shaft, swing.setting]
    return ", ".join(one for one in told if one)


def _inside(kept: Prediction, numbers: ShotNumbers | None) -> dict[str, tuple[bool, bool, bool]]:
    """Return which ranges held what was read of a ball, and its flight in the same air."""
    if numbers is None:
        return {}
    told = {name: getattr(numbers, name) for name in QUANTITIES if name not in {"carry", "total"}}
    # A ball without a side that was predicted with one would fly straighter than predicted.
    lacks = any(kept.forecast(name) and told[name] is None for name in _SIDES)
    flight = None if lacks else flown(numbers, kept.home)
    told["carry"] = flight.carry if flight else None
    told["total"] = flight.total if flight else None
    return {
        one.quantity: one.holds(told[one.quantity])
        for one in kept.forecasts
        if told[one.quantity] is not None
    }
