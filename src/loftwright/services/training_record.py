"""A called case as a record with keys that carry their units."""

from loftwright.constants import MILE_PER_HOUR, YARD
from loftwright.report.records import Record, rounded
from loftwright.services.training_debrief import LookBack
from loftwright.training.case_files import SWING_KEYS
from loftwright.training.debrief import Moment, TrueClub, strokes_a_round
from loftwright.training.golfer import SWING_UNITS


def debrief_record(back: LookBack) -> Record:
    """Return a called case with keys that carry their units."""
    found, end = back.debrief, back.debrief.end
    return {
        "case": back.case.name,
        "seed": back.seed,
        "call": found.call,
        "kept": found.kept,
        "best": found.best,
        "alike": list(found.alike),
        "cost_yd": rounded(found.cost, YARD),
        "cost_strokes_per_round": round(strokes_a_round(found.cost), 3),
        "balls": found.balls,
        "plain_averages": {
            "pick": end.plain_pick if end else None,
            "cost_yd": rounded(found.plain_cost, YARD),
        },
        "comparison": {
            "pick": end.pick if end else None,
            "p_best": end.chances[end.pick] if end and end.pick else None,
            "state": str(end.state) if end else None,
            "cost_yd": rounded(found.tool_cost, YARD),
        },
        "clubs": [_club(one, back) for one in found.clubs],
        "moments": [_moment(one) for one in found.moments],
        "without": [
            {
                "club": one.club,
                "balls": list(one.balls),
                "plain_pick": one.plain_pick,
                "comparison_pick": one.pick,
            }
            for one in found.without
        ],
        "not_read": back.dropped,
        "said_not_read": back.noted,
        "marks_waiting": back.waiting,
        "lesson": " ".join(back.case.lesson.split()),
    }


def _club(one: TrueClub, back: LookBack) -> Record:
    end = back.debrief.end
    return {
        "club": one.club,
        "shaft": one.shaft,
        "value_yd": rounded(one.value, YARD),
        "carry_yd": rounded(one.carry, YARD),
        "total_yd": rounded(one.total, YARD),
        "offline_yd": rounded(one.offline, YARD),
        "does": {
            key: rounded(value, unit)
            for key, value, unit in zip(SWING_KEYS, one.does, SWING_UNITS.tolist(), strict=True)
        },
        "head_speed_lacked_mph": rounded(back.cold.get(one.club), MILE_PER_HOUR),
        "plain_total_yd": rounded(end.plain.get(one.club), YARD) if end else None,
    }


def _moment(one: Moment) -> Record:
    return {
        "first": one.snapshot.first,
        "last": one.snapshot.last,
        "hit_with": one.snapshot.club,
        "club": one.club,
        "p_best_before": one.before.chances[one.club],
        "p_best_after": one.snapshot.chances[one.club],
        "leader_before": one.before.pick,
        "leader_after": one.snapshot.pick,
    }
