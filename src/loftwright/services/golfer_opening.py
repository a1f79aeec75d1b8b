"""A golfer comes in: written down with own club and limits, and a fitting opened."""

from dataclasses import dataclass

from loftwright.domain.fitting import Fitting
from loftwright.domain.golfer import Golfer, Identity
from loftwright.services.fittings import open_fitting
from loftwright.services.golfers import (
    KnownGolfer,
    add_golfer,
    change_golfer,
    forget_old_limits,
    set_limits_today,
)
from loftwright.services.rack_adding import (
    OwnClub,
    add_own_club,
    change_own_club,
    own_club,
    own_items,
)
from loftwright.services.studio import Studio


@dataclass(frozen=True, slots=True, kw_only=True)
class Visitor:
    """What the golfer's form says.

    Attributes
    ----------
    golfer : Golfer
        Its id is given when it is kept.
    limits : str
        What the body allows today; kept apart and gone after the visit.
    own : OwnClub, optional
        None if no own club was brought.
    """

    golfer: Golfer
    identity: Identity
    limits: str = ""
    own: OwnClub | None = None


def open_for_new(
    studio: Studio, visitor: Visitor, *, bay: str, fitter: str = "", partner: str | None = None
) -> Fitting:
    """Write a new golfer down and open a fitting.

    Parameters
    ----------
    studio : Studio
    visitor : Visitor
    bay : str
    fitter : str
    partner : str, optional
        The fitting of a golfer with whom the new one takes turns.

    Raises
    ------
    InputError
        If the own club cannot be; nothing is kept then.
    NotFoundError
        If the partner's fitting does not exist; nothing is kept then.
    """
    if visitor.own is not None:
        own_items(visitor.golfer, visitor.own)
    if partner is not None:
        studio.store.fitting(partner)
    forget_old_limits(studio, studio.today())
    kept = add_golfer(studio, visitor.golfer, visitor.identity)
    if visitor.own is not None:
        owner = add_own_club(studio, kept, visitor.own)
        studio.store.change_golfer(owner, version=studio.store.golfer(kept.id).version)
    if visitor.limits:
        set_limits_today(studio, kept.id, visitor.limits)
    return open_fitting(studio, kept.id, bay=bay, fitter=fitter, partner=partner)


def change_visitor(studio: Studio, known: KnownGolfer, visitor: Visitor, *, version: int) -> None:
    """Write down anew what is known of a golfer.

    An own club that was left out is not taken away: the golfer's balls with it stay his.

    Raises
    ------
    ConflictError
        If somebody else changed the golfer since the form was drawn; nothing is changed then.
    InputError
        If the own club cannot be.
    """
    golfer = visitor.golfer
    fresh = visitor.own is not None and known.golfer.own is None
    if visitor.own is not None:
        own_items(golfer, visitor.own)
    changed = change_golfer(studio, golfer, visitor.identity, version=version)
    if visitor.own is not None and fresh:
        studio.store.change_golfer(add_own_club(studio, golfer, visitor.own), version=changed)
    elif visitor.own is not None:
        change_own_club(studio, golfer, visitor.own)
    set_limits_today(studio, golfer.id, visitor.limits)


def visitor_of(studio: Studio, known: KnownGolfer) -> Visitor:
    """Return what the golfer's form shows of a known golfer."""
    return Visitor(
        golfer=known.golfer,
        identity=known.identity,
        limits=studio.store.limits(known.golfer.id, studio.today()),
        own=own_club(studio.store.rack(), known.golfer),
    )
