"""A label scanned in the bay: the club that its part makes, or why it is not handed over."""

from dataclasses import dataclass

from loftwright.bay.now import ClubNow, FittingNow
from loftwright.domain.acts import HandedOver
from loftwright.domain.fitting import ClubCard
from loftwright.domain.piece_code import code_of, piece_of
from loftwright.domain.rack import Piece, Rack
from loftwright.domain.undoing import written
from loftwright.errors import ConflictError, InputError
from loftwright.report.numbers import listed
from loftwright.services.acting import act
from loftwright.services.day import fittings_in_progress
from loftwright.services.holding import barred, local_now
from loftwright.services.places import elsewhere, take_here
from loftwright.services.studio import Studio


@dataclass(frozen=True, slots=True, kw_only=True)
class Scanned:
    """A fitting after a label was scanned.

    Attributes
    ----------
    note : str
        What the fitter should know of it: another bay had it, or another club than the planned
        one is in hand.
    """

    now: FittingNow
    note: str


def hand_over_scanned(
    studio: Studio,
    fitting: str,
    code: str,
    *,
    planned: str = "",
    by: str = "",
    key: str = "",
    seen: int | None = None,
) -> Scanned:
    """Put the club in hand whose head or shaft bears a label.

    Parameters
    ----------
    studio : Studio
    fitting : str
    code : str
        As it was scanned or typed.
    planned : str
        The club that the page showed as the next one; empty without one.
    by, key : str
        Who acts, and under which key it is written once.
    seen : int, optional
        Sequence of the last entry that the acting page showed.

    Raises
    ------
    InputError
        If it is no label of this shop, or of no club of this fitting; it then says which sample
        the fitting's club has.
    ConflictError
        If the part may not be hit, or its club is out of the comparison.
    """
    if written(studio.record(fitting), key):
        return Scanned(now=studio.standing(fitting), note="")
    rack, now = studio.store.rack(), studio.standing(fitting)
    piece = rack.pieces[piece_of(code, rack.pieces)]
    reason = barred(piece, local_now(studio))
    if reason:
        raise ConflictError(
            reason,
            place="label",
            mend="Take another one. It may be hit again once it was looked at and put back on "
            "the rack’s page.",
        )
    club = _club_of(rack, now, piece, planned)
    opened = studio.store.fitting(fitting).value
    bay = opened.bay if now.visit is None else now.visit.bay
    _refuse_in_hand_elsewhere(studio, rack, piece, bay)
    after = act(studio, fitting, [HandedOver(club=club.name)], by=by, key=key, seen=seen)
    had = take_here(studio, _parts(club.card), bay, by=opened.fitter or by)
    told = (f"{had}." if had else "", _note(rack, now, piece, club, planned))
    return Scanned(now=after, note=" ".join(part for part in told if part))


def _refuse_in_hand_elsewhere(studio: Studio, rack: Rack, piece: Piece, bay: str) -> None:
    """Refuse a part that another bay has and that is in a golfer's hand there."""
    where = elsewhere(studio, piece, bay)
    if not where:
        return
    for one in fittings_in_progress(studio):
        there = studio.standing(one.id)
        club = there.club(there.in_hand or "")
        visit = there.visit
        if club is None or visit is None or visit.bay != piece.place:
            continue
        if piece.id in _parts(club.card):
            raise ConflictError(
                f"{sample_name(rack, piece)} is {where}, and in a golfer’s hand there",
                place="label",
                mend="If it is here all the same, check it out to this bay on the page Bays; "
                "then scan it again.",
            )


def sample_name(rack: Rack, piece: Piece) -> str:
    """Return what a sample is called in a bay: its model and its mark, else its label's code."""
    model = rack.heads.get(piece.model) or rack.shafts[piece.model]
    if piece.label and model.name in piece.label:
        return piece.label
    return f"{model.name} {piece.label or code_of(piece.id)}"


def _club_of(rack: Rack, now: FittingNow, piece: Piece, planned: str) -> ClubNow:
    """Return the one club of a fitting that a part belongs to."""
    mine = [club for club in now.clubs if piece.id in _parts(club.card)]
    name = sample_name(rack, piece)
    if not mine:
        raise _of_no_club(rack, now, piece, planned)
    standing = [club for club in mine if not club.out]
    if not standing:
        raise ConflictError(
            f"{name} belongs to {mine[0].name}, which is out of this fitting: {mine[0].out}",
            place="label",
            mend="Take another club, or undo what put it out.",
        )
    if len(standing) > 1:
        raise InputError(
            f"{name} is part of {listed([club.name for club in standing])}",
            place="label",
            mend="Scan its other part, or tap the club that you hold.",
        )
    return standing[0]


def _of_no_club(rack: Rack, now: FittingNow, piece: Piece, planned: str) -> InputError:
    name = sample_name(rack, piece)
    ranked = sorted(
        (club for club in now.clubs if not club.out), key=lambda one: one.name != planned
    )
    for club in ranked:
        twin = next(
            (
                rack.pieces[part]
                for part in _parts(club.card)
                if part in rack.pieces and rack.pieces[part].model == piece.model
            ),
            None,
        )
        if twin is not None:
            other = sample_name(rack, twin)
            at = f" It is at {twin.place}." if twin.place else ""
            return InputError(
                f"this is {name}; {club.name} has {other}",
                place="label",
                mend=f"Take {other}.{at}",
            )
    return InputError(
        f"{name} is in no club of this fitting",
        place="label",
        mend="Take the club that is planned, or let this one join on the plan’s page.",
    )


def _note(rack: Rack, now: FittingNow, piece: Piece, club: ClubNow, planned: str) -> str:
    """Return a word for a club that is not the planned one."""
    wanted = now.club(planned)
    if wanted is None or wanted.name == club.name:
        return ""
    shaft = rack.pieces.get(wanted.card.shaft_piece)
    has = f", with {sample_name(rack, shaft)}" if shaft is not None else ""
    return (
        f"This is {sample_name(rack, piece)}, so {club.name} is in hand. Planned was "
        f"{wanted.name}{has}."
    )


def _parts(card: ClubCard) -> tuple[str, str]:
    return card.shaft_piece, card.head_piece
