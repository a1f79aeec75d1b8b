"""Training cases that are played through in a room in memory, as their order of play says."""

from collections.abc import Sequence
from datetime import timedelta
from pathlib import Path
from tempfile import mkdtemp

from fakes import MemoryStore
from loftwright.domain.acts import HandedOver, NotRead
from loftwright.services.acting import act
from loftwright.services.settings import Settings
from loftwright.services.studio import Studio
from loftwright.services.training_bay import call_case, open_case, training_ball
from loftwright.services.training_debrief import LookBack, look_back
from loftwright.services.training_room import settle
from loftwright.training.debrief import TOO_CLOSE
from studios import Clock

SECONDS_A_BALL = 35.0


def room_in_memory(clock: Clock | None = None) -> Studio:
    """Return a training studio whose store is a dictionary."""
    folder = Path(mkdtemp(prefix="loftwright-"))
    room = Studio(store=MemoryStore(), folder=folder, clock=clock or Clock())
    settle(room, Settings())
    return room


def sets_of(room: Studio, fitting: str) -> Sequence[tuple[str, int]]:
    """Return the order of play that hangs in the bay."""
    plan = room.standing(fitting).plan
    assert plan is not None
    return plan.plan.sets


def hit_all(
    room: Studio,
    fitting: str,
    clock: Clock,
    *,
    says_unread: bool = True,
    seconds: float = SECONDS_A_BALL,
) -> None:
    """Hit every ball of the order of play."""
    for club, balls in sets_of(room, fitting):
        act(room, fitting, [HandedOver(club=club)])
        for _ in range(balls):
            clock.at += timedelta(seconds=seconds)
            taken = training_ball(room, fitting)
            if taken.number == 0 and says_unread:
                act(room, fitting, [NotRead()])


def played(
    case: str,
    *,
    seed: int | None = None,
    call: str = TOO_CLOSE,
    says_unread: bool = True,
    seconds: float = SECONDS_A_BALL,
) -> LookBack:
    """Play a case through by its order of play and look back on it."""
    clock = Clock()
    room = room_in_memory(clock)
    fitting = open_case(room, case, seed=seed)
    hit_all(room, fitting, clock, says_unread=says_unread, seconds=seconds)
    call_case(room, fitting, call)
    return look_back(room, fitting)
