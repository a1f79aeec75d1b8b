"""What was learned of a simulated shop, set against what is true of it."""

from collections.abc import Mapping
from typing import Any, Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import MILLIMETRE
from loftwright.evidence.scales import LAUNCH_SCALE
from loftwright.evidence.slopes import slopes_at
from loftwright.physics.heads import REFERENCE_HEAD
from loftwright.shop.columns import FEATURES, RESPONSES
from loftwright.shop.learned import ShopLearned
from loftwright.shop.levels import LEVELS, Effects
from loftwright.training.golfer import (
    ABILITIES,
    ATTACK,
    FACE,
    HEAD_SPEED,
    HIGH,
    LOFT,
    LOFT_WITH_ATTACK,
    PATH,
    SWING_UNITS,
    TOE,
)
from loftwright.training.linear import BENDS, LAUNCH_UNITS, SLOPE_BETWEEN, SLOPES
from loftwright.training.shop_catalogue import SHAFT_LEVELS
from loftwright.training.shop_world import Shop

_TEN: Final = 10.0 * MILLIMETRE
_SWING_UNITS: Final = np.append(SWING_UNITS[[HEAD_SPEED, ATTACK, FACE, FACE]], [_TEN, _TEN])
_NORMAL: Final = {80: 1.2815515655446004, 95: 1.959963984540054}


def same_swing_way(shop: Shop) -> FloatArray:
    """Return what a shift of each swing column does to launch from the same swing.

    Parameters
    ----------
    shop : Shop

    Returns
    -------
    FloatArray, shape (5, 7)
        In units of the sums; in the linear bay, where clubs act on launch, shape (5, 5).

    Notes
    -----
    With delivery and strike measured only dynamic loft is left, less what goes with attack; its
    slopes are the mean of the shop's golfers.
    """
    if shop.kind.linear:
        return np.asarray(np.diag(LAUNCH_UNITS / LAUNCH_SCALE))
    way = np.zeros((5, 7))
    for ability, share in shop.kind.golfers.items():
        kind = ABILITIES[ability]
        loft = slopes_at(kind.mean[:5], REFERENCE_HEAD).parts[:, 4] / SWING_UNITS[LOFT]
        way[:, LOFT] += share * loft
        way[:, ATTACK] -= share * loft * LOFT_WITH_ATTACK * kind.sd[LOFT] / kind.sd[ATTACK]
    return way


def swing_way(shop: Shop) -> FloatArray:
    """Return what shifts are in the columns that are learned of a swing.

    Parameters
    ----------
    shop : Shop

    Returns
    -------
    FloatArray, shape (6, 7)
        In units of the sums; nought in the linear bay, shape (6, 5).
    """
    if shop.kind.linear:
        return np.zeros((6, 5))
    way = np.zeros((6, 7))
    for row, column in enumerate((HEAD_SPEED, ATTACK, FACE, FACE, TOE, HIGH)):
        way[row, column] = 1.0
    way[2, PATH] = -1.0
    return np.asarray(way / _SWING_UNITS[:, None])


def against_truth(shop: Shop, learned: ShopLearned) -> dict[str, Any]:
    """Return what was learned beside what is true, as JSON holds it.

    Parameters
    ----------
    shop : Shop
    learned : ShopLearned

    Returns
    -------
    dict
        ``clubs`` and ``levels``: standard deviations, truth and learned, by stage; ``members``:
        by stage and level, how many figures there are, how many ranges hold the truth, and root
        mean squares of truth and error; ``offsets``: differences of devices and bays;
        ``slopes``: those of the linear bay, where they are known.
    """
    stages = {
        "launch": (same_swing_way(shop), learned.launch.clubs, learned.effects),
        "swing": (swing_way(shop), learned.swing.clubs, learned.swing_effects),
    }
    return {
        "clubs": {
            name: {
                "truth": _sd(way, shop.catalogue.own_sd).tolist(),
                "learned": np.sqrt(np.diag(between)).tolist(),
            }
            for name, (way, between, _) in stages.items()
        },
        "levels": {
            name: _levels(shop, way, effects) for name, (way, _, effects) in stages.items()
        },
        "members": {
            name: _members(shop, way, effects) for name, (way, _, effects) in stages.items()
        },
        "offsets": _offsets(shop, learned),
        "slopes": _slopes(learned) if shop.kind.linear else [],
    }


def _sd(way: FloatArray, spread: FloatArray) -> FloatArray:
    return np.asarray(np.sqrt((way * spread) ** 2 @ np.ones(len(spread))))


def _levels(shop: Shop, way: FloatArray, effects: Effects) -> dict[str, Any]:
    """Return how much things of each level differ, in truth and as learned."""
    whole = shop.catalogue.own_sd / np.sqrt(1.0 - sum(shop.kind.shares.values()))
    return {
        level: {
            "truth": (np.sqrt(shop.kind.shares[level]) * _sd(way, whole)).tolist(),
            "learned": np.sqrt(effects.variances[LEVELS.index(level)]).tolist(),
        }
        for level in SHAFT_LEVELS
    }


def _members(shop: Shop, way: FloatArray, effects: Effects) -> dict[str, Any]:
    """Return how often the ranges of what members do hold the truth."""
    found: dict[str, list[FloatArray]] = {level: [] for level in SHAFT_LEVELS}
    for place, (level, name) in enumerate(effects.members):
        if level in found:
            truth = way @ shop.catalogue.does[level, name]
            sd = np.sqrt(np.diag(effects.covariance[place, :, place, :]))
            found[level].append(np.array([truth, effects.means[place], sd]))
    return {level: _coverage(np.array(rows)) for level, rows in found.items() if rows}


def _coverage(rows: FloatArray) -> Mapping[str, Any]:
    """Return coverage of figures, shape (n, 3, R) of truth, mean and sd, by response."""
    truth, mean, sd = rows[:, 0], rows[:, 1], rows[:, 2]
    held = {
        f"in_{level}": (np.abs(mean - truth) <= wide * sd).sum(axis=0).tolist()
        for level, wide in _NORMAL.items()
    }
    return {
        "figures": len(rows),
        **held,
        "truth_rms": np.sqrt((truth**2).mean(axis=0)).tolist(),
        "error_rms": np.sqrt(((mean - truth) ** 2).mean(axis=0)).tolist(),
        "said_rms": np.sqrt((sd**2).mean(axis=0)).tolist(),
    }


def _offsets(shop: Shop, learned: ShopLearned) -> list[dict[str, Any]]:
    """Return differences between devices and between bays: only these can be told."""
    units = np.array([one.unit for one in RESPONSES])
    true = {"device": shop.devices, "bay": shop.bays}
    found = []
    for place, one in enumerate(learned.offsets):
        for other in learned.offsets[:place]:
            if one.kind == other.kind:
                truth = (true[one.kind][one.name] - true[one.kind][other.name]) / units
                found.append(
                    {
                        "kind": one.kind,
                        "truth": truth.tolist(),
                        "learned": (one.mean - other.mean).tolist(),
                        "sd": np.sqrt(one.sd**2 + other.sd**2).tolist(),
                    }
                )
    return found


def _slopes(learned: ShopLearned) -> list[dict[str, Any]]:
    """Return the slopes of the linear bay that are not nought, in units of the sums."""
    scale = (LAUNCH_UNITS / LAUNCH_SCALE)[:, None]
    true = np.hstack([SLOPES[:, :2], BENDS, SLOPES[:, 2:]]) * scale
    names = FEATURES[1 : 1 + true.shape[1]]
    found = (learned.physics + learned.launch.slopes)[1 : 1 + len(names)].T
    spread = np.diagonal(learned.launch.spread, axis1=1, axis2=2)[:, 1 : 1 + len(names)]
    return [
        {
            "name": f"{RESPONSES[response].column} on {names[feature].replace('_', ' ')}",
            "truth": float(true[response, feature]),
            "learned": float(found[response, feature]),
            "error": float(np.sqrt(spread[response, feature] / learned.fittings)),
            "true_sd": float(SLOPE_BETWEEN * abs(true[response, feature])),
            "learned_sd": float(np.sqrt(spread[response, feature])),
        }
        for response, feature in zip(*np.nonzero(true), strict=True)
    ]
