"""Find a measured shaft of the rack by what a person calls it."""

import difflib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.rack import Piece, Rack
from loftwright.errors import InputError, NotFoundError


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class NamedShaft:
    """A shaft of the rack and its measured profile.

    Attributes
    ----------
    name : str
        What is written on the sample.
    piece : Piece
    measured : MeasuredProfile
    """

    name: str
    piece: Piece
    measured: MeasuredProfile


def name_of(rack: Rack, piece: Piece) -> str:
    """Return what is written on a sample, its model's name without a label."""
    return piece.label or rack.shafts[piece.model].name


def shaft_named(rack: Rack, profiles: Mapping[str, MeasuredProfile], name: str) -> NamedShaft:
    """Return the measured shaft of a name.

    Parameters
    ----------
    rack : Rack
    profiles : mapping of str to MeasuredProfile
        The profile that stands, by piece.
    name : str
        The sample's id or label, or its model's id or name if one sample of it is measured; case
        does not count.

    Returns
    -------
    NamedShaft

    Raises
    ------
    NotFoundError
        If the rack has none of that name; the nearest names are told.
    InputError
        If several samples have it, or the one that has it was not measured.
    """
    shafts = [one for one in rack.pieces.values() if one.model in rack.shafts]
    called = [one for one in shafts if _is(name, (one.id, one.label))]
    models = [one for one in shafts if _is(name, (one.model, rack.shafts[one.model].name))]
    known = [one for one in models if one.id in profiles]
    found = called or known or models
    if not found:
        raise _unknown(rack, shafts, name)
    if len(found) > 1:
        raise InputError(
            f"{len(found)} samples are called {name!r}",
            place=name,
            mend=f"Name one of {_listed(name_of(rack, one) for one in found)}, or its id.",
        )
    piece = found[0]
    if piece.id not in profiles:
        raise InputError(
            f"{name_of(rack, piece)} was not measured",
            place=name,
            mend="Measure it on the bench and keep its profile, or give a table of readings.",
        )
    return NamedShaft(name=name_of(rack, piece), piece=piece, measured=profiles[piece.id])


def _is(name: str, words: Iterable[str]) -> bool:
    return name.strip().casefold() in {word.casefold() for word in words if word}


def _unknown(rack: Rack, shafts: list[Piece], name: str) -> NotFoundError:
    names = list(dict.fromkeys(name_of(rack, one) for one in shafts))
    by_fold = {one.casefold(): one for one in names}
    near = difflib.get_close_matches(name.casefold(), by_fold, n=3)
    mend = f"Did you mean {_listed(by_fold[one] for one in near)}?"
    if not near:
        mend = f"It has {_listed(names[:12])}." if names else "It has no shafts yet."
    return NotFoundError(f"the rack has no shaft {name!r}", place=name, mend=mend)


def _listed(names: Iterable[str]) -> str:
    return ", ".join(names)
