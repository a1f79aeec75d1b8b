"""The virtual golfer hits in a bay: invented balls through the same door as real ones."""

from typing import Final
from zlib import crc32

from loftwright.bay.now import FittingNow
from loftwright.bay.replay import replay
from loftwright.bay.setups import angles_of
from loftwright.domain.acts import Marked, ShotArrived
from loftwright.domain.fitting import Fitting, Mark
from loftwright.domain.numbers import FIELDS, ShotNumbers
from loftwright.domain.shot import Shot
from loftwright.errors import ConflictError, InputError
from loftwright.services.acting import act
from loftwright.services.settings import read_settings
from loftwright.services.shots import Incoming, Taken, hitting, take
from loftwright.services.studio import Studio, new_id
from loftwright.services.training_bay import training_ball
from loftwright.services.training_plays import is_training
from loftwright.training.golfer import ABILITIES
from loftwright.training.one_ball import VirtualPlayer

STRENGTH: Final = 2.0
SOURCE: Final = "virtual"
PLAYER: Final = "virtual golfer"
USUAL: Final = "mid"
"""The ability of a golfer of whom none is known that the virtual one has."""

_MARKS: Final = frozenset({"strike_toe", "strike_high"})


def virtual_ball(
    studio: Studio, fitting: str, *, marked: bool = True, by: str = "", key: str = ""
) -> Taken:
    """Let the virtual golfer hit one ball with the club in hand.

    Parameters
    ----------
    studio : Studio
    fitting : str
        An invented one: a real golfer's record takes no invented balls. With two golfers taking
        turns, the one who has the turn hits. In a training case its own golfer hits, and marks
        are read at once.
    marked : bool
        Whether the mark is read as well; `virtual_mark` reads it later.
    by : str
    key : str
        Idempotency key; the same key hits once.

    Raises
    ------
    ConflictError
        If the fitting is a real golfer's, or closed.
    InputError
        If no club is in hand.
    """
    if is_training(fitting):
        return training_ball(studio, fitting, by=by, key=key)
    home = _invented(studio, hitting(studio, fitting))
    shot = _hit(studio, home, studio.standing(home.id))
    told = {name: getattr(shot, name) for name in FIELDS if name not in _MARKS}
    ball = Incoming(numbers=ShotNumbers(**told), key=key or new_id(), device=PLAYER)
    taken = take(studio, home.id, ball, source=SOURCE, by=by or PLAYER)
    if marked and not taken.repeated:
        _mark(studio, home.id, taken.sequence, shot, by)
    return taken


def virtual_mark(studio: Studio, fitting: str, ball: int, *, by: str = "") -> bool:
    """Read the mark that a ball of the virtual golfer left on the face.

    Parameters
    ----------
    studio : Studio
    fitting : str
        The one whose record holds the ball.
    ball : int
        Its sequence in the record.
    by : str

    Returns
    -------
    bool
        False where the face shows none, or the mark was read already.

    Raises
    ------
    ConflictError
        If the fitting is a real golfer's.
    InputError
        If the ball is none of the virtual golfer's.
    """
    if is_training(fitting):
        return False
    home = _invented(studio, fitting)
    record = studio.record(home.id)
    known = record[ball - 1].act if 0 < ball <= len(record) else None
    if not isinstance(known, ShotArrived) or known.source != SOURCE:
        raise InputError(
            f"{ball} is no ball of the virtual golfer", place="ball", mend="Let one be hit first."
        )
    swing = replay(record).swing(ball)
    if swing is None or swing.mark is not None:
        return False
    # The player hits the same ball again from where the record stood before it.
    return _mark(studio, home.id, ball, _hit(studio, home, replay(record[: ball - 1])), by)


def _invented(studio: Studio, fitting: str) -> Fitting:
    opened = studio.store.fitting(fitting).value
    if not opened.invented:
        raise ConflictError(
            "this is a real golfer's fitting",
            place=fitting,
            mend="Let the virtual golfer hit in the demo; invented balls stay out of records.",
        )
    return opened


def _hit(studio: Studio, opened: Fitting, now: FittingNow) -> Shot:
    names = [club.name for club in now.clubs]
    if now.in_hand is None or now.in_hand not in names:
        raise InputError("no club is in hand", place="club", mend="Hand one over first.")
    golfer = studio.store.golfer(opened.golfer).value
    known = golfer.ability or USUAL
    player = VirtualPlayer(
        seed=crc32(studio.store.identity(golfer.id).name.encode()),
        ability=known if known in ABILITIES else USUAL,
        hand=golfer.hand.value,
        strength=STRENGTH,
    )
    loft, face = _against_own(studio, now, now.in_hand)
    return player.hit(names.index(now.in_hand), now.swings_today, loft=loft, face=face)


def _mark(studio: Studio, fitting: str, ball: int, shot: Shot, by: str) -> bool:
    if shot.strike_toe is None or shot.strike_high is None:
        return False
    mark = Mark(toe=shot.strike_toe, high=shot.strike_high)
    act(studio, fitting, [Marked(mark=mark, ball=ball)], by=by or PLAYER)
    return True


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
