"""What can be done about a part that differs, as its page offers it."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from loftwright.constants import DEGREE
from loftwright.domain.order import ClubSpec
from loftwright.domain.parts_acts import Matter, Part, Settled
from loftwright.domain.verdict import Fit
from loftwright.report.parts_words import (
    COMPUTED,
    HELD_WORDS,
    LEFT_WORDS,
    NO_DELIVERY,
    add_words,
    effect_words,
    left_fit,
    left_words,
    points_words,
    turn_words,
    weight_words,
)
from loftwright.report.screen_numbers import Show
from loftwright.services.parts import HeadMends, PartsNow
from loftwright.web.views.sleeve_words import LEAN_DIRECTIONS
from loftwright.workshop.held import Figure
from loftwright.workshop.left_over import effect
from loftwright.workshop.mends import Turn, shaft_points
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
    """What can be done about one matter of a part, besides sending it back.

    Attributes
    ----------
    added : str
        What a light head lacks, as the form holds it; empty where nothing is added.
    """

    name: str
    words: str
    rows: tuple[MendRow, ...]
    added: str = ""


def matters_of(now: PartsNow, spec: ClubSpec, part: PartNow, show: Show) -> Iterator[MatterView]:
    """Yield what can be done about a part, one choice a matter.

    Nothing but to send it back is left of one that is not what was ordered.
    """
    if part.came is None or part.state in {State.BACK, State.WRONG}:
        return
    off = {matter_of(part.part, one.figure) for one in part.held if one.fit in _OPEN}
    for matter in Matter:
        if matter not in off:
            continue
        if now.mends is None or part.part is not Part.HEAD:
            rows = [_keep(spec, part, show)]
        elif matter is Matter.MASS:
            rows = _of_weight(now.mends, show)
        else:
            rows = _of_angles(now, spec, now.mends, show)
        lacks = now.mends.weight if matter is Matter.MASS and now.mends is not None else None
        yield MatterView(
            name=matter.value,
            words=_MATTERS[matter],
            rows=tuple(rows),
            added=show.typed("mass", round(lacks.add, 4)) if lacks and lacks.add > 0.0 else "",
        )


def turn_note(now: PartsNow, spec: ClubSpec) -> str:
    """Return what can be said of turning the sleeve under a head whose angles differ."""
    mends = now.mends
    if mends is None or not spec.settings:
        return "The hosel is glued: no setting makes it good."
    if not mends.turns:
        return "Measure loft, lie and face: then the settings that come nearest are told."
    if not mends.turnable:
        return (
            "Nobody measured what the settings of this sleeve turn: write their bore into the "
            "rack, and they can be told."
        )
    convention = (
        f"Told under convention {now.convention}, {HELD_WORDS[now.convention]}. Glue the sleeve "
        "on for the setting that is chosen: print and a ribbed grip turn with it."
    )
    if len(mends.turns) == 1:
        return f"No setting of this sleeve comes nearer than {spec.setting}. {convention}"
    return convention


def _keep(spec: ClubSpec, part: PartNow, show: Show) -> MendRow:
    """Return what it means to keep a part as it is; of a shaft what that does to the balance."""
    keep = MendRow(value=Settled.KEEP.value, words="Keep it as it is")
    mass, balance = part.line(Figure.MASS), part.line(Figure.BALANCE)
    target = None if mass is None else mass.target
    if part.part is not Part.SHAFT or mass is None or mass.apart is None or target is None:
        return keep
    further = 0.0 if balance is None or balance.apart is None else balance.apart
    points = shaft_points(target.value, mass.apart, further, spec.length)
    return MendRow(
        value=keep.value, words=f"Keep it: {points_words(points, show)}", sub=_capital(COMPUTED)
    )


def _of_weight(mends: HeadMends, show: Show) -> list[MendRow]:
    weight = mends.weight
    if weight is None:
        return []
    keep = MendRow(
        value=Settled.KEEP.value,
        words=f"Keep it: {weight_words(weight, show)}",
        sub=_capital(COMPUTED),
    )
    if weight.add <= 0.0:
        return [keep]
    return [MendRow(value=Settled.HEAD_WEIGHT.value, words=add_words(weight, show)), keep]


def _of_angles(now: PartsNow, spec: ClubSpec, mends: HeadMends, show: Show) -> list[MendRow]:
    rows = []
    for turn in mends.turns:
        words = turn_words(turn, now.convention, show)
        left = f"{LEFT_WORDS[left_fit(turn)]} {_left_over(now, spec, turn, show)}".rstrip()
        if turn.ordered:
            at = f" at {turn.setting}" if turn.setting else ""
            rows.append(MendRow(value=Settled.KEEP.value, words=f"Keep it{at}: {words}", sub=left))
        else:
            value = f"{Settled.TURN_SLEEVE.value}:{turn.setting}"
            lean = lean_words(spec, turn.setting, show)
            words = f"Turn the sleeve to {turn.setting}{lean}: {words}"
            rows.append(MendRow(value=value, words=words, sub=left))
    if not rows:
        return [MendRow(value=Settled.KEEP.value, words="Keep it as it is")]
    return [*rows[1:], rows[0]]


def lean_words(spec: ClubSpec, setting: str, show: Show) -> str:
    """Return how a setting tilts the shaft, in brackets; empty where it does not."""
    found = next((one for one in spec.settings if one.name == setting), None)
    if found is None or found.bore == 0.0:
        return ""
    quarters = {angle: words for words, angle in LEAN_DIRECTIONS.items()}
    azimuth = round(found.azimuth / DEGREE, 6) % 360.0
    where = quarters.get(azimuth, f"at {show.number(azimuth)}° from the target")
    return f" (grip end {show.number(found.bore / DEGREE, 2)}° {where})"


def _left_over(now: PartsNow, spec: ClubSpec, turn: Turn, show: Show) -> str:
    if left_words(turn.apart, now.convention, show) == "as tested":
        return ""
    if now.delivery is None:
        return NO_DELIVERY
    found = effect(now.delivery, turn.apart.loft, turn.apart.face)
    return f"To the ball: {effect_words(found, spec.hand, show)}."


def _capital(text: str) -> str:
    return f"{text[0].upper()}{text[1:]}."
