"""A complaint from its first word to its ending: what was looked at, and what that suggests."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum
from typing import Final

from loftwright.domain.after_acts import (
    Complained,
    ComplaintEnded,
    Ending,
    Found,
    Look,
    LookedAt,
)
from loftwright.domain.check_acts import Against, PickedUp, PickUpBegun
from loftwright.domain.job_acts import JobEntry
from loftwright.workshop.standing import standing

CONDITIONS: Final = (Look.BALL, Look.PLACE)
_OTHERS: Final = (*CONDITIONS, Look.WARM_UP)


class Why(StrEnum):
    """Why an ending is suggested, or none."""

    LOOK_ON = "look_on"
    """Not enough was looked at."""
    MEASURES_OTHERWISE = "measures_otherwise"
    SET_OTHERWISE = "set_otherwise"
    PLAYS_OTHERWISE = "plays_otherwise"
    """The balls say that it is another club than the tested one, though nothing was measured."""
    HIDDEN = "hidden"
    """The balls say so, though it measures as it did."""
    CONTRADICTS = "contradicts"
    """It measures or is set otherwise, and still plays as the tested one."""
    OTHER_BALL = "other_ball"
    OTHER_PLACE = "other_place"
    OTHER_BALL_AND_PLACE = "other_ball_and_place"
    COLD = "cold"
    """The warm-up was another."""
    ONLY_SWING_LEFT = "only_swing_left"
    NOT_CLEARED = "not_cleared"
    """Something else differs, but nobody knows that the club is what it was."""
    NOTHING_FOUND = "nothing_found"


@dataclass(frozen=True, slots=True, kw_only=True)
class Suggested:
    """What the findings suggest; a person ends the complaint.

    Attributes
    ----------
    ending : Ending or None
        None while more is to be looked at.
    """

    ending: Ending | None
    why: Why


@dataclass(frozen=True, slots=True, kw_only=True)
class Complaint:
    """One complaint.

    Attributes
    ----------
    said : Complained
    looks : dict of Look to LookedAt
        The newest of each, in the order in which they are taken.
    ended : ComplaintEnded or None
    balls : Against or None
        What the balls said when the club was hit again because of it.
    """

    said: Complained
    looks: Mapping[Look, LookedAt] = field(default_factory=dict)
    ended: ComplaintEnded | None = None
    balls: Against | None = None

    @property
    def next_look(self) -> Look | None:
        """The first look that was not taken yet."""
        return next((one for one in Look if one not in self.looks), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class ComplaintNow:
    """What stands of the complaints of a job.

    Attributes
    ----------
    open : Complaint or None
        The one that has not ended.
    earlier : tuple of Complaint
        Those that ended, the newest first.
    suggested : Suggested
        For the open one.
    """

    open: Complaint | None
    earlier: tuple[Complaint, ...]
    suggested: Suggested


def complaint_now(record: Sequence[JobEntry]) -> ComplaintNow:
    """Return what stands of a job's complaints.

    Parameters
    ----------
    record : sequence of JobEntry
        The whole record, in order.
    """
    now: Complaint | None = None
    earlier: list[Complaint] = []
    again = False
    for entry in standing(record):
        act = entry.act
        if isinstance(act, Complained):
            now, again = Complaint(said=act), False
        elif now is None:
            continue
        elif isinstance(act, LookedAt):
            now = replace(now, looks=_in_order({**now.looks, act.look: act}))
        elif isinstance(act, PickUpBegun):
            again = act.complaint
        elif isinstance(act, PickedUp) and again:
            now = replace(now, balls=act.against)
        elif isinstance(act, ComplaintEnded):
            earlier.insert(0, replace(now, ended=act))
            now = None
    looks = {} if now is None else now.looks
    return ComplaintNow(
        open=now,
        earlier=tuple(earlier),
        suggested=suggested({one: look.found for one, look in looks.items()}),
    )


def suggested(found: Mapping[Look, Found]) -> Suggested:
    """Return what the findings of a complaint suggest.

    Parameters
    ----------
    found : mapping of Look to Found
        Of the looks that were taken.

    Notes
    -----
    Tried in this order; the first that holds decides:

    1. The club measures or is set otherwise: the club, unless the balls say that it plays as the
       tested one. Then nobody can tell before it was put right.
    2. Hit in turn it plays otherwise than the tested one: the club.
    3. The club is cleared, as it plays as the tested one, or measures as it did and nothing of it
       was turned: then ball or place, if they differ; else the warm-up, if it differs; else the
       swing, if all of these are the same and the balls cleared the club.
    4. What was not looked at is looked at.
    5. Nobody can tell.
    """
    measured, turned = found.get(Look.MEASURED), found.get(Look.SETTINGS)
    hit = found.get(Look.HIT_AGAIN)
    if Found.DIFFERENT in {measured, turned}:
        if hit is Found.SAME:
            return Suggested(ending=Ending.CANNOT_TELL, why=Why.CONTRADICTS)
        why = Why.MEASURES_OTHERWISE if measured is Found.DIFFERENT else Why.SET_OTHERWISE
        return Suggested(ending=Ending.CLUB, why=why)
    if hit is Found.DIFFERENT:
        why = Why.HIDDEN if measured is Found.SAME else Why.PLAYS_OTHERWISE
        return Suggested(ending=Ending.CLUB, why=why)
    if hit is Found.SAME or (measured is Found.SAME and turned is Found.SAME):
        cleared = _cleared(found)
        if cleared is not None:
            return cleared
    if any(look not in found for look in Look):
        return Suggested(ending=None, why=Why.LOOK_ON)
    other = any(found[look] is Found.DIFFERENT for look in _OTHERS)
    why = Why.NOT_CLEARED if other else Why.NOTHING_FOUND
    return Suggested(ending=Ending.CANNOT_TELL, why=why)


def _cleared(found: Mapping[Look, Found]) -> Suggested | None:
    """Return what is left when the club is what it was; None if that is not known."""
    ball, place = (found.get(look) is Found.DIFFERENT for look in CONDITIONS)
    if ball or place:
        why = Why.OTHER_BALL if not place else Why.OTHER_PLACE
        if ball and place:
            why = Why.OTHER_BALL_AND_PLACE
        return Suggested(ending=Ending.CONDITIONS, why=why)
    if found.get(Look.WARM_UP) is Found.DIFFERENT:
        return Suggested(ending=Ending.SWING, why=Why.COLD)
    same = all(found.get(look) is Found.SAME for look in _OTHERS)
    if same and found.get(Look.HIT_AGAIN) is Found.SAME:
        return Suggested(ending=Ending.SWING, why=Why.ONLY_SWING_LEFT)
    return None


def _in_order(looks: Mapping[Look, LookedAt]) -> dict[Look, LookedAt]:
    return {look: looks[look] for look in Look if look in looks}
