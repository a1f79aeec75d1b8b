"""What a shop has learned, in words and figures for the command line."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import DEGREE, MILE_PER_HOUR, MILLIMETRE, REVOLUTION_PER_MINUTE
from loftwright.domain.rack import Rack
from loftwright.errors import NotFoundError
from loftwright.report.numbers import count, fixed, percent, signed
from loftwright.services.shop_names import LEVEL_WORDS, member
from loftwright.shop.columns import RESPONSES, SWING_RESPONSES
from loftwright.shop.learned import Offset, ShopLearned
from loftwright.shop.levels import Effects

Z80: Final = 1.2815515655446004
"""Standard deviations to either side of the middle that hold 80 % of a normal distribution."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """A number that things do something to, as people read it.

    Attributes
    ----------
    key : str
        Of JSON.
    name, unit : str
    factor : float
        From units of the sums to the unit shown.
    digits : int
    """

    key: str
    name: str
    unit: str
    factor: float
    digits: int


_UNITS: Final = {
    "ball_speed": ("mph", MILE_PER_HOUR, 1),
    "launch": ("deg", DEGREE, 1),
    "spin": ("rpm", REVOLUTION_PER_MINUTE, 0),
    "axis": ("deg", DEGREE, 1),
    "direction": ("deg", DEGREE, 1),
    "head_speed": ("mph", MILE_PER_HOUR, 1),
    "attack": ("deg", DEGREE, 1),
    "face_to_path": ("deg", DEGREE, 1),
    "face": ("deg", DEGREE, 1),
    "toe": ("mm", MILLIMETRE, 1),
    "high": ("mm", MILLIMETRE, 1),
}


def _shown(column: str, unit: float) -> Shown:
    name, size, digits = _UNITS[column]
    return Shown(
        key=f"{column}_{name}",
        name=column.replace("_", " "),
        unit=name,
        factor=unit / size,
        digits=digits,
    )


LAUNCH: Final = tuple(_shown(one.column, one.unit) for one in RESPONSES)
SWING: Final = tuple(_shown(one.column.removesuffix("_mark"), one.unit) for one in SWING_RESPONSES)
"""What clubs do to launch from the same swing, and what they do to the swing."""


def learned_record(learned: ShopLearned, rack: Rack, item: str = "") -> dict[str, Any]:
    """Return what was learned as one object for scripts.

    Parameters
    ----------
    learned : ShopLearned
    rack : Rack
        Which tells the names of models and samples.
    item : str
        A model, family, generation, sample or head, by name or id; everything without it.

    Raises
    ------
    NotFoundError
        If nothing of that name was hit.
    """
    return {
        "version": learned.version,
        "program": learned.program,
        "made": learned.made.isoformat(),
        "fittings": learned.fittings,
        "golfers": learned.golfers,
        "balls": learned.balls,
        "physics_share": learned.physics_share,
        "effects": _effects(learned.effects, LAUNCH, rack, item),
        "swing_effects": _effects(learned.swing_effects, SWING, rack, item),
        "offsets": [_offset(one) for one in learned.offsets],
        "leverage": [
            {
                "kind": one.kind,
                "name": one.name,
                "level": one.level,
                "member": one.member,
                "response": one.response,
                "standard_errors": one.share,
            }
            for one in learned.leverage
        ],
    }


def learned_lines(learned: ShopLearned, rack: Rack, item: str = "") -> list[str]:
    """Return what was learned for people, with ranges that hold it with 80 %.

    Parameters
    ----------
    learned : ShopLearned
    rack : Rack
    item : str

    Raises
    ------
    NotFoundError
        If nothing of that name was hit.
    """
    told = learned_record(learned, rack, item)
    lines = [
        f"Version {learned.version} of {learned.made.isoformat()} is from "
        f"{count(learned.fittings, 'fitting')} of {count(learned.golfers, 'golfer')} "
        f"({count(learned.balls, 'ball')}); {percent(learned.physics_share)} is still physics.",
        "",
        "From the same swing, against the usual one of its kind (80 % range):",
        *_table(told["effects"], LAUNCH),
        "",
        "To the swing itself (80 % range):",
        *_table(told["swing_effects"], SWING),
    ]
    if told["offsets"] and not item:
        lines += [
            "",
            "Devices and bays against the others (80 % range):",
            *_table(told["offsets"], LAUNCH),
        ]
    return lines


def matching(effects: Effects, rack: Rack, item: str) -> tuple[int, ...]:
    """Return the places of what a name or id means; all of them without one.

    Raises
    ------
    NotFoundError
        If nothing of that name was hit.
    """
    if not item:
        return tuple(range(len(effects.members)))
    asked = item.casefold()
    found = tuple(
        place
        for place, (level, name) in enumerate(effects.members)
        if asked in {name.casefold(), member(rack, level, name).casefold()}
        or (level == "piece" and asked in _model_of(rack, name))
    )
    if not found:
        raise NotFoundError(
            f"nothing of the name {item!r} was learned",
            place="model",
            mend="Leave it out to see everything, and name what stands in the list.",
        )
    return found


def _model_of(rack: Rack, piece: str) -> set[str]:
    """Return id and name of a sample's model, in small letters."""
    found = rack.pieces.get(piece)
    if found is None:
        return set()
    return {found.model.casefold(), member(rack, "model", found.model).casefold()}


def _effects(
    effects: Effects, shown: Sequence[Shown], rack: Rack, item: str
) -> list[dict[str, Any]]:
    places = matching(effects, rack, item) if effects.members else ()
    found = []
    for place in places:
        level, name = effects.members[place]
        sd = np.sqrt(np.diag(effects.covariance[place, :, place, :]))
        found.append(
            {
                "level": level,
                "id": name,
                "name": member(rack, level, name),
                "fittings": effects.fittings.get((level, name), 0),
                **_figures(effects.means[place], sd, shown),
            }
        )
    return found


def _offset(one: Offset) -> dict[str, Any]:
    return {
        "level": one.kind,
        "id": one.name,
        "name": one.name,
        "fittings": one.fittings,
        **_figures(one.mean, one.sd, LAUNCH),
    }


def _figures(mean: FloatArray, sd: FloatArray, shown: Sequence[Shown]) -> dict[str, Any]:
    return {
        one.key: {
            "mean": float(middle * one.factor),
            "low80": float((middle - Z80 * wide) * one.factor),
            "high80": float((middle + Z80 * wide) * one.factor),
        }
        for one, middle, wide in zip(shown, mean, sd, strict=True)
    }


def _table(rows: Sequence[Mapping[str, Any]], shown: Sequence[Shown]) -> list[str]:
    if not rows:
        return ["  nothing was learned yet"]
    heads = ["", "fittings", *(f"{one.name} [{one.unit}]" for one in shown)]
    cells = [
        heads,
        *(
            [
                f"{LEVEL_WORDS.get(row['level'], row['level'])} {row['name']}",
                str(row["fittings"]),
                *(_range(row[one.key], one.digits) for one in shown),
            ]
            for row in rows
        ),
    ]
    widths = [max(len(line[place]) for line in cells) for place in range(len(heads))]
    return [
        "  "
        + "  ".join(cell.ljust(wide) for cell, wide in zip(line, widths, strict=True)).rstrip()
        for line in cells
    ]


def _range(told: Mapping[str, float], digits: int) -> str:
    low, high = fixed(told["low80"], digits), fixed(told["high80"], digits)
    return f"{signed(told['mean'], digits)} ({low} to {high})"
