"""What to try for a golfer before a ball is hit, from the shafts that the rack has measured."""

from loftwright.constants import GRAM
from loftwright.domain.club_kind import Kind, Told, kind_of, may_tell
from loftwright.domain.golfer import Golfer, Hand
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.rack import Assembly, Piece, Rack
from loftwright.domain.shortlist import ShaftOnHand, Sought
from loftwright.errors import InputError, NotFoundError
from loftwright.evidence.shortlist import Lacks, Listed, shortlist
from loftwright.intake.golfer_file import GolferFile
from loftwright.services.holding import barred, local_now
from loftwright.services.measuring import measured
from loftwright.services.places import elsewhere
from loftwright.services.shaft_named import name_of, shaft_named
from loftwright.services.studio import Studio

USUAL_HEAD = 200.0 * GRAM


def list_for_file(studio: Studio, golfer: GolferFile) -> Listed:
    """Return a shortlist for a golfer told by a file.

    Parameters
    ----------
    studio : Studio
        Whose rack is asked.
    golfer : GolferFile

    Raises
    ------
    InputError, ConvergenceError
        If a figure cannot be, or no swing reaches the golfer's speed.
    """
    rack, profiles = studio.store.rack(), measured(studio)
    own, reason = None, "the file names no shaft in the own club"
    if golfer.shaft:
        try:
            found = shaft_named(rack, profiles, golfer.shaft)
        except (NotFoundError, InputError) as error:
            reason = error.message
        else:
            own, reason = _on_hand(rack, found.piece, found.measured), ""
    if golfer.loft is not None:
        _check_driver(golfer.loft, golfer.length)
    sought = Sought(
        head_speed=golfer.head_speed,
        length=golfer.length,
        own=own,
        wish=golfer.wish,
        loadings=golfer.loadings,
        home=golfer.home,
        loft=golfer.loft,
        head_mass=golfer.head_mass,
        tip_trim=golfer.tip_trim,
    )
    others = shafts_on_hand(studio, hand=golfer.hand, apart=own)
    return Listed(shortlist=shortlist(sought, others), own=golfer.shaft, own_reason=reason)


def list_for_golfer(
    studio: Studio, golfer: Golfer, *, head_speed: float | None, bay: str = ""
) -> Listed:
    """Return a shortlist for a golfer of the shop.

    Parameters
    ----------
    studio : Studio
    golfer : Golfer
    head_speed : float, optional
        With the own club, stated or measured [m s^-1].
    bay : str
        Where the golfer hits.

    Raises
    ------
    InputError, ConvergenceError
        If no swing with the own shaft reaches that speed.
    """
    rack = studio.store.rack()
    club = rack.assemblies.get(golfer.own or "")
    lacks = [
        what
        for what, there in (
            (Lacks.OWN_CLUB, club is not None),
            (Lacks.HEAD_SPEED, head_speed is not None),
        )
        if not there
    ]
    if club is not None and kind_of(rack.head_of(club).loft, club.length) is not Kind.DRIVER:
        lacks.append(Lacks.DRIVER)
    if club is None or head_speed is None or Lacks.DRIVER in lacks:
        return Listed(shortlist=None, lacks=tuple(lacks))
    sought = sought_with(studio, golfer, club, head_speed)
    others = shafts_on_hand(studio, hand=golfer.hand, bay=bay, apart=sought.own)
    name = name_of(rack, rack.pieces[club.shaft])
    reason = "" if sought.own is not None else f"{name} was not measured"
    return Listed(shortlist=shortlist(sought, others), own=name, own_reason=reason)


def sought_with(studio: Studio, golfer: Golfer, club: Assembly, head_speed: float) -> Sought:
    """Return whom shafts are sought for, with the own club as the rack has it.

    Parameters
    ----------
    studio : Studio
    golfer : Golfer
    club : Assembly
        The golfer's own.
    head_speed : float
        With it [m s^-1].
    """
    rack, profiles = studio.store.rack(), measured(studio)
    piece = rack.pieces[club.shaft]
    known = profiles.get(piece.id)
    return Sought(
        head_speed=head_speed,
        length=club.length,
        own=None if known is None else _on_hand(rack, piece, known),
        wish=golfer.wish,
        loadings=golfer.loadings,
        home=golfer.home,
        loft=rack.head_of(club).loft,
        head_mass=rack.pieces[club.head].mass or USUAL_HEAD,
    )


def shafts_on_hand(
    studio: Studio, *, hand: Hand, bay: str = "", apart: ShaftOnHand | None = None
) -> tuple[ShaftOnHand, ...]:
    """Return the shop's measured shafts, each with what keeps it from being hit here.

    Parameters
    ----------
    studio : Studio
    hand : Hand
    bay : str
        Where the golfer hits; empty for any.
    apart : ShaftOnHand, optional
        The own shaft, which is not offered.
    """
    rack, profiles = studio.store.rack(), measured(studio)
    owned = {club.shaft for club in rack.assemblies.values() if club.owner is not None}
    mine = apart.measured.piece if apart else ""
    found = []
    for piece_id, profile in profiles.items():
        if piece_id in owned or piece_id == mine:
            continue
        piece = rack.pieces[piece_id]
        away = (
            barred(piece, local_now(studio))
            or _away(studio, piece, bay)
            or _no_head(studio, rack, piece, hand)
        )
        found.append(_on_hand(rack, piece, profile, away))
    return tuple(found)


def _check_driver(loft: float, length: float) -> None:
    rule = may_tell(kind_of(loft, length), Told.NOT_HIT)
    if not rule.may:
        raise InputError(
            "a shortlist is made for a driver",
            place="loft",
            mend=f"{rule.why} Give loft and length of the own driver.",
        )


def _on_hand(
    rack: Rack, piece: Piece, profile: MeasuredProfile, elsewhere: str = ""
) -> ShaftOnHand:
    return ShaftOnHand(
        name=name_of(rack, piece),
        measured=profile,
        weighed=piece.mass,
        place=piece.place,
        elsewhere=elsewhere,
    )


def _away(studio: Studio, piece: Piece, bay: str) -> str:
    where = elsewhere(studio, piece, bay) if bay else ""
    return f"it is {where}" if where else ""


def _no_head(studio: Studio, rack: Rack, piece: Piece, hand: Hand) -> str:
    """Return why no head of this hand takes a shaft; a rack without heads says nothing of it."""
    heads = [one for one in rack.pieces.values() if one.model in rack.heads]
    if not heads:
        return ""
    able = {
        one.id: rack.heads[one.model]
        for one in heads
        if rack.heads[one.model].hand is hand and not barred(one, local_now(studio))
    }
    if any(club.shaft == piece.id and club.head in able for club in rack.assemblies.values()):
        return ""
    if piece.sleeve is None:
        return "no sleeve is on it"
    system = rack.sleeves[piece.sleeve].system
    if any(head.system == system for head in able.values()):
        return ""
    return f"no {hand.value}-handed head here takes its {system} sleeve"
