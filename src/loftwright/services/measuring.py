"""Measured shafts: keep a profile, set one aside, and find what plays like a shaft."""

from dataclasses import dataclass, replace
from typing import Final

from loftwright.domain.likeness import Likeness, likeness, standing
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.rack import Piece, Rack
from loftwright.domain.sections import Section
from loftwright.errors import InputError
from loftwright.services.holding import barred, local_now
from loftwright.services.studio import Studio, new_id

BY: Final = ("bending", "twist", "weight", "balance")
"""What the likest are sought by."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Alike:
    """Another measured shaft, and how far it is from the one that was asked about.

    Attributes
    ----------
    why_not : str
        Why it may not be hit; empty if it may.
    """

    piece: Piece
    profile: MeasuredProfile
    likeness: Likeness
    why_not: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """Which shape is sought: against a shaft, in one section, softer or stiffer by so much.

    Attributes
    ----------
    least, most : float, optional
        Share of the shaft's own stiffness: -0.1 to -0.05 is 5 to 10 % softer.
    """

    section: Section
    least: float | None = None
    most: float | None = None


def keep_profile(studio: Studio, profile: MeasuredProfile) -> MeasuredProfile:
    """Keep a measured profile of a shaft under a fresh id.

    Raises
    ------
    InputError
        If it is of no shaft of the rack.
    """
    rack = studio.store.rack()
    piece = rack.pieces.get(profile.piece)
    if piece is None or piece.model not in rack.shafts:
        raise InputError(
            "only a shaft has a profile", place="piece", mend="Open a shaft of the rack."
        )
    kept = replace(profile, id=new_id())
    studio.store.keep_profile(kept)
    return kept


def measured(studio: Studio) -> dict[str, MeasuredProfile]:
    """Return the profile that stands of every measured shaft, by its piece."""
    found = {piece: standing(profiles) for piece, profiles in studio.store.profiles().items()}
    return {piece: profile for piece, profile in found.items() if profile is not None}


def alike(
    studio: Studio, piece: str, *, by: str = "bending", shape: Shape | None = None
) -> tuple[Alike, ...]:
    """Return every other measured shaft, the likest first.

    Parameters
    ----------
    studio : Studio
    piece : str
        The shaft that is compared with.
    by : {"bending", "twist", "weight", "balance"}
        What likeness is measured in; shafts that lack it come last.
    shape : Shape, optional
        Leaves out what is not of that shape.
    """
    rack, profiles = studio.store.rack(), measured(studio)
    mine = profiles.get(piece)
    if mine is None:
        return ()
    owned = {club.shaft for club in rack.assemblies.values() if club.owner is not None}
    found = [
        _alike(studio, rack, other, profile, mine)
        for other, profile in profiles.items()
        if other not in {piece, *owned}
    ]
    kept = [one for one in found if shape is None or _is_of(one.likeness, shape)]
    return tuple(sorted(kept, key=lambda one: _far(one.likeness, by)))


def _alike(
    studio: Studio, rack: Rack, other: str, profile: MeasuredProfile, mine: MeasuredProfile
) -> Alike:
    piece = rack.pieces[other]
    return Alike(
        piece=piece,
        profile=profile,
        likeness=likeness(profile, mine),
        why_not=barred(piece, local_now(studio)),
    )


def _is_of(found: Likeness, shape: Shape) -> bool:
    """Return whether a shaft is of a shape; one not seen there is of none."""
    told = found.bending.get(shape.section)
    if told is None:
        return False
    return (shape.least is None or told.share >= shape.least) and (
        shape.most is None or told.share <= shape.most
    )


def _far(found: Likeness, by: str) -> float:
    value = {
        "bending": found.distance,
        "twist": found.twist_distance,
        "weight": None if found.mass is None else abs(found.mass.value),
        "balance": None if found.balance is None else abs(found.balance.value),
    }[by]
    return float("inf") if value is None else value
