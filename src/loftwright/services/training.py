"""Deal a virtual golfer's balls into a shot table, and what they hide into a truth file.

The truth is stated as `read` states its findings: the same home, the same zero, the same keys.
Nothing but the shot table passes from here to a reading.
"""

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import MILE_PER_HOUR, MILLIMETRE, YARD
from loftwright.domain.home import Home
from loftwright.domain.names import OWN
from loftwright.evidence.scales import LAUNCH_NAMES
from loftwright.evidence.value import with_holes
from loftwright.intake.files import write_whole
from loftwright.intake.own_table import write_shots
from loftwright.report.records import FIGURE_KEYS, Record, home_record, rounded
from loftwright.training.deal import Deal, DealOptions, deal
from loftwright.training.truth import TrueFigures, true_values

__all__ = ["Deal", "DealOptions", "deal_fitting", "truth_record"]

_FEWEST_BALLS: Final = 2
_LAUNCH_FIELDS: Final = {name: place for place, name in enumerate(LAUNCH_NAMES)}


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Figure:
    """One figure of every club at home: levels, and their value [m]."""

    figures: TrueFigures
    values: FloatArray


def deal_fitting(options: DealOptions, out: Path, truth: Path | None = None) -> Deal:
    """Write the shot table of one virtual visit, and its truth apart from it.

    Parameters
    ----------
    options : DealOptions
    out : Path
        The shot table.
    truth : Path, optional
        The truth file.

    Returns
    -------
    Deal

    Raises
    ------
    InputError
        If the options cannot be dealt.
    IntakeError
        If a file cannot be written.
    """
    dealt = deal(options)
    write_shots(out, dealt.shots)
    if truth is not None:
        text = json.dumps(truth_record(dealt), ensure_ascii=False, allow_nan=False, indent=2)
        write_whole(truth, f"{text}\n".encode())
    return dealt


def truth_record(dealt: Deal) -> Record:
    """Return what a deal hides, with the keys of a truth file.

    Parameters
    ----------
    dealt : Deal

    Returns
    -------
    dict
        Differences to the own club if it has two balls, else to the mean of the clubs.
    """
    truth = dealt.truth
    zero = _zero(dealt)
    figures = truth.figures
    home = with_holes(truth.home, float(zero @ figures.as_you_swing_it.total))
    swung = _at_home(figures.as_you_swing_it, home)
    same = _at_home(figures.from_the_same_swing, home) if figures.from_the_same_swing else None
    best = [truth.clubs[int(np.argmax(one.values))] if one else None for one in (swung, same)]
    return {
        "seed": truth.seed,
        "golfer": {
            "ability": truth.golfer.ability,
            "hand": truth.golfer.hand,
            "head_speed_mph": rounded(float(truth.golfer.mean[0]), MILE_PER_HOUR),
        },
        "home": home_record(home),
        "against": "own" if zero[truth.clubs.index(OWN)] == 1.0 else "mean",
        "clubs": [
            {
                "club": club,
                "as_you_swing_it": _differences(swung, zero, index),
                "from_the_same_swing": _differences(same, zero, index),
                "value_yd": rounded(float(_less(swung.values, zero)[index]), YARD),
            }
            for index, club in enumerate(truth.clubs)
        ],
        "best": {"as_you_swing_it": best[0], "from_the_same_swing": best[1]},
        "balls": [
            {
                "row": ball.row,
                "strike_toe_mm": rounded(ball.strike_toe, MILLIMETRE),
                "strike_high_mm": rounded(ball.strike_high, MILLIMETRE),
                "odd": ball.odd,
                "ghost": ball.ghost,
            }
            for ball in truth.balls
        ],
    }


def _zero(dealt: Deal) -> FloatArray:
    """Return the weights of the clubs in what all are compared with."""
    clubs = dealt.truth.clubs
    balls = {club: sum(shot.club == club for shot in dealt.shots) for club in clubs}
    able = np.array([balls[club] >= _FEWEST_BALLS for club in clubs], dtype=np.float64)
    if balls[OWN] >= _FEWEST_BALLS:
        return np.array([float(club == OWN) for club in clubs])
    return able / able.sum() if able.any() else np.full(len(clubs), 1.0 / len(clubs))


def _at_home(figures: TrueFigures, home: Home) -> _Figure:
    return _Figure(figures=figures, values=true_values(figures, home))


def _less(levels: FloatArray, zero: FloatArray) -> FloatArray:
    difference: FloatArray = levels - zero @ levels
    return difference


def _differences(one: _Figure | None, zero: FloatArray, club: int) -> Record | None:
    if one is None:
        return None
    record: Record = {}
    for key, (field, unit) in FIGURE_KEYS.items():
        place = _LAUNCH_FIELDS.get(field)
        levels = getattr(one.figures, field) if place is None else one.figures.launch[:, place]
        record[key] = rounded(float(_less(levels, zero)[club]), unit)
    return record
