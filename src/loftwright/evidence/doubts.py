"""Doubts of the model that a fitter should see."""

from loftwright.evidence.column_doubts import calculated_columns
from loftwright.evidence.visit import Setup

_WORDS = {
    "head_speed": "head speed",
    "attack": "attack angle",
    "path": "club path",
    "face": "face angle",
    "face_to_path": "face to path",
}


def visit_warnings(setup: Setup) -> tuple[str, ...]:
    """Return the doubts of a visit, each naming its place."""
    balls = setup.balls
    strayed: dict[int, list[str]] = {}
    for one in setup.gated:
        strayed.setdefault(int(balls.row[one.ball]), []).append(_WORDS[one.column])
    found = [_far_outside(row, strayed[row]) for row in sorted(strayed)]
    found += [
        f"a set of marks (rows {_rows(setup, name)}) is too large for its orders to be kept "
        "apart; its balls count as not marked"
        for name in setup.sets_too_large
    ]
    found += [one.say for one in calculated_columns(balls)]
    return tuple(found)


def _far_outside(row: int, names: list[str]) -> str:
    if len(names) == 1:
        return (
            f"row {row}: {names[0]} lies far outside the rest of the visit and counts as not "
            "measured"
        )
    listed = f"{', '.join(names[:-1])} and {names[-1]}"
    return f"row {row}: {listed} lie far outside the rest of the visit and count as not measured"


def _rows(setup: Setup, name: int) -> str:
    rows = setup.balls.row[setup.balls.mark_set == name]
    return f"{rows.min()} to {rows.max()}"
