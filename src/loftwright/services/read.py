"""From a file of shots to a decision."""

from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.domain.device import Column, Origin
from loftwright.domain.home import Home
from loftwright.domain.names import OWN
from loftwright.domain.shot import Refusal, Shot, ShotTable
from loftwright.errors import EvidenceError, InputError
from loftwright.evidence.balls import Balls, SpareMark
from loftwright.evidence.budget import Budget
from loftwright.evidence.clubs import ClubTraits
from loftwright.evidence.compare import can_be_valued, compare, decide
from loftwright.evidence.delivery_doubts import delivery_alarms
from loftwright.evidence.device_carry import decide_on_carry
from loftwright.evidence.result import Decision
from loftwright.evidence.visit import Beliefs
from loftwright.intake.options import Handedness, ReadOptions
from loftwright.intake.table import read_shots

_OWN_LABELS: Final = {OWN.lower(), "yours", "current"}
_DELIVERY: Final = ("head speed", "attack", "path", "face")
_MARKS: Final = ("strike toe", "strike high")


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """A file of shots, read and decided.

    Attributes
    ----------
    path : Path
    table : ShotTable
        With every row that is no ball of the comparison among its refusals.
    decision : Decision
    hand : {"right", "left"}
    """

    path: Path
    table: ShotTable
    decision: Decision
    hand: Handedness

    @property
    def odd(self) -> int:
        """Balls that count for less than half."""
        return len(self.decision.odd_balls)

    @property
    def used(self) -> int:
        """Balls that count in full."""
        return len(self.table.shots) - self.odd


def read_fitting(
    path: Path,
    *,
    options: ReadOptions | None = None,
    home: Home | None = None,
    own: str | None = None,
    balls_left: int | None = None,
    minutes_left: float | None = None,
    same_head: bool = False,
    beliefs: Beliefs | None = None,
) -> Reading:
    """Read a file of shots and compare its clubs.

    Parameters
    ----------
    path : Path
        A table of shots; it is never changed.
    options : ReadOptions, optional
        What is settled of its columns, rows and the golfer's hand.
    home : Home, optional
        The course a club is chosen for; the standard hole without it.
    own : str, optional
        The golfer's own club as the file calls it. Without it a club labelled yours, own or
        current is taken.
    balls_left : int, optional
    minutes_left : float, optional
    same_head : bool
        All clubs are built on one head, so that they differ by shaft, length and setting alone;
        otherwise the balls decide whether heads differ.
    beliefs : Beliefs, optional

    Returns
    -------
    Reading

    Raises
    ------
    IntakeError
        If the file cannot be read, or its columns leave a doubt.
    InputError
        If the own club is not in the file.
    EvidenceError
        If no ball can be used.
    """
    options = options or ReadOptions()
    read = read_shots(path, options)
    table = _without_unusable(read)
    if not table.shots:
        raise EvidenceError(
            f"none of its {table.read} rows is a ball that can be compared",
            place=str(path),
            mend="See the reasons beside the rows: " + _reasons(table),
        )
    believed = beliefs or Beliefs()
    if options.hand == "left":
        believed = replace(believed, head=believed.head.mirrored())
    balls = balls_of(table, options.hand, own, tuple(shot for shot in read.shots if not shot.read))
    if same_head:
        traits = tuple(ClubTraits(head="one", shaft=club) for club in balls.clubs)
        believed = replace(believed, traits=traits)
    seconds = None if minutes_left is None else 60.0 * minutes_left
    budget = Budget(balls=balls_left, seconds=seconds)
    if can_be_valued(balls):
        comparison = compare(balls, home or Home(), believed)
        doubts = tuple(one.say for one in delivery_alarms(comparison.visit.setup))
        decision = decide(comparison, budget)
        decision = replace(decision, warnings=(*decision.warnings, *doubts))
    else:
        decision = decide_on_carry(balls, believed, budget)
    return Reading(path=path, table=table, decision=decision, hand=options.hand)


def _reasons(table: ShotTable) -> str:
    first = [f"row {refusal.row}: {refusal.why}" for refusal in table.refused[:3]]
    return "; ".join(first) + ("." if first else "there is none.")


def _launch(shot: Shot) -> tuple[float | None, ...]:
    return (shot.ball_speed, shot.launch, shot.spin, shot.axis, shot.direction)


def _without_unusable(table: ShotTable) -> ShotTable:
    """Move rows that cannot enter the comparison to the refusals; marks of unread balls stay.

    What was calculated is named: it counts as not measured.
    """
    valued = any(None not in _launch(shot)[:3] for shot in table.shots if shot.read)
    kept = []
    refused = list(table.refused)
    for shot in table.shots:
        numbers = _launch(shot)[:3] if valued else (shot.ball_speed, shot.carry)
        if not shot.read:
            refused.append(Refusal(row=shot.row, why="hit, not read"))
        elif all(number is None for number in numbers):
            refused.append(Refusal(row=shot.row, why="no launch number in it"))
        else:
            kept.append(shot)
    refused.sort(key=lambda refusal: refusal.row)
    doubts = [
        f"{column.column!r}, {column.means}, was calculated, so it explains nothing and counts as "
        "not measured"
        for column in _calculated(table)
    ]
    return replace(
        table,
        shots=tuple(kept),
        refused=tuple(refused),
        warnings=(*table.warnings, *doubts),
    )


def balls_of(
    table: ShotTable, hand: Handedness, own: str | None, unread: tuple[Shot, ...] = ()
) -> Balls:
    """Return the table's shots as arrays in world signs.

    Parameters
    ----------
    table : ShotTable
    hand : {"right", "left"}
        A left-hander's face, path and strike change sign; nothing else does.
    own : str, optional
        The golfer's own club as the file calls it.
    unread : tuple of Shot
        Balls hit but not read, whose marks may belong to a set of unknown order.

    Raises
    ------
    InputError
        If the own club is not in the file.
    """
    shots = table.shots
    hidden = {column.means for column in _calculated(table)}
    clubs = tuple(dict.fromkeys(shot.club for shot in shots))
    side = -1.0 if hand == "left" else 1.0
    sets = {name: i for i, name in enumerate(dict.fromkeys(s.mark_set for s in shots))}
    return Balls(
        clubs=clubs,
        own=_own(clubs, own),
        club=np.array([clubs.index(shot.club) for shot in shots]),
        row=np.array([shot.row for shot in shots]),
        order=np.array([float(shot.order) for shot in shots]),
        launch=_floats([_launch(shot) for shot in shots]),
        delivery=_floats(
            [(s.head_speed, s.attack, _signed(s.path, side), _signed(s.face, side)) for s in shots]
        )
        * _shown(_DELIVERY, hidden),
        marks=_floats([(_signed(s.strike_toe, side), s.strike_high) for s in shots])
        * _shown(_MARKS, hidden),
        mark_set=np.array([-1 if s.mark_set is None else sets[s.mark_set] for s in shots]),
        carry=_floats([(shot.carry,) for shot in shots])[:, 0],
        spare_marks=tuple(
            SpareMark(mark_set=sets[s.mark_set], toe=side * s.strike_toe, high=s.strike_high)
            for s in unread
            if s.mark_set in sets
            and s.mark_set is not None
            and not hidden.intersection(_MARKS)
            and s.strike_toe is not None
            and s.strike_high is not None
        ),
    )


def _calculated(table: ShotTable) -> list[Column]:
    """Return columns that cannot explain launch, because the device worked them out from it."""
    explaining = {*_DELIVERY, *_MARKS}
    return [
        column
        for column in table.columns
        if column.origin is Origin.CALCULATED and column.means in explaining
    ]


def _shown(names: tuple[str, ...], hidden: set[str]) -> FloatArray:
    """Return one for each column that may be used, and no number for the others."""
    return np.array([np.nan if name in hidden else 1.0 for name in names])


def _signed(number: float | None, side: float) -> float | None:
    return None if number is None else side * number


def _floats(rows: list[tuple[float | None, ...]]) -> FloatArray:
    return np.array([[np.nan if cell is None else cell for cell in row] for row in rows])


def _own(clubs: tuple[str, ...], own: str | None) -> int | None:
    if own is not None:
        if own not in clubs:
            raise InputError(
                f"no club is called {own!r}",
                place="own",
                mend="The file's clubs are " + ", ".join(clubs) + ".",
            )
        return clubs.index(own)
    labelled = [i for i, club in enumerate(clubs) if club.strip().lower() in _OWN_LABELS]
    return labelled[0] if len(labelled) == 1 else None
