"""What a shop learned as plain named figures, and back to the last digit."""

from collections.abc import Mapping, Sequence
from dataclasses import asdict
from datetime import date
from typing import Any, Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.evidence.scales import PART_NAMES
from loftwright.evidence.spreads import SpreadTable
from loftwright.shop.columns import (
    DELIVERY,
    FEATURES,
    LONG,
    RESPONSES,
    STRIKE_UNIT,
    SWING_FEATURES,
    SWING_RESPONSES,
    WARM_UP,
    Scaled,
)
from loftwright.shop.learned import HeadSlopes, Leverage, Offset, ShopLearned
from loftwright.shop.levels import LEVELS, Effects, Member
from loftwright.shop.population import Population

FORM: Final = "loftwright learned 1"

Names = tuple[str, ...]
_LAUNCH: Final = tuple(one.column for one in RESPONSES)
_SWING: Final = tuple(one.column for one in SWING_RESPONSES)
_HEEL_TOE: Final = ("heel_toe", "low_high")
_TABLE: Final = {
    "parts": PART_NAMES,
    "strike": _HEEL_TOE,
    "club_parts": PART_NAMES,
    "club_strike": _HEEL_TOE,
    "club_floor": _LAUNCH,
}


def record_of(learned: ShopLearned) -> dict[str, Any]:
    """Return what was learned as named figures; covariances of effects are left out."""
    return {
        "form": FORM,
        **{name: getattr(learned, name) for name in ("version", "program")},
        "made": learned.made.isoformat(),
        **{name: getattr(learned, name) for name in ("fittings", "golfers", "balls")},
        "physics_share": learned.physics_share,
        "units": _units(),
        "physics": _named(learned.physics, FEATURES, _LAUNCH),
        "launch": _population(learned.launch, FEATURES, _LAUNCH),
        "swing": _population(learned.swing, SWING_FEATURES, _SWING),
        "heads": [
            {
                "head": one.head,
                "fittings": one.fittings,
                "slopes": _named(one.slopes, FEATURES, _LAUNCH),
                "sd": _named(one.sd, FEATURES, _LAUNCH),
            }
            for one in learned.heads
        ],
        "offsets": [
            {
                **{name: getattr(one, name) for name in ("kind", "name", "fittings")},
                "mean": _named(one.mean, _LAUNCH),
                "sd": _named(one.sd, _LAUNCH),
            }
            for one in learned.offsets
        ],
        "table": {name: _named(getattr(learned.table, name), of) for name, of in _TABLE.items()},
        "effects": _effects(learned.effects, _LAUNCH),
        "swing_effects": _effects(learned.swing_effects, _SWING),
        "leverage": [asdict(one) for one in learned.leverage],
    }


def learned_of(
    told: Mapping[str, Any], covariance: FloatArray, swing_covariance: FloatArray
) -> ShopLearned:
    """Return what was learned from its named figures.

    Parameters
    ----------
    told : mapping
        As `record_of` gives it.
    covariance, swing_covariance : FloatArray, shapes (M R, M R)
        Of effects, members in their order and responses running fastest.

    Raises
    ------
    KeyError, ValueError, TypeError
        If it is something else.
    """
    return ShopLearned(
        version=int(told["version"]),
        program=str(told["program"]),
        made=date.fromisoformat(told["made"]),
        fittings=int(told["fittings"]),
        golfers=int(told["golfers"]),
        balls=int(told["balls"]),
        launch=_population_of(told["launch"], FEATURES, _LAUNCH),
        swing=_population_of(told["swing"], SWING_FEATURES, _SWING),
        heads=tuple(
            HeadSlopes(
                head=str(one["head"]),
                fittings=int(one["fittings"]),
                slopes=_values(one["slopes"], FEATURES, _LAUNCH),
                sd=_values(one["sd"], FEATURES, _LAUNCH),
            )
            for one in told["heads"]
        ),
        offsets=tuple(
            Offset(
                kind=str(one["kind"]),
                name=str(one["name"]),
                fittings=int(one["fittings"]),
                mean=_values(one["mean"], _LAUNCH),
                sd=_values(one["sd"], _LAUNCH),
            )
            for one in told["offsets"]
        ),
        table=SpreadTable(
            **{name: _values(told["table"][name], of) for name, of in _TABLE.items()}
        ),
        effects=_effects_of(told["effects"], _LAUNCH, covariance),
        swing_effects=_effects_of(told["swing_effects"], _SWING, swing_covariance),
        leverage=tuple(Leverage(**one) for one in told["leverage"]),
        physics=_values(told["physics"], FEATURES, _LAUNCH),
    )


def _units() -> dict[str, Any]:
    columns: Sequence[Scaled] = (*RESPONSES, *DELIVERY, *SWING_RESPONSES[len(DELIVERY) :])
    return {
        **{one.column: {"origin": one.origin, "unit": one.unit} for one in columns},
        **{name: {"origin": 0.0, "unit": STRIKE_UNIT} for name in ("toe", "high")},
        **{name: {"unit": STRIKE_UNIT**2} for name in ("toe_squared", "high_squared")},
        "warm_up": f"exp(-order / {WARM_UP:g})",
        "drift": f"order / {LONG:g}",
    }


def _named(values: FloatArray, *names: Names) -> dict[str, Any]:
    """Return an array as names within names."""
    first, *rest = names
    return {
        name: _named(one, *rest) if rest else float(one)
        for name, one in zip(first, values, strict=True)
    }


def _values(told: Mapping[str, Any], *names: Names) -> FloatArray:
    """Return the array of names within names, which are all there and no others."""
    first, *rest = names
    if set(told) != set(first):
        raise ValueError(", ".join(sorted(set(told) ^ set(first))))
    return frozen_array([_values(told[name], *rest) if rest else told[name] for name in first])


def _population(population: Population, features: Names, responses: Names) -> dict[str, Any]:
    return {
        "slopes": _named(population.slopes, features, responses),
        "spread": _named(population.spread, responses, features, features),
        "clubs": _named(population.clubs, responses, responses),
        "left": _named(population.left, responses, responses),
    }


def _population_of(told: Mapping[str, Any], features: Names, responses: Names) -> Population:
    return Population(
        slopes=_values(told["slopes"], features, responses),
        spread=_values(told["spread"], responses, features, features),
        clubs=_values(told["clubs"], responses, responses),
        left=_values(told["left"], responses, responses),
    )


def _effects(effects: Effects, responses: Names) -> dict[str, Any]:
    size = effects.means.size
    doubt = np.sqrt(np.diag(effects.covariance.reshape(size, size))).reshape(effects.means.shape)
    return {
        "differ": _named(effects.variances, LEVELS, responses),
        "counted": dict(effects.counted),
        "members": [
            {
                "level": level,
                "name": name,
                "fittings": effects.fittings[level, name],
                "like": _like(effects, (level, name)),
                "mean": _named(effects.means[place], responses),
                "sd": _named(doubt[place], responses),
            }
            for place, (level, name) in enumerate(effects.members)
        ],
    }


def _like(effects: Effects, member: Member) -> dict[str, Any] | None:
    if member not in effects.like:
        return None
    name, likeness = effects.like[member]
    return {"name": name, "likeness": likeness}


def _effects_of(told: Mapping[str, Any], responses: Names, covariance: FloatArray) -> Effects:
    members = tuple((str(one["level"]), str(one["name"])) for one in told["members"])
    shape = (len(members), len(responses))
    means = [_values(one["mean"], responses) for one in told["members"]]
    return Effects(
        members=members,
        means=frozen_array(np.array(means).reshape(shape)),
        covariance=frozen_array(covariance.reshape(*shape, *shape)),
        variances=_values(told["differ"], LEVELS, responses),
        fittings={
            member: int(one["fittings"])
            for member, one in zip(members, told["members"], strict=True)
        },
        like={
            member: (str(one["like"]["name"]), float(one["like"]["likeness"]))
            for member, one in zip(members, told["members"], strict=True)
            if one["like"] is not None
        },
        counted={str(name): float(share) for name, share in told["counted"].items()},
    )
