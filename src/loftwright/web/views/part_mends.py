"""What can be done about a part that differs, as its page offers it."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from loftwright.domain.order import ClubSpec
from loftwright.domain.parts_acts import Matter, Part, Settled
from loftwright.domain.verdict import Fit
from loftwright.report.parts_words import (
    COMPUTED,
    NO_DELIVERY,
    add_words,
    effect_words,
    left_words,
    turn_words,
    weight_words,
)
from loftwright.report.screen_numbers import Show
from loftwright.services.parts import HeadMends, PartsNow
from loftwright.workshop.left_over import effect
from loftwright.workshop.mends import Turn
from loftwright.workshop.parts import PartNow, State, matter_of

_MATTERS: Final = {Matter.MASS: "Its weight", Matter.ANGLES: "Its angles", Matter.WHOLE: "It"}
_OPEN: Final = frozenset({Fit.OUT, Fit.CANNOT_TELL})


@dataclass(frozen=True, slots=True, kw_only=True)
class MendRow:
    """One thing that can be done.

    Attributes
    ----------
    value : str
        As the form sends it.
    words : str
    sub : str
        What it leaves over does to the ball.
    """

    value: str
    words: str
    sub: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class MatterView:
    """What can be done about one matter of a part; the first is taken unless another is."""

    name: str
    words: str
    rows: tuple[MendRow, ...]
    usual: str


def matters_of(now: PartsNow, spec: ClubSpec, part: PartNow, show: Show) -> Iterator[MatterView]:
    """Yield what can be done about a part, one choice a matter."""
    if part.came is None or part.state is State.BACK:
        return
    if part.state is State.WRONG:
        yield _choice(Matter.WHOLE, [_send_back()])
        return
    off = {matter_of(part.part, one.figure) for one in part.held if one.fit in _OPEN}
    for matter in Matter:
        if matter not in off:
            continue
        rows = [MendRow(value=Settled.KEEP.value, words="Keep it as it is"), _send_back()]
        if part.part is Part.HEAD and now.mends is not None:
            if matter is Matter.MASS:
                found = _of_weight(now.mends, show)
            else:
                found = _of_angles(now, spec, now.mends, show)
            rows = [*found, _send_back()]
        yield _choice(matter, rows)


def _choice(matter: Matter, rows: list[MendRow]) -> MatterView:
    return MatterView(name=matter.value, words=_MATTERS[matter], rows=tuple(rows), usual="")


def _send_back() -> MendRow:
    return MendRow(value=Settled.SEND_BACK.value, words="Send it back; another is awaited")


def _of_weight(mends: HeadMends, show: Show) -> list[MendRow]:
    weight = mends.weight
    if weight is None:
        return []
    keep = MendRow(
        value=Settled.KEEP.value, words=f"Keep it: {weight_words(weight, show)}", sub=COMPUTED
    )
    if weight.add <= 0.0:
        return [keep]
    return [MendRow(value=Settled.HEAD_WEIGHT.value, words=add_words(weight, show)), keep]


def _of_angles(now: PartsNow, spec: ClubSpec, mends: HeadMends, show: Show) -> list[MendRow]:
    rows = []
    for turn in mends.turns:
        words = turn_words(turn, now.convention, show)
        left = _left_over(now, spec, turn, show)
        if turn.ordered:
            at = f" at {turn.setting}" if turn.setting else ""
            rows.append(MendRow(value=Settled.KEEP.value, words=f"Keep it{at}: {words}", sub=left))
        else:
            value = f"{Settled.TURN_SLEEVE.value}:{turn.setting}"
            rows.append(
                MendRow(value=value, words=f"Turn the sleeve to {turn.setting}: {words}", sub=left)
            )
    return [*rows[1:], *rows[:1]] or [MendRow(value=Settled.KEEP.value, words="Keep it as it is")]


def _left_over(now: PartsNow, spec: ClubSpec, turn: Turn, show: Show) -> str:
    if left_words(turn.apart, now.convention, show) == "as tested":
        return ""
    if now.delivery is None:
        return NO_DELIVERY
    found = effect(now.delivery, turn.apart.loft, turn.apart.face)
    return f"Left over: {effect_words(found, spec.hand, show)}."
