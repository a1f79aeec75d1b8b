"""Published comparisons behind which a golfer stood who is erased."""

from collections.abc import Collection
from dataclasses import replace
from typing import Final

from loftwright.services.published_kept import Published, keep_publications, read_publications
from loftwright.services.shop_folder import code_of_golfer
from loftwright.services.shop_publishing import token_of
from loftwright.services.studio import Studio
from loftwright.shop.publishing import LEAST_GOLFERS

WHY: Final = "an erase: too few golfers are left behind it"
_GONE: Final = "gone "
"""Begins what stands for a golfer who is nobody any more."""


def published_with(studio: Studio, golfers: Collection[str]) -> tuple[int, ...]:
    """Return the numbers of comparisons behind which records of a golfer stand."""
    names = _names(golfers)
    return tuple(one.number for one in read_publications(studio)[0] if names & one.golfers)


def leave_publications(studio: Studio, golfers: Collection[str]) -> tuple[int, ...]:
    """Take a golfer from behind every comparison and return the numbers of those withdrawn.

    A comparison behind which enough golfers are left stands: its figures were of many and tell of
    no one. With fewer it is withdrawn, and nobody is told more. That somebody stood there stays,
    as nobody: a later comparison must not tell of the golfer by what differs.
    """
    kept, version = read_publications(studio)
    names = _names(golfers)
    if not any(names & one.golfers for one in kept):
        return ()
    left = tuple(_without(studio, one, names) for one in kept)
    keep_publications(studio, left, version)
    return tuple(
        now.number
        for before, now in zip(kept, left, strict=True)
        if before.withdrawn_at is None and now.withdrawn_at is not None
    )


def _without(studio: Studio, published: Published, names: Collection[str]) -> Published:
    if not published.golfers.intersection(names):
        return published
    before = sum(one.startswith(_GONE) for one in published.golfers)
    leaving = sorted(published.golfers.intersection(names))
    nobody = {name: f"{_GONE}{number}" for number, name in enumerate(leaving, start=before + 1)}
    behind = {
        model: {
            nobody.get(name, name): "" if name in nobody else hits for name, hits in told.items()
        }
        for model, told in published.behind.items()
    }
    left = replace(published, behind=behind)
    fewest = min(sum(not one.startswith(_GONE) for one in told) for told in behind.values())
    if published.withdrawn_at is None and fewest < LEAST_GOLFERS:
        return replace(left, withdrawn_by=WHY, withdrawn_at=studio.now())
    return left


def _names(golfers: Collection[str]) -> frozenset[str]:
    return frozenset(token_of(code_of_golfer(one)) for one in golfers)
