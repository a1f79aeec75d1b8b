"""Doubts of the model that a fitter should see."""

from loftwright.evidence.visit import Visit

_WORDS = {
    "head_speed": "head speed",
    "attack": "attack angle",
    "path": "club path",
    "face": "face angle",
    "face_to_path": "face to path",
}


def visit_warnings(visit: Visit) -> tuple[str, ...]:
    """Return the doubts of a visit, each naming its place."""
    balls = visit.balls
    found = [
        f"row {balls.row[one.ball]}: {_WORDS[one.column]} lies far outside the rest of the visit "
        "and counts as not measured"
        for one in visit.gated
    ]
    found += [
        f"a set of marks (rows {_rows(visit, name)}) is too large for its orders to be kept "
        "apart; its balls count as not marked"
        for name in visit.sets_too_large
    ]
    return tuple(found)


def _rows(visit: Visit, name: int) -> str:
    rows = visit.balls.row[visit.balls.mark_set == name]
    return f"{rows.min()} to {rows.max()}"
