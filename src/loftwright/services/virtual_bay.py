"""The virtual golfer hits in a bay: invented balls through the same door as real ones."""

from typing import Final
from zlib import crc32

from loftwright.bay.now import FittingNow
from loftwright.bay.replay import replay
from loftwright.bay.setups import angles_of
from loftwright.domain.acts import Marked
from loftwright.domain.fitting import Mark
from loftwright.domain.numbers import FIELDS, ShotNumbers
from loftwright.errors import ConflictError, InputError
from loftwright.services.acting import act
from loftwright.services.settings import read_settings
from loftwright.services.shots import Incoming, Taken, take
from loftwright.services.studio import Studio, new_id
from loftwright.training.one_ball import VirtualPlayer

STRENGTH: Final = 2.0
_MARKS: Final = frozenset({"strike_toe", "strike_high"})


def virtual_ball(studio: Studio, fitting: str, *, marked: bool = True, by: str = "") -> Taken:
    """Let the virtual golfer hit one ball with the club in hand.

    Parameters
    ----------
    studio : Studio
    fitting : str
        An invented one: a real golfer's record takes no invented balls.
    marked : bool
        Whether the mark is read as well.

    Raises
    ------
    ConflictError
        If the fitting is a real golfer's, or closed.
    InputError
        If no club is in hand.
    """
    opened = studio.store.fitting(fitting).value
    if not opened.invented:
        raise ConflictError(
            "this is a real golfer's fitting",
            place=fitting,
            mend="Let the virtual golfer hit in the demo; invented balls stay out of records.",
        )
    now = replay(studio.record(fitting))
    names = [club.name for club in now.clubs]
    if now.in_hand is None or now.in_hand not in names:
        raise InputError("no club is in hand", place="club", mend="Hand one over first.")
    golfer = studio.store.golfer(opened.golfer).value
    player = VirtualPlayer(
        seed=crc32(studio.store.identity(golfer.id).name.encode()),
        ability=golfer.ability or "mid",
        hand=golfer.hand.value,
        strength=STRENGTH,
    )
    loft, face = _against_own(studio, now, now.in_hand)
    shot = player.hit(names.index(now.in_hand), now.swings_today, loft=loft, face=face)
    told = {name: getattr(shot, name) for name in FIELDS if name not in _MARKS}
    taken = take(
        studio,
        fitting,
        Incoming(numbers=ShotNumbers(**told), key=new_id(), device="virtual golfer"),
        source="virtual",
        by=by or "virtual golfer",
    )
    if marked and shot.strike_toe is not None and shot.strike_high is not None:
        mark = Mark(toe=shot.strike_toe, high=shot.strike_high)
        act(studio, fitting, [Marked(mark=mark, ball=taken.sequence)], by=by or "virtual golfer")
    return taken


def _against_own(studio: Studio, now: FittingNow, name: str) -> tuple[float, float]:
    """Return how a club's loft and face stand against the own one's, as their sleeves sit."""
    convention = read_settings(studio).settings.convention
    club, own = now.club(name), now.clubs[0]
    if club is None:
        return 0.0, 0.0
    setting = club.card.setting if now.seen is None else now.seen
    hit = angles_of(club.card, setting, convention)
    usual = angles_of(own.card, own.card.setting, convention)
    return hit.loft - usual.loft, hit.face - usual.face
