"""Rows of a choice for clubs that were not hit, with what is told of them."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from loftwright.domain.names import OWN
from loftwright.evidence.neighbours import CONFIRMING_BALLS
from loftwright.services.unhit import Beside, Made, Unhit
from loftwright.services.ways_on import ChoiceRow, Way

_WAYS: Final = {Made.SLEEVE: Way.TURN_SLEEVE, Made.NEW_SHAFT: Way.NEW_SHAFT}


def with_told(rows: list[ChoiceRow], beside: Beside) -> list[ChoiceRow]:
    """Return rows of what was not hit with what is told of it, the own club's first."""
    own = [one for one in beside.unhit if one.club == OWN]
    turned = [one for one in own if one.made is Made.SLEEVE]
    new = {one.label: one for one in own if one.made is Made.NEW_SHAFT}
    found = []
    for row in rows:
        if row.way is Way.TURN_SLEEVE and turned:
            found += [replace(_row_of(one, beside), way=Way.TURN_SLEEVE) for one in turned]
        elif row.way is Way.NEW_SHAFT and row.label in new:
            told = _row_of(new[row.label], beside)
            found.append(replace(told, reason=f"{row.reason}; {told.reason}"))
        else:
            found.append(row)
    listed = {row.label for row in found}
    rest = [one for one in beside.unhit if one.label not in listed]
    return [*found, *(_row_of(one, beside) for one in rest if one.made is not Made.NEW_SHAFT)]


def _row_of(unhit: Unhit, beside: Beside) -> ChoiceRow:
    result = beside.results.get(unhit.label)
    of_own = unhit.club == OWN
    return ChoiceRow(
        label=unhit.label,
        club=unhit.club,
        way=_WAYS.get(unhit.made, Way.NOT_HIT) if of_own else Way.NOT_HIT,
        set_up=None,
        result=result,
        price=unhit.price,
        reason=unhit.reason if result is None else f"not hit: {unhit.reason}",
        run=beside.runs.get(unhit.label),
        p_above_leader=beside.above_leader.get(unhit.label),
        on_leader=beside.on_leader.get(unhit.label),
        balls_first=CONFIRMING_BALLS,
    )


def to_confirm(rows: Sequence[ChoiceRow], beside: Beside | None) -> ChoiceRow | None:
    """Return the row of the club that should be hit before anything is decided."""
    wanted = None if beside is None else beside.put_forward
    return next((row for row in rows if wanted is not None and row.label == wanted), None)
