"""The JSON records: one place for keys, units and what may not be said (`null`).

Keys carry trade units whatever else is shown. Figures of a decision are given in full, so that
parts sum to their difference and another program can work on.
"""

from collections.abc import Mapping, Sequence
from math import isfinite
from typing import Final, TypeAlias

from loftwright.constants import (
    DEGREE,
    FOOT,
    MILE_PER_HOUR,
    REVOLUTION_PER_MINUTE,
    YARD,
)
from loftwright.domain.home import Home
from loftwright.domain.shot import ShotTable
from loftwright.evidence.advice import advise
from loftwright.evidence.result import (
    ClubResult,
    Decision,
    Estimate,
    Figures,
    Level,
    Pair,
    Parts,
    State,
)
from loftwright.report.belief_words import believed_record
from loftwright.report.claim_words import told_claims
from loftwright.report.could_show import could_show, could_show_record
from loftwright.report.screen_numbers import TRADE, Show
from loftwright.report.wording import objection, sentence

Record: TypeAlias = dict[str, object]

FIGURE_KEYS: Final[Mapping[str, tuple[str, float]]] = {
    "ball_speed_mph": ("ball_speed", MILE_PER_HOUR),
    "launch_deg": ("launch", DEGREE),
    "direction_deg": ("direction", DEGREE),
    "spin_rpm": ("spin", REVOLUTION_PER_MINUTE),
    "axis_deg": ("axis", DEGREE),
    "carry_yd": ("carry", YARD),
    "total_yd": ("total", YARD),
    "offline_yd": ("offline", YARD),
}
"""Key of a figure, the field it comes from and the size of its unit."""

_LEVEL_KEYS: Final[Mapping[str, tuple[str, float]]] = {
    **FIGURE_KEYS,
    "start_offline_yd": ("start_offline", YARD),
    "curve_yd": ("curve", YARD),
    "peak_height_yd": ("peak_height", YARD),
    "landing_angle_deg": ("landing_angle", DEGREE),
    "fairways_in_14": ("fairways_in_14", 1.0),
    "strokes_per_round": ("strokes_per_round", 1.0),
    "aim_yd": ("aim", YARD),
}
_PARTS: Final = ("odd_balls", "strike", "swing", "warm_up", "club", "left_over")
_NOT_READ: Final = "hit, but not read by the device; it counts in the order of play only"


def number(value: float | None, unit: float = 1.0) -> float | None:
    """Return a value in a unit, or None where it does not exist.

    Parameters
    ----------
    value : float, optional
        In SI.
    unit : float
        Size of the unit in SI.
    """
    if value is None or not isfinite(value):
        return None
    return value / unit


def rounded(value: float | None, unit: float = 1.0) -> float | None:
    """Return a value in a unit without the noise of the last binary digits."""
    plain = number(value, unit)
    return None if plain is None else round(plain, 9)


def decision_record(decision: Decision, table: ShotTable, show: Show = TRADE) -> Record:
    """Return what `read` says of a fitting, whole.

    Parameters
    ----------
    decision : Decision
    table : ShotTable
        The balls it came from.
    show : Show
        What its sentences speak in; its figures are in the unit of their key.

    Returns
    -------
    dict
        Plain values, ready for JSON; `null` where a figure may not be said.
    """
    advice = advise(decision)
    return {
        "sentence": sentence(decision, show),
        "objection": objection(decision, show),
        "advice": str(advice.call),
        "state": str(decision.state),
        "ranked_on": str(decision.ranked_on),
        "against": str(decision.against),
        "own": decision.own,
        "clubs": [_club(club, decision.state) for club in decision.clubs],
        "pairs": [_pair(pair) for pair in decision.pairs],
        "odd_balls": [
            {"row": ball.row, "weight": number(ball.weight), "why": ball.why}
            for ball in decision.odd_balls
        ],
        "next_club": decision.next_club.club if decision.next_club else None,
        "next_why": decision.next_club.why if decision.next_club else None,
        "next_gain_yd": number(decision.next_club.gain, YARD) if decision.next_club else None,
        "regret_yd": number(decision.regret, YARD),
        "p_leader_near_best": number(decision.p_leader_near_best),
        "believed": believed_record(decision.believed),
        "pattern": _pattern(decision),
        "home": home_record(decision.home),
        **_table(decision, table),
        "claims": [
            {"say": claim.say, "may": claim.may, "why": claim.why}
            for claim in told_claims(decision.claims, show)
        ],
        "could_show": could_show_record(could_show(decision, table)),
        "warnings": list(dict.fromkeys((*table.warnings, *decision.warnings))),
    }


def home_record(home: Home) -> Record:
    """Return a home with the keys of a home file."""
    return {
        "name": home.name,
        "altitude_ft": rounded(home.altitude / FOOT),
        "temperature_f": rounded((home.temperature - 273.15) * 9.0 / 5.0 + 32.0),
        "humidity_percent": rounded(100.0 * home.humidity),
        "turf": str(home.turf),
        "wind_along_mph": rounded(home.wind_along / MILE_PER_HOUR),
        "wind_across_mph": rounded(home.wind_across / MILE_PER_HOUR),
        "re_aim": home.re_aim,
        "holes": [
            {
                "length_yd": rounded(hole.length / YARD),
                "fairway_yd": rounded(hole.fairway / YARD),
                "trouble": str(hole.trouble),
                "trouble_from_yd": rounded(hole.trouble_from / YARD),
                "trouble_lie": str(hole.trouble_lie),
            }
            for hole in home.holes
        ],
    }


def row_counts(decision: Decision, table: ShotTable) -> Record:
    """Return what became of the rows of a file; used, odd, refused and duplicate add up."""
    unread = sum(not shot.read for shot in table.shots)
    odd = len(decision.odd_balls)
    return {
        "read": table.read,
        "used": len(table.shots) - unread - odd,
        "odd": odd,
        "refused": len(table.refused) + unread,
        "duplicate": len(table.duplicates),
    }


def refused_rows(table: ShotTable) -> list[Record]:
    """Return every row that is no ball of the comparison, with the reason."""
    rows = [(refusal.row, refusal.why) for refusal in table.refused]
    rows += [(shot.row, _NOT_READ) for shot in table.shots if not shot.read]
    return [{"row": row, "why": why} for row, why in sorted(rows)]


def _table(decision: Decision, table: ShotTable) -> Record:
    return {
        "rows": row_counts(decision, table),
        "refused_rows": refused_rows(table),
        "duplicate_rows": [{"row": row.row, "of": row.of} for row in table.duplicates],
        "columns": [
            {
                "column": column.column or None,
                "means": column.means,
                "unit": column.unit or None,
                "origin": str(column.origin),
                "from": column.source,
            }
            for column in table.columns
        ],
    }


def _club(club: ClubResult, state: State) -> Record:
    low, high = _ends(club.value, YARD)
    return {
        "club": club.club,
        "balls": club.balls,
        "value_yd": number(club.value.mean if club.value else None, YARD),
        "value_sd_yd": number(club.value.sd if club.value else None, YARD),
        "value_low95_yd": low,
        "value_high95_yd": high,
        "p_best": None if state is State.TOO_FEW else number(club.p_best),
        "as_you_swing_it": _figures(club.as_you_swing_it),
        "from_the_same_swing": _figures(club.from_the_same_swing),
        "level": _level(club.level),
        "plain_total_yd": number(club.plain_total, YARD),
        "physics_share": number(club.physics_share),
        "device_ball_speed_mph": _estimate(club.device_ball_speed, MILE_PER_HOUR),
        "device_carry_yd": _estimate(club.device_carry, YARD),
    }


def _figures(figures: Figures | None) -> Record | None:
    if figures is None:
        return None
    return {
        key: _estimate(getattr(figures, field), unit) for key, (field, unit) in FIGURE_KEYS.items()
    }


def _level(level: Level | None) -> Record | None:
    if level is None:
        return None
    return {key: number(getattr(level, field), unit) for key, (field, unit) in _LEVEL_KEYS.items()}


def _estimate(estimate: Estimate | None, unit: float) -> Record | None:
    if estimate is None or not isfinite(estimate.mean):
        return None
    low, high = _ends(estimate, unit)
    return {"mean": estimate.mean / unit, "low95": low, "high95": high}


def _ends(estimate: Estimate | None, unit: float) -> tuple[float | None, float | None]:
    if estimate is None:
        return None, None
    low, high = estimate.interval(0.95)
    return number(low, unit), number(high, unit)


def _pair(pair: Pair) -> Record:
    return {
        "a": pair.a,
        "b": pair.b,
        "p_a_better": number(pair.p_a_better),
        "raw_total_yd": number(pair.raw_total, YARD),
        "parts": _parts(pair.parts),
    }


def _parts(parts: Parts | None) -> Record | None:
    if parts is None:
        return None
    return {name: number(getattr(parts, name), YARD) for name in _PARTS}


def _pattern(decision: Decision) -> Record | None:
    if decision.pattern is None:
        return None
    return {
        "total_sd_yd": number(decision.pattern.total, YARD),
        "offline_sd_yd": number(decision.pattern.offline, YARD),
    }


def strict(record: object) -> object:
    """Return a record with every figure that is no number turned into `None`.

    Parameters
    ----------
    record : object
        Mappings, sequences and plain values.

    Returns
    -------
    object
        The same, fit for JSON that any reader takes.
    """
    if isinstance(record, float):
        return record if isfinite(record) else None
    if isinstance(record, Mapping):
        return {str(key): strict(value) for key, value in record.items()}
    if isinstance(record, Sequence) and not isinstance(record, str):
        return [strict(value) for value in record]
    return record
