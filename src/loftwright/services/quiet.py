"""Whether a fitting is under way in any bay, so that updates and backups wait for it."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Final

from loftwright.bay.replay import replay
from loftwright.errors import ConflictError
from loftwright.report.numbers import listed
from loftwright.services.overviews import may_be_open
from loftwright.services.studio import Studio
from loftwright.store.interface import Busy, Store
from loftwright.store.migrate import QUIET

WHATEVER: Final = "--even-while-running"
"""The option that does it all the same."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Running:
    """A fitting that is under way.

    Attributes
    ----------
    at : datetime
        When its newest act or ball was written.
    by : str
        The fitter, else who or what wrote it; empty where nobody said.
    """

    fitting: str
    bay: str
    by: str
    at: datetime


def running(studio: Studio) -> tuple[Running, ...]:
    """Return the fittings that are under way in any bay, the one written to last first."""
    maybe = [one.fitting for one in may_be_open(studio)]
    return running_in(studio.store, studio.now(), maybe) if maybe else ()


def running_in(
    store: Store, now: datetime, among: Collection[str] | None = None
) -> tuple[Running, ...]:
    """Return the fittings of a store that are under way at an instant; as `running`.

    A correction of a closed fitting does not open it again.
    """
    return tuple(
        Running(fitting=one.fitting, bay=one.bay, by=one.fitter or one.by, at=one.at)
        for one in store.busy(now - QUIET, among)
        if not replay(store.record(one.fitting)).closed
    )


def lately(found: Sequence[Running], now: datetime) -> tuple[Running, ...]:
    """Leave out fittings of which only an act from the future says that they are under way.

    A clock that ran ahead and was set right would else hold up work that nobody can wave through.
    """
    return tuple(one for one in found if one.at <= now + QUIET)


def refuse_while_running(store: Store, now: datetime, what: str, *, anyway: bool = False) -> None:
    """Refuse to do something to a studio while somebody is being fitted.

    Parameters
    ----------
    store : Store
    now : datetime
    what : str
        What would be done, as in "the studio is not copied".
    anyway : bool
        Do it all the same.

    Raises
    ------
    ConflictError
        If a fitting is under way; it says in which bays and by whom.
    """
    found = () if anyway else running_in(store, now)
    if found:
        raise ConflictError(
            f"{what} while {running_words(found, now)}",
            place="studio",
            mend=f"Close the fitting, or wait half an hour after its last ball; {WHATEVER} does "
            "it now, and what is written meanwhile is not in it.",
        )


def running_words(found: Sequence[Running | Busy], now: datetime) -> str:
    """Return who is fitted where, as in "a fitting runs in Bay 2 (Ann, 3 minutes ago)"."""
    told = [
        f"{one.bay} ({', '.join(part for part in (_by(one), _ago(now - one.at)) if part)})"
        for one in found
    ]
    return f"{'a fitting runs' if len(told) == 1 else 'fittings run'} in {listed(told)}"


def _by(one: Running | Busy) -> str:
    return one.by if isinstance(one, Running) else one.fitter or one.by


def _ago(past: timedelta) -> str:
    minutes = max(round(past.total_seconds() / 60.0), 0)
    if minutes == 0:
        return "just now"
    return f"{minutes} minute{'' if minutes == 1 else 's'} ago"
