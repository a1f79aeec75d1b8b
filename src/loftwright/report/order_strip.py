"""The balls of a visit in their order, each as its club's shape over a graduated rule."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from html import escape
from itertools import groupby
from typing import Final

from loftwright.report.look import EDGE, INK, INK_2
from loftwright.report.marks import Mark
from loftwright.report.numbers import count, listed
from loftwright.report.picture_parts import club_shape, label, picture, stroke

WIDTH: Final = 776.0
ROW: Final = 40
"""Balls of one row."""

_ENDS = (11.0, 765.0)
_REST = 9.0
_ROW_HEIGHT = 60.0
_LIFT, _BASE, _NUMERALS = 17.0, 31.0, 56.0


class Kind(StrEnum):
    """What became of a swing."""

    READ = "read"
    NOT_READ = "not read"
    NOT_OURS = "not ours"
    WARM_UP = "warm-up"
    WAITING = "waiting for its numbers"


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderBall:
    """One swing of the visit.

    Attributes
    ----------
    club : str
        Empty while no club was in hand.
    shape : Mark, optional
        The club's; None while no club was in hand.
    number : int
        Place among the balls that count, from 1; 0 for one that does not.
    kind : Kind
    odd : bool
        Whether it counts for less.
    rested : bool
        Whether the golfer rested before it.
    """

    club: str
    shape: Mark | None
    number: int
    kind: Kind = Kind.READ
    odd: bool = False
    rested: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class _Slot:
    """A place on the strip: a ball that was hit, or one that is left."""

    x: float
    row: int
    number: int
    ball: OrderBall | None


def order_strip(balls: Sequence[OrderBall], *, left: int = 0, prefix: str = "order") -> str:
    """Draw every ball as its club's shape, and a dot for every ball that is left.

    Parameters
    ----------
    balls : sequence of OrderBall
        In the order of play.
    left : int
        Balls still to be hit.
    prefix : str
        Beginning of the picture's ids.
    """
    slots = _slots(balls, left)
    rows = 1 + max((slot.row for slot in slots), default=0)
    newest = max((ball.number for ball in balls), default=0)
    parts = [part for row in range(rows) for part in _rule(slots, row, newest)]
    parts += [_drawn(slot) for slot in slots]
    height = rows * _ROW_HEIGHT
    key = _key(balls)
    if key:
        parts.append(label(_ENDS[0] - 4.0, height + 18.0, key, soft=True))
        height += 24.0
    title = f"The balls in order: {newest} hit, {left} left"
    return picture(WIDTH, height, parts, title=title, prefix=prefix)


def order_words(balls: Sequence[OrderBall], *, left: int = 0) -> str:
    """Return the order of play in a sentence, balls with the same club together.

    Parameters
    ----------
    balls : sequence of OrderBall
        In the order of play.
    left : int
        Balls still to be hit.
    """
    if not balls:
        return f"No ball yet; {count(left, 'ball')} left."
    runs = [(club or "no club in hand", list(run)) for club, run in groupby(balls, _club)]
    told = [f"{club} {len(run)}{_exceptions(run)}" for club, run in runs]
    return f"In order: {', '.join(told)}; {count(left, 'ball')} left."


def _club(ball: OrderBall) -> str:
    return ball.club


def _exceptions(run: Sequence[OrderBall]) -> str:
    kinds = [ball.kind for ball in run if ball.kind is not Kind.READ]
    told = [f"{kinds.count(kind)} {kind}" for kind in dict.fromkeys(kinds)]
    odd = sum(ball.odd for ball in run)
    told += [f"{odd} odd"] if odd else []
    return f" ({listed(told)})" if told else ""


def _slots(balls: Sequence[OrderBall], left: int) -> list[_Slot]:
    """Give each ball its place; a rest is a gap, and every row is as wide as a full one."""
    newest = max((ball.number for ball in balls), default=0)
    entries: list[tuple[int, OrderBall | None]] = [(ball.number, ball) for ball in balls]
    entries += [(newest + index + 1, None) for index in range(left)]
    slots = []
    for row in range(0, len(entries), ROW):
        here = entries[row : row + ROW]
        rests = [
            ball is not None and ball.rested and index > 0 for index, (_, ball) in enumerate(here)
        ]
        gap = min(_REST, 180.0 / max(1, sum(rests)))
        step = (_ENDS[1] - _ENDS[0] - gap * sum(rests)) / (ROW - 1)
        x = _ENDS[0]
        for index, (number, ball) in enumerate(here):
            x += (step if index else 0.0) + (gap if rests[index] else 0.0)
            slots.append(_Slot(x=x, row=row // ROW, number=number, ball=ball))
    return slots


def _rule(slots: Sequence[_Slot], row: int, newest: int) -> Iterator[str]:
    """Draw the rule of a row: broken where the golfer rested, numerals under tens and ends."""
    here = [slot for slot in slots if slot.row == row]
    base = row * _ROW_HEIGHT + _BASE
    if not here:
        yield stroke(f"M{_ENDS[0]:.1f} {base:.1f}H{_ENDS[1]:.1f}", colour=INK)
        return
    ticks, line = "", f"M{here[0].x:.1f} {base:.1f}"
    for before, slot in zip([None, *here], here, strict=False):
        if before is not None and slot.ball is not None and slot.ball.rested:
            line += f"H{before.x + 4.0:.1f}M{slot.x - 4.0:.1f} {base:.1f}"
        if slot.number:
            ticks += f"M{slot.x:.1f} {base:.1f}v{8 if slot.number % 10 == 0 else 4}"
    yield stroke(ticks)
    yield stroke(f"{line}H{here[-1].x:.1f}", colour=INK)
    last = max(slot.number for slot in slots)
    wanted = [newest, 1, last, *range(10, last, 10)]
    told: list[float] = []
    for number in dict.fromkeys(wanted):
        place = next((slot.x for slot in here if slot.number == number != 0), None)
        if place is not None and all(abs(place - other) > 26.0 for other in told):
            told.append(place)
            y = row * _ROW_HEIGHT + _NUMERALS
            strong = number == newest
            yield label(place, y, f"{number}", anchor="middle", bold=strong, soft=not strong)


def _drawn(slot: _Slot) -> str:
    y = slot.row * _ROW_HEIGHT + _LIFT
    if slot.ball is None:
        return f'<circle cx="{slot.x:.1f}" cy="{y:.1f}" r="2.6" fill="{EDGE}"/>'
    return _ball(slot.ball, slot.x, y)


def _ball(ball: OrderBall, x: float, y: float) -> str:
    title = _title(ball)
    if ball.kind is Kind.NOT_READ or ball.shape is None:
        bar = f"M{x - 6:.1f} {y:.1f}h12m0 -3v6m-12 0v-6"
        return f"<g><title>{escape(title)}</title>{stroke(bar, colour=INK_2, width=2.0)}</g>"
    small = ball.kind in {Kind.NOT_OURS, Kind.WARM_UP}
    shape = club_shape(
        ball.shape,
        x,
        y,
        5.0 if small else 7.4,
        hollow=ball.kind is Kind.WAITING,
        past=small,
        title=title,
    )
    if ball.kind is Kind.NOT_OURS:
        shape += stroke(f"M{x - 7:.1f} {y + 9:.1f}l14 -18", colour=INK, width=1.8)
    if ball.odd:
        shape += stroke(f"M{x - 6:.1f} {y - 12:.1f}q3 -5 6 -1t6 -1", colour=INK, width=1.6)
    return shape


def _title(ball: OrderBall) -> str:
    told = [f"Ball {ball.number}" if ball.number else "", ball.club or "no club in hand"]
    told += [] if ball.kind is Kind.READ else [str(ball.kind)]
    told += ["odd, counts for less"] if ball.odd else []
    return ", ".join(part for part in told if part)


def _key(balls: Sequence[OrderBall]) -> str:
    """Say what the signs mean that stand on this strip."""
    kinds = {ball.kind for ball in balls}
    told = ["bar: not read"] if Kind.NOT_READ in kinds else []
    told += ["slash: not ours"] if Kind.NOT_OURS in kinds else []
    told += ["wave: odd"] if any(ball.odd for ball in balls) else []
    told += ["small: warm-up"] if Kind.WARM_UP in kinds else []
    told += ["hollow: waits"] if Kind.WAITING in kinds else []
    told += ["gap: rest"] if any(ball.rested for ball in balls[1:]) else []
    return " · ".join(told)
