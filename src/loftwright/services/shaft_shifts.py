"""What physics expects of the shafts of a fitting's clubs, where they and the own are measured."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final, TypeAlias

from loftwright.bay.now import FittingNow
from loftwright.domain.club_kind import Kind, kind_of
from loftwright.domain.fitting import ClubCard
from loftwright.domain.golfer import Golfer, Hand
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.rack import Assembly
from loftwright.domain.shortlist import ShaftOnHand
from loftwright.errors import ConvergenceError, InputError
from loftwright.evidence.shaft_guess import Guess, guesses
from loftwright.evidence.shaft_prior import shaft_shift
from loftwright.physics.sleeve import HeadAngles
from loftwright.services.kept_by_studio import KeptByStudio
from loftwright.services.measuring import measured
from loftwright.services.shortlist import sought_with
from loftwright.services.studio import Studio

Shift: TypeAlias = tuple[float, float, float, float, float]
Shifts: TypeAlias = Mapping[str, Shift]
"""By shaft's piece: head speed [m s^-1], attack, path, face, dynamic loft [rad]."""

NO_SHIFT: Final[Shift] = (0.0, 0.0, 0.0, 0.0, 0.0)
NO_SHIFTS: Final[Shifts] = MappingProxyType({})
_kept: Final[KeptByStudio[Shifts]] = KeptByStudio()


def expected_of(angles: HeadAngles, card: ClubCard, hand: Hand, shifts: Shifts) -> Shift:
    """Return what is expected of a set-up's delivery before a ball, of head and shaft together.

    Parameters
    ----------
    angles : HeadAngles
        Of the head with its sleeve so set.
    card : ClubCard
    hand : Hand
    shifts : mapping of str to Shift
        Of shafts, by their piece; those left out are as the own one.

    Returns
    -------
    Shift
        Face as the world sees it; only differences between set-ups mean anything.
    """
    side = -1.0 if hand is Hand.LEFT else 1.0
    speed, attack, path, face, loft = shifts.get(card.shaft_piece, NO_SHIFT)
    return speed, attack, path, face + side * angles.face, loft + angles.loft


def shaft_shifts(studio: Studio, golfer: Golfer, now: FittingNow) -> Shifts:
    """Return what is believed of the shafts of a fitting's clubs against the own one.

    Parameters
    ----------
    studio : Studio
    golfer : Golfer
        Whose stated head speed counts; without one nothing is believed.
    now : FittingNow

    Returns
    -------
    mapping of str to Shift
        Empty where the own shaft was not measured or the own club is no driver. A shaft that was
        not measured, or cannot be swung in the model, is left out.

    Notes
    -----
    Nothing of it follows from a ball of the fitting, so that a ball never counts twice.
    """
    rack = studio.store.rack()
    club = rack.assemblies.get(golfer.own or "")
    profiles = measured(studio)
    if club is None or golfer.head_speed is None or club.shaft not in profiles:
        return NO_SHIFTS
    if kind_of(rack.head_of(club).loft, club.length) is not Kind.DRIVER:
        return NO_SHIFTS
    pieces = dict.fromkeys(
        one.card.shaft_piece
        for one in now.clubs
        if one.card.shaft_piece in profiles and one.card.shaft_piece != club.shaft
    )
    head = rack.pieces[club.head].mass
    told = tuple((piece, profiles[piece].id, rack.pieces[piece].mass) for piece in pieces)
    speed, loading = golfer.head_speed, golfer.loadings
    key = (club.id, club.length, head, profiles[club.shaft].id, speed, loading, told)
    return _kept.of(studio, key, lambda: _believed(studio, golfer, club, told, profiles))


def _believed(
    studio: Studio,
    golfer: Golfer,
    club: Assembly,
    told: tuple[tuple[str, str, float | None], ...],
    profiles: Mapping[str, MeasuredProfile],
) -> Shifts:
    sought = sought_with(studio, golfer, club, golfer.head_speed or 0.0)
    if sought.own is None:
        return NO_SHIFTS
    others = [
        ShaftOnHand(name=piece, measured=profiles[piece], weighed=mass) for piece, _, mass in told
    ]
    try:
        found = guesses(sought, sought.own, others)
    except (ConvergenceError, InputError):
        return NO_SHIFTS
    return MappingProxyType(
        {one.shaft.name: shaft_shift(one.beliefs) for one in found if isinstance(one, Guess)}
    )
