"""Take in balls: written once, in the record of the golfer who hits."""

from collections.abc import Sequence
from dataclasses import dataclass

from loftwright.domain.acts import Act, NotRead, ShotArrived
from loftwright.domain.fitting import Fitting
from loftwright.domain.numbers import ShotNumbers
from loftwright.errors import ConflictError, NotFoundError
from loftwright.services.acting import act
from loftwright.services.studio import Studio
from loftwright.store.topics import BAY


@dataclass(frozen=True, slots=True, kw_only=True)
class Incoming:
    """A ball as a feed, file or person tells of it.

    Attributes
    ----------
    key : str
        The sender's idempotency key, or one made from the device's own line.
    read : bool
        False for a ball that was hit and not read.
    after : int, optional
        Sequence of the ball it was hit after, where it was typed in later.
    problems : tuple of str
        What of it was left out and why.
    """

    numbers: ShotNumbers
    key: str
    club: str = ""
    line: str = ""
    time: str = ""
    device: str = ""
    read: bool = True
    after: int | None = None
    problems: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """What became of a ball.

    Attributes
    ----------
    fitting : str
        In whose record it stands.
    sequence : int
    number : int
        The ball's number as pages show it; 0 for a warm-up ball.
    repeated : bool
        Whether it was there already.
    """

    fitting: str
    sequence: int
    number: int
    club: str | None
    repeated: bool
    problems: tuple[str, ...] = ()


def take(studio: Studio, fitting: str, ball: Incoming, *, source: str, by: str = "") -> Taken:
    """Take one ball into the record of the golfer who hits.

    Parameters
    ----------
    studio : Studio
    fitting : str
        Whose page or address the sender knows; with two golfers taking turns the one who hits
        gets the ball.
    ball : Incoming
    source : str
        feed, folder, table, keyboard, sheet or virtual.
    by : str
        The device that sent it.

    Raises
    ------
    ConflictError
        If the fitting is closed, or the key is that of an act which is no ball.
    """
    # Were the turn given away between looking and writing, both golfers could get the ball.
    with studio.lock:
        opened = studio.store.fitting(fitting).value
        before = _where_known(studio, opened, ball.key)
        home = before or _hitting(studio, opened)
        now = act(studio, home, [_as_act(ball, source)], by=by or ball.device, key=ball.key)
    entry = next(one for one in reversed(studio.record(home)) if one.key == ball.key)
    if not isinstance(entry.act, ShotArrived | NotRead):
        raise ConflictError(
            f"the key {ball.key!r} belongs to something else that was done in this fitting",
            place="key",
            mend="Send the ball again under a key of its own; it was not taken.",
        )
    swing = now.swing(entry.sequence)
    return Taken(
        fitting=home,
        sequence=entry.sequence,
        number=swing.number if swing else 0,
        club=swing.club if swing else None,
        repeated=before is not None,
        problems=ball.problems,
    )


def take_all(
    studio: Studio, fitting: str, balls: Sequence[Incoming], *, source: str, by: str = ""
) -> tuple[Taken, ...]:
    """Take balls in their order of play; those that are there already are not taken twice."""
    return tuple(take(studio, fitting, ball, source=source, by=by) for ball in balls)


def hitting(studio: Studio, fitting: str) -> str:
    """Return the fitting whose golfer hits: this one, unless its partner has the turn."""
    return _hitting(studio, studio.store.fitting(fitting).value)


def switch_golfer(studio: Studio, fitting: str, *, version: int) -> int:
    """Say that this fitting's golfer hits now and return the new version.

    Raises
    ------
    ConflictError
        If another screen switched in the meantime.
    """
    bay = studio.store.fitting(fitting).value.bay
    changed = studio.store.set_hitting(bay, fitting, version=version)
    studio.hub.publish(f"{BAY}{bay}", changed)
    return changed


def _as_act(ball: Incoming, source: str) -> Act:
    if not ball.read:
        return NotRead(after=ball.after, club=ball.club)
    return ShotArrived(
        numbers=ball.numbers,
        club=ball.club,
        line=ball.line,
        time=ball.time,
        device=ball.device,
        source=source,
        after=ball.after,
    )


def _hitting(studio: Studio, opened: Fitting) -> str:
    turn = studio.store.hitting(opened.bay).value
    return turn if turn and turn in {opened.id, opened.partner} else opened.id


def was_taken(studio: Studio, fitting: str, key: str) -> bool:
    """Return whether a ball of this key came into a fitting, or into its partner's, already."""
    try:
        opened = studio.store.fitting(fitting).value
    except NotFoundError:
        return False
    return _where_known(studio, opened, key) is not None


def _where_known(studio: Studio, opened: Fitting, key: str) -> str | None:
    """Return the fitting of the couple that has a ball of this key already."""
    for one in (opened.id, opened.partner):
        if one is not None and any(entry.key == key for entry in studio.record(one)):
            return one
    return None
