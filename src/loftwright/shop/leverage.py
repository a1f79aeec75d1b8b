"""How much single golfers, devices and bays move what a shop believes.

References
----------
Cook 1977, Detection of influential observation in linear regression, Technometrics 19:15.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from loftwright.shop.grams import Gram
from loftwright.shop.learned import Leverage
from loftwright.shop.levels import Belongs, Effects
from loftwright.shop.population import Population
from loftwright.shop.told import Told, together, told_by
from loftwright.shop.without import without

WORTH_SAYING: Final = 1.0
"""Standard errors by which something moves before it is listed (judgement)."""
SURPRISING: Final = 3.0
"""Times what chance would do before it is listed: the largest of some hundred (judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Who:
    """Who hit in a fitting, on what, where."""

    golfer: str
    devices: tuple[str, ...] = ()
    bays: tuple[str, ...] = ()


def leverage_of(
    grams: Sequence[Gram],
    belief: Population,
    belongs: Mapping[tuple[str, str], Belongs],
    effects: Effects,
    who: Mapping[str, Who],
    responses: Sequence[str],
    least: float = WORTH_SAYING,
    surprising: float = SURPRISING,
) -> tuple[Leverage, ...]:
    """Return who and what moves something most, the largest first.

    Parameters
    ----------
    grams : sequence of Gram
    belief : Population
    belongs : mapping of (fitting, club) to Belongs
    effects : Effects
        As `known_effects` gave them from all of these.
    who : mapping of str to Who
        By fitting.
    responses : sequence of str
        Names of what is moved.
    least : float
        Standard errors below which nothing is said.
    surprising : float
        Times what chance would do below which nothing is said.

    Returns
    -------
    tuple of Leverage
        One of each golfer, device and bay, of what it moves most.

    Notes
    -----
    Half of all fittings move everything, by chance: what is said moves further than chance would,
    by the doubt without them less the doubt with them. A member that nobody else hit hangs on
    that golfer, device or bay alone and is left out: in how few fittings it was hit says as
    much. How much things differ is not learned again.
    """
    place = {member: number for number, member in enumerate(effects.members)}
    members = {
        key: [place[one] for one in told.members if one in place] for key, told in belongs.items()
    }
    told = told_by(grams, belief, members)
    found = []
    for kind, name, fittings in _groups(told, who):
        moved = _moved(fittings, told, effects, surprising)
        if moved is not None and abs(moved[2]) >= least:
            level, member = effects.members[moved[0]]
            found.append(
                Leverage(
                    kind=kind,
                    name=name,
                    level=level,
                    member=member,
                    response=responses[moved[1]],
                    share=moved[2],
                )
            )
    return tuple(sorted(found, key=lambda one: (-abs(one.share), one.kind, one.name)))


def _groups(
    told: Mapping[str, Told], who: Mapping[str, Who]
) -> Iterator[tuple[str, str, list[str]]]:
    groups: dict[tuple[str, str], list[str]] = {}
    for fitting in sorted(told):
        one = who.get(fitting)
        if one is None:
            continue
        for kind, names in (
            ("golfer", (one.golfer,)),
            ("device", one.devices),
            ("bay", one.bays),
        ):
            for name in set(names) - {""}:
                groups.setdefault((kind, name), []).append(fitting)
    for (kind, name), fittings in sorted(groups.items()):
        yield kind, name, fittings


def _moved(
    fittings: Sequence[str], told: Mapping[str, Told], effects: Effects, surprising: float
) -> tuple[int, int, float] | None:
    """Return the member and the response that move most without some fittings, and how far."""
    responses = effects.means.shape[1]
    weights = [effects.counted.get(one, 1.0) for one in fittings]
    counted = together([told[one] for one in fittings], weights, responses)
    rows = counted.among(responses)
    size = effects.means.size
    flat = effects.covariance.reshape(size, size)
    own = flat[np.ix_(rows, rows)]
    means = effects.means.ravel()[rows]
    left = without(means, own, counted, counted)
    change = (left.means - means).reshape(-1, responses) / np.sqrt(np.diag(own)).reshape(
        -1, responses
    )
    outside = set(fittings)
    elsewhere = {
        int(one) for name, those in told.items() if name not in outside for one in those.places
    }
    change[[int(one) not in elsewhere for one in counted.places]] = 0.0
    by_chance = np.sqrt(np.maximum(np.diag(left.covariance - own), 0.0))
    usual = np.abs(left.means - means) < surprising * by_chance
    change[usual.reshape(-1, responses)] = 0.0
    if not change.size:
        return None
    member, response = np.unravel_index(int(np.abs(change).argmax()), change.shape)
    return int(counted.places[member]), int(response), float(change[member, response])
