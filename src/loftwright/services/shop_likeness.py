"""How alike the shafts of a line were measured, for what the shop carries over between them."""

from collections.abc import Mapping
from math import sqrt
from statistics import fmean

from loftwright.domain.likeness import likeness
from loftwright.domain.lineage import forebears
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.rack import Rack
from loftwright.services.belongings import generation_name
from loftwright.services.measuring import measured
from loftwright.services.studio import Studio
from loftwright.shop.alike import likeness_at
from loftwright.shop.levels import Member


def alike_of(studio: Studio) -> dict[tuple[Member, Member], float]:
    """Return how alike models of a studio's rack are to those whose place they took."""
    return alike_in(studio.store.rack(), measured(studio))


def alike_in(
    rack: Rack, profiles: Mapping[str, MeasuredProfile]
) -> dict[tuple[Member, Member], float]:
    """Return how alike models and generations are to those whose place they took.

    Parameters
    ----------
    rack : Rack
    profiles : mapping of str to MeasuredProfile
        Of measured pieces.

    Returns
    -------
    dict of ((str, str), (str, str)) to float
        Older and newer member and their likeness in [0, 1]; two models of which one was not
        measured are not in it, and nothing is carried over between them.

    Notes
    -----
    Two generations are as alike as, on average, the models of one are to those of the other
    whose place they took.
    """
    samples = {
        model: [
            profiles[piece.id]
            for piece in rack.pieces.values()
            if piece.model == model and piece.id in profiles
        ]
        for model in rack.shafts
    }
    found: dict[tuple[Member, Member], float] = {}
    lines: dict[tuple[Member, Member], list[float]] = {}
    for newer in rack.shafts.values():
        for older in forebears(rack.shafts, newer.id):
            if older.family != newer.family or not newer.family:
                continue
            alike = _alike(samples[older.id], samples[newer.id])
            if alike is None:
                continue
            found[("model", older.id), ("model", newer.id)] = alike
            if older.generation and newer.generation and older.generation != newer.generation:
                pair = (
                    ("generation", generation_name(older)),
                    (
                        "generation",
                        generation_name(newer),
                    ),
                )
                lines.setdefault(pair, []).append(alike)
    return {**found, **{pair: fmean(those) for pair, those in lines.items()}}


def _alike(one: list[MeasuredProfile], other: list[MeasuredProfile]) -> float | None:
    """Return how alike all samples of two models are; None where nothing was seen of both."""
    squares, noises = [], []
    for first in one:
        for second in other:
            apart = likeness(first, second)
            if apart.distance is not None:
                squares.append(apart.distance**2)
                noises.append((apart.noise or 0.0) ** 2)
    if not squares:
        return None
    return likeness_at(sqrt(fmean(squares)), sqrt(fmean(noises)))
